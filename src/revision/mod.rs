//! Two models of one pattern, an earlier and a later one → what changed between them, and whom it concerns.
//!
//! Models are compared as they are sewn from, not as their sources are written: foundation by foundation on the printed side, piece by piece as it is cut, join by join. What was only
//! renamed is recognised by its geometry. Each [`Change`] has a [`Consequence`] for those who have printed, cut or sewn by the earlier model.
//!
//! A foundation that no change names draws the same, but for its title and edition. There is no change at all exactly when the models are equal.

mod alike;
mod amounts;
mod correction;
mod cuts;
mod edition;
mod foundations;
mod overlay;
mod pairs;
mod said;
mod sewing;
mod told;

pub use correction::{Correction, correction};
pub use edition::{Edition, Raise, TooSmall, judge};
pub use overlay::{album, overlays};
pub use pairs::{BlockPair, Pairs};
pub use told::{Told, ToldPart, already, told};

use crate::geometry::{Length, Point};
use crate::model::{Model, Purchase, Shape};

/// What changed between two models.
#[derive(Debug, Clone, PartialEq)]
pub struct Revision {
    /// What of the later model is what of the earlier one.
    pub pairs: Pairs,
    /// The changes, by consequence.
    pub changes: Vec<Change>,
}

/// What a change means for those who have the earlier model.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Consequence {
    /// A foundation is printed again, or more or less often, or no longer.
    Print,
    /// A piece is cut again.
    Cut,
    /// More or less fabric is bought.
    Buy,
    /// The sewing is another: order, joins, pressing.
    Sew,
    /// Only words changed.
    Words,
}

impl Consequence {
    /// All of them, the gravest in front.
    pub const ALL: [Self; 5] = [Self::Print, Self::Cut, Self::Buy, Self::Sew, Self::Words];

    /// The word for it in JSON.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Print => "print-again",
            Self::Cut => "cut-again",
            Self::Buy => "buy",
            Self::Sew => "sew-differently",
            Self::Words => "only-words",
        }
    }
}

/// One change.
#[derive(Debug, Clone, PartialEq)]
pub enum Change {
    /// Of a foundation, or of how often a plain piece is sewn.
    Foundation(FoundationChange),
    /// Of a piece that is cut.
    Cut(CutChange),
    /// Of what is bought.
    Buy(BuyChange),
    /// Of the sewing.
    Sew(SewChange),
    /// Of words and of what only the packet tells.
    Words(WordsChange),
}

/// What became of a foundation. Of a plain piece only [`Alteration::Counted`] is told: it has no paper.
#[derive(Debug, Clone, PartialEq)]
pub struct FoundationChange {
    /// The pair of blocks, by index in [`Pairs::blocks`].
    pub block: usize,
    /// The foundation in the earlier model, by index in its block; none where it is new.
    pub was: Option<usize>,
    /// The foundation in the later model; none where it is no longer sewn.
    pub now: Option<usize>,
    /// How it differs, the gravest in front; empty where it is new or gone.
    pub alterations: Vec<Alteration>,
}

/// How a foundation differs from the one that it was.
#[derive(Debug, Clone, PartialEq)]
pub enum Alteration {
    /// Seams or edges lie elsewhere.
    Redrawn(Redrawn),
    /// The same areas in another order of sewing: for each section that moved, its number now and before, counted from 1.
    Renumbered(Vec<(usize, usize)>),
    /// Other fabrics: for each section its number now, counted from 1, and the fabric now and before, by index in their models.
    Recoloured(Vec<Recoloured>),
    /// Another name or mark.
    Renamed {
        /// Whether another foundation bears the former mark now.
        taken: bool,
    },
    /// Nothing that is sewn, but something that is printed beside it.
    Relabelled(Vec<Beside>),
    /// Sewn so many times, and so many before.
    Counted {
        /// How often it is sewn now.
        now: u32,
        /// How often it was sewn.
        was: u32,
    },
}

/// What is printed beside the seams of a foundation.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Beside {
    /// The numbers of its fabrics: those of before are others' now.
    Fabrics,
    /// The ticks of match points and tips.
    Ticks,
    /// What its edges meet.
    Edges,
    /// Anything else, such as the arrow of a print.
    Other,
}

impl Beside {
    /// The word for it in JSON and in the catalogue.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Fabrics => "fabrics",
            Self::Ticks => "ticks",
            Self::Edges => "edges",
            Self::Other => "other",
        }
    }
}

/// A section, or a strip of one, in another fabric.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Recoloured {
    /// Its number in the later model, counted from 1.
    pub section: usize,
    /// Its fabric now, by index in the later model.
    pub now: usize,
    /// Its fabric before, by index in the earlier model.
    pub was: usize,
}

/// How the seams and edges of a foundation moved.
#[derive(Debug, Clone, PartialEq)]
pub struct Redrawn {
    /// How far a corner moved at the most.
    pub farthest: Length,
    /// Where that corner is now, in the later unit's frame.
    pub at: Point,
    /// The section that it is a corner of, by its number in the later model, counted from 1; none where it is of the cutting line.
    pub most: Option<usize>,
    /// The sections that are other than before, by their numbers in the later model, counted from 1.
    pub sections: Vec<usize>,
    /// How many sections there were before and are now.
    pub counts: (usize, usize),
    /// Whether units that are sewn still fit.
    pub fit: StillFits,
}

/// Whether a unit that was sewn by the earlier foundation still does.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum StillFits {
    /// Its edges are as they were, and the points at which it meets others.
    Fits,
    /// Its edges are as they were, but it meets others at other points.
    MeetsElsewhere,
    /// Its edges are others.
    Not,
}

/// How the piece of a section is cut, now and before.
#[derive(Debug, Clone, PartialEq)]
pub struct CutChange {
    /// The pair of blocks, by index in [`Pairs::blocks`].
    pub block: usize,
    /// The foundation in the later model, or in the earlier one where it is gone there.
    pub variant: usize,
    /// The section, counted from 1, of the later model, or of the earlier one where it is gone.
    pub section: usize,
    /// The section that it was, counted from 1, of the earlier model; none where it is new.
    pub was_section: Option<usize>,
    /// The strip of a pieced section, counted from 1.
    pub strip: Option<usize>,
    /// The piece before; none where it is new.
    pub was: Option<Piece>,
    /// The piece now; none where it is no longer cut.
    pub now: Option<Piece>,
}

/// A piece to cut.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Piece {
    /// Its fabric, by index in its model.
    pub fabric: usize,
    /// Its shape.
    pub shape: Shape,
    /// Its width.
    pub width: Length,
    /// Its height.
    pub height: Length,
    /// How many.
    pub count: u32,
}

impl CutChange {
    /// Whether a piece that was cut before may come up short now: it is new, of another fabric, of another shape, or larger.
    #[must_use]
    pub fn grew(&self, pairs: &Pairs) -> bool {
        match (&self.was, &self.now) {
            (Some(was), Some(now)) => pairs.fabric_was(now.fabric) != Some(was.fabric) || cuts::needs_more(was, now),
            (None, Some(_)) => true,
            _ => false,
        }
    }
}

/// What is bought of a fabric, now and before.
#[derive(Debug, Clone, PartialEq)]
pub struct BuyChange {
    /// The fabric in the later model, or in the earlier one where it is gone there.
    pub fabric: usize,
    /// The title of the colouring for which it is bought; none for the one that is built.
    pub colouring: Option<String>,
    /// What was to be bought; none where nothing was.
    pub was: Option<Purchase>,
    /// What is to be bought; none where nothing is.
    pub now: Option<Purchase>,
}

/// How the sewing changed. Joins by their index in the blocks of the pair.
#[derive(Debug, Clone, PartialEq)]
pub struct SewChange {
    /// The pair of blocks, by index in [`Pairs::blocks`].
    pub block: usize,
    /// What is sewn in another way.
    pub what: Sewn,
}

/// What is sewn in another way.
#[derive(Debug, Clone, PartialEq)]
pub enum Sewn {
    /// A join that is new.
    Joined(usize),
    /// A join that is gone, by its index in the earlier block.
    Unjoined(usize),
    /// Joins that are sewn at another time than before, among those that both have.
    Reordered(Vec<usize>),
    /// A join is pressed another way.
    Pressed {
        /// The join, in the later block.
        now: usize,
        /// The join, in the earlier block.
        was: usize,
    },
    /// A join is made in another manner, or other points meet along it.
    Met {
        /// The join, in the later block.
        now: usize,
        /// The join, in the earlier block.
        was: usize,
    },
    /// A foundation stands where it did not, or turned, by its placement in the later block.
    Placed(usize),
    /// The strips of a pieced section are pressed another way: the foundation in the later block and the section, counted from 1.
    StripsPressed(usize, usize),
    /// The author's own words for a step: of the section of a foundation, counted from 1.
    SectionStep(usize, usize),
    /// The author's own words for the step of a join.
    JoinStep(usize),
}

/// What the packet says otherwise.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct WordsChange {
    /// What it is about.
    pub about: Said,
    /// What it is about among several, such as the name of a fabric; empty where there is but one.
    pub of: String,
    /// What was said; none where nothing was.
    pub was: Option<String>,
    /// What is said; none where nothing is.
    pub now: Option<String>,
}

/// What words are about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Said {
    /// The title.
    Title,
    /// The number of the edition.
    Edition,
    /// Its day.
    Date,
    /// What the editions brought.
    History,
    /// Who publishes it.
    Author,
    /// Terms of use.
    Licence,
    /// How skilled one should be.
    Skill,
    /// How to reach the publisher.
    Contact,
    /// Where to report a fault.
    Report,
    /// The publisher's words.
    About,
    /// Tools and notions.
    Tools,
    /// A note.
    Note,
    /// The publisher's sign.
    Logo,
    /// The photograph.
    Photo,
    /// The name of a block.
    Block,
    /// The name of a unit, where it is not printed on its paper.
    Unit,
    /// The finished size.
    Finished,
    /// The sizes in which it is published.
    Sizes,
    /// The seam allowance.
    Allowance,
    /// The ease of rough cuts.
    Ease,
    /// Name, colour, print or cloth of a fabric.
    Fabric,
    /// A colouring.
    Colouring,
    /// How many people it is cut for.
    People,
    /// From what cloth, and how, it is cut.
    Cutting,
    /// The language.
    Language,
    /// Inches or millimetres.
    Units,
    /// On what it is printed.
    Paper,
    /// The name of a join.
    Join,
    /// What is proved best, or how far it was searched.
    Proofs,
    /// Less than can be printed or cut.
    Unseen,
}

impl Said {
    /// The word for it in JSON and in the catalogue.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Title => "title",
            Self::Edition => "edition",
            Self::Date => "date",
            Self::History => "history",
            Self::Author => "author",
            Self::Licence => "licence",
            Self::Skill => "skill",
            Self::Contact => "contact",
            Self::Report => "report",
            Self::About => "about",
            Self::Tools => "tools",
            Self::Note => "note",
            Self::Logo => "logo",
            Self::Photo => "photo",
            Self::Block => "block",
            Self::Unit => "unit",
            Self::Finished => "finished",
            Self::Sizes => "sizes",
            Self::Allowance => "allowance",
            Self::Ease => "ease",
            Self::Fabric => "fabric",
            Self::Colouring => "colouring",
            Self::People => "people",
            Self::Cutting => "cutting",
            Self::Language => "language",
            Self::Units => "units",
            Self::Paper => "paper",
            Self::Join => "join",
            Self::Proofs => "proofs",
            Self::Unseen => "unseen",
        }
    }

    /// Whether it changes with every edition: its number, its day, its history.
    #[must_use]
    pub const fn is_of_every_edition(self) -> bool {
        matches!(self, Self::Edition | Self::Date | Self::History)
    }
}

impl Change {
    /// What it means for those who have the earlier model.
    #[must_use]
    pub const fn consequence(&self) -> Consequence {
        match self {
            Self::Foundation(_) => Consequence::Print,
            Self::Cut(_) => Consequence::Cut,
            Self::Buy(_) => Consequence::Buy,
            Self::Sew(_) => Consequence::Sew,
            Self::Words(_) => Consequence::Words,
        }
    }
}

impl Change {
    /// Whether it is one that a reader may see: not what every edition changes, nor what is only reckoned.
    #[must_use]
    pub fn concerns_readers(&self) -> bool {
        match self {
            Self::Words(change) => {
                !change.about.is_of_every_edition() && !matches!(change.about, Said::Proofs | Said::Unseen)
            }
            _ => true,
        }
    }
}

impl FoundationChange {
    /// How often it is sewn now and was before, where that changed.
    #[must_use]
    pub fn counted(&self) -> Option<(u32, u32)> {
        self.alterations.iter().find_map(|alteration| match alteration {
            Alteration::Counted { now, was } => Some((*now, *was)),
            _ => None,
        })
    }

    /// Whether what is printed on it differs from before, or it is new.
    #[must_use]
    pub fn is_printed_anew(&self) -> bool {
        let counted = |alteration: &Alteration| matches!(alteration, Alteration::Counted { .. });
        self.now.is_some() && (self.was.is_none() || !self.alterations.iter().all(counted))
    }

    /// Whether papers that are printed already mislead: it is new, or its seams, numbers or fabrics are others, or its mark is another's now.
    #[must_use]
    pub fn misleads(&self) -> bool {
        let harmless = |alteration: &Alteration| match alteration {
            Alteration::Renamed { taken } => !taken,
            Alteration::Relabelled(beside) => !beside.contains(&Beside::Fabrics),
            Alteration::Counted { .. } => true,
            _ => false,
        };
        self.now.is_some() && (self.was.is_none() || !self.alterations.iter().all(harmless))
    }
}

impl Revision {
    /// What changed from one model to the other. O(n²) in foundations, sections, and joins of a block.
    #[must_use]
    pub fn between(was: &Model, now: &Model) -> Self {
        let pairs = Pairs::between(was, now);
        let mut changes = Vec::new();
        foundations::compare(was, now, &pairs, &mut changes);
        cuts::compare(was, now, &pairs, &mut changes);
        amounts::compare(was, now, &pairs, &mut changes);
        sewing::compare(was, now, &pairs, &mut changes);
        said::compare(was, now, &pairs, &mut changes);
        if changes.is_empty() && was != now {
            changes.push(said::unseen());
        }
        changes.sort_by_key(Change::consequence);
        Self { pairs, changes }
    }

    /// Says that the sizes are others in which it is published: a model knows only its own.
    pub fn compare_sizes(&mut self, was: &[String], now: &[String]) {
        if was != now {
            self.changes.push(said::sizes(was, now));
        }
    }

    /// Whether nothing changed.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.changes.is_empty()
    }

    /// By how much the edition must rise: its first number where a foundation is to be printed again or a piece may come up short, its second for anything else
    /// but the number, day and history of the edition itself.
    #[must_use]
    pub fn raise(&self) -> Raise {
        self.changes.iter().map(|change| self.raise_of(change)).max().unwrap_or(Raise::None)
    }

    /// By how much the edition must rise for one change.
    #[must_use]
    pub fn raise_of(&self, change: &Change) -> Raise {
        match change {
            Change::Foundation(change) if change.misleads() => Raise::Major,
            Change::Cut(change) if change.grew(&self.pairs) => Raise::Major,
            Change::Words(change) if change.about.is_of_every_edition() => Raise::None,
            _ => Raise::Minor,
        }
    }

    /// Whether anything changed that a reader may see: more than the number, day and history of the edition, and than what is proved or reckoned.
    #[must_use]
    pub fn concerns_readers(&self) -> bool {
        self.changes.iter().any(Change::concerns_readers)
    }

    /// What became of a foundation of the later model; none where it is as it was.
    #[must_use]
    pub fn change_of(&self, block: usize, variant: usize) -> Option<&FoundationChange> {
        self.changes.iter().find_map(|change| match change {
            Change::Foundation(change) if change.now == Some(variant) => {
                (self.pairs.blocks.get(change.block)?.now == Some(block)).then_some(change)
            }
            _ => None,
        })
    }

    /// Whether what is printed on a foundation of the later model is other than before, or new.
    #[must_use]
    pub fn is_printed_anew(&self, block: usize, variant: usize) -> bool {
        self.change_of(block, variant).is_some_and(FoundationChange::is_printed_anew)
    }

    /// Whether papers of a foundation of the later model that are printed already mislead, or it is new.
    #[must_use]
    pub fn misleads(&self, block: usize, variant: usize) -> bool {
        self.change_of(block, variant).is_some_and(FoundationChange::misleads)
    }

    /// The same with what readers may see alone, and of the history only what is new.
    #[must_use]
    pub fn for_readers(&self) -> Self {
        let is_told = |change: &&Change| match change {
            Change::Words(change) if change.about == Said::History => change.now.is_some() && change.was.is_none(),
            change => change.concerns_readers(),
        };
        Self { changes: self.changes.iter().filter(is_told).cloned().collect(), ..self.clone() }
    }

    /// How many more copies of a foundation of the later model are sewn than before.
    #[must_use]
    pub fn more_copies(&self, block: usize, variant: usize) -> u32 {
        let counted = self.change_of(block, variant).and_then(FoundationChange::counted);
        counted.map_or(0, |(now, was)| now.saturating_sub(was))
    }

    /// What a foundation of the later model was in the earlier one: block and foundation by index.
    #[must_use]
    pub fn was(&self, block: usize, variant: usize) -> Option<(usize, usize)> {
        let pair = self.pairs.blocks.iter().find(|pair| pair.now == Some(block))?;
        let (was, _) = pair.variants.iter().find(|(_, now)| *now == Some(variant))?;
        Some((pair.was?, (*was)?))
    }
}
