//! Statements as wholes.

use super::super::grammar::Rule;
use super::super::source::{Span, Spanned};
use super::super::syntax::{
    Allow, BlockItem, Colouring, CutLine, EaseLine, Fabric, Finished, Fussy, Grid, History, Item, JoinKind, Measure,
    Name, Note, OwnStep, Path, PictureLine, Pieced, Plain, PointDefinition, RowDefinition, Section, Strips, Target,
    UnitItem,
};
use super::super::words;
use super::{Lower, parts};
use crate::fault::text as words_of;
use pest::iterators::Pair;

/// A statement before it is known where it stands: those that may stand in several places, and those of one place only.
pub(in super::super) enum Said {
    Finished(Finished),
    Outline(Path),
    Point(PointDefinition),
    Row(RowDefinition),
    Measure(Measure),
    Note(Note),
    Step(OwnStep),
    Allow(Allow),
    Cut(CutLine),
    Ease(EaseLine),
    Fussy(Fussy),
    Item(Item),
    BlockItem(BlockItem),
    UnitItem(UnitItem),
}

impl Said {
    pub(in super::super) fn into_item(self) -> Option<Item> {
        match self {
            Self::Item(item) => Some(item),
            Self::Finished(finished) => Some(Item::Finished(finished)),
            Self::Measure(measure) => Some(Item::Measure(measure)),
            Self::Note(note) => Some(Item::Note(note)),
            Self::Allow(allow) => Some(Item::Allow(allow)),
            Self::Cut(cut) => Some(Item::Cut(cut)),
            Self::Ease(ease) => Some(Item::Ease(ease)),
            _ => None,
        }
    }

    pub(in super::super) fn into_block_item(self) -> Option<BlockItem> {
        match self {
            Self::BlockItem(item) => Some(item),
            Self::Finished(finished) => Some(BlockItem::Finished(finished)),
            Self::Outline(path) => Some(BlockItem::Outline(path)),
            Self::Point(point) => Some(BlockItem::Point(point)),
            Self::Row(row) => Some(BlockItem::Row(row)),
            Self::Measure(measure) => Some(BlockItem::Measure(measure)),
            Self::Note(note) => Some(BlockItem::Note(note)),
            Self::Step(step) => Some(BlockItem::Step(step)),
            Self::Allow(allow) => Some(BlockItem::Allow(allow)),
            Self::Item(_) | Self::UnitItem(_) | Self::Cut(_) | Self::Ease(_) | Self::Fussy(_) => None,
        }
    }

    pub(in super::super) fn into_unit_item(self) -> Option<UnitItem> {
        match self {
            Self::UnitItem(item) => Some(item),
            Self::Outline(path) => Some(UnitItem::Outline(path)),
            Self::Point(point) => Some(UnitItem::Point(point)),
            Self::Row(row) => Some(UnitItem::Row(row)),
            Self::Measure(measure) => Some(UnitItem::Measure(measure)),
            Self::Note(note) => Some(UnitItem::Note(note)),
            Self::Step(step) => Some(UnitItem::Step(step)),
            Self::Allow(allow) => Some(UnitItem::Allow(allow)),
            Self::Cut(cut) => Some(UnitItem::Cut(cut)),
            Self::Ease(ease) => Some(UnitItem::Ease(ease)),
            Self::Fussy(fussy) => Some(UnitItem::Fussy(fussy)),
            Self::Item(_) | Self::BlockItem(_) | Self::Finished(_) => None,
        }
    }
}

impl Lower<'_> {
    /// Any statement but the heads of parts.
    pub(in super::super) fn statement(&mut self, pair: Pair<'_, Rule>) -> Option<Said> {
        let rule = pair.as_rule();
        Some(match rule {
            Rule::section => Said::UnitItem(UnitItem::Section(self.section(pair)?)),
            Rule::point_line => Said::Point(self.point_line(pair)?),
            Rule::points_line => Said::Row(self.points_line(pair)?),
            Rule::measure => Said::Measure(self.measure(pair)?),
            Rule::note => Said::Note(self.note(pair)?),
            Rule::step => Said::Step(self.step(pair)?),
            Rule::allow => Said::Allow(self.allow(pair)?),
            Rule::pieced_line => Said::UnitItem(UnitItem::Pieced(self.pieced(pair)?)),
            Rule::cut_line
            | Rule::ease
            | Rule::fussy
            | Rule::turn_slack
            | Rule::cloth
            | Rule::squaring
            | Rule::shrinkage
            | Rule::cutting
            | Rule::have => self.about_cutting(pair)?,
            Rule::strips => Said::UnitItem(UnitItem::Strips(self.strips(pair)?)),
            Rule::fabric => Said::Item(Item::Fabric(self.fabric(pair)?)),
            Rule::place => Said::BlockItem(BlockItem::Place(self.place_line(pair)?)),
            Rule::join => Said::BlockItem(BlockItem::Join(self.join_line(pair, JoinKind::Straight)?)),
            Rule::partial => Said::BlockItem(BlockItem::Join(self.join_line(pair, JoinKind::Partial)?)),
            Rule::inset => Said::BlockItem(BlockItem::Join(self.join_line(pair, JoinKind::Inset)?)),
            Rule::patch => {
                let mut inner = parts(pair);
                let fabric = self.name(&inner.next()?);
                Said::BlockItem(BlockItem::Patch { fabric, shape: self.shape(inner.next()?)? })
            }
            Rule::unit_name => {
                let mut inner = parts(pair);
                let name = self.name(&inner.next()?);
                let point = self.point(parts(inner.next()?).next()?)?;
                Said::BlockItem(BlockItem::UnitName { name, point })
            }
            Rule::wishes => {
                let wishes: Vec<_> =
                    parts(pair).map(|wish| self.one_of(self.name(&wish), &words::WISHES, "a wish")).collect();
                Said::Item(Item::Wishes(wishes.into_iter().collect::<Option<_>>()?))
            }
            Rule::plain_line => {
                let mut inner = parts(pair);
                let (name, fabric) = (self.name(&inner.next()?), self.name(&inner.next()?));
                Said::BlockItem(BlockItem::Plain(Plain { name, fabric, path: self.path(inner.next()?)? }))
            }
            Rule::up => Said::UnitItem(UnitItem::UpUnit),
            Rule::paper => {
                let papers: Vec<_> =
                    parts(pair).map(|paper| self.one_of(self.name(&paper), &words::PAPERS, "a paper")).collect();
                Said::Item(Item::Paper(papers.into_iter().collect::<Option<_>>()?))
            }
            Rule::sheets => Said::Item(Item::Sheets(self.sheets(pair)?)),
            Rule::history => Said::Item(Item::History(self.history(pair)?)),
            Rule::logo => Said::Item(Item::Logo(self.picture(pair, "logo")?)),
            Rule::photo => Said::Item(Item::Photo(self.picture(pair, "photo")?)),
            Rule::colouring => Said::Item(Item::Colouring(self.colouring(pair)?)),
            Rule::sizes => {
                let sizes: Vec<_> = parts(pair).map(|size| self.finished_size(size)).collect();
                Said::Item(Item::Sizes(sizes.into_iter().collect::<Option<_>>()?))
            }
            _ => {
                let inner = parts(pair).next()?;
                match rule {
                    Rule::outline => Said::Outline(self.path(inner)?),
                    Rule::finished => Said::Finished(self.finished_size(inner)?),
                    Rule::copies => {
                        Said::BlockItem(BlockItem::Copies(self.whole(&inner, "how many copies there are")?))
                    }
                    Rule::sewn => Said::UnitItem(UnitItem::Sewn(self.whole(&inner, "how often the unit is sewn")?)),
                    Rule::seam => Said::BlockItem(BlockItem::SeamLine(self.line(inner)?)),
                    _ => Said::Item(self.item(rule, inner)?),
                }
            }
        })
    }

    /// Statements of the pattern that say one thing only.
    fn item(&mut self, rule: Rule, inner: Pair<'_, Rule>) -> Option<Item> {
        Some(match rule {
            Rule::title => Item::Title(self.text(&inner)),
            Rule::edition => Item::Edition(self.text(&inner)),
            Rule::author => Item::Author(self.text(&inner)),
            Rule::licence => Item::Licence(self.text(&inner)),
            Rule::use_line => Item::Use(self.text(&inner)),
            Rule::date_line => Item::Date(self.date(&inner)?),
            Rule::allowance => Item::Allowance(self.length(inner)?),
            Rule::language => {
                let language = self.name(&inner);
                Item::Language(self.one_of(language, &words::LANGUAGES, "a language of packets")?)
            }
            Rule::skill => Item::Skill(self.text(&inner)),
            Rule::contact => Item::Contact(self.text(&inner)),
            Rule::report => Item::Report(self.text(&inner)),
            Rule::about_line => Item::About(self.text(&inner)),
            Rule::tool => Item::Tool(self.text(&inner)),
            _ => return None,
        })
    }

    /// The name, if it is one of these words.
    pub(super) fn one_of(&mut self, name: Name, known: &[&'static str], what: &str) -> Option<Name> {
        if known.contains(&name.value.as_str()) {
            return Some(name);
        }
        self.report(words_of::unknown_choice(name.span, &name.value, known, what));
        None
    }

    fn fabric(&mut self, pair: Pair<'_, Rule>) -> Option<Fabric> {
        let mut inner = parts(pair);
        let key = self.name(&inner.next()?);
        let name = self.text(&inner.next()?);
        let colour = self.colour(&inner.next()?);
        let print = inner.filter_map(|word| self.one_of(self.name(&word), &words::PRINTS, "a kind of print")).collect();
        Some(Fabric { key, name, colour: colour?, print })
    }

    fn history(&mut self, pair: Pair<'_, Rule>) -> Option<History> {
        let mut inner = parts(pair);
        let edition = self.text(&inner.next()?);
        let next = inner.next()?;
        if next.as_rule() == Rule::date {
            let (date, words) = (self.date(&next), self.text(&inner.next()?));
            return Some(History { edition, date: Some(date?), words });
        }
        Some(History { edition, date: None, words: self.text(&next) })
    }

    fn picture(&mut self, pair: Pair<'_, Rule>, kind: &str) -> Option<PictureLine> {
        let mut inner = parts(pair);
        let path = self.text(&inner.next()?);
        let shows = inner.next().map(|shows| self.text(&shows));
        let Some(shows) = shows.filter(|shows| !shows.value.trim().is_empty()) else {
            self.report(words_of::picture_untold(path.span, kind, &path.value));
            return None;
        };
        Some(PictureLine { path, shows })
    }

    fn colouring(&mut self, pair: Pair<'_, Rule>) -> Option<Colouring> {
        let mut inner = parts(pair);
        let (key, title) = (self.name(&inner.next()?), self.text(&inner.next()?));
        Some(Colouring { key, title, exchanges: self.exchanges(inner.next()?)? })
    }

    fn section(&mut self, pair: Pair<'_, Rule>) -> Option<Section> {
        let mut inner = parts(pair);
        let number = self.whole(&inner.next()?, "the number of a section");
        let fabric = self.name(&inner.next()?);
        let shape = self.shape(inner.next()?);
        Some(Section { number: number?, fabric, shape: shape? })
    }

    fn pieced(&mut self, pair: Pair<'_, Rule>) -> Option<Pieced> {
        let mut inner = parts(pair);
        let number = self.whole(&inner.next()?, "the number of a section");
        let fabric = self.name(&inner.next()?);
        let line = self.line(parts(inner.next()?).next()?);
        let around = match inner.next() {
            Some(around) => Some(self.point(parts(around).next()?)?),
            None => None,
        };
        Some(Pieced { number: number?, fabric, line: line?, around })
    }

    fn strips(&mut self, pair: Pair<'_, Rule>) -> Option<Strips> {
        let mut inner = parts(pair);
        let first = self.whole(&inner.next()?, "the number of a section");
        let last = self.whole(&inner.next()?, "the number of a section");
        let fabrics = parts(inner.next()?).map(|fabric| self.name(&fabric)).collect();
        let (from, to) = (self.line(inner.next()?), self.line(inner.next()?));
        Some(Strips { first: first?, last: last?, fabrics, from: from?, to: to? })
    }

    fn target(&mut self, pair: Pair<'_, Rule>) -> Option<Target> {
        let inner = parts(pair).next()?;
        Some(match inner.as_rule() {
            Rule::number => Target::Section(self.whole(&inner, "the number of a section")?),
            _ => Target::Join(self.name(&inner)),
        })
    }

    fn note(&mut self, pair: Pair<'_, Rule>) -> Option<Note> {
        let mut inner = parts(pair);
        let first = inner.next()?;
        if first.as_rule() == Rule::text {
            return Some(Note { target: None, text: self.text(&first) });
        }
        let (target, text) = (self.target(first), self.text(&inner.next()?));
        Some(Note { target: Some(target?), text })
    }

    fn step(&mut self, pair: Pair<'_, Rule>) -> Option<OwnStep> {
        let mut inner = parts(pair);
        let (target, text) = (self.target(inner.next()?), self.text(&inner.next()?));
        Some(OwnStep { target: target?, text })
    }

    fn allow(&mut self, pair: Pair<'_, Rule>) -> Option<Allow> {
        let mut inner = parts(pair);
        let code = self.name(&inner.next()?);
        let target = match inner.next() {
            Some(target) => Some(self.target(target)?),
            None => None,
        };
        Some(Allow { code, target })
    }

    /// The name and the grid of a block.
    pub(in super::super) fn block_head(&mut self, pair: Pair<'_, Rule>) -> Option<(Name, Spanned<Grid>)> {
        let mut inner = parts(pair);
        let name = self.name(&inner.next()?);
        let grid = inner.next()?;
        let span = self.span(&grid);
        let mut sides = parts(grid);
        let first = sides.next()?;
        let grid = if first.as_rule() == Rule::number {
            let (width, height) = (self.number(&first), self.number(&sides.next()?));
            Grid::Rectangle(width?, height?)
        } else {
            let figure = self.name(&first);
            let figure = self.one_of(figure, &words::FIGURES, "a figure");
            let side = self.number(&sides.next()?);
            Grid::Regular { figure: figure?, side: side? }
        };
        Some((name, Spanned::new(grid, span)))
    }

    /// The name of a unit and the word `apart`.
    pub(in super::super) fn unit_head(&mut self, pair: Pair<'_, Rule>) -> Option<(Name, Option<Span>)> {
        let mut inner = parts(pair);
        let name = self.name(&inner.next()?);
        let apart = inner.next().map(|word| self.span(&word));
        Some((name, apart))
    }
}
