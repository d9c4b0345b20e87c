//! What jobs already measured say of a specification.

mod claim;
mod figures;
mod sample;
mod trial;

pub use claim::{Between, Claim};
pub use figures::Figures;
pub(in crate::detail) use sample::Raises;
pub use sample::{MeasuredColumn, MeasuredRod, Missed, Need};
pub use trial::{Candidate, Counts};

use super::asked::Asked;
use super::kinds::{Member, Studied};
use crate::length::{Length, Rounding};
use claim::{between, claim, share_rank};
use figures::figures;
use sample::columns;
use trial::{candidates, counts};

/// What the measured columns of one kind of base say.
#[derive(Clone, Debug)]
pub struct Measured {
    /// The columns at which a rod was measured, in the order of the jobs.
    pub columns: Vec<MeasuredColumn>,
    /// Columns of this kind at which no rod was measured yet.
    pub not_measured: usize,
    /// What each job says, for each member of the kind.
    pub jobs: Vec<JobMeasured>,
    /// Projections less the drawing's, every measured sound rod once.
    pub projections: Option<Figures>,
    /// Tops of rods from their design, where elevations are absolute.
    pub tops: Option<Figures>,
    /// Pads from their design, where elevations are absolute.
    pub pads: Option<Figures>,
    /// How many of the tops are outside the limits of their job; none where none can be compared.
    pub tops_outside: Option<usize>,
    /// How many of the pads are outside the limits of their job; none where none can be compared.
    pub pads_outside: Option<usize>,
    /// Between what the projections of a stated share of columns lie, less the drawing's.
    pub projections_between: Between,
    /// Between what a stated share of pads lies; none where no pad can be compared.
    pub pads_between: Option<Between>,
    /// What becomes of the rods under today's drawings.
    pub today: Counts,
    /// The same under each projection on the step.
    pub candidates: Vec<Candidate>,
    /// Steps below the first candidate that are not listed.
    pub left_out: usize,
    /// Columns that count: where a raise is planned, or none can be.
    pub sample: usize,
    /// Columns among them that no specification is known to clear.
    pub open: usize,
    /// The least projection that clears every rod that was measured and has a raise.
    pub clears_measured: Option<Length>,
    /// The least projection that clears every column that counts.
    pub clears_all: Option<Length>,
    /// The least projection that clears the stated share of the columns that count.
    pub clears_share: Option<Length>,
    /// What can be claimed of all columns, and how surely.
    pub claim: Claim,
}

/// What one job says of one kind of base.
#[derive(Clone, Debug)]
pub struct JobMeasured {
    /// Columns at which a rod was measured.
    pub columns: usize,
    /// Columns of this kind at which none was.
    pub not_measured: usize,
    /// Projections less the drawing's.
    pub projections: Option<Figures>,
    /// Tops of rods from their design, where elevations are absolute.
    pub tops: Option<Figures>,
    /// Pads from their design, where elevations are absolute.
    pub pads: Option<Figures>,
    /// The highest pad less the lowest, each from its own seat, where two are known.
    pub pad_spread: Option<Length>,
    /// What the worst rod would have had to be drawn as.
    pub needs: Option<Length>,
}

/// Works out what the measured columns of a kind say; none where no rod of it was measured.
///
/// `specified` is what the tolerances ask for: it stands among the candidates too.
pub(in crate::detail) fn measure(
    members: &[Member<'_>],
    jobs: &[Studied<'_>],
    raises: &[Raises],
    asked: &Asked,
    specified: Option<Length>,
) -> Option<Measured> {
    let mut all: Vec<MeasuredColumn> = Vec::new();
    let mut told = Vec::new();
    let mut pads: Vec<Length> = Vec::new();
    let (mut tops_outside, mut pads_outside) = (None, None);
    for (index, member) in members.iter().enumerate() {
        let (found, spread) = columns(index, member, jobs, raises);
        let (seen, unseen): (Vec<_>, Vec<_>) =
            found.into_iter().partition(|column| column.missed != Some(Missed::NotMeasured));
        let off: Vec<Length> = seen.iter().chain(&unseen).filter_map(|column| column.pad_off).collect();
        pads.extend(&off);
        let limits = &member.job.limits.tables;
        let top = limits.pad.as_ref().and_then(|pad| pad.top.as_ref()).map(|top| top.value);
        count_outside(&mut pads_outside, off.iter().copied(), top);
        let top = limits.rods.as_ref().and_then(|rods| rods.top.as_ref()).map(|top| top.value);
        count_outside(&mut tops_outside, once(&seen, |rod| rod.top_off), top);
        told.push(JobMeasured {
            columns: seen.len(),
            not_measured: unseen.len(),
            projections: figures(once(&seen, |rod| rod.off_drawing)),
            tops: figures(once(&seen, |rod| rod.top_off)),
            pads: figures(off.into_iter()),
            pad_spread: spread,
            needs: rods(&seen).filter_map(|rod| rod.needs).max(),
        });
        all.extend(seen);
    }
    if all.is_empty() {
        return None;
    }
    let counted: Vec<&MeasuredColumn> = all.iter().filter(|column| column.need != Need::Unknown).collect();
    let mut needs: Vec<Length> = counted
        .iter()
        .filter_map(|column| match column.need {
            Need::UpTo(need) => Some(need),
            Need::Above | Need::Unknown => None,
        })
        .collect();
    needs.sort();
    let (sample, open) = (counted.len(), counted.len() - needs.len());
    let on_step = |length: Length| length.to_step(asked.step, Rounding::Up);
    let clears_measured = rods(&all).filter_map(|rod| rod.needs).max().map(on_step);
    let share = share_rank(sample, asked.share).and_then(|rank| needs.get(rank - 1).copied());
    let (list, left_out) = candidates(members, &all, asked.step, specified);
    Some(Measured {
        not_measured: told.iter().map(|job| job.not_measured).sum(),
        projections: figures(once(&all, |rod| rod.off_drawing)),
        tops: figures(once(&all, |rod| rod.top_off)),
        pads: figures(pads.iter().copied()),
        tops_outside,
        pads_outside,
        projections_between: between(&ends(&all), asked),
        pads_between: pads_between(&pads, asked),
        today: counts(members, &all, |_| Some(Length::ZERO)),
        candidates: list,
        left_out,
        sample,
        open,
        clears_measured,
        clears_all: clears_measured.filter(|_| open == 0 && sample > 0),
        clears_share: share.map(on_step),
        claim: claim(&needs, sample, asked),
        jobs: told,
        columns: all,
    })
}

/// Counts what lies outside of limits; without limits, or without anything to compare, the count stays as it is.
fn count_outside(count: &mut Option<usize>, off: impl Iterator<Item = Length>, limits: Option<[Length; 2]>) {
    let Some([low, high]) = limits else { return };
    for off in off {
        *count = Some(count.unwrap_or(0) + usize::from(off < low || off > high));
    }
}

fn rods(columns: &[MeasuredColumn]) -> impl Iterator<Item = &MeasuredRod> {
    columns.iter().flat_map(|column| &column.rods)
}

/// Gives a figure of every rod, of one value that stands for all rods of a column only once.
fn once<'c>(
    columns: &'c [MeasuredColumn],
    figure: impl Fn(&MeasuredRod) -> Option<Length> + Copy + 'c,
) -> impl Iterator<Item = Length> + 'c {
    columns.iter().flat_map(move |column| {
        let mut stood = false;
        column.rods.iter().filter_map(move |rod| {
            let again = rod.one_for_all && stood;
            stood |= rod.one_for_all;
            if again { None } else { figure(rod) }
        })
    })
}

/// Gives the lowest and the highest rod of every column, less the drawing; none where not all of it was measured.
fn ends(columns: &[MeasuredColumn]) -> Vec<Option<[Length; 2]>> {
    let of = |column: &MeasuredColumn| {
        let off = || column.rods.iter().filter_map(|rod| rod.off_drawing);
        if column.whole { Some([off().min()?, off().max()?]) } else { None }
    };
    columns.iter().map(of).collect()
}

fn pads_between(pads: &[Length], asked: &Asked) -> Option<Between> {
    let each: Vec<Option<[Length; 2]>> = pads.iter().map(|off| Some([*off, *off])).collect();
    (!each.is_empty()).then(|| between(&each, asked))
}
