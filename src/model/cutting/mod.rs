//! All that is cut from one fabric: the pieces, the strips they come from, what to buy.

mod buy;
mod pieces;

use crate::cutting::{Item, Layout, strips};
use crate::geometry::Length;
use crate::pattern::Pattern;

use super::{Blank, Block, FabricCutting, PieceGroup, Print, PrintDirection, Strip, StripPiece};

/// All that is cut, fabric by fabric.
pub(super) fn cutting(pattern: &Pattern, blocks: &[Block]) -> Vec<FabricCutting> {
    let groups = pieces::by_fabric(pattern, blocks).into_iter().enumerate().filter(|(_, pieces)| !pieces.is_empty());
    groups.map(|(fabric, pieces)| of_fabric(pattern, fabric, pieces)).collect()
}

fn of_fabric(pattern: &Pattern, fabric: usize, pieces: Vec<PieceGroup>) -> FabricCutting {
    let stock = pattern.fabrics[fabric].stock.clone().unwrap_or_else(|| pattern.cloth.stock.clone());
    let width = buy::width(&stock, pattern.units);
    let print = pattern.fabrics[fabric].print;
    let (items, of) = items(&pieces, print);
    let layout = strips(&items, width);
    let buy = buy::purchase(pattern, &items, &layout);
    FabricCutting {
        fabric,
        strips: laid(&layout, &of),
        pieces,
        sheet: (width, None),
        length: layout.length,
        lower_bound: layout.lower_bound,
        price: None,
        buy,
        other_widths: Vec::new(),
        own: None,
        stock,
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

fn laid(layout: &Layout, of: &[(usize, usize)]) -> Vec<Strip> {
    let strip = |strip: &crate::cutting::LaidStrip| {
        let piece = |piece: &crate::cutting::LaidPiece| {
            let (group, blank) = of.get(piece.item).copied().unwrap_or_default();
            StripPiece { group, blank, x: piece.x, y: Length::ZERO, turned: piece.turned }
        };
        Strip { sheet: 0, width: strip.width, pieces: strip.pieces.iter().map(piece).collect() }
    };
    layout.strips.iter().map(strip).collect()
}
