//! On whose word a figure stands.

use crate::source::{Node, Problem, Walk};
use serde::Serialize;

/// How well a figure is sourced.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord, Serialize)]
pub enum Standing {
    /// A published document says so.
    #[serde(rename = "published")]
    Published,
    /// The trade does so; no document was found.
    #[serde(rename = "common practice")]
    CommonPractice,
    /// Remembered, and not looked up: check it before you rely on it.
    #[serde(rename = "from memory")]
    FromMemory,
    /// A rule of this program.
    #[serde(rename = "house rule")]
    HouseRule,
    /// The job file says so.
    #[serde(rename = "this job")]
    ThisJob,
}

impl Standing {
    const WRITTEN: [(Self, &'static str); 5] = [
        (Self::Published, "published"),
        (Self::CommonPractice, "common practice"),
        (Self::FromMemory, "from memory"),
        (Self::HouseRule, "house rule"),
        (Self::ThisJob, "this job"),
    ];

    /// Gives the standing as it is written.
    #[must_use]
    pub fn words(self) -> &'static str {
        Self::WRITTEN.iter().find(|(standing, _)| *standing == self).map_or("", |(_, words)| words)
    }
}

/// A standing and the words that name the source.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Authority {
    /// How well the figure is sourced.
    pub kind: Standing,
    /// The source: title, edition, clause or table.
    pub text: String,
}

impl Authority {
    /// Makes an authority.
    #[must_use]
    pub fn new(kind: Standing, text: impl Into<String>) -> Self {
        Self { kind, text: text.into() }
    }

    /// Gives the authority of a value that the job file sets.
    #[must_use]
    pub fn this_job() -> Self {
        Self::new(Standing::ThisJob, "set in the job file")
    }
}

/// Reads `{ kind, text }`.
#[must_use]
pub fn read_authority(walk: Walk<'_>, node: &Node) -> Option<Authority> {
    let table = walk.table(node, "source")?;
    let kind = table.need(walk, "kind", "\"published\"");
    let text = table.need(walk, "text", "\"title, edition, clause\"");
    table.close(walk);
    let (kind_node, text) = (kind?, walk.name(text?)?);
    let kind = walk.text(kind_node)?;
    let found = Standing::WRITTEN.iter().take(4).find(|(_, words)| *words == kind);
    if found.is_none() {
        walk.problems.note(
            Problem::at(kind_node.place, format!("`{kind}` is not a standing of a source"))
                .fix("use \"published\", \"common practice\", \"from memory\" or \"house rule\""),
        );
    }
    found.map(|(standing, _)| Authority::new(*standing, text))
}
