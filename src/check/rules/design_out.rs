//! A seat stands too far from its design elevation.

use super::{Rule, differences_judged};
use crate::check::difference::DifferenceKind;

/// The record of this rule.
pub(super) const RULE: Rule = Rule {
    name: "design-out",
    about: "every seat from its design",
    checks: "the seat of a column differs from its design elevation by no more than the limit, \
             where elevations are absolute",
    why: "what joins the frame to its surroundings, floors, cranes and doors, is made for the design level",
    limit: |limits, style| {
        let accept = &limits.design.as_ref()?.accept;
        Some((format!("no more than {}", style.exact(accept.value)), accept.authority.clone()))
    },
    judge: |case| differences_judged(case, DifferenceKind::Design),
};

#[cfg(test)]
mod tests {
    use super::super::fixture::{clean_job, findings, make_relative, set_pad, told};
    use super::*;
    use crate::check::finding::{Level, Outcome};

    #[test]
    fn where_nothing_but_the_design_is_limited_a_seat_without_one_is_unknown() {
        let mut job = clean_job();
        make_relative(&mut job);
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::NotApplicable(_)), "next columns tell");
        let tables = &mut job.limits.tables;
        (tables.neighbours, tables.wall, tables.building) = (None, None, None);
        assert_eq!(told(&findings(&job, &RULE)), [Some(Level::Ask); 2]);
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::Unknown(Level::Ask, _)));
        job = clean_job();
        let tables = &mut job.limits.tables;
        (tables.neighbours, tables.wall, tables.building) = (None, None, None);
        assert_eq!(told(&findings(&job, &RULE)), [None; 2]);
        // the limit of the clean job is 1/2 in
        set_pad(&mut job, 0, 12_700_001);
        assert_eq!(told(&findings(&job, &RULE)), [Some(Level::Ask), None]);
        job.seat = None;
        assert!(matches!(findings(&job, &RULE)[0].outcome, Outcome::Unknown(Level::Ask, _)));
    }
}
