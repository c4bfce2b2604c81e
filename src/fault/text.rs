//! Words for the faults of the text itself and of its syntax.
#![expect(clippy::must_use_candidate, reason = "whoever makes a fault reports it")]

use super::{Code, Fault};
use crate::notation::source::Span;

/// The longest piece of a source that is quoted within a sentence, in characters.
const LONGEST_QUOTE: usize = 40;

/// How many places of one kind of pasted character are shown.
const MOST_LABELS: usize = 20;

/// A piece of the source as a sentence quotes it: on one line, shortened, nothing invisible in it.
fn quoted(words: &str) -> String {
    let mut short: String =
        words.trim().chars().take(LONGEST_QUOTE).map(|c| if c.is_control() { ' ' } else { c }).collect();
    if words.trim().chars().nth(LONGEST_QUOTE).is_some() {
        short.push('…');
    }
    format!("`{short}`")
}

/// `a`, `a or b`, `a, b or c`
fn either(words: &[String]) -> String {
    match words {
        [] => String::new(),
        [one] => one.clone(),
        [front @ .., last] => format!("{} or {last}", front.join(", ")),
    }
}

/// Characters of one kind, in one line, that a word processor put in; one edit for each. `cure` is what to write instead, nothing to leave it out.
pub fn pasted_character(c: char, name: &str, cure: &str, edits: Vec<(Span, String)>) -> Fault {
    let code = u32::from(c);
    let help = match cure {
        "" => "delete it; word processors put it in unasked".to_owned(),
        "\"" => "a text stands between double quotes: \"…\"".to_owned(),
        "--" => "join points by two hyphens: `a -- b`; within a name or before a number write one: `-`".to_owned(),
        cure => format!("write `{}` instead", cure.trim()),
    };
    let mut spans = edits.iter().map(|(span, _)| *span);
    let message = format!("{name} (U+{code:04X}) does not belong here");
    let mut fault = match spans.next() {
        Some(span) => Fault::new(Code::PastedCharacter, message, span),
        None => Fault::nowhere(Code::PastedCharacter, message),
    };
    for span in spans.take(MOST_LABELS) {
        fault = fault.with_label(span, "here too");
    }
    let title = match cure {
        "" => "delete it".to_owned(),
        _ => format!("put `{}` in its place", edits.first().map_or(cure, |(_, edit)| edit.trim())),
    };
    // A bar or a bullet may have meant anything; what cannot be seen cannot have meant much.
    let safe = cure == "-" || (cure.is_empty() && name != "a bullet" && name != "an ellipsis" && name != "a prime");
    fault.with_help(help).with_fix(title, safe, edits)
}

/// A control character, anywhere.
pub fn control_character(span: Span, c: char) -> Fault {
    let (name, edit) = match c {
        '\t' => ("a tab within a text", " "),
        _ => ("a control character", ""),
    };
    Fault::new(Code::PastedCharacter, format!("{name} (U+{:04X}) cannot be printed", u32::from(c)), span)
        .with_help(if edit.is_empty() { "delete it" } else { "write blanks instead" })
        .with_fix(
            if edit.is_empty() { "delete it" } else { "put a blank in its place" },
            true,
            vec![(span, edit.to_owned())],
        )
}

/// Digits, a comma, digits, with nothing between them.
pub fn decimal_comma(span: Span, written: &str) -> Fault {
    let fault = Fault::new(Code::DecimalComma, format!("{} is neither a number nor a point", quoted(written)), span);
    let point = written.replace(',', ", ");
    if written.matches(',').count() > 1 {
        return fault
            .with_help("a number has one decimal point and no separators; the two numbers of a point have a blank after the comma")
            .with_fix(format!("put blanks after the commas: `{point}`"), false, vec![(span, point)]);
    }
    let number = written.replace(',', ".");
    fault
        .with_help(format!("write `{number}` for the number, or `{point}` for the point"))
        .with_fix(format!("make it the number `{number}`"), false, vec![(span, number)])
        .with_fix(format!("make it the point `{point}`"), false, vec![(span, point)])
}

/// Two numbers with nothing but blanks between them.
pub fn numbers_side_by_side(span: Span, written: &str) -> Fault {
    Fault::new(Code::NumbersSideBySide, format!("two numbers stand side by side: {}", quoted(written)), span)
        .with_help("write a comma between the two numbers of a point: `2, 6`; a mixed number ends in a fraction less than one: `1 1/4`")
}

/// A number beyond the greatest.
pub fn number_out_of_range(span: Span, greatest: f64) -> Fault {
    Fault::new(Code::NumberOutOfRange, "this number is too large", span)
        .with_help(format!("the greatest number that a source may state is {greatest}"))
}

/// A fraction that divides by zero.
pub fn over_zero(span: Span, written: &str) -> Fault {
    Fault::new(Code::NumberOutOfRange, format!("{} divides by zero", quoted(written)), span)
        .with_help("the number below the bar must be at least 1")
}

/// A number that counts but is not whole; `what` is counted.
pub fn count_out_of_range(span: Span, written: &str, what: &str) -> Fault {
    Fault::new(Code::CountOutOfRange, format!("{} is not a whole number", quoted(written)), span)
        .with_help(format!("this is {what}: write 1, 2, 3 …"))
}

/// A colour without its six digits; `doubled` is what a short one stands for.
pub fn bad_colour(span: Span, written: &str, doubled: Option<String>) -> Fault {
    let fault = Fault::new(Code::BadColour, format!("{} is not a colour", quoted(written)), span);
    match doubled {
        Some(long) => fault.with_help(format!("write all six digits: `{long}`")).with_fix(
            format!("write `{long}`"),
            true,
            vec![(span, long)],
        ),
        None => {
            fault.with_help("a colour is `#` and six hexadecimal digits, two each for red, green and blue: `#22314e`")
        }
    }
}

/// Something that is not a date.
pub fn bad_date(span: Span, written: &str) -> Fault {
    Fault::new(Code::BadDate, format!("{} is not a date", quoted(written)), span)
        .with_help("write year, month and day: `2026-11-01`")
}

/// A date that is in no calendar; `days` is how many the month has, 0 if there is no such month.
pub fn no_such_day(span: Span, written: &str, days: u8) -> Fault {
    let fault = Fault::new(Code::BadDate, format!("there is no day {}", quoted(written)), span);
    match days {
        0 => fault.with_help("write year, month and day: `2026-11-01`"),
        days => fault.with_help(format!("that month has {days} days")),
    }
}

/// A length that lacks its unit.
pub fn lacks_unit(span: Span, number: &str) -> Fault {
    let number = number.trim();
    Fault::new(Code::BadLength, format!("{} needs a unit", quoted(number)), span)
        .with_help(format!("write {} or {}", quoted(&format!("{number} in")), quoted(&format!("{number} cm"))))
        .with_fix("make it inches", false, vec![(Span { start: span.end, ..span }, " in".to_owned())])
        .with_fix("make it centimetres", false, vec![(Span { start: span.end, ..span }, " cm".to_owned())])
}

/// A unit of length that is none; `meant` is the one it likely stands for.
pub fn bad_length(span: Span, written: &str, number: &str, meant: Option<&str>) -> Fault {
    let fault = Fault::new(Code::BadLength, format!("{} is not a unit of length", quoted(written)), span);
    match meant {
        Some(unit) => fault.with_help(format!("write {}", quoted(&format!("{} {unit}", number.trim())))).with_fix(
            format!("write `{unit}`"),
            true,
            vec![(span, if written == "\"" { format!(" {unit}") } else { unit.to_owned() })],
        ),
        None => fault.with_help("units are `in`, `yd`, `cm` and `mm`"),
    }
}

/// A word where only certain words may stand, `what` being what they are.
pub fn unknown_choice(span: Span, word: &str, known: &[&str], what: &str) -> Fault {
    let known_words: Vec<_> = known.iter().map(|word| format!("`{word}`")).collect();
    let fault = Fault::new(Code::UnknownWord, format!("{} is not {what}", quoted(word)), span)
        .with_help(format!("write {}", either(&known_words)));
    match crate::notation::near::nearest(word, known.iter().copied()) {
        Some(near) => fault.with_fix(format!("write `{near}`"), false, vec![(span, near.to_owned())]),
        None => fault,
    }
}

/// A line that starts with no word of the notation; `near` is the one it likely stands for.
pub fn unknown_word(span: Span, word: &str, near: Option<&str>, help: &str) -> Fault {
    let fault = Fault::new(Code::UnknownWord, format!("no line starts with {}", quoted(word)), span);
    match near {
        Some(near) => fault.with_help(format!("did you mean `{near}`?")).with_fix(
            format!("write `{near}`"),
            false,
            vec![(span, near.to_owned())],
        ),
        None => fault.with_help(help),
    }
}

/// A word within a line that is almost the one looked for there.
pub fn misspelt(span: Span, word: &str, near: &str) -> Fault {
    Fault::new(Code::UnknownWord, format!("{} is not known here", quoted(word)), span)
        .with_help(format!("did you mean `{near}`?"))
        .with_fix(format!("write `{near}`"), false, vec![(span, near.to_owned())])
}

/// Words that do not fit where they stand; `expected` would.
pub fn not_understood(span: Span, written: &str, expected: &[String]) -> Fault {
    let fault = Fault::new(Code::NotUnderstood, format!("{} does not fit here", quoted(written)), span);
    if expected.is_empty() {
        return fault.with_help("the statement is complete before it: delete it, or put it on a line of its own");
    }
    fault.with_help(format!("here should stand {}", either(expected)))
}

/// A line that starts with a mark; `help` tells what lines start with there.
pub fn odd_start(span: Span, written: &str, help: &str) -> Fault {
    Fault::new(Code::NotUnderstood, format!("no line starts with {}", quoted(written)), span).with_help(help)
}

/// A name with an underscore.
pub fn underscore(span: Span, name: &str) -> Fault {
    let cure = name.trim_matches('_').replace('_', "-");
    Fault::new(Code::NotUnderstood, format!("{} is not a name", quoted(name)), span)
        .with_help("a name holds letters, digits and single hyphens, and starts with a letter")
        .with_fix(format!("write `{cure}`"), false, vec![(span, cure)])
}

/// A join of one place only.
pub fn lonely_join(span: Span) -> Fault {
    Fault::new(Code::NotUnderstood, "a join needs at least two places", span).with_help("write `join roof lamp`")
}

/// A ring of too few places.
pub fn small_ring(span: Span) -> Fault {
    Fault::new(Code::NotUnderstood, "a ring needs a centre and at least three places round it", span)
        .with_help("write `partial core north east south west`: the centre in front, the others in the order of sewing")
}

/// An inset corner of more or fewer than three places.
pub fn inset_of_three(span: Span) -> Fault {
    Fault::new(Code::NotUnderstood, "an inset corner is made of three places", span)
        .with_help("write `inset bow port starboard`: in front the one that is set into the corner of the other two")
}

/// Words where a text should stand.
pub fn lacks_quotes(span: Span, written: &str) -> Fault {
    Fault::new(Code::NotUnderstood, format!("{} lacks its quotes", quoted(written)), span)
        .with_help("a text stands between double quotes: \"…\"")
        .with_fix("put it in quotes", false, vec![(span, format!("\"{written}\""))])
}

/// A picture without words for those who cannot see it; `kind` is the word of its line.
pub fn picture_untold(span: Span, kind: &str, path: &str) -> Fault {
    Fault::new(Code::NotUnderstood, format!("nothing says what the {kind} {} shows", quoted(path)), span).with_help(
        format!(
            "say it in a few words for those who cannot see it: `{kind} \"{path}\" \"a tern over a harbour light\"`"
        ),
    )
}

/// A section whose number is followed by points at once.
pub fn lacks_fabric(span: Span, number: &str) -> Fault {
    Fault::new(Code::NotUnderstood, format!("section {number} has no fabric"), span)
        .with_help(format!("the key of its fabric stands after the number: `{number} night 0, 4 -- …`"))
}

/// One hyphen between two points.
pub fn single_dash(span: Span) -> Fault {
    Fault::new(Code::NotUnderstood, "two points are joined by `--`, not by `-`", span)
        .with_help("write `a -- b`; one hyphen with blanks round it takes a number from another")
        .with_fix("write `--`", false, vec![(span, "--".to_owned())])
}

/// A line that ends too early, after these words; `expected` is missing.
pub fn incomplete(span: Span, after: &str, expected: &[String]) -> Fault {
    Fault::new(
        Code::NotUnderstood,
        format!("the line is not complete: something is missing after {}", quoted(after)),
        span,
    )
    .with_help(format!("add {}", either(expected)))
}

/// A digit is missing before or after a decimal point; `cure` is the number in full.
pub fn bare_point(span: Span, written: &str, cure: String) -> Fault {
    Fault::new(Code::NotUnderstood, format!("{} lacks a digit beside its decimal point", quoted(written)), span)
        .with_help(format!("write `{cure}`"))
        .with_fix(format!("write `{cure}`"), true, vec![(span, cure)])
}

/// A backslash before a character that needs none.
pub fn unknown_escape(span: Span, c: char) -> Fault {
    Fault::new(Code::NotUnderstood, format!("`\\{c}` means nothing in a text"), span)
        .with_help("only `\\\"` and `\\\\` have a meaning; write `\\\\` for a backslash")
        .with_fix(format!("make it a backslash and `{c}`"), false, vec![(span, format!("\\\\{c}"))])
}

/// A sign of arithmetic without blanks round it.
pub fn crowded_operator(span: Span, sign: &str) -> Fault {
    Fault::new(Code::NotUnderstood, format!("`{sign}` needs a blank on either side"), span)
        .with_help(format!("write `a {sign} b`; `1/2` without blanks is a fraction, `eave-r` a name"))
        .with_fix("put blanks round it", false, vec![(span, format!(" {sign} "))])
}

/// A quote that opens a text which does not end on its line.
pub fn unclosed_text(span: Span, quote: char) -> Fault {
    let close = if quote == '"' { "\"" } else { "”" };
    Fault::new(Code::Unclosed, "this text has no closing quote", span).saying("the text starts here").with_help(
        format!(
            "a text ends on the line on which it starts: put `{close}` at its end; a quote inside is written `\\\"`"
        ),
    )
}

/// A part that is never closed; `found` is where that comes to light.
pub fn unclosed(opener: Span, part: &str, found: Option<Span>) -> Fault {
    let fault = Fault::new(Code::Unclosed, format!("the {part} opened here is not closed"), opener)
        .with_help(format!("put `}}` on a line of its own below the last line of the {part}"));
    match found {
        Some(found) => fault.with_label(found, format!("this cannot stand in the {part}")),
        None => fault,
    }
}

/// The head of a part without the brace that opens it; `late` is where it stands, if on a later line.
pub fn unopened(head: Span, part: &str, late: Option<Span>) -> Fault {
    let end = Span { start: head.end, ..head };
    let fault = Fault::new(Code::NotUnderstood, format!("the line that opens a {part} must end in `{{`"), head);
    match late {
        Some(late) => fault.with_label(late, "it stands here").with_help("put it at the end of the line").with_fix(
            "move it up",
            true,
            vec![(end, " {".to_owned()), (late, String::new())],
        ),
        None => fault.with_help("put ` {` at the end of the line").with_fix(
            "put ` {` at its end",
            true,
            vec![(end, " {".to_owned())],
        ),
    }
}

/// A closing brace with nothing to close, or one that closes a part although more of the part follows.
pub fn stray_close(span: Span, early: Option<(&str, Span)>) -> Fault {
    match early {
        None => Fault::new(Code::NotUnderstood, "this `}` closes nothing", span)
            .with_help("delete it, or look for a `{` that is missing above"),
        Some((part, next)) => Fault::new(Code::NotUnderstood, format!("this `}}` closes the {part} too early"), span)
            .with_label(next, format!("this still belongs to the {part}"))
            .with_help("delete it"),
    }
    .with_fix("delete it", false, vec![(span, String::new())])
}

/// An opening brace that opens neither block nor unit.
pub fn stray_open(span: Span) -> Fault {
    Fault::new(Code::NotUnderstood, "this `{` opens nothing", span)
        .with_help("only lines that start with `block` or `unit` end in `{`")
}

/// Something that stands on the line of another statement.
pub fn own_line(span: Span, written: &str) -> Fault {
    Fault::new(Code::NotUnderstood, format!("{} must stand on a line of its own", quoted(written)), span)
        .with_help("begin a new line before it")
        .with_fix("begin a new line", true, vec![(Span { end: span.start, ..span }, "\n".to_owned())])
}

/// A statement where it may not stand; `home` says where it may, `here` where it stands.
pub fn misplaced_statement(span: Span, statement: &str, home: &str, here: &str) -> Fault {
    Fault::new(Code::MisplacedStatement, format!("{statement} cannot stand {here}"), span)
        .with_help(format!("it belongs {home}: move it there"))
}

/// `as NAME` that is not the first word of a place.
pub fn late_name(span: Span, words: &str, first: Span) -> Fault {
    let at = Span { end: first.start, ..first };
    Fault::new(Code::NotUnderstood, format!("{} must come first", quoted(words)), span)
        .with_label(first, "before this")
        .with_help("the name of a place stands right after its unit: `place sail as mizzen moved 4, 0`")
        .with_fix("put it first", true, vec![(at, format!("{words} ")), (span, String::new())])
}

/// A second `as NAME` of one place.
pub fn second_name(span: Span, first: Span) -> Fault {
    Fault::new(Code::NotUnderstood, "this place is named twice", span)
        .with_label(first, "it has its name here")
        .with_help("delete one of the two")
        .with_fix("delete the second", false, vec![(span, String::new())])
}

/// Words after `8 in all round P`.
pub fn words_after_repeat(span: Span, repeat: Span) -> Fault {
    Fault::new(Code::NotUnderstood, "nothing may follow the words that repeat a place", span)
        .with_label(repeat, "these must come last")
        .with_help("put it before them")
}
