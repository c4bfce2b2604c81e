//! All that is cut from one fabric: the pieces, the strips they come from, what to buy.

mod bolt;
mod own;
mod pieces;
mod sheets;

use crate::cutting::stock::Budget;
use crate::cutting::{Item, LaidStrip, Layout};
use crate::geometry::Length;
use crate::pattern::{Effort, Pattern, Stock};

use super::{Blank, Block, FabricCutting, PieceGroup, Print, PrintDirection, Purchase, Strip, StripPiece};

/// All that is cut, fabric by fabric.
pub(super) fn cutting(pattern: &Pattern, blocks: &[Block]) -> Vec<FabricCutting> {
    let groups = pieces::by_fabric(pattern, blocks).into_iter().enumerate().filter(|(_, pieces)| !pieces.is_empty());
    groups.map(|(fabric, pieces)| of_fabric(pattern, fabric, pieces)).collect()
}

/// A fabric whose pieces are planned.
struct Planner<'a> {
    pattern: &'a Pattern,
    stock: &'a Stock,
    items: Vec<Item>,
    /// Which group and which blank of it each item is.
    of: Vec<(usize, usize)>,
}

/// A plan for all pieces of a fabric.
struct Planned {
    strips: Vec<Strip>,
    sheet: (Length, Option<Length>),
    length: Length,
    lower_bound: Length,
    fewest_sheets: Option<usize>,
    price: Option<Length>,
    buy: Purchase,
    other_widths: Vec<(Length, Purchase)>,
}

fn of_fabric(pattern: &Pattern, fabric: usize, pieces: Vec<PieceGroup>) -> FabricCutting {
    let stock = pattern.fabrics[fabric].stock.clone().unwrap_or_else(|| pattern.cloth.stock.clone());
    let (items, of) = items(&pieces, pattern.fabrics[fabric].print);
    let planner = Planner { pattern, stock: &stock, items, of };
    let planned = match &stock {
        Stock::Bolt(widths) => planner.off_the_bolt(widths),
        Stock::FatQuarters | Stock::FatEighths => planner.in_sheets(),
    };
    let own = planner.own_cloth(fabric);
    let Planned { strips, sheet, length, lower_bound, fewest_sheets, price, buy, other_widths } = planned;
    FabricCutting {
        fabric,
        pieces,
        stock,
        sheet,
        strips,
        length,
        lower_bound,
        fewest_sheets,
        price,
        buy,
        other_widths,
        own,
    }
}

impl Planner<'_> {
    /// How far the solver may search.
    const fn budget(&self) -> Budget {
        match self.pattern.effort {
            Effort::Quick => Budget::NONE,
            Effort::Usual => Budget::USUAL,
            Effort::Thorough => Budget::THOROUGH,
        }
    }

    /// By how much the cloth is longer before it is washed.
    fn unwashed(&self) -> f64 {
        1.0 + self.pattern.cloth.shrinkage
    }

    /// The area of all items, in square inches.
    fn area(&self) -> f64 {
        self.items.iter().map(|i| i.width.to_inches() * i.height.to_inches() * f64::from(i.count)).sum()
    }

    fn told(&self, strip: &LaidStrip, sheet: usize) -> Strip {
        let pieces = strip.pieces.iter().filter_map(|piece| {
            let &(group, blank) = self.of.get(piece.item)?;
            Some(StripPiece { group, blank, x: piece.x, y: Length::ZERO, turned: piece.turned })
        });
        Strip { sheet, width: strip.width, pieces: pieces.collect() }
    }

    fn all_told(&self, layout: &Layout) -> Vec<Strip> {
        layout.strips.iter().map(|strip| self.told(strip, 0)).collect()
    }
}

/// The blanks of all pieces as items to lay in strips, and which group and blank each is.
fn items(pieces: &[PieceGroup], print: Print) -> (Vec<Item>, Vec<(usize, usize)>) {
    let blanks = pieces
        .iter()
        .enumerate()
        .flat_map(|(group, of)| of.blanks.iter().enumerate().map(move |(blank, of)| ((group, blank), *of)));
    let item = |blank: Blank| Item {
        width: blank.width,
        height: blank.height,
        count: blank.count,
        free: print.direction == PrintDirection::None,
        crosswise: print.across,
    };
    blanks.map(|(of, blank)| (item(blank), of)).unzip()
}
