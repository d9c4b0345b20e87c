//! The convolution against closed forms, against root-sum-square where that is exact, and against a Monte Carlo.

use super::*;
use crate::catalog::{Authority, Extent};
use crate::detail::plane::{End, Origin, Plane};
use crate::detail::terms::Group;

const GRID: Length = Length::from_nm(10_000);
const MM: i64 = 1_000_000;

/// Terms of the stated groups and bands; all else of them is not looked at here.
fn terms(list: &[(Group, i64, i64)]) -> Terms {
    let end = || End { height: Length::ZERO, why: "", authority: Authority::this_job() };
    let nothing = Extent::exact(Length::ZERO);
    Terms {
        list: (list.iter())
            .map(|(group, least, most)| Term {
                group: *group,
                name: String::new(),
                least: Length::from_nm(*least),
                most: Length::from_nm(*most),
                authority: Authority::this_job(),
            })
            .collect(),
        plane: Plane { origin: Origin::Design, design: Length::ZERO, low: end(), high: end(), shims: None },
        rod_top: [Length::ZERO; 2],
        plate: nothing,
        washers: nothing,
        nuts: nothing,
        levelling: None,
        beyond: Length::ZERO,
        clear: Length::ZERO,
        reading: Length::ZERO,
    }
}

fn percent(text: &str) -> Percent {
    Percent::read(text).unwrap()
}

const ALL_UNIFORM: Spreads =
    Spreads { rod_tops: Spread::Uniform, parts: Spread::Uniform, bearing: Spread::Uniform };

/// Whether a figure is no less than what is exact and no more than the grid above it.
fn safe(found: &Likely, exact: f64) -> bool {
    let found_nm = found.convolved.nm() as f64;
    found_nm >= exact - 1.0 && found_nm <= exact + found.grid_error.nm() as f64 + 1.0
}

#[test]
fn one_uniform_band_has_its_quantile_where_it_must_be() {
    for (least, most) in [(-12_700_000, 12_700_000), (3, 25_400_004), (-MM, 45 * MM)] {
        for share in ["50", "90", "99", "99.99"] {
            let found =
                likely(&terms(&[(Group::RodTop, least, most)]), ALL_UNIFORM, percent(share), GRID).unwrap();
            let exact = least as f64 + super::share(percent(share)) * (most - least) as f64;
            assert!(safe(&found, exact), "{share} of {least} to {most}: {found:?} against {exact}");
        }
    }
}

/// The sum of two equal uniform bands of width w has its upper share q above 2w - w sqrt(2q).
#[test]
fn two_uniform_bands_make_the_triangle() {
    let width = 20 * MM;
    let list = [(Group::RodTop, 0, width), (Group::Bearing, 0, width)];
    for (share, above) in [("50", 0.5_f64), ("95", 0.05), ("99", 0.01), ("99.9", 0.001)] {
        let found = likely(&terms(&list), ALL_UNIFORM, percent(share), GRID).unwrap();
        let exact = 2.0 * width as f64 - width as f64 * (2.0 * above).sqrt();
        assert!(safe(&found, exact), "{share}: {found:?} against {exact}");
    }
}

/// Normal terms add up to a normal sum: convolution and root-sum-square then tell the same.
#[test]
fn normal_bands_add_up_as_root_sum_square_has_them() {
    let list =
        [(Group::RodTop, -12 * MM, 12 * MM), (Group::Part, 0, 2 * MM), (Group::Bearing, -3 * MM, 9 * MM)];
    let spreads = Spreads { rod_tops: Spread::Normal, parts: Spread::Normal, bearing: Spread::Normal };
    for share in ["50", "90", "99", "99.99"] {
        let found = likely(&terms(&list), spreads, percent(share), GRID).unwrap();
        assert!(safe(&found, found.root_sum_square.nm() as f64), "{share}: {found:?}");
    }
    // 1.96 deviations above the mean of one band is its end
    let one = terms(&[(Group::RodTop, 0, 10 * MM)]);
    let found = likely(&one, spreads, percent("97.5002"), GRID).unwrap();
    assert!((found.root_sum_square.nm() - 10 * MM).abs() < 100, "{found:?}");
}

/// For one uniform band root-sum-square is far too large at 99 %: beyond the band itself.
#[test]
fn root_sum_square_goes_beyond_the_worst_case_where_one_band_governs_and_convolution_does_not() {
    let one = terms(&[(Group::RodTop, 0, 10 * MM), (Group::Part, 0, MM / 10)]);
    let found = likely(&one, ALL_UNIFORM, percent("99"), GRID).unwrap();
    assert!(found.root_sum_square > one.worst(), "{found:?}");
    assert!(found.convolved <= one.worst(), "{found:?}");
}

#[test]
fn what_stands_at_its_worst_is_added_whole() {
    let list = [(Group::Gap, 30 * MM, 30 * MM), (Group::Bearing, -MM, 5 * MM), (Group::RodTop, 0, 10 * MM)];
    let found = likely(&terms(&list), Spreads::default(), percent("90"), GRID).unwrap();
    assert!(safe(&found, 35e6 + 9e6), "{found:?}");
    let all_worst = Spreads { rod_tops: Spread::Worst, parts: Spread::Worst, bearing: Spread::Worst };
    let found = likely(&terms(&list), all_worst, percent("90"), GRID).unwrap();
    assert_eq!(found.convolved, terms(&list).worst());
    assert_eq!((found.root_sum_square, found.grid_error), (terms(&list).worst(), Length::ZERO));
}

#[test]
fn a_coarser_grid_is_never_less_and_its_error_is_said() {
    let list =
        [(Group::RodTop, -12_700_000, 12_700_000), (Group::Part, 0, 1_016_000), (Group::Part, 0, 1_219_200)];
    let fine = likely(&terms(&list), ALL_UNIFORM, percent("99"), Length::from_nm(2_540)).unwrap();
    for grid in [25_400, 254_000] {
        let coarse = likely(&terms(&list), ALL_UNIFORM, percent("99"), Length::from_nm(grid)).unwrap();
        assert_eq!(coarse.grid_error, Length::from_nm(3 * grid));
        assert!(coarse.convolved + fine.grid_error >= fine.convolved);
        assert!(coarse.convolved - coarse.grid_error <= fine.convolved, "{coarse:?} {fine:?}");
    }
    // a band of 10 m is put on a coarser grid by itself
    let wide = likely(&terms(&[(Group::RodTop, 0, 10_000 * MM)]), ALL_UNIFORM, percent("99"), GRID).unwrap();
    assert_eq!(wide.grid, Length::from_nm(1_000_000));
    assert!(safe(&wide, 9_900e6), "{wide:?}");
}

/// Numbers from 0 to 1 by the splitmix64 of S. Vigna (public domain).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> f64 {
        self.0 = self.0.wrapping_add(0x9E37_79B9_7F4A_7C15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xBF58_476D_1CE4_E5B9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94D0_49BB_1331_11EB);
        ((z ^ (z >> 31)) >> 11) as f64 / (1_u64 << 53) as f64
    }

    /// A normal number by the polar rule.
    fn normal(&mut self) -> f64 {
        (-2.0 * (1.0 - self.roll()).ln()).sqrt() * (std::f64::consts::TAU * self.roll()).cos()
    }
}

/// 200,000 invented rods: the share of them that is full with the figure is the share that was asked for.
#[test]
fn a_monte_carlo_finds_the_share_that_was_asked_for() {
    const RUNS: usize = 200_000;
    let list = [
        (Group::Gap, 38_100_000, 38_100_000),
        (Group::Part, 25_146_000, 26_924_000),
        (Group::Part, 3_098_800, 4_495_800),
        (Group::Part, 18_034_000, 19_253_200),
        (Group::RodTop, -12_700_000, 12_700_000),
        (Group::Bearing, -3_175_000, 3_175_000),
    ];
    let cases = [
        ALL_UNIFORM,
        Spreads { rod_tops: Spread::Normal, parts: Spread::Uniform, bearing: Spread::Uniform },
        Spreads { rod_tops: Spread::Uniform, parts: Spread::Normal, bearing: Spread::Worst },
    ];
    let mut dice = Dice(20_261_126);
    for spreads in cases {
        let terms = terms(&list);
        let mut drawn: Vec<f64> = (0..RUNS)
            .map(|_| {
                let one = |dice: &mut Dice, term: &Term| {
                    let (least, most) = (term.least.nm() as f64, term.most.nm() as f64);
                    match spreads.of(term) {
                        Spread::Worst => most,
                        Spread::Uniform => least + dice.roll() * (most - least),
                        Spread::Normal => {
                            (least + most) / 2.0 + dice.normal() * (most - least) / 2.0 / HALF_WIDTH
                        }
                    }
                };
                terms.list.iter().map(|term| one(&mut dice, term)).sum()
            })
            .collect();
        drawn.sort_by(f64::total_cmp);
        for share in ["50", "90", "99", "99.9"] {
            let found = likely(&terms, spreads, percent(share), GRID).unwrap();
            let full =
                |most: Length| drawn.partition_point(|it| *it <= most.nm() as f64) as f64 / RUNS as f64;
            let wanted = super::share(percent(share));
            let error = 4.0 * (wanted * (1.0 - wanted) / RUNS as f64).sqrt();
            assert!(
                full(found.convolved) >= wanted - error,
                "{share} {spreads:?}: {}",
                full(found.convolved)
            );
            let below = full(found.convolved - found.grid_error);
            assert!(below <= wanted + error, "{share} {spreads:?}: {below}");
        }
    }
}
