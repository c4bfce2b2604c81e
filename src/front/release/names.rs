//! Names of packets' folders that every system can hold.

/// The folder of a packet: `storm-lantern-8-in`, `storm-lantern-8-in-dawn`.
pub fn folder(stem: &str, size: &str, colouring: Option<&str>) -> String {
    let parts = [Some(stem), Some(size), colouring];
    let parts: Vec<String> = parts.into_iter().flatten().map(plain).filter(|part| !part.is_empty()).collect();
    parts.join("-")
}

/// Letters, digits, full stops, low lines and single hyphens; all else becomes a hyphen.
fn plain(words: &str) -> String {
    let letter = |letter: char| match letter {
        '×' => 'x',
        '.' | '_' => letter,
        _ if letter.is_alphanumeric() => letter,
        _ => '-',
    };
    let letters: String = words.chars().map(letter).collect();
    // Neither a hidden folder nor one of which some systems drop the end.
    let parts: Vec<&str> = letters.split('-').filter(|part| !part.is_empty()).collect();
    parts.join("-").trim_matches(['.', '-']).to_owned()
}

#[cfg(test)]
mod tests {
    use super::folder;

    #[test]
    fn folders_are_named_after_pattern_size_and_colouring() {
        assert_eq!(folder("storm-lantern", "8 in", None), "storm-lantern-8-in");
        assert_eq!(folder("storm-lantern", "8 1/2 in", Some("dawn")), "storm-lantern-8-1-2-in-dawn");
        assert_eq!(folder("gull", "8 in × 6 in", None), "gull-8-in-x-6-in");
        assert_eq!(folder("tide-flags", "3 in, 4 in", None), "tide-flags-3-in-4-in");
        assert_eq!(folder("möwe 2.0", "20 cm", Some("früh")), "möwe-2.0-20-cm-früh");
    }

    #[test]
    fn nothing_leads_out_of_the_folder() {
        for (stem, named) in [
            ("../gull", "gull-8-in"),
            ("a/b\\c:d", "a-b-c-d-8-in"),
            ("..", "8-in"),
            (".gull", "gull-8-in"),
            ("\n\u{1b}[2J", "2J-8-in"),
        ] {
            assert_eq!(folder(stem, "8 in", None), named, "{stem:?}");
        }
    }
}
