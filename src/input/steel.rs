//! Grades of rods and nuts: looked up in the catalog, unknown ones noted with the nearest name.

use super::base::sound;
use super::context::{Context, known_names};
use super::job_toml::one_of;
use super::parts::Size;
use crate::catalog::{Catalog, Finish};
use crate::model::RodSteel;
use crate::source::{Node, Problem, Table, nearest};
use crate::text::quoted;

/// Reads `grade` and `finish` of the rods.
#[expect(clippy::option_option, reason = "outside: whether it is sound; inside: whether it is there")]
pub(super) fn rods(
    context: Context<'_>,
    table: &Table<'_>,
    size: Option<&Size>,
    catalog: &Catalog,
) -> Option<Option<RodSteel>> {
    let walk = context.walk;
    let grade = table.get("grade").map(|node| {
        let known = catalog.rod_grades().map(|grade| grade.name.as_str());
        known_grade(context, node, "rods", known)
    });
    let finish = table.get("finish").map(|node| {
        if grade.is_none() {
            context.note(
                Problem::at(node.place, "`finish` says nothing without the grade of the rods")
                    .fix("add grade = \"F1554-36\", or take the finish out"),
            );
        }
        one_of(walk, node, Finish::WRITTEN)
    });
    let (grade, finish) = (sound(grade)?, sound(finish)?);
    // without a diameter the base is refused anyway
    Some(grade.zip(size).map(|(grade, size)| RodSteel::find(catalog, &grade, finish, size.diameter)))
}

/// Reads the grade of a nut.
pub(super) fn nut_grade(context: Context<'_>, node: &Node, catalog: &Catalog) -> Option<String> {
    let mut known: Vec<&str> = catalog.nut_grades().collect();
    let mut seen: Vec<&str> = Vec::new();
    known.retain(|name| {
        !seen.contains(name) && {
            seen.push(name);
            true
        }
    });
    known_grade(context, node, "nuts", known.iter().copied())
}

/// Takes a node as one of the known grades; the nearest name and the known ones are told of any other.
fn known_grade<'n>(
    context: Context<'_>,
    node: &Node,
    what: &str,
    known: impl Iterator<Item = &'n str> + Clone,
) -> Option<String> {
    let name = context.walk.name(node)?;
    if known.clone().any(|grade| grade == name) {
        return Some(name);
    }
    let all = known_names(known.clone()).unwrap_or_default();
    let fix = match nearest(&name, known) {
        Some(near) => format!("did you mean `{near}`? {all}"),
        None => all,
    };
    context.note(Problem::at(node.place, format!("{} is not a grade of {what}", quoted(&name))).fix(fix));
    None
}
