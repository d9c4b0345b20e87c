//! Files read whole: from the job's folder and nowhere else, unless the command line says so.

use super::book::{self, NOT_READ, READ, split_name};
use crate::source::{FileId, Files, Fingerprint, Place, Problem, Problems};
use crate::text::quoted;
use std::fs::File;
use std::io::{self, Read};
use std::path::{Component, Path, PathBuf};

/// Largest file that is read, in bytes.
const MOST_BYTES: u64 = 64 * 1024 * 1024;

/// A file that is asked for.
#[derive(Clone, Debug)]
pub(super) struct Wanted {
    /// Its path as written.
    pub(super) path: PathBuf,
    /// The sheet of a workbook that is wanted; none is its first.
    pub(super) sheet: Option<String>,
    /// Who asks for it.
    pub(super) by: AskedBy,
}

/// Who asks for a file.
#[derive(Clone, Copy, Debug)]
pub(super) enum AskedBy {
    /// A key of the job file; the file stays in the job's folder.
    Key(Place),
    /// An option of the command line; the file may be anywhere.
    Flag(&'static str),
}

/// What became of a file that may be asked for.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub(super) enum Opened {
    /// Nobody asked for it.
    NotAsked,
    /// It cannot be used, and that was noted.
    Failed,
    /// It was read.
    At(FileId),
}

/// How a file is written.
#[derive(Clone, Copy, PartialEq, Eq)]
pub(super) enum Form {
    /// TOML.
    Toml,
    /// CSV.
    Csv,
    /// JSON.
    Json,
}

impl Wanted {
    /// Takes a name as a job or the command line writes it, `book.xlsx#sheet` for a sheet of a workbook.
    pub(super) fn named(name: &Path, by: AskedBy) -> Self {
        let (path, sheet) = match name.to_str().map(split_name) {
            Some((path, sheet)) => (PathBuf::from(path), sheet.map(str::to_owned)),
            None => (name.to_path_buf(), None),
        };
        Self { path, sheet, by }
    }

    /// Gives the ending of the file in small letters.
    fn ending(&self) -> Option<String> {
        Some(self.path.extension()?.to_string_lossy().to_lowercase())
    }

    /// Makes a fault of this request.
    pub(super) fn problem(&self, message: &str) -> Problem {
        match self.by {
            AskedBy::Key(place) => Problem::at(place, message),
            AskedBy::Flag(flag) => Problem::general(format!("{flag}: {message}")),
        }
    }
}

/// The folder of a job.
#[derive(Debug)]
pub(super) struct Folder {
    /// The folder with every link followed.
    real: PathBuf,
    /// The job file.
    job: PathBuf,
}

impl Folder {
    /// Finds the folder of a job file, or the job file of a folder.
    pub(super) fn of_job(given: &Path, problems: &Problems) -> Option<Self> {
        let job = if given.is_dir() { given.join("job.toml") } else { given.to_path_buf() };
        let shown = quoted(&job.display().to_string());
        let parent = match job.parent() {
            Some(parent) if parent != Path::new("") => parent,
            _ => Path::new("."),
        };
        match parent.canonicalize() {
            Ok(real) => Some(Self { real, job }),
            Err(error) => {
                let problem =
                    Problem::general(format!("the job file {shown} {}", Unread::of(&error).words()));
                problems.note(problem.fix("name a job file, or a folder with a job.toml in it"));
                None
            }
        }
    }

    /// Reads the job file.
    pub(super) fn read_job(&self, files: &mut Files, problems: &Problems) -> Option<FileId> {
        let name = self.job.file_name().map_or_else(String::new, |name| name.to_string_lossy().into_owned());
        match read(&self.job) {
            Ok(bytes) => add(files, problems, &name, bytes, Form::Toml),
            Err(why) => {
                let shown = quoted(&self.job.display().to_string());
                problems.note(
                    Problem::general(format!("the job file {shown} {}", why.words()))
                        .fix("name a job file, or a folder with a job.toml in it"),
                );
                None
            }
        }
    }

    /// Reads a file that may be asked for.
    pub(super) fn open(
        &self,
        wanted: Option<&Wanted>,
        form: Form,
        files: &mut Files,
        problems: &Problems,
    ) -> Opened {
        let Some(wanted) = wanted else { return Opened::NotAsked };
        let read = self.find(wanted, form).and_then(|path| {
            let shown = quoted(&wanted.path.display().to_string());
            read(&path).map_err(|why| wanted.problem(&format!("{shown} {}", why.words())).fix(why.fix()))
        });
        let bytes = match read {
            Ok(bytes) => bytes,
            Err(problem) => {
                problems.note(problem);
                return Opened::Failed;
            }
        };
        let name = wanted.path.display().to_string();
        if form == Form::Csv && wanted.ending().is_some_and(|ending| READ.contains(&ending.as_str())) {
            let mark = Fingerprint::of(&bytes);
            let Some(sheet) = book::add(files, problems, wanted, bytes) else { return Opened::Failed };
            files.mark(sheet, mark);
            return Opened::At(sheet);
        }
        add(files, problems, &name, bytes, form).map_or(Opened::Failed, Opened::At)
    }

    /// Gives the real path of a file, or says why it may not be read.
    fn find(&self, wanted: &Wanted, form: Form) -> Result<PathBuf, Problem> {
        let shown = quoted(&wanted.path.display().to_string());
        let not_read = wanted.ending().filter(|ending| NOT_READ.contains(&ending.as_str()));
        if let Some(ending) = not_read.filter(|_| form == Form::Csv) {
            return Err(wanted
                .problem(&format!("{shown} is a spreadsheet of a kind that is not read: .{ending}"))
                .fix("save it as .xlsx, or save the sheet as CSV UTF-8, and name that file"));
        }
        if matches!(wanted.by, AskedBy::Flag(_)) {
            return Ok(wanted.path.clone());
        }
        let outside = || {
            wanted
                .problem(&format!("{shown} is not in the job's folder"))
                .fix("put the file into the folder of the job file and name it without `..` or a leading `/`")
        };
        let stays = |part: Component<'_>| matches!(part, Component::Normal(_) | Component::CurDir);
        if wanted.path.as_os_str().is_empty() {
            return Err(wanted.problem("a file name is needed here, this is blank"));
        }
        if !wanted.path.components().all(stays) {
            return Err(outside());
        }
        let real = self.real.join(&wanted.path).canonicalize().map_err(|error| {
            let why = Unread::of(&error);
            wanted.problem(&format!("{shown} {}", why.words())).fix(why.fix())
        })?;
        if real.starts_with(&self.real) { Ok(real) } else { Err(outside()) }
    }
}

/// Reads a file that the command line names, which may be anywhere.
pub(super) fn open_given(
    path: &Path,
    (flag, fix): (&'static str, &str),
    form: Form,
    files: &mut Files,
    problems: &Problems,
) -> Option<FileId> {
    let wanted = Wanted { path: path.to_owned(), sheet: None, by: AskedBy::Flag(flag) };
    let shown = quoted(&path.display().to_string());
    match read(path) {
        Ok(bytes) => add(files, problems, &path.display().to_string(), bytes, form),
        Err(why) => {
            let fix = if matches!(why, Unread::Other(_)) { why.fix() } else { fix };
            problems.note(wanted.problem(&format!("{shown} {}", why.words())).fix(fix));
            None
        }
    }
}

/// Why a file was not read.
enum Unread {
    Missing,
    Folder,
    Irregular,
    TooLarge,
    Other(io::ErrorKind),
}

impl Unread {
    fn of(error: &io::Error) -> Self {
        match error.kind() {
            io::ErrorKind::NotFound => Self::Missing,
            io::ErrorKind::IsADirectory => Self::Folder,
            kind => Self::Other(kind),
        }
    }

    fn words(&self) -> String {
        match self {
            Self::Missing => "was not found".to_owned(),
            Self::Folder => "is a folder, a file is needed here".to_owned(),
            Self::Irregular => "is not an ordinary file".to_owned(),
            Self::TooLarge => "is larger than 64 MiB".to_owned(),
            Self::Other(kind) => format!("cannot be read: {kind}"),
        }
    }

    const fn fix(&self) -> &'static str {
        match self {
            Self::Missing => "correct the name, or put the file there",
            Self::Folder | Self::Irregular => "name the file itself",
            Self::TooLarge => "check that this is the right file",
            Self::Other(_) => "check that you may read this file",
        }
    }
}

fn read(path: &Path) -> Result<Vec<u8>, Unread> {
    let about = path.metadata().map_err(|error| Unread::of(&error))?;
    // a pipe would keep the program waiting, so it is not even opened
    if about.is_dir() {
        return Err(Unread::Folder);
    }
    if !about.is_file() {
        return Err(Unread::Irregular);
    }
    let file = File::open(path).map_err(|error| Unread::of(&error))?;
    let mut bytes = Vec::new();
    file.take(MOST_BYTES + 1).read_to_end(&mut bytes).map_err(|error| Unread::of(&error))?;
    if bytes.len() as u64 > MOST_BYTES { Err(Unread::TooLarge) } else { Ok(bytes) }
}

/// Adds a file as text, without its byte order mark.
fn add(files: &mut Files, problems: &Problems, name: &str, bytes: Vec<u8>, form: Form) -> Option<FileId> {
    let mark = Fingerprint::of(&bytes);
    let bytes = match bytes.strip_prefix(b"\xef\xbb\xbf") {
        Some(rest) => rest.to_vec(),
        None => bytes,
    };
    match String::from_utf8(bytes) {
        Ok(text) => {
            let file = files.add(name, if form == Form::Csv { lines_ended(text) } else { text });
            files.mark(file, mark);
            Some(file)
        }
        Err(error) => {
            let start = error.utf8_error().valid_up_to();
            let bad = error.as_bytes().get(start).copied().unwrap_or_default();
            let text = String::from_utf8_lossy(error.as_bytes()).into_owned();
            let file = files.add(name, text);
            let place = Place { file, start, end: start + char::REPLACEMENT_CHARACTER.len_utf8() };
            let fix = match form {
                Form::Csv => "save it as CSV UTF-8",
                Form::Toml | Form::Json => "save it as UTF-8",
            };
            problems.note(
                Problem::at(place, format!("this file is not UTF-8: the byte here is 0x{bad:02X}")).fix(fix),
            );
            None
        }
    }
}

/// Replaces the line ends of old Macintosh files, a lone carriage return, byte for byte.
fn lines_ended(text: String) -> String {
    let bytes = text.as_bytes();
    let lone = |at: usize| bytes.get(at + 1) != Some(&b'\n');
    if !bytes.iter().enumerate().any(|(at, byte)| *byte == b'\r' && lone(at)) {
        return text;
    }
    text.char_indices().map(|(at, c)| if c == '\r' && lone(at) { '\n' } else { c }).collect()
}

#[cfg(test)]
mod tests {
    use super::lines_ended;

    #[test]
    fn a_lone_carriage_return_ends_a_line_and_a_pair_is_left_alone() {
        assert_eq!(lines_ended("a\rb\r".to_owned()), "a\nb\n");
        assert_eq!(lines_ended("a\r\nb\r\r\n".to_owned()), "a\r\nb\n\r\n");
    }
}
