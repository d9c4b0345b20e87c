//! Published level networks, adjusted as measured differences, every figure of them held against a recomputation.
//!
//! `tests/levelling/networks_*.csv` hold heights, standard deviations, residuals, redundancy numbers and test
//! statistics as recomputed by numpy and scipy, beside what was published.

use super::sample::Notes;
use crate::length::Unit;
use crate::levels::reduce;
use crate::model::Job;
use approx::{assert_abs_diff_eq, assert_relative_eq};

const PARAMETERS: &str = include_str!("../../../tests/levelling/networks_parameters.csv");
const OBSERVATIONS: &str = include_str!("../../../tests/levelling/networks_observations.csv");

/// A measured difference: from, to, difference, and the variance that its weight comes from.
type Line = (&'static str, &'static str, &'static str, f64);

/// One published network.
struct Network {
    example: &'static str,
    unit: Unit,
    fixed: &'static [(&'static str, &'static str)],
    lines: Vec<Line>,
    /// The standard deviation of a line of weight 1.
    deviation: f64,
}

impl Network {
    fn job(&self) -> Job {
        let notes = Notes::of(self.unit).plus_minus(&format!("{:.12}", 1.96 * self.deviation));
        let notes =
            self.fixed.iter().fold(notes, |notes, (point, elevation)| notes.benchmark(point, elevation));
        let lines = self.lines.iter().fold(notes, |notes, (from, to, difference, variance)| {
            notes.difference(
                from,
                to,
                difference,
                &format!("{:.12}", 1.96 * self.deviation * variance.sqrt()),
            )
        });
        lines.job()
    }

    /// Holds everything that is recomputed against the adjustment.
    fn check(&self) {
        let job = self.job();
        let levelled = reduce(&job);
        let test = levelled.test().unwrap();
        let nm = self.unit.nm() as f64;
        let mut heights = 0;
        for row in rows(PARAMETERS, self.example) {
            let point = job.readings.points.iter().position(|point| *point == row[1]).unwrap();
            let height = levelled.height(point).unwrap();
            assert_abs_diff_eq!(height.elevation.nm() as f64 / nm, number(&row[2]), epsilon = 1.1e-6);
            if !row[5].is_empty() {
                // published to three or four decimals
                let decimals = row[5].split('.').nth(1).unwrap().len();
                let off = (height.elevation.nm() as f64 / nm - number(&row[5])).abs();
                let allowed =
                    if self.example.contains("weighted_8obs") && !self.example.contains("unweighted") {
                        1.3e-3
                    } else {
                        0.51 * 10_f64.powi(-(decimals as i32))
                    };
                assert!(off <= allowed, "{}: {} is off by {off}", self.example, row[1]);
            }
            let prior = height.plus_minus.nm() as f64 / 1.96 / nm;
            assert_abs_diff_eq!(prior, number(&row[4]), epsilon = 1.1e-6);
            let posterior = prior * (test.statistic / levelled.redundancy() as f64).sqrt();
            assert_abs_diff_eq!(posterior, number(&row[3]), epsilon = 1.1e-6);
            assert_eq!(levelled.redundancy(), row[7].parse::<usize>().unwrap());
            assert_relative_eq!(test.statistic, number(&row[8]), epsilon = 6e-7, max_relative = 1e-6);
            assert_abs_diff_eq!(test.lower, number(&row[12]), epsilon = 6e-5);
            assert_abs_diff_eq!(test.upper, number(&row[13]), epsilon = 6e-5);
            heights += 1;
        }
        assert!(heights > 0, "{} has no heights", self.example);
        let residuals = rows(OBSERVATIONS, self.example);
        assert_eq!(residuals.len(), self.lines.len());
        let judged = levelled.reliabilities();
        for (row, judged) in residuals.iter().zip(judged) {
            assert_abs_diff_eq!(judged.residual.nm() as f64 / nm, number(&row[3]), epsilon = 1.1e-6);
            assert_abs_diff_eq!(f64::from(judged.checked) / 1e3, number(&row[4]), epsilon = 5.1e-4);
        }
    }
}

fn rows(text: &str, example: &str) -> Vec<Vec<String>> {
    let rows = text.lines().map(|line| line.split(',').map(str::to_owned).collect::<Vec<_>>());
    rows.filter(|row| row[0] == example).collect()
}

fn number(text: &str) -> f64 {
    text.parse().unwrap()
}

const MAHUN: &[(&str, &str)] = &[("A", "806.52"), ("B", "818.32"), ("C", "820.12"), ("D", "824.04")];

/// The lines of Mahun's example with the number of setups of each.
fn mahun(weighted: bool) -> Vec<Line> {
    let lines = [
        ("A", "Q", "8.91", 3.0),
        ("B", "Q", "-2.92", 2.0),
        ("C", "Q", "-4.67", 1.0),
        ("D", "Q", "-8.66", 3.0),
        ("A", "R", "-3.56", 3.0),
        ("C", "R", "-17.12", 4.0),
        ("D", "R", "-21.10", 2.0),
        ("Q", "R", "-12.47", 3.0),
    ];
    lines
        .map(|(from, to, rise, setups)| (from, to, rise, if weighted { setups / 12.0 } else { 1.0 }))
        .to_vec()
}

/// J. Mahun, Open Access Surveying Library, Least Squares Lite, chapter B, section 2, in feet: residuals -0.015,
/// 0.015, -0.035, 0.035, 0.007, -0.033, 0.027 of seven lines. The elevations of the benchmarks stand only in a
/// figure; they are got back from the residuals.
#[test]
fn l1_mahun_seven_lines() {
    let mut lines = mahun(false);
    lines.pop();
    let network =
        Network { example: "L1a_mahun_chB_7obs", unit: Unit::Foot, fixed: MAHUN, lines, deviation: 1.0 };
    network.check();
    let levelled = reduce(&network.job());
    let thousandths =
        levelled.reliabilities().iter().map(|it| (it.residual.nm() as f64 / 304_800.0).round() as i64);
    assert_eq!(thousandths.collect::<Vec<_>>(), [-15, 15, -35, 35, 7, -33, 27]);
}

/// The same with the line from Q to R: published Q 815.418 +-0.013, R 802.962 +-0.014 (recomputed 0.0149), and a
/// standard deviation of 0.028 of unit weight, recomputed 0.0290.
#[test]
fn l1_mahun_eight_lines_of_equal_weight() {
    let lines = mahun(false);
    Network {
        example: "L1b_mahun_chD_unweighted_8obs",
        unit: Unit::Foot,
        fixed: MAHUN,
        lines,
        deviation: 1.0,
    }
    .check();
}

/// The same weighted by 12 over the setups: published Q 815.424 and R 802.958, both 0.001 off, since the source
/// rounded its inverse to six decimals (which gives 815.42440 and 802.95799).
#[test]
fn l1_mahun_eight_lines_weighted_by_setups() {
    let lines = mahun(true);
    Network { example: "L1c_mahun_chE_weighted_8obs", unit: Unit::Foot, fixed: MAHUN, lines, deviation: 1.0 }
        .check();
}

/// From memory: Ghilani and Wolf, Adjustment Computations, 12.3 and 12.4, in feet, unweighted and weighted by 12 over
/// the miles: 105.14, 104.48, 106.19 (0.05), and 105.150, 104.489, 106.197 (0.107).
#[test]
fn from_memory_l3_three_points_over_seven_lines() {
    let lines = [
        ("X", "A", "5.10", 4.0),
        ("A", "Y", "2.34", 3.0),
        ("Y", "C", "-1.25", 2.0),
        ("C", "X", "-6.13", 3.0),
        ("A", "B", "-0.68", 2.0),
        ("Y", "B", "-3.00", 2.0),
        ("B", "C", "1.70", 2.0),
    ];
    let fixed: &[(&str, &str)] = &[("X", "100.00"), ("Y", "107.50")];
    for (example, weighted) in
        [("L3a_GW_12_3_unweighted_MEMORY", false), ("L3b_GW_12_4_weighted_MEMORY", true)]
    {
        let lines =
            lines.map(|(from, to, rise, miles)| (from, to, rise, if weighted { miles / 12.0 } else { 1.0 }));
        Network { example, unit: Unit::Foot, fixed, lines: lines.to_vec(), deviation: 1.0 }.check();
    }
}

/// German survey textbook vol. 1 (Einleitung, Landesvermessung, Kataster), p. 197: one knot point over four lines of
/// weights 1.45, 0.68, 1.00 and 2.50, in metres: 55.5398, residuals +6.2, -7.6, -13.4 and +3.8 mm.
#[test]
fn l4_one_knot_point_over_four_lines() {
    let lines =
        [("I", "-1.0854", 1.45), ("II", "0.8524", 0.68), ("III", "0.5922", 1.00), ("IV", "-0.3030", 2.50)];
    let fixed: &[(&str, &str)] = &[("I", "56.619"), ("II", "54.695"), ("III", "54.961"), ("IV", "55.839")];
    let lines = lines.map(|(from, rise, weight)| (from, "H", rise, 1.0 / weight)).to_vec();
    let network = Network { example: "L4_knot_point_tib", unit: Unit::Metre, fixed, lines, deviation: 1.0 };
    network.check();
    let levelled = reduce(&network.job());
    for (judged, printed) in levelled.reliabilities().iter().zip([6.2, -7.6, -13.4, 3.8]) {
        assert_abs_diff_eq!(judged.residual.nm() as f64 / 1e6, printed, epsilon = 0.051);
    }
}

/// Data of Strang and Borre, Linear Algebra, Geodesy and GPS (1997), as posted at rplstoday.com ("how would you adjust
/// this leveling data"), 6 mm times the root of the kilometres: sum of squares 4.636, factor 1.243, bounds 0.268 and
/// 1.765 at 5 %, passed.
#[test]
fn l5_the_global_test_of_five_lines() {
    let lines = [
        ("A", "E", "0.732", 0.970),
        ("A", "F", "1.978", 1.002),
        ("B", "E", "0.420", 1.070),
        ("C", "F", "0.988", 1.110),
        ("E", "F", "1.258", 0.890),
    ];
    let fixed: &[(&str, &str)] = &[("A", "10.021"), ("B", "10.321"), ("C", "11.002")];
    let example = "L5_strang_borre_data_sigma6mm_sqrtkm";
    let network = Network { example, unit: Unit::Metre, fixed, lines: lines.to_vec(), deviation: 0.006 };
    network.check();
    let levelled = reduce(&network.job());
    let test = levelled.test().unwrap();
    assert!(test.passed && levelled.suspects().is_empty());
    assert_abs_diff_eq!(test.statistic, 4.636, epsilon = 5e-4);
    let factor = |sum: f64| (sum / levelled.redundancy() as f64).sqrt();
    assert_abs_diff_eq!(factor(test.statistic), 1.243, epsilon = 5e-4);
    assert_abs_diff_eq!(factor(test.lower), 0.268, epsilon = 5e-4);
    assert_abs_diff_eq!(factor(test.upper), 1.765, epsilon = 5e-4);
}
