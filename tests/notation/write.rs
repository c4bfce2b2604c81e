//! Writes a tree back as a source, one way for each node: what was read must come out again.
#![expect(clippy::format_collect, clippy::format_push_string, reason = "speed does not matter here")]

use piecewright::notation::source::Spanned;
use piecewright::notation::syntax::*;

pub fn file(file: &File) -> String {
    file.items.iter().map(|entry| item(&entry.value)).collect()
}

fn item(item: &Item) -> String {
    match item {
        Item::Title(text) => format!("pattern {}\n", quote(text)),
        Item::Edition(text) => format!("edition {}\n", quote(text)),
        Item::Author(text) => format!("author {}\n", quote(text)),
        Item::Date(date) => format!("date {:04}-{:02}-{:02}\n", date.value.year, date.value.month, date.value.day),
        Item::Licence(text) => format!("licence {}\n", quote(text)),
        Item::Finished(size) => format!("finished {}\n", finished(size)),
        Item::Sizes(sizes) => format!("sizes {}\n", list(sizes, ", ", finished)),
        Item::Allowance(size) => format!("allowance {}\n", length(size)),
        Item::Ease(line) => ease(line),
        Item::Cut(line) => cut(line),
        Item::TurnSlack(degrees) => format!("turn-slack {} deg\n", degrees.value),
        Item::Cloth(line) => {
            let stock = match &line.stock {
                ClothStock::Widths(widths) => list(widths, ", ", length),
                ClothStock::Word(word) => word.value.clone(),
            };
            let fabric = line.fabric.as_ref().map_or(String::new(), |key| format!(" for {}", key.value));
            format!("cloth {stock}{fabric}\n")
        }
        Item::Squaring(taken) => format!("squaring {}\n", length(taken)),
        Item::Shrinkage(part) => format!("shrinkage {} %\n", part.value),
        Item::Cutting(plan) => format!("cutting {}\n", plan.value),
        Item::Have(line) => {
            let piece = match &line.piece {
                HavePiece::Length(along) => length(along),
                HavePiece::Scrap(across, along) => format!("{} x {}", length(across), length(along)),
                HavePiece::FatQuarters(count) => format!("{} fat-quarters", count.value),
                HavePiece::FatEighths(count) => format!("{} fat-eighths", count.value),
            };
            format!("have {piece} {}\n", line.fabric.value)
        }
        Item::Paper(papers) => format!("paper {}\n", list(papers, ", ", |name| name.value.clone())),
        Item::Sheets(wishes) => format!("sheets {}\n", list(wishes, ", ", |wish| sheets_wish(&wish.value))),
        Item::Language(name) => format!("language {}\n", name.value),
        Item::Wishes(wishes) => format!("wishes {}\n", list(wishes, ", ", |name| name.value.clone())),
        Item::Skill(text) => format!("skill {}\n", quote(text)),
        Item::Contact(text) => format!("contact {}\n", quote(text)),
        Item::Report(text) => format!("report {}\n", quote(text)),
        Item::About(text) => format!("about {}\n", quote(text)),
        Item::Tool(text) => format!("tool {}\n", quote(text)),
        Item::History(history) => {
            let date = history.date.as_ref().map(|date| date.value);
            let date = date.map_or(String::new(), |d| format!(" {:04}-{:02}-{:02}", d.year, d.month, d.day));
            format!("history {}{date} {}\n", quote(&history.edition), quote(&history.words))
        }
        Item::Logo(picture) => format!("logo {} {}\n", quote(&picture.path), quote(&picture.shows)),
        Item::Photo(picture) => format!("photo {} {}\n", quote(&picture.path), quote(&picture.shows)),
        Item::Colouring(colouring) => {
            let exchanges = list(&colouring.exchanges, ", ", |(a, b)| format!("{} as {}", a.value, b.value));
            format!("colouring {} {} with {exchanges}\n", colouring.key.value, quote(&colouring.title))
        }
        Item::Fabric(fabric) => {
            let [red, green, blue] = fabric.colour.value;
            let print: String = fabric.print.iter().map(|word| format!(" {}", word.value)).collect();
            let (key, name) = (&fabric.key.value, quote(&fabric.name));
            format!("fabric {key} {name} #{red:02x}{green:02x}{blue:02x}{print}\n")
        }
        Item::Use(text) => format!("use {}\n", quote(text)),
        Item::Measure(value) => measure(value),
        Item::Note(value) => note(value),
        Item::Allow(value) => allow(value),
        Item::Block(block) => {
            let grid = match &block.grid.value {
                Grid::Rectangle(width, height) => format!("{} x {}", width.value, height.value),
                Grid::Regular { figure, side } => format!("{} side {}", figure.value, side.value),
            };
            let items: String = block.items.iter().map(|entry| block_item(&entry.value)).collect();
            format!("block {} {grid} {{\n{items}}}\n", block.name.value)
        }
    }
}

fn block_item(item: &BlockItem) -> String {
    match item {
        BlockItem::Finished(size) => format!("finished {}\n", finished(size)),
        BlockItem::Copies(count) => format!("copies {}\n", count.value),
        BlockItem::Outline(value) => format!("outline {}\n", path(value)),
        BlockItem::Point(value) => point_line(value),
        BlockItem::Row(value) => row(value),
        BlockItem::Measure(value) => measure(value),
        BlockItem::Unit(unit) => {
            let apart = if unit.apart.is_some() { " apart" } else { "" };
            let items: String = unit.items.iter().map(|entry| unit_item(&entry.value)).collect();
            format!("unit {}{apart} {{\n{items}}}\n", unit.name.value)
        }
        BlockItem::Place(place) => {
            let name = place.name.as_ref().map_or(String::new(), |name| format!(" as {}", name.value));
            let changes: String = place.changes.iter().map(|entry| format!(" {}", change(&entry.value))).collect();
            format!("place {}{name}{changes}\n", place.unit.value)
        }
        BlockItem::Join(join) => {
            let name = join.name.as_ref().map_or(String::new(), |name| format!(" as {}", name.value));
            let press = match join.press.as_ref().map(|press| &press.value) {
                Some(Pressing::Open) => " pressed open".to_owned(),
                Some(Pressing::Toward(toward)) => format!(" pressed toward {}", place_ref(toward)),
                None => String::new(),
            };
            let word = match join.kind {
                JoinKind::Straight => "join",
                JoinKind::Partial => "partial",
                JoinKind::Inset => "inset",
            };
            format!("{word} {}{name}{press}\n", list(&join.members, " ", place_ref))
        }
        BlockItem::Note(value) => note(value),
        BlockItem::Step(value) => step(value),
        BlockItem::Allow(value) => allow(value),
        BlockItem::Patch { fabric, shape: area } => format!("patch {} {}\n", fabric.value, shape(area)),
        BlockItem::Plain(plain) => format!("plain {} {} {}\n", plain.name.value, plain.fabric.value, path(&plain.path)),
        BlockItem::SeamLine(value) => format!("seam {}\n", line(value)),
        BlockItem::UnitName { name, point: at } => format!("unit {} around {}\n", name.value, point(at)),
    }
}

fn unit_item(item: &UnitItem) -> String {
    match item {
        UnitItem::Outline(value) => format!("outline {}\n", path(value)),
        UnitItem::Point(value) => point_line(value),
        UnitItem::Row(value) => row(value),
        UnitItem::Measure(value) => measure(value),
        UnitItem::Section(section) => {
            format!("{} {} {}\n", section.number.value, section.fabric.value, shape(&section.shape))
        }
        UnitItem::Pieced(pieced) => {
            let around = pieced.around.as_ref().map_or(String::new(), |at| format!(" around {}", point(at)));
            let (number, fabric) = (pieced.number.value, &pieced.fabric.value);
            format!("pieced {number} {fabric} beyond {}{around}\n", line(&pieced.line))
        }
        UnitItem::Strips(strips) => format!(
            "strips {} to {} {} from {} to {}\n",
            strips.first.value,
            strips.last.value,
            list(&strips.fabrics, ", ", |name| name.value.clone()),
            line(&strips.from),
            line(&strips.to),
        ),
        UnitItem::Sewn(count) => format!("sewn {}\n", count.value),
        UnitItem::UpUnit => "up unit\n".to_owned(),
        UnitItem::Note(value) => note(value),
        UnitItem::Step(value) => step(value),
        UnitItem::Cut(value) => cut(value),
        UnitItem::Ease(value) => ease(value),
        UnitItem::Fussy(value) => {
            let at = value.at.as_ref().map_or(String::new(), |at| format!(" at {}", point(at)));
            format!("fussy for {}{at}\n", value.number.value)
        }
        UnitItem::Allow(value) => allow(value),
    }
}

fn list<T>(values: &[T], between: &str, write: impl Fn(&T) -> String) -> String {
    values.iter().map(write).collect::<Vec<_>>().join(between)
}

fn quote(text: &Text) -> String {
    format!("\"{}\"", text.value.replace('\\', "\\\\").replace('"', "\\\""))
}

fn length(length: &PhysicalLength) -> String {
    let unit = match length.unit {
        LengthUnit::Inch => "in",
        LengthUnit::Yard => "yd",
        LengthUnit::Centimetre => "cm",
        LengthUnit::Millimetre => "mm",
    };
    format!("{} {unit}", length.number.value)
}

fn finished(finished: &Finished) -> String {
    match &finished.size {
        FinishedSize::Square(side) => length(side),
        FinishedSize::Rectangle(width, height) => format!("{} x {}", length(width), length(height)),
        FinishedSize::Side(side) => format!("side {}", length(side)),
    }
}

fn measure(measure: &Measure) -> String {
    let value = match &measure.value {
        MeasureValue::Sum(value) => sum(value),
        MeasureValue::Distance(a, b) => format!("distance {}", through(a, b)),
    };
    format!("measure {} {value}\n", measure.name.value)
}

fn sum(value: &Sum) -> String {
    let term = |term: &Term| {
        let sign = if term.negative { "-" } else { "" };
        match &term.value {
            TermValue::Number(number) => format!("{sign}{number}"),
            TermValue::Measure(name) => format!("{sign}{name}"),
        }
    };
    let mut all = term(&value.first);
    for (operator, next) in &value.rest {
        let sign = match operator {
            Operator::Plus => '+',
            Operator::Minus => '-',
            Operator::Times => '*',
            Operator::Over => '/',
        };
        all += &format!(" {sign} {}", term(next));
    }
    all
}

fn coordinates(at: &Coordinates) -> String {
    format!("{}, {}", sum(&at.x), sum(&at.y))
}

fn point(point: &PointRef) -> String {
    match point {
        PointRef::Named(name) => name.value.clone(),
        PointRef::At(at) => coordinates(at),
    }
}

fn through(a: &PointRef, b: &PointRef) -> String {
    format!("{} -- {}", point(a), point(b))
}

fn line(line: &LineRef) -> String {
    match &line.value {
        LineValue::Through(a, b) => through(a, b),
        LineValue::Upright(x) => format!("upright {}", sum(x)),
        LineValue::Level(y) => format!("level {}", sum(y)),
    }
}

fn path(path: &Path) -> String {
    list(&path.points, " -- ", point)
}

fn shape(shape: &Shape) -> String {
    match shape {
        Shape::Polygon(value) => path(value),
        Shape::Beyond(value) => format!("beyond {}", line(value)),
        Shape::Around(value) => format!("around {}", point(value)),
    }
}

fn point_line(definition: &PointDefinition) -> String {
    let angle = |angle: &Angle| format!("{} deg", sum(&angle.value));
    let construction = match &definition.construction {
        Construction::At(at) => coordinates(at),
        Construction::Same(name) => name.value.clone(),
        Construction::Middle(a, b) => format!("middle {}", through(a, b)),
        Construction::Along(part, a, b) => format!("{} along {}", sum(part), through(a, b)),
        Construction::Toward(steps, a, b) => format!("{} from {} toward {}", sum(steps), point(a), point(b)),
        Construction::Bearing(steps, a, at) => format!("{} from {} at {}", sum(steps), point(a), angle(at)),
        Construction::Moved(a, by) => format!("{} moved {}", point(a), coordinates(by)),
        Construction::Mirror(a, over) => format!("mirror {} over {}", point(a), line(over)),
        Construction::Turn(a, by, about) => format!("turn {} by {} about {}", point(a), angle(by), point(about)),
        Construction::Meet(a, b) => format!("meet {} and {}", line(a), line(b)),
        Construction::Foot(a, on) => format!("foot {} on {}", point(a), line(on)),
    };
    format!("point {} {construction}\n", definition.name.value)
}

fn row(row: &RowDefinition) -> String {
    let spread = match &row.spread {
        Spread::Line(a, b) => format!("from {} to {}", point(a), point(b)),
        Spread::Circle { centre, first } => format!("round {} from {}", point(centre), point(first)),
    };
    format!("points {} {} {spread}\n", row.name.value, row.count.value)
}

fn change(change: &Change) -> String {
    match change {
        Change::Moved(by) => format!("moved {}", coordinates(by)),
        Change::Turned(by, about) => format!("turned {} deg about {}", sum(&by.value), point(about)),
        Change::Mirrored(over) => format!("mirrored over {}", line(over)),
        Change::Recoloured(pairs) => {
            format!("with {}", list(pairs, ", ", |(a, b)| format!("{} as {}", a.value, b.value)))
        }
        Change::Round(count, about) => format!("{} in all round {}", count.value, point(about)),
        Change::Every(count, by) => format!("{} in all every {}", count.value, coordinates(by)),
    }
}

fn place_ref(place: &PlaceRef) -> String {
    let number = place.number.as_ref().map_or(String::new(), |number| format!("#{}", number.value));
    format!("{}{number}", place.name.value)
}

fn target(target: &Target) -> String {
    match target {
        Target::Section(number) => number.value.to_string(),
        Target::Join(name) => name.value.clone(),
    }
}

fn cut_for(target: Option<&CutFor>) -> String {
    match target {
        None => String::new(),
        Some(CutFor::Section(number)) => format!(" for {}", number.value),
        Some(CutFor::Fabric(key)) => format!(" for {}", key.value),
    }
}

fn cut(line: &CutLine) -> String {
    format!("cut {}{}\n", list(&line.words, ", ", |word| word.value.clone()), cut_for(line.target.as_ref()))
}

fn ease(line: &EaseLine) -> String {
    let size = match &line.size {
        EaseSize::Length(size) => length(size),
        EaseSize::Word(word) => word.value.clone(),
    };
    format!("ease {size}{}\n", cut_for(line.target.as_ref()))
}

fn note(note: &Note) -> String {
    let on = note.target.as_ref().map_or(String::new(), |on| format!("on {} ", target(on)));
    format!("note {on}{}\n", quote(&note.text))
}

fn step(step: &OwnStep) -> String {
    format!("step for {} {}\n", target(&step.target), quote(&step.text))
}

fn allow(allow: &Allow) -> String {
    let on = allow.target.as_ref().map_or(String::new(), |on| format!(" on {}", target(on)));
    format!("allow {}{on}\n", allow.code.value)
}

fn sheets_wish(wish: &SheetsWish) -> String {
    match wish {
        SheetsWish::On(media) => {
            let medium = |medium: &Spanned<SheetMedium>| match &medium.value {
                SheetMedium::Paper(name) => name.value.clone(),
                SheetMedium::Roll(width, None) => format!("roll {}", length(width)),
                SheetMedium::Roll(width, Some(longest)) => format!("roll {} x {}", length(width), length(longest)),
            };
            format!("on {}", list(media, " or ", medium))
        }
        SheetsWish::Margin(margin) => format!("margin {}", length(margin)),
        SheetsWish::Gap(gap) => format!("gap {}", length(gap)),
        SheetsWish::FewestDifferent(part) => format!("fewest-different within {} %", part.value),
        SheetsWish::Word(word) => word.value.clone(),
    }
}
