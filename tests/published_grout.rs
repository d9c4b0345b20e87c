//! Published yields of grout and what two bases take of them.

mod small_job;

use rodreach::length::{Volume, read_volume};
use rodreach::model::{Base, GroutSupply, Supplies};
use rodreach::order::{GroutBed, bags};
use small_job::{base, catalog, len, three_quarter};

/// A base with a plate of these sides.
fn plate(sides: [&str; 2]) -> Base {
    let parts = three_quarter(&catalog(), "3/4");
    let mut base = base(&parts);
    base.plate.size = Some(sides.map(len));
    base
}

/// Bags of 50 lb with so much waste, the form so far from the plate.
fn supply(waste: u32, edge: &str) -> GroutSupply {
    let bag = catalog().grouts[0].bags.iter().find(|bag| bag.name == "bag-50-lb").cloned();
    let mut supply = GroutSupply { bag, edge: Some(len(edge)), ..Supplies::default().grout };
    supply.waste.value = waste;
    supply
}

fn volume(base: &Base, supply: &GroutSupply, bed: &str) -> Volume {
    GroutBed::under(base, supply, len(bed)).volume.unwrap()
}

/// Three data sheets of non-shrink grout: a 50 lb bag yields 0.45 ft3. A plate of 22 x 20 in on a bed of 1-1/2 in
/// without overrun: 0.382 ft3, 0.849 bag, so one (derived).
#[test]
fn a_plate_of_22_by_20_on_an_inch_and_a_half_takes_0_382_cubic_feet_and_one_bag() {
    let (base, supply) = (plate(["22", "20"]), supply(0, "0"));
    let volume = volume(&base, &supply, "1-1/2");
    assert_eq!(Some(volume), read_volume("660 in3"));
    let between = |low: &str, high: &str| read_volume(low) < Some(volume) && Some(volume) < read_volume(high);
    assert!(between("0.3815 ft3", "0.3825 ft3"));
    let bags = bags(&supply, volume).unwrap();
    assert_eq!((bags.thousandths, bags.whole), (849, 1));
}

/// The same in a form of 24 x 22 in: 0.4583 ft3, 1.019 bags, so two; with 10 % more 1.12 (derived).
#[test]
fn a_form_of_24_by_22_takes_0_4583_cubic_feet_and_two_bags() {
    let base = plate(["22", "20"]);
    let (none, ten) = (supply(0, "1"), supply(10, "1"));
    let volume = volume(&base, &none, "1-1/2");
    assert_eq!(Some(volume), read_volume("792 in3"));
    let between = |low: &str, high: &str| read_volume(low) < Some(volume) && Some(volume) < read_volume(high);
    assert!(between("0.4582 ft3", "0.4584 ft3"));
    let told = |supply: &GroutSupply| bags(supply, volume).map(|bags| (bags.thousandths, bags.whole));
    assert_eq!(told(&none), Some((1019, 2)));
    assert_eq!(told(&ten), Some((1121, 2)), "1.1204, up");
}

/// A bed that holds exactly one bag takes one, and a nanometre more takes two.
#[test]
fn a_bag_that_is_begun_is_a_bag() {
    let supply = supply(0, "0");
    // 777.6 in3 are 0.45 ft3
    let base = plate(["24", "16.2"]);
    let exact = volume(&base, &supply, "2");
    assert_eq!(bags(&supply, exact).unwrap().whole, 1);
    let more = exact.plus(Volume::from_nm3(1)).unwrap();
    assert_eq!(bags(&supply, more).map(|bags| (bags.thousandths, bags.whole)), Some((1001, 2)));
}

/// Between plate and form the grout stands up to the shoulder: 24 x 22 less 22 x 20 is 88 in2, by 1/2 in 44 in3.
#[test]
fn a_shoulder_fills_what_is_between_plate_and_form() {
    let base = plate(["22", "20"]);
    let mut supply = supply(0, "1");
    supply.shoulder = len("1/2");
    assert_eq!(Some(volume(&base, &supply, "1-1/2")), read_volume("836 in3"));
}

#[test]
fn without_the_size_of_the_plate_or_the_yield_of_a_bag_nothing_is_made_up() {
    let mut unknown = plate(["22", "20"]);
    unknown.plate.size = None;
    let bed = GroutBed::under(&unknown, &supply(0, "1"), len("1-1/2"));
    assert_eq!((bed.volume, bed.form, bed.flow, bed.wants, bed.is_thin()), (None, None, None, None, None));
    assert_eq!(bags(&Supplies::default().grout, read_volume("1 l").unwrap()), None);
}
