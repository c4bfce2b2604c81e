//! Lines about what foundations are printed on.

use super::super::grammar::Rule;
use super::super::source::Spanned;
use super::super::syntax::{SheetMedium, SheetsWish};
use super::super::words;
use super::{Lower, parts};
use pest::iterators::Pair;

impl Lower<'_> {
    /// The wishes of a `sheets` line, none where one of them cannot be read.
    pub(super) fn sheets(&mut self, pair: Pair<'_, Rule>) -> Option<Vec<Spanned<SheetsWish>>> {
        let wishes: Vec<_> = parts(pair)
            .map(|wish| {
                let span = self.span(&wish);
                self.sheets_wish(parts(wish).next()?).map(|value| Spanned { value, span })
            })
            .collect();
        wishes.into_iter().collect()
    }

    fn sheets_wish(&mut self, pair: Pair<'_, Rule>) -> Option<SheetsWish> {
        Some(match pair.as_rule() {
            Rule::sheets_on => {
                let media: Vec<_> = parts(pair)
                    .map(|medium| {
                        let span = self.span(&medium);
                        self.medium(parts(medium).next()?).map(|value| Spanned { value, span })
                    })
                    .collect();
                SheetsWish::On(media.into_iter().collect::<Option<_>>()?)
            }
            Rule::sheets_margin => SheetsWish::Margin(self.length(parts(pair).next()?)?),
            Rule::sheets_gap => SheetsWish::Gap(self.length(parts(pair).next()?)?),
            Rule::few_different => SheetsWish::FewestDifferent(self.number(&parts(pair).next()?)?),
            _ => {
                let name = self.name(&parts(pair).next()?);
                SheetsWish::Word(self.one_of(name, &words::SHEETS, "a wish for the sheets")?)
            }
        })
    }

    fn medium(&mut self, pair: Pair<'_, Rule>) -> Option<SheetMedium> {
        if pair.as_rule() == Rule::roll {
            let mut inner = parts(pair);
            let width = self.length(inner.next()?);
            let longest = match inner.next() {
                Some(longest) => Some(self.length(longest)?),
                None => None,
            };
            return Some(SheetMedium::Roll(width?, longest));
        }
        let name = self.name(&pair);
        self.one_of(name, &words::SHEET_PAPERS, "a paper").map(SheetMedium::Paper)
    }
}
