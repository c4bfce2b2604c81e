//! The syntax tree: what a source says, statement by statement, before any name is looked up.
//!
//! Every node carries its place. Nothing here is checked beyond its form: a name may be unknown, a count may be absurd.
//! Numbers are finite and within [`MAX_NUMBER`]; texts are unescaped and free of control characters.

mod cutting;
mod fastened;
mod places;
mod sheets;

pub use cutting::{ClothLine, ClothStock, CutFor, CutLine, EaseLine, EaseSize, Fussy, Have, HavePiece};
pub use fastened::{Allow, Note, OwnStep, Target};
pub use places::{Change, Join, JoinKind, Place, PlaceRef, Pressing};
pub use sheets::{SheetMedium, SheetsWish};

use super::source::{Span, Spanned};

/// The greatest number that a source may state, either way from zero.
pub const MAX_NUMBER: f64 = 1_000_000.0;

/// A name as it stands in the source.
pub type Name = Spanned<String>;
/// A text between quotes, unescaped.
pub type Text = Spanned<String>;

/// One source file.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct File {
    /// The statements outside all blocks, and the blocks, in order.
    pub items: Vec<Spanned<Item>>,
}

/// A statement outside all blocks.
#[derive(Debug, Clone, PartialEq)]
pub enum Item {
    /// `pattern "…"`
    Title(Text),
    /// `edition "…"`
    Edition(Text),
    /// `author "…"`
    Author(Text),
    /// `date 2026-11-01`
    Date(Spanned<Date>),
    /// `licence "…"`
    Licence(Text),
    /// `finished 8 in`
    Finished(Finished),
    /// `sizes 6 in, 10 in`
    Sizes(Vec<Finished>),
    /// `allowance 1/4 in`
    Allowance(PhysicalLength),
    /// `ease 1/4 in`, `ease snug for night`
    Ease(EaseLine),
    /// `cut on-grain, triangles for night`
    Cut(CutLine),
    /// `turn-slack 8 deg`
    TurnSlack(Spanned<f64>),
    /// `cloth 40 in, 54 in for night`
    Cloth(ClothLine),
    /// `squaring 2 in`
    Squaring(PhysicalLength),
    /// `shrinkage 5 %`
    Shrinkage(Spanned<f64>),
    /// `cutting few-widths`
    Cutting(Name),
    /// `have 1/2 yd night`
    Have(Have),
    /// `paper letter, a4`
    Paper(Vec<Name>),
    /// `sheets on tabloid, margin 1/4 in`
    Sheets(Vec<Spanned<SheetsWish>>),
    /// `language de`
    Language(Name),
    /// `wishes papers, long-seams`
    Wishes(Vec<Name>),
    /// `skill "confident beginner"`
    Skill(Text),
    /// `contact "…"`
    Contact(Text),
    /// `report "…"`
    Report(Text),
    /// `about "…"`
    About(Text),
    /// `tool "…"`
    Tool(Text),
    /// `history "1.1" 2026-10-02 "…"`
    History(History),
    /// `logo "sign.svg" "…"`
    Logo(PictureLine),
    /// `photo "lantern.jpg" "…"`
    Photo(PictureLine),
    /// `colouring dawn "Dawn" with night as rose`
    Colouring(Colouring),
    /// `fabric night "Night sky" #22314e one-way`
    Fabric(Fabric),
    /// `use "palette.piece"`
    Use(Text),
    /// `measure arm 3 1/2`
    Measure(Measure),
    /// `note "…"`
    Note(Note),
    /// `allow narrow-section`
    Allow(Allow),
    /// `block lantern 16 x 16 { … }`
    Block(Block),
}

/// What an edition brought.
#[derive(Debug, Clone, PartialEq)]
pub struct History {
    /// The edition.
    pub edition: Text,
    /// Its day.
    pub date: Option<Spanned<Date>>,
    /// What it brought.
    pub words: Text,
}

/// A picture in a file.
#[derive(Debug, Clone, PartialEq)]
pub struct PictureLine {
    /// The file, as seen from the one that names it.
    pub path: Text,
    /// What the picture shows.
    pub shows: Text,
}

/// Other fabrics for the whole pattern.
#[derive(Debug, Clone, PartialEq)]
pub struct Colouring {
    /// The key by which a build asks for it.
    pub key: Name,
    /// The name that the packet prints.
    pub title: Text,
    /// Which fabrics become which, all at once.
    pub exchanges: Vec<(Name, Name)>,
}

/// A day of the calendar.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub struct Date {
    /// The year, four digits.
    pub year: u16,
    /// The month, 1 to 12.
    pub month: u8,
    /// The day of the month; it exists in that month.
    pub day: u8,
}

/// A number with a unit of length.
#[derive(Debug, Clone, PartialEq)]
pub struct PhysicalLength {
    /// The number.
    pub number: Spanned<f64>,
    /// The unit.
    pub unit: LengthUnit,
    /// Number and unit.
    pub span: Span,
}

/// A unit of length.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LengthUnit {
    /// Inches, `in`.
    Inch,
    /// Yards, `yd`.
    Yard,
    /// Centimetres, `cm`.
    Centimetre,
    /// Millimetres, `mm`.
    Millimetre,
}

/// A finished size.
#[derive(Debug, Clone, PartialEq)]
pub struct Finished {
    /// The size as written.
    pub size: FinishedSize,
    /// Where it stands, without the word `finished`.
    pub span: Span,
}

/// The ways to give a finished size.
#[derive(Debug, Clone, PartialEq)]
pub enum FinishedSize {
    /// `8 in`: a square.
    Square(PhysicalLength),
    /// `8 in x 6 in`: width and height.
    Rectangle(PhysicalLength, PhysicalLength),
    /// `side 4 in`: the side of a regular figure.
    Side(PhysicalLength),
}

/// A fabric.
#[derive(Debug, Clone, PartialEq)]
pub struct Fabric {
    /// The key by which sections call it.
    pub key: Name,
    /// The name that the packet prints.
    pub name: Text,
    /// Red, green, blue.
    pub colour: Spanned<[u8; 3]>,
    /// The words after the colour: `one-way`, `two-way`, `directional`, `across`.
    pub print: Vec<Name>,
}

/// A named measure, in steps.
#[derive(Debug, Clone, PartialEq)]
pub struct Measure {
    /// Its name.
    pub name: Name,
    /// What it is.
    pub value: MeasureValue,
}

/// The ways to give a measure.
#[derive(Debug, Clone, PartialEq)]
pub enum MeasureValue {
    /// A sum.
    Sum(Sum),
    /// `distance a -- b`
    Distance(PointRef, PointRef),
}

/// A number, or numbers and measures joined by arithmetic.
#[derive(Debug, Clone, PartialEq)]
pub struct Sum {
    /// The first term.
    pub first: Term,
    /// The operations that follow, in the order written; `*` and `/` bind before `+` and `-`.
    pub rest: Vec<(Operator, Term)>,
    /// The whole sum.
    pub span: Span,
}

/// A number or a measure, possibly negative.
#[derive(Debug, Clone, PartialEq)]
pub struct Term {
    /// Whether a `-` stands before it.
    pub negative: bool,
    /// What it is.
    pub value: TermValue,
    /// Where it stands.
    pub span: Span,
}

/// What a term is.
#[derive(Debug, Clone, PartialEq)]
pub enum TermValue {
    /// A number.
    Number(f64),
    /// The name of a measure.
    Measure(String),
}

/// An operation of arithmetic.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Operator {
    /// `+`
    Plus,
    /// `-`
    Minus,
    /// `*`
    Times,
    /// `/`
    Over,
}

/// A point where it is used.
#[derive(Debug, Clone, PartialEq)]
pub enum PointRef {
    /// By name.
    Named(Name),
    /// `8, 4`
    At(Box<Coordinates>),
}

impl PointRef {
    /// Where it stands.
    #[must_use]
    pub fn span(&self) -> Span {
        match self {
            Self::Named(name) => name.span,
            Self::At(at) => at.span,
        }
    }
}

/// A pair of sums: to the right and down.
#[derive(Debug, Clone, PartialEq)]
pub struct Coordinates {
    /// To the right.
    pub x: Sum,
    /// Down.
    pub y: Sum,
    /// The pair.
    pub span: Span,
}

/// A line where it is used.
#[derive(Debug, Clone, PartialEq)]
pub struct LineRef {
    /// Which line.
    pub value: LineValue,
    /// Where it stands.
    pub span: Span,
}

/// The ways to give a line.
#[derive(Debug, Clone, PartialEq)]
pub enum LineValue {
    /// `a -- b`
    Through(PointRef, PointRef),
    /// `upright 8`
    Upright(Sum),
    /// `level 4`
    Level(Sum),
}

/// A closed path, the last point not repeated.
#[derive(Debug, Clone, PartialEq)]
pub struct Path {
    /// Its corners; at least one.
    pub points: Vec<PointRef>,
    /// The whole path.
    pub span: Span,
}

/// An angle in degrees, clockwise as seen.
pub type Angle = Spanned<Sum>;

/// `point NAME …`
#[derive(Debug, Clone, PartialEq)]
pub struct PointDefinition {
    /// The name.
    pub name: Name,
    /// The construction.
    pub construction: Construction,
}

/// The ways to construct a point.
#[derive(Debug, Clone, PartialEq)]
pub enum Construction {
    /// `8, 0`
    At(Coordinates),
    /// Another name for a point: `point tip cap`.
    Same(Name),
    /// `middle a -- b`
    Middle(PointRef, PointRef),
    /// `1/3 along a -- b`
    Along(Sum, PointRef, PointRef),
    /// `3 from a toward b`
    Toward(Sum, PointRef, PointRef),
    /// `3 from a at 45 deg`
    Bearing(Sum, PointRef, Angle),
    /// `a moved 2, -1`
    Moved(PointRef, Coordinates),
    /// `mirror a over upright 8`
    Mirror(PointRef, LineRef),
    /// `turn a by 45 deg about b`
    Turn(PointRef, Angle, PointRef),
    /// `meet a -- b and c -- d`
    Meet(LineRef, LineRef),
    /// `foot a on b -- c`
    Foot(PointRef, LineRef),
}

/// `points NAME N …`
#[derive(Debug, Clone, PartialEq)]
pub struct RowDefinition {
    /// The name before the numbers.
    pub name: Name,
    /// How many.
    pub count: Spanned<u32>,
    /// How they are spread.
    pub spread: Spread,
}

/// The ways to spread a row of points.
#[derive(Debug, Clone, PartialEq)]
pub enum Spread {
    /// `from a to b`, both ends counted.
    Line(PointRef, PointRef),
    /// `round c from a`, clockwise.
    Circle {
        /// The middle.
        centre: PointRef,
        /// The first point.
        first: PointRef,
    },
}

/// A block.
#[derive(Debug, Clone, PartialEq)]
pub struct Block {
    /// Its name.
    pub name: Name,
    /// Its grid.
    pub grid: Spanned<Grid>,
    /// Its statements, in order.
    pub items: Vec<Spanned<BlockItem>>,
}

/// The grid of a block.
#[derive(Debug, Clone, PartialEq)]
pub enum Grid {
    /// `16 x 16`: width and height in steps.
    Rectangle(Spanned<f64>, Spanned<f64>),
    /// `hexagon side 8`
    Regular {
        /// The word for the figure.
        figure: Name,
        /// The side, in steps.
        side: Spanned<f64>,
    },
}

/// A statement inside a block.
#[derive(Debug, Clone, PartialEq)]
pub enum BlockItem {
    /// `finished 8 in`
    Finished(Finished),
    /// `copies 4`
    Copies(Spanned<u32>),
    /// `outline PATH`
    Outline(Path),
    /// `point …`
    Point(PointDefinition),
    /// `points …`
    Row(RowDefinition),
    /// `measure …`
    Measure(Measure),
    /// `unit …`
    Unit(Unit),
    /// `place …`
    Place(Place),
    /// `join …`
    Join(Join),
    /// `note …`
    Note(Note),
    /// `step for … "…"`
    Step(OwnStep),
    /// `allow …`
    Allow(Allow),
    /// `patch night around 3, 4`
    Patch {
        /// The fabric.
        fabric: Name,
        /// What the patch covers.
        shape: Shape,
    },
    /// `seam a -- b`
    SeamLine(LineRef),
    /// `unit sail around 3, 4`: the name of the paper that the planner makes of what lies there.
    UnitName {
        /// The name.
        name: Name,
        /// A point in it.
        point: PointRef,
    },
    /// `plain lintel stone a -- b -- c -- d`
    Plain(Plain),
}

/// A piece that is cut to size and sewn without paper.
#[derive(Debug, Clone, PartialEq)]
pub struct Plain {
    /// Its name.
    pub name: Name,
    /// The key of its fabric.
    pub fabric: Name,
    /// Its outline.
    pub path: Path,
}

/// A unit.
#[derive(Debug, Clone, PartialEq)]
pub struct Unit {
    /// Its name.
    pub name: Name,
    /// The word `apart`, if it stands there.
    pub apart: Option<Span>,
    /// Its statements, in order.
    pub items: Vec<Spanned<UnitItem>>,
}

/// A statement inside a unit.
#[derive(Debug, Clone, PartialEq)]
pub enum UnitItem {
    /// `outline PATH`
    Outline(Path),
    /// `point …`
    Point(PointDefinition),
    /// `points …`
    Row(RowDefinition),
    /// `measure …`
    Measure(Measure),
    /// `1 iron a -- b -- c`
    Section(Section),
    /// `pieced 3 glow beyond a -- b`
    Pieced(Pieced),
    /// `strips 1 to 8 stone, sand from a -- b to c -- d`
    Strips(Strips),
    /// `sewn 8`
    Sewn(Spanned<u32>),
    /// `up unit`
    UpUnit,
    /// `note …`
    Note(Note),
    /// `step for 3 "…"`
    Step(OwnStep),
    /// `cut half-square for 3`
    Cut(CutLine),
    /// `ease roomy for 3`
    Ease(EaseLine),
    /// `fussy for 3 at 4, 5`
    Fussy(Fussy),
    /// `allow …`
    Allow(Allow),
}

/// A section.
#[derive(Debug, Clone, PartialEq)]
pub struct Section {
    /// Its number in the order of sewing.
    pub number: Spanned<u32>,
    /// The key of its fabric.
    pub fabric: Name,
    /// What it covers.
    pub shape: Shape,
}

/// The ways to say what a section or patch covers.
#[derive(Debug, Clone, PartialEq)]
pub enum Shape {
    /// A polygon.
    Polygon(Path),
    /// `beyond a -- b`
    Beyond(LineRef),
    /// `around 8, 4`
    Around(PointRef),
}

/// A strip of a section that is sewn together of several before it goes on.
#[derive(Debug, Clone, PartialEq)]
pub struct Pieced {
    /// The number of the section.
    pub number: Spanned<u32>,
    /// The key of the strip's fabric.
    pub fabric: Name,
    /// The line along which the strip is sewn to the rest.
    pub line: LineRef,
    /// A point on the strip's side of the line, where the author names one.
    pub around: Option<PointRef>,
}

/// A run of even strips.
#[derive(Debug, Clone, PartialEq)]
pub struct Strips {
    /// The number of the first.
    pub first: Spanned<u32>,
    /// The number of the last.
    pub last: Spanned<u32>,
    /// The fabrics, taking turns; at least one.
    pub fabrics: Vec<Name>,
    /// The line along which the first strip begins.
    pub from: LineRef,
    /// The line at which the last strip ends.
    pub to: LineRef,
}
