//! What `explain` and `ask` tell of the loads at a column, and what the drawing says of them.

pub(super) mod bearing;
pub(super) mod shear;

use super::document::Document;
use crate::catalog::Catalog;
use crate::check::{Case, ColumnCase};
use crate::model::Loads;
use crate::quantity::Force;
use crate::text::Style;
use bearing::{BearingJson, OnConcrete};
use serde::Serialize;
use shear::{InShear, ShearJson};

/// What there is to tell of loads at a column.
pub(super) struct Told {
    /// Of the concrete under it.
    on_concrete: Option<OnConcrete>,
    /// Of its rods in shear.
    in_shear: Option<InShear>,
}

impl Told {
    /// Gathers it.
    pub(super) fn of(case: &Case<'_>, column: &ColumnCase, catalog: &Catalog) -> Self {
        Self { on_concrete: OnConcrete::of(case, column), in_shear: InShear::of(case, column, catalog) }
    }

    /// Gives the concrete as JSON has it.
    pub(super) fn bearing_json(&self) -> Option<BearingJson> {
        self.on_concrete.as_ref().map(OnConcrete::json)
    }

    /// Gives the rods in shear as JSON has them.
    pub(super) fn shear_json(&self) -> Option<ShearJson> {
        self.in_shear.as_ref().map(InShear::json)
    }

    /// Gives the rows of a short table of what the concrete bears.
    pub(super) fn bearing_rows(&self, style: Style) -> Vec<Vec<String>> {
        self.on_concrete.iter().flat_map(|it| it.rows(style)).collect()
    }

    /// Gives the row of a short table of the rods in shear.
    pub(super) fn shear_row(&self) -> Option<Vec<String>> {
        self.in_shear.as_ref().map(InShear::row)
    }

    /// Adds its sections.
    pub(super) fn tell(&self, document: &mut Document, style: Style) {
        if let Some(on_concrete) = &self.on_concrete {
            on_concrete.tell(document, style);
        }
        if let Some(in_shear) = &self.in_shear {
            in_shear.tell(document);
        }
    }
}

/// Says the loads that a job gives, those it does not give as well; none of them is `not given`.
pub(super) fn words(loads: &Loads, style: Style) -> String {
    if !loads.any() {
        return "not given".to_owned();
    }
    let each = loads.all().map(|(name, load)| match load {
        None => format!("{name} not given"),
        Some(Force::ZERO) => format!("{name} none"),
        Some(load) => format!("{name} {}", style.force_exact(load)),
    });
    each.join(", ")
}

/// The loads of a job as JSON has them, in whole millinewtons, up; null is not given.
#[derive(Serialize)]
pub(super) struct LoadsJson {
    #[serde(rename = "erection_mN")]
    erection: Option<i64>,
    #[serde(rename = "factored_mN")]
    factored: Option<i64>,
    #[serde(rename = "shear_mN")]
    shear: Option<i64>,
    #[serde(rename = "tension_mN")]
    tension: Option<i64>,
}

impl LoadsJson {
    /// Gives them; none where none is given.
    pub(super) fn of(loads: &Loads) -> Option<Self> {
        let up = |load: Option<Force>| load.map(Force::millinewtons_up);
        loads.any().then(|| Self {
            erection: up(loads.erection),
            factored: up(loads.factored),
            shear: up(loads.shear),
            tension: up(loads.tension),
        })
    }
}
