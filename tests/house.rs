//! Keeps the house as DEVELOPERS.md describes it: who may import whom, and how large a file may grow.

use std::collections::BTreeSet;
use std::fs;
use std::path::{Path, PathBuf};

/// The import table of DEVELOPERS.md: a module and what it may import.
const TABLE: &[(&str, &str)] = &[
    ("length", ""),
    ("quantity", "length"),
    ("text", "length quantity"),
    ("source", "length quantity text"),
    ("catalog", "length quantity text source"),
    ("model", "length quantity source catalog"),
    ("input", "length quantity text source catalog model"),
    ("levels", "length source model"),
    ("plan", "length catalog model levels"),
    ("check", "length quantity text source catalog model levels plan"),
    ("detail", "length text catalog model levels plan check"),
    ("order", "length quantity catalog model plan check"),
    ("draw", "length text model levels plan check"),
    ("report", "length quantity text source catalog model levels plan check detail order draw"),
    ("output", "length text source draw report"),
    ("cli", "length text source catalog model input levels plan check detail order draw report output"),
];

/// Most lines of one source file.
const MOST_LINES: usize = 600;

fn sources(folder: &Path, found: &mut Vec<PathBuf>) {
    for entry in fs::read_dir(folder).unwrap() {
        let path = entry.unwrap().path();
        if path.is_dir() {
            sources(&path, found);
        } else if path.extension().is_some_and(|ending| ending == "rs") {
            found.push(path);
        }
    }
}

/// The files that stand under `#[cfg(test)] mod name;` of their folder: tests may import what they need.
fn test_only(text: &str) -> Vec<String> {
    let mut lines = text.lines();
    let mut found = Vec::new();
    while let Some(line) = lines.next() {
        if line == "#[cfg(test)]" {
            let declared = lines.next().and_then(|line| line.strip_prefix("mod ")?.strip_suffix(';'));
            found.extend(declared.map(|name| format!("{name}.rs")));
        }
    }
    found
}

fn is_test_only(path: &Path) -> bool {
    let beside = path.with_file_name("mod.rs");
    let name = path.file_name().unwrap().to_string_lossy().into_owned();
    fs::read_to_string(beside).is_ok_and(|text| test_only(&text).contains(&name))
}

fn all_sources() -> Vec<(String, PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut paths = Vec::new();
    sources(&root, &mut paths);
    paths.sort();
    let module = |path: &Path| {
        let inside = path.strip_prefix(&root).unwrap();
        inside.components().next().unwrap().as_os_str().to_string_lossy().replace(".rs", "")
    };
    paths.into_iter().map(|path| (module(&path), path.clone(), fs::read_to_string(&path).unwrap())).collect()
}

/// The modules named behind `crate::` in the code of a file, its tests left out.
fn imports(text: &str) -> BTreeSet<String> {
    let code = text.split("#[cfg(test)]\nmod tests").next().unwrap();
    let lines = code.lines().filter(|line| !line.trim_start().starts_with("//"));
    let mut found = BTreeSet::new();
    for line in lines {
        for behind in line.split("crate::").skip(1) {
            let name: String = behind.chars().take_while(|c| c.is_alphanumeric() || *c == '_').collect();
            found.insert(if name.is_empty() { format!("a group: {line}") } else { name });
        }
    }
    found
}

#[test]
fn no_module_imports_what_the_table_does_not_allow() {
    let mut faults = Vec::new();
    for (module, path, text) in all_sources() {
        if module == "lib" || module == "main" || is_test_only(&path) {
            continue;
        }
        let Some((_, allowed)) = TABLE.iter().find(|(name, _)| *name == module) else {
            faults.push(format!("{}: module {module} is not in the table", path.display()));
            continue;
        };
        let allowed: BTreeSet<&str> = allowed.split_whitespace().chain([module.as_str()]).collect();
        for import in imports(&text) {
            if !allowed.contains(import.as_str()) {
                faults.push(format!("{}: {module} may not import {import}", path.display()));
            }
        }
    }
    assert!(faults.is_empty(), "{}", faults.join("\n"));
}

#[test]
fn the_import_reader_sees_what_it_must() {
    let text =
        "use crate::length::Length;\n// crate::cli\nfn f() -> crate::text::Style {}\nuse crate::{a, b};\n";
    let found = imports(text);
    assert!(found.contains("length") && found.contains("text"), "{found:?}");
    assert!(found.iter().any(|name| name.starts_with("a group")), "{found:?}");
    assert!(!found.contains("cli"));
}

#[test]
fn no_source_file_becomes_a_hall() {
    let mut halls = Vec::new();
    for (_, path, text) in all_sources() {
        let lines = text.lines().count();
        if lines > MOST_LINES {
            halls.push(format!("{}: {lines} lines", path.display()));
        }
    }
    assert!(halls.is_empty(), "{}", halls.join("\n"));
}

#[test]
fn every_source_file_says_what_it_is() {
    for (_, path, text) in all_sources() {
        assert!(
            text.starts_with("//!") || text.starts_with("#![doc"),
            "{} has no first line that says what it is",
            path.display()
        );
    }
}

/// The worked examples of DEVELOPERS.md: T1, T2 and so on, each with a test that is there or with why there is none.
#[test]
fn every_worked_example_has_a_test_that_is_there_or_says_why_not() {
    let root = Path::new(env!("CARGO_MANIFEST_DIR"));
    let page = fs::read_to_string(root.join("DEVELOPERS.md")).unwrap();
    let rows: Vec<Vec<&str>> =
        page.lines().filter(|line| line.starts_with("| T")).map(|line| line.split(" | ").collect()).collect();
    assert_eq!(rows.len(), 46);
    for (number, row) in (1..).zip(rows) {
        assert_eq!((row.len(), row[0]), (3, format!("| T{number}").as_str()));
        let names: Vec<&str> = row[2].split('`').skip(1).step_by(2).collect();
        assert_eq!(names.is_empty(), row[2].starts_with("not tested: "), "T{number}");
        let mut text = String::new();
        for name in names {
            if name.ends_with(".rs") {
                let path = if name.contains('/') { root.join(name) } else { root.join("tests").join(name) };
                text = fs::read_to_string(&path).unwrap_or_else(|_| panic!("T{number}: no file {name}"));
            } else {
                let there = text.contains(&format!("#[test]\nfn {name}()"))
                    || text.contains(&format!("#[test]\n    fn {name}()"));
                assert!(there, "T{number}: no test {name}");
            }
        }
    }
}
