//! The rows of `detail --format csv`: one a kind of base, lengths in words and in nanometres.

use super::names;
use crate::detail::{Detail, Drawing, Kind, Origin};
use crate::length::Length;
use crate::report::document::{Sheet, nm_cell};
use crate::text::Style;

/// Gives one row a kind of base.
pub(super) fn sheet(detail: &Detail<'_>, style: Style) -> Sheet {
    let heads = vec![
        "bases",
        "rod",
        "from",
        "parts_nm",
        "at_design_nm",
        "worst_nm",
        "probability_ppm",
        "convolved_nm",
        "root_sum_square_nm",
        "projection",
        "projection_nm",
        "thread",
        "thread_nm",
        "thread_advised_nm",
        "lowest_nm",
        "highest_nm",
        "likely_projection_nm",
        "likely_thread_nm",
        "drawings_meet",
        "columns",
        "columns_open",
        "clears_measured_nm",
        "clears_all_nm",
        "clears_share_nm",
        "claimed_nm",
    ];
    Sheet { heads, rows: detail.kinds.iter().map(|kind| row(detail, kind, style)).collect() }
}

fn row(detail: &Detail<'_>, kind: &Kind<'_>, style: Style) -> Vec<String> {
    let terms = kind.terms.as_ref().ok();
    let (worst, likely) = (kind.worst.as_ref(), kind.likely.as_ref());
    let measured = kind.measured.as_ref();
    let words = |length: Option<Length>| length.map(|it| style.exact(it)).unwrap_or_default();
    let number = |number: Option<usize>| number.map(|it| it.to_string()).unwrap_or_default();
    vec![
        names(detail, kind),
        kind.members.first().map(|first| first.base.rods.size.clone()).unwrap_or_default(),
        terms.map_or("", |terms| origin(terms.plane.origin)).to_owned(),
        nm_cell(terms.map(|terms| terms.parts())),
        nm_cell(terms.map(|terms| terms.at_design())),
        nm_cell(terms.map(|terms| terms.worst())),
        detail.asked.probability.millionths().to_string(),
        nm_cell(likely.map(|(likely, _)| likely.convolved)),
        nm_cell(likely.map(|(likely, _)| likely.root_sum_square)),
        words(worst.map(|worst| worst.projection)),
        nm_cell(worst.map(|worst| worst.projection)),
        words(worst.map(|worst| worst.thread)),
        nm_cell(worst.map(|worst| worst.thread)),
        nm_cell(worst.map(|worst| worst.thread_advised)),
        nm_cell(worst.map(|worst| worst.allowed[0])),
        nm_cell(worst.map(|worst| worst.allowed[1])),
        nm_cell(likely.map(|(_, spec)| spec.projection)),
        nm_cell(likely.map(|(_, spec)| spec.thread)),
        meets(&kind.drawings).to_owned(),
        number(measured.map(|measured| measured.sample)),
        number(measured.map(|measured| measured.open)),
        nm_cell(measured.and_then(|measured| measured.clears_measured)),
        nm_cell(measured.and_then(|measured| measured.clears_all)),
        nm_cell(measured.and_then(|measured| measured.clears_share)),
        nm_cell(measured.and_then(|measured| measured.claim.projection)),
    ]
}

/// Gives an origin as JSON has it.
pub(super) const fn origin(origin: Origin) -> &'static str {
    match origin {
        Origin::Design => "design",
        Origin::Pad => "pad",
    }
}

/// Tells whether all drawings meet the worst case; blank where none of them gives anything.
fn meets(drawings: &[Drawing]) -> &'static str {
    let each = || drawings.iter().filter_map(Drawing::meets);
    match (each().next(), each().all(|meets| meets)) {
        (None, _) => "",
        (Some(_), true) => "yes",
        (Some(_), false) => "no",
    }
}
