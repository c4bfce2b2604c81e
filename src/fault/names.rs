//! Words of the faults of names, statements and shared files.

use super::{Code, Fault};
use crate::notation::near::nearest;
use crate::notation::source::Span;

/// Names that an unknown one is compared with at the most.
pub const MOST_COMPARED: usize = 1_000;

/// A name that nothing defines. `kind` is what was looked for: "point", "fabric", ….
pub fn unknown_name<'c>(span: Span, kind: &str, name: &str, known: impl IntoIterator<Item = &'c str>) -> Fault {
    let fault = Fault::new(Code::UnknownName, format!("there is no {kind} `{name}`"), span);
    match nearest(name, known.into_iter().take(MOST_COMPARED)) {
        Some(near) => fault.with_help(format!("did you mean `{near}`?")).with_fix(
            format!("write `{near}`"),
            false,
            vec![(span, near.to_owned())],
        ),
        None if name.contains('-') && kind == "measure" => {
            fault.with_help("to take one number from another, put a blank on either side of the `-`")
        }
        None if kind == "fabric" && ["beyond", "around"].contains(&name) => {
            fault.with_help(format!("the fabric stands between the number and `{name}`: `2 night {name} …`"))
        }
        None if kind == "section" => fault.with_help("write the number of a section of this unit"),
        None if kind == "place" => fault.with_help(
            "write the name of a unit, of a place or of a join above; the places of one unit are `flag#1`, `flag#2`, … in the order in which they stand",
        ),
        None => fault.with_help(format!("define the {kind} `{name}` above this line, or use one that is there")),
    }
}

/// A name of another kind than is asked for here.
#[must_use]
pub fn other_kind(span: Span, name: &str, is: &str, asked: &str) -> Fault {
    Fault::new(Code::UnknownName, format!("`{name}` is a {is}, and a {asked} is asked for here"), span)
        .with_help(format!("write the name of a {asked}"))
}

/// A name that is defined twice.
#[must_use]
pub fn doubled_name(span: Span, name: &str, first: Option<Span>) -> Fault {
    let fault = Fault::new(Code::DoubledName, format!("the name `{name}` is taken twice"), span)
        .with_help("give one of the two another name");
    match first {
        Some(first) => fault.saying("taken again here").with_label(first, "first taken here"),
        None => fault.saying("the notation itself gives this name to a point of every block"),
    }
}

/// A name that the notation needs for itself.
#[must_use]
pub fn reserved_name(span: Span, name: &str) -> Fault {
    Fault::new(Code::ReservedName, format!("`{name}` is a word of the notation and cannot be a name"), span)
        .with_help(format!("add to it or choose another, for instance `{name}-1`"))
}

/// A unit's name where it has several places.
#[must_use]
pub fn unclear_place(span: Span, name: &str, places: usize) -> Fault {
    Fault::new(Code::UnclearPlace, format!("`{name}` stands in {places} places; say which"), span)
        .with_help(format!("write `{name}#1` … `{name}#{places}`, or name the places with `as`"))
}

/// A statement that must be there. `part` is what lacks it, `example` a line that would do.
#[must_use]
pub fn missing_statement(span: Option<Span>, what: &str, part: &str, example: &str) -> Fault {
    let message = format!("{part} has no {what}");
    let fault = match span {
        Some(span) => Fault::new(Code::MissingStatement, message, span),
        None => Fault::nowhere(Code::MissingStatement, message),
    };
    fault.with_help(format!("add a line such as `{example}`"))
}

/// A file that has all a shared file has, and nothing that makes a pattern.
pub fn shared_file_alone() -> Fault {
    Fault::nowhere(
        Code::MissingStatement,
        "this is a shared file and no pattern: it has no title, no edition and no block",
    )
    .with_help("name it in a pattern with a line such as `use \"palette.piece\"`, and check or build that pattern")
}

/// A statement that may stand but once.
#[must_use]
pub fn doubled_statement(span: Span, what: &str, first: Span) -> Fault {
    Fault::new(Code::DoubledStatement, format!("`{what}` is said twice"), span)
        .saying("said again here")
        .with_label(first, "first said here")
        .with_help("keep the one that holds and take the other out")
}

/// An edition of which the history tells twice.
#[must_use]
pub fn doubled_edition(span: Span, edition: &str, first: Span) -> Fault {
    Fault::new(Code::DoubledStatement, format!("the history tells of edition {edition} twice"), span)
        .saying("told again here")
        .with_label(first, "first told here")
        .with_help("say it all in one line, or correct the number of the edition")
}

/// A paper that is named twice.
#[must_use]
pub fn doubled_paper(span: Span, paper: &str, first: Span) -> Fault {
    Fault::new(Code::DoubledStatement, format!("the paper `{paper}` is named twice"), span)
        .with_label(first, "first named here")
        .with_help("name each paper once, the main one in front: `paper letter, a4`")
}

/// A fabric that one colouring exchanges twice.
#[must_use]
pub fn exchanged_twice(span: Span, fabric: &str, first: Span) -> Fault {
    Fault::new(Code::DoubledName, format!("the fabric `{fabric}` is exchanged twice in one colouring"), span)
        .saying("exchanged again here")
        .with_label(first, "first exchanged here")
        .with_help("keep one of the two; all exchanges of a colouring happen at once")
}

/// A fabric that a colouring exchanges and no section is sewn in.
#[must_use]
pub fn idle_exchange(span: Span, colouring: &str, fabric: &str) -> Fault {
    Fault::new(
        Code::UnusedName,
        format!("the colouring `{colouring}` exchanges the fabric `{fabric}`, which no section is sewn in"),
        span,
    )
    .with_help(format!(
        "exchange the fabrics as the blocks are drawn; all exchanges happen at once. \
         If it shall stay, write `allow {}`",
        Code::UnusedName.slug()
    ))
}

/// A colouring that the pattern does not have.
#[must_use]
pub fn no_such_colouring(wanted: &str, colourings: &[(&str, &str)]) -> Fault {
    let message = format!("the pattern has no colouring `{wanted}`");
    let fault = Fault::nowhere(Code::UnknownName, message);
    if colourings.is_empty() {
        return fault.with_help("it has none but the one it is drawn in; add a line `colouring KEY \"…\" with a as b`");
    }
    let all: Vec<String> = colourings.iter().map(|(key, title)| format!("`{key}` ({title})")).collect();
    match nearest(wanted, colourings.iter().flat_map(|&(key, title)| [key, title])) {
        Some(near) => fault.with_help(format!("did you mean `{near}`? There are {}", all.join(", "))),
        None => fault.with_help(format!("there are {}", all.join(", "))),
    }
}

/// A unit that is asked for but not there.
#[must_use]
pub fn no_such_unit(wanted: &str, units: &[&str]) -> Fault {
    let fault = Fault::nowhere(Code::UnknownName, format!("the pattern has no unit `{wanted}`"));
    match nearest(wanted, units.iter().copied()) {
        Some(near) => fault.with_help(format!("did you mean `{near}`? Its units are {}", units.join(", "))),
        None => fault.with_help(format!("its units are {}", units.join(", "))),
    }
}

/// A fabric that is asked for but not there.
#[must_use]
pub fn no_such_fabric(wanted: &str, fabrics: &[&str]) -> Fault {
    let fault = Fault::nowhere(Code::UnknownName, format!("nothing is cut of a fabric `{wanted}`"));
    match nearest(wanted, fabrics.iter().copied()) {
        Some(near) => fault.with_help(format!("did you mean `{near}`? The fabrics are {}", fabrics.join(", "))),
        None => fault.with_help(format!("the fabrics are {}", fabrics.join(", "))),
    }
}

/// A language that no catalogue speaks.
#[must_use]
pub fn no_such_language(wanted: &str, known: &[&str]) -> Fault {
    Fault::nowhere(Code::UnknownName, format!("there are no words in the language `{wanted}`"))
        .with_help(format!("a packet can be had in: {}", known.join(", ")))
}

/// A statement that has no place in a shared file.
#[must_use]
pub fn not_in_shared_file(span: Span, what: &str) -> Fault {
    Fault::new(Code::MisplacedStatement, format!("`{what}` does not belong in a shared file"), span)
        .with_help("a shared file may hold fabrics, measures, notes, how pieces are cut and from what cloth, and what the publisher says of its patterns, their history with it; move this line to the pattern")
}

/// `note on 3` outside a unit, `note on head` inside one.
#[must_use]
pub fn target_misplaced(span: Span, what: &str, help: &str) -> Fault {
    Fault::new(Code::MisplacedStatement, format!("there is no {what} here"), span).with_help(help.to_owned())
}

/// A word that is none of those that may stand here.
#[must_use]
pub fn unknown_word(span: Span, word: &str, kind: &str, known: &[&str]) -> Fault {
    let fault = Fault::new(Code::UnknownWord, format!("`{word}` is no {kind}"), span);
    let all = known.iter().map(|word| format!("`{word}`")).collect::<Vec<_>>().join(", ");
    match nearest(word, known.iter().copied()) {
        Some(near) => fault.with_help(format!("did you mean `{near}`? There are {all}")).with_fix(
            format!("write `{near}`"),
            false,
            vec![(span, near.to_owned())],
        ),
        None => fault.with_help(format!("there are {all}")),
    }
}

/// A name that is never used.
#[must_use]
pub fn unused_name(span: Span, kind: &str, name: &str) -> Fault {
    Fault::new(Code::UnusedName, format!("the {kind} `{name}` is never used"), span)
        .with_help(format!("take the line out, or write `allow {}` if it shall stay", Code::UnusedName.slug()))
}

/// An `allow` that silences nothing.
#[must_use]
pub fn unused_allow(span: Span, code: &str) -> Fault {
    Fault::new(Code::UnusedAllow, format!("no warning `{code}` arises here, so this line silences nothing"), span)
        .with_help("take the line out")
}

/// A code after `allow` that is none, or that of an error.
#[must_use]
pub fn cannot_allow(span: Span, word: &str) -> Fault {
    let warnings = Code::ALL.iter().filter(|code| code.severity() != super::Severity::Error);
    let known: Vec<&str> = warnings.map(|code| code.slug()).collect();
    if Code::from_slug(word).is_some_and(|code| code.severity() == super::Severity::Error) {
        return Fault::new(Code::UnknownWord, format!("`{word}` is an error and cannot be allowed"), span)
            .with_help(format!("only warnings and hints can be silenced: {}", known.join(", ")));
    }
    unknown_word(span, word, "warning", &known)
}
