//! Lines about how pieces are cut and from what cloth.

use super::super::grammar::Rule;
use super::super::near::nearest;
use super::super::source::{Span, Spanned};
use super::super::syntax::{
    ClothLine, ClothStock, CutFor, CutLine, EaseLine, EaseSize, Fussy, Have, HavePiece, Item, Name,
};
use super::super::words;
use super::{Lower, Said, parts};
use crate::fault::{cutting, text as words_of};
use pest::iterators::Pair;

/// The words for pieces of cloth that come off no bolt.
const OWNED: [&str; 4] = ["fat-quarters", "fat-quarter", "fat-eighths", "fat-eighth"];

impl Lower<'_> {
    /// A line about how pieces are cut, or from what cloth.
    pub(super) fn about_cutting(&mut self, pair: Pair<'_, Rule>) -> Option<Said> {
        Some(match pair.as_rule() {
            Rule::cut_line => Said::Cut(self.cut_line(pair)?),
            Rule::ease => Said::Ease(self.ease_line(pair)?),
            Rule::fussy => Said::Fussy(self.fussy(pair)?),
            Rule::cloth => Said::Item(Item::Cloth(self.cloth(pair)?)),
            Rule::have => Said::Item(Item::Have(self.have(pair)?)),
            Rule::turn_slack => Said::Item(Item::TurnSlack(self.number(&parts(pair).next()?)?)),
            Rule::squaring => Said::Item(Item::Squaring(self.length(parts(pair).next()?)?)),
            Rule::shrinkage => Said::Item(Item::Shrinkage(self.number(&parts(pair).next()?)?)),
            Rule::cutting => {
                let plan = self.name(&parts(pair).next()?);
                Said::Item(Item::Cutting(self.one_of(plan, &words::PLANS, "a plan for cutting")?))
            }
            _ => return None,
        })
    }

    fn cut_line(&mut self, pair: Pair<'_, Rule>) -> Option<CutLine> {
        let (mut said, mut target) = (Vec::new(), None);
        for part in parts(pair) {
            match part.as_rule() {
                Rule::for_piece => target = Some(self.cut_for(part)),
                _ => said.push(self.choice(part, &words::CUTS, "a way to cut")),
            }
        }
        let words: Option<Vec<Name>> = said.into_iter().collect();
        let target = match target {
            None => None,
            Some(target) => Some(target?),
        };
        Some(CutLine { words: words?, target })
    }

    fn ease_line(&mut self, pair: Pair<'_, Rule>) -> Option<EaseLine> {
        let mut inner = parts(pair);
        let first = inner.next()?;
        let size = if first.as_rule() == Rule::ease_word {
            self.choice(first, &words::EASES, "an ease").map(EaseSize::Word)
        } else {
            self.length(first).map(EaseSize::Length)
        };
        let target = match inner.next() {
            Some(target) => Some(self.cut_for(target)?),
            None => None,
        };
        Some(EaseLine { size: size?, target })
    }

    fn cut_for(&mut self, pair: Pair<'_, Rule>) -> Option<CutFor> {
        let inner = parts(parts(pair).next()?).next()?;
        Some(match inner.as_rule() {
            Rule::number => CutFor::Section(self.whole(&inner, "the number of a section")?),
            _ => CutFor::Fabric(self.name(&inner)),
        })
    }

    fn choice(&mut self, pair: Pair<'_, Rule>, known: &[&'static str], what: &str) -> Option<Name> {
        let name = self.name(&parts(pair).next()?);
        self.one_of(name, known, what)
    }

    fn fussy(&mut self, pair: Pair<'_, Rule>) -> Option<Fussy> {
        let mut inner = parts(pair);
        let number = self.whole(&inner.next()?, "the number of a section");
        let at = match inner.next() {
            Some(motif) => Some(self.point(parts(motif).next()?)?),
            None => None,
        };
        Some(Fussy { number: number?, at })
    }

    fn cloth(&mut self, pair: Pair<'_, Rule>) -> Option<ClothLine> {
        let (mut widths, mut word, mut fabric) = (Vec::new(), None, None);
        for part in parts(pair) {
            match part.as_rule() {
                Rule::for_fabric => fabric = Some(self.name(&parts(part).next()?)),
                Rule::precut => word = Some(self.choice(part, &words::PRECUTS, "a way to buy fabric")),
                _ => widths.push(self.length(part)),
            }
        }
        let stock = match word {
            Some(word) => ClothStock::Word(word?),
            None => ClothStock::Widths(widths.into_iter().collect::<Option<_>>()?),
        };
        Some(ClothLine { stock, fabric })
    }

    fn have(&mut self, pair: Pair<'_, Rule>) -> Option<Have> {
        let span = self.span(&pair);
        let mut inner = parts(pair);
        let first = inner.next()?;
        let (mut along, mut fabric) = (None, None);
        for part in inner {
            match part.as_rule() {
                Rule::length => along = Some(part),
                _ => fabric = Some(self.name(&part)),
            }
        }
        let Some(fabric) = fabric else {
            self.have_of_nothing(along.unwrap_or(first), span);
            return None;
        };
        let piece = match along {
            Some(along) => {
                let (across, along) = (self.length(first), self.length(along));
                HavePiece::Scrap(across?, along?)
            }
            None => self.have_piece(first)?,
        };
        Some(Have { piece, fabric })
    }

    /// A length without a fabric behind it: the fabric is missing, or it was taken for the unit of the length.
    fn have_of_nothing(&mut self, length: Pair<'_, Rule>, line: Span) {
        let mut inner = parts(length);
        let number = inner.find(|part| part.as_rule() == Rule::number);
        let unit = inner.next();
        let is_unit = |unit: &Pair<'_, Rule>| {
            OWNED.contains(&unit.as_str()) || matches!(unit.as_str(), "in" | "yd" | "cm" | "mm" | "\"")
        };
        match (number, unit) {
            (Some(number), Some(unit)) if !is_unit(&unit) => {
                let fault = cutting::owned_lacks_unit(self.span(&number), number.as_str(), unit.as_str());
                self.report(fault);
            }
            (_, unit) => {
                let last = unit.map_or(line, |unit| self.span(&unit));
                let word = self.text.get(last.range()).unwrap_or("").to_owned();
                self.report(words_of::incomplete(last, &word, &[String::from("the key of a fabric")]));
            }
        }
    }

    /// A length, or so many fat quarters or fat eighths.
    fn have_piece(&mut self, pair: Pair<'_, Rule>) -> Option<HavePiece> {
        let mut inner = pair.clone().into_inner();
        let (number, unit) = (inner.next()?, inner.next());
        let what: fn(Spanned<u32>) -> HavePiece = match unit.as_ref().map(Pair::as_str) {
            Some("fat-quarters" | "fat-quarter") => HavePiece::FatQuarters,
            Some("fat-eighths" | "fat-eighth") => HavePiece::FatEighths,
            _ => {
                if let Some(unit) = &unit
                    && let Some(near) = nearest(unit.as_str(), OWNED)
                {
                    self.report(words_of::misspelt(self.span(unit), unit.as_str(), near));
                    return None;
                }
                return self.length(pair).map(HavePiece::Length);
            }
        };
        self.whole(&number, "how many there are").map(what)
    }
}
