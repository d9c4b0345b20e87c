//! What is published of how plates are set, in `catalog`: figures of rules that no limit set holds.

use super::list::{Lister, Row, style_in};
use crate::catalog::{
    LEAST_COVER, PACK_WIDTH, RODS_FOR_NUTS, SETTING_PLATE_SIDE, SETTING_PLATE_SIDE_LIKED,
    SETTING_PLATE_THICKNESS, cover_authority, pack_authority, rods_for_nuts_authority,
    setting_plate_authority, setting_plate_liked_authority, stand_off_authority,
};
use crate::length::{Length, Unit};

/// Lists every figure.
pub(super) fn setting(rows: &mut Vec<Row>) {
    let (series, title) = ("how-plates-are-set", "Packs, levelling nuts and setting plates");
    let mut lister = Lister { kind: "setting", series, title, style: style_in(Unit::Inch), rows };
    let one = |lister: &mut Lister<'_>, of: &str, figure, length: Length, authority| {
        let words = lister.style.exact(length);
        lister.words(of, figure, words, &authority);
        lister.nominal(length);
    };
    one(&mut lister, "packs", "cover, least", LEAST_COVER, cover_authority());
    one(&mut lister, "packs", "width, about", PACK_WIDTH, pack_authority());
    lister.words("levelling nuts", "rods, least", RODS_FOR_NUTS.to_string(), &rods_for_nuts_authority());
    lister.words("levelling nuts", "stand-off, most", "one rod diameter".to_owned(), &stand_off_authority());
    one(&mut lister, "setting plate", "thick, about", SETTING_PLATE_THICKNESS, setting_plate_authority());
    one(&mut lister, "setting plate", "side, most", SETTING_PLATE_SIDE, setting_plate_authority());
    one(
        &mut lister,
        "setting plate",
        "side, noted",
        SETTING_PLATE_SIDE_LIKED,
        setting_plate_liked_authority(),
    );
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::catalog::Standing;

    #[test]
    fn every_figure_is_listed_and_two_of_them_are_from_memory() {
        let mut rows = Vec::new();
        setting(&mut rows);
        let words: Vec<&str> = rows.iter().map(|row| row.words.as_str()).collect();
        assert_eq!(words, ["25 mm", "100 mm", "4", "one rod diameter", "1/4\"", "24\"", "22\""]);
        assert_eq!(rows.iter().filter(|row| row.source.kind == Standing::FromMemory).count(), 2);
    }
}
