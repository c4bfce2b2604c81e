//! What foundations are printed on, and how sheets are to be filled.

use crate::fault::{Fault, cutting as words, names, sizes};
use crate::filling::{Turning, Wish};
use crate::geometry::Length;
use crate::notation::source::{MAX_SOURCE_BYTES, SourceText, Sources, Span, Spanned};
use crate::notation::syntax::{Item, PhysicalLength, SheetMedium, SheetsWish};

use super::Pattern;
use super::facts::Paper;
use super::grid::length;
use super::scope::Resolved;

/// What a printer leaves blank on every side.
const MARGINS: (Length, Length) = (Length::ZERO, Length::inches(2.0));
/// The gap between foundations.
const GAPS: (Length, Length) = (Length::ZERO, Length::inches(1.0));
/// The narrowest and the widest roll: a narrow one does not hold what stands at the head of a sheet.
const ROLLS: (Length, Length) = (Length::inches(8.0), Length::inches(72.0));
/// The shortest and the longest sheet off a roll: a page of a PDF is at most 200 inches long.
const LENGTHS: (Length, Length) = (Length::inches(8.0), Length::inches(199.0));
/// How long a sheet off a roll may be where nothing is said.
const USUAL_LENGTH: Length = Length::inches(48.0);
/// How much more paper may be spent on fewer different sheets at the most, in per cent.
const MOST_SURPLUS: f64 = 200.0;

/// What a foundation is printed on.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum SheetPaper {
    /// 8 1/2 × 11 in.
    Letter,
    /// 8 1/2 × 14 in.
    Legal,
    /// 11 × 17 in.
    Tabloid,
    /// 210 × 297 mm.
    A4,
    /// 297 × 420 mm.
    A3,
    /// Sheets off a roll.
    Roll {
        /// How wide it is.
        width: Length,
        /// How long a sheet off it may be.
        longest: Length,
    },
}

impl SheetPaper {
    /// The papers that are sold in sheets.
    const SHEETS: [Self; 5] = [Self::Letter, Self::Legal, Self::Tabloid, Self::A4, Self::A3];

    /// Width and height, upright; of a roll the greatest height.
    #[must_use]
    pub fn size(self) -> (Length, Length) {
        match self {
            Self::Letter => Paper::Letter.size(),
            Self::Legal => (Length::inches(8.5), Length::inches(14.0)),
            Self::Tabloid => (Length::inches(11.0), Length::inches(17.0)),
            Self::A4 => Paper::A4.size(),
            Self::A3 => (Length::millimetres(297.0), Length::millimetres(420.0)),
            Self::Roll { width, longest } => (width, longest),
        }
    }

    /// Whether it comes off a roll.
    #[must_use]
    pub const fn is_roll(self) -> bool {
        matches!(self, Self::Roll { .. })
    }

    /// The word for it in sources.
    #[must_use]
    pub const fn word(self) -> &'static str {
        match self {
            Self::Letter => "letter",
            Self::Legal => "legal",
            Self::Tabloid => "tabloid",
            Self::A4 => "a4",
            Self::A3 => "a3",
            Self::Roll { .. } => "roll",
        }
    }

    /// What people call it; of a roll nothing.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Letter => "Letter",
            Self::Legal => "Legal",
            Self::Tabloid => "Tabloid",
            Self::A4 => "A4",
            Self::A3 => "A3",
            Self::Roll { .. } => "",
        }
    }

    /// Whether it is of the standard of a packet's paper: ANSI for Letter, ISO 216 for A4.
    const fn goes_with(self, packet: Paper) -> bool {
        matches!(
            (self, packet),
            (Self::Letter | Self::Legal | Self::Tabloid, Paper::Letter) | (Self::A4 | Self::A3, Paper::A4)
        )
    }
}

impl From<Paper> for SheetPaper {
    fn from(paper: Paper) -> Self {
        match paper {
            Paper::Letter => Self::Letter,
            Paper::A4 => Self::A4,
        }
    }
}

/// What is not printed on one sheet together.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Apart {
    /// Anything may be.
    #[default]
    Nothing,
    /// Foundations of different blocks.
    Blocks,
    /// Different foundations.
    Units,
}

/// How sheets are to be filled.
#[derive(Debug, Clone, PartialEq)]
pub struct SheetRules {
    /// What foundations are printed on, the likest in front; nothing for the packet's own paper.
    pub on: Vec<SheetPaper>,
    /// What the printer leaves blank on every side.
    pub margin: Length,
    /// How far foundations keep from each other, for the scissors.
    pub gap: Length,
    /// How they may be turned.
    pub turning: Turning,
    /// What there is to be few of.
    pub wish: Wish,
    /// What is not printed on one sheet together.
    pub apart: Apart,
}

impl Default for SheetRules {
    fn default() -> Self {
        Self {
            on: Vec::new(),
            margin: Paper::Letter.margin(),
            gap: Length::inches(0.125),
            turning: Turning::Freely,
            wish: Wish::FewestPrinted,
            apart: Apart::Nothing,
        }
    }
}

impl SheetRules {
    /// What foundations are printed on beside a packet on this paper: of those that are named the first of its standard, else the first.
    #[must_use]
    pub fn paper(&self, packet: Paper) -> SheetPaper {
        let fitting = self.on.iter().find(|paper| paper.goes_with(packet)).or(self.on.first());
        fitting.copied().unwrap_or(packet.into())
    }
}

/// Takes what a `sheets` line says into the rules; one line says each thing once.
pub fn take(rules: &mut SheetRules, wishes: &[Spanned<SheetsWish>]) -> Resolved<()> {
    let mut said: Vec<(&'static str, Span)> = Vec::new();
    for wish in wishes {
        let about = match &wish.value {
            SheetsWish::On(media) => {
                rules.on = on(media)?;
                "what foundations are printed on"
            }
            SheetsWish::Margin(written) => {
                rules.margin = within(written, "the margin of a sheet", MARGINS, "is from 0 to 2 in")?;
                "the margin of the sheets"
            }
            SheetsWish::Gap(written) => {
                rules.gap = within(written, "the gap between foundations", GAPS, "is from 0 to 1 in")?;
                "the gap between foundations"
            }
            SheetsWish::FewestDifferent(part) => {
                if !(0.0..=MOST_SURPLUS).contains(&part.value) {
                    let what = "the paper that may be spent on fewer different sheets";
                    return Err(Box::new(words::out_of_bounds(part.span, what, "from 0 to 200 %")));
                }
                rules.wish = Wish::FewestDifferent { surplus: part.value / 100.0 };
                "what there is to be few of"
            }
            // The words were looked through when they were read.
            SheetsWish::Word(word) => match word.value.as_str() {
                "turned-freely" | "turned-by-quarters" | "unturned" => {
                    rules.turning = match word.value.as_str() {
                        "turned-freely" => Turning::Freely,
                        "turned-by-quarters" => Turning::Quarters,
                        _ => Turning::Fixed,
                    };
                    "how foundations are turned"
                }
                "blocks-apart" | "units-apart" => {
                    rules.apart = if word.value == "blocks-apart" { Apart::Blocks } else { Apart::Units };
                    "what is printed apart"
                }
                _ => {
                    rules.wish = Wish::FewestPrinted;
                    "what there is to be few of"
                }
            },
        };
        if let Some(&(_, first)) = said.iter().find(|(other, _)| *other == about) {
            return Err(Box::new(words::said_twice(wish.span, about, first)));
        }
        said.push((about, wish.span));
    }
    Ok(())
}

/// The papers, none twice.
fn on(media: &[Spanned<SheetMedium>]) -> Resolved<Vec<SheetPaper>> {
    let mut papers: Vec<SheetPaper> = Vec::new();
    for medium in media {
        let paper = match &medium.value {
            SheetMedium::Paper(word) => {
                let known = SheetPaper::SHEETS.map(SheetPaper::word);
                let found = SheetPaper::SHEETS.into_iter().find(|paper| paper.word() == word.value);
                found.ok_or_else(|| Box::new(names::unknown_word(word.span, &word.value, "paper", &known)))?
            }
            SheetMedium::Roll(width, longest) => SheetPaper::Roll {
                width: within(width, "the width of a roll", ROLLS, "is from 8 to 72 in")?,
                longest: match longest {
                    Some(longest) => {
                        within(longest, "the length of a sheet off a roll", LENGTHS, "is from 8 to 199 in")?
                    }
                    None => USUAL_LENGTH,
                },
            },
        };
        if let Some(first) = papers.iter().position(|other| *other == paper) {
            let first = media.get(first).map_or(medium.span, |first| first.span);
            return Err(Box::new(words::said_twice(medium.span, "this paper", first)));
        }
        papers.push(paper);
    }
    Ok(papers)
}

/// A length between two others; `bounds` says which.
fn within(written: &PhysicalLength, what: &str, (least, most): (Length, Length), bounds: &str) -> Resolved<Length> {
    let length = length(written);
    if length < least || length > most {
        let fault = sizes::bad_length(written.span, what, bounds, "check the number and its unit");
        return Err(Box::new(fault));
    }
    Ok(length)
}

/// Lets the words of a `sheets` line behind its first, given beside the source, overrule what the source says; `name` is what faults call them.
/// Gives what is wrong with them.
pub fn overrule(pattern: &mut Pattern, sources: &mut Sources, (name, words): (&str, &str)) -> Vec<Fault> {
    let text = format!("sheets {words}");
    if text.len() > MAX_SOURCE_BYTES {
        return vec![crate::fault::files::source_too_large(None, name)];
    }
    let file = sources.add(SourceText::new(name, &text));
    let (tree, mut faults) = crate::notation::parse(file, &text);
    for item in &tree.items {
        let taken = match &item.value {
            Item::Sheets(wishes) => take(&mut pattern.sheets, wishes),
            _ => Err(Box::new(words::more_than_sheets(item.span))),
        };
        faults.extend(taken.err().map(|fault| *fault));
    }
    // Nobody mends a command line by a change of a source.
    faults.into_iter().map(|fault| Fault { fixes: Vec::new(), ..fault }).collect()
}
