//! Runs the program as a person would and holds what came back.
#![allow(dead_code, reason = "each test file uses its own part")]

pub(crate) mod clean;

use serde_json::Value;
use std::path::{Path, PathBuf};
use std::process::Output;

/// What a run came back with.
pub(crate) struct Ran {
    /// Standard output.
    pub(crate) out: String,
    /// Standard error.
    pub(crate) err: String,
    /// The exit status.
    pub(crate) status: i32,
}

impl Ran {
    /// Reads standard output as JSON.
    pub(crate) fn json(&self) -> Value {
        serde_json::from_str(&self.out).unwrap_or_else(|fault| panic!("{fault}\n{}\n{}", self.out, self.err))
    }
}

/// Runs the program in the project's folder, without colour.
pub(crate) fn rodreach(args: &[&str]) -> Ran {
    rodreach_in(Path::new(env!("CARGO_MANIFEST_DIR")), args)
}

/// Runs the program in a folder, without colour.
pub(crate) fn rodreach_in(folder: &Path, args: &[&str]) -> Ran {
    let mut command = assert_cmd::Command::cargo_bin("rodreach").unwrap();
    let output: Output =
        command.current_dir(folder).env_clear().env("NO_COLOR", "1").args(args).output().unwrap();
    Ran {
        out: String::from_utf8(output.stdout).unwrap(),
        err: String::from_utf8(output.stderr).unwrap(),
        status: output.status.code().expect("the program ends by itself"),
    }
}

/// A job in a folder of its own, taken away at the end.
pub(crate) struct Job {
    folder: tempfile::TempDir,
}

impl Job {
    /// Copies a demo job.
    pub(crate) fn demo(name: &str) -> Self {
        let job = Self { folder: tempfile::tempdir().unwrap() };
        let from = Path::new(env!("CARGO_MANIFEST_DIR")).join("demo-data").join(name);
        for entry in std::fs::read_dir(from).unwrap() {
            let path = entry.unwrap().path();
            std::fs::copy(&path, job.path(path.file_name().unwrap().to_str().unwrap())).unwrap();
        }
        job
    }

    /// Makes a job of files.
    pub(crate) fn of(files: &[(&str, &str)]) -> Self {
        let job = Self { folder: tempfile::tempdir().unwrap() };
        for (name, text) in files {
            std::fs::write(job.path(name), text).unwrap();
        }
        job
    }

    /// Gives the path of a file of the job.
    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.folder.path().join(name)
    }

    /// Reads a file of the job.
    pub(crate) fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).unwrap()
    }

    /// Writes a file of the job.
    pub(crate) fn write(&self, name: &str, bytes: impl AsRef<[u8]>) {
        std::fs::write(self.path(name), bytes).unwrap();
    }

    /// Puts one text in place of another, which must be there.
    pub(crate) fn replace(&self, name: &str, old: &str, new: &str) {
        let text = self.read(name);
        assert!(text.contains(old), "{name} has no {old}");
        self.write(name, text.replacen(old, new, 1));
    }

    /// Runs a command on the job.
    pub(crate) fn run(&self, command: &str, more: &[&str]) -> Ran {
        let mut args = vec![command, "."];
        args.extend(more);
        rodreach_in(self.folder.path(), &args)
    }

    /// Lists the names of the files there.
    pub(crate) fn names(&self) -> Vec<String> {
        let mut names: Vec<String> = std::fs::read_dir(self.folder.path())
            .unwrap()
            .map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned())
            .collect();
        names.sort();
        names
    }
}

/// Finds an item of a list by one of its keys.
pub(crate) fn item<'v>(list: &'v Value, key: &str, wanted: &str) -> &'v Value {
    list.as_array()
        .unwrap()
        .iter()
        .find(|item| item[key] == wanted)
        .unwrap_or_else(|| panic!("no {key} {wanted} in {list}"))
}
