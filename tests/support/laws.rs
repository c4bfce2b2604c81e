//! What holds for every model, however it came about. Written from the definitions, not from the code that makes the models.

use piecewright::geometry::{Angle, Length, Point, Polygon, Segment, Tolerance, Transform};
use piecewright::model::{
    Block, Cut, Join, JoinKind, Model, PiecedStrip, Press, PrintDirection, Section, Shape, Tree, Unit, UnitKind,
    Variant,
};

use super::{cloth, nesting};

/// Asserts all laws of a model.
pub fn check_laws(name: &str, model: &Model) {
    for block in &model.blocks {
        let law = Law { name, model, block, near: Tolerance::of_extent(block.width.max(block.height).to_inches()) };
        law.units_tile_the_block();
        law.placements_are_their_units();
        law.the_tree_sews_every_place_once();
        law.joined_edges_have_equal_length();
        nesting::check(name, block, law.near);
        for unit in &block.units {
            law.sections_tile_their_unit(unit);
            law.sections_peel(unit);
            law.needed_regions_are_as_defined(unit);
            unit.sections.iter().for_each(|section| law.strips_tile_their_section(unit, section));
        }
        for variant in &block.variants {
            law.cuts_cover(variant);
            law.cuts_are_counted(variant);
            law.plain_pieces_are_cut_exactly(variant);
        }
    }
    cloth::check(name, model);
}

struct Law<'a> {
    name: &'a str,
    model: &'a Model,
    block: &'a Block,
    near: Tolerance,
}

fn area<'p>(polygons: impl IntoIterator<Item = &'p Polygon>) -> f64 {
    polygons.into_iter().map(Polygon::area).sum()
}

impl Law<'_> {
    fn close(&self, a: f64, b: f64, what: &str) {
        let most = self.near.area();
        assert!(
            (a - b).abs() <= most,
            "{} {}: {what}: {a} and {b} differ by more than {most}",
            self.name,
            self.block.name
        );
    }

    fn disjoint(&self, polygons: &[&Polygon], what: &str) {
        for (i, a) in polygons.iter().enumerate() {
            for b in &polygons[i + 1..] {
                assert!(a.intersection(b, self.near).is_none(), "{} {}: {what} overlap", self.name, self.block.name);
            }
        }
    }

    fn units_tile_the_block(&self) {
        let outlines: Vec<&Polygon> = self.block.placements.iter().map(|place| &place.outline).collect();
        self.close(area(outlines.iter().copied()), self.block.outline.area(), "places do not fill the block");
        self.disjoint(&outlines, "places");
        assert!(outlines.iter().all(|outline| self.block.outline.covers(outline, self.near)), "{}", self.name);
    }

    fn sections_tile_their_unit(&self, unit: &Unit) {
        let sections: Vec<&Polygon> = unit.sections.iter().map(|section| &section.polygon).collect();
        self.close(area(sections.iter().copied()), unit.outline.area(), "sections do not fill their unit");
        self.disjoint(&sections, "sections");
        assert!(sections.iter().all(|section| unit.outline.covers(section, self.near)), "{}", self.name);
    }

    /// Section k lies on one side of its seam, all before it on the other; together they are convex; the seam runs from edge to edge of both.
    fn sections_peel(&self, unit: &Unit) {
        for (k, section) in unit.sections.iter().enumerate() {
            let Some(seam) = section.seam else {
                assert_eq!(k, 0, "{}: only section 1 has no seam", self.name);
                continue;
            };
            let line = seam.line().expect("a seam has length");
            let side = section.polygon.side(line, self.near).expect("the seam does not cross its section");
            let before = &unit.sections[..k];
            for earlier in before {
                assert_eq!(
                    earlier.polygon.side(line, self.near),
                    Some(side.opposite()),
                    "{}: {}",
                    self.name,
                    unit.name
                );
            }
            let all = unit.sections[..=k].iter().map(|section| &section.polygon);
            let hull = Polygon::hull(all.clone().flat_map(|p| p.corners().iter().copied()), self.near).expect("area");
            self.close(hull.area(), area(all), "sections sewn so far are not convex");
            let shared = |polygon: &Polygon| on_line(polygon, seam, self.near);
            self.same_length(shared(&section.polygon), seam.length(), "a section's edge on its seam");
            let there: f64 = before.iter().map(|earlier| shared(&earlier.polygon)).sum();
            self.same_length(there, seam.length(), "what a section is sewn to");
        }
    }

    fn same_length(&self, a: f64, b: f64, what: &str) {
        assert!((a - b).abs() <= 4.0 * self.near.distance(), "{} {}: {what}: {a}, not {b}", self.name, self.block.name);
    }

    /// The needed region reaches no more than one allowance past any line of its extended section, and holds all that lies within an allowance of
    /// the section inside the cutting line.
    fn needed_regions_are_as_defined(&self, unit: &Unit) {
        let allowance = self.model.allowance.to_inches();
        let extended: Vec<&Polygon> = unit.sections.iter().map(|section| &section.extended).collect();
        self.close(
            area(extended.iter().copied()),
            unit.cutting_line.area(),
            "extended sections do not fill the cutting line",
        );
        for section in &unit.sections {
            assert!(section.extended.covers(&section.polygon, self.near), "{}: {}", self.name, unit.name);
            assert!(section.needed.covers(&section.extended, self.near), "{}: {}", self.name, unit.name);
            assert!(unit.cutting_line.covers(&section.needed, self.near), "{}: {}", self.name, unit.name);
            for line in section.extended.edges().filter_map(Segment::line) {
                for &corner in section.needed.corners() {
                    let past = -line.distance_right(corner);
                    assert!(
                        past <= allowance + self.near.distance(),
                        "{}: {past} past a line of {}",
                        self.name,
                        unit.name
                    );
                }
            }
        }
    }

    /// A plain piece is one section, a rectangle; what it needs is its outline and one allowance on every side, and that is what is cut.
    fn plain_pieces_are_cut_exactly(&self, variant: &Variant) {
        let unit = self.block.unit_of(variant);
        if unit.kind == UnitKind::Paper {
            return;
        }
        let at = format!("{} {}", self.name, variant.id);
        assert!(!variant.mirrored && unit.sections.len() == 1, "{at}: one hand, one section");
        let needed = unit.outline.grown(self.model.allowance.to_inches());
        let same = |a: &Polygon, b: &Polygon| a.covers(b, self.near) && b.covers(a, self.near);
        assert!(same(&unit.sections[0].needed, &needed), "{at}: the outline and one allowance");
        for edge in unit.outline.edges() {
            let beside = unit.outline.edges().find(|other| other.start == edge.end).expect("a closed outline");
            let corner = (edge.end - edge.start).dot(beside.end - beside.start);
            assert!(corner.abs() <= self.near.distance() * edge.length().max(beside.length()), "{at}: a rectangle");
        }
        for cut in &variant.cuts {
            let corners = Polygon::try_new(&cut.corners, self.near).expect("a cut has area");
            assert!(same(&corners, &needed), "{at}: cut exactly");
            self.close(cut.width.to_inches() * cut.height.to_inches(), needed.area(), "the cut of a plain piece");
            let upright = self.block.placements.iter().filter(|p| self.block.variants[p.variant].id == variant.id);
            let directed = self.model.fabrics[variant.fabrics[0]].print.direction != PrintDirection::None;
            for place in upright.filter(|_| directed) {
                let slants = place.outline.edges().any(|edge| {
                    let way = edge.end - edge.start;
                    way.x.abs().min(way.y.abs()) > self.near.distance()
                });
                assert!(!slants, "{at}: the print of {} stands upright", place.id);
            }
        }
    }

    /// The strips of a pieced section lie side by side between parallel seams that run right across it; each needs its side of them and one allowance more.
    fn strips_tile_their_section(&self, unit: &Unit, section: &Section) {
        let strips = &section.pieced;
        if strips.is_empty() {
            return;
        }
        let at = format!("{}: {}", self.name, unit.name);
        assert!(strips.len() > 1, "{at}: one strip is no strip");
        let areas: Vec<&Polygon> = strips.iter().map(|strip| &strip.polygon).collect();
        self.close(area(areas.iter().copied()), section.polygon.area(), "strips do not fill their section");
        self.disjoint(&areas, "strips");
        assert!(areas.iter().all(|area| section.polygon.covers(area, self.near)), "{at}");
        let allowance = self.model.allowance.to_inches();
        let mut covered = 0.0;
        for (k, strip) in strips.iter().enumerate() {
            assert_eq!(strip.seam.is_none(), k + 1 == strips.len(), "{at}: a seam between each two strips");
            assert!(section.needed.covers(&strip.needed, self.near), "{at}");
            assert!(strip.needed.covers(&strip.polygon, self.near), "{at}");
            for (seam, side) in seams_of(strips, k) {
                let line = seam.line().expect("a seam has length");
                let first = strips[0].seam.expect("a seam").line().expect("a seam has length");
                assert!(line.direction().cross(first.direction()).abs() < 1e-6, "{at}: seams are parallel");
                self.same_length(on_line(&strip.polygon, seam, self.near), seam.length(), "a strip's edge on its seam");
                let reach = strip.needed.corners().iter().map(|&corner| line.distance_right(corner) * -side);
                let most = reach.fold(f64::NEG_INFINITY, f64::max);
                assert!((most - allowance).abs() <= self.near.distance(), "{at}: one allowance past a seam");
            }
            // Without what overlaps at the seams, the strips need what the section needs.
            let mut own = strip.needed.clone();
            for (seam, side) in seams_of(strips, k) {
                let (left, right) = own.cut(seam.line().expect("a seam has length"), self.near);
                own = if side > 0.0 { right } else { left }.expect("its own side");
            }
            covered += own.area();
        }
        self.close(covered, section.needed.area(), "strips do not need what their section needs");
    }

    fn placements_are_their_units(&self) {
        for place in &self.block.placements {
            let variant = &self.block.variants[place.variant];
            assert_eq!(variant.mirrored, place.transform.is_mirroring(), "{}: hand of {}", self.name, place.id);
            let unit = self.block.unit_of(variant);
            let image = place.transform.apply_to_polygon(&unit.outline);
            assert!(
                image.covers(&place.outline, self.near) && place.outline.covers(&image, self.near),
                "{}",
                self.name
            );
            assert!(
                (place.transform.determinant().abs() - 1.0).abs() < 1e-9,
                "{}: {} keeps its size",
                self.name,
                place.id
            );
        }
    }

    fn the_tree_sews_every_place_once(&self) {
        let mut places = self.block.tree.placements();
        places.sort_unstable();
        assert_eq!(places, (0..self.block.placements.len()).collect::<Vec<_>>(), "{}", self.name);
        let mut done = vec![false; self.block.joins.len()];
        self.walk(&self.block.tree, &mut done);
        assert!(done.iter().all(|done| *done), "{}: every join is in the tree", self.name);
    }

    fn walk(&self, tree: &Tree, done: &mut [bool]) {
        let (join, left, right) = match tree {
            Tree::Unit(_) => return,
            Tree::Join { join, left, right } => (join, left, right),
            Tree::Round { joins, parts } => return self.walk_round(joins, parts, done),
        };
        let sorted = |tree: &Tree| {
            let mut places = tree.placements();
            places.sort_unstable();
            places
        };
        for (part, listed) in [(left, &self.block.joins[*join].left), (right, &self.block.joins[*join].right)] {
            assert_eq!(&sorted(part), listed, "{}", self.name);
            assert!(last_join(part).is_none_or(|earlier| earlier < *join), "{}: parts are sewn before", self.name);
            self.walk(part, done);
        }
        assert!(!std::mem::replace(&mut done[*join], true), "{}: a join is sewn once", self.name);
    }

    /// A ring or an inset corner: all its joins follow one another after those of its parts, and each place is joined.
    fn walk_round(&self, joins: &[usize], parts: &[Tree], done: &mut [bool]) {
        let first = joins[0];
        assert_eq!(joins, (first..first + joins.len()).collect::<Vec<_>>(), "{}", self.name);
        for part in parts {
            assert!(last_join(part).is_none_or(|earlier| earlier < first), "{}: parts are sewn before", self.name);
            self.walk(part, done);
        }
        for &join in joins {
            assert!(!std::mem::replace(&mut done[join], true), "{}: a join is sewn once", self.name);
        }
        let sorted = |parts: &[&Tree]| {
            let mut places: Vec<usize> = parts.iter().flat_map(|part| part.placements()).collect();
            places.sort_unstable();
            places
        };
        let joins: Vec<&Join> = joins.iter().map(|&join| &self.block.joins[join]).collect();
        let joins_just = |join: &Join, a: &[&Tree], b: &[&Tree]| {
            let sides = [sorted(a), sorted(b)];
            sides.contains(&join.left) && sides.contains(&join.right)
        };
        match joins[0].kind {
            JoinKind::Partial { .. } => self.is_a_ring(&joins, parts, joins_just),
            _ => self.is_an_inset_corner(&joins, parts, joins_just),
        }
    }

    /// Each member against the centre and the end of the one before, the first against the last: along the whole of its edge. The first part of the
    /// partial seam lies along the centre alone and leaves the corner open at which the last one comes.
    fn is_a_ring(&self, joins: &[&Join], parts: &[Tree], joins_just: impl Fn(&Join, &[&Tree], &[&Tree]) -> bool) {
        let (centre, round) = parts.split_first().expect("a ring has a centre");
        assert_eq!(joins.len(), round.len(), "{}: a seam for each round the centre", self.name);
        for (k, join) in joins.iter().enumerate() {
            let before = &round[(k + round.len() - 1) % round.len()];
            assert!(joins_just(join, &[&round[k]], &[centre, before]), "{}: what a seam of a ring joins", self.name);
            assert_eq!(k == 0, matches!(join.kind, JoinKind::Partial { .. }), "{}: the first is partial", self.name);
        }
        // All one way round: each toward the one it sews on, or away from it, or open.
        let toward = |k: usize| {
            let own = if joins[k].left.contains(&round[k].placements()[0]) { Press::Left } else { Press::Right };
            (joins[k].press != Press::Open).then_some(joins[k].press == own)
        };
        assert!((0..joins.len()).all(|k| toward(k) == toward(0)), "{}: a ring is pressed one way round", self.name);
        let JoinKind::Partial { first, corner, after, last } = &joins[0].kind else {
            panic!("{}: no first part", self.name)
        };
        assert_eq!(
            *last,
            round
                .last()
                .map(|tree| {
                    let mut places = tree.placements();
                    places.sort_unstable();
                    places
                })
                .expect("some"),
            "{}",
            self.name
        );
        assert!(std::ptr::eq(&raw const self.block.joins[*after], *joins.last().expect("some")), "{}", self.name);
        // Stage one: along it, both the centre and the first have their edge; no other place has.
        let along = |places: &[usize]| -> f64 {
            places.iter().map(|&place| overlap(&self.block.placements[place].outline, *first, self.near)).sum()
        };
        self.same_length(along(&centre.placements()), first.length(), "the centre along a first part");
        self.same_length(along(&round[0].placements()), first.length(), "the first of a ring along its first part");
        self.same_length(along(last), 0.0, "the last of a ring along the first part");
        let seam = joins[0].seam;
        assert!([seam.start, seam.end].iter().any(|end| self.near.is_zero(end.distance(first.start))), "{}", self.name);
        let edge = Segment::new(first.start, *corner);
        let shared: f64 =
            centre.placements().iter().map(|&p| overlap(&self.block.placements[p].outline, edge, self.near)).sum();
        self.same_length(shared, edge.length(), "the centre along its edge");
        // Half of it stays open, and there the last one comes.
        assert!(self.near.is_zero(first.end.distance(first.start.middle(*corner))), "{}: half the edge", self.name);
    }

    /// Three seams from one point to the edge of what they join, each between two of the parts.
    fn is_an_inset_corner(
        &self,
        joins: &[&Join],
        parts: &[Tree],
        joins_just: impl Fn(&Join, &[&Tree], &[&Tree]) -> bool,
    ) {
        let [first, second, third] = parts else { panic!("{}: an inset corner has three parts", self.name) };
        let pairs = [(second, third), (first, second), (first, third)];
        assert_eq!(joins.len(), 3, "{}", self.name);
        let mut points = Vec::new();
        for (join, (a, b)) in joins.iter().zip(pairs) {
            assert!(joins_just(join, &[a], &[b]), "{}: what a seam of an inset corner joins", self.name);
            let JoinKind::Inset { point } = join.kind else { panic!("{}: a seam of an inset corner", self.name) };
            let ends = [join.seam.start, join.seam.end];
            assert!(ends.iter().any(|end| self.near.is_zero(end.distance(point))), "{}: ends in the point", self.name);
            points.push(point);
        }
        assert!(points.iter().all(|point| self.near.is_zero(point.distance(points[0]))), "{}: one point", self.name);
    }

    fn joined_edges_have_equal_length(&self) {
        for join in &self.block.joins {
            let side = |places: &[usize]| -> f64 {
                places.iter().map(|&place| on_line(&self.block.placements[place].outline, join.seam, self.near)).sum()
            };
            self.same_length(side(&join.left), join.seam.length(), "the left edge of a join");
            self.same_length(side(&join.right), join.seam.length(), "the right edge of a join");
            let line = join.seam.line().expect("a join has length");
            let way = join.seam.end - join.seam.start;
            assert!(way.y < 0.0 || way.x > 0.0, "{}: joins run upward, level ones to the right", self.name);
            for (places, wanted) in [(&join.left, -1.0), (&join.right, 1.0)] {
                for &place in places {
                    let distance = line.distance_right(self.block.placements[place].outline.centroid());
                    assert!(distance * wanted > 0.0, "{}: left is left", self.name);
                }
            }
            for point in join.match_points.iter().map(|point| point.at).chain(join.tips.iter().copied()) {
                assert!(self.near.is_zero(join.seam.distance(point)), "{}: match points lie on the join", self.name);
            }
        }
    }

    fn cuts_cover(&self, variant: &Variant) {
        let unit = self.block.unit_of(variant);
        for cut in &variant.cuts {
            let section = &unit.sections[cut.section];
            let at = format!("{} {} section {}", self.name, variant.id, cut.section + 1);
            // A strip is laid along the seam at which it is sewn to its neighbour.
            let strip = cut.strip.map(|strip| &section.pieced[strip]);
            let (needed, seam) = match (strip, cut.strip) {
                (Some(strip), Some(k)) => {
                    let (seam, side) = seams_of(&section.pieced, k)[0];
                    (&strip.needed, Some(if side > 0.0 { seam } else { seam.reversed() }))
                }
                _ => (&section.needed, section.seam),
            };
            assert_eq!(strip.is_none(), section.pieced.is_empty(), "{at}: a cut for each strip");
            let cover = Polygon::try_new(&cut.corners, self.near).expect("a cut has area");
            assert!(cover.covers(needed, self.near), "{at}: the needed region is not covered");
            self.cut_has_its_measures(cut);
            // Under the seam half an allowance counts as enough.
            let half = self.model.allowance.to_inches() / 2.0;
            let mut must = match seam {
                Some(seam) => {
                    let line = seam.line().expect("a seam has length").shifted_right(-half);
                    needed.cut(line, self.near).1.expect("a needed region beyond the seam")
                }
                None => needed.clone(),
            };
            if let Some(k) = cut.strip {
                self.strip_is_cut_along_its_seams(&at, &section.pieced, k, cut);
                if let [_, (after, _)] = seams_of(&section.pieced, k)[..] {
                    let line = after.line().expect("a seam has length").shifted_right(half);
                    must = must.cut(line, self.near).0.expect("a needed region between the seams");
                }
            }
            self.covers_at_the_ends_of_its_slack(&at, cut, variant, seam, &cover, &must);
        }
    }

    /// The sides of a cut follow from its width and height: those of a rectangle, of half or a quarter of a square, of a rectangle with trimmed ends.
    fn cut_has_its_measures(&self, cut: &Cut) {
        let [width, height] = [cut.width, cut.height].map(Length::to_inches);
        let sides: Vec<f64> =
            (0..cut.corners.len()).map(|k| cut.corners[k].distance(cut.corners[(k + 1) % cut.corners.len()])).collect();
        let root = std::f64::consts::SQRT_2;
        match cut.shape {
            Shape::Rectangle => {
                assert_eq!(sides.len(), 4, "{}", self.name);
                self.same_length(sides[0], width, "the width of a cut");
                self.same_length(sides[1], height, "the height of a cut");
            }
            Shape::HalfSquare | Shape::QuarterSquare => {
                self.same_length(width, height, "the side of a square");
                let long = if cut.shape == Shape::HalfSquare { width * root } else { width };
                let mut sorted = sides;
                sorted.sort_by(f64::total_cmp);
                for (side, wanted) in sorted.iter().zip([long / root, long / root, long]) {
                    self.same_length(*side, wanted, "a side of half or a quarter of a square");
                }
            }
            Shape::Trapezoid { trim: [left, right] } => {
                let [left, right] = [left, right].map(Length::to_inches);
                self.same_length(sides[0], width - (-left).max(0.0) - (-right).max(0.0), "the edge along the seam");
                self.same_length(sides[2], width - left.max(0.0) - right.max(0.0), "the other edge");
                // Two ends of a height, each as slanting as it is trimmed.
                let mut ends = [sides[1], sides[3]];
                let mut wanted = [left, right].map(|trim| libm::hypot(height, trim));
                ends.sort_by(f64::total_cmp);
                wanted.sort_by(f64::total_cmp);
                for (end, wanted) in ends.into_iter().zip(wanted) {
                    self.same_length(end, wanted, "an end of a trapezoid");
                }
            }
        }
    }

    /// Of a strip's cut, an edge lies one allowance past each of its seams; all strips of a section are equally long.
    fn strip_is_cut_along_its_seams(&self, at: &str, strips: &[PiecedStrip], k: usize, cut: &Cut) {
        let allowance = self.model.allowance.to_inches();
        let cover = Polygon::try_new(&cut.corners, self.near).expect("a cut has area");
        for (seam, side) in seams_of(strips, k) {
            let line = seam.line().expect("a seam has length");
            let past: Vec<f64> =
                cut.corners.iter().map(|&corner| line.distance_right(corner) * side + allowance).collect();
            let on = past.iter().filter(|past| past.abs() <= self.near.distance()).count();
            assert!(on == 2 && past.iter().all(|&past| past >= -self.near.distance()), "{at}: {past:?}");
            for other in strips.iter().filter(|other| !std::ptr::eq(*other, &raw const strips[k])) {
                let way = line.direction();
                let (from, to) = cover.extent(way);
                let (a, b) = other.needed.extent(way);
                assert!(from <= a && b <= to, "{at}: as long as its neighbours");
            }
        }
    }

    fn covers_at_the_ends_of_its_slack(
        &self,
        at: &str,
        cut: &Cut,
        variant: &Variant,
        seam: Option<Segment>,
        cover: &Polygon,
        must: &Polygon,
    ) {
        let ends = seam.unwrap_or(Segment::new(cut.corners[0], cut.corners[1]));
        let line = ends.line().expect("a seam has length");
        let along = line.direction();
        let into = along.quarter_turned();
        // Seen from the printed side with the section beyond the line, the start of the seam is on the left, unless the unit is mirrored.
        let [toward_start, toward_end] =
            if variant.mirrored { [cut.slack.along[1], cut.slack.along[0]] } else { cut.slack.along };
        let middle = seam.map_or_else(|| must.centroid(), Segment::middle);
        let shift =
            |by: Length, sign: f64, way: piecewright::geometry::Vector| Transform::shift(way * (by.to_inches() * sign));
        let turn = |by: Angle, sign: f64| Transform::turn(Angle::degrees(by.to_degrees() * sign), middle);
        let [less, more] = cut.slack.turn;
        for (what, map) in [
            ("slid left", shift(toward_start, -1.0, along)),
            ("slid right", shift(toward_end, 1.0, along)),
            ("slid in", shift(cut.slack.across[0], -1.0, into)),
            ("slid out", shift(cut.slack.across[1], 1.0, into)),
            ("turned anticlockwise", turn(less, -1.0)),
            ("turned clockwise", turn(more, 1.0)),
        ] {
            assert!(
                map.apply_to_polygon(cover).covers(must, self.near),
                "{at}: {what} as far as its slack, it does not cover"
            );
        }
        if let Some([left, right]) = cut.overhang {
            let [at_start, at_end] = if variant.mirrored { [right, left] } else { [left, right] };
            for (end, reach, way) in [(ends.start, at_start, -along), (ends.end, at_end, along)] {
                let tip: Point = end + way * reach.to_inches();
                let inside = cover.holds(tip, self.near);
                assert!(inside.is_none(), "{at}: the overhang ends on the edge of the cut");
            }
        }
    }

    /// Whether a cut stands upright or level in the block wherever the foundation is turned as it says.
    fn on_grain(&self, cut: &Cut, variant: &Variant) -> bool {
        let places = self
            .block
            .placements
            .iter()
            .filter(|place| std::ptr::eq(&raw const self.block.variants[place.variant], variant));
        places.map(|place| place.transform.apply_to_vector(cut.up)).any(|up| up.x.abs().min(up.y.abs()) < 1e-6)
    }

    fn cuts_are_counted(&self, variant: &Variant) {
        let unit = self.block.unit_of(variant);
        let placed =
            self.block.placements.iter().filter(|p| std::ptr::eq(&raw const self.block.variants[p.variant], variant));
        assert_eq!(variant.sewn as usize, placed.count() * self.block.copies as usize, "{}: {}", self.name, variant.id);
        for (k, section) in unit.sections.iter().enumerate() {
            let strips: Vec<Option<usize>> =
                if section.pieced.is_empty() { vec![None] } else { (0..section.pieced.len()).map(Some).collect() };
            for strip in strips {
                let cuts: Vec<&Cut> =
                    variant.cuts.iter().filter(|cut| (cut.section, cut.strip) == (k, strip)).collect();
                assert_eq!(
                    cuts.iter().map(|cut| cut.count).sum::<u32>(),
                    variant.sewn,
                    "{}: {}",
                    self.name,
                    variant.id
                );
                let fabric = variant.fabric_of(k, strip).expect("every piece has a fabric");
                // A fabric that may be turned at will is cut in one way, but where the block's grain or a motif decides.
                let print = self.model.fabrics[fabric].print.direction;
                let one_way =
                    cuts.len() == 1 || cuts.iter().all(|cut| cut.motif.is_some() || self.on_grain(cut, variant));
                assert!(print != PrintDirection::None || one_way, "{}: {}", self.name, variant.id);
            }
        }
    }
}

/// The last join that a part takes.
fn last_join(tree: &Tree) -> Option<usize> {
    match tree {
        Tree::Unit(_) => None,
        Tree::Join { join, .. } => Some(*join),
        Tree::Round { joins, .. } => joins.last().copied(),
    }
}

/// How much of a polygon's outline lies on a segment itself.
fn overlap(polygon: &Polygon, segment: Segment, near: Tolerance) -> f64 {
    let line = segment.line().expect("a seam has length");
    let on = |point: Point| near.is_zero(line.distance_right(point));
    let edges = polygon.edges().filter(|edge| on(edge.start) && on(edge.end));
    let within = |edge: Segment| {
        let (a, b) = (line.position(edge.start), line.position(edge.end));
        (a.max(b).min(segment.length()) - a.min(b).max(0.0)).max(0.0)
    };
    edges.map(within).sum()
}

/// The seams of a strip, each with the side on which the strip lies: 1 for the right.
fn seams_of(strips: &[PiecedStrip], k: usize) -> Vec<(Segment, f64)> {
    let before = k.checked_sub(1).and_then(|before| strips[before].seam).map(|seam| (seam, 1.0));
    before.into_iter().chain(strips[k].seam.map(|seam| (seam, -1.0))).collect()
}

/// How much of a polygon's outline lies on a segment's line.
fn on_line(polygon: &Polygon, segment: Segment, near: Tolerance) -> f64 {
    let line = segment.line().expect("a seam has length");
    let on = |point: Point| near.is_zero(line.distance_right(point));
    polygon.edges().filter(|edge| on(edge.start) && on(edge.end)).map(Segment::length).sum()
}
