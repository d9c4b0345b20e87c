//! `rodreach catalog`.

use super::Refusal;
use super::args::CatalogArgs;
use super::print;
use crate::catalog::{Catalog, load};
use crate::report::{Listed, catalog_answer};
use crate::source::render;

/// Runs the command.
pub(super) fn run(args: &CatalogArgs) -> Result<bool, Refusal> {
    let listed = Listed { only: args.only.as_deref(), unverified: args.unverified };
    print::answer(&catalog_answer(&built_in()?, listed), &args.out)
}

/// Reads the built-in tables.
pub(super) fn built_in() -> Result<Catalog, Refusal> {
    load().map_err(|(problems, files)| Refusal(render(&problems, &files)))
}
