//! The words of the notation, and what the rules of its grammar are called in the trade.

use super::grammar::Rule;

/// The papers.
pub(super) const PAPERS: [&str; 2] = ["letter", "a4"];
/// What a plan may be wished to be like.
pub(super) const WISHES: [&str; 7] =
    ["papers", "match-points", "equal-papers", "long-seams", "nesting", "darker-side", "turn-slack"];
/// How rough cuts may be turned, and what they may be cut as.
pub(super) const CUTS: [&str; 9] = [
    "along-seam",
    "on-grain",
    "outer-edges-on-grain",
    "least-cloth",
    "rectangle",
    "half-square",
    "quarter-square",
    "triangles",
    "trapezoid",
];
/// The words for an ease.
pub(super) const EASES: [&str; 3] = ["snug", "usual", "roomy"];
/// The words for how fabric is bought that comes off no bolt.
pub(super) const PRECUTS: [&str; 2] = ["fat-quarters", "fat-eighths"];
/// Which plan for cutting may be preferred.
pub(super) const PLANS: [&str; 2] = ["few-widths", "least-cloth"];
/// The papers that foundations may be printed on, rolls aside.
pub(super) const SHEET_PAPERS: [&str; 5] = ["letter", "legal", "tabloid", "a4", "a3"];
/// How sheets may be wished to be filled, beside what is said with a length or a part.
pub(super) const SHEETS: [&str; 6] =
    ["fewest-printed", "turned-freely", "turned-by-quarters", "unturned", "blocks-apart", "units-apart"];
/// The languages that a packet may be in.
pub(super) const LANGUAGES: [&str; 2] = ["en", "de"];
/// The words for how a fabric is printed.
pub(super) const PRINTS: [&str; 4] = ["one-way", "two-way", "directional", "across"];
/// The regular figures that a grid may be.
pub(super) const FIGURES: [&str; 4] = ["triangle", "pentagon", "hexagon", "octagon"];

/// The words that start a line.
pub(super) const FIRST: [&str; 53] = [
    "pattern",
    "edition",
    "author",
    "date",
    "licence",
    "finished",
    "sizes",
    "allowance",
    "ease",
    "paper",
    "fabric",
    "colouring",
    "use",
    "skill",
    "contact",
    "report",
    "about",
    "tool",
    "history",
    "language",
    "logo",
    "photo",
    "wishes",
    "cut",
    "fussy",
    "turn-slack",
    "cloth",
    "squaring",
    "shrinkage",
    "cutting",
    "have",
    "sheets",
    "measure",
    "note",
    "allow",
    "block",
    "copies",
    "outline",
    "point",
    "points",
    "unit",
    "place",
    "join",
    "partial",
    "inset",
    "step",
    "patch",
    "plain",
    "seam",
    "pieced",
    "strips",
    "sewn",
    "up",
];

/// The words with which points, lines and areas start.
pub(super) const LEADING: [&str; 11] =
    ["middle", "mirror", "turn", "meet", "foot", "upright", "level", "distance", "beyond", "around", "side"];

/// Words that authors may try, and the ones they mean.
pub(super) const OTHER_WORDS: [(&str, &str); 34] = [
    ("license", "licence"),
    ("title", "pattern"),
    ("name", "pattern"),
    ("version", "edition"),
    ("designer", "author"),
    ("size", "finished"),
    ("import", "use"),
    ("include", "use"),
    ("color", "fabric"),
    ("colour", "fabric"),
    ("line", "seam"),
    ("comment", "note"),
    ("times", "copies"),
    ("repeat", "copies"),
    ("section", "unit"),
    ("shape", "outline"),
    ("let", "measure"),
    ("strip", "strips"),
    ("sew", "join"),
    ("ignore", "allow"),
    ("level", "skill"),
    ("difficulty", "skill"),
    ("email", "contact"),
    ("website", "contact"),
    ("errata", "report"),
    ("publisher", "about"),
    ("description", "about"),
    ("notion", "tool"),
    ("changes", "history"),
    ("colorway", "colouring"),
    ("colourway", "colouring"),
    ("sign", "logo"),
    ("picture", "photo"),
    ("image", "photo"),
];

/// Whether a rule is a mere word or mark, which says nothing beyond the rule it stands in.
pub(super) fn is_mark(rule: Rule) -> bool {
    is_word(rule) || matches!(rule, Rule::line_end | Rule::comma | Rule::dashes | Rule::deg | Rule::percent)
}

/// Whether a rule is one word of the notation. Those stand together in the grammar.
pub(super) fn is_word(rule: Rule) -> bool {
    (Rule::kw_about as usize..=Rule::kw_x as usize).contains(&(rule as usize))
}

/// What the author would have to write where the rule was looked for.
pub(super) fn phrase(rule: Rule) -> Option<String> {
    let words = match rule {
        // The words with which points, lines and areas start stand for all the ways to give one.
        Rule::kw_middle | Rule::kw_mirror | Rule::kw_turn | Rule::kw_meet | Rule::kw_foot => {
            "where the point lies, such as `8, 0` or `middle a -- b`"
        }
        Rule::kw_upright | Rule::kw_level => "a line: `A -- B`, `upright X` or `level Y`",
        Rule::kw_beyond | Rule::kw_around => "points joined by `--`, `beyond` and a line, or `around` and a point",
        Rule::kw_with => "`with a as b`",
        rule if is_word(rule) => return Some(format!("`{}`", word(rule))),
        Rule::name => "a name",
        Rule::number => "a number",
        Rule::text => "a text in double quotes",
        Rule::colour => "a colour such as `#22314e`",
        Rule::date => "a date such as `2026-11-01`",
        Rule::length => "a length such as `8 in`",
        Rule::length_unit => "a unit of length: `in`, `yd`, `cm` or `mm`",
        Rule::finished_size => "a finished size such as `8 in`",
        Rule::side_size => "`side 4 in`",
        Rule::grid => "a grid such as `16 x 16` or `hexagon side 8`",
        Rule::deg => "`deg`",
        Rule::percent => "`%`",
        Rule::angle => "an angle such as `45 deg`",
        Rule::sum | Rule::term | Rule::minus => "a number or a measure",
        Rule::operator => "`+`, `-`, `*` or `/`",
        Rule::comma => "`,`",
        Rule::dashes => "`--`",
        Rule::point | Rule::coordinates => "a point: its name, or `X, Y`",
        Rule::path => "a path such as `a -- b -- c`",
        Rule::line | Rule::upright | Rule::level => "a line: `A -- B`, `upright X` or `level Y`",
        Rule::through => "a line `A -- B`",
        Rule::shape => "points joined by `--`, `beyond` and a line, or `around` and a point",
        Rule::beyond => "`beyond` and a line",
        Rule::around => "`around` and a point",
        Rule::target => "the number of a section or the name of a join",
        Rule::middle | Rule::mirror | Rule::turn | Rule::meet | Rule::foot | Rule::measured | Rule::placed => {
            "where the point lies, such as `8, 0` or `middle a -- b`"
        }
        Rule::cut_word => "a way to cut such as `on-grain` or `triangles`",
        Rule::ease_word => "`snug`, `usual` or `roomy`",
        Rule::precut => "`fat-quarters` or `fat-eighths`",
        Rule::for_piece => "`for` and a section or a fabric",
        Rule::piece => "the number of a section or the key of a fabric",
        Rule::for_fabric => "`for` and the key of a fabric",
        Rule::motif => "`at` and a point",
        Rule::sheets_wish | Rule::sheets_word => {
            "a wish for the sheets such as `on tabloid`, `margin 1/4 in` or `blocks-apart`"
        }
        Rule::medium => "a paper: `letter`, `legal`, `tabloid`, `a4`, `a3`, or `roll` and its width",
        Rule::roll => "`roll` and its width",
        Rule::sheets_on => "`on` and a paper",
        Rule::sheets_margin => "`margin` and a length",
        Rule::sheets_gap => "`gap` and a length",
        Rule::few_different => "`fewest-different within` and a part in per cent",
        Rule::distance => "`distance A -- B`",
        Rule::along => "`along A -- B`",
        Rule::toward => "`toward` and a point",
        Rule::bearing => "`at` and an angle",
        Rule::row => "`from A to B`",
        Rule::ring => "`round P from A`",
        Rule::fabrics => "the key of a fabric",
        Rule::apart => "`apart`",
        Rule::change | Rule::moved | Rule::turned | Rule::mirrored | Rule::recoloured | Rule::repeated => {
            "a change: `moved`, `turned`, `mirrored`, `with`, or `8 in all`"
        }
        Rule::called => "`as` and a name",
        Rule::recolour => "`a as b`",
        Rule::round => "`round` and a point",
        Rule::every => "`every X, Y`",
        Rule::member | Rule::place_ref => "the name of a place",
        Rule::pressed => "`pressed open` or `pressed toward NAME`",
        Rule::pressed_toward => "`toward` and the name of a place",
        _ => return None,
    };
    Some(words.to_owned())
}

/// The word that a rule stands for: the rules are named after their words.
pub(super) fn word(rule: Rule) -> String {
    format!("{rule:?}").trim_start_matches("kw_").replace('_', "-")
}

/// The words with which what a rule takes may start.
pub(super) fn first_words(rule: Rule) -> Vec<String> {
    let words: &[&str] = match rule {
        rule if is_word(rule) => return vec![word(rule)],
        Rule::change => &["as", "moved", "turned", "mirrored", "with"],
        Rule::called => &["as"],
        Rule::moved => &["moved"],
        Rule::turned => &["turned"],
        Rule::mirrored => &["mirrored"],
        Rule::recoloured => &["with"],
        Rule::pressed => &["pressed"],
        Rule::pressed_toward | Rule::toward => &["toward"],
        Rule::along => &["along"],
        Rule::bearing | Rule::motif => &["at"],
        Rule::row => &["from"],
        Rule::ring | Rule::round => &["round"],
        Rule::every => &["every"],
        Rule::for_piece | Rule::for_fabric => &["for"],
        Rule::percent => &["percent"],
        Rule::sheets_on => &["on"],
        Rule::sheets_margin => &["margin"],
        Rule::sheets_gap => &["gap"],
        Rule::roll => &["roll"],
        Rule::few_different => &["fewest-different"],
        Rule::apart => &["apart"],
        Rule::deg => &["deg"],
        Rule::beyond => &["beyond"],
        Rule::around => &["around"],
        _ => &[],
    };
    words.iter().map(|&word| word.to_owned()).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::notation::grammar::Grammar;
    use pest::Parser;

    #[test]
    fn every_word_rule_is_named_after_its_word() {
        let mut words = 0;
        for &rule in Rule::all_rules() {
            let named = format!("{rule:?}").starts_with("kw_");
            assert_eq!(named, is_word(rule), "{rule:?}");
            if named {
                assert!(Grammar::parse(rule, &word(rule)).is_ok(), "{rule:?}");
                words += 1;
            }
        }
        assert!(words > 50);
    }

    #[test]
    fn the_first_words_are_those_of_the_grammar() {
        for word in FIRST {
            assert!(Grammar::parse(Rule::known_word, word).is_ok(), "{word}");
        }
        for (other, meant) in OTHER_WORDS {
            assert!(Grammar::parse(Rule::known_word, other).is_err(), "{other}");
            assert!(FIRST.contains(&meant), "{meant}");
        }
    }
}
