//! How far apart the seats of columns may be, as shortest paths.

use super::Case;

/// So far apart that nothing says it.
const FREE: i64 = i64::MAX / 4;

/// For every two nodes how far apart they may be; the last node is the design, at 0.
#[derive(Clone, Debug)]
pub(crate) struct Bounds {
    apart: Vec<Vec<i64>>,
}

impl Bounds {
    /// Starts without any limit.
    pub(crate) fn free(columns: usize) -> Self {
        let mut apart = vec![vec![FREE; columns + 1]; columns + 1];
        for (node, row) in apart.iter_mut().enumerate() {
            row[node] = 0;
        }
        Self { apart }
    }

    /// Reads the limits of a job: neighbours, stretches of walls, the building, the design seats.
    ///
    /// High to low of several is within a limit where every two of them are.
    pub(crate) fn of(case: &Case) -> Self {
        let mut bounds = Self::free(case.columns.len());
        let measured = case.measured();
        let known = |column: usize| measured.contains(&column);
        for line in &case.lines {
            for (at, &one) in line.columns.iter().enumerate() {
                for (behind, &other) in line.columns.iter().enumerate().skip(at + 1) {
                    if !known(one) || !known(other) {
                        continue;
                    }
                    if let Some(limit) = case.neighbours(line).filter(|_| behind == at + 1) {
                        bounds.limit(one, other, limit);
                    }
                    let between: i64 = line.spacing[at..behind].iter().sum();
                    let near = case.limits.stretch.is_none_or(|stretch| between <= stretch);
                    if let Some(limit) = case.limits.wall.filter(|_| line.wall && near) {
                        bounds.limit(one, other, case.kept(limit));
                    }
                }
            }
        }
        for &one in &measured {
            for &other in &measured {
                if let Some(limit) = case.limits.building {
                    bounds.limit(one, other, case.kept(limit));
                }
            }
            if let Some(limit) = case.limits.design.filter(|_| case.has_design(one)) {
                bounds.window(one, case.kept(limit));
            }
        }
        bounds
    }

    /// Limits the difference of two columns.
    pub(crate) fn limit(&mut self, one: usize, other: usize, most: i64) {
        if one != other {
            self.apart[one][other] = self.apart[one][other].min(most);
            self.apart[other][one] = self.apart[other][one].min(most);
        }
    }

    /// Limits the departure of a column from its design.
    pub(crate) fn window(&mut self, column: usize, most: i64) {
        self.limit(column, self.design(), most);
    }

    fn design(&self) -> usize {
        self.apart.len() - 1
    }

    /// Gives the bounds between all others where the seats of some are free (Floyd and Warshall).
    pub(crate) fn through(&self, free: &[usize]) -> Self {
        let mut apart = self.apart.clone();
        for &via in free {
            for from in 0..apart.len() {
                for to in 0..apart.len() {
                    apart[from][to] = apart[from][to].min(apart[from][via] + apart[via][to]).min(FREE);
                }
            }
        }
        Self { apart }
    }

    /// Tells whether two columns may depart so far from their designs.
    pub(crate) fn allow(&self, (one, at): (usize, i64), (other, there): (usize, i64)) -> bool {
        (at - there).abs() <= self.apart[one][other]
    }

    /// Tells whether a column may depart so far from its design.
    pub(crate) fn allow_alone(&self, column: usize, at: i64) -> bool {
        at.abs() <= self.apart[column][self.design()]
    }

    /// Gives the departures a column may come to, where others stay; nothing sets a missing bound.
    pub(crate) fn range(&self, column: usize, others: &[(usize, i64)]) -> [Option<i64>; 2] {
        let all = others.iter().copied().chain([(self.design(), 0)]);
        let set: Vec<(i64, i64)> = all
            .map(|(other, at)| (at, self.apart[column][other]))
            .filter(|(_, apart)| *apart < FREE)
            .collect();
        [set.iter().map(|(at, apart)| at - apart).max(), set.iter().map(|(at, apart)| at + apart).min()]
    }
}
