//! What the packet is written as: the display list or the model → bytes. Nothing is decided here.

pub mod csv;
pub mod html;
pub mod json;
pub mod markdown;
mod number;
pub mod pdf;
#[cfg(test)]
pub(crate) mod schema;
pub mod svg;
pub mod text;

/// A word or a line without control characters, which no format here can carry; each becomes a blank.
fn without_controls(words: &str) -> String {
    words.chars().map(|letter| if letter.is_control() { ' ' } else { letter }).collect()
}

#[cfg(test)]
mod tests {
    use crate::geometry::{Length, Point, Segment};
    use crate::packet::page::{Align, Colour, Item, Layer, Page, Path, Stroke, Text, Weight, Window};

    /// A page with one of everything.
    pub(super) fn sample_page() -> Page {
        let square = [Point::new(1.0, 1.0), Point::new(2.0, 1.0), Point::new(2.0, 2.0), Point::new(1.0, 2.0)];
        let line = Segment::new(Point::new(0.0, 3.5), Point::new(8.0, 3.5));
        let text = |x: f64, y: f64, words: &str, turn: f64, align: Align, weight: Weight| {
            Item::Text(Text {
                at: Point::new(x, y),
                words: words.to_owned(),
                size: Length::points(12.0),
                weight,
                colour: Colour::BLACK,
                align,
                turn,
                layer: Layer::Marks,
            })
        };
        let items = vec![
            Path::area(&square, Some(Colour([200, 40, 40])), Some(Stroke::plain(1.0, Colour::BLACK)), Layer::Fabric)
                .into(),
            Path::circle(Point::new(3.5, 1.5), 0.5, None, Some(Stroke::plain(0.5, Colour::grey(90))), Layer::Seams)
                .into(),
            text(1.0, 5.0, "1½ × 2 <in>", 0.0, Align::Start, Weight::Regular),
            text(4.0, 5.0, "Möwe → B3", 90.0, Align::Middle, Weight::Bold),
            Item::Window(Window {
                corner: Point::new(1.0, 3.0),
                width: Length::inches(2.0),
                height: Length::inches(1.0),
                items: vec![
                    Path::lines([line], Stroke::plain(2.0, Colour::BLACK).dashed(&[4.0, 2.0]), Layer::Cutting).into(),
                ],
            }),
        ];
        Page {
            width: Length::inches(8.5),
            height: Length::inches(11.0),
            title: "Gulls & buoys".to_owned(),
            description: "a square, a circle and two lines of text".to_owned(),
            items,
        }
    }
}
