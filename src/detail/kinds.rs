//! The kinds of base of one or many jobs, those with the same parts and limits together, and what to specify for each.

use super::asked::Asked;
use super::chance::{Likely, likely};
use super::measured::{Measured, Raises, measure};
use super::specification::{Specification, allowed, specify, thread_needed};
use super::terms::{Group, Terms, terms};
use crate::length::Length;
use crate::levels::Levelled;
use crate::model::{Base, Job, Levelling, Units};

/// A job with its reduced levels; rods by level are in the job already.
#[derive(Clone, Copy, Debug)]
pub struct Studied<'a> {
    /// The job.
    pub job: &'a Job,
    /// Its levels.
    pub levels: &'a Levelled,
}

/// A base of one job.
#[derive(Clone, Copy, Debug)]
pub struct Member<'a> {
    /// The job, an index into [`Detail::jobs`].
    pub job_index: usize,
    /// The job.
    pub job: &'a Job,
    /// The base, an index into [`Job::bases`].
    pub base_index: usize,
    /// The base.
    pub base: &'a Base,
}

/// What the drawing of one job has today, held against the worst case.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Drawing {
    /// Its projection, where given.
    pub projection: Option<Length>,
    /// Its thread, where given.
    pub thread: Option<Length>,
    /// The least thread with that projection, or with the specified one where none is given.
    pub thread_least: Length,
    /// Whether the projection is enough; none where none is given.
    pub projection_meets: Option<bool>,
    /// Whether the thread is enough; none where none is given.
    pub thread_meets: Option<bool>,
    /// Where the underside of the plate may stand with it; none without a projection.
    pub allowed: Option<[Length; 2]>,
}

impl Drawing {
    /// Tells whether projection and thread are enough; none where one is not given and the other is not too little.
    #[must_use]
    pub fn meets(&self) -> Option<bool> {
        match (self.projection_meets, self.thread_meets) {
            (Some(false), _) | (_, Some(false)) => Some(false),
            (Some(true), Some(true)) => Some(true),
            _ => None,
        }
    }
}

/// One kind of base and what to specify for it.
#[derive(Debug)]
pub struct Kind<'a> {
    /// The bases of this kind, in the order of the jobs.
    pub members: Vec<Member<'a>>,
    /// Its terms, or what is missing for them.
    pub terms: Result<Terms, Vec<&'static str>>,
    /// The specification at the worst case; none where terms are missing.
    pub worst: Option<Specification>,
    /// The specification at the stated probability.
    pub likely: Option<(Likely, Specification)>,
    /// Today's drawing of each member; empty where terms are missing.
    pub drawings: Vec<Drawing>,
    /// What measured jobs say; none where no rod of it was measured.
    pub measured: Option<Measured>,
}

/// The answer.
#[derive(Debug)]
pub struct Detail<'a> {
    /// The jobs, as they were given.
    pub jobs: Vec<Studied<'a>>,
    /// What was asked for.
    pub asked: Asked,
    /// The kinds of base, in the order in which jobs have them.
    pub kinds: Vec<Kind<'a>>,
}

impl Detail<'_> {
    /// Tells whether a specification could be given for every base, nothing it hangs on is unknown, and what the
    /// drawings have meets it.
    #[must_use]
    pub fn is_clear(&self) -> bool {
        self.kinds.iter().all(|kind| {
            kind.worst.is_some()
                && !kind.concrete_unknown()
                && kind.drawings.iter().all(|drawing| drawing.meets() != Some(false))
        })
    }
}

impl Kind<'_> {
    /// Tells whether heights count from the concrete as cast, since no limit says how far that is from its design.
    #[must_use]
    pub fn concrete_unknown(&self) -> bool {
        self.terms.as_ref().is_ok_and(|terms| terms.plane.origin == super::plane::Origin::Pad)
    }
}

/// Studies the bases of jobs.
#[must_use]
pub fn detail<'a>(jobs: &[Studied<'a>], asked: &Asked) -> Detail<'a> {
    let raises: Vec<Raises> = jobs.iter().map(|studied| Raises::of(studied)).collect();
    let mut pools: Vec<Vec<Member<'a>>> = Vec::new();
    for (job_index, studied) in jobs.iter().enumerate() {
        let job = studied.job;
        for (base_index, base) in job.bases.iter().enumerate() {
            let member = Member { job_index, job, base_index, base };
            match pools.iter_mut().find(|pool| pool.first().is_some_and(|first| alike(first, &member))) {
                Some(pool) => pool.push(member),
                None => pools.push(vec![member]),
            }
        }
    }
    let kinds = pools.into_iter().map(|members| kind(members, jobs, &raises, asked)).collect();
    Detail { jobs: jobs.to_vec(), asked: *asked, kinds }
}

fn kind<'a>(members: Vec<Member<'a>>, jobs: &[Studied<'a>], raises: &[Raises], asked: &Asked) -> Kind<'a> {
    // of several jobs the tape that is known worst
    let worst_read = members.iter().max_by_key(|member| member.job.rods_plus_minus);
    let told = worst_read
        .map_or_else(|| Err(Vec::new()), |member| terms(member.job, member.base, member.job.rods_plus_minus));
    let metric = jobs.first().is_some_and(|first| first.job.units == Units::Millimetre);
    let worst = told.as_ref().ok().map(|terms| specify(terms, terms.worst(), asked.step, metric));
    let likely = told.as_ref().ok().and_then(|terms| {
        let found = likely(terms, asked.spreads, asked.probability, grid(metric))?;
        Some((found, specify(terms, found.convolved, asked.step, metric)))
    });
    let drawings = match (&told, &worst) {
        (Ok(terms), Some(worst)) => members.iter().map(|member| drawing(member, terms, worst)).collect(),
        _ => Vec::new(),
    };
    let measured = measure(&members, jobs, raises, asked, worst.map(|worst| worst.projection));
    Kind { members, terms: told, worst, likely, drawings, measured }
}

/// The grid of probabilities: 0.001 in, or 0.01 mm.
const fn grid(metric: bool) -> Length {
    Length::from_nm(if metric { 10_000 } else { 25_400 })
}

fn drawing(member: &Member<'_>, terms: &Terms, worst: &Specification) -> Drawing {
    let rods = &member.base.rods;
    let thread_least = thread_needed(terms, rods.projection.unwrap_or(worst.projection));
    Drawing {
        projection: rods.projection,
        thread: rods.thread,
        thread_least,
        projection_meets: rods.projection.map(|projection| projection >= terms.worst()),
        thread_meets: rods.thread.map(|thread| thread >= thread_least),
        allowed: rods.projection.map(|projection| allowed(terms, projection, rods.thread)),
    }
}

/// Tells whether two bases have the same rods, the same parts and the same limits, so that what is measured of one
/// tells of the other.
fn alike(one: &Member<'_>, other: &Member<'_>) -> bool {
    let (a, b) = (one.base, other.base);
    let parts = |base: &Base| {
        let washers: Vec<_> = base.washers.iter().map(|washer| washer.thickness).collect();
        let nuts: Vec<_> = base.nuts.iter().map(|nut| nut.height).collect();
        let levelling = base.levelling().map(Levelling::height);
        (base.plate.thickness, washers, nuts, levelling, base.beyond.value, base.clear.value, base.bed)
    };
    let limits = |member: &Member<'_>| {
        let told = terms(member.job, member.base, Length::ZERO);
        told.map(|terms| {
            let bands: Vec<(Group, Length, Length)> =
                terms.list.iter().map(|term| (term.group, term.least, term.most)).collect();
            (bands, terms.plane.origin, terms.lowest())
        })
    };
    a.rods.diameter == b.rods.diameter
        && a.rods.pitch == b.rods.pitch
        && parts(a) == parts(b)
        && limits(one) == limits(other)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drawing_without_its_thread_or_its_projection_is_not_enough() {
        let drawing = |projection_meets, thread_meets| Drawing {
            projection: None,
            thread: None,
            thread_least: Length::ZERO,
            projection_meets,
            thread_meets,
            allowed: None,
        };
        let meets = |projection, thread| drawing(projection, thread).meets();
        assert_eq!(meets(Some(true), Some(true)), Some(true));
        assert_eq!([meets(Some(true), None), meets(None, Some(true)), meets(None, None)], [None; 3]);
        assert_eq!([meets(Some(false), None), meets(Some(true), Some(false))], [Some(false); 2]);
    }
}
