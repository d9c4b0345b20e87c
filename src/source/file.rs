//! The files of a job, held as text, and places in them.

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

/// The text of every file that was read, by the name it is called in messages.
#[derive(Debug, Default)]
pub struct Files {
    held: Vec<(String, String)>,
}

impl Files {
    /// Adds a file and gives its number.
    pub fn add(&mut self, name: &str, text: String) -> FileId {
        self.held.push((name.to_owned(), text));
        FileId(self.held.len() - 1)
    }

    /// Gives a file's name.
    #[must_use]
    pub fn name(&self, file: FileId) -> &str {
        self.held.get(file.0).map_or("", |(name, _)| name)
    }

    /// Gives the names of all files, in the order they were added.
    pub fn names(&self) -> impl Iterator<Item = &str> {
        self.held.iter().map(|(name, _)| name.as_str())
    }

    /// Gives a file's text.
    #[must_use]
    pub fn text(&self, file: FileId) -> &str {
        self.held.get(file.0).map_or("", |(_, text)| text)
    }

    /// Gives the line and column of a place, both counted from 1, the column in characters.
    #[must_use]
    pub fn line_and_column(&self, place: Place) -> (usize, usize) {
        let text = self.text(place.file);
        let before = text.get(..place.start).unwrap_or(text);
        let line_start = before.rfind('\n').map_or(0, |at| at + 1);
        let line = before.bytes().filter(|&byte| byte == b'\n').count() + 1;
        let column = before.get(line_start..).unwrap_or("").chars().count() + 1;
        (line, column)
    }
}
