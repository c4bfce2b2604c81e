//! Figures within the page: the SVG of the display list, said as shortly as one page with many figures allows.
//!
//! The drawings of a packet use a few pens and sizes of type a thousand times over. Each becomes a rule of the page's own style sheet, and paths are
//! written by their differences: the figures are the bulk of a page, and this is less than half of what they are as files of their own.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use svg::node::Node;

use super::markup::Markup;
use crate::backend::svg as drawn;
use crate::packet::page::Page;

/// The attributes that a style sheet can say as well, and whether their lengths need a unit there.
const STYLES: [(&str, &str); 10] = [
    ("fill", ""),
    ("fill-rule", ""),
    ("font-size", "px"),
    ("font-weight", ""),
    ("stroke", ""),
    ("stroke-dasharray", ""),
    ("stroke-linecap", ""),
    ("stroke-linejoin", ""),
    ("stroke-width", ""),
    ("text-anchor", ""),
];

/// What the style sheet says of every drawing, or what goes without saying within a page.
const SAID: [&str; 5] = ["xmlns", "class", "overflow", "stroke-miterlimit", "font-family"];

/// The rules that the drawings of a page share.
#[derive(Debug, Default)]
pub(super) struct Pens {
    /// The number of each rule, by what it says.
    numbers: BTreeMap<String, usize>,
}

impl Pens {
    /// All rules, in the order in which they were first needed.
    pub fn rules(&self) -> String {
        let mut rules: Vec<(usize, &str)> =
            self.numbers.iter().map(|(rule, &number)| (number, rule.as_str())).collect();
        rules.sort_unstable();
        rules.iter().fold(String::new(), |mut text, (number, rule)| {
            // Writing to a string cannot fail.
            let _ = writeln!(text, ".d{number}{{{rule}}}");
            text
        })
    }

    /// The class for what a rule says.
    fn class(&mut self, rule: String) -> String {
        let next = self.numbers.len();
        format!("d{}", self.numbers.entry(rule).or_insert(next))
    }
}

/// Draws a figure into the page. It is one picture with one name, told by its description, or else by its title; what is written in it is not
/// read a second time.
pub(super) fn draw(page: &Page, pens: &mut Pens, out: &mut Markup) {
    let tree = drawn::tree(page);
    let name = if page.description.is_empty() { &page.title } else { &page.description };
    out.raw("<svg role=\"img\"").attribute("aria-label", name);
    if let Some(view) = tree.get_attributes().get("viewBox") {
        out.attribute("viewBox", view);
    }
    out.raw(">");
    children(tree.get_children(), pens, out);
    out.raw("</svg>");
}

fn children(nodes: &[Box<dyn Node>], pens: &mut Pens, out: &mut Markup) {
    for node in nodes {
        match (node.get_name(), node.get_attributes(), node.get_children()) {
            // The name and the description of the whole are said by the picture itself.
            ("title" | "desc", Some(_), _) => {}
            // Layers are for those who take a drawing apart.
            ("g", Some(_), Some(within)) => children(within, pens, out),
            (name, Some(attributes), within) => {
                let mut sorted: Vec<(&str, &str)> =
                    attributes.iter().map(|(name, value)| (name.as_str(), &**value)).collect();
                sorted.sort_unstable();
                element(name, &sorted, within.map_or(&[], Vec::as_slice), pens, out);
            }
            // Words, which the node writes with what means something made harmless.
            _ => _ = out.raw(&node.to_string()),
        }
    }
}

fn element(name: &str, attributes: &[(&str, &str)], within: &[Box<dyn Node>], pens: &mut Pens, out: &mut Markup) {
    out.raw("<").raw(name);
    let mut rule = String::new();
    for &(key, value) in attributes {
        if SAID.contains(&key) {
            continue;
        }
        if let Some((_, unit)) = STYLES.iter().find(|(style, _)| *style == key) {
            let separator = if rule.is_empty() { "" } else { ";" };
            let _ = write!(rule, "{separator}{key}:{}{unit}", short_colour(value));
        } else if key == "d" {
            out.attribute("d", &short_path(value));
        } else {
            out.attribute(key, value);
        }
    }
    if !rule.is_empty() {
        out.attribute("class", &pens.class(rule));
    }
    if within.is_empty() {
        out.raw("/>");
    } else {
        out.raw(">");
        children(within, pens, out);
        out.raw("</").raw(name).raw(">");
    }
}

/// `#aabbcc` as `#abc`; anything else as it is.
fn short_colour(value: &str) -> String {
    match value.as_bytes() {
        [b'#', a, b, c, d, e, f] if a == b && c == d && e == f => {
            ['#', *a as char, *c as char, *e as char].iter().collect()
        }
        _ => value.to_owned(),
    }
}

/// A path in hundredths of a point, each place by its distance from the one before; as it is where it is not made of `M`, `L`, `C` and `Z` only.
///
/// Places are rounded, not distances: nothing adds up.
fn short_path(data: &str) -> String {
    shortened(data).unwrap_or_else(|| data.to_owned())
}

fn shortened(data: &str) -> Option<String> {
    let mut out = String::with_capacity(data.len() / 2);
    let (mut at, mut start) = (Place::default(), Place::default());
    let mut rest = data;
    while let Some(command) = rest.chars().next() {
        let after = rest.strip_prefix(command)?;
        let end = after.find(|c: char| c.is_ascii_alphabetic()).unwrap_or(after.len());
        let (numbers, next) = after.split_at(end);
        rest = next;
        let mut places = Places(numbers);
        match command {
            'M' => {
                let to = places.next()?;
                write_step(&mut out, 'm', at, &[to]);
                (at, start) = (to, to);
            }
            'L' => {
                let to = places.next()?;
                if to.1 == at.1 {
                    write_number(&mut out, 'h', to.0 - at.0);
                } else if to.0 == at.0 {
                    write_number(&mut out, 'v', to.1 - at.1);
                } else {
                    write_step(&mut out, 'l', at, &[to]);
                }
                at = to;
            }
            'C' => {
                let (first, second, to) = (places.next()?, places.next()?, places.next()?);
                write_step(&mut out, 'c', at, &[first, second, to]);
                at = to;
            }
            'Z' => {
                out.push('z');
                at = start;
            }
            _ => return None,
        }
        if !places.0.trim_ascii().is_empty() {
            return None;
        }
    }
    (!out.is_empty()).then_some(out)
}

/// A place in hundredths.
type Place = (i64, i64);

/// The places that stand in a row, two numbers each.
struct Places<'d>(&'d str);

impl Places<'_> {
    fn next(&mut self) -> Option<Place> {
        Some((self.number()?, self.number()?))
    }

    /// The next number, rounded to hundredths, half away from nothing.
    fn number(&mut self) -> Option<i64> {
        let text = self.0.trim_ascii_start();
        let (number, rest) = text.split_at(text.find(' ').unwrap_or(text.len()));
        self.0 = rest;
        let (sign, digits) = number.strip_prefix('-').map_or((1, number), |digits| (-1, digits));
        let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
        let plain = |digits: &str| digits.len() < 10 && digits.bytes().all(|digit| digit.is_ascii_digit());
        if whole.is_empty() || !plain(whole) || !plain(part) {
            return None;
        }
        let mut value = whole.parse::<i64>().ok()? * 1000;
        for (digit, worth) in part.bytes().zip([100, 10, 1]) {
            value += i64::from(digit - b'0') * worth;
        }
        Some(sign * ((value + 5) / 10))
    }
}

/// A command with the distances of places from another.
fn write_step(out: &mut String, command: char, from: Place, places: &[Place]) {
    let mut letter = Some(command);
    for &(x, y) in places {
        for distance in [x - from.0, y - from.1] {
            match letter.take() {
                Some(letter) => write_number(out, letter, distance),
                // A minus sign keeps numbers apart as well as a blank.
                None if distance < 0 => write_decimal(out, distance),
                None => write_number(out, ' ', distance),
            }
        }
    }
}

fn write_number(out: &mut String, before: char, value: i64) {
    out.push(before);
    write_decimal(out, value);
}

/// Hundredths as a decimal number without anything that it can do without.
fn write_decimal(out: &mut String, value: i64) {
    if value < 0 {
        out.push('-');
    }
    let (whole, part) = (value.unsigned_abs() / 100, value.unsigned_abs() % 100);
    // Writing to a string cannot fail.
    if whole != 0 || part == 0 {
        let _ = write!(out, "{whole}");
    }
    if part != 0 {
        let _ = if part % 10 == 0 { write!(out, ".{}", part / 10) } else { write!(out, ".{part:02}") };
    }
}

#[cfg(test)]
mod tests {
    use super::{Pens, draw, short_path};
    use crate::backend::html::markup::Markup;
    use crate::backend::tests::sample_page;

    #[test]
    fn paths_are_written_by_their_differences() {
        assert_eq!(
            short_path("M67.997 46.323L154.443 46.323L134.63 165.2L134.63 40Z"),
            "m68 46.32h86.44l-19.81 118.88v-125.2z"
        );
        assert_eq!(short_path("M1 1C2 1 3 2 3 3ZM0.5 0.5L1 1"), "m1 1c1 0 2 1 2 2zm-.5-.5l.5 .5");
        // Nothing adds up: a thousand steps of a third of a hundredth end where they should.
        let steps: Vec<String> = (1..=1000).map(|step| format!("L{0:.4} {0:.4}", f64::from(step) / 300.0)).collect();
        let short = short_path(&format!("M0 0{}", steps.concat()));
        let total: f64 = short
            .trim_start_matches("m0 0")
            .split(['l', 'h', 'v'])
            .filter_map(|step| step.split(' ').next()?.parse::<f64>().ok())
            .sum();
        assert!((total - 3.33).abs() < 1e-6, "{total}");
    }

    #[test]
    fn a_path_of_another_make_stays_as_it_is() {
        for data in ["", "M1 1A2 2 0 0 1 3 3", "M1", "M1 x", "M1 1L2"] {
            assert_eq!(short_path(data), data);
        }
    }

    #[test]
    fn a_drawing_has_one_name_and_shares_its_pens() {
        let (mut pens, mut out) = (Pens::default(), Markup::default());
        draw(&sample_page(), &mut pens, &mut out);
        let one = out.text.len();
        draw(&sample_page(), &mut pens, &mut out);
        assert_eq!(out.text.len(), 2 * one, "the same pens serve the second drawing: {}", out.text);
        assert_eq!(out.text.matches("a square, a circle and two lines of text").count(), 2);
        assert!(
            !out.text.contains("xmlns") && !out.text.contains("<desc") && !out.text.contains("stroke="),
            "{}",
            out.text
        );
        assert!(out.text.contains(">1½ × 2 &lt;in&gt;</text>"), "{}", out.text);
        assert!(pens.rules().contains("font-size:12px;font-weight:700;text-anchor:middle"), "{}", pens.rules());
    }
}
