//! Slopes that act on all readings of an instrument or a setup, found along with the heights.
//!
//! Heights and lines of sight are eliminated first, as the network does it; what is left of each slope's column after
//! that is a column of its own, at right angles to every height. The whitened matrix of these columns, with what is
//! known of the slopes beforehand as rows of its own, is solved by its singular values. A slope that the heights can
//! take up entirely leaves nothing, and is told so instead of being given the shortest answer.

use super::network::{Eliminated, Node};
use super::nodes::Nodes;
use super::observation::Observation;
use nalgebra::{DMatrix, DVector};

/// Singular values below this part of a column's own length count as nothing.
const NOTHING: f64 = 1e-9;

/// Most steps that finding the singular values may take.
const MOST_STEPS: usize = 10_000;

/// What is known of one slope beforehand.
#[derive(Clone, Copy, Debug)]
pub(super) struct Prior {
    /// Which slope, an index into the list of slopes.
    pub(super) slope: usize,
    /// Its value, in nanometres a metre.
    pub(super) value: f64,
    /// Its weight against readings of weight 1.
    pub(super) weight: f64,
}

/// The columns of the slopes, free of the heights, and their solution for any residuals.
#[derive(Clone, Debug, Default)]
pub(super) struct Systematic {
    /// How far each node goes with one nanometre a metre of each slope, the readings standing: by slope, then by node.
    pub(super) carried: Vec<Vec<f64>>,
    /// What is left of each slope at each observation on the datum, in their order.
    left: Vec<Vec<f64>>,
    /// The weights of these observations, then of the priors, as square roots.
    roots: Vec<f64>,
    priors: Vec<Prior>,
    /// The inverse of the normal matrix of the slopes; of those that can be found only.
    cofactor: DMatrix<f64>,
    /// Directions among the slopes that nothing tells, each of length 1.
    pub(super) untold: Vec<DVector<f64>>,
}

impl Systematic {
    /// Takes the columns of so many slopes out of the network.
    pub(super) fn new(
        slopes: usize,
        network: &Eliminated,
        nodes: &Nodes,
        observations: &[Observation],
        priors: Vec<Prior>,
    ) -> Self {
        if slopes == 0 {
            return Self::default();
        }
        let on_datum: Vec<(&Observation, (Node, Node))> =
            observations.iter().filter_map(|it| Some((it, nodes.ends(it)?))).collect();
        let weights = on_datum.iter().map(|(it, _)| it.weight);
        let roots: Vec<f64> = weights.chain(priors.iter().map(|it| it.weight)).map(f64::sqrt).collect();
        let mut carried = Vec::with_capacity(slopes);
        let mut left = Vec::with_capacity(slopes);
        for slope in 0..slopes {
            // the point goes down as its line goes up
            let column: Vec<f64> = on_datum.iter().map(|(it, _)| -share(it, slope)).collect();
            let mut moved = vec![0.0; nodes.count()];
            let mut rest = column.clone();
            for _ in 0..2 {
                let mut loads = vec![0.0; nodes.count()];
                for ((it, (point, base)), rest) in on_datum.iter().zip(&rest) {
                    if let Some(point) = point {
                        loads[*point] += it.weight * rest;
                    }
                    if let Some(base) = base {
                        loads[*base] -= it.weight * rest;
                    }
                }
                for (moved, more) in moved.iter_mut().zip(network.solve(&loads)) {
                    *moved += more;
                }
                let at = |node: &Node| node.map_or(0.0, |node| moved[node]);
                let fitted = on_datum.iter().map(|(_, (point, base))| at(point) - at(base));
                rest = column.iter().zip(fitted).map(|(column, fitted)| column - fitted).collect();
            }
            carried.push(moved);
            left.push(rest);
        }
        let mut found =
            Self { carried, left, roots, priors, cofactor: DMatrix::zeros(0, 0), untold: Vec::new() };
        let lengths = found.lengths(&on_datum);
        found.decompose(&lengths);
        found
    }

    /// Gives how long each whitened column is before the heights are taken out, its prior with it.
    fn lengths(&self, on_datum: &[(&Observation, (Node, Node))]) -> Vec<f64> {
        let lengths = (0..self.carried.len()).map(|slope| {
            let rows = on_datum.iter().map(|(it, _)| it.weight * share(it, slope).powi(2));
            let priors = self.priors.iter().filter(|it| it.slope == slope).map(|it| it.weight);
            let length = rows.chain(priors).sum::<f64>().sqrt();
            if length > 0.0 { length } else { 1.0 }
        });
        lengths.collect()
    }

    /// Gives the whitened matrix: a row an observation, then a row a prior.
    fn matrix(&self, lengths: &[f64]) -> DMatrix<f64> {
        let observed = self.left.first().map_or(0, Vec::len);
        DMatrix::from_fn(self.roots.len(), self.carried.len(), |row, slope| {
            let value = match row.checked_sub(observed) {
                None => self.left[slope][row],
                Some(prior) => f64::from(u8::from(self.priors[prior].slope == slope)),
            };
            self.roots[row] * value / lengths[slope]
        })
    }

    fn decompose(&mut self, lengths: &[f64]) {
        let slopes = self.carried.len();
        // the triangle has the singular values of the whole matrix, and is small
        let triangle = self.matrix(lengths).qr().r();
        let mut cofactor = DMatrix::zeros(slopes, slopes);
        let mut told = 0;
        let Some(svd) = triangle.try_svd(false, true, f64::EPSILON, MOST_STEPS) else {
            // what cannot be decomposed tells nothing
            let axis = |slope| DVector::from_fn(slopes, |row, _| f64::from(u8::from(row == slope)));
            self.untold = (0..slopes).map(axis).collect();
            self.cofactor = cofactor;
            return;
        };
        if let Some(directions) = &svd.v_t {
            for (value, direction) in svd.singular_values.iter().zip(directions.row_iter()) {
                let direction = DVector::from_fn(slopes, |slope, _| direction[slope] / lengths[slope]);
                if *value > NOTHING {
                    told += 1;
                    cofactor += &direction * direction.transpose() / (value * value);
                } else {
                    self.untold.push(direction.normalize());
                }
            }
            // fewer readings than slopes: what has no singular value at all is not told either
            let missing = slopes.saturating_sub(told + self.untold.len());
            if missing > 0 {
                self.untold.extend(complement(directions, lengths, missing));
            }
        }
        self.cofactor = cofactor;
    }

    /// Gives how many directions among the slopes the readings tell.
    pub(super) fn rank(&self) -> usize {
        self.carried.len() - self.untold.len()
    }

    /// Gives the number of rows that are known beforehand.
    pub(super) fn priors(&self) -> usize {
        self.priors.len()
    }

    /// Finds the corrections of the slopes for what is left of each observation on the datum.
    ///
    /// `rest` is observed less computed, heights fitted; `now` is what the slopes are taken as.
    pub(super) fn solve(&self, rest: &[f64], now: &[f64]) -> Vec<f64> {
        let slopes = self.carried.len();
        let mut right = DVector::zeros(slopes);
        for (row, rest) in rest.iter().enumerate() {
            let weight = self.roots[row] * self.roots[row];
            for slope in 0..slopes {
                right[slope] += weight * self.left[slope][row] * rest;
            }
        }
        for (row, prior) in (rest.len()..).zip(&self.priors) {
            let weight = self.roots[row] * self.roots[row];
            right[prior.slope] += weight * (prior.value - now[prior.slope]);
        }
        (&self.cofactor * right).iter().copied().collect()
    }

    /// Gives the weighted square of how far the slopes are from what was known of them.
    pub(super) fn squares_of_priors(&self, now: &[f64]) -> f64 {
        self.priors.iter().map(|it| it.weight * (it.value - now[it.slope]).powi(2)).sum()
    }

    /// Gives what the slopes add to the variance of a sum of shares of nodes.
    pub(super) fn variance(&self, shares: &[(Node, f64)]) -> f64 {
        if self.carried.is_empty() {
            return 0.0;
        }
        let along = self.along(shares);
        (along.transpose() * &self.cofactor * along)[(0, 0)]
    }

    /// Gives how far a sum of shares of nodes goes with each slope.
    pub(super) fn along(&self, shares: &[(Node, f64)]) -> DVector<f64> {
        DVector::from_fn(self.carried.len(), |slope, _| {
            shares
                .iter()
                .map(|(node, share)| node.map_or(0.0, |node| share * self.carried[slope][node]))
                .sum()
        })
    }

    /// Gives the covariance that the slopes add between two observations on the datum, by their order.
    pub(super) fn between(&self, one: usize, other: usize) -> f64 {
        if self.carried.is_empty() {
            return 0.0;
        }
        let at = |row: usize| DVector::from_fn(self.carried.len(), |slope, _| self.left[slope][row]);
        (at(one).transpose() * &self.cofactor * at(other))[(0, 0)]
    }

    /// Gives variance and covariance of the slopes.
    pub(super) const fn cofactor(&self) -> &DMatrix<f64> {
        &self.cofactor
    }
}

/// Gives directions at right angles to all that a small matrix has, as many as are missing.
fn complement(rows: &DMatrix<f64>, lengths: &[f64], missing: usize) -> Vec<DVector<f64>> {
    let mut known: Vec<DVector<f64>> = rows.row_iter().map(|row| row.transpose()).collect();
    let mut found = Vec::new();
    for axis in 0..lengths.len() {
        let mut direction = DVector::zeros(lengths.len());
        direction[axis] = 1.0;
        for other in &known {
            let along: f64 = other.dot(&direction);
            direction -= other * along;
        }
        if found.len() < missing && direction.norm() > 1e-6 {
            let direction = direction.normalize();
            found.push(
                DVector::from_fn(lengths.len(), |slope, _| direction[slope] / lengths[slope]).normalize(),
            );
            known.push(direction);
        }
    }
    found
}

fn share(observation: &Observation, slope: usize) -> f64 {
    observation.shares.iter().find(|(index, _)| *index == slope).map_or(0.0, |(_, share)| *share)
}
