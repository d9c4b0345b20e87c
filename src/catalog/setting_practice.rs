//! What is published of how base plates are set: on packs, on levelling nuts, on a setting plate.

use super::authority::{Authority, Standing};
use crate::length::{Length, Unit};

const fn mm(mm: i64) -> Length {
    Length::from_nm(mm * Unit::Millimetre.nm())
}

const fn quarters(quarters: i64) -> Length {
    Length::from_nm(quarters * Unit::Inch.nm() / 4)
}

fn published(text: &str) -> Authority {
    Authority::new(Standing::Published, text)
}

/// The least grout over the sides of packs that stay in.
pub const LEAST_COVER: Length = mm(25);

/// Gives on whose word [`LEAST_COVER`] stands.
#[must_use]
pub fn cover_authority() -> Authority {
    published(
        "EN 1090-2:2018, 9.5.4: packs that are left in stand in 25 mm of grout cover at least, unless specified otherwise; \
         as quoted by a second party",
    )
}

/// About how wide packs are.
pub const PACK_WIDTH: Length = mm(100);

/// Gives on whose word [`PACK_WIDTH`] and the places of packs stand.
#[must_use]
pub fn pack_authority() -> Authority {
    published(
        "AISC Design Guide 1, 2nd ed., 2.9.3: steel shim packs about 4 in. (100 mm) wide at the four edges of the plate; as \
         quoted by second parties",
    )
}

/// Gives on whose word one pack is too few and packs stand symmetric.
#[must_use]
pub fn perimeter_authority() -> Authority {
    published(
        "UK National Building Specification, clause 440: packs symmetric round the perimeter, no single central pack; AISC \
         Design Guide 1, 2nd ed., 2.9.3: at the four edges, as quoted by second parties; one UK note has a central pack",
    )
}

/// Gives on whose word a stand-off of one rod diameter stands.
#[must_use]
pub fn stand_off_authority() -> Authority {
    published(
        "Garlich and Koonce, on turn of nut for anchor bolts: in double-nut bases, which are not grouted, one rod diameter at \
         most from the concrete to the underside of the levelling nut; told here of a base before its grout",
    )
}

/// The fewest rods on which levelling nuts are not discouraged.
pub const RODS_FOR_NUTS: u32 = 4;

/// Gives on whose word [`RODS_FOR_NUTS`] stands.
#[must_use]
pub fn rods_for_nuts_authority() -> Authority {
    Authority::new(
        Standing::FromMemory,
        "AISC 303, commentary to 7.6: levelling nuts are discouraged with fewer than four rods; from memory, to be checked",
    )
}

/// The longest side of a setting plate.
pub const SETTING_PLATE_SIDE: Length = quarters(96);

/// The least thickness of a setting plate, of which the source says about.
pub const SETTING_PLATE_THICKNESS: Length = quarters(1);

/// Gives on whose word [`SETTING_PLATE_SIDE`] and [`SETTING_PLATE_THICKNESS`] stand.
#[must_use]
pub fn setting_plate_authority() -> Authority {
    published(
        "AISC Design Guide 1, 2nd ed., 2.9.2: setting plates about 1/4 in. thick, for base plates up to 24 in.; as quoted by a \
         second party",
    )
}

/// The longest side of a setting plate that is not discouraged.
pub const SETTING_PLATE_SIDE_LIKED: Length = quarters(88);

/// Gives on whose word [`SETTING_PLATE_SIDE_LIKED`] stands.
#[must_use]
pub fn setting_plate_liked_authority() -> Authority {
    Authority::new(
        Standing::FromMemory,
        "AISC 303, commentary to 7.6: levelling plates over 22 x 22 in. are discouraged; from memory, the 22 in. also in a \
         first edition of Design Guide 1; to be checked",
    )
}

/// Gives on whose word what holds a column must bear the loads of erection.
#[must_use]
pub fn erection_authority() -> Authority {
    published(
        "29 CFR 1926.755(a)(3): columns are set on level finished floors, pre-grouted leveling plates, leveling nuts or shim \
         packs which are adequate to transfer the construction loads",
    )
}

/// Gives on whose word levelling nuts are for light loads of erection.
#[must_use]
pub fn lightly_loaded_authority() -> Authority {
    published(
        "AISC Design Guide 1, 2nd ed., 2.9.1: levelling nuts only where columns are relatively lightly loaded during erection; \
         the rods are checked in compression and for push-out, and the nuts keep taking load after grouting; as quoted by a \
         second party",
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    /// AISC Design Guide 1, 2.9.2, 24 in. and 1/4 in.; AISC 303, 7.6, 22 in. (from memory); EN 1090-2, 9.5.4, 25 mm; Design
    /// Guide 1, 2.9.3, 100 mm. In nanometres, an inch being 25.4 mm.
    #[test]
    fn published_figures_are_these_in_nanometres() {
        let found =
            [SETTING_PLATE_SIDE, SETTING_PLATE_SIDE_LIKED, SETTING_PLATE_THICKNESS, LEAST_COVER, PACK_WIDTH];
        assert_eq!(found.map(Length::nm), [609_600_000, 558_800_000, 6_350_000, 25_000_000, 100_000_000]);
    }
}
