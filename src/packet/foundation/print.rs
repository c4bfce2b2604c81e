//! Which way the print of a section runs on a foundation: an arrow for its up, one with two heads where up and down are alike.

use crate::geometry::{Length, Vector};
use crate::model::PrintDirection;
use crate::packet::label::{Arrow, Label, axes};
use crate::packet::page::{Colour, Weight};

use super::{Drawing, Named};

/// Dark enough to be seen in print, lighter than names and seams.
const INK: Colour = Colour::grey(70);

/// Which way the print of a section runs.
#[derive(Clone, Copy)]
pub(super) struct Run {
    /// Up, of length 1, on the printed side.
    up: Vector,
    /// Whether up and down are alike.
    two_way: bool,
}

impl Drawing<'_> {
    /// Which way the print of a section runs; none where its fabric has no direction, or where it depends on how the unit is turned in the block.
    pub(super) fn run(&self, named: Named) -> Option<Run> {
        let variant = self.subject.variant();
        let fabric = self.subject.model.fabrics.get(variant.fabric_of(named.section, named.strip)?)?;
        let two_way = match fabric.print.direction {
            PrintDirection::None => return None,
            PrintDirection::TwoWay => true,
            PrintDirection::OneWay => false,
        };
        let own = variant.cuts.iter().filter(|cut| (cut.section, cut.strip) == (named.section, named.strip));
        let mut ups = own.filter_map(|cut| self.printed.apply_to_vector(cut.up).unit());
        let up = ups.next()?;
        let alike = |other: Vector| up.cross(other).abs() < 1e-3 && (two_way || up.dot(other) > 0.0);
        ups.all(alike).then_some(Run { up, two_way })
    }

    /// The arrow of a section, beside a name in type of this size in a label that is turned so; with its word, or alone.
    pub(super) fn arrow(&self, run: Run, points: f64, turn: f64, with_word: bool) -> Label {
        let (along, down) = axes(turn);
        let up = Vector::new(run.up.dot(along), run.up.dot(down));
        let arrow = Label::arrow(Arrow { up, long: points / 72.0 * 2.2, two_way: run.two_way }, INK);
        if !with_word {
            return arrow;
        }
        let words = self.subject.words;
        let word = if run.two_way { words.print_two_way() } else { words.print_up() };
        let size = Length::points((points * 0.6).max(4.5));
        arrow.beside(&Label::words(&word, size, Weight::Regular, INK), 0.03)
    }
}
