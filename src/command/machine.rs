//! `piecewright machine`: a unit, or all pieces of a fabric, for a cutting machine.

use std::fs;
use std::io::{ErrorKind, Read as _};
use std::path::{Path, PathBuf};

use piecewright::backend::svg::{Colours, MADE_BY};
use piecewright::geometry::Length;
use piecewright::packet::mats::SideUp;
use piecewright::packet::page::Colour;
use piecewright::{MachineAsked, Machined, Options, Stuff};

use super::arguments::{Format, Machine};
use super::input::{self, Content};
use super::shelf::Folder;
use super::show::{self, Judged};
use super::voice::{Screen, Voice};
use super::{Outcome, Trouble, reason};

/// What the name of a drawing ends in, and while it is written.
const ENDING: &str = "svg";
const UNFINISHED: &str = "piecewright";
/// How much of a file is looked at to find out who made it.
const HEAD: u64 = 1024;

/// Lays out mats and writes a drawing of each, all of them or none.
pub fn run(asked: &Machine, voice: &mut Voice) -> Result<Outcome, Trouble> {
    let target = target(asked)?;
    let input = input::read(&asked.file)?;
    let folder = asked.reading.project.clone().unwrap_or_else(|| input.folder.clone());
    let shelf = Folder::open(&folder)?;
    let (judged, drawings, pieces) = match input.content {
        Content::Text(text) => {
            let made = piecewright::machine(&input.name, &text, &shelf, &options(asked), &wanted(asked)?);
            let Machined { sources, faults, drawings, pieces } = made;
            (Judged { sources, faults, folder }, drawings, pieces)
        }
        Content::Unfit(sources, fault) => (Judged { sources, faults: vec![fault], folder }, None, 0),
    };
    let is_json = asked.showing.format == Format::Json;
    let shown = show::render(&[judged], &asked.showing, Screen::error(asked.showing.color));
    let outcome = shown.outcome(asked.showing.deny_warnings);
    // What the drawing does not rest on is told where it is built.
    if outcome != Outcome::Fine || is_json {
        voice.tell(&shown.text);
        if !asked.showing.quiet && !is_json {
            voice.tell(&shown.closing());
        }
    }
    let Some(drawings) = drawings.filter(|_| outcome == Outcome::Fine) else { return Ok(outcome) };
    match (&target, drawings.as_slice()) {
        (None, [only]) => voice.say(only),
        (None, several) => {
            return Err(Trouble::new(format!(
                "{} mats are {0} drawings, and standard output holds one",
                several.len()
            ))
            .with_help("name a file with `-o FILE.svg`, or a larger mat with `--mat`"));
        }
        (Some(target), several) => {
            let files = files(target, several.len());
            write(&files, several, asked.force)?;
            if !asked.showing.quiet {
                let names: Vec<String> = files.iter().map(|file| format!("wrote {}\n", file.display())).collect();
                let names = names.concat();
                let what = if pieces == 1 { "1 piece".to_owned() } else { format!("{pieces} pieces") };
                voice.tell(&format!(
                    "{names}{what}; measure the square of one inch in the layer `check` before you cut\n"
                ));
            }
        }
    }
    Ok(Outcome::Fine)
}

fn options(asked: &Machine) -> Options {
    Options {
        size: asked.size.clone(),
        colouring: asked.colouring.clone(),
        language: asked.language.clone(),
        blocks: asked.blocks,
        thorough: asked.thorough,
        ..Options::default()
    }
}

/// What was asked for, as the library understands it.
fn wanted(asked: &Machine) -> Result<MachineAsked, Trouble> {
    let what = match (&asked.unit, &asked.fabric) {
        (Some(unit), None) => Stuff::Unit(unit.clone(), asked.copies.unwrap_or(1)),
        (None, Some(fabric)) => Stuff::Fabric(fabric.clone()),
        _ => {
            return Err(Trouble::new("one thing is cut at a time: a unit, or a fabric")
                .with_help("write `--unit NAME` or `--fabric KEY`"));
        }
    };
    let side = if asked.turned_over.front || asked.turned_over.wrong_side_up { SideUp::Other } else { SideUp::Usual };
    Ok(MachineAsked { what, side, mat: asked.mat, colours: asked.colours.unwrap_or_default() })
}

/// Where the drawing goes; nothing for standard output.
fn target(asked: &Machine) -> Result<Option<PathBuf>, Trouble> {
    match &asked.output {
        Some(output) if input::is_standard(output) => Ok(None),
        Some(output) if output.file_name().is_none() || output.is_dir() => {
            Err(Trouble::new(format!("`{}` is a folder, not the name of a file", output.display()))
                .with_help("name the drawing itself, such as `-o roof.svg`"))
        }
        Some(output) => Ok(Some(output.clone())),
        None if input::is_standard(&asked.file) => Ok(None),
        None => {
            let what = asked.unit.as_ref().or(asked.fabric.as_ref()).map_or("", String::as_str);
            let mut name = asked.file.file_stem().unwrap_or_default().to_owned();
            name.push(format!("-{}.{ENDING}", what.replace(['/', '\\'], "-")));
            Ok(Some(asked.file.with_file_name(name)))
        }
    }
}

/// The file of each mat: the one that was named, or of several `name-1`, `name-2`, ….
fn files(target: &Path, count: usize) -> Vec<PathBuf> {
    if count == 1 {
        return vec![target.to_owned()];
    }
    let ending = target.extension().map(|ending| ending.to_string_lossy().into_owned());
    let stem = match &ending {
        Some(_) => target.file_stem(),
        None => target.file_name(),
    };
    let stem = stem.unwrap_or_default().to_string_lossy();
    let ending = ending.map_or_else(|| format!(".{ENDING}"), |ending| format!(".{ending}"));
    (1..=count).map(|number| target.with_file_name(format!("{stem}-{number}{ending}"))).collect()
}

/// Writes all drawings beside their places, then renames them: a full disk leaves everything as it was.
fn write(files: &[PathBuf], drawings: &[String], force: bool) -> Result<(), Trouble> {
    if let Some(other) = files.iter().find(|file| !force && is_foreign(file)) {
        return Err(Trouble::new(format!("`{}` is there already, and no drawing of a mat", other.display()))
            .with_help("choose another name with `-o`, or write over it with `--force`"));
    }
    let beside = |file: &PathBuf| {
        let mut name = file.as_os_str().to_owned();
        name.push(format!(".{UNFINISHED}"));
        PathBuf::from(name)
    };
    let fail = |file: &Path, error: &std::io::Error| match error.kind() {
        ErrorKind::NotFound => {
            Trouble::new(format!("there is no folder `{}`", file.parent().unwrap_or(file).display()))
        }
        _ => Trouble::new(format!("`{}` cannot be written: {}", file.display(), reason(error))),
    };
    let written = files
        .iter()
        .zip(drawings)
        .try_for_each(|(file, drawing)| fs::write(beside(file), drawing).map_err(|error| fail(file, &error)));
    let renamed = written.and_then(|()| {
        files.iter().try_for_each(|file| fs::rename(beside(file), file).map_err(|error| fail(file, &error)))
    });
    if renamed.is_err() {
        for file in files {
            _ = fs::remove_file(beside(file));
        }
    }
    renamed
}

/// Whether something is in the way that this command did not write.
fn is_foreign(file: &Path) -> bool {
    if fs::symlink_metadata(file).is_err() {
        return false;
    }
    let (attribute, value) = MADE_BY;
    let mut head = Vec::new();
    let read = fs::File::open(file).and_then(|file| file.take(HEAD).read_to_end(&mut head));
    read.is_err() || !String::from_utf8_lossy(&head).contains(&format!("{attribute}=\"{value}\""))
}

/// The size of a mat: `12 x 12 in`, `11 1/2 x 12 in`, `30 x 60 cm`, `305 x 610 mm`.
pub fn mat(text: &str) -> Result<(Length, Length), String> {
    let wrong =
        || String::from("write width and height with one unit: \"12 x 12 in\", \"30 x 60 cm\", \"305 x 610 mm\"");
    let text = text.trim().replace('×', "x");
    let (numbers, unit) =
        text.split_at(text.find(|letter: char| letter.is_alphabetic() && letter != 'x').ok_or_else(wrong)?);
    let inches = match unit.trim() {
        "in" => 1.0,
        "cm" => 1.0 / 2.54,
        "mm" => 1.0 / 25.4,
        _ => return Err(wrong()),
    };
    let (width, height) = numbers.split_once('x').ok_or_else(wrong)?;
    let [width, height] = [width, height].map(|words| number(words).map(|number| number * inches));
    let (Some(width), Some(height)) = (width, height) else { return Err(wrong()) };
    if [width, height].iter().all(|side| (1.0..=200.0).contains(side)) {
        Ok((Length::inches(width), Length::inches(height)))
    } else {
        Err(String::from("a mat is at least 1 in and at most 200 in wide and high"))
    }
}

/// A number in decimals, as a fraction or as a mixed fraction.
fn number(words: &str) -> Option<f64> {
    let one = |word: &str| match word.split_once('/') {
        Some((above, below)) => Some(above.parse::<f64>().ok()? / below.parse::<f64>().ok()?),
        None => word.parse().ok(),
    };
    let words: Vec<&str> = words.split_whitespace().collect();
    match words.as_slice() {
        [number] => one(number),
        [whole, fraction] if fraction.contains('/') && !whole.contains('/') => Some(one(whole)? + one(fraction)?),
        _ => None,
    }
}

/// Colours of layers: `cut=#ff0000,draw=#0000ff,numbers=#000000,check=#00ff00`, any of them.
pub fn colours(text: &str) -> Result<Colours, String> {
    let mut colours = Colours::default();
    for part in text.split(',') {
        let (layer, colour) = part.split_once('=').ok_or("write a layer and its colour: `cut=#ff0000`")?;
        let colour = hexadecimal(colour.trim()).ok_or("a colour is a `#` and six digits of 0-9 and a-f: `#ff0000`")?;
        match layer.trim() {
            "cut" => colours.cut = colour,
            "draw" => colours.draw = colour,
            "numbers" => colours.numbers = colour,
            "check" => colours.check = colour,
            other => return Err(format!("there is no layer `{other}`: there are cut, draw, numbers and check")),
        }
    }
    Ok(colours)
}

fn hexadecimal(text: &str) -> Option<Colour> {
    let digits = text.strip_prefix('#').filter(|digits| digits.len() == 6 && digits.is_ascii())?;
    if !digits.bytes().all(|digit| digit.is_ascii_hexdigit()) {
        return None;
    }
    let [_, red, green, blue] = u32::from_str_radix(digits, 16).ok()?.to_be_bytes();
    Some(Colour([red, green, blue]))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn mats_are_read_in_each_unit() {
        let inches = |text: &str| mat(text).map(|(width, height)| (width.to_inches(), height.to_inches()));
        assert_eq!(inches("12 x 24 in"), Ok((12.0, 24.0)));
        assert_eq!(inches("11.5×12in"), Ok((11.5, 12.0)));
        assert_eq!(inches("11 1/2 x 25/2 in"), Ok((11.5, 12.5)));
        let (width, height) = inches("254 x 508 mm").unwrap();
        assert!((width - 10.0).abs() < 1e-9 && (height - 20.0).abs() < 1e-9);
        for wrong in [
            "",
            "12",
            "12 in",
            "12 x 12",
            "12 x in",
            "12 x 12 yd",
            "0 x 12 in",
            "1/2 1/2 x 12 in",
            "12 12 x 12 in",
            "12/0 x 12 in",
            "NaN x 12 in",
            "1e9 x 1 in",
            "12 x 12 x 12 in",
        ] {
            assert!(mat(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn colours_are_read_layer_by_layer() {
        let read = colours("cut=#010203, numbers=#Ff0000").unwrap();
        assert_eq!((read.cut, read.numbers), (Colour([1, 2, 3]), Colour([255, 0, 0])));
        assert_eq!(read.draw, Colours::default().draw);
        for wrong in ["", "cut", "cut=red", "cut=#12345", "cut=#+12345", "fold=#000000", "cut=#00000é"] {
            assert!(colours(wrong).is_err(), "{wrong}");
        }
    }

    #[test]
    fn several_mats_are_several_files() {
        assert_eq!(files(Path::new("a/roof.svg"), 1), [PathBuf::from("a/roof.svg")]);
        assert_eq!(files(Path::new("a/roof.svg"), 2), [PathBuf::from("a/roof-1.svg"), PathBuf::from("a/roof-2.svg")]);
        assert_eq!(files(Path::new("roof"), 2), [PathBuf::from("roof-1.svg"), PathBuf::from("roof-2.svg")]);
    }
}
