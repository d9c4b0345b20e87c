//! Published figures of concrete in bearing: the numbers of the publication first, then what comes out here.
#![allow(
    clippy::disallowed_types,
    reason = "the formula in floating point is what whole numbers are held against"
)]

use proptest::prelude::*;
use rodreach::length::{Bare, Length, Rounding, Unit, read};
use rodreach::model::{Factor, bearing_rules, most_bearing, nominal_bearing, spread};
use rodreach::quantity::{Area, Force, read_force, read_stress};
use rodreach::text::{Style, System};

fn sides(both: [&str; 2]) -> [Length; 2] {
    both.map(|side| read(side, Bare::of(Unit::Inch)).unwrap())
}

/// What a publication leaves of the bearing of a plate on a pier of concrete of 3 ksi, to 0.1 kip down.
fn left(name: &str, factor: Factor, plate: [&str; 2], pier: Option<[&str; 2]>) -> String {
    let strength = read_stress("3 ksi").unwrap();
    let plate = sides(plate);
    let round = Area::of(spread(plate, pier.map(sides)));
    let nominal = nominal_bearing(strength, Area::of(plate), round).unwrap();
    let rule = bearing_rules().into_iter().find(|it| it.name == name && it.factor == factor).unwrap();
    shown(rule.leaves(nominal).unwrap())
}

fn shown(force: Force) -> String {
    Style::new(System::Inch, 16).force(force, Rounding::Down)
}

/// The area that a load needs by a publication on concrete of 3 ksi, to the nearest 0.1 in2.
fn needed(name: &str, factor: Factor, load: &str) -> String {
    let rule = bearing_rules().into_iter().find(|it| it.name == name && it.factor == factor).unwrap();
    let area = rule.needs(read_force(load).unwrap(), read_stress("3 ksi").unwrap()).unwrap();
    Style::new(System::Inch, 16).area_of(area, Rounding::Nearest)
}

/// AISC Design Guide 1, 2nd ed., example 4.1, as quoted by a second party: f'c 3 ksi, plate 22 x 20 in, A2 = A1, phi 0.65:
/// 729 kip (729.3), and 422 in2 (422.3) needed for 700 kip.
#[test]
fn a_plate_of_22_by_20_bears_729_kip_on_concrete_of_its_own_size() {
    assert_eq!(left("ACI 318-19", Factor::Phi(65), ["22", "20"], Some(["22", "20"])), "729.3 kip");
    assert_eq!(
        left("ACI 318-19", Factor::Phi(65), ["22", "20"], None),
        "729.3 kip",
        "nothing told is nothing counted"
    );
    assert_eq!(needed("ACI 318-19", Factor::Phi(65), "700 kip"), "~422.3 in2");
}

/// AISC Design Example J.7 (AISC 360-05): f'c 3 ksi, plate 22 x 22 in on a pedestal of 24 x 24 in, phi 0.60: 808 kip
/// (807.8), and 451 in2 (451.0) needed for 690 kip; divided by Omega 2.50 538.6 kip.
#[test]
fn a_plate_of_22_by_22_on_24_by_24_bears_808_kip_by_phi_060() {
    let pier = Some(["24", "24"]);
    assert_eq!(left("AISC 360-05", Factor::Phi(60), ["22", "22"], pier), "~807.8 kip");
    assert_eq!(needed("AISC 360-05", Factor::Phi(60), "690 kip"), "~451 in2");
    // 538.56 kip, which the publication rounds up
    assert_eq!(left("AISC 360-05", Factor::Omega(250), ["22", "22"], pier), "~538.5 kip");
}

/// The same with phi 0.65, as ACI 318-19 and AISC 360 from 2010 on: 875.2 kip, worked out from the published formula.
#[test]
fn by_phi_065_the_same_plate_bears_875_kip() {
    for name in ["ACI 318-19", "AISC 360-10"] {
        assert_eq!(
            left(name, Factor::Phi(65), ["22", "22"], Some(["24", "24"])),
            "~875.1 kip",
            "875.16, down"
        );
    }
}

/// ACI 318-19, 22.8.3.2: concrete round a plate counts no more than twice, here where it is nine times as large.
#[test]
fn concrete_nine_times_the_plate_doubles_its_bearing_and_no_more() {
    let strength = read_stress("3 ksi").unwrap();
    let plate = Area::of(sides(["10", "10"]));
    let alone = nominal_bearing(strength, plate, plate).unwrap();
    let of = |pier: [&str; 2]| nominal_bearing(strength, plate, Area::of(sides(pier))).unwrap();
    assert_eq!(of(["30", "30"]), alone.times(2));
    assert_eq!(of(["20", "20"]), alone.times(2), "four times as large is where it ends");
    assert!(of(["19", "20"]) < alone.times(2));
    assert_eq!(most_bearing(strength, plate), Some(alone.times(2)));
}

/// Worked out from the published formula: a pack of 4 x 4 in on concrete of 3 ksi, phi 0.65, bears 26.5 kip by itself and
/// 53.0 kip at most with concrete round it.
#[test]
fn a_pack_of_4_by_4_bears_26_kip_by_itself_and_53_at_most() {
    assert_eq!(left("ACI 318-19", Factor::Phi(65), ["4", "4"], None), "~26.5 kip");
    let most = most_bearing(read_stress("3 ksi").unwrap(), Area::of(sides(["4", "4"]))).unwrap();
    assert_eq!(shown(bearing_rules()[0].leaves(most).unwrap()), "~53 kip");
}

/// The larger area has the shape of the plate and its middle: it ends where the pier does on one side.
#[test]
fn what_counts_round_a_plate_has_its_shape() {
    assert_eq!(spread(sides(["8", "12"]), Some(sides(["24", "24"]))), sides(["16", "24"]));
    assert_eq!(spread(sides(["12", "8"]), Some(sides(["24", "24"]))), sides(["24", "16"]));
    assert_eq!(spread(sides(["8", "12"]), None), sides(["8", "12"]));
    assert_eq!(
        spread(sides(["8", "12"]), Some(sides(["4", "4"]))),
        sides(["8", "12"]),
        "never less than the plate"
    );
}

/// Kips of a force, as near as floating point has it.
fn kips(force: Force) -> f64 {
    force.millinewtons_down() as f64 / 4_448_221.615_260_5
}

proptest! {
    /// The formula in floating point: 0.85 f'c A1 sqrt(A2/A1), no more than twice 0.85 f'c A1, A2 of the plate's shape.
    #[test]
    fn whole_numbers_give_what_the_formula_gives_and_never_more(
        plate in [16_i64..700, 16_i64..700],
        more in [0_i64..1500, 0_i64..1500],
        psi in 1000_i64..12_000,
    ) {
        let sixteenths = |count: i64| Length::from_nm(count * 1_587_500);
        let pier = [plate[0] + more[0], plate[1] + more[1]];
        let strength = read_stress(&format!("{psi} psi")).unwrap();
        let sides = plate.map(sixteenths);
        let round = Area::of(spread(sides, Some(pier.map(sixteenths))));
        let found = nominal_bearing(strength, Area::of(sides), round).unwrap();
        let [a, b, wide, deep] = [plate[0], plate[1], pier[0], pier[1]].map(|count| count as f64 / 16.0);
        let scale = (wide / a).min(deep / b).min(2.0);
        let formula = 0.85 * psi as f64 / 1000.0 * a * b * scale;
        prop_assert!((kips(found) - formula).abs() <= formula * 1e-6, "{} for {formula}", kips(found));
        prop_assert!(kips(found) <= formula * (1.0 + 1e-12));
        let alone = nominal_bearing(strength, Area::of(sides), Area::of(sides)).unwrap();
        prop_assert!(alone <= found && found <= most_bearing(strength, Area::of(sides)).unwrap());
        for rule in bearing_rules() {
            let left = rule.leaves(found).unwrap();
            prop_assert!(left < found);
            // the area that this needs without concrete round it is no smaller than the one it came from
            let needed = rule.needs(rule.leaves(alone).unwrap(), strength).unwrap();
            let off = needed.square_nanometres() - Area::of(sides).square_nanometres();
            prop_assert!(off.abs() < 1_000_000, "{off} nm2");
        }
    }
}
