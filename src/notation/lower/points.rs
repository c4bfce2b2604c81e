//! Points, lines, paths, measures.

use super::super::grammar::Rule;
use super::super::source::Spanned;
use super::super::syntax::{
    Construction, Coordinates, LineRef, LineValue, Measure, MeasureValue, Path, PointDefinition, PointRef,
    RowDefinition, Shape, Spread,
};
use super::{Lower, parts};
use pest::iterators::Pair;

impl Lower<'_> {
    pub(super) fn coordinates(&mut self, pair: Pair<'_, Rule>) -> Option<Coordinates> {
        let span = self.span(&pair);
        let mut inner = parts(pair);
        let (x, y) = (self.sum(inner.next()?), self.sum(inner.next()?));
        Some(Coordinates { x: x?, y: y?, span })
    }

    pub(super) fn point(&mut self, pair: Pair<'_, Rule>) -> Option<PointRef> {
        let inner = parts(pair).next()?;
        if inner.as_rule() == Rule::name {
            return Some(PointRef::Named(self.name(&inner)));
        }
        Some(PointRef::At(Box::new(self.coordinates(inner)?)))
    }

    /// `A -- B`
    pub(super) fn through(&mut self, pair: Pair<'_, Rule>) -> Option<(PointRef, PointRef)> {
        let mut inner = parts(pair);
        let (a, b) = (self.point(inner.next()?), self.point(inner.next()?));
        Some((a?, b?))
    }

    pub(super) fn line(&mut self, pair: Pair<'_, Rule>) -> Option<LineRef> {
        let span = self.span(&pair);
        let inner = parts(pair).next()?;
        let value = match inner.as_rule() {
            Rule::upright => LineValue::Upright(self.sum(parts(inner).next()?)?),
            Rule::level => LineValue::Level(self.sum(parts(inner).next()?)?),
            _ => {
                let (a, b) = self.through(inner)?;
                LineValue::Through(a, b)
            }
        };
        Some(LineRef { value, span })
    }

    pub(super) fn path(&mut self, pair: Pair<'_, Rule>) -> Option<Path> {
        let span = self.span(&pair);
        let points: Vec<_> = parts(pair).map(|point| self.point(point)).collect();
        Some(Path { points: points.into_iter().collect::<Option<_>>()?, span })
    }

    pub(super) fn shape(&mut self, pair: Pair<'_, Rule>) -> Option<Shape> {
        let inner = parts(pair).next()?;
        match inner.as_rule() {
            Rule::beyond => Some(Shape::Beyond(self.line(parts(inner).next()?)?)),
            Rule::around => Some(Shape::Around(self.point(parts(inner).next()?)?)),
            _ => Some(Shape::Polygon(self.path(inner)?)),
        }
    }

    pub(super) fn measure(&mut self, pair: Pair<'_, Rule>) -> Option<Measure> {
        let mut inner = parts(pair);
        let name = self.name(&inner.next()?);
        let value = inner.next()?;
        let value = if value.as_rule() == Rule::distance {
            let (a, b) = self.through(parts(value).next()?)?;
            MeasureValue::Distance(a, b)
        } else {
            MeasureValue::Sum(self.sum(value)?)
        };
        Some(Measure { name, value })
    }

    pub(super) fn point_line(&mut self, pair: Pair<'_, Rule>) -> Option<PointDefinition> {
        let mut inner = parts(pair);
        let name = self.name(&inner.next()?);
        let construction = self.construction(inner.next()?)?;
        Some(PointDefinition { name, construction })
    }

    fn construction(&mut self, pair: Pair<'_, Rule>) -> Option<Construction> {
        let rule = pair.as_rule();
        if rule == Rule::measured {
            return self.measured(pair);
        }
        let mut inner = parts(pair);
        let first = inner.next()?;
        Some(match rule {
            Rule::middle => {
                let (a, b) = self.through(first)?;
                Construction::Middle(a, b)
            }
            Rule::mirror => {
                let (a, over) = (self.point(first), self.line(inner.next()?));
                Construction::Mirror(a?, over?)
            }
            Rule::turn => {
                let (a, by, about) = (self.point(first), self.angle(inner.next()?), self.point(inner.next()?));
                Construction::Turn(a?, by?, about?)
            }
            Rule::meet => {
                let (a, b) = (self.line(first), self.line(inner.next()?));
                Construction::Meet(a?, b?)
            }
            Rule::foot => {
                let (a, on) = (self.point(first), self.line(inner.next()?));
                Construction::Foot(a?, on?)
            }
            _ => {
                let point = self.point(first);
                match inner.next() {
                    Some(by) => {
                        let by = self.coordinates(by);
                        Construction::Moved(point?, by?)
                    }
                    None => match point? {
                        PointRef::Named(name) => Construction::Same(name),
                        PointRef::At(at) => Construction::At(*at),
                    },
                }
            }
        })
    }

    /// The constructions that start with a number.
    fn measured(&mut self, pair: Pair<'_, Rule>) -> Option<Construction> {
        let mut inner = parts(pair);
        let sum = self.sum(inner.next()?);
        let next = inner.next()?;
        if next.as_rule() == Rule::along {
            let (a, b) = self.through(parts(next).next()?)?;
            return Some(Construction::Along(sum?, a, b));
        }
        let from = self.point(next);
        let way = inner.next()?;
        let bearing = way.as_rule() == Rule::bearing;
        let way = parts(way).next()?;
        if bearing {
            let angle = self.angle(way);
            return Some(Construction::Bearing(sum?, from?, angle?));
        }
        let toward = self.point(way);
        Some(Construction::Toward(sum?, from?, toward?))
    }

    pub(super) fn points_line(&mut self, pair: Pair<'_, Rule>) -> Option<RowDefinition> {
        let mut inner = parts(pair);
        let name = self.name(&inner.next()?);
        let count = self.whole(&inner.next()?, "how many points there are");
        let spread = inner.next()?;
        let ring = spread.as_rule() == Rule::ring;
        let mut ends = parts(spread);
        let (a, b) = (self.point(ends.next()?), self.point(ends.next()?));
        let (count, a, b): (Spanned<u32>, _, _) = (count?, a?, b?);
        let spread = if ring { Spread::Circle { centre: a, first: b } } else { Spread::Line(a, b) };
        Some(RowDefinition { name, count, spread })
    }
}
