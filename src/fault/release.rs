//! Faults of what is published: editions that are none, or that rise too little.

use super::{Code, Fault};
use crate::notation::source::Span;

/// How many reasons are told.
const MOST_REASONS: usize = 6;

/// An edition that cannot be compared with others.
#[must_use]
pub fn edition_unfit(span: Span, edition: &str) -> Fault {
    let fault = Fault::new(Code::EditionUnfit, format!("`{edition}` is no edition that can be released"), span)
        .saying("two numbers with a full stop between them are wanted")
        .with_help("write a major and a minor number, such as `edition \"1.0\"`: readers tell by them whether papers that they printed still fit");
    let is_number = !edition.is_empty() && edition.len() < 9 && edition.bytes().all(|digit| digit.is_ascii_digit());
    match edition.parse::<u32>() {
        Ok(number) if is_number => {
            fault.with_fix(format!("write `{number}.0`"), false, vec![(span, format!("\"{number}.0\""))])
        }
        _ => fault,
    }
}

/// An edition that is not as far above the one before as what changed asks for.
#[must_use]
pub fn edition_too_small(span: Span, (was, now): (&str, &str), least: &str, reasons: &[String]) -> Fault {
    let what = if now == was {
        format!("the pattern changed since edition {was}, and its edition is the same")
    } else {
        format!("edition {now} is too low for what changed since edition {was}")
    };
    let first_number = |edition: &str| edition.split('.').next().map(str::to_owned);
    let rule = if first_number(least) == first_number(was) {
        "the second number rises with anything that readers may see (the first only when papers or cuts that were right are so no longer)"
    } else {
        "the first number rises when papers or cuts that were right are so no longer (the second with anything else)"
    };
    let help = format!("{rule}: write `edition \"{least}\"`, and say in a `history` line what it brings");
    Fault::new(Code::EditionTooSmall, what, span)
        .saying(format!("{least} or higher is wanted"))
        .with_help(help + &because(reasons))
        .with_fix(format!("write `{least}`"), false, vec![(span, format!("\"{least}\""))])
}

/// What changed, after other words; nothing where no reason is known.
fn because(reasons: &[String]) -> String {
    if reasons.is_empty() {
        return String::new();
    }
    let (first, others) = reasons.split_at(reasons.len().min(MOST_REASONS));
    let more = (!others.is_empty()).then(|| format!("and {} more, which `piecewright diff` tells", others.len()));
    format!(". What changed: {}", first.iter().cloned().chain(more).collect::<Vec<_>>().join("; "))
}

/// A release that would bring nothing.
#[must_use]
pub fn nothing_changed(span: Span, was: &str) -> Fault {
    Fault::new(Code::NothingChanged, format!("nothing changed since edition {was}"), span)
        .with_help("there is nothing to release; to make the same release again, name with `--since` the one that it was made after")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_whole_number_is_completed() {
        let span = Span::new(0, 3..6);
        assert_eq!(edition_unfit(span, "2").fixes[0].edits, [(span, "\"2.0\"".to_owned())]);
        for none in ["first", "", "1.0.0", "99999999999", "1,0"] {
            assert!(edition_unfit(span, none).fixes.is_empty(), "{none}");
        }
    }

    #[test]
    fn reasons_are_told_but_not_without_end() {
        let span = Span::new(0, 3..6);
        let reasons: Vec<String> = (1..=8).map(|n| format!("paper {n}")).collect();
        let fault = edition_too_small(span, ("1.1", "1.2"), "2.0", &reasons);
        assert_eq!(fault.message, "edition 1.2 is too low for what changed since edition 1.1");
        let help = fault.help.expect("help");
        assert!(help.contains("`edition \"2.0\"`") && help.starts_with("the first number rises when "), "{help}");
        assert!(
            help.ends_with(
                "what it brings. What changed: paper 1; paper 2; paper 3; paper 4; paper 5; paper 6; \
                 and 2 more, which `piecewright diff` tells"
            ),
            "{help}"
        );
        let same = edition_too_small(span, ("1.1", "1.1"), "1.2", &[]);
        assert!(same.message.ends_with("and its edition is the same"), "{}", same.message);
        let help = same.help.expect("help");
        assert!(
            help.starts_with("the second number rises with anything") && help.ends_with("what it brings"),
            "{help}"
        );
    }
}
