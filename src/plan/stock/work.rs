//! How much is done before a search gives up: counted, never timed, so that the same job gets the same plan.

/// What may still be done.
#[derive(Clone, Debug)]
pub(super) struct Work {
    left: i64,
}

impl Work {
    /// Begins with so many steps.
    pub(super) const fn new(steps: i64) -> Self {
        Self { left: steps }
    }

    /// Counts steps that are done.
    pub(super) fn take(&mut self, steps: usize) {
        self.left -= i64::try_from(steps).unwrap_or(i64::MAX / 4).min(i64::MAX / 4);
        self.left = self.left.max(-1);
    }

    /// Tells whether no more is to be done.
    pub(super) const fn is_done(&self) -> bool {
        self.left <= 0
    }

    /// Gives a part of what is left, to be used apart.
    pub(super) fn part(&self, of: i64) -> Self {
        Self { left: self.left / of.max(1) }
    }

    /// Gives how much is left.
    pub(super) const fn left(&self) -> i64 {
        self.left
    }
}
