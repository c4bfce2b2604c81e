//! Sources at the edge of what an author may write: very long words, very many things, very small and very large blocks.

/// A source and what is extreme in it.
pub struct Extreme {
    pub name: &'static str,
    pub source: String,
}

/// So many letters of plain words about the harbour, with a blank between words or without.
fn letters(count: usize, blanks: bool) -> String {
    let words = ["Nebelhorn", "over", "the", "outer", "quay", "boats", "come", "home", "before", "weather", "lantern"];
    let mut text = String::new();
    for word in words.iter().cycle() {
        if text.len() >= count {
            break;
        }
        if blanks && !text.is_empty() {
            text.push(' ');
        }
        text.push_str(word);
    }
    text.truncate(count);
    // A text does not end in a blank.
    if text.ends_with(' ') {
        text.pop();
        text.push('y');
    }
    text
}

/// A name of 60 letters without blanks, as units and blocks have them.
fn long_name(start: &str) -> String {
    format!("{start}-{}", letters(59 - start.len(), false).to_lowercase())
}

/// The lines of so many fabrics `f1`, `f2`, …, named by their number.
fn fabrics(count: usize, name: impl Fn(usize) -> String) -> String {
    each(count, |number| {
        let colour = (number * 2_654_435) % 0x00ff_ffff;
        format!("fabric f{number} \"{}\" #{colour:06x}\n", name(number))
    })
}

/// What is written for each number from 1.
fn each(count: usize, written: impl Fn(usize) -> String) -> String {
    (1..=count).map(written).collect::<Vec<_>>().concat()
}

/// A pattern of a head, its fabrics, and its blocks.
fn pattern(head: &str, fabrics: &str, blocks: &str) -> String {
    let title = if head.contains("pattern ") { "" } else { "pattern \"Quay\"\nedition \"1.0\"\n" };
    let finished = if head.contains("finished ") { "" } else { "finished 6 in\n" };
    format!("{title}{finished}paper letter, a4\n{head}\n{fabrics}\n{blocks}\n")
}

/// Two units, the lower one with three sections, in a block of this name; the further lines stand in the upper unit.
fn block(name: &str, units: (&str, &str), further: &str) -> String {
    let (upper, lower) = units;
    format!(
        "block {name} 8 x 8 {{\n  unit {upper} {{\n    outline 0, 0 -- 8, 0 -- 8, 4 -- 0, 4\n    1 f1 around 1, 1\n    2 f2 beyond 3, 0 -- 5, 4\n{further}  \
         }}\n  unit {lower} {{\n    outline 0, 4 -- 8, 4 -- 8, 8 -- 0, 8\n    1 f2 around 4, 6\n    2 f1 beyond 0, 6 -- 3, 8\n    3 f1 beyond 8, 6 -- 5, \
         8\n  }}\n}}\n"
    )
}

fn plain() -> String {
    block("quay", ("sky", "sea"), "")
}

/// A block of even strips in so many units, as many sections in each; its fabrics take turns.
fn strips(units: usize, sections: usize, fabrics: usize) -> String {
    let names: Vec<String> = (1..=fabrics).map(|number| format!("f{number}")).collect();
    let names = names.join(", ");
    // The grid has as many steps as there are units.
    let drawn = each(units, |unit| {
        let (from, to) = (unit - 1, unit);
        format!(
            "  unit rail-{unit} {{\n    outline 0, {from} -- {units}, {from} -- {units}, {to} -- 0, {to}\n    strips 1 to {sections} {names} from 0, \
             {from} -- 0, {to} to {units}, {from} -- {units}, {to}\n  }}\n"
        )
    });
    format!("block rail {units} x {units} {{\n{drawn}}}\n")
}

/// Plain pieces as narrow and as long as they become, level, upright and slanting, joined to paper and to each other.
fn quays() -> String {
    let bricks = each(12, |n| {
        let (from, to) = (2 * (n - 1), 2 * n);
        format!("  plain brick-{n} f{} {from}, 5 -- {to}, 5 -- {to}, 8 -- {from}, 8\n", 1 + n % 2)
    });
    format!(
        "block quay 24 x 24 {{\n  unit sky {{\n    outline 0, 0 -- 24, 0 -- 24, 5 -- 0, 5\n    1 f1 around 12, 1\n    2 f2 beyond 0, 3 -- 24, \
         4\n  }}\n{bricks}  plain rail f1 0, 8 -- 24, 8 -- 24, 8 1/2 -- 0, 8 1/2\n  unit sea {{\n    outline 0, 8 1/2 -- 24, 8 1/2 -- 24, 24 -- \
         0, 24\n    1 f2 around 12, 12\n    2 f1 beyond level 20\n  }}\n  allow off-the-ruler\n  allow narrow-section\n}}\n"
    )
}

/// Sections of many strips, of very narrow and very short ones, level, upright and slanting.
fn boats() -> String {
    let many = each(15, |n| format!("    pieced 1 f{} beyond upright {n} around {n}.5, 1\n", 1 + n % 6));
    format!(
        "block boat 16 x 16 {{\n  unit sky {{\n    outline 0, 0 -- 16, 0 -- 16, 6 -- 0, 6\n    1 f1 around 2, 1\n{many}    2 f2 beyond 0, 3 -- \
         16, 4\n    pieced 2 f3 beyond 0, 5.9 -- 16, 6.9 around 15.9, 5.99\n  }}\n  unit sea {{\n    outline 0, 6 -- 16, 6 -- 16, 16 -- 0, 16\n    \
         1 f2 around 8, 7\n    2 f1 beyond 0, 8 -- 8, 16\n    pieced 2 f4 beyond 0, 15 -- 1, 16\n    3 f6 beyond 16, 8 -- 8, 16\n    pieced 3 f5 \
         beyond 16, 9 -- 9, 16\n    pieced 3 f4 beyond 16, 10 -- 10, 16\n  }}\n  allow off-the-ruler\n  allow narrow-section\n}}\n"
    )
}

/// All of them, each for both papers.
pub fn all() -> Vec<Extreme> {
    let few = fabrics(2, |number| format!("Fabric {number}"));
    let said = |word: &str, count: usize| format!("{word} \"{}\"\n", letters(count, true));
    let titled =
        |blanks: bool| format!("pattern \"{}\"\nedition \"1.0\"\nauthor \"Tern Point\"\n", letters(120, blanks));
    let colourings = each(20, |n| format!("colouring c{n} \"Colours of day {n}\" with f1 as f{}\n", n + 2));
    let history = each(200, |n| format!("history \"0.{n}\" 2026-03-14 \"{}\"\n", letters(20 + n, true)));
    let twenty = each(20, |n| block(&format!("light-{n}"), (&format!("sky-{n}"), &format!("sea-{n}")), ""));
    let own = format!("    step for 2 \"{}\"\n", letters(3000, true));
    let noted = format!("    note \"{0}\"\n    note on 2 \"{0}\"\n", letters(2000, true));
    let name = |number: usize, blanks: bool| format!("{number} {}", letters(58, blanks));
    let (unit, other) = (long_name("sky"), long_name("sea"));
    let extreme = |name: &'static str, source: String| Extreme { name, source };
    vec![
        extreme("a long title", pattern(&titled(true), &few, &plain())),
        extreme("a title without blanks", pattern(&titled(false), &few, &plain())),
        extreme(
            "a long author",
            pattern(&(said("author", 2000) + &said("contact", 2000) + &said("report", 2000)), &few, &plain()),
        ),
        extreme(
            "long terms",
            pattern(&(said("licence", 2000) + &said("skill", 2000) + &said("tool", 2000)), &few, &plain()),
        ),
        extreme("long words about itself", pattern(&said("about", 2000).repeat(3), &few, &plain())),
        extreme("long notes", pattern(&said("note", 2000), &few, &block("quay", ("sky", "sea"), &noted))),
        extreme("an own step", pattern("", &few, &block("quay", ("sky", "sea"), &own))),
        extreme("12 long fabrics", pattern("", &fabrics(12, |n| name(n, true)), &strips(2, 6, 12))),
        extreme("12 fabrics without blanks", pattern("", &fabrics(12, |n| name(n, false)), &strips(2, 12, 12))),
        extreme("24 fabrics", pattern("finished 12 in", &fabrics(24, |n| format!("Cloth {n}")), &strips(2, 24, 24))),
        extreme("long unit names", pattern("", &few, &block("quay", (&unit, &other), ""))),
        extreme(
            "long block names",
            pattern(
                "",
                &few,
                &(block(&long_name("quay"), (&unit, &other), "") + &block(&long_name("mole"), (&other, &unit), "")),
            ),
        ),
        extreme("1 section", pattern("", &few, "block flag 8 x 8 {\n  unit all {\n    1 f1 around 4, 4\n  }\n}\n")),
        extreme("80 sections", pattern("finished 20 in", &few, &strips(8, 10, 2))),
        extreme("40 strips", pattern("finished 40 cm", &few, &strips(1, 40, 2))),
        extreme("20 blocks", pattern("", &few, &twenty)),
        extreme("200 editions", pattern(&history, &few, &plain())),
        extreme("20 colourings", pattern(&colourings, &fabrics(22, |n| format!("Cloth {n}")), &plain())),
        extreme("1 in wide", pattern("finished 1 in", &few, &plain())),
        extreme("60 in wide", pattern("finished 60 in", &few, &plain())),
        extreme("150 cm wide", pattern("finished 150 cm", &few, &plain())),
        extreme(
            "tall",
            pattern(
                "finished 4 in x 12 in",
                &few,
                &plain().replace("8 x 8", "8 x 24").replace("-- 8, 8 -- 0, 8", "-- 8, 24 -- 0, 24"),
            ),
        ),
        extreme(
            "wide",
            pattern(
                "finished 16 in x 4 in",
                &few,
                "block pennant 32 x 8 {\n  unit all {\n    1 f1 around 30, 4\n    2 f2 beyond 20, 0 -- 12, 8\n  }\n}\n",
            ),
        ),
        extreme("plain pieces", pattern("", &few, &quays())),
        extreme("pieced sections", pattern("", &fabrics(6, |n| format!("Cloth {n}")), &boats())),
        extreme("nothing but what must be", pattern("", &few, &plain())),
    ]
}
