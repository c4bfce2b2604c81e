//! The outer edges of a block that are cut on the bias: where it stretches once its papers are out.

use crate::geometry::{Angle, Segment, Tolerance, Vector};
use crate::model::{Block, Cut, Placement};

/// A side of a block, by the direction in which it looks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// Up.
    Top,
    /// Up and to the right.
    TopRight,
    /// To the right.
    Right,
    /// Down and to the right.
    BottomRight,
    /// Down.
    Bottom,
    /// Down and to the left.
    BottomLeft,
    /// To the left.
    Left,
    /// Up and to the left.
    TopLeft,
}

impl Side {
    const ALL: [Self; 8] = [
        Self::Top,
        Self::TopRight,
        Self::Right,
        Self::BottomRight,
        Self::Bottom,
        Self::BottomLeft,
        Self::Left,
        Self::TopLeft,
    ];

    /// Its key in the catalogues.
    #[must_use]
    pub const fn key(self) -> &'static str {
        match self {
            Self::Top => "top",
            Self::TopRight => "top-right",
            Self::Right => "right",
            Self::BottomRight => "bottom-right",
            Self::Bottom => "bottom",
            Self::BottomLeft => "bottom-left",
            Self::Left => "left",
            Self::TopLeft => "top-left",
        }
    }

    /// The side that looks most nearly in this direction.
    fn facing(out: Vector) -> Self {
        let ways = (0..8u8).map(|eighth| Vector::at_bearing(Angle::degrees(f64::from(eighth) * 45.0)));
        let nearest = Self::ALL.into_iter().zip(ways).max_by(|(_, a), (_, b)| a.dot(out).total_cmp(&b.dot(out)));
        nearest.map_or(Self::Top, |(side, _)| side)
    }
}

/// An edge of a section on the outline of the block that is cut on the bias.
#[derive(Debug, Clone, PartialEq)]
pub struct BiasEdge {
    /// Of which placement, by index in [`Block::placements`].
    pub placement: usize,
    /// Its section, by index in the unit's sections.
    pub section: usize,
    /// The edge, in the block's frame.
    pub edge: Segment,
    /// On which side of the block it lies.
    pub side: Side,
}

/// The outer edges of a block that lie on the bias, placement by placement. O(n·m) in the edges of its sections and of its outline.
#[must_use]
pub fn bias_edges(block: &Block) -> Vec<BiasEdge> {
    let near = Tolerance::of_extent(block.width.max(block.height).to_inches());
    let mut found = Vec::new();
    for (placement, place) in block.placements.iter().enumerate() {
        let Some(variant) = block.variants.get(place.variant) else { continue };
        let unit = block.unit_of(variant);
        for (index, section) in unit.sections.iter().enumerate() {
            for (strip, area) in section.areas().enumerate() {
                let strip = (!section.pieced.is_empty()).then_some(strip);
                let cuts = variant.cuts.iter().filter(|cut| cut.section == index && cut.strip == strip);
                let Some(cut) = cut_at(&cuts.collect::<Vec<_>>(), place) else { continue };
                let edges = area.edges().enumerate().filter(|(at, _)| cut.bias_edges.contains(at));
                for edge in edges.map(|(_, edge)| place.transform.apply_to_segment(edge)) {
                    let outer = block.outline.edge_under(edge, near);
                    let Some(way) = outer.and_then(|outer| (outer.end - outer.start).unit()) else {
                        continue;
                    };
                    // The inside lies on the right of an edge.
                    let side = Side::facing(-way.quarter_turned());
                    found.push(BiasEdge { placement, section: index, edge, side });
                }
            }
        }
    }
    found
}

/// Which of the cuts of a section is for a place: the one whose turn is the place's, as nearly as its print tells turns apart.
fn cut_at<'m>(cuts: &[&'m Cut], place: &Placement) -> Option<&'m Cut> {
    if let [only] = cuts {
        return Some(only);
    }
    let up = place.transform.inverse()?.apply_to_vector(Vector::new(0.0, -1.0));
    let turn = -Angle::radians(libm::atan2(up.x, -up.y)).to_degrees();
    let off = |cut: &Cut, full: f64| {
        let off = (cut.turn.to_degrees() - turn).rem_euclid(full);
        off.min(full - off)
    };
    [360.0, 180.0, 90.0].into_iter().find_map(|full| cuts.iter().copied().find(|cut| off(cut, full) < 1e-3))
}
