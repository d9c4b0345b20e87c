//! What a base must carry and what its concrete is good for, as the job says; what it does not say is unknown.

use crate::quantity::{Force, Stress};

/// The loads of one column of a kind of base; none is not given, which is never 0.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Loads {
    /// Down, while the plate stands on what it was set on and no grout is hard.
    pub erection: Option<Force>,
    /// Down, with load factors, once the building is finished.
    pub factored: Option<Force>,
    /// Along the plate, on all rods together.
    pub shear: Option<Force>,
    /// Up, on all rods together.
    pub tension: Option<Force>,
}

/// The concrete under the bases.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Concrete {
    /// The specified compressive strength.
    pub strength: Option<Stress>,
    /// What field-cured samples were tested to before erection.
    pub tested: Option<Stress>,
}

impl Loads {
    /// Gives every load with the key it has in a job.
    #[must_use]
    pub const fn all(&self) -> [(&'static str, Option<Force>); 4] {
        [
            ("erection", self.erection),
            ("factored", self.factored),
            ("shear", self.shear),
            ("tension", self.tension),
        ]
    }

    /// Tells whether any load is given.
    #[must_use]
    pub fn any(&self) -> bool {
        self.all().iter().any(|(_, load)| load.is_some())
    }
}

/// Percent of the specified strength that field-cured samples must reach before steel is erected: 29 CFR 1926.752(a)(1)
/// and (b).
pub const PERCENT_BEFORE_ERECTION: u32 = 75;

impl Concrete {
    /// Gives the strength that can be counted on while steel is erected; none where nothing of it is known.
    ///
    /// What was tested, no more than specified; where nothing was tested the three quarters from which on
    /// 29 CFR 1926.752 lets steel be erected.
    #[must_use]
    pub fn at_erection(&self) -> Option<Stress> {
        match (self.tested, self.strength) {
            (Some(tested), Some(strength)) => Some(tested.min(strength)),
            (Some(tested), None) => Some(tested),
            (None, strength) => strength.map(|it| it.hundredths(PERCENT_BEFORE_ERECTION)),
        }
    }

    /// Tells whether the concrete was tested to what 29 CFR 1926.752 asks before erection; none where that is not known.
    #[must_use]
    pub fn is_strong_enough(&self) -> Option<bool> {
        Some(self.tested?.is_at_least(PERCENT_BEFORE_ERECTION, self.strength?))
    }
}
