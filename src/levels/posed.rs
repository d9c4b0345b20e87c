//! The notes as they are adjusted: what was observed, what is on the datum, which slopes are found.

use super::adjust::{Adjustment, adjust};
use super::carry::{Carried, carry};
use super::global_test::{GlobalTest, global_test};
use super::known::known_points;
use super::nodes::Nodes;
use super::observation::{Observation, Precision, observations};
use super::slopes::found::priors;
use super::slopes::parameter::{Parameter, parameters};
use super::slopes::systematic::Prior;
use super::zero::largest_block;
use crate::model::Job;

/// Everything an adjustment needs.
pub(super) struct Posed<'j> {
    /// The job.
    pub(super) job: &'j Job,
    /// How good the readings are.
    pub(super) precision: Precision,
    /// The heights as they were carried.
    pub(super) carried: Carried,
    /// The block that is at 0, by its root; none where heights are held or measured from outside.
    pub(super) block: Option<usize>,
    /// What is on the datum.
    pub(super) nodes: Nodes,
    /// The slopes that are found.
    pub(super) slopes: Vec<Parameter>,
    /// What was observed.
    pub(super) observations: Vec<Observation>,
    priors: Vec<Prior>,
}

impl<'j> Posed<'j> {
    /// Poses the notes of a job.
    pub(super) fn of(job: &'j Job) -> Self {
        let readings = &job.readings;
        let known = known_points(readings);
        let precision = Precision::of(readings);
        let carried = carry(readings, &known);
        let block = if readings.is_absolute() { None } else { largest_block(job, &carried) };
        let nodes = match block {
            Some(root) => Nodes::in_block(&carried, root),
            None => Nodes::on_known(&carried, &known),
        };
        let slopes = parameters(job, |setup| nodes.line(setup).is_some());
        let observations = observations(job, &known, precision, &slopes);
        let priors = priors(job, &slopes, precision);
        Self { job, precision, carried, block, nodes, slopes, observations, priors }
    }

    /// Adjusts some observations, usually all of them.
    pub(super) fn adjusted(&self, observations: &[Observation]) -> Adjustment {
        self.with_more(observations, 0)
    }

    /// Adjusts observations that have shares in so many slopes more than the job has.
    pub(super) fn with_more(&self, observations: &[Observation], more: usize) -> Adjustment {
        let slopes = (self.slopes.len() + more, self.priors.clone());
        adjust(&self.carried, self.nodes.clone(), observations, slopes)
    }

    /// Counts the observations on the datum that are more than were needed.
    pub(super) fn redundancy(&self, adjustment: &Adjustment, observations: &[Observation]) -> usize {
        let rows = observations.iter().filter(|it| self.nodes.ends(it).is_some()).count();
        let systematic = &adjustment.systematic;
        (rows + systematic.priors()).saturating_sub(self.nodes.count() + systematic.rank())
    }

    /// Tests an adjustment; none where nothing can be tested.
    pub(super) fn test(&self, adjustment: &Adjustment, observations: &[Observation]) -> Option<GlobalTest> {
        let redundancy = self.redundancy(adjustment, observations);
        global_test(adjustment, observations, self.precision, redundancy)
    }
}
