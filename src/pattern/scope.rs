//! Points and measures: what a name means where it is used, and the constructions that make points.

use std::cell::Cell;
use std::collections::BTreeMap;

use crate::fault::{Fault, names, points, sizes};
use crate::geometry::{Angle, Line, OutlineFault, Point, Polygon, Tolerance, Transform, Vector};
use crate::notation::source::Span;
use crate::notation::syntax::{
    Construction, Coordinates, LineRef, LineValue, Measure, MeasureValue, Name, Operator, Path, PointDefinition,
    PointRef, RowDefinition, Spread, Sum, Term, TermValue,
};

use super::Named;
use super::statements::checked_count;

/// Points of one row at the most.
const MAX_ROW: u32 = 1_000;

/// Points of all rows of a pattern at the most.
const MAX_ROW_POINTS: u32 = 100_000;

/// Coordinates beyond this are not drawn.
const MAX_COORDINATE: f64 = 1e7;

/// Words that cannot be names, because a path or a sum may begin with them.
const RESERVED: &[&str] = &[
    "middle", "mirror", "turn", "meet", "foot", "upright", "level", "beyond", "around", "distance", "from", "to", "on",
    "for", "as", "and", "with", "over", "about", "in", "all", "round", "every", "side", "at", "toward", "along",
];

#[derive(Debug, Clone)]
enum Value {
    Point(Point),
    Measure(f64),
    /// A definition that failed, with its fault: whoever uses it fails by the same fault, which is then reported once.
    Broken(Box<Fault>),
}

impl Value {
    const fn kind(&self) -> &'static str {
        match self {
            Self::Point(_) => "point",
            Self::Measure(_) => "measure",
            Self::Broken(_) => "name",
        }
    }
}

#[derive(Debug)]
struct Entry {
    value: Value,
    /// Where it is defined; nothing for the points that every block has.
    span: Option<Span>,
    used: Cell<bool>,
}

/// The names of one part, seen through to those of the part round it.
#[derive(Debug)]
pub struct Scope<'outer> {
    outer: Option<&'outer Scope<'outer>>,
    names: BTreeMap<String, Entry>,
    /// Of the outermost scope: the points of all rows so far.
    row_points: Cell<u32>,
}

/// A resolved thing, or the fault already said.
pub type Resolved<T> = Result<T, Box<Fault>>;

impl<'outer> Scope<'outer> {
    /// A scope within another, or the outermost.
    pub fn new(outer: Option<&'outer Scope<'outer>>) -> Self {
        Self { outer, names: BTreeMap::new(), row_points: Cell::new(0) }
    }

    fn outermost(&self) -> &Scope<'_> {
        self.outer.map_or(self, Scope::outermost)
    }

    fn find(&self, name: &str) -> Option<&Entry> {
        self.names.get(name).or_else(|| self.outer.and_then(|outer| outer.find(name)))
    }

    /// The points and measures that the source names in this scope and those around it, by name.
    pub fn named(&self) -> Vec<(String, Named)> {
        let own = self.names.iter().filter(|(_, entry)| entry.span.is_some());
        let own = own.filter_map(|(name, entry)| match entry.value {
            Value::Point(point) => Some((name.clone(), Named::Point(point))),
            Value::Measure(measure) => Some((name.clone(), Named::Measure(measure))),
            Value::Broken(_) => None,
        });
        own.chain(self.outer.into_iter().flat_map(Scope::named)).collect()
    }

    fn known(&self, kind: &'static str) -> Vec<&str> {
        let own = self.names.iter().filter(|(_, entry)| entry.value.kind() == kind).map(|(name, _)| name.as_str());
        own.chain(self.outer.into_iter().flat_map(|outer| outer.known(kind))).take(names::MOST_COMPARED).collect()
    }

    /// Names a point that the notation itself knows; it may be named anew.
    pub fn set_built_in(&mut self, name: impl Into<String>, point: Point) {
        let entry = Entry { value: Value::Point(point), span: None, used: Cell::new(true) };
        self.names.insert(name.into(), entry);
    }

    /// Forgets the built-in names of this scope.
    pub fn clear_built_in(&mut self) {
        self.names.retain(|_, entry| entry.span.is_some());
    }

    fn define(&mut self, name: &Name, value: Value) -> Resolved<()> {
        let text = name.value.as_str();
        if let Some(entry) = self.find(text) {
            return Err(Box::new(names::doubled_name(name.span, text, entry.span)));
        }
        let reserved = RESERVED.contains(&text);
        let entry = Entry { value, span: Some(name.span), used: Cell::new(reserved) };
        self.names.insert(text.to_owned(), entry);
        // It is defined all the same, so that its uses are not faults too.
        if reserved { Err(Box::new(names::reserved_name(name.span, text))) } else { Ok(()) }
    }

    /// Defines what a construction came to, or remembers that it failed.
    fn define_or_break(&mut self, name: &Name, value: Resolved<Value>) -> Resolved<()> {
        match value {
            Ok(value) => self.define(name, value),
            Err(fault) => {
                self.define(name, Value::Broken(fault.clone()))?;
                if let Some(entry) = self.names.get(&name.value) {
                    entry.used.set(true);
                }
                Err(fault)
            }
        }
    }

    /// Defines a measure.
    pub fn define_measure(&mut self, measure: &Measure) -> Resolved<()> {
        let value = match &measure.value {
            MeasureValue::Sum(sum) => self.sum(sum),
            MeasureValue::Distance(a, b) => self.point(a).and_then(|a| Ok(a.distance(self.point(b)?))),
        };
        self.define_or_break(&measure.name, value.map(Value::Measure))
    }

    /// Defines a point.
    pub fn define_point(&mut self, definition: &PointDefinition) -> Resolved<()> {
        let point = self.construct(&definition.construction).and_then(|point| {
            let drawable = point.x.abs() <= MAX_COORDINATE && point.y.abs() <= MAX_COORDINATE;
            if drawable { Ok(point) } else { Err(Box::new(points::out_of_bounds(definition.name.span))) }
        });
        self.define_or_break(&definition.name, point.map(Value::Point))
    }

    /// Defines a row of points, `NAME-1` and so on.
    pub fn define_row(&mut self, row: &RowDefinition) -> Resolved<()> {
        let count = checked_count(&row.count, "the number of points", 1, MAX_ROW)?;
        let together = self.outermost().row_points.get().saturating_add(count);
        self.outermost().row_points.set(together);
        if together > MAX_ROW_POINTS {
            let what = "the number of points in all rows";
            return Err(Box::new(sizes::count_out_of_range(row.count.span, what, 1, MAX_ROW_POINTS)));
        }
        let at: Vec<Point> = match &row.spread {
            Spread::Line(from, to) => {
                let (from, to) = (self.point(from)?, self.point(to)?);
                let gaps = f64::from(count.saturating_sub(1).max(1));
                (0..count).map(|k| from.along(to, f64::from(k) / gaps)).collect()
            }
            Spread::Circle { centre, first } => {
                let (centre, first) = (self.point(centre)?, self.point(first)?);
                let turned = |k| Transform::turn(Angle::degrees(360.0 * f64::from(k) / f64::from(count)), centre);
                (0..count).map(|k| turned(k).apply(first)).collect()
            }
        };
        for (k, point) in at.into_iter().enumerate() {
            let name = Name::new(format!("{}-{}", row.name.value, k + 1), row.name.span);
            self.define(&name, Value::Point(point))?;
            // Of a row it is enough that any point is used; that is looked after by the name of the row.
            if k > 0
                && let Some(entry) = self.names.get(&name.value)
            {
                entry.used.set(true);
            }
        }
        Ok(())
    }

    fn construct(&self, construction: &Construction) -> Resolved<Point> {
        Ok(match construction {
            Construction::At(at) => self.coordinates(at)?,
            Construction::Same(name) => self.named_point(name)?,
            Construction::Middle(a, b) => self.point(a)?.middle(self.point(b)?),
            Construction::Along(fraction, a, b) => self.point(a)?.along(self.point(b)?, self.sum(fraction)?),
            Construction::Toward(steps, a, b) => {
                let from = self.point(a)?;
                let way = Line::through(from, self.point(b)?)
                    .ok_or_else(|| Box::new(points::line_without_length(a.span().to(b.span()))))?;
                way.at(self.sum(steps)?)
            }
            Construction::Bearing(steps, a, angle) => {
                self.point(a)? + Vector::at_bearing(self.angle(&angle.value)?) * self.sum(steps)?
            }
            Construction::Moved(a, by) => self.point(a)? + self.coordinates(by)?.to_vector(),
            Construction::Mirror(a, over) => self.line(over)?.mirrored(self.point(a)?),
            Construction::Turn(a, angle, about) => {
                Transform::turn(self.angle(&angle.value)?, self.point(about)?).apply(self.point(a)?)
            }
            Construction::Meet(first, second) => self
                .line(first)?
                .meet(self.line(second)?)
                .ok_or_else(|| Box::new(points::lines_do_not_meet(first.span.to(second.span))))?,
            Construction::Foot(a, on) => self.line(on)?.foot(self.point(a)?),
        })
    }

    /// The point at a pair of sums.
    pub fn coordinates(&self, at: &Coordinates) -> Resolved<Point> {
        Ok(Point::new(self.sum(&at.x)?, self.sum(&at.y)?))
    }

    /// The point that is meant.
    pub fn point(&self, point: &PointRef) -> Resolved<Point> {
        match point {
            PointRef::Named(name) => self.named_point(name),
            PointRef::At(at) => self.coordinates(at),
        }
    }

    fn named_point(&self, name: &Name) -> Resolved<Point> {
        match self.find(&name.value) {
            Some(Entry { value: Value::Point(point), used, .. }) => {
                used.set(true);
                self.mark_row_used(&name.value);
                Ok(*point)
            }
            Some(Entry { value: Value::Broken(fault), .. }) => Err(fault.clone()),
            Some(entry) => Err(Box::new(names::other_kind(name.span, &name.value, entry.value.kind(), "point"))),
            None => Err(Box::new(names::unknown_name(name.span, "point", &name.value, self.known("point")))),
        }
    }

    /// A row counts as used when any of its points is.
    fn mark_row_used(&self, name: &str) {
        if let Some((row, _)) = name.rsplit_once('-')
            && let Some(first) = self.find(&format!("{row}-1"))
        {
            first.used.set(true);
        }
    }

    /// The line that is meant.
    pub fn line(&self, line: &LineRef) -> Resolved<Line> {
        let (a, b) = match &line.value {
            LineValue::Through(a, b) => (self.point(a)?, self.point(b)?),
            LineValue::Upright(x) => {
                let x = self.sum(x)?;
                (Point::new(x, 0.0), Point::new(x, 1.0))
            }
            LineValue::Level(y) => {
                let y = self.sum(y)?;
                (Point::new(0.0, y), Point::new(1.0, y))
            }
        };
        Line::through(a, b).ok_or_else(|| Box::new(points::line_without_length(line.span)))
    }

    /// The line through two points.
    pub fn line_through(&self, (a, b): (&PointRef, &PointRef)) -> Resolved<(Point, Point)> {
        let (from, to) = (self.point(a)?, self.point(b)?);
        if Line::through(from, to).is_none() {
            return Err(Box::new(points::line_without_length(a.span().to(b.span()))));
        }
        Ok((from, to))
    }

    /// The angle that is meant, in degrees.
    pub fn angle(&self, degrees: &Sum) -> Resolved<Angle> {
        Ok(Angle::degrees(self.sum(degrees)?))
    }

    /// What a sum comes to.
    pub fn sum(&self, sum: &Sum) -> Resolved<f64> {
        // Products first: each `+` or `-` closes the product before it.
        let mut total = 0.0;
        let mut product = self.term(&sum.first)?;
        for (operator, term) in &sum.rest {
            let value = self.term(term)?;
            match operator {
                Operator::Times => product *= value,
                Operator::Over => product /= value,
                Operator::Plus | Operator::Minus => {
                    total += product;
                    product = if *operator == Operator::Minus { -value } else { value };
                }
            }
        }
        total += product;
        if total.abs() <= MAX_COORDINATE { Ok(total) } else { Err(Box::new(points::out_of_bounds(sum.span))) }
    }

    fn term(&self, term: &Term) -> Resolved<f64> {
        let value = match &term.value {
            TermValue::Number(number) => *number,
            TermValue::Measure(name) => match self.find(name) {
                Some(Entry { value: Value::Measure(value), used, .. }) => {
                    used.set(true);
                    *value
                }
                Some(Entry { value: Value::Broken(fault), .. }) => return Err(fault.clone()),
                Some(entry) => {
                    return Err(Box::new(names::other_kind(term.span, name, entry.value.kind(), "measure")));
                }
                None => return Err(Box::new(names::unknown_name(term.span, "measure", name, self.known("measure")))),
            },
        };
        Ok(if term.negative { -value } else { value })
    }

    /// The convex outline along a path. `what` names it in faults; `snap` gives every corner its final place.
    pub fn outline(
        &self,
        path: &Path,
        what: &str,
        tolerance: Tolerance,
        mut snap: impl FnMut(Point) -> Point,
    ) -> Resolved<Polygon> {
        let corners: Vec<Point> =
            path.points.iter().map(|point| self.point(point).map(&mut snap)).collect::<Resolved<_>>()?;
        Polygon::try_new(&corners, tolerance).map_err(|fault| {
            let corner = |index: usize| path.points.get(index).map_or(path.span, PointRef::span);
            Box::new(match fault {
                OutlineFault::TooFewCorners => points::degenerate_outline(path.span, what, corners.len().min(2)),
                OutlineFault::NoArea => points::degenerate_outline(path.span, what, corners.len()),
                OutlineFault::Crosses(a, b) => points::crossing_outline(path.span, what, corner(a), corner(b)),
                OutlineFault::Concave(at) => points::concave_outline(path.span, what, corner(at)),
            })
        })
    }

    /// The names of this scope that were never used.
    pub fn unused(&self) -> impl Iterator<Item = (Span, &'static str, &str)> {
        self.names
            .iter()
            .filter(|(_, entry)| !entry.used.get())
            .filter_map(|(name, entry)| Some((entry.span?, entry.value.kind(), name.as_str())))
    }
}
