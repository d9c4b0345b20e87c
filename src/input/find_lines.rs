//! Lines found from positions: columns that stand in a row along x or along y.

use crate::length::{Length, Unit};
use crate::model::{Line, LineKind, Units};

/// Gives the distance between two positions, down to the nanometre.
pub(super) fn distance([x, y]: [Length; 2], [other_x, other_y]: [Length; 2]) -> Length {
    let square = |one: Length, other: Length| u128::from(one.nm().abs_diff(other.nm())).pow(2);
    let root = square(x, other_x).saturating_add(square(y, other_y)).isqrt();
    Length::from_nm(i64::try_from(root).unwrap_or(i64::MAX))
}

/// Finds the lines along y (`x1`, `x2`, …, by rising x) and along x (`y1`, …).
pub(super) fn found(positions: &[Option<[Length; 2]>], units: Units) -> Vec<Line> {
    let near = Length::from_nm(match units {
        Units::Inch => Unit::Foot.nm(),
        Units::Millimetre => 300 * Unit::Millimetre.nm(),
    });
    let standing: Vec<(usize, [Length; 2])> =
        positions.iter().enumerate().filter_map(|(column, at)| Some((column, (*at)?))).collect();
    let mut lines = rows(&standing, "x", near, |[x, y]| (x, y));
    lines.extend(rows(&standing, "y", near, |[x, y]| (y, x)));
    lines
}

/// Groups columns whose coordinate across is near that of the group's first; `axes` gives across, along.
fn rows(
    standing: &[(usize, [Length; 2])],
    axis: &str,
    near: Length,
    axes: impl Fn([Length; 2]) -> (Length, Length),
) -> Vec<Line> {
    let mut sorted = standing.to_vec();
    // the sort is stable: columns with the same coordinate stay in job order
    sorted.sort_by_key(|(_, at)| axes(*at).0);
    let mut lines = Vec::new();
    let mut rest = sorted.as_slice();
    while let Some((_, first)) = rest.first() {
        let end = axes(*first).0 + near;
        let size = rest.iter().take_while(|(_, at)| axes(*at).0 <= end).count();
        let (group, after) = rest.split_at(size);
        rest = after;
        if group.len() >= 2 {
            lines.push(line(format!("{axis}{}", lines.len() + 1), group, &axes));
        }
    }
    lines
}

fn line(
    name: String,
    group: &[(usize, [Length; 2])],
    axes: &impl Fn([Length; 2]) -> (Length, Length),
) -> Line {
    let mut members = group.to_vec();
    members.sort_by_key(|(column, at)| (axes(*at).1, *column));
    let spacing =
        members.iter().zip(members.iter().skip(1)).map(|((_, one), (_, next))| distance(*one, *next));
    Line {
        name,
        kind: LineKind::Wall,
        spacing: spacing.collect(),
        columns: members.into_iter().map(|(column, _)| column).collect(),
        accept: None,
        found: true,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn feet(x: i64, y: i64) -> Option<[Length; 2]> {
        Some([Length::from_nm(x * Unit::Foot.nm()), Length::from_nm(y * Unit::Foot.nm())])
    }

    #[test]
    fn distances_are_cut_to_the_nanometre_and_do_not_overflow() {
        let nm = |x, y| [Length::from_nm(x), Length::from_nm(y)];
        // 3-4-5, and the root of 2
        assert_eq!(distance(nm(0, 0), nm(3, -4)), Length::from_nm(5));
        assert_eq!(distance(nm(0, 0), nm(1, 1)), Length::from_nm(1));
        let far = Length::MOST_READ;
        let across = distance([-far, -far], [far, far]);
        assert_eq!(across, Length::from_nm(28_284_271_247_461));
        assert!(distance([Length::from_nm(i64::MIN); 2], [Length::from_nm(i64::MAX); 2]).nm() > 0);
    }

    #[test]
    fn a_group_reaches_as_far_as_one_foot_from_its_first_and_no_further() {
        let foot = Unit::Foot.nm();
        let at = |x: i64, y: i64| Some([Length::from_nm(x), Length::from_nm(y * foot)]);
        // the third is within a foot of the second but not of the first
        let lines = found(&[at(0, 30), at(foot, 0), at(foot + 1, 60), None], Units::Inch);
        assert_eq!(lines.len(), 1);
        assert_eq!((lines[0].name.as_str(), lines[0].columns.as_slice()), ("x1", [1, 0].as_slice()));
        assert_eq!(
            lines[0].spacing,
            [distance([Length::from_nm(foot), Length::ZERO], [Length::ZERO, Length::from_nm(30 * foot)])]
        );
    }

    #[test]
    fn a_grid_gives_lines_both_ways_in_rising_order() {
        let lines = found(&[feet(20, 0), feet(0, 0), feet(20, 25), feet(0, 25), feet(50, 60)], Units::Inch);
        let told: Vec<(&str, &[usize])> =
            lines.iter().map(|line| (line.name.as_str(), line.columns.as_slice())).collect();
        assert_eq!(told, [("x1", [1, 3].as_slice()), ("x2", &[0, 2]), ("y1", &[1, 0]), ("y2", &[3, 2])]);
        assert!(
            lines.iter().all(|line| line.found && line.kind == LineKind::Wall && line.spacing.len() == 1)
        );
    }
}
