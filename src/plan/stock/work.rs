//! How much is done before a search gives up: counted, never timed, so that the same job gets the same plan.

/// What may be done.
#[derive(Clone, Debug)]
pub(super) struct Work {
    all: i64,
    left: i64,
    /// What is kept for later.
    kept: i64,
}

impl Work {
    /// Begins with so many steps.
    pub(super) const fn new(steps: i64) -> Self {
        Self { all: steps, left: steps, kept: 0 }
    }

    /// Counts steps that are done.
    pub(super) fn take(&mut self, steps: usize) {
        let steps = i64::try_from(steps).unwrap_or(i64::MAX);
        self.left = self.left.saturating_sub(steps);
    }

    /// Tells whether no more is to be done for now.
    pub(super) const fn is_done(&self) -> bool {
        self.left <= self.kept
    }

    /// Tells whether so many steps more may be done for now.
    pub(super) fn allows(&self, steps: usize) -> bool {
        i64::try_from(steps).is_ok_and(|steps| steps < self.left - self.kept)
    }

    /// Keeps a part of it all for later; 0 keeps none.
    pub(super) const fn keep(&mut self, part: i64) {
        self.kept = if part == 0 { 0 } else { self.all / part };
    }

    /// Keeps all for later but a part of it all.
    pub(super) fn spend(&mut self, part: i64) {
        self.kept = (self.left - self.all / part.max(1)).max(self.kept);
    }

    /// Does something with no more than a part of it all.
    pub(super) fn within<T>(&mut self, part: i64, what: impl FnOnce(&mut Self) -> T) -> T {
        let most = (self.all / part.max(1)).min(self.left - self.kept).max(0);
        let mut of = Self { all: self.all, left: most, kept: 0 };
        let came = what(&mut of);
        self.left -= most - of.left;
        came
    }
}
