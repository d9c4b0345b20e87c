//! The limits in force: a set of the catalog or a file, with the job's own values in it.

use super::context::known_names;
use super::job_toml::Head;
use super::load::{AskedBy, Folder, Form, Opened, Wanted};
use crate::catalog::{Catalog, LimitSet, read_limit_set, replace_limits};
use crate::length::Bare;
use crate::model::LimitsInForce;
use crate::source::{Files, Kind, Node, Place, Problem, Walk, nearest, parse};
use crate::text::quoted;
use std::path::PathBuf;

/// Finds the limit set and puts the job's `[limits]` into it.
///
/// The `[limits]` are read even where the set is unknown, so that their faults are told.
pub(super) fn in_force(
    walk: Walk<'_>,
    head: &Head,
    given: Option<&str>,
    replaced: Option<&Node>,
    (folder, files): (&Folder, &mut Files),
    catalog: &Catalog,
) -> Option<LimitsInForce> {
    let (name, by) = match (given, &head.limits) {
        (Some(name), _) => (Some(name), AskedBy::Flag("--limits")),
        (None, Some((name, place))) => (Some(name.as_str()), AskedBy::Key(*place)),
        (None, None) => (None, AskedBy::Key(head.place)),
    };
    let found = name.and_then(|name| {
        let wanted = Wanted { path: PathBuf::from(name), sheet: None, by };
        if is_path(name) {
            from_file(walk, &wanted, folder, files, catalog)
        } else {
            named(walk, name, &wanted, catalog)
        }
    });
    let known = found.is_some();
    let mut set = found.or_else(|| catalog.limits.first().cloned())?;
    if let Some(node) = replaced {
        replace_limits(walk, node, &mut set.limits);
        plates_known(walk, node, catalog);
    }
    known.then_some(LimitsInForce { name: set.name, title: set.title, tables: set.limits })
}

/// Tells a path from a name of the catalog.
fn is_path(name: &str) -> bool {
    let ending = std::path::Path::new(name).extension();
    name.contains(['/', std::path::MAIN_SEPARATOR]) || ending.is_some_and(|ending| ending == "toml")
}

fn named(walk: Walk<'_>, name: &str, wanted: &Wanted, catalog: &Catalog) -> Option<LimitSet> {
    let found = catalog.limits.iter().find(|set| set.name == name);
    if found.is_none() {
        let known = catalog.limits.iter().map(|set| set.name.as_str());
        let problem = wanted.problem(&format!("{} is not a limit set", quoted(name)));
        walk.problems.note(match nearest(name, known.clone()) {
            Some(name) => problem.fix(format!("did you mean `{name}`?")),
            None => {
                problem.fix(known_names(known).unwrap_or_default() + "; a file of your own ends in .toml")
            }
        });
    }
    found.cloned()
}

fn from_file(
    walk: Walk<'_>,
    wanted: &Wanted,
    folder: &Folder,
    files: &mut Files,
    catalog: &Catalog,
) -> Option<LimitSet> {
    let Opened::At(file) = folder.open(Some(wanted), Form::Toml, files, walk.problems) else { return None };
    let faults = walk.problems.count();
    let root = parse(file, files, walk.problems);
    if walk.problems.count() > faults {
        return None;
    }
    // a limit set file states its own units
    let set = read_limit_set(Walk { bare: Bare { number: None, fraction: None }, ..walk }, &root);
    plates_known(walk, &root, catalog);
    set.filter(|_| walk.problems.count() == faults)
}

/// Notes a plate table that is not in the catalog.
fn plates_known(walk: Walk<'_>, limits: &Node, catalog: &Catalog) {
    let Kind::Table(entries) = &limits.kind else { return };
    let Some((_, node)) = entries.iter().find(|(key, _)| key.name == "plates") else { return };
    let Kind::Text(name) = &node.kind else { return };
    let known = catalog.plates.iter().map(|table| table.name.as_str());
    if known.clone().any(|known| known == name.trim()) {
        return;
    }
    let problem = Problem::at(node.place, format!("{} is not a table of plate tolerances", quoted(name)));
    walk.problems.note(match nearest(name, known.clone()) {
        Some(name) => problem.fix(format!("did you mean `{name}`?")),
        None => problem.fix(known_names(known).unwrap_or_default()),
    });
}

/// Where the limit set is named, for faults of what it should give.
pub(super) fn place(head: &Head) -> Place {
    head.limits.as_ref().map_or(head.place, |(_, place)| *place)
}
