//! The parser that pest makes of `grammar/piece.pest`.

use pest_derive::Parser;

#[derive(Parser)]
#[grammar = "../grammar/piece.pest"]
pub(super) struct Grammar;
