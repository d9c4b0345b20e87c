//! What is published of rods in shear under a plate that stands clear of its concrete: told, and no limit of the plan.

use super::Share;
use crate::catalog::{Authority, Standing};
use crate::length::{Length, Unit};

/// Gives on whose word [`without_lever_arm`] stands.
#[must_use]
pub fn lever_arm_authority() -> Authority {
    let text = "EN 1992-4, 6.2.2.3(1): shear without a lever arm where the plate is on the concrete itself or on levelling \
                mortar of 30 MPa or more, no thicker than half the rod; as quoted by two second parties";
    Authority::new(Standing::Published, text)
}

/// Gives the thickest mortar under a plate with which no lever arm is counted, from the diameter of the rod.
#[must_use]
pub fn without_lever_arm(diameter: Length) -> Length {
    Length::from_nm(diameter.nm() / 2)
}

/// Gives on whose word [`lever_arm`] stands.
#[must_use]
pub fn arm_authority() -> Authority {
    let text = "EN 1992-4, 6.2.2.3(2) and formula (7.37), l_a = a3 + e1: half a rod, and from the concrete to the middle of the \
                plate, grout not counted; as quoted by two second parties";
    Authority::new(Standing::Published, text)
}

/// Gives the lever arm of a rod in shear, from its diameter, the gap under the plate and the plate, up.
#[must_use]
pub fn lever_arm(diameter: Length, gap: Length, plate: Length) -> Length {
    let half = |length: Length| Length::from_nm((length.nm() + 1).div_euclid(2));
    half(diameter) + gap + half(plate)
}

/// Gives on whose word a rod is worked out in bending.
#[must_use]
pub fn bending_authority() -> Authority {
    let text = "EN 1992-4, formulas (7.37) and (7.38), as quoted by second parties: V = alpha M / l_a, alpha 1 or 2, M = M0 (1 - N \
                / N_Rd); M0 = 1.2 W f_uk with W of the stress area, and the factors of Table 4.1, from memory: to be checked";
    Authority::new(Standing::FromMemory, text)
}

/// Hundredths of the strength in shear that are left on a grout pad that is built up: ACI 318-19, 17.7.1.2.1.
pub const ON_A_GROUT_PAD: u32 = 80;

/// Gives on whose word the factor for a grout pad that is built up, 0.80, stands.
#[must_use]
pub fn grout_pad_authority() -> Authority {
    let text = "ACI 318-19, 17.7.1.2.1: the strength of the rods in shear times 0.80 where a grout pad is built up under the plate; \
                as quoted by a second party";
    Authority::new(Standing::Published, text)
}

/// Gives on whose word [`share_on_mortar`] stands.
#[must_use]
pub fn share_on_mortar_authority() -> Authority {
    let text = "EN 1992-4, formula (7.36), 1 - 0.01 t with t in mm, for mortar of 30 MPa or more up to 40 mm and five \
                diameters, and on more conditions; as quoted by two second parties, one of which has half a diameter for five: \
                read the clause";
    Authority::new(Standing::Published, text)
}

/// Gives the share of a rod's shear strength that is left on so much mortar; none where the mortar is too thick for it.
#[must_use]
pub fn share_on_mortar(mortar: Length, diameter: Length) -> Option<Share> {
    let mm = |mm: i64| Length::from_nm(mm * Unit::Millimetre.nm());
    let most = mm(40).nm().min(diameter.nm().saturating_mul(5));
    let fits = mortar.nm() >= 0 && mortar.nm() <= most;
    fits.then(|| Share { part: mm(100) - mortar, whole: mm(100) })
}

/// Gives on whose word [`full_bearing`] stands.
#[must_use]
pub fn bearing_authority() -> Authority {
    let text = "EN 1993-1-8, 6.2.5(7): the joint coefficient 2/3 holds for grout of a fifth of the concrete's strength or more, \
                no thicker than a fifth of the smaller side of the plate; over 50 mm the grout as strong as the concrete; as \
                quoted by a second party";
    Authority::new(Standing::Published, text)
}

/// Gives the thickest bed for which the joint coefficient 2/3 holds, from the smaller side of the plate.
#[must_use]
pub fn full_bearing(side: Length) -> Length {
    Length::from_nm(side.nm() / 5)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(mm: i64) -> Length {
        Length::from_nm(mm * Unit::Millimetre.nm())
    }

    /// EN 1992-4, (7.36), as quoted by second parties: 20, 30 and 40 mm leave 0.80, 0.70 and 0.60; 41 mm is not allowed.
    #[test]
    fn mortar_of_20_30_and_40_mm_leaves_80_70_and_60_percent_and_41_mm_has_no_share() {
        let left = |thick: i64| share_on_mortar(mm(thick), mm(24)).map(|share| share.part);
        assert_eq!([20, 30, 40, 41].map(left), [Some(mm(80)), Some(mm(70)), Some(mm(60)), None]);
    }

    /// The same formula: five diameters, where they are less than 40 mm, are the most.
    #[test]
    fn mortar_thicker_than_five_diameters_has_no_share() {
        assert!(share_on_mortar(mm(30), mm(6)).is_some());
        assert_eq!(share_on_mortar(mm(30) + Length::from_nm(1), mm(6)), None);
    }

    /// EN 1992-4, (7.37), a worked example quoted by a second party: M24, grout 44 mm, plate 32 mm: e1 60, l_a 72 mm.
    #[test]
    fn an_m24_rod_on_44_mm_of_grout_under_32_mm_of_plate_has_a_lever_arm_of_72_mm() {
        assert_eq!(lever_arm(mm(24), mm(44), mm(32)), mm(72));
        assert_eq!(lever_arm(Length::from_nm(1), mm(0), Length::from_nm(1)), Length::from_nm(2), "up");
    }

    /// EN 1992-4, 6.2.2.3(1), as quoted by two second parties: M20 and M24 take 10 and 12 mm without a lever arm.
    #[test]
    fn rods_m20_and_m24_take_10_and_12_mm_without_a_lever_arm() {
        assert_eq!([20, 24].map(|diameter| without_lever_arm(mm(diameter))), [10, 12].map(mm));
    }

    /// EN 1993-1-8, 6.2.5(7), as quoted by a second party: plates of 340 and 200 mm take 68 and 40 mm of grout.
    #[test]
    fn plates_of_340_and_200_mm_take_68_and_40_mm_of_grout() {
        assert_eq!([340, 200].map(|side| full_bearing(mm(side))), [68, 40].map(mm));
    }
}
