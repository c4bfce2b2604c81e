//! Places of units and the joins between them.

use super::super::grammar::Rule;
use super::super::near::nearest;
use super::super::source::{Span, Spanned};
use super::super::syntax::{Change, Join, JoinKind, Name, Place, PlaceRef, Pressing};
use super::{Lower, parts};
use crate::fault::text as words_of;
use pest::iterators::Pair;

impl Lower<'_> {
    pub(super) fn place_line(&mut self, pair: Pair<'_, Rule>) -> Option<Place> {
        let mut inner = parts(pair);
        let unit = self.name(&inner.next()?);
        let mut name: Option<Name> = None;
        let mut changes: Vec<Spanned<Change>> = Vec::new();
        let mut repeated: Option<Span> = None;
        let mut whole = true;
        let mut first = None;
        for change in inner.filter_map(|change| parts(change).next()) {
            let span = self.span(&change);
            if let Some(repeated) = repeated {
                self.report(words_of::words_after_repeat(span, repeated));
                whole = false;
                break;
            }
            first.get_or_insert(span);
            match change.as_rule() {
                Rule::called => {
                    let called = self.name(&parts(change).next()?);
                    if let Some(before) = name.as_ref().map(|name| name.span) {
                        self.report(words_of::second_name(span, before));
                    } else if let Some(first) = first.filter(|first| *first != span) {
                        let words = self.text.get(span.range()).unwrap_or("");
                        self.report(words_of::late_name(span, words, first));
                    }
                    name.get_or_insert(called);
                }
                rule => {
                    if rule == Rule::repeated {
                        repeated = Some(span);
                    }
                    match self.change(change) {
                        Some(change) => changes.push(Spanned::new(change, span)),
                        None => whole = false,
                    }
                }
            }
        }
        whole.then_some(Place { unit, name, changes })
    }

    /// `with a as b, c as d`
    pub(super) fn exchanges(&self, pair: Pair<'_, Rule>) -> Option<Vec<(Name, Name)>> {
        let pairs = parts(pair).map(|pair| {
            let mut names = parts(pair);
            Some((self.name(&names.next()?), self.name(&names.next()?)))
        });
        pairs.collect()
    }

    fn change(&mut self, pair: Pair<'_, Rule>) -> Option<Change> {
        let rule = pair.as_rule();
        if rule == Rule::recoloured {
            return self.exchanges(pair).map(Change::Recoloured);
        }
        let mut inner = parts(pair);
        let first = inner.next()?;
        Some(match rule {
            Rule::moved => Change::Moved(self.coordinates(first)?),
            Rule::mirrored => Change::Mirrored(self.line(first)?),
            Rule::turned => {
                let (by, about) = (self.angle(first), self.point(inner.next()?));
                Change::Turned(by?, about?)
            }
            _ => {
                let count = self.whole(&first, "how many places there are in all");
                let way = inner.next()?;
                let round = way.as_rule() == Rule::round;
                let way = parts(way).next()?;
                if round {
                    let about = self.point(way);
                    Change::Round(count?, about?)
                } else {
                    let by = self.coordinates(way);
                    Change::Every(count?, by?)
                }
            }
        })
    }

    pub(super) fn join_line(&mut self, pair: Pair<'_, Rule>, kind: JoinKind) -> Option<Join> {
        let span = self.span(&pair);
        let mut members = Vec::new();
        let (mut name, mut press) = (None, None);
        for part in parts(pair) {
            match part.as_rule() {
                Rule::member => {
                    let inner = parts(part).next();
                    members.push(inner.and_then(|inner| self.place_ref(inner)));
                }
                Rule::called => name = Some(self.name(&parts(part).next()?)),
                _ => {
                    let span = self.span(&part);
                    let pressing = match parts(part).next() {
                        Some(toward) => self.place_ref(parts(toward).next()?).map(Pressing::Toward),
                        None => Some(Pressing::Open),
                    };
                    press = Some(Spanned::new(pressing?, span));
                }
            }
        }
        let members = members.into_iter().collect::<Option<Vec<_>>>()?;
        // A misspelt `pressed open` reads like two more places, a misspelt `pressed toward roof` like three.
        let almost = match members.as_slice() {
            [.., almost, toward, _] if toward.name.value == "toward" => Some(almost),
            [.., almost, last] if matches!(last.name.value.as_str(), "open" | "toward") => Some(almost),
            _ => None,
        };
        if let Some(almost) = almost.filter(|almost| almost.number.is_none())
            && let Some(near) = pressed(&almost.name.value)
        {
            self.report(words_of::misspelt(almost.name.span, &almost.name.value, near));
            return None;
        }
        let few = match kind {
            JoinKind::Straight => (members.len() < 2).then(|| words_of::lonely_join(span)),
            JoinKind::Partial => (members.len() < 4).then(|| words_of::small_ring(span)),
            JoinKind::Inset => (members.len() != 3).then(|| words_of::inset_of_three(span)),
        };
        if let Some(fault) = few {
            self.report(fault);
            return None;
        }
        Some(Join { kind, members, name, press })
    }

    fn place_ref(&mut self, pair: Pair<'_, Rule>) -> Option<PlaceRef> {
        let mut inner = parts(pair);
        let name = self.name(&inner.next()?);
        let number = match inner.next() {
            Some(number) => Some(self.whole(&number, "the number of a place")?),
            None => None,
        };
        Some(PlaceRef { name, number })
    }
}

/// What a word right before `open` or `toward` was likely meant to be.
fn pressed(word: &str) -> Option<&'static str> {
    if matches!(word, "press" | "presses" | "pressing") { Some("pressed") } else { nearest(word, ["pressed"]) }
}
