//! Fabrics that a sewer exchanges on her own: the words of a `colouring` line, said beside the pattern.

use crate::fault::{self, Fault, cutting as words, names};
use crate::notation::source::{SourceText, Sources};
use crate::notation::syntax::{Item, Name};

use super::{Colouring, Pattern};

/// The key of the colouring that such an exchange makes.
const KEY: &str = "own";

/// Exchanges fabrics in a pattern, on top of one of its colourings if it is to be in one; `exchange` is `night as rose, glow as pearl`, and `name` is
/// what faults call it. Gives the index of the colouring that this makes.
///
/// # Errors
/// What is wrong with the words, and fabrics that the pattern does not have.
pub fn exchange(
    pattern: &mut Pattern,
    sources: &mut Sources,
    on_top_of: Option<usize>,
    (name, exchange): (&str, &str),
) -> Result<usize, Vec<Fault>> {
    let text = format!("colouring {KEY} \"{KEY}\" with {exchange}");
    let file = sources.add(SourceText::new(name, &text));
    let (tree, mut faults) = crate::notation::parse(file, &text);
    let keys: Vec<&str> = pattern.fabrics.iter().map(|fabric| fabric.key.as_str()).collect();
    let find = |key: &Name| {
        let found = keys.iter().position(|known| *known == key.value);
        found.ok_or_else(|| words::no_such_fabric(key.span, &key.value, &keys))
    };
    let mut pairs: Vec<(usize, usize)> = Vec::new();
    for item in &tree.items {
        let Item::Colouring(line) = &item.value else {
            faults.push(words::not_an_exchange(item.span));
            continue;
        };
        for (from, to) in &line.exchanges {
            match (find(from), find(to)) {
                (Ok(found), Ok(_)) if pairs.iter().any(|&(other, _)| other == found) => {
                    faults.push(names::exchanged_twice(from.span, &from.value, from.span));
                }
                (Ok(found), Ok(other)) => pairs.push((found, other)),
                (found, other) => faults.extend([found.err(), other.err()].into_iter().flatten()),
            }
        }
    }
    if !faults.is_empty() {
        fault::sort(&mut faults);
        return Err(faults);
    }
    let of = |fabric: usize| pattern.fabrics.get(fabric).map_or("", |fabric| fabric.name.as_str());
    let told: Vec<String> = pairs.iter().map(|&(from, to)| format!("{} → {}", of(from), of(to))).collect();
    let before = on_top_of.and_then(|index| pattern.colourings.get(index));
    let title = before.map(|before| before.title.clone()).into_iter().chain(told).collect::<Vec<_>>().join(", ");
    let own = |fabric: usize| pairs.iter().find(|(from, _)| *from == fabric).map_or(fabric, |&(_, to)| to);
    let became = |drawn: usize| own(before.map_or(drawn, |before| before.fabric(drawn)));
    let fabrics = (0..pattern.fabrics.len()).map(|drawn| (drawn, became(drawn))).filter(|(drawn, to)| drawn != to);
    let colouring = Colouring { key: KEY.to_owned(), title, fabrics: fabrics.collect() };
    pattern.colourings.push(colouring);
    Ok(pattern.colourings.len() - 1)
}
