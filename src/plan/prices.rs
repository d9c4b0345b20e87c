//! Several counts in one price, the first worth more than all that follow together.

use super::capacity::Capacity;

/// How many components there are.
pub(super) const COMPONENTS: usize = 7;

/// What is counted at each cell of each variable, whole numbers from 0, the weightiest component first.
pub(super) struct Counts {
    /// By variable and cell; no row where a variable counts nothing.
    pub(super) of: Vec<Vec<[i64; COMPONENTS]>>,
}

/// Consecutive components, summed into one price.
pub(super) struct Group {
    /// What each of its components is counted in, and how much one is worth.
    parts: Vec<(usize, i64, i128)>,
}

impl Counts {
    /// Tells whether every component by itself fits a capacity.
    pub(super) fn fits<C: Capacity>(&self) -> bool {
        (0..COMPONENTS).all(|component| self.base(component).1 < C::MOST)
    }

    /// Puts as many components into one price as fit.
    pub(super) fn groups<C: Capacity>(&self) -> Vec<Group> {
        let mut groups: Vec<Vec<(usize, i64, i128)>> = Vec::new();
        let mut room = 0;
        for component in 0..COMPONENTS {
            let (unit, base) = self.base(component);
            if base == 1 {
                continue;
            }
            match groups.last_mut() {
                Some(group) if room >= base => {
                    for (_, _, worth) in group.iter_mut() {
                        *worth *= base;
                    }
                    group.push((component, unit, 1));
                    room /= base;
                }
                _ => {
                    groups.push(vec![(component, unit, 1)]);
                    room = C::MOST / base;
                }
            }
        }
        groups.into_iter().map(|parts| Group { parts }).collect()
    }

    /// Gives the price of one cell in a group.
    pub(super) fn price<C: Capacity>(&self, group: &Group, variable: usize, cell: usize) -> C {
        let Some(counts) = self.of.get(variable).and_then(|row| row.get(cell)) else { return C::default() };
        let worth =
            |&(component, unit, worth): &(usize, i64, i128)| i128::from(counts[component] / unit) * worth;
        C::of(group.parts.iter().map(worth).sum())
    }

    /// Gives the unit a component is whole in, and one more than its largest total in it.
    fn base(&self, component: usize) -> (i64, i128) {
        let mut unit = 0;
        let mut total: i128 = 0;
        for row in &self.of {
            let mut most = 0;
            for counts in row {
                unit = common(unit, counts[component]);
                most = most.max(counts[component]);
            }
            total += i128::from(most);
        }
        let unit = unit.max(1);
        (unit, total / i128::from(unit) + 1)
    }
}

/// Gives the largest number two numbers are whole in.
pub(super) fn common(mut a: i64, mut b: i64) -> i64 {
    while b != 0 {
        (a, b) = (b, a % b);
    }
    a.saturating_abs()
}
