//! The page for a screen: as text, and in a browser, where it is looked at for barriers, narrow screens, memory and paper.

#![allow(clippy::expect_used, clippy::panic, reason = "a test may stop at what it did not expect")]

mod support;

#[path = "screen/browser.rs"]
mod browser;
#[path = "screen/sample.rs"]
mod sample;

use std::collections::BTreeSet;
use std::fs;
use std::path::PathBuf;

use base64::Engine as _;
use base64::engine::general_purpose::STANDARD;
use browser::{Browser, Tools, tools};
use piecewright::backend::html::{self, Look};
use piecewright::packet::words::Words;
use piecewright::{Options, build};
use serde_json::{Value, json};
use support::{Folder, patterns};
use tempfile::TempDir;

/// The sample as a page.
fn sample_page() -> String {
    let words = Words::english();
    let key = html::key("Lugger", "1.2", "8 in");
    html::document(&sample::document(), &Look { words: &words, key: &key })
}

/// The page of a sample pattern, as it is built.
fn built_page(stem: &str) -> String {
    let text = fs::read_to_string(patterns().join(format!("{stem}.piece"))).expect("a readable sample");
    let built = build(stem, &text, &Folder(patterns()), &Options::default(), &mut |_| {});
    let artifacts = built.artifacts.unwrap_or_else(|| panic!("{stem}: {:?}", built.faults));
    let page =
        artifacts.into_iter().find(|artifact| artifact.path == format!("{stem}.html")).expect("a page for a screen");
    String::from_utf8(page.bytes).expect("a page is text")
}

// ---- As text ----

/// The tags of a page: name and attributes. What is within `style` and `script` is skipped.
fn tags(page: &str) -> Vec<(&str, Vec<(&str, &str)>)> {
    let mut tags = Vec::new();
    let mut rest = page;
    while let Some((_, after)) = rest.split_once('<') {
        let name_end = after.find(|c: char| !c.is_ascii_alphanumeric() && c != '/' && c != '!').unwrap_or(after.len());
        let (name, mut within) = after.split_at(name_end);
        let mut attributes = Vec::new();
        loop {
            within = within.trim_start_matches([' ', '/', '\n']);
            if let Some(after) = within.strip_prefix('>') {
                rest = after;
                break;
            }
            let end = within.find(['=', ' ', '>', '/']).unwrap_or_else(|| panic!("a tag without end: {name}"));
            let attribute = &within[..end];
            within = &within[end..];
            if let Some(quoted) = within.strip_prefix("=\"") {
                let (value, after) = quoted.split_once('"').expect("a closing quote");
                assert!(after.starts_with([' ', '>', '/']), "an attribute runs into {:?}", &after[..1]);
                attributes.push((attribute, value));
                within = after;
            } else {
                assert!(!within.starts_with('='), "{attribute} of {name} is quoted");
                attributes.push((attribute, ""));
            }
        }
        tags.push((name, attributes));
        if name == "style" || name == "script" {
            rest = rest.split_once(&format!("</{name}>")).expect("an end").1;
        }
    }
    tags
}

fn values<'p>(page: &'p str, attribute: &str) -> Vec<&'p str> {
    let all = tags(page).into_iter().flat_map(|(_, attributes)| attributes);
    all.filter(|(name, _)| *name == attribute).map(|(_, value)| value).collect()
}

#[test]
fn every_id_is_unique_and_every_link_in_the_page_has_its_aim() {
    let page = sample_page();
    let ids = values(&page, "id");
    let unique: BTreeSet<&str> = ids.iter().copied().collect();
    assert_eq!(ids.len(), unique.len(), "{ids:?}");
    assert!(
        unique.is_superset(&BTreeSet::from(["cover", "cutting", "beam", "step-1-2", "deep", "report"])),
        "{unique:?}"
    );
    let links: Vec<&str> = values(&page, "href").into_iter().filter_map(|link| link.strip_prefix('#')).collect();
    assert!(links.len() >= 7, "{links:?}");
    for link in links {
        assert!(unique.contains(link), "#{link} leads nowhere");
    }
    let referred = ["aria-labelledby", "aria-describedby", "for"].map(|name| values(&page, name)).concat();
    assert!(referred.iter().all(|id| unique.contains(id)), "{referred:?}");
}

#[test]
fn what_is_remembered_has_a_name_of_its_own() {
    let page = sample_page();
    let names = values(&page, "data-field");
    assert_eq!(names.len(), 3 + 3 + 3 + 2, "steps, boxes, cells and lines: {names:?}");
    assert_eq!(names.iter().collect::<BTreeSet<_>>().len(), names.len(), "{names:?}");
}

#[test]
fn places_that_meet_twice_are_given_out_once() {
    let mut document = sample::document();
    let again: Vec<_> = document.parts.clone();
    document.parts.extend(again);
    let words = Words::english();
    let page = html::document(&document, &Look { words: &words, key: "k" });
    let ids = values(&page, "id");
    assert_eq!(ids.len(), ids.iter().collect::<BTreeSet<_>>().len(), "{ids:?}");
}

#[test]
fn headings_never_jump() {
    let page = sample_page();
    let levels: Vec<u8> = tags(&page).iter().filter_map(|(name, _)| name.strip_prefix('h')?.parse().ok()).collect();
    assert_eq!(levels.first(), Some(&1));
    assert!(!levels[1..].contains(&1), "{levels:?}");
    assert!(levels.contains(&4), "{levels:?}");
    for pair in levels.windows(2) {
        assert!(pair[1] <= pair[0] + 1, "{levels:?}");
    }
}

#[test]
fn words_become_neither_markup_nor_script() {
    let mut document = sample::document();
    sample::HOSTILE.clone_into(&mut document.title);
    sample::HOSTILE.clone_into(&mut document.running);
    document.stamp = Some(sample::HOSTILE.to_owned());
    for part in &mut document.parts {
        sample::HOSTILE.clone_into(&mut part.title);
    }
    let words = Words::english();
    let page = html::document(&document, &Look { words: &words, key: sample::HOSTILE });
    let tags = tags(&page);
    assert_eq!(tags.iter().filter(|(name, _)| *name == "script").count(), 1);
    assert!(tags.iter().all(|(name, _)| !["img", "iframe", "link", "object", "form", "base"].contains(name)));
    for (name, attributes) in &tags {
        for (attribute, value) in attributes {
            assert!(!attribute.starts_with("on"), "{name} {attribute}");
            let starts: &[&str] =
                if *name == "image" { &["data:image/"] } else { &["#", "https://", "http://", "mailto:"] };
            let safe = starts.iter().any(|start| value.starts_with(start));
            assert!(*attribute != "href" || safe, "{name} leads to {value}");
            assert!(*attribute != "src", "{name} loads {value}");
        }
    }
}

#[test]
fn what_is_only_printed_stays_away_and_is_named_without_a_link() {
    let page = sample_page();
    for absent in ["Only on paper", "How to print", "Foundations", "Never seen on a screen"] {
        assert!(!page.contains(absent), "{absent}");
    }
    for named in ["<li>Sheet 1</li>", "<li>Nowhere</li>", "<li>Trap: javascript:"] {
        assert!(page.contains(named), "{named}");
    }
}

#[test]
fn a_picture_is_named_once() {
    let page = sample_page();
    assert_eq!(page.matches("The front with sections A1 and A2 sewn.").count(), 3, "once for each step");
    let pictures: Vec<_> = tags(&page).into_iter().filter(|(_, all)| all.contains(&("role", "img"))).collect();
    assert_eq!(pictures.len(), 13);
    for (name, attributes) in pictures {
        let named = attributes.iter().any(|(name, value)| *name == "aria-label" && !value.is_empty());
        assert!(name == "svg" && named, "{attributes:?}");
    }
}

#[test]
fn the_page_is_the_same_at_every_run_and_asks_nobody() {
    let page = sample_page();
    assert_eq!(page, sample_page());
    assert!(page.contains("default-src 'none'"));
    for loud in ["@import", "url(", "<link", "fetch(", "XMLHttpRequest"] {
        assert!(!page.contains(loud), "{loud}");
    }
}

// ---- In a browser ----

/// Pages in a folder of their own, where a browser can open them.
struct Pages(TempDir);

impl Pages {
    fn new() -> Self {
        Self(tempfile::tempdir().expect("a folder for the page"))
    }

    fn write(&self, name: &str, page: &str) -> PathBuf {
        let path = self.0.path().join(name);
        fs::write(&path, page).expect("a page is written");
        path
    }
}

/// The rules of WCAG 2.1 A and AA, the size of targets of 2.2, and good practice.
const RULES: &str = "axe.run(document, { resultTypes: ['violations'], runOnly: ['wcag2a', 'wcag2aa', 'wcag21a', 'wcag21aa', 'wcag22aa', 'best-practice'] })
    .then(found => ({
        rules: found.passes.length,
        violations: found.violations.map(({ id, help, nodes }) => ({ id, help, nodes: nodes.slice(0, 3).map(({ html, failureSummary }) => [html.slice(0, 200), failureSummary]) })),
    }))";

/// What makes the page wider than the screen.
const ACROSS: &str = "document.documentElement.scrollWidth <= document.documentElement.clientWidth ? []
    : [...document.body.querySelectorAll('*')].filter(e => e.getBoundingClientRect().right > document.documentElement.clientWidth && !e.closest('.scroll > *')).map(e => e.outerHTML.slice(0, 100))";

fn look_for_barriers(browser: &mut Browser, tools: &Tools, name: &str) {
    for (width, scheme) in [(320, "light"), (320, "dark"), (1100, "light"), (1100, "dark")] {
        browser.show(width, scheme);
        browser.evaluate(&format!("typeof axe === 'undefined' && (() => {{ {} }})()", tools.axe));
        let found = browser.evaluate(RULES);
        assert!(found["rules"].as_u64().unwrap_or(0) > 15, "{name}: rules were looked at: {found}");
        assert_eq!(found["violations"], json!([]), "{name}, {width} px, {scheme}: {found:#}");
        assert_eq!(browser.evaluate(ACROSS), json!([]), "{name}, {width} px: nothing is cut off or scrolls sideways");
    }
}

/// Pages printed by the browser.
fn printed(browser: &mut Browser) -> usize {
    let answer = browser.call("Page.printToPDF", &json!({ "printBackground": false, "preferCSSPageSize": true }));
    let file = STANDARD.decode(answer["data"].as_str().expect("a file")).expect("bytes");
    lopdf::Document::load_mem(&file).expect("a PDF file").get_pages().len()
}

#[test]
fn nobody_meets_a_barrier_and_nothing_scrolls_sideways() {
    let Some(tools) = tools() else { return };
    let pages = Pages::new();
    let mut browser = Browser::start(&tools);
    let samples = ["storm-lantern", "harbour-series"].map(|stem| (stem, built_page(stem)));
    let all = [("sample", sample_page()), ("long words", long_words())].into_iter().chain(samples);
    for (name, page) in all {
        browser.open(&pages.write(&format!("{name}.html"), &page));
        look_for_barriers(&mut browser, &tools, name);
        assert!(printed(&mut browser) >= 2, "{name} is printed");
        assert_eq!(browser.complaints, Vec::<String>::new(), "{name}");
        assert_eq!(browser.requests, Vec::<String>::new(), "{name}");
    }
}

/// The sample with words of sixty letters in it that cannot be broken anywhere in particular.
fn long_words() -> String {
    let long = "Hafenmeisterhaus".repeat(4);
    let short = [
        "Lugger", "Edition", "Beam", "Cutting", "Sewing", "Sections", "Finished", "Hours", "Nowhere", "harbour",
        "Care", "Fold", "Thread", "iron", "Note", "Stitch", "sail", "Should", "tester",
    ];
    short.iter().fold(sample_page(), |page, word| {
        page.replace(&format!("{word} "), &format!("{long} ")).replace(&format!(">{word}"), &format!(">{long}"))
    })
}

/// What the counts of the parts say.
const COUNTS: &str = "[...document.querySelectorAll('[role=status]')].map(line => line.textContent)";

#[test]
fn what_is_ticked_and_written_survives_a_reload_until_the_part_begins_anew() {
    let Some(tools) = tools() else { return };
    let pages = Pages::new();
    let mut browser = Browser::start(&tools);
    let lugger = pages.write("lugger.html", &sample_page());
    browser.open(&lugger);
    assert_eq!(browser.evaluate("document.title"), json!("Lugger · Edition 1.2 · 8 in"));
    assert_eq!(browser.evaluate(COUNTS), json!(["0 of 3 done", "0 of 3 done"]));
    let decoded = "(() => { const image = new Image(); image.src = document.querySelector('image').href.baseVal; return image.decode().then(() => image.naturalWidth) })()";
    assert_eq!(browser.evaluate(decoded), json!(2), "the photograph is shown");
    browser.evaluate("document.querySelector('#step-1-2 input').click()");
    browser.evaluate("document.querySelector('.boxes input').click()");
    browser.evaluate(
        "for (const field of document.querySelectorAll('textarea, td input')) { field.value = 'a gull'; field.dispatchEvent(new Event('input', { bubbles: true })) }",
    );
    let state = "[...document.querySelectorAll('[data-field]')].map(field => field.type === 'checkbox' ? field.checked : field.value)";
    let before = browser.evaluate(state);
    assert_eq!(before, json!([true, false, false, false, true, false, "a gull", "a gull", "a gull", "", "a gull"]));
    browser.open(&lugger);
    assert_eq!(browser.evaluate(state), before);
    assert_eq!(browser.evaluate(COUNTS), json!(["1 of 3 done", "1 of 3 done"]));

    look_for_barriers(&mut browser, &tools, "a page with ticks");

    // Another edition knows nothing of it.
    let words = Words::english();
    let key = html::key("Lugger", "1.3", "8 in");
    let other = html::document(&sample::document(), &Look { words: &words, key: &key });
    browser.open(&pages.write("other.html", &other));
    assert_eq!(browser.evaluate(COUNTS), json!(["0 of 3 done", "0 of 3 done"]));

    // Beginning anew asks first, and takes nothing away from other parts.
    browser.open(&lugger);
    let ask = "document.querySelector('#steps .anew').click(); document.querySelector('dialog').open";
    assert_eq!(browser.evaluate(ask), json!(true));
    let question = browser.evaluate("document.querySelector('dialog p').textContent");
    assert!(question.as_str().is_some_and(|words| words.contains("Sewing, step by step")), "{question}");
    look_for_barriers(&mut browser, &tools, "the question");
    assert_eq!(
        browser.evaluate("document.querySelector('.no').click(); document.querySelector('dialog').open"),
        json!(false)
    );
    assert_eq!(browser.evaluate(COUNTS), json!(["1 of 3 done", "1 of 3 done"]));
    browser.evaluate("document.querySelector('#steps .anew').click(); document.querySelector('.yes').click()");
    assert_eq!(browser.evaluate(COUNTS), json!(["1 of 3 done", "0 of 3 done"]));
    browser.open(&lugger);
    assert_eq!(browser.evaluate(COUNTS), json!(["1 of 3 done", "0 of 3 done"]));
    assert_eq!(browser.complaints, Vec::<String>::new());
}

#[test]
fn the_page_is_whole_where_nothing_is_kept_and_where_no_script_runs() {
    let Some(tools) = tools() else { return };
    let pages = Pages::new();
    let mut browser = Browser::start(&tools);
    let page = pages.write("lugger.html", &sample_page());
    let refuse = "Object.defineProperty(window, 'localStorage', { get() { throw new Error('refused') } })";
    let script = browser.call("Page.addScriptToEvaluateOnNewDocument", &json!({ "source": refuse }));
    browser.open(&page);
    browser.evaluate("document.querySelector('#step-1-2 input').click()");
    assert_eq!(browser.evaluate(COUNTS), json!(["0 of 3 done", "1 of 3 done"]));
    let told = browser.evaluate("document.querySelector('.kept').textContent");
    assert!(told.as_str().is_some_and(|words| words.contains("does not let")), "{told}");
    assert_eq!(browser.complaints, Vec::<String>::new());

    browser.call("Page.removeScriptToEvaluateOnNewDocument", &script);
    browser.call("Emulation.setScriptExecutionDisabled", &json!({ "value": true }));
    browser.open(&page);
    let hidden = browser.glance("[...document.querySelectorAll('.progress')].every(bar => bar.offsetHeight === 0)");
    assert_eq!(hidden, json!(true), "nothing promises to remember");
    let boxes = browser.glance("document.querySelectorAll('input[type=checkbox]:enabled').length");
    assert_eq!(boxes, json!(6));
}

/// Everything that a keyboard stops at, in order.
const STOPS: &str = "[...document.querySelectorAll('a[href], button, input, textarea, [tabindex=\"0\"]')].filter(e => e.offsetHeight).map(e => e.className || e.localName)";

#[test]
fn a_table_is_a_stop_for_the_keyboard_only_where_it_scrolls() {
    let Some(tools) = tools() else { return };
    let pages = Pages::new();
    let mut browser = Browser::start(&tools);
    browser.open(&pages.write("lugger.html", &sample_page()));
    let mut scrolling = |width: u32| {
        browser.show(width, "light");
        let stops = browser.evaluate(STOPS);
        let stops: Vec<Value> = stops.as_array().cloned().unwrap_or_default();
        assert!(stops.len() > 10 && stops[0] == json!("skip"), "{stops:?}");
        stops.iter().filter(|stop| **stop == json!("scroll")).count()
    };
    assert_eq!(scrolling(1100), 0);
    assert_eq!(scrolling(320), 1);
}
