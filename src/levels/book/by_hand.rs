//! Small level books worked by hand: relative ones, heights, odd marks, what cannot be reached.

use super::sample::Page;
use crate::length::Unit;
use crate::levels::tests::sample::Notes;
use crate::model::Sense;

fn mm() -> Notes {
    Notes::of(Unit::Millimetre)
}

fn page(notes: Notes, rows: &str) -> Page {
    Page::of(Unit::Millimetre, &notes.page(rows))
}

#[test]
fn without_a_benchmark_the_first_backsight_is_0_and_the_run_closes_on_it() {
    let page = page(
        mm(),
        "1 BS A 1000
         1 IS p 1200
         1 FS B 900
         2 BS B 1100
         2 FS A 1206",
    );
    page.assert_elevations("0 -200 100 100 -6");
    page.assert_corrections("0 3 3 3 6");
    page.assert_adjusted("0 -197 103 103 0");
    assert_eq!(page.sections(), ["A to A, 2 setups, -6000000"]);
    assert_eq!(page.book.zero, Some(0));
    // 1200 + 900 + 1206 and -200 + 100 - 6; 2 x 1000 + 1200
    page.assert_checks(&["-6", "-6", "3200", "0"]);
}

#[test]
fn without_marks_the_first_sight_on_a_known_point_is_the_backsight_and_what_carries_on_the_foresight() {
    let page = page(
        mm(),
        "1 - A 1000
         1 - p 1200
         1 - B 900
         1 - q 1300
         2 - r 1000
         2 - B 1100
         2 - A 1194",
    );
    page.assert_elevations("0 -200 100 -300 200 100 6");
    page.assert_adjusted("0 -203 97 -303 194 97 0");
    assert_eq!(
        page.sights(),
        ["1 A BS was IS", "1 p IS", "1 B FS was IS", "1 q IS", "2 r IS", "2 B BS was IS", "2 A FS was IS"]
    );
    assert_eq!(page.sections(), ["A to A, 2 setups, 6000000"]);
    assert!(page.book.is_whole());
}

#[test]
fn a_walk_of_one_setup_is_open_and_shares_nothing() {
    let page = page(mm(), "1 - A 1000\n1 - B 1010\n1 - C 990");
    page.assert_adjusted("0 -10 10");
    page.assert_corrections("0 0 0");
    assert_eq!(page.sights(), ["1 A BS was IS", "1 B IS", "1 C FS was IS"]);
    assert_eq!(page.sections(), ["A to C, 1 setups, open"]);
    page.assert_checks(&["10", "10", "2000"]);
}

#[test]
fn readings_that_count_as_heights_are_added_to_the_line() {
    let rows = "1 BS A 1000
         1 IS p 800
         1 FS B 1100
         2 BS B 900
         2 FS C 794";
    let page = page(mm().sense(Sense::Height).benchmark("A", "5000").benchmark("C", "5000"), rows);
    page.assert_lines("4000 4000 4000 4200 4200");
    page.assert_elevations("5000 4800 5100 5100 4994");
    page.assert_adjusted("5000 4803 5103 5103 5000");
    assert_eq!(page.sections(), ["A to C, 2 setups, -6000000"]);
    // 1894 - 1900; elevations 4800 + 5100 + 4994 less readings 2694
    page.assert_checks(&["-6", "-6", "12200", "5000"]);
}

#[test]
fn each_benchmark_ends_a_section_and_the_next_starts_from_it_as_known() {
    let page = page(
        mm().benchmark("BM1", "100").benchmark("BM2", "200").benchmark("BM3", "300"),
        "1 BS BM1 1000
         1 FS T   950
         2 BS T   1000
         2 FS BM2 946
         3 BS BM2 1000
         3 IS p   980
         3 FS BM3 897",
    );
    page.assert_elevations("100 150 150 204 200 220 303");
    page.assert_corrections("0 -2 -2 -4 0 -3 -3");
    page.assert_adjusted("100 148 148 200 200 217 300");
    assert_eq!(page.sections(), ["BM1 to BM2, 2 setups, 4000000", "BM2 to BM3, 1 setups, 3000000"]);
    assert!(page.book.is_whole());
}

#[test]
fn an_intermediate_sight_on_a_benchmark_closes_nothing() {
    let page = page(
        mm().benchmark("BM1", "100").benchmark("BM2", "200"),
        "1 BS BM1 1000
         1 IS BM2 905
         1 FS T   950",
    );
    page.assert_adjusted("100 195 150");
    assert_eq!(page.sections(), ["BM1 to T, 1 setups, open"]);
}

#[test]
fn a_spur_from_a_corrected_point_keeps_its_correction_and_shares_only_its_own_misclosure() {
    let page = page(
        mm().benchmark("BM1", "100").benchmark("BM2", "200"),
        "1 BS BM1 1000
         1 FS T   950
         2 BS T   1000
         2 FS BM2 946
         3 BS T   1000
         3 IS p   990
         3 FS U   900
         4 BS U   1000
         4 FS T   1096
         5 BS U   1000
         5 IS q   1010",
    );
    // T is 150 less 2; U is 250, and the spur comes back to T 4 high
    page.assert_elevations("100 150 150 204 150 160 250 250 154 250 240");
    page.assert_corrections("0 -2 -2 -4 -2 -4 -4 -4 -6 -4 -4");
    page.assert_adjusted("100 148 148 200 148 156 246 246 148 246 236");
    let sections = ["BM1 to BM2, 2 setups, 4000000", "T to T, 2 setups, 4000000", "U to q, 1 setups, open"];
    assert_eq!(page.sections(), sections);
    assert!(page.book.is_whole());
}

#[test]
fn a_branch_that_closes_first_leaves_the_rest_of_the_run_a_section_of_its_own() {
    let page = page(
        mm().benchmark("BM1", "0").benchmark("BM2", "100").benchmark("BM3", "60"),
        "1 BS BM1 1000
         1 FS T   950
         2 BS T   1000
         2 FS U   990
         3 BS T   1000
         3 FS BM2 946
         4 BS U   1000
         4 FS BM3 1000",
    );
    // by way of 1 and 3 to BM2 4 high: T takes -2; from there 60 is met 2 low
    page.assert_elevations("0 50 50 60 50 104 60 60");
    page.assert_corrections("0 -2 -2 -1 -2 -4 -1 0");
    page.assert_adjusted("0 48 48 59 48 100 59 60");
    assert_eq!(page.sections(), ["BM1 to BM2, 2 setups, 4000000", "T to BM3, 2 setups, -2000000"]);
    assert!(page.book.is_whole());
}

#[test]
fn of_several_backsights_and_foresights_one_each_is_used() {
    let page = page(
        mm().benchmark("BM1", "100").benchmark("BM2", "200"),
        "1 BS X   700
         1 BS BM1 1000
         1 BS BM2 901
         1 FS S   800
         1 FS T   950
         2 BS S   1000
         2 FS BM2 900
         2 FS V   950",
    );
    // X has no elevation, so BM1 serves; the run goes on from S, though T was read later; BM2 closes, though V comes later
    assert_eq!(
        page.sights(),
        [
            "1 X IS was BS",
            "1 BM1 BS",
            "1 BM2 IS was BS",
            "1 S FS",
            "1 T IS was FS",
            "2 S BS",
            "2 BM2 FS",
            "2 V IS was FS"
        ]
    );
    page.assert_elevations("400 100 199 300 150 300 400 350");
    assert_eq!(page.sections(), ["BM1 to BM2, 2 setups, 200000000"]);
    page.assert_adjusted("300 100 99 200 50 200 200 150");
    assert!(page.book.is_whole());
}

#[test]
fn what_stands_on_no_known_point_has_no_elevation_and_is_told() {
    let page = page(
        mm().benchmark("BM1", "100"),
        "1 BS T   1000
         1 FS U   900
         2 BS BM1 1000
         2 FS V   950
         3 BS U   1000",
    );
    page.assert_elevations("? ? 100 150 ?");
    assert_eq!(page.book.not_reached, [0, 2]);
    assert!(!page.book.is_whole());
    assert!(page.book.checks.iter().all(|it| it.holds));
    assert_eq!(page.sections(), ["BM1 to V, 1 setups, open"]);
}

#[test]
fn a_benchmark_nobody_read_leaves_every_row_unknown() {
    let page = page(mm().benchmark("BM1", "100"), "1 BS A 1000\n1 FS B 1000");
    page.assert_elevations("? ?");
    assert_eq!((page.sections().len(), page.book.checks.len()), (0, 0));
    assert!(!page.book.is_whole());
}

#[test]
fn a_second_block_of_a_relative_book_is_not_put_at_0_too() {
    let page = page(mm(), "1 BS A 1000\n1 FS B 1000\n2 BS C 1000\n2 FS D 900");
    page.assert_elevations("0 0 ? ?");
    assert_eq!(page.book.not_reached, [1]);
}

#[test]
fn a_lone_sight_is_a_section_to_nowhere() {
    let lone = page(mm(), "1 - A 1000");
    assert_eq!(lone.sections(), ["A to nowhere, 1 setups, open"]);
    lone.assert_checks(&["0", "0", "0"]);
    let last = page(mm(), "1 BS A 1000\n1 FS B 900\n2 BS B 1000");
    assert_eq!(last.sections(), ["A to B, 2 setups, open"]);
    last.assert_checks(&["100", "100", "1000"]);
    assert!(page(mm(), "").book.is_whole());
}

#[test]
fn a_check_tells_a_book_that_is_wrong() {
    let page = page(
        mm(),
        "1 BS A 1000
         1 IS p 1200
         1 FS B 900
         2 BS B 1100
         2 FS A 1206",
    );
    let again = |change: &dyn Fn(&mut Vec<super::BookRow>)| {
        let mut rows = page.book.rows.clone();
        change(&mut rows);
        let (_, checks) = super::checks::of(&rows, &page.book.sections, 2, Sense::Rod);
        checks.into_iter().map(|it| it.holds).collect::<Vec<_>>()
    };
    let nm = crate::length::Length::from_nm(1);
    assert_eq!(again(&|_| ()), [true; 4]);
    let carried = again(&|rows| rows[4].booked.as_mut().unwrap().elevation = page.nm("-6") + nm);
    assert_eq!(carried, [false, false, false, false]);
    let aside = again(&|rows| rows[1].booked.as_mut().unwrap().elevation = page.nm("-200") + nm);
    assert_eq!(aside, [true, true, false, true]);
    let shared = again(&|rows| rows[4].booked.as_mut().unwrap().correction = page.nm("6") + nm);
    assert_eq!(shared, [true, true, true, false]);
}
