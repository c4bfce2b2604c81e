//! Which source of one side is which of the other: by their keys, or else by the titles of their patterns.

use super::super::Trouble;
use super::super::input::Content;
use super::super::side::{Named, Side};

/// A source before and now; nothing where it is not there.
pub type Sides = (Option<Side>, Option<Side>);

/// Which source of one side is which of the other, in order of their keys.
pub fn matched(was: Named, now: Named) -> Result<Vec<Sides>, Trouble> {
    let (mut was, now) = match (was, now) {
        // Whatever they are called.
        (Named::One(was), Named::One(now)) => return Ok(vec![(Some(was), Some(now))]),
        (Named::Folder(was), Named::Folder(now)) => (was, now),
        (Named::One(was), Named::Folder(now)) if now.is_empty() => (vec![was], now),
        (Named::Folder(was), Named::One(now)) if was.is_empty() => (was, vec![now]),
        _ => {
            return Err(Trouble::new("a source and a folder cannot be compared")
                .with_help("name two sources, or two folders of them"));
        }
    };
    let mut pairs: Vec<Sides> = Vec::new();
    for side in now {
        let same = was.iter().position(|other| other.key == side.key);
        pairs.push((same.map(|at| was.remove(at)), Some(side)));
    }
    match_by_title(&mut pairs, &mut was);
    pairs.extend(was.into_iter().map(|side| (Some(side), None)));
    let key = |(was, now): &Sides| now.as_ref().or(was.as_ref()).map(|side| side.key.clone()).unwrap_or_default();
    pairs.sort_by_key(key);
    Ok(pairs)
}

/// Finds in `was` what bears another name now, by a title that no other pattern without a partner has on either side.
fn match_by_title(pairs: &mut [Sides], was: &mut Vec<Side>) {
    let alone = pairs.iter().filter(|(before, _)| before.is_none()).filter_map(|(_, after)| title(after.as_ref()?));
    let alone: Vec<String> = alone.map(str::to_owned).collect();
    let earlier: Vec<String> = was.iter().filter_map(title).map(str::to_owned).collect();
    let is_one = |titles: &[String], title: &str| titles.iter().filter(|other| *other == title).count() == 1;
    for (before, after) in pairs.iter_mut().filter(|(before, _)| before.is_none()) {
        let Some(title) = after.as_ref().and_then(title) else { continue };
        if is_one(&alone, title) && is_one(&earlier, title) {
            let same = was.iter().position(|other| self::title(other) == Some(title));
            *before = same.map(|at| was.remove(at));
        }
    }
}

/// The line of a source that says its title.
fn title(side: &Side) -> Option<&str> {
    let Content::Text(text) = &side.content else { return None };
    text.lines().map(str::trim).find(|line| line.starts_with("pattern")).map(|line| line["pattern".len()..].trim())
}
