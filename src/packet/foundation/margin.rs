//! What is written into the allowance of a foundation, between its outline and its cutting line: its name, and what each edge meets.
//!
//! Words beside the paper are cut off when it is trimmed, before they are needed: only what finds no room in the allowance stands there.

use crate::geometry::{Length, Point, Segment, Vector};
use crate::packet::edges::{Meets, stretches};
use crate::packet::label::{Label, Obstacles, box_at, upright};
use crate::packet::page::{Colour, Layer, Path, Stroke, Weight};

use super::laps::Part;
use super::{Drawing, GREY};

/// Sizes of type in the allowance, largest first, in printer's points.
const SIZES: [f64; 6] = [7.0, 6.5, 6.0, 5.5, 5.0, 4.5];
/// Where across the allowance a line of words runs, from the outline: in its middle, or two lines one beside the other.
const DEPTHS: [f64; 3] = [0.5, 0.3, 0.72];
/// How far words keep from lines and other words, in inches.
const CLEAR: f64 = 0.015;
/// How much farther words on one line keep from each other at both ends together, where they can.
const ASIDE: f64 = 0.2;
/// Words are moved along by so much, in inches.
const STEP: f64 = 0.03;

/// What an edge meets.
struct Told {
    /// The words, and shorter ones.
    forms: Vec<String>,
    stretch: Segment,
}

/// Words at their place.
struct Placed {
    label: Label,
    centre: Point,
    turn: f64,
}

/// Where words would rather stand along a stretch.
#[derive(Clone, Copy)]
enum Toward {
    Middle,
    Start,
    End,
}

/// All that is written into the allowance.
struct Margin {
    placed: Vec<Placed>,
    /// What found no room.
    missing: Vec<Told>,
    /// Whether the name did.
    named: bool,
    /// How far this is from what is wished for.
    cost: usize,
}

impl Drawing<'_> {
    /// The name of the foundation along its longest edge, and along every edge what it meets.
    pub(super) fn label_edges(&mut self, part: Option<&Part>) {
        let unit = self.subject.block().unit_of(self.subject.variant());
        let mut edges: Vec<Segment> = unit.outline.edges().map(|edge| self.printed.apply_to_segment(edge)).collect();
        if part.is_some() {
            edges = edges.into_iter().filter_map(|edge| self.seen(edge)).collect();
        }
        edges.sort_by(|a, b| b.length().total_cmp(&a.length()));
        let names = self.names(part);
        let mut best: Option<Margin> = None;
        for largest in [7.0, 5.5, 4.5] {
            for toward in [Toward::Middle, Toward::Start, Toward::End] {
                if best.as_ref().is_some_and(|best| best.cost <= 1) {
                    continue;
                }
                let margin = self.margin(&names, &edges, largest, toward);
                if best.as_ref().is_none_or(|best| margin.cost < best.cost) {
                    best = Some(margin);
                }
            }
        }
        let Some(Margin { placed, missing, named, .. }) = best else { return };
        for Placed { label, centre, turn } in placed {
            label.draw(centre, turn, &mut self.marks);
            self.inside.add(&label.box_at(centre, turn));
        }
        for Told { forms, stretch } in missing {
            self.label_outside(&forms, &[stretch], Weight::Regular);
        }
        // A part from the middle of a foundation has no edge to be named along.
        let named = named || (part.is_some() && names.iter().any(|name| self.label_open(name)));
        if !named {
            self.label_outside(names.last().map(std::slice::from_ref).unwrap_or_default(), &edges, Weight::Bold);
        }
    }

    /// What the foundation is called, at length, shorter and shortest. It tells the edition in which it last changed, so that papers that are printed already
    /// look like those that need not be printed anew.
    fn names(&self, part: Option<&Part>) -> [String; 3] {
        let (words, model, variant) = (self.subject.words, self.subject.model, self.subject.variant());
        let title = &model.facts.title;
        let edition = variant.last_changed.as_ref().unwrap_or(&model.facts.edition);
        let name = &self.subject.block().unit_of(variant).name;
        match part {
            Some(part) => {
                let short = words.part_name(&variant.mark, part.number(), part.of());
                [words.part_name_long(&variant.mark, part.number(), part.of(), title, edition), short.clone(), short]
            }
            None if words.foundation(&variant.mark, name) == variant.mark => [
                words.foundation_mark_long(&variant.mark, title, edition),
                words.foundation_mark_middle(&variant.mark, edition),
                words.foundation_name_short(&variant.mark, edition),
            ],
            None => [
                words.foundation_name_long(&variant.mark, name, title, edition),
                words.foundation_name_middle(&variant.mark, name, edition),
                words.foundation_name_short(&variant.mark, edition),
            ],
        }
    }

    /// What the edges meet, the shortest stretch first.
    fn told(&self) -> Vec<Told> {
        let words = self.subject.words;
        let mut stretches = stretches(self.subject.block(), self.subject.variant());
        stretches.sort_by(|a, b| a.segment.length().total_cmp(&b.segment.length()));
        let told = stretches.into_iter().filter_map(|found| {
            let forms = match found.meets {
                Meets::Edge => vec![words.edge_of_block(), words.edge_of_block_short()],
                Meets::Foundations(marks, true) => vec![words.edge_to_more(marks.join(", "))],
                Meets::Foundations(marks, false) => vec![words.edge_to(marks.join(", "))],
            };
            Some(Told { forms, stretch: self.seen(self.printed.apply_to_segment(found.segment))? })
        });
        told.collect()
    }

    /// Everything in the allowance, with what edges meet in type of at most this size.
    fn margin(&self, names: &[String; 3], edges: &[Segment], largest: f64, toward: Toward) -> Margin {
        let mut taken = self.inside.clone();
        let mut placed = Vec::new();
        let mut missing = Vec::new();
        let mut put = |found: Placed, taken: &mut Obstacles| {
            taken.add(&found.label.box_at(found.centre, found.turn));
            placed.push(found);
        };
        let sizes: Vec<f64> = SIZES.into_iter().filter(|&points| points <= largest).collect();
        for told in self.told() {
            // Beyond the ends of its stretch only where it is shorter than the words.
            let tries = [0.0, 1.6].into_iter().flat_map(|past| told.forms.iter().map(move |words| (past, words)));
            let found = tries.into_iter().find_map(|(past, words)| {
                self.along(words, told.stretch, Weight::Regular, &sizes, past, toward, &taken)
            });
            match found {
                Some(found) => put(found, &mut taken),
                None => missing.push(told),
            }
        }
        let [long, middle, short] = names;
        let tries: [(&String, &[f64]); 5] = [
            (long, &[7.0, 6.5, 6.0]),
            (middle, &[7.0, 6.5, 6.0]),
            (long, &[5.5, 5.0]),
            (middle, &[5.5, 5.0, 4.5]),
            (short, &SIZES),
        ];
        let name = (0..).zip(tries).find_map(|(rank, (name, sizes))| {
            let along = |edge: &Segment| self.along(name, *edge, Weight::Bold, sizes, 1.6, Toward::Middle, &taken);
            edges.iter().find_map(along).map(|found| (rank, found))
        });
        let rank = name.as_ref().map_or(8, |(rank, _)| *rank);
        let named = name.is_some();
        if let Some((_, found)) = name {
            put(found, &mut taken);
        }
        Margin { cost: missing.len() * 10 + rank, placed, missing, named }
    }

    /// What of a stretch of the outline lies in the part and is not glued over; nothing where that is next to nothing.
    fn seen(&self, segment: Segment) -> Option<Segment> {
        let line = segment.line()?;
        let chord = self.bare.chord(line, self.tolerance)?;
        let (from, to) = (line.position(chord.start).max(0.0), line.position(chord.end).min(segment.length()));
        (to - from > 0.3 || to - from > segment.length() * 0.9).then(|| Segment::new(line.at(from), line.at(to)))
    }

    /// From the outline into the allowance along one of its edges, of length 1.
    fn outward(&self, along: Vector, on: Point) -> Vector {
        // The allowance lies on the left of an edge that runs clockwise, on the right in a mirrored drawing.
        let right = along.quarter_turned();
        if right.dot(self.cutting.centroid() - on) > 0.0 { -right } else { right }
    }

    /// Where words stand in the allowance along a stretch of the outline: in the largest size and as near as they can to where they would rather
    /// be. Past each end of the stretch they may run so many half allowances.
    #[expect(clippy::too_many_arguments, reason = "one search with all that bounds it")]
    fn along(
        &self,
        words: &str,
        stretch: Segment,
        weight: Weight,
        sizes: &[f64],
        past: f64,
        toward: Toward,
        taken: &Obstacles,
    ) -> Option<Placed> {
        let line = stretch.line()?;
        let outward = self.outward(line.direction(), stretch.middle());
        let allowance = self.subject.model.allowance.to_inches();
        let turn = upright(line.direction().angle().to_degrees());
        for &points in sizes {
            let label = Label::words(words, Length::points(points), weight, Colour::BLACK);
            let free = stretch.length() + past * allowance - label.width;
            if free < 0.02 {
                continue;
            }
            let half = stretch.length() / 2.0;
            let home = match toward {
                Toward::Middle => half,
                Toward::Start => half - free / 2.0 + 0.01,
                Toward::End => half + free / 2.0 - 0.01,
            };
            for depth in DEPTHS {
                let deep = allowance * depth;
                if deep - label.height / 2.0 < 0.02 || deep + label.height / 2.0 > allowance - 0.02 {
                    continue;
                }
                // Where there is room, what stands beside it on the same line is not read as one with it.
                let found = [ASIDE, 0.0].into_iter().find_map(|aside| {
                    let middles = outward_from(home, free).filter(|middle| (middle - half).abs() <= free / 2.0);
                    middles.map(|middle| line.at(middle) + outward * deep).find(|&centre| {
                        let within = |c: &Point| self.visible.holds(*c, self.tolerance) == Some(true);
                        label.box_at(centre, turn).iter().all(within)
                            && taken.are_clear_of(&box_at(centre, label.width + aside, label.height, turn), CLEAR)
                    })
                });
                if let Some(centre) = found {
                    return Some(Placed { label, centre, turn });
                }
            }
        }
        None
    }

    /// Puts words beside the cutting line, along the first of these stretches where they are free and the paper holds them.
    fn label_outside(&mut self, forms: &[String], stretches: &[Segment], weight: Weight) {
        let allowance = self.subject.model.allowance.to_inches();
        for words in forms {
            let label = Label::words(words, Length::points(6.0), weight, Colour::BLACK);
            for reach in [0.04, 0.14, 0.24, 0.4] {
                for stretch in stretches {
                    let Some(line) = stretch.line() else { continue };
                    let outward = self.outward(line.direction(), stretch.middle());
                    for turn in [upright(line.direction().angle().to_degrees()), 0.0] {
                        for shift in [0.0, 0.25, -0.25, 0.5, -0.5] {
                            let half = label.reach(outward, turn);
                            let middle = line.at(stretch.length() * (0.5 + shift));
                            let centre = middle + outward * (allowance + reach + half);
                            let corners = label.box_at(centre, turn);
                            if self.outside.are_clear_of(&corners, 0.02) && self.may_reach(&corners) {
                                let (from, to) = (allowance * 0.75, allowance + reach - 0.01);
                                let leader = Segment::new(middle + outward * from, middle + outward * to);
                                self.marks.push(Path::lines([leader], Stroke::plain(0.3, GREY), Layer::Marks).into());
                                label.draw(centre, turn, &mut self.marks);
                                self.reach_out(&corners);
                                return;
                            }
                        }
                    }
                }
            }
        }
    }
}

/// Places along a stretch, the nearest to one first, no farther from it than this.
fn outward_from(home: f64, far: f64) -> impl Iterator<Item = f64> {
    let steps = (far / STEP).floor().clamp(0.0, 400.0);
    let offsets = (0_u16..=400).map(f64::from).take_while(move |&offset| offset <= steps);
    offsets.flat_map(move |offset| [1.0, -1.0].map(|sign| home + sign * offset * STEP))
}
