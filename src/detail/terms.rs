//! The terms a projection is made of, each with its band and on whose word it stands.

use super::plane::{Plane, plane};
use crate::catalog::{Authority, Extent, Standing};
use crate::length::Length;
use crate::model::{Base, Job, Levelling};

/// What sort of term it is: which sum it enters, and how it is taken to vary.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Group {
    /// The designed gap under the plate.
    Gap,
    /// Plate, washers and nuts.
    Part,
    /// Thread wanted beyond the outer nut.
    Beyond,
    /// The top of the rod from its design.
    RodTop,
    /// The bearing plane from its design.
    Bearing,
    /// What shims may be off.
    Shims,
    /// What a reading of a projection is good to.
    Reading,
}

impl Group {
    /// Gives its name as JSON has it.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Gap => "gap",
            Self::Part => "part",
            Self::Beyond => "beyond",
            Self::RodTop => "rod-top",
            Self::Bearing => "bearing",
            Self::Shims => "shims",
            Self::Reading => "reading",
        }
    }
}

/// One term of the projection: it asks for at least and at most so much.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Term {
    /// What sort it is.
    pub group: Group,
    /// What it is called.
    pub name: String,
    /// The least it may ask for.
    pub least: Length,
    /// The most it may ask for: what the worst case counts.
    pub most: Length,
    /// On whose word.
    pub authority: Authority,
}

/// All terms of a kind of base.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Terms {
    /// The terms, in the order in which they are added up.
    pub list: Vec<Term>,
    /// Where the underside of the plate may stand.
    pub plane: Plane,
    /// The top of a rod from its design: lowest and highest.
    pub rod_top: [Length; 2],
    /// The plate.
    pub plate: Extent,
    /// The washers.
    pub washers: Extent,
    /// The nuts.
    pub nuts: Extent,
    /// The levelling nut and its washer under the plate; none where it is not set on levelling nuts.
    pub levelling: Option<Extent>,
    /// Thread wanted beyond the outer nut.
    pub beyond: Length,
    /// Clear thread to remain under the nut.
    pub clear: Length,
    /// What one reading of a projection is good to.
    pub reading: Length,
}

impl Terms {
    fn sum(&self, groups: &[Group]) -> Length {
        self.list.iter().filter(|term| groups.contains(&term.group)).map(|term| term.most).sum()
    }

    /// Gives what gap, parts and the thread wanted beyond the nut come to.
    #[must_use]
    pub fn parts(&self) -> Length {
        self.sum(&[Group::Gap, Group::Part, Group::Beyond])
    }

    /// Gives the least projection with the plate at its design level: parts, and the rod as low as it may be.
    #[must_use]
    pub fn at_design(&self) -> Length {
        self.parts() + self.sum(&[Group::RodTop])
    }

    /// Gives the least projection at the worst of all terms.
    #[must_use]
    pub fn worst(&self) -> Length {
        self.list.iter().map(|term| term.most).sum()
    }

    /// Gives how far below the underside of the plate a rod must have thread, at the most: below the levelling nut and its
    /// washer where there are such, else no further than the top of the washers over the plate, which is above it.
    #[must_use]
    pub fn thread_below(&self) -> Length {
        self.levelling.map_or(-(self.plate.least + self.washers.least), |parts| parts.most)
    }

    /// Gives the lowest the underside of the plate may stand, shims at their thinnest.
    #[must_use]
    pub fn lowest(&self) -> Length {
        self.plane.low.height - self.plane.shims.as_ref().map_or(Length::ZERO, |shims| shims.less)
    }
}

/// Lists the terms of a kind of base; `reading` is what one projection is good to.
///
/// # Errors
/// Says what is missing, each in a sentence.
pub fn terms(job: &Job, base: &Base, reading: Length) -> Result<Terms, Vec<&'static str>> {
    let limits = &job.limits.tables;
    let rod_top = limits.rods.as_ref().and_then(|rods| rods.top.as_ref());
    let rod_top = rod_top
        .ok_or("no limit says how far the top of a rod may stand from its design: set [limits.rods] top");
    let (rod_top, plane) = match (rod_top, plane(job, base)) {
        (Ok(rod_top), Ok(plane)) => (rod_top, plane),
        (rod_top, plane) => return Err(rod_top.err().into_iter().chain(plane.err()).collect()),
    };
    let exact = |group, name: &str, length, authority| Term {
        group,
        name: name.to_owned(),
        least: length,
        most: length,
        authority,
    };
    let part = |name: String, extent: Extent, authority: &Authority| Term {
        group: Group::Part,
        name,
        least: extent.least,
        most: extent.most,
        authority: authority.clone(),
    };
    let mut list = Vec::new();
    if base.has_bed() {
        list.push(exact(Group::Gap, "gap under the plate", base.bed, Authority::this_job()));
    }
    list.push(part("plate".to_owned(), base.plate.thickness, &base.plate.tolerance));
    for washer in &base.washers {
        list.push(part(format!("washer {}", washer.series), washer.thickness, &washer.authority));
    }
    for nut in &base.nuts {
        list.push(part(format!("nut {}", nut.series), nut.height, &nut.authority));
    }
    list.push(exact(Group::Beyond, "beyond the nut", base.beyond.value, base.beyond.authority.clone()));
    let [lowest, highest] = rod_top.value;
    list.push(Term {
        group: Group::RodTop,
        name: "rod top low".to_owned(),
        least: -highest,
        most: -lowest,
        authority: rod_top.authority.clone(),
    });
    list.push(Term {
        group: Group::Bearing,
        name: "plate raised".to_owned(),
        least: plane.low.height - plane.design,
        most: plane.high.height - plane.design,
        authority: plane.high.authority.clone(),
    });
    if let Some(shims) = &plane.shims {
        list.push(Term {
            group: Group::Shims,
            name: "shims too thick".to_owned(),
            least: -shims.less,
            most: shims.more,
            authority: shims.authority.clone(),
        });
    }
    list.push(exact(Group::Reading, "one tape reading", reading, good_to(job.rods_plus_minus_assumed)));
    Ok(Terms {
        list,
        plane,
        rod_top: rod_top.value,
        plate: base.plate.thickness,
        washers: base.washers_with(0),
        nuts: base.nuts_sum(),
        levelling: base.levelling().map(Levelling::height),
        beyond: base.beyond.value,
        clear: base.clear.value,
        reading,
    })
}

/// Gives on whose word stands what a reading is good to.
fn good_to(assumed: bool) -> Authority {
    if assumed {
        let text = "without rods_plus_minus a projection is taken as good to 1/16 in or 1.5 mm; check takes it off what is \
                    measured, so it is asked for here";
        Authority::new(Standing::HouseRule, text)
    } else {
        Authority::this_job()
    }
}
