//! How much is bought, now and before.

use crate::model::{Model, Purchase};

use super::{BuyChange, Change, Pairs};

/// What is bought of a fabric: its index and how much.
type Bought = Vec<(usize, Purchase)>;

/// Adds all fabrics of which more or less is bought, as built and in every colouring that both models have.
pub(super) fn compare(was: &Model, now: &Model, pairs: &Pairs, changes: &mut Vec<Change>) {
    let of = |model: &Model| model.cutting.iter().map(|cutting| (cutting.fabric, cutting.buy)).collect::<Bought>();
    differing(&of(was), &of(now), pairs, None, changes);
    for coloured in &now.in_colourings {
        let Some(title) = now.colourings.get(coloured.colouring).map(|colouring| &colouring.title) else { continue };
        let same = |other: &&crate::model::ColouredAmounts| {
            was.colourings.get(other.colouring).is_some_and(|colouring| colouring.title == *title)
        };
        let Some(before) = was.in_colourings.iter().find(same) else { continue };
        let of = |all: &[(usize, Vec<usize>, Purchase)]| {
            all.iter().map(|(fabric, _, buy)| (*fabric, *buy)).collect::<Bought>()
        };
        let mut found = Vec::new();
        differing(&of(&before.fabrics), &of(&coloured.fabrics), pairs, Some(title), &mut found);
        // What is bought as in the drawing is told once.
        found.retain(|change| {
            let Change::Buy(change) = change else { return true };
            !changes.iter().any(|other| {
                let Change::Buy(other) = other else { return false };
                (other.fabric, other.was, other.now) == (change.fabric, change.was, change.now)
                    && other.colouring.is_none()
            })
        });
        changes.extend(found);
    }
}

fn differing(was: &Bought, now: &Bought, pairs: &Pairs, colouring: Option<&String>, changes: &mut Vec<Change>) {
    let mut push = |fabric, was: Option<Purchase>, now: Option<Purchase>| {
        if was != now {
            changes.push(Change::Buy(BuyChange { fabric, colouring: colouring.cloned(), was, now }));
        }
    };
    for &(fabric, buy) in now {
        let before = pairs.fabric_was(fabric);
        push(fabric, was.iter().find(|(other, _)| Some(*other) == before).map(|(_, buy)| *buy), Some(buy));
    }
    for &(fabric, buy) in was {
        let still = pairs.fabric_now(fabric).is_some_and(|now_is| now.iter().any(|(other, _)| *other == now_is));
        if !still {
            push(fabric, Some(buy), None);
        }
    }
}
