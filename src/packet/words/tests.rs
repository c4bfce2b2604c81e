//! Catalogues are whole, and each counts, lists and measures as its language does.

use unic_langid::LanguageIdentifier;

use super::{CatalogueFault, ENGLISH, GERMAN, Words, messages};
use crate::geometry::Length;
use crate::model::Units;
use crate::packet::measure::Measures;

fn language(code: &str) -> LanguageIdentifier {
    code.parse().unwrap()
}

#[test]
fn every_catalogue_is_whole() {
    for (code, catalogue) in [("en", ENGLISH), ("de", GERMAN)] {
        assert_eq!(Words::try_new(language(code), catalogue).err(), None, "{code}");
    }
}

#[test]
fn there_are_words_in_every_language_that_is_named_and_in_no_other() {
    for code in Words::LANGUAGES {
        assert_eq!(Words::of(code).map(|words| words.language()).as_deref(), Some(code));
    }
    assert!(Words::of("fr").is_none());
}

#[test]
fn every_variable_that_is_given_is_used() {
    for (text, (name, variables)) in
        [ENGLISH, GERMAN].into_iter().flat_map(|text| messages().map(move |message| (text, message)))
    {
        let id = super::id_of(name);
        let start = text.find(&format!("\n{id} = ")).unwrap_or_else(|| panic!("{id}"));
        let end = text[start + 1..]
            .match_indices('\n')
            .map(|(at, _)| start + 1 + at)
            .find(|&at| !text[at + 1..].starts_with([' ', '}', '\n']))
            .unwrap_or(text.len());
        for variable in variables {
            assert!(text[start..end].contains(&format!("${variable}")), "{id} does not use {variable}");
        }
    }
}

#[test]
fn a_poor_catalogue_is_refused_with_reasons() {
    let poor =
        ENGLISH.replace("list-two = { $first }", "list-two = { $furst }").replace("chart-buy = ", "chart-bye = ");
    let faults = Words::try_new(language("en"), &poor).err().unwrap();
    assert_eq!(
        faults,
        [
            CatalogueFault::Missing("chart_buy"),
            CatalogueFault::UnknownVariable("list_two"),
            CatalogueFault::Unknown("chart-bye".to_owned()),
        ]
    );
}

#[test]
fn plurals_and_lists_are_the_languages_own() {
    let words = Words::english();
    assert_eq!(words.chart_pieces_total(1), "1 piece");
    assert_eq!(words.chart_pieces_total(12), "12 pieces");
    assert_eq!(words.list(&["roof"]), "roof");
    assert_eq!(words.list(&["roof", "lamp"]), "roof and lamp");
    assert_eq!(words.list(&["roof", "lamp", "base"]), "roof, lamp, and base");
}

#[test]
fn german_counts_lists_and_measures_are_german() {
    let words = Words::of("de").unwrap();
    assert_eq!(words.chart_pieces_total(1), "1 Teil");
    assert_eq!(words.chart_pieces_total(12), "12 Teile");
    assert_eq!(words.facts_foundations_value(3, 1), "3 zu nähen, auf einem Blatt");
    assert_eq!(words.facts_seams_value(9, 0), "9, davon keine zwischen Einheiten");
    assert_eq!(
        words.join_paper_out("bail", 1),
        "Das Papier von bail darf jetzt heraus: Dort ist auf jeder Seite ein Nachbar angenäht."
    );
    assert_eq!(words.list(&["Dach", "Lampe"]), "Dach und Lampe");
    assert_eq!(words.list(&["Dach", "Lampe", "Sockel"]), "Dach, Lampe und Sockel");
    assert_eq!(words.row(&["8,5", "9", "10,2", "11"]), "8,5; 9; 10,2 und 11");
    let metric = Measures::new(&words, Units::Metric);
    assert_eq!(metric.length(Length::millimetres(7.5)), "7,5\u{a0}mm");
    let inches = Measures::new(&words, Units::Inches);
    assert_eq!(inches.length(Length::inches(2.5)), "2½\u{a0}Zoll");
    assert_eq!(inches.fabric(Length::inches(40.5)), "1⅛\u{a0}Yard");
}
