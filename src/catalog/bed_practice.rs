//! What is published of the thickness of grout beds: told beside a designed bed, and no limit of the plan.

use super::authority::{Authority, Standing};
use super::grouts::Consistency;
use crate::length::{Length, Unit};

/// Gives on whose word [`bed_for_flow`] stands.
#[must_use]
pub fn flow_authority() -> Authority {
    let text = "ACI 351.1R-99, 5.5, flowable grout placed by gravity: 1 in. for the first foot of flow, 1/2 in. more for each \
                foot more, to about 4 in.; fluid grout 1/4 to 1/2 in. less, never less than 1 in.; plastic grout 1/2 to 1 in. \
                more; as quoted by a second party";
    Authority::new(Standing::Published, text)
}

/// Gives the bed that flowable grout placed by gravity wants to flow so far; a foot that is begun counts whole.
#[must_use]
pub fn bed_for_flow(flow: Length) -> Length {
    let inch = Unit::Inch.nm();
    let feet = flow.nm().max(1).div_euclid(Unit::Foot.nm());
    let begun = i64::from(flow.nm().max(1).rem_euclid(Unit::Foot.nm()) > 0);
    let more = (feet + begun - 1).max(0);
    Length::from_nm((inch + more.saturating_mul(inch / 2)).min(4 * inch))
}

/// Gives the least and the most bed that grout of a consistency wants to flow so far, as in [`flow_authority`].
#[must_use]
pub fn bed_for(flow: Length, consistency: Consistency) -> [Length; 2] {
    let inch = Length::from_nm(Unit::Inch.nm());
    let quarters = |number: i64| Length::from_nm(Unit::Inch.nm() / 4 * number);
    let bed = bed_for_flow(flow);
    match consistency {
        Consistency::Flowable => [bed, bed],
        Consistency::Fluid => [2, 1].map(|less| (bed - quarters(less)).max(inch)),
        Consistency::Plastic => [2, 4].map(|more| bed + quarters(more)),
    }
}

/// Gives on whose word [`mortars`] stands.
#[must_use]
pub fn mortar_authority() -> Authority {
    let text = "EN 1090-2:2018, 5.9 (5.8 in 2008): neat cement for gaps up to 25 mm, fluid mortar not leaner than 1:1 for 25 \
                to 50 mm, dry mortar not leaner than 1:2 or fine concrete from 50 mm up; as quoted by a second party";
    Authority::new(Standing::Published, text)
}

/// Names what fills a gap; at a bound there are two.
#[must_use]
pub fn mortars(gap: Length) -> Vec<&'static str> {
    let mm = |mm: i64| Length::from_nm(mm * Unit::Millimetre.nm());
    let all = [
        (gap <= mm(25), "neat cement"),
        (gap >= mm(25) && gap <= mm(50), "fluid mortar, not leaner than 1:1"),
        (gap >= mm(50), "dry mortar, not leaner than 1:2, or fine concrete"),
    ];
    all.into_iter().filter(|(fits, _)| *fits).map(|(_, what)| what).collect()
}

/// Gives on whose word [`wants_instructions`] stands.
#[must_use]
pub fn instructions_authority() -> Authority {
    let text =
        "UK National Building Specification, clauses 440 and 441: for a gap up to 25 mm obtain instructions";
    Authority::new(Standing::Published, text)
}

/// Tells whether a gap is so small that instructions are to be obtained for it.
#[must_use]
pub fn wants_instructions(gap: Length) -> bool {
    gap <= Length::from_nm(25 * Unit::Millimetre.nm())
}

/// Gives the least and the most that is left for a bed where the concrete is within its limits, lowest and highest.
#[must_use]
pub fn gap_left(bed: Length, [low, high]: [Length; 2]) -> [Length; 2] {
    [bed - high, bed - low]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn inches(quarters: i64) -> Length {
        Length::from_nm(quarters * Unit::Inch.nm() / 4)
    }

    fn mm(mm: i64) -> Length {
        Length::from_nm(mm * Unit::Millimetre.nm())
    }

    /// ACI 351.1R-99, 5.5 (as quoted by a second party): 1 in. for 1 ft, 1/2 in. for each foot more, to about 4 in.
    #[test]
    fn aci_351_wants_1_and_1_half_and_2_inches_for_1_and_2_and_3_feet_and_4_from_7_on() {
        let feet = [1, 2, 3, 7, 8].map(|feet| bed_for_flow(Length::from_nm(feet * Unit::Foot.nm())));
        assert_eq!(feet, [4, 6, 8, 16, 16].map(inches));
        assert_eq!(bed_for_flow(Length::from_nm(Unit::Foot.nm() + 1)), inches(6), "a foot that is begun");
        assert_eq!(bed_for_flow(Length::ZERO), inches(4), "never less than 1 in.");
    }

    /// ACI 351.1R-99, 5.5 (as quoted by a second party): fluid 1/4 to 1/2 in. less and never under 1 in., plastic 1/2 to
    /// 1 in. more; over 2 ft flowable grout wants 1-1/2 in.
    #[test]
    fn fluid_grout_may_be_thinner_and_plastic_grout_must_be_thicker_than_flowable() {
        let two_feet = Length::from_nm(2 * Unit::Foot.nm());
        assert_eq!(bed_for(two_feet, Consistency::Flowable), [6, 6].map(inches));
        assert_eq!(bed_for(two_feet, Consistency::Fluid), [4, 5].map(inches));
        assert_eq!(bed_for(two_feet, Consistency::Plastic), [8, 10].map(inches));
        let one_foot = Length::from_nm(Unit::Foot.nm());
        assert_eq!(bed_for(one_foot, Consistency::Fluid), [4, 4].map(inches), "never less than 1 in.");
    }

    /// EN 1090-2, 5.9 (as quoted by a second party), and NBS 440 and 441, for gaps of 20, 40 and 60 mm.
    #[test]
    fn en_1090_2_fills_20_40_and_60_mm_with_neat_cement_fluid_mortar_and_dry_mortar() {
        let of = |gap: i64| mortars(mm(gap)).join("; ");
        assert_eq!(of(20), "neat cement");
        assert_eq!(of(40), "fluid mortar, not leaner than 1:1");
        assert_eq!(of(60), "dry mortar, not leaner than 1:2, or fine concrete");
        assert_eq!((mortars(mm(25)).len(), mortars(mm(50)).len()), (2, 2), "both at a bound");
        assert_eq!([20, 40, 60].map(|gap| wants_instructions(mm(gap))), [true, false, false]);
    }

    /// ACI 117-10, 3.3.1, +1/2 in. and -2 in. (as quoted by a second party) on a gap of 1-1/2 in.; derived.
    #[test]
    fn a_foundation_within_aci_117_leaves_1_to_3_and_a_half_inches_of_one_and_a_half() {
        assert_eq!(gap_left(inches(6), [inches(-8), inches(2)]), [inches(4), inches(14)]);
    }

    /// EN 1090-2, Annex B, +5 and -15 mm (as quoted by a second party) on a gap of 25 mm; derived.
    #[test]
    fn a_foundation_within_en_1090_2_leaves_20_to_40_mm_of_25() {
        assert_eq!(gap_left(mm(25), [mm(-15), mm(5)]), [mm(20), mm(40)]);
    }
}
