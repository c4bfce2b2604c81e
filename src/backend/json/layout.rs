//! How the JSON is laid out: one key a line, runs of numbers on one line, so that a line diff of two models reads as a change of the pattern.

use std::io::{Result, Write};

use serde_json::ser::Formatter;

/// Two blanks a level.
#[derive(Default)]
pub(super) struct Layout {
    /// For each open list or object, what it holds.
    open: Vec<Holds>,
    /// A value of a list is about to be written; whether it is the first.
    pending: Option<bool>,
}

/// What an open list or object holds so far.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Holds {
    Nothing,
    OneLine,
    Lines,
}

impl Layout {
    fn new_line<W: ?Sized + Write>(&self, writer: &mut W) -> Result<()> {
        writer.write_all(b"\n")?;
        (0..self.open.len()).try_for_each(|_| writer.write_all(b"  "))
    }

    /// Separates a value of a list from what stands before it, now that it is known whether it is short.
    fn settle<W: ?Sized + Write>(&mut self, writer: &mut W, short: bool) -> Result<()> {
        let Some(first) = self.pending.take() else { return Ok(()) };
        if !first {
            writer.write_all(b",")?;
        }
        if short {
            if !first {
                writer.write_all(b" ")?;
            }
        } else {
            self.new_line(writer)?;
        }
        if let Some(holds) = self.open.last_mut()
            && (first || !short)
        {
            *holds = if short { Holds::OneLine } else { Holds::Lines };
        }
        Ok(())
    }

    fn close<W: ?Sized + Write>(&mut self, writer: &mut W, bracket: u8) -> Result<()> {
        if self.open.pop() == Some(Holds::Lines) {
            self.new_line(writer)?;
        }
        writer.write_all(&[bracket])
    }
}

/// Numbers stand beside each other in a list; everything else takes a line.
macro_rules! short_values {
    ($($method:ident: $number:ty;)*) => {$(
        fn $method<W: ?Sized + Write>(&mut self, writer: &mut W, value: $number) -> Result<()> {
            self.settle(writer, true)?;
            write!(writer, "{value}")
        }
    )*};
}

impl Formatter for Layout {
    short_values! { write_u32: u32; write_u64: u64; }

    fn write_f64<W: ?Sized + Write>(&mut self, writer: &mut W, value: f64) -> Result<()> {
        self.settle(writer, true)?;
        // Rust prints the shortest decimals that read back as the same number, never an exponent.
        write!(writer, "{value}")
    }

    fn begin_string<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.settle(writer, false)?;
        writer.write_all(b"\"")
    }

    fn begin_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.settle(writer, false)?;
        self.open.push(Holds::Nothing);
        writer.write_all(b"[")
    }

    fn end_array<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.close(writer, b']')
    }

    fn begin_array_value<W: ?Sized + Write>(&mut self, _: &mut W, first: bool) -> Result<()> {
        self.pending = Some(first);
        Ok(())
    }

    fn begin_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.settle(writer, false)?;
        self.open.push(Holds::Nothing);
        writer.write_all(b"{")
    }

    fn end_object<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        self.close(writer, b'}')
    }

    fn begin_object_key<W: ?Sized + Write>(&mut self, writer: &mut W, first: bool) -> Result<()> {
        if !first {
            writer.write_all(b",")?;
        }
        if let Some(holds) = self.open.last_mut() {
            *holds = Holds::Lines;
        }
        self.new_line(writer)
    }

    fn begin_object_value<W: ?Sized + Write>(&mut self, writer: &mut W) -> Result<()> {
        writer.write_all(b": ")
    }
}

#[cfg(test)]
mod tests {
    use serde::Serialize;

    use super::Layout;

    #[test]
    fn numbers_share_a_line_and_the_rest_takes_lines() {
        let value = serde_json::json!({"a": [[0.5, 1.25], [2.0, -3.0]], "b": [], "c": {}, "d": ["x", "y"], "e": [null, {"f": true}], "g": [7u32]});
        let mut bytes = Vec::new();
        value.serialize(&mut serde_json::Serializer::with_formatter(&mut bytes, Layout::default())).unwrap();
        let text = String::from_utf8(bytes).unwrap();
        let expected = "{\n  \"a\": [\n    [0.5, 1.25],\n    [2, -3]\n  ],\n  \"b\": [],\n  \"c\": {},\n  \"d\": [\n    \"x\",\n    \"y\"\n  ],\n  \"e\": [null,\n    {\n      \"f\": true\n    }\n  ],\n  \"g\": [7]\n}";
        assert_eq!(text, expected);
        assert_eq!(serde_json::from_str::<serde_json::Value>(&text).unwrap()["a"][1][1], -3);
    }
}
