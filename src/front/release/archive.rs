//! The archive of a release: the same files give the same bytes, on every machine and at any time.

use std::collections::BTreeMap;
use std::fmt::Write as _;
use std::io::{self, Cursor, Read as _, Write as _};

use sha2::{Digest, Sha256};
use zip::result::ZipError;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipArchive, ZipWriter};

use super::super::Artifact;

/// The file of the archive that tells the sums of all others, for `sha256sum -c`.
pub const SUMS: &str = "SHA256SUMS";

/// How hard it is pressed together; part of the promise that the same files give the same bytes.
const LEVEL: i64 = 9;

/// What everybody may do with a file of the archive.
const PERMISSIONS: u32 = 0o644;

/// SHA-256 in hexadecimal digits.
#[must_use]
pub fn sha256(bytes: &[u8]) -> String {
    Sha256::digest(bytes).iter().fold(String::new(), |mut digits, byte| {
        _ = write!(digits, "{byte:02x}");
        digits
    })
}

/// The sums of files, by path and sum, as `sha256sum` writes them.
pub fn sums<'f>(files: impl IntoIterator<Item = (&'f str, &'f str)>) -> String {
    let by_path: BTreeMap<&str, &str> = files.into_iter().collect();
    by_path.into_iter().fold(String::new(), |mut lines, (path, sum)| {
        _ = writeln!(lines, "{sum}  {path}");
        lines
    })
}

/// Packs files in order of their paths, all of them from one day, `2026-11-01`; from the first day that an archive can tell where there is none.
///
/// # Errors
/// What the archive cannot hold.
pub fn pack(files: &[&Artifact], day: Option<&str>) -> Result<Vec<u8>, ZipError> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .compression_level(Some(LEVEL))
        .last_modified_time(day.and_then(moment).unwrap_or_default())
        .unix_permissions(PERMISSIONS);
    let mut files = files.to_vec();
    files.sort_by(|a, b| a.path.cmp(&b.path));
    let mut writer = ZipWriter::new(Cursor::new(Vec::new()));
    for file in files {
        writer.start_file(file.path.as_str(), options)?;
        writer.write_all(&file.bytes)?;
    }
    Ok(writer.finish()?.into_inner())
}

/// The start of a day, as far as an archive can tell it.
fn moment(day: &str) -> Option<DateTime> {
    let mut numbers = day.splitn(3, '-');
    let (year, month, day) = (numbers.next()?, numbers.next()?, numbers.next()?);
    DateTime::from_date_and_time(year.parse().ok()?, month.parse().ok()?, day.parse().ok()?, 0, 0, 0).ok()
}

/// A file of an archive.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Packed {
    /// Its path.
    pub path: String,
    /// Its sum; nothing where it is larger than it may be, or cannot be read.
    pub sha256: Option<String>,
}

/// The files of an archive. `most` tells how many bytes of a file are read at the most; more make it unfit.
///
/// # Errors
/// What is no archive.
pub fn unpack(bytes: &[u8], most: &dyn Fn(&str) -> u64) -> Result<Vec<Packed>, ZipError> {
    let mut archive = ZipArchive::new(Cursor::new(bytes))?;
    let mut packed = Vec::new();
    for index in 0..archive.len() {
        let file = archive.by_index(index)?;
        let path = file.name()?.into_owned();
        let (limit, mut held) = (most(&path), Vec::new());
        let read = file.take(limit.saturating_add(1)).read_to_end(&mut held);
        let is_whole = read.is_ok_and(|count| count as u64 <= limit);
        packed.push(Packed { path, sha256: is_whole.then(|| sha256(&held)) });
    }
    Ok(packed)
}

/// An error of an archive in words.
pub fn reason(error: &ZipError) -> String {
    match error {
        ZipError::Io(error) if error.kind() == io::ErrorKind::UnexpectedEof => String::from("it ends too early"),
        error => error.to_string(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn artifact(path: &str, bytes: &[u8]) -> Artifact {
        Artifact { path: path.into(), bytes: bytes.into() }
    }

    #[test]
    fn sums_are_those_of_the_standard() {
        // The examples of FIPS 180-2, and nothing at all.
        assert_eq!(sha256(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_eq!(sha256(b""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
        let (abc, none) = (sha256(b"abc"), sha256(b""));
        assert_eq!(sums([("b/abc", abc.as_str()), ("a", none.as_str())]), format!("{none}  a\n{abc}  b/abc\n"));
    }

    #[test]
    fn what_is_packed_is_unpacked_in_order() {
        let (b, a) = (artifact("b/möwe.txt", &[7; 5000]), artifact("a.txt", b"gull"));
        let archive = pack(&[&b, &a], Some("2026-11-01")).expect("packs");
        let files = unpack(&archive, &|_| 5000).expect("unpacks");
        let told: Vec<_> = files.iter().map(|file| (file.path.as_str(), file.sha256.clone())).collect();
        assert_eq!(told, [("a.txt", Some(sha256(b"gull"))), ("b/möwe.txt", Some(sha256(&[7; 5000])))]);
        assert!(archive.len() < 1000, "it is pressed together");
        let small = unpack(&archive, &|_| 4999).expect("unpacks");
        assert_eq!(small[1].sha256, None, "no more is read than may be");
        assert!(unpack(&archive[..archive.len() / 2], &|_| 5000).is_err());
        assert!(unpack(b"", &|_| 1).is_err());
    }

    /// Nothing in the bytes of an archive tells of the machine or the moment: no further fields, the author's day, one set of permissions.
    #[test]
    fn an_archive_tells_nothing_of_its_maker() {
        let file = artifact("a.txt", b"gull");
        for (day, told) in [
            (Some("2026-11-01"), (46 << 9) | (11 << 5) | 1),
            (None, (1 << 5) | 1),
            // Beyond what an archive can tell.
            (Some("1979-12-31"), (1 << 5) | 1),
            (Some("2108-01-01"), (1 << 5) | 1),
            (Some("soon"), (1 << 5) | 1),
        ] {
            let bytes = pack(&[&file], day).expect("packs");
            let word = |at: usize| u16::from_le_bytes([bytes[at], bytes[at + 1]]);
            assert_eq!(&bytes[..4], b"PK\x03\x04");
            assert_eq!((word(10), word(12)), (0, told), "the start of {day:?}");
            assert_eq!((word(26), word(28)), (5, 0), "no further fields");
            let central = bytes.windows(4).position(|four| four == b"PK\x01\x02").expect("a directory");
            assert_eq!(word(central + 30), 0, "no further fields");
            assert_eq!(word(central + 40), 0o100_644, "a file that all may read");
            assert_eq!(bytes, pack(&[&file], day).expect("packs"));
        }
    }
}
