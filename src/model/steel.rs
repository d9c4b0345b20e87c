//! Of which steel rods and nuts are, and which nut is recommended on which rod.

use crate::catalog::{Authority, Catalog, Finish, NutGrade, NutStyle, Recommended, RodGrade};
use crate::length::Length;
use crate::quantity::Stress;

/// The steel of the rods of a base.
#[derive(Clone, Debug)]
pub struct RodSteel {
    /// The grade, as the catalog calls it.
    pub grade: String,
    /// The finish, where known.
    pub finish: Option<Finish>,
    /// Its strengths at this diameter; none where the grade has no such size.
    pub strengths: Option<RodGrade>,
    /// What is recommended at this diameter, for each finish that the rods may have; none is no row of the table.
    pub wanted: Vec<WantedNut>,
    /// On whose word another nut of no lower style and proof stress will do, where it will.
    pub no_weaker: Option<Authority>,
}

/// A nut that is recommended on a rod.
#[derive(Clone, Debug)]
pub struct WantedNut {
    /// The row of the table.
    pub row: Recommended,
    /// The proof stress of that nut, where known.
    pub proof: Option<Stress>,
}

/// The steel of a nut.
#[derive(Clone, Debug)]
pub struct NutSteel {
    /// The grade, as the catalog calls it.
    pub grade: String,
    /// On whose word it may replace any other grade, where it may.
    pub instead: Option<Authority>,
    /// Its proof stress in its style at this diameter, where known.
    pub proof: Option<NutGrade>,
}

impl RodSteel {
    /// Looks up what is recommended on rods of a grade and diameter.
    #[must_use]
    pub fn find(catalog: &Catalog, grade: &str, finish: Option<Finish>, diameter: Length) -> Self {
        let rows = catalog.recommended_nuts(grade, diameter).into_iter();
        let rows = rows.filter(|row| finish.is_none_or(|finish| finish == row.finish));
        let wanted = rows.map(|row| WantedNut {
            proof: catalog.nut_grade(&row.nut, row.style, diameter).and_then(|proof| proof.proof(row.finish)),
            row: row.clone(),
        });
        let file = catalog.grades.iter().find(|file| file.rods.iter().any(|rod| rod.name == grade));
        let no_weaker = file.and_then(|file| file.no_weaker.clone());
        let strengths = catalog.rod_grade(grade, diameter).cloned();
        Self { grade: grade.to_owned(), finish, strengths, wanted: wanted.collect(), no_weaker }
    }
}

impl NutSteel {
    /// Looks up a nut of a grade and style on a rod of a diameter.
    #[must_use]
    pub fn find(catalog: &Catalog, grade: &str, style: Option<NutStyle>, diameter: Length) -> Self {
        let instead = catalog.grades.iter().flat_map(|file| &file.instead).find(|it| it.nut == grade);
        Self {
            grade: grade.to_owned(),
            instead: instead.map(|it| it.authority.clone()),
            proof: style.and_then(|style| catalog.nut_grade(grade, style, diameter)).cloned(),
        }
    }
}
