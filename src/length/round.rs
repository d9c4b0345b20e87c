//! Rounding to a step, always in a stated direction.

use super::Length;

/// Which way a length goes when it is written coarser than it is.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Rounding {
    /// Toward minus infinity: for what a person could be hurt by.
    Down,
    /// Toward plus infinity: for what must be covered.
    Up,
    /// To the nearest, ties away from zero.
    Nearest,
}

impl Length {
    /// Gives the whole number of steps this length rounds to.
    ///
    /// A step that is not positive counts as one nanometre.
    #[must_use]
    pub fn steps(self, step: Self, rounding: Rounding) -> i64 {
        let step = step.nm().max(1);
        let down = self.nm().div_euclid(step);
        let rest = self.nm().rem_euclid(step);
        let up = if rest == 0 { down } else { down.saturating_add(1) };
        match rounding {
            Rounding::Down => down,
            Rounding::Up => up,
            Rounding::Nearest => {
                let twice = i128::from(rest) * 2;
                let step = i128::from(step);
                if twice > step || (twice == step && !self.is_negative()) { up } else { down }
            }
        }
    }

    /// Rounds this length to a multiple of a step.
    #[must_use]
    pub fn to_step(self, step: Self, rounding: Rounding) -> Self {
        Self::from_nm(self.steps(step, rounding).saturating_mul(step.nm().max(1)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn steps(nm: i64, step: i64) -> [i64; 3] {
        [Rounding::Down, Rounding::Up, Rounding::Nearest]
            .map(|way| Length::from_nm(nm).steps(Length::from_nm(step), way))
    }

    #[test]
    fn each_direction_goes_its_own_way_on_both_sides_of_zero() {
        assert_eq!(steps(7, 4), [1, 2, 2]);
        assert_eq!(steps(-7, 4), [-2, -1, -2]);
        assert_eq!(steps(6, 4), [1, 2, 2]);
        assert_eq!(steps(-6, 4), [-2, -1, -2]);
        assert_eq!(steps(5, 4), [1, 2, 1]);
        assert_eq!(steps(-5, 4), [-2, -1, -1]);
        assert_eq!(steps(8, 4), [2, 2, 2]);
    }

    #[test]
    fn a_step_of_nothing_does_not_divide_by_zero() {
        assert_eq!(steps(5, 0), [5, 5, 5]);
    }
}
