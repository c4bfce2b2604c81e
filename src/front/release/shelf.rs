//! A shelf that remembers what was taken from it.

use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};

use crate::pattern::{ReadFault, Shelf};

/// Files by their paths in the project.
pub type Files = BTreeMap<String, Vec<u8>>;

/// What has been taken from a shelf for all patterns of a release. A file that several of them use is read once, and is the same for all.
#[derive(Default)]
pub struct Kept(RefCell<Files>);

/// A shelf for one pattern that remembers what the pattern took from it.
pub struct Recording<'s> {
    shelf: &'s dyn Shelf,
    kept: &'s Kept,
    taken: RefCell<BTreeSet<String>>,
}

impl<'s> Recording<'s> {
    /// A record of a shelf.
    pub fn new(shelf: &'s dyn Shelf, kept: &'s Kept) -> Self {
        Self { shelf, kept, taken: RefCell::default() }
    }

    /// What the pattern took, with its bytes.
    pub fn taken(&self) -> Files {
        let kept = self.kept.0.borrow();
        let taken = self.taken.borrow();
        taken.iter().filter_map(|path| Some((path.clone(), kept.get(path)?.clone()))).collect()
    }

    fn take(&self, path: &str, read: impl FnOnce() -> Result<Vec<u8>, ReadFault>) -> Result<Vec<u8>, ReadFault> {
        let known = self.kept.0.borrow().get(path).cloned();
        let bytes = match known {
            Some(bytes) => bytes,
            None => read()?,
        };
        self.kept.0.borrow_mut().insert(path.to_owned(), bytes.clone());
        self.taken.borrow_mut().insert(path.to_owned());
        Ok(bytes)
    }
}

impl Shelf for Recording<'_> {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        let bytes = self.take(path, || self.shelf.read(path).map(String::into_bytes))?;
        String::from_utf8(bytes).map_err(|_| ReadFault::NotText)
    }

    fn read_bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        let bytes = self.take(path, || self.shelf.read_bytes(path, most))?;
        if bytes.len() > most { Err(ReadFault::TooLarge) } else { Ok(bytes) }
    }
}

/// The files of a release that was made before.
impl Shelf for Files {
    fn read(&self, path: &str) -> Result<String, ReadFault> {
        let bytes = self.get(path).ok_or(ReadFault::NotFound)?;
        String::from_utf8(bytes.clone()).map_err(|_| ReadFault::NotText)
    }

    fn read_bytes(&self, path: &str, most: usize) -> Result<Vec<u8>, ReadFault> {
        let bytes = self.get(path).ok_or(ReadFault::NotFound)?;
        if bytes.len() > most { Err(ReadFault::TooLarge) } else { Ok(bytes.clone()) }
    }
}

#[cfg(test)]
mod tests {
    use std::cell::Cell;

    use super::*;

    /// A shelf whose files change each time they are read.
    #[derive(Default)]
    struct Restless(Cell<u8>);

    impl Shelf for Restless {
        fn read(&self, path: &str) -> Result<String, ReadFault> {
            self.0.set(self.0.get() + 1);
            if path == "none" { Err(ReadFault::NotFound) } else { Ok(self.0.get().to_string()) }
        }

        fn read_bytes(&self, path: &str, _: usize) -> Result<Vec<u8>, ReadFault> {
            self.read(path).map(String::into_bytes)
        }
    }

    #[test]
    fn each_pattern_knows_what_it_took_and_all_take_the_same() {
        let (restless, kept) = (Restless::default(), Kept::default());
        let (gull, tern) = (Recording::new(&restless, &kept), Recording::new(&restless, &kept));
        assert_eq!(gull.read("house"), Ok("1".into()));
        assert_eq!(gull.read_bytes("logo", 9), Ok(b"2".to_vec()));
        assert_eq!(tern.read("house"), Ok("1".into()));
        assert_eq!(tern.read("none"), Err(ReadFault::NotFound));
        assert_eq!(gull.read_bytes("logo", 0), Err(ReadFault::TooLarge));
        assert_eq!(gull.taken().into_keys().collect::<Vec<_>>(), ["house", "logo"]);
        assert_eq!(tern.taken(), Files::from([("house".to_owned(), b"1".to_vec())]));
    }
}
