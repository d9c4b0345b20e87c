//! The plans that stand beside the one that is made, so that the choice is visible.

use super::action::{Aim, Plan};
use super::fewest::{NoPlan, Wish, plan_fewest};
use super::grind_one::grind_one;
use super::guard::limits_for;
use super::highest::plan_highest;
use super::level::plan_level;
use super::limits_kept::{To, limits_kept};
use crate::levels::Levelled;
use crate::model::Job;

/// A plan to compare with.
#[derive(Clone, Debug)]
pub struct Beside {
    /// What it is.
    pub what: What,
    /// Which limits it keeps.
    pub to: To,
    /// The plan; none where the columns that are held leave none.
    pub plan: Option<Plan>,
}

/// What a plan to compare with is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum What {
    /// The same aim, to the other limits.
    OtherLimits,
    /// Everything raised to the highest pad.
    HighestPad,
    /// One pad ground that the plan does not grind.
    GrindOne {
        /// Its column, an index into [`Job::columns`].
        column: usize,
    },
}

/// Makes a plan of an aim.
///
/// # Errors
/// As [`plan_fewest`].
pub fn plan_to(job: &Job, levels: &Levelled, aim: Aim, wish: &Wish) -> Result<Plan, NoPlan> {
    match aim {
        Aim::Fewest => plan_fewest(job, levels, wish),
        Aim::Level => {
            limits_for(job, levels, wish).map_err(NoPlan::TooCoarse)?;
            Ok(plan_level(job, levels, wish))
        }
    }
}

/// Makes the plans to compare with; columns that are held stay held, but where everything is raised to the highest pad.
///
/// # Errors
/// [`NoPlan::NotProven`].
pub fn beside(job: &Job, levels: &Levelled, wish: &Wish, plan: &Plan) -> Result<Vec<Beside>, NoPlan> {
    let mut found = Vec::new();
    let other = match plan.to {
        To::Accept => To::Desired,
        To::Desired => To::Accept,
    };
    if !limits_kept(job, levels, plan.to).allows_the_same_as(&limits_kept(job, levels, other)) {
        let made = match plan_to(job, levels, plan.aim, &Wish { to: other, ..wish.clone() }) {
            Ok(plan) => Some(plan),
            Err(NoPlan::NotProven) => return Err(NoPlan::NotProven),
            Err(NoPlan::Clash(_) | NoPlan::TooCoarse(_)) => None,
        };
        found.push(Beside { what: What::OtherLimits, to: other, plan: made });
    }
    let highest = plan_highest(job, levels, plan.to);
    found.push(Beside { what: What::HighestPad, to: plan.to, plan: Some(highest) });
    if plan.aim == Aim::Fewest {
        let ground = grind_one(job, levels, wish, plan)?;
        found.extend(ground.map(|(column, plan)| Beside {
            what: What::GrindOne { column },
            to: plan.to,
            plan: Some(plan),
        }));
    }
    Ok(found)
}
