//! What the catalog files say is from memory is listed by `catalog --unverified`, row by row.

use super::list::{Listed, Row, catalog_answer, rows};
use crate::catalog::{EMBEDDED, Standing, load};
use crate::source::{Files, Key, Kind, Node, Problems, parse};
use std::collections::{BTreeMap, BTreeSet};

/// Gives the value of a key of a table.
fn value<'n>(entries: &'n [(Key, Node)], key: &str) -> Option<&'n Node> {
    entries.iter().find(|(name, _)| name.name == key).map(|(_, node)| node)
}

fn text<'n>(entries: &'n [(Key, Node)], key: &str) -> Option<&'n str> {
    match &value(entries, key)?.kind {
        Kind::Text(text) => Some(text),
        _ => None,
    }
}

/// Gives the words of a source that is from memory.
fn remembered(node: &Node) -> Option<&str> {
    let Kind::Table(entries) = &node.kind else { return None };
    if text(entries, "kind") == Some("from memory") { text(entries, "text") } else { None }
}

/// Counts the rows and tables that stand on each source that is from memory; a row without a source has the file's.
fn count<'n>(node: &'n Node, file: Option<&'n str>, found: &mut BTreeMap<&'n str, usize>) {
    match &node.kind {
        Kind::Table(entries) => {
            for (_, inner) in entries {
                *found.entry(remembered(inner).unwrap_or_default()).or_default() += 1;
                count(inner, file, found);
            }
        }
        Kind::List(items) => {
            for item in items {
                let bare = matches!(&item.kind, Kind::Table(row) if value(row, "source").is_none());
                if let Some(words) = file.filter(|_| bare) {
                    *found.entry(words).or_default() += 1;
                }
                count(item, file, found);
            }
        }
        _ => {}
    }
}

#[test]
fn every_row_of_every_catalog_file_that_is_from_memory_is_listed() {
    let listed = rows(&load().unwrap());
    let mut seen = 0;
    for (path, content) in EMBEDDED {
        let (mut files, problems) = (Files::default(), Problems::default());
        let file = files.add(path, (*content).to_owned());
        let root = parse(file, &files, &problems);
        let Kind::Table(head) = &root.kind else { panic!("{path}") };
        let name = text(head, "name").unwrap();
        let of_file = value(head, "source").and_then(remembered);
        let mut wanted = BTreeMap::new();
        count(&root, of_file, &mut wanted);
        wanted.remove("");
        let says_so = content.contains("kind = \"from memory\"");
        assert_eq!(says_so, !wanted.is_empty(), "{path}: nothing of it was found");
        // what stands for the whole file is counted by its rows
        if let Some(count) = of_file.and_then(|words| wanted.get_mut(words)) {
            *count -= 1;
        }
        for (words, count) in wanted {
            let of = |row: &&Row| row.series == name && row.source.text == *words;
            let shown: BTreeSet<&str> = listed.iter().filter(of).map(|row| row.of.as_str()).collect();
            assert!(shown.len() >= count, "{path}: {} of {count} listed of {words}", shown.len());
            assert!(listed.iter().filter(of).all(|row| row.source.kind == Standing::FromMemory), "{path}");
            seen += count;
        }
    }
    assert!(seen > 40, "only {seen} rows are from memory");
}

#[test]
fn the_list_holds_what_is_from_memory_and_nothing_else_in_every_format() {
    let catalog = load().unwrap();
    let answer = catalog_answer(&catalog, Listed { only: None, unverified: true });
    let rows = answer.value["rows"].as_array().unwrap();
    let all = super::list::rows(&catalog);
    let remembered = all.iter().filter(|row| row.source.kind == Standing::FromMemory).count();
    assert_eq!((rows.len(), answer.sheet.rows.len()), (remembered, remembered));
    assert!(rows.iter().all(|row| row["source"]["kind"] == "from memory"));
    let part = catalog_answer(&catalog, Listed { only: Some("f436"), unverified: true });
    assert!(part.clear && part.sheet.rows.len() < remembered);
    let none = catalog_answer(&catalog, Listed { only: Some("heavy-hex"), unverified: true });
    assert!(none.clear && none.sheet.rows.is_empty(), "known, and nothing of it is from memory");
    assert!(!catalog_answer(&catalog, Listed { only: Some("no such"), unverified: true }).clear);
}
