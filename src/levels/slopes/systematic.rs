//! Slopes that act on all readings of an instrument or a setup, found along with the heights.
//!
//! Heights and lines of sight are eliminated first, as the network does it; what is left of each slope's column after
//! that is a column of its own, at right angles to every height. The whitened matrix of these columns, with what is
//! known of the slopes beforehand as rows of its own, is solved by orthogonal decomposition with pivoting (QR). A slope
//! that the heights can take up entirely leaves nothing, and is told so instead of being given the shortest answer.

use crate::levels::network::{Eliminated, Node};
use crate::levels::nodes::Nodes;
use crate::levels::observation::Observation;
use nalgebra::{DMatrix, DVector};

/// What is left of a column counts as nothing below this part of its own length.
const NOTHING: f64 = 1e-9;

/// What rounding leaves of a number, with a margin.
const LAST_DIGITS: f64 = 1e3 * f64::EPSILON;

/// What is known of one slope beforehand.
#[derive(Clone, Copy, Debug)]
pub(in crate::levels) struct Prior {
    /// Which slope, an index into the list of slopes.
    pub(in crate::levels) slope: usize,
    /// Its value, in nanometres a metre.
    pub(in crate::levels) value: f64,
    /// Its weight against readings of weight 1.
    pub(in crate::levels) weight: f64,
}

/// The columns of the slopes, free of the heights, and their solution for any residuals.
#[derive(Clone, Debug, Default)]
pub(in crate::levels) struct Systematic {
    /// How far each node goes with one nanometre a metre of each slope, the readings standing: by slope, then by node.
    pub(in crate::levels) carried: Vec<Vec<f64>>,
    /// What is left of each slope at each observation on the datum, in their order.
    left: Vec<Vec<f64>>,
    /// The weights of these observations, then of the priors, as square roots.
    roots: Vec<f64>,
    priors: Vec<Prior>,
    /// The inverse of the normal matrix of the slopes; of those that can be found only.
    cofactor: DMatrix<f64>,
    /// Directions among the slopes that nothing tells, each of length 1.
    pub(in crate::levels) untold: Vec<DVector<f64>>,
}

impl Systematic {
    /// Takes the columns of so many slopes out of the network.
    pub(in crate::levels) fn new(
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
        let nothing = found.noise(&lengths).max(NOTHING);
        found.decompose(&lengths, nothing);
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

    /// Gives the part of a column's length that may be nothing but the last digits of what was taken out of it.
    ///
    /// Where all heights hang on the datum by next to nothing, they are carried far, and little is left of their digits.
    fn noise(&self, lengths: &[f64]) -> f64 {
        let observed = self.left.first().map_or(0, Vec::len);
        let weight = self.roots[..observed].iter().map(|root| root * root).sum::<f64>().sqrt();
        let each = self.carried.iter().zip(lengths).map(|(carried, length)| {
            let far = carried.iter().fold(0.0_f64, |far, it| far.max(it.abs()));
            LAST_DIGITS * far * weight / length
        });
        each.fold(0.0, f64::max)
    }

    /// Decomposes the whitened matrix, the column with most left of it first.
    fn decompose(&mut self, lengths: &[f64], nothing: f64) {
        let slopes = self.carried.len();
        let qr = self.matrix(lengths).col_piv_qr();
        let triangle = qr.r();
        let mut order = DMatrix::from_fn(1, slopes, |_, slope| slope);
        qr.p().permute_columns(&mut order);
        let pivots = triangle.nrows().min(slopes);
        let told = (0..pivots).take_while(|at| triangle[(*at, *at)].abs() > nothing).count();
        let own = triangle.view((0, 0), (told, told)).into_owned();
        self.cofactor = DMatrix::zeros(slopes, slopes);
        let Some(inverse) = own.solve_upper_triangular(&DMatrix::identity(told, told)) else {
            // a triangle without a zero on its diagonal always has one
            self.untold = (0..slopes).map(|slope| axis(slopes, slope)).collect();
            return;
        };
        let cofactor = &inverse * inverse.transpose();
        for (row, &one) in order.iter().take(told).enumerate() {
            for (column, &other) in order.iter().take(told).enumerate() {
                self.cofactor[(one, other)] = cofactor[(row, column)] / (lengths[one] * lengths[other]);
            }
        }
        for (column, &free) in order.iter().enumerate().skip(told) {
            let along = &inverse * triangle.view((0, column), (told, 1));
            let mut direction = axis(slopes, free) / lengths[free];
            for (row, &slope) in order.iter().take(told).enumerate() {
                direction[slope] = -along[row] / lengths[slope];
            }
            self.untold.push(direction.normalize());
        }
    }

    /// Gives how many directions among the slopes the readings tell.
    pub(in crate::levels) fn rank(&self) -> usize {
        self.carried.len() - self.untold.len()
    }

    /// Gives the number of rows that are known beforehand.
    pub(in crate::levels) fn priors(&self) -> usize {
        self.priors.len()
    }

    /// Finds the corrections of the slopes for what is left of each observation on the datum.
    ///
    /// `rest` is observed less computed, heights fitted; `now` is what the slopes are taken as.
    pub(in crate::levels) fn solve(&self, rest: &[f64], now: &[f64]) -> Vec<f64> {
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
    pub(in crate::levels) fn squares_of_priors(&self, now: &[f64]) -> f64 {
        self.priors.iter().map(|it| it.weight * (it.value - now[it.slope]).powi(2)).sum()
    }

    /// Gives what the slopes add to the variance of a sum of shares of nodes.
    pub(in crate::levels) fn variance(&self, shares: &[(Node, f64)]) -> f64 {
        if self.carried.is_empty() {
            return 0.0;
        }
        let along = self.along(shares);
        (along.transpose() * &self.cofactor * along)[(0, 0)]
    }

    /// Gives how far a sum of shares of nodes goes with each slope.
    pub(in crate::levels) fn along(&self, shares: &[(Node, f64)]) -> DVector<f64> {
        DVector::from_fn(self.carried.len(), |slope, _| {
            shares
                .iter()
                .map(|(node, share)| node.map_or(0.0, |node| share * self.carried[slope][node]))
                .sum()
        })
    }

    /// Gives the covariance that the slopes add between two observations on the datum, by their order.
    pub(in crate::levels) fn between(&self, one: usize, other: usize) -> f64 {
        if self.carried.is_empty() {
            return 0.0;
        }
        let at = |row: usize| DVector::from_fn(self.carried.len(), |slope, _| self.left[slope][row]);
        (at(one).transpose() * &self.cofactor * at(other))[(0, 0)]
    }

    /// Gives variance and covariance of the slopes.
    pub(in crate::levels) const fn cofactor(&self) -> &DMatrix<f64> {
        &self.cofactor
    }
}

/// Gives the direction of one slope alone.
fn axis(slopes: usize, slope: usize) -> DVector<f64> {
    DVector::from_fn(slopes, |row, _| f64::from(u8::from(row == slope)))
}

fn share(observation: &Observation, slope: usize) -> f64 {
    observation.shares.iter().find(|(index, _)| *index == slope).map_or(0.0, |(_, share)| *share)
}
