//! The words that sheets, foundations and figures print, in one place.

/// The line in a foundation's allowance, from the fullest to the shortest that will do.
pub fn foundation_names(mark: &str, unit: &str, title: &str, edition: &str) -> [String; 3] {
    [
        format!("{mark}  ·  {unit}  ·  {title}, edition {edition}"),
        format!("{mark}  ·  {unit}  ·  edition {edition}"),
        format!("{mark}  ·  ed. {edition}"),
    ]
}

/// What an edge meets.
pub fn to_foundations(marks: &[String], more: bool) -> String {
    let marks = marks.join(", ");
    if more { format!("to {marks} …") } else { format!("to {marks}") }
}

/// An edge that meets nothing.
pub fn edge_of_block() -> String {
    "edge of block".to_owned()
}

/// The name of one part of a foundation that is larger than the page.
pub fn part(mark: &str, number: usize, of: usize) -> String {
    format!("{mark}  ·  part {number} of {of}")
}

/// In the strip of one part over which another is glued.
pub fn glue_here(number: usize) -> String {
    format!("glue part {number} here, up to the dashed line")
}

/// The edge of a part that is cut before it is glued.
pub fn cut_here() -> String {
    "cut along this line".to_owned()
}

/// Title of a sheet, for bookmarks.
pub fn sheet_title(number: usize, of: usize) -> String {
    format!("Sheet {number} of {of}")
}

/// Which sheet it is.
pub fn sheet_number(number: usize, of: usize) -> String {
    format!("sheet {number} of {of}")
}

/// The line below a sheet's title.
pub fn sheet_edition(edition: &str, size: &str) -> String {
    format!("edition {edition}  ·  {size}")
}

/// How often to print it.
pub fn print_times(times: u32) -> String {
    match times {
        1 => "print once".to_owned(),
        2 => "print twice".to_owned(),
        _ => format!("print {times} times"),
    }
}

/// Which side to sew on.
pub fn sew_this_side() -> String {
    "Sew on this printed side; the fabric lies on the other. The drawing is the mirror image of the front.".to_owned()
}

/// How to check the print.
pub fn print_at_size() -> String {
    "Print at 100 %, not “fit to page”. Measure the square, and the bar at the foot of the page.".to_owned()
}

/// In the square by which the print is checked.
pub fn one_inch() -> String {
    "1 in".to_owned()
}

/// So many inches, at the end of a bar.
pub fn inches(number: u32) -> String {
    format!("{number} in")
}

/// So many centimetres, at the end of a bar.
pub fn centimetres(number: u32) -> String {
    format!("{number} cm")
}

/// On foundations that are shown smaller than they are.
pub fn not_to_size() -> String {
    "not to size – do not sew on this".to_owned()
}
