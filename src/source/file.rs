//! The files of a job, held as text, and places in them.

use sha2::{Digest, Sha256};

/// Which file of a job.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct FileId(usize);

/// A stretch of bytes in one file.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub struct Place {
    /// The file.
    pub file: FileId,
    /// The first byte.
    pub start: usize,
    /// The byte behind the last.
    pub end: usize,
}

/// What tells a file from every other.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fingerprint {
    /// Its size in bytes.
    pub bytes: usize,
    /// The SHA-256 of its bytes, in small hexadecimal digits.
    pub sha256: String,
}

impl Fingerprint {
    /// Takes the fingerprint of bytes.
    #[must_use]
    pub fn of(bytes: &[u8]) -> Self {
        let digest = Sha256::digest(bytes);
        Self { bytes: bytes.len(), sha256: digest.iter().map(|byte| format!("{byte:02x}")).collect() }
    }
}

/// The text of every file that was read, by the name it is called in messages.
#[derive(Debug, Default)]
pub struct Files {
    held: Vec<Held>,
}

/// One file.
#[derive(Debug)]
struct Held {
    name: String,
    text: String,
    /// What it was before it became text.
    mark: Option<Fingerprint>,
    /// The first byte of every line.
    lines: Vec<usize>,
}

impl Files {
    /// Adds a file and gives its number.
    pub fn add(&mut self, name: &str, text: String) -> FileId {
        let behind = text.bytes().enumerate().filter(|(_, byte)| *byte == b'\n').map(|(at, _)| at + 1);
        let lines = std::iter::once(0).chain(behind).collect();
        self.held.push(Held { name: name.to_owned(), text, mark: None, lines });
        FileId(self.held.len() - 1)
    }

    /// Adds a file with the fingerprint of what it was read from.
    pub fn add_read(&mut self, name: &str, text: String, mark: Fingerprint) -> FileId {
        let file = self.add(name, text);
        if let Some(held) = self.held.last_mut() {
            held.mark = Some(mark);
        }
        file
    }

    /// Gives every file with its name, its text and, where it was read from a disk, its fingerprint.
    pub fn all(&self) -> impl Iterator<Item = (&str, &str, Option<&Fingerprint>)> {
        self.held.iter().map(|held| (held.name.as_str(), held.text.as_str(), held.mark.as_ref()))
    }

    /// Gives a file's name.
    #[must_use]
    pub fn name(&self, file: FileId) -> &str {
        self.held.get(file.0).map_or("", |held| &held.name)
    }

    /// Gives the names of all files, in the order they were added.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.held.iter().map(|held| held.name.as_str())
    }

    /// Gives a file's text.
    #[must_use]
    pub fn text(&self, file: FileId) -> &str {
        self.held.get(file.0).map_or("", |held| &held.text)
    }

    /// Gives the line and column of a place, both counted from 1, the column in characters.
    #[must_use]
    pub fn line_and_column(&self, place: Place) -> (usize, usize) {
        let Some(held) = self.held.get(place.file.0) else { return (1, 1) };
        let end = if held.text.is_char_boundary(place.start) { place.start } else { held.text.len() };
        let line = held.lines.partition_point(|start| *start <= end);
        let line_start = line.checked_sub(1).and_then(|at| held.lines.get(at)).copied().unwrap_or(0);
        let column = held.text.get(line_start..end).unwrap_or("").chars().count() + 1;
        (line, column)
    }
}

#[cfg(test)]
mod tests {
    use super::Fingerprint;

    /// FIPS 180-4, the example "abc" of its appendix, from memory, and the digest of nothing.
    #[test]
    fn a_fingerprint_is_the_published_digest() {
        let of = |bytes: &[u8]| Fingerprint::of(bytes).sha256;
        assert_eq!(of(b"abc"), "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad");
        assert_eq!(of(b""), "e3b0c44298fc1c149afbf4c8996fb92427ae41e4649b934ca495991b7852b855");
    }
}
