//! What became of each foundation: new, gone, drawn anew, numbered anew, in other fabrics, renamed, or only otherwise marked.

use crate::geometry::{Length, Point, Polygon};
use crate::model::{Block, Cut, Fabric, Model, Variant};
use crate::packet::edges::{Sign, Stretch, stretches, ticks};
use crate::packet::foundation::{Foundation, foundation};
use crate::packet::page::{Item, Subpath};
use crate::packet::sheets::Bed;
use crate::packet::words::Words;

use super::alike::{Form, Likeness, apart, is_in_order, same_area, same_length, same_line, same_place};
use super::pairs::same_fabrics;
use super::said;
use super::{Alteration, Beside, Change, FoundationChange, Pairs, Recoloured, Redrawn, Said, StillFits};

/// Adds what became of all foundations.
pub(super) fn compare(was: &Model, now: &Model, pairs: &Pairs, changes: &mut Vec<Change>) {
    let faces = Faces::of(was, now);
    for (block, pair) in pairs.blocks.iter().enumerate() {
        for &(before, after) in &pair.variants {
            let subject = |model: &Model, of: Option<usize>, index: Option<usize>| {
                let block = model.blocks.get(of?)?;
                let variant = block.variants.get(index?)?;
                // What is not sewn, as of a packet of one unit, is not there.
                (variant.sewn > 0).then(|| (of.unwrap_or_default(), index.unwrap_or_default()))
            };
            let (was_at, now_at) = (subject(was, pair.was, before), subject(now, pair.now, after));
            let (was_there, now_there) = (was_at.is_some(), now_at.is_some());
            let told = |alterations| {
                let (was, now) = (before.filter(|_| was_there), after.filter(|_| now_there));
                Change::Foundation(FoundationChange { block, was, now, alterations })
            };
            let printed = |model: &Model, (block, variant): (usize, usize)| {
                model.blocks[block].has_paper(&model.blocks[block].variants[variant])
            };
            match (was_at, now_at) {
                (Some(a), Some(b)) => {
                    let pair = Pair { was, now, at: (a, b), pairs, faces: &faces };
                    let unseen = pair.renamed_unseen();
                    let found = pair.alterations(unseen.is_some());
                    changes.extend(unseen);
                    if !found.is_empty() {
                        changes.push(told(found));
                    }
                }
                (Some(at), None) if printed(was, at) => changes.push(told(Vec::new())),
                (None, Some(at)) if printed(now, at) => changes.push(told(Vec::new())),
                _ => {}
            }
        }
    }
}

/// The foundations of both models as they are drawn, where nobody can tell without drawing them.
struct Faces {
    was: Model,
    now: Model,
    words: Words,
    /// Whether all blocks and fabrics are equal, so that nothing need be drawn.
    equal: bool,
}

impl Faces {
    fn of(was: &Model, now: &Model) -> Self {
        // Title and edition stand on every foundation, and change nothing that is sewn.
        let told = |model: &Model| Model {
            facts: now.facts.clone(),
            paper: now.paper,
            sheets: now.sheets.clone(),
            ..model.clone()
        };
        let equal = was.blocks == now.blocks && was.fabrics == now.fabrics && was.allowance == now.allowance;
        Self { was: told(was), now: told(now), words: Words::english(), equal }
    }

    /// Whether all that a foundation is drawn from is equal, so that it need not be drawn to be told the same.
    fn told_alike(&self, was: (usize, usize), now: (usize, usize)) -> bool {
        let (was_block, now_block) = (&self.was.blocks[was.0], &self.now.blocks[now.0]);
        let (was, now) = (&was_block.variants[was.1], &now_block.variants[now.1]);
        let seen = |fabric: &Fabric| (fabric.mark, fabric.print);
        let bare = |variant: &Variant| {
            let cuts = variant.cuts.iter().map(|cut| Cut { count: 0, ..cut.clone() }).collect();
            let (fabrics, pieced) = (Vec::new(), Vec::new());
            Variant { id: String::new(), unit: 0, sewn: 0, fabrics, pieced, cuts, ..variant.clone() }
        };
        self.was.allowance == self.now.allowance
            && (was_block.width, was_block.height) == (now_block.width, now_block.height)
            && was_block.unit_of(was) == now_block.unit_of(now)
            && bare(was) == bare(now)
            && of_fabrics(&self.was, was, seen) == of_fabrics(&self.now, now, seen)
            && stretches(was_block, was) == stretches(now_block, now)
            && ticks(was_block, was) == ticks(now_block, now)
    }

    fn are_alike(&self, was: (usize, usize), now: (usize, usize)) -> bool {
        if self.equal || self.told_alike(was, now) {
            return true;
        }
        let room = Bed::under(&self.now).room();
        let drawn = |model, (block, variant): (usize, usize)| foundation(model, block, variant, room, &self.words);
        let (was, now) = (drawn(&self.was, was), drawn(&self.now, now));
        was.len() == now.len() && was.iter().zip(&now).all(|(a, b)| drawn_alike(a, b))
    }
}

/// What there is to know of each fabric of a foundation, section by section.
fn of_fabrics<T>(model: &Model, variant: &Variant, what: impl Fn(&Fabric) -> T) -> Vec<Option<T>> {
    let all = (0..variant.fabrics.len()).flat_map(|k| variant.fabrics_of(k));
    all.map(|&fabric| model.fabrics.get(fabric).map(&what)).collect()
}

/// Whether two foundations show the same.
fn drawn_alike(a: &Foundation, b: &Foundation) -> bool {
    a.part == b.part && a.items.len() == b.items.len() && a.items.iter().zip(&b.items).all(|(a, b)| item_alike(a, b))
}

fn item_alike(a: &Item, b: &Item) -> bool {
    match (a, b) {
        (Item::Path(a), Item::Path(b)) => {
            let places = |path: &[Subpath]| path.iter().flat_map(Subpath::places).collect::<Vec<Point>>();
            let (from, to) = (places(&a.subpaths), places(&b.subpaths));
            (a.fill, a.rule, &a.stroke, a.layer) == (b.fill, b.rule, &b.stroke, b.layer)
                && a.subpaths.len() == b.subpaths.len()
                && from.len() == to.len()
                && from.iter().zip(&to).all(|(a, b)| same_place(*a, *b))
        }
        (Item::Text(a), Item::Text(b)) => {
            a.words == b.words && a.size == b.size && same_place(a.at, b.at) && same_length(a.turn, b.turn)
        }
        _ => a == b,
    }
}

/// A foundation in its block, and as it is printed.
type Seen<'m> = ((&'m Block, &'m Variant), &'m Form);

/// A foundation before and now, each by block and index.
struct Pair<'m> {
    was: &'m Model,
    now: &'m Model,
    at: ((usize, usize), (usize, usize)),
    pairs: &'m Pairs,
    faces: &'m Faces,
}

impl Pair<'_> {
    /// How it differs; `unseen` is whether its new name stands nowhere on it.
    fn alterations(&self, unseen: bool) -> Vec<Alteration> {
        let ((was_block, was_index), (now_block, now_index)) = self.at;
        let (was_block, now_block) = (&self.was.blocks[was_block], &self.now.blocks[now_block]);
        let (was, now) = (&was_block.variants[was_index], &now_block.variants[now_index]);
        let mut found = Vec::new();
        if now_block.has_paper(now) {
            found.extend(self.printed((was_block, was), (now_block, now), unseen));
        }
        if was.sewn != now.sewn {
            found.push(Alteration::Counted { now: now.sewn, was: was.sewn });
        }
        found
    }

    /// What is printed otherwise.
    fn printed(&self, was: (&Block, &Variant), now: (&Block, &Variant), unseen: bool) -> Vec<Alteration> {
        let (before, after) = (Form::of(was.0, was.1), Form::of(now.0, now.1));
        let mut found = Vec::new();
        let order = match before.likeness(&after) {
            Likeness::Same(order) => order,
            Likeness::Other => {
                found.push(Alteration::Redrawn(redrawn_least((was, &before), (now, &after))));
                matched(&before, &after)
            }
        };
        if found.is_empty() && !is_in_order(&order) {
            let moved = order.iter().enumerate().filter(|(k, i)| k != *i).map(|(k, &i)| (k + 1, i + 1));
            found.push(Alteration::Renumbered(moved.collect()));
        }
        let recoloured = self.recoloured(was.1, now.1, &order);
        if !recoloured.is_empty() {
            found.push(Alteration::Recoloured(recoloured));
        }
        let (was_unit, now_unit) = (was.0.unit_of(was.1), now.0.unit_of(now.1));
        if (was_unit.name != now_unit.name || was.1.mark != now.1.mark) && !unseen {
            // Another foundation that bears the mark now would be taken for it.
            let taken = was.1.mark != now.1.mark && now.0.variants.iter().any(|other| other.mark == was.1.mark);
            found.push(Alteration::Renamed { taken });
        }
        if found.is_empty() {
            let (was_at, now_at) = self.at;
            let fabrics = &self.pairs.fabrics;
            if !same_fabrics(was.1, now.1, fabrics) || !self.faces.are_alike(was_at, now_at) {
                found.push(Alteration::Relabelled(self.beside((was, &before), (now, &after))));
            }
        }
        found
    }

    /// What is printed otherwise beside seams that are as they were.
    fn beside(&self, was: Seen<'_>, now: Seen<'_>) -> Vec<Beside> {
        let mut found = Vec::new();
        let mark = |fabric: &Fabric| fabric.mark;
        if of_fabrics(self.was, was.0.1, mark) != of_fabrics(self.now, now.0.1, mark) {
            found.push(Beside::Fabrics);
        }
        if !ticked_alike(was, now, |_| true) {
            found.push(Beside::Ticks);
        }
        let meets = |((block, variant), form): Seen<'_>| {
            let of = |stretch: Stretch| (form.map.apply_to_segment(stretch.segment), stretch.meets);
            stretches(block, variant).into_iter().map(of).collect::<Vec<_>>()
        };
        let (before, after) = (meets(was), meets(now));
        let same = before.len() == after.len()
            && before.iter().zip(&after).all(|((a, of), (b, other))| of == other && same_line(*a, *b));
        if !same {
            found.push(Beside::Edges);
        }
        if found.is_empty() {
            found.push(Beside::Other);
        }
        found
    }

    /// That its unit has another name, where that stands nowhere on its paper, or it has none.
    fn renamed_unseen(&self) -> Option<Change> {
        let (was_at, now_at) = self.at;
        let (was_block, now_block) = (&self.was.blocks[was_at.0], &self.now.blocks[now_at.0]);
        let (was, now) = (&was_block.variants[was_at.1], &now_block.variants[now_at.1]);
        let (old, new) = (&was_block.unit_of(was).name, &now_block.unit_of(now).name);
        let is_unseen = || !now_block.has_paper(now) || self.faces.are_alike(was_at, now_at);
        (old != new && was.mark == now.mark && is_unseen())
            .then(|| said::one(Said::Unit, "", Some(old.clone()), Some(new.clone())))
    }

    /// The sections in other fabrics; `order` has for each section now its index before, past the end where it has none.
    fn recoloured(&self, was: &Variant, now: &Variant, order: &[usize]) -> Vec<Recoloured> {
        let mut found = Vec::new();
        for (k, &i) in order.iter().enumerate() {
            let (before, after) = (was.fabrics_of(i), now.fabrics_of(k));
            if before.len() != after.len() {
                continue;
            }
            let other = before.iter().zip(after).find(|(a, b)| self.pairs.fabric_was(**b) != Some(**a));
            found.extend(other.map(|(&was, &now)| Recoloured { section: k + 1, now, was }));
        }
        found
    }
}

/// For each section of the later form the one of the earlier that it was, by index; past the end where it was none: by number where both have as many, else by what covers most of it.
pub(super) fn matched(was: &Form, now: &Form) -> Vec<usize> {
    if was.sections.len() == now.sections.len() {
        return (0..now.sections.len()).collect();
    }
    let tolerance = crate::geometry::Tolerance::of_extent(1.0);
    let shared = |a: &Polygon, b: &Polygon| a.intersection(b, tolerance).map_or(0.0, |both| both.area());
    let mut ranks: Vec<(f64, usize, usize)> = Vec::new();
    for (i, before) in was.sections.iter().enumerate() {
        for (k, after) in now.sections.iter().enumerate() {
            let part = shared(&before.area, &after.area) / before.area.area().max(after.area.area()).max(1e-12);
            if part > 0.25 {
                ranks.push((part, i, k));
            }
        }
    }
    ranks.sort_by(|a, b| b.0.total_cmp(&a.0).then((a.2, a.1).cmp(&(b.2, b.1))));
    let mut order = vec![usize::MAX; now.sections.len()];
    for (_, i, k) in ranks {
        if order[k] == usize::MAX && !order.contains(&i) {
            order[k] = i;
        }
    }
    order
}

/// How a foundation was redrawn: laid over what it was where it was drawn, or corner on corner, whichever leaves more as it was.
fn redrawn_least(was: Seen<'_>, now: Seen<'_>) -> Redrawn {
    let moved = redrawn(was.1, now.1);
    let drawn = |((block, variant), _): Seen<'_>| Form::as_drawn(block, variant);
    let drawn = redrawn(&drawn(was), &drawn(now));
    let less = |a: &Redrawn, b: &Redrawn| {
        (a.sections.len(), a.farthest.to_inches()) <= (b.sections.len(), b.farthest.to_inches())
    };
    // Whether it still fits does not depend on where it was drawn.
    let fit = match (moved.fit, ticked_alike(was, now, |sign| sign == Sign::Match)) {
        (StillFits::Not, _) => StillFits::Not,
        (_, true) => StillFits::Fits,
        (_, false) => StillFits::MeetsElsewhere,
    };
    let least = if less(&drawn, &moved) { drawn } else { moved };
    Redrawn { fit, ..least }
}

/// Whether two foundations have the same ticks of these kinds, as they are printed.
fn ticked_alike(was: Seen<'_>, now: Seen<'_>, of: impl Fn(Sign) -> bool) -> bool {
    let places = |((block, variant), form): Seen<'_>| {
        let all = ticks(block, variant).into_iter().filter(|tick| of(tick.sign));
        all.map(|tick| (form.map.apply(tick.at), tick.sign)).collect::<Vec<_>>()
    };
    let (was, now) = (places(was), places(now));
    let among = |some: &[(Point, Sign)], all: &[(Point, Sign)]| {
        some.iter().all(|(at, sign)| all.iter().any(|(other, of)| of == sign && same_place(*at, *other)))
    };
    among(&was, &now) && among(&now, &was)
}

fn redrawn(was: &Form, now: &Form) -> Redrawn {
    let order = matched(was, now);
    let mut farthest = (0.0, Point::default());
    let mut most = None;
    let mut sections = Vec::new();
    let mut take = |found: (f64, Point), of: Option<usize>| {
        if found.0 > farthest.0 {
            (farthest, most) = (found, of);
        }
    };
    for (k, after) in now.sections.iter().enumerate() {
        match was.sections.get(order[k]) {
            Some(before) if same_area(&before.area, &after.area) => {}
            Some(before) => {
                take(apart(&before.area, &after.area), Some(k + 1));
                sections.push(k + 1);
            }
            None => sections.push(k + 1),
        }
    }
    // Where sections moved, the cutting line did with them.
    if sections.is_empty() {
        take(apart(&was.cutting, &now.cutting), None);
    }
    let fit = if was.has_edges_of(now) { StillFits::Fits } else { StillFits::Not };
    let at = now.map.inverse().map_or(farthest.1, |back| back.apply(farthest.1));
    Redrawn {
        farthest: Length::inches(farthest.0),
        at,
        most,
        sections,
        counts: (was.sections.len(), now.sections.len()),
        fit,
    }
}
