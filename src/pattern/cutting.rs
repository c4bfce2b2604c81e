//! What a source says outside its blocks of how pieces are cut and from what cloth.
//!
//! Of one thing a fabric overrules the whole pattern, and the pattern what its shared files say of the same fabric or of all.

use std::collections::BTreeMap;

use crate::fault::{Fault, cutting as words, sizes};
use crate::geometry::{Angle, Length};
use crate::notation::source::{Span, Spanned};
use crate::notation::syntax::{ClothLine, ClothStock, CutFor, CutLine, EaseLine, EaseSize, Item, Name, PhysicalLength};

use super::bounds::MOST_FAULTS;
use super::cloth::{Cloth, CuttingPlan, Owned, Stock};
use super::cuts::{CutShape, CutWish, Lie};
use super::facts::{Fabric, Units};
use super::grid::{checked_length, length};
use super::own_cloth;
use super::scope::Resolved;
use super::unit::Fabrics;

/// The greatest ease.
const MOST_EASE: Length = Length::inches(4.0);
/// The narrowest and the widest cloth.
const WIDTHS: (Length, Length) = (Length::inches(4.0), Length::inches(120.0));
/// What squaring up takes at the most.
const MOST_SQUARING: Length = Length::inches(12.0);
/// The greatest part that shrinks away, in per cent.
const MOST_SHRINKAGE: f64 = 20.0;
/// The greatest turn that a warning may be asked for, in degrees.
const MOST_TURN: f64 = 45.0;

/// How pieces are cut and from what cloth, where no part of the pattern says otherwise.
pub struct Outside {
    /// How they are turned and what they are cut as.
    pub cut: CutWish,
    /// Their ease.
    pub ease: Length,
    /// The least that they may turn without a warning.
    pub least_turn: Option<Angle>,
    /// The cloth.
    pub cloth: Cloth,
    /// The cloth that the sewer has.
    pub owned: Vec<Owned>,
}

/// A thing that may be said but once of the same pieces.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Thing {
    /// How they are turned.
    Lie,
    /// What they are cut as.
    Shape,
    /// Their ease.
    Ease,
    /// Their cloth.
    Cloth,
}

impl Thing {
    /// What is said twice, of what `of` names: ` of section 3`, or nothing.
    #[must_use]
    pub fn words(self, of: &str) -> String {
        match self {
            Self::Lie => format!("how the pieces{of} are turned"),
            Self::Shape => format!("what the pieces{of} are cut as"),
            Self::Ease => format!("the ease{of}"),
            Self::Cloth => format!("the cloth{of}"),
        }
    }
}

/// What has been said already, of which fabric or section.
#[derive(Default)]
pub struct Seen(BTreeMap<(Option<usize>, Thing), Span>);

impl Seen {
    /// Takes in that a thing is said; `of` puts into words of what.
    ///
    /// # Errors
    /// Where one file says it twice. The pattern may overrule what a shared file says.
    pub fn once(&mut self, (of_what, thing): (Option<usize>, Thing), span: Span, of: &str) -> Resolved<()> {
        match self.0.insert((of_what, thing), span).filter(|first| first.file == span.file) {
            Some(first) => Err(Box::new(words::said_twice(span, &thing.words(of), first))),
            None => Ok(()),
        }
    }
}

/// Takes the words of a `cut` line into a wish, each kind once.
pub fn cut_words(line: &CutLine, wish: &mut CutWish, seen: &mut Seen, of: (Option<usize>, &str)) -> Resolved<()> {
    for word in &line.words {
        // The words were looked through when they were read.
        if let Some(lie) = Lie::ALL.into_iter().find(|lie| lie.word() == word.value) {
            seen.once((of.0, Thing::Lie), word.span, of.1)?;
            wish.lie = Some(lie);
        } else if let Some(shape) = CutShape::ALL.into_iter().find(|shape| shape.word() == word.value) {
            seen.once((of.0, Thing::Shape), word.span, of.1)?;
            wish.shape = Some(shape);
        }
    }
    Ok(())
}

/// What an ease measures.
pub fn ease(written: &EaseSize, units: Units) -> Resolved<Length> {
    match written {
        EaseSize::Length(length) => checked_length(length, "an ease", MOST_EASE),
        EaseSize::Word(word) => Ok(match (word.value.as_str(), units) {
            ("snug", Units::Inches) => Length::inches(0.125),
            ("snug", Units::Metric) => Length::millimetres(3.0),
            ("roomy", Units::Inches) => Length::inches(0.5),
            ("roomy", Units::Metric) => Length::millimetres(12.0),
            _ => usual_ease(units),
        }),
    }
}

/// The ease where the source says nothing.
fn usual_ease(units: Units) -> Length {
    match units {
        Units::Inches => Length::inches(0.25),
        Units::Metric => Length::millimetres(6.0),
    }
}

/// Resolves the lines about cutting and cloth, those of shared files in front; what they say of single fabrics goes to these.
pub fn outside(
    lines: &[(&Item, Span)],
    units: Units,
    known: &Fabrics,
    fabrics: &mut [Fabric],
    faults: &mut Vec<Fault>,
) -> Outside {
    let (cut, cloth) = (CutWish::default(), Cloth::usual(units));
    let out = Outside { cut, ease: usual_ease(units), least_turn: None, cloth, owned: Vec::new() };
    let mut taking = Taking { out, units, known, fabrics, seen: Seen::default() };
    for &(item, span) in lines {
        if faults.len() >= MOST_FAULTS {
            break;
        }
        if let Err(fault) = taking.line(item, span) {
            faults.push(*fault);
        }
    }
    taking.out
}

struct Taking<'t> {
    out: Outside,
    units: Units,
    known: &'t Fabrics,
    fabrics: &'t mut [Fabric],
    seen: Seen,
}

impl Taking<'_> {
    fn line(&mut self, item: &Item, span: Span) -> Resolved<()> {
        match item {
            Item::Cut(line) => self.cut(line)?,
            Item::Ease(line) => self.ease(line, span)?,
            Item::Cloth(line) => self.cloth(line, span)?,
            Item::TurnSlack(degrees) => {
                let fits = |turn| turn > 0.0 && turn <= MOST_TURN;
                let degrees = checked(degrees, fits, "a turn slack", "more than 0 and at most 45 degrees")?;
                self.out.least_turn = Some(Angle::degrees(degrees));
            }
            Item::Squaring(written) => self.out.cloth.squaring = squaring(written)?,
            Item::Shrinkage(per_cent) => {
                let fits = |part| (0.0..=MOST_SHRINKAGE).contains(&part);
                self.out.cloth.shrinkage = checked(per_cent, fits, "a shrinkage", "from 0 to 20 %")? / 100.0;
            }
            Item::Cutting(word) => self.out.cloth.plan = plan(word),
            Item::Have(line) => {
                let owned = own_cloth::owned(line, |key| self.known.known(key))?;
                own_cloth::add(&mut self.out.owned, owned, span)?;
            }
            _ => {}
        }
        Ok(())
    }

    /// The fabric that a line speaks of, and the words for it; none for all.
    fn of(&self, target: Option<&CutFor>) -> Resolved<(Option<usize>, String)> {
        match target {
            None => Ok((None, String::new())),
            Some(CutFor::Section(number)) => Err(Box::new(words::section_outside(number.span, number.value))),
            Some(CutFor::Fabric(key)) => Ok((Some(self.known.known(key)?), format!(" of `{}`", key.value))),
        }
    }

    fn wish(&mut self, fabric: Option<usize>) -> &mut CutWish {
        match fabric.and_then(|fabric| self.fabrics.get_mut(fabric)) {
            Some(fabric) => &mut fabric.cut,
            None => &mut self.out.cut,
        }
    }

    fn cut(&mut self, line: &CutLine) -> Resolved<()> {
        let (fabric, of) = self.of(line.target.as_ref())?;
        let mut wish = *self.wish(fabric);
        cut_words(line, &mut wish, &mut self.seen, (fabric, &of))?;
        *self.wish(fabric) = wish;
        Ok(())
    }

    fn ease(&mut self, line: &EaseLine, span: Span) -> Resolved<()> {
        let (fabric, of) = self.of(line.target.as_ref())?;
        self.seen.once((fabric, Thing::Ease), span, &of)?;
        let ease = ease(&line.size, self.units)?;
        match fabric {
            Some(_) => self.wish(fabric).ease = Some(ease),
            None => self.out.ease = ease,
        }
        Ok(())
    }

    fn cloth(&mut self, line: &ClothLine, span: Span) -> Resolved<()> {
        let (fabric, of) = match &line.fabric {
            Some(key) => (Some(self.known.known(key)?), format!(" of `{}`", key.value)),
            None => (None, String::new()),
        };
        self.seen.once((fabric, Thing::Cloth), span, &of)?;
        let stock = match &line.stock {
            ClothStock::Widths(written) => Stock::Bolt(widths(written)?),
            ClothStock::Word(word) if word.value == "fat-eighths" => Stock::FatEighths,
            ClothStock::Word(_) => Stock::FatQuarters,
        };
        match fabric.and_then(|fabric| self.fabrics.get_mut(fabric)) {
            Some(fabric) => fabric.stock = Some(stock),
            None => self.out.cloth.stock = stock,
        }
        Ok(())
    }
}

fn plan(word: &Name) -> CuttingPlan {
    if word.value == "few-widths" { CuttingPlan::FewWidths } else { CuttingPlan::LeastCloth }
}

fn checked(number: &Spanned<f64>, fits: impl Fn(f64) -> bool, what: &str, bounds: &str) -> Resolved<f64> {
    if fits(number.value) { Ok(number.value) } else { Err(Box::new(words::out_of_bounds(number.span, what, bounds))) }
}

/// What squaring up takes, which may be nothing.
fn squaring(written: &PhysicalLength) -> Resolved<Length> {
    let taken = length(written);
    if taken >= Length::ZERO && taken <= MOST_SQUARING {
        return Ok(taken);
    }
    let (why, help) = ("is from 0 to 12 in", "write a length such as `2 in` or `5 cm`");
    Err(Box::new(sizes::bad_length(written.span, "what squaring up takes", why, help)))
}

/// Usable widths, the main one in front, none twice.
fn widths(written: &[PhysicalLength]) -> Resolved<Vec<Length>> {
    let mut widths: Vec<Length> = Vec::new();
    for width in written {
        let own = length(width);
        if own < WIDTHS.0 || own > WIDTHS.1 {
            let (why, help) = ("is from 4 to 120 in", "write what lies between the selvedges, such as `40 in`");
            return Err(Box::new(sizes::bad_length(width.span, "the usable width of cloth", why, help)));
        }
        let same = |other: &Length| (own.to_inches() - other.to_inches()).abs() < 1e-6;
        if let Some(first) = widths.iter().position(same).and_then(|first| written.get(first)) {
            return Err(Box::new(words::width_twice(width.span, first.span)));
        }
        widths.push(own);
    }
    Ok(widths)
}
