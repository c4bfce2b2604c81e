//! Faults of whole files: too large, not text, empty, and the files that `use` names.

use super::{Code, Fault};
use crate::notation::source::{MAX_SOURCE_BYTES, Span};

/// A source or a shared file beyond the greatest size; `span` is the `use` line that names it, nothing for the main source.
#[must_use]
pub fn source_too_large(span: Option<Span>, name: &str) -> Fault {
    let message = format!("`{name}` is too large to be a source: more than {} megabytes", MAX_SOURCE_BYTES >> 20);
    at(span, Code::SourceTooLarge, message)
        .with_help("a source is text that you could read; is this a picture, or a document of a word processor?")
}

/// A file that is not UTF-8 text; `byte` is the first that cannot be read, counted from 0, where it is known.
#[must_use]
pub fn not_text(span: Option<Span>, name: &str, byte: Option<usize>) -> Fault {
    let message = match byte {
        Some(byte) => format!("`{name}` is not plain text: it cannot be read on from byte {byte}"),
        None => format!("`{name}` is not plain text"),
    };
    at(span, Code::NotText, message).with_help(
        "open it in a text editor and save it as plain text with the encoding UTF-8; \
         from a word processor, export it as plain text",
    )
}

/// A source with nothing in it but blanks.
#[must_use]
pub fn empty_source(span: Span, name: &str) -> Fault {
    Fault::new(Code::EmptySource, format!("`{name}` is empty"), span)
        .saying("nothing stands here")
        .with_help("`piecewright new NAME.piece` writes a source to start from")
}

/// A shared file that cannot be read; `reason` says why where it is more than that there is none.
#[must_use]
pub fn use_not_found(span: Span, path: &str, reason: Option<&str>) -> Fault {
    match reason {
        None => Fault::new(Code::UseNotFound, format!("there is no file `{path}` to use"), span).with_help(
            "name it as seen from the project's folder: the folder of the source, or the one given by `--project`",
        ),
        Some(reason) => Fault::new(Code::UseNotFound, format!("`{path}` cannot be used: {reason}"), span),
    }
}

/// A shared file outside the project's folder.
#[must_use]
pub fn use_outside(span: Span, path: &str) -> Fault {
    Fault::new(Code::UseOutside, format!("`{path}` lies outside the project's folder"), span).with_help(
        "a source may use only what lies in its own folder or below; move the file there, \
         or give a folder that holds both with `--project`",
    )
}

/// Shared files that use each other in a ring; `chain` are their names in order, from the file that is met again.
#[must_use]
pub fn use_cycle(span: Span, chain: &[&str]) -> Fault {
    let message = match chain {
        [] | [_] => String::from("the file uses itself"),
        [first, rest @ ..] => {
            let names: Vec<_> = rest.iter().chain([first]).map(|name| format!("`{name}`")).collect();
            format!("`{first}` uses {}", names.join(", which uses "))
        }
    };
    Fault::new(Code::UseCycle, message, span).saying("this closes the ring").with_help(match chain {
        [] | [_] => "take this line out",
        _ => "take one of these `use` lines out; put what both files need into a third",
    })
}

fn at(span: Option<Span>, code: Code, message: String) -> Fault {
    match span {
        Some(span) => Fault::new(code, message, span),
        None => Fault::nowhere(code, message),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_ring_is_told_all_the_way_round() {
        let span = Span::new(0, 0..3);
        assert_eq!(use_cycle(span, &["a.piece"]).message, "the file uses itself");
        assert_eq!(use_cycle(span, &["a.piece", "b.piece"]).message, "`a.piece` uses `b.piece`, which uses `a.piece`");
    }

    #[test]
    fn a_file_without_a_place_is_named_in_the_message() {
        let fault = source_too_large(None, "gull.piece");
        assert!(fault.labels.is_empty());
        assert_eq!(fault.message, "`gull.piece` is too large to be a source: more than 4 megabytes");
        assert_eq!(
            not_text(None, "gull.piece", Some(7)).message,
            "`gull.piece` is not plain text: it cannot be read on from byte 7"
        );
    }
}
