//! The values behind `detail --format json`.

use super::note::note;
use super::sheet::origin;
use crate::catalog::{Authority, gap_left, spare_thread_authority};
use crate::detail::{
    Between, Candidate, Claim, Counts, Detail, Drawing, Figures, JobMeasured, Kind, Likely, Measured,
    MeasuredColumn, Member, Missed, Need, Percent, Specification, Term, Terms,
};
use crate::length::Length;
use crate::levels::Datum;
use crate::text::Style;
use serde::Serialize;
use serde_json::Value;

type Nm = Option<i64>;

fn nm(length: Option<Length>) -> Nm {
    length.map(Length::nm)
}

fn ppm(percent: Option<Percent>) -> Option<u32> {
    percent.map(Percent::millionths)
}

#[derive(Serialize)]
struct DetailJson<'d> {
    format: u32,
    units: &'static str,
    step_nm: i64,
    probability_ppm: u32,
    share_ppm: u32,
    confidence_ppm: u32,
    spreads: SpreadsJson,
    jobs: Vec<JobJson<'d>>,
    clear: bool,
    bases: Vec<KindJson<'d>>,
}

#[derive(Serialize)]
struct SpreadsJson {
    rod_tops: &'static str,
    parts: &'static str,
    bearing: &'static str,
}

#[derive(Serialize)]
struct JobJson<'d> {
    job: &'d str,
    limits: &'d str,
    datum: &'static str,
    columns: usize,
}

#[derive(Serialize)]
struct KindJson<'d> {
    members: Vec<MemberJson<'d>>,
    rod: &'d str,
    from: Option<&'static str>,
    missing: Vec<&'static str>,
    unknown: Vec<&'static str>,
    terms: Vec<TermJson<'d>>,
    plane: Option<PlaneJson<'d>>,
    parts_nm: Nm,
    at_design_nm: Nm,
    worst_nm: Nm,
    specify: Option<SpecificationJson>,
    likely: Option<LikelyJson>,
    thread_advice: Authority,
    levelling_nm: Option<[i64; 3]>,
    bed_left_nm: Option<[i64; 2]>,
    note: Option<Vec<String>>,
    measured: Option<MeasuredJson<'d>>,
}

#[derive(Serialize)]
struct MemberJson<'d> {
    job: &'d str,
    base: &'d str,
    projection_nm: Nm,
    thread_nm: Nm,
    thread_least_nm: Nm,
    projection_meets: Option<bool>,
    thread_meets: Option<bool>,
    allowed_nm: Option<[i64; 2]>,
}

#[derive(Serialize)]
struct TermJson<'d> {
    term: &'d str,
    group: &'static str,
    least_nm: i64,
    most_nm: i64,
    taken_as: &'static str,
    source: &'d Authority,
}

#[derive(Serialize)]
struct PlaneJson<'d> {
    design_nm: i64,
    low: EndJson<'d>,
    high: EndJson<'d>,
}

#[derive(Serialize)]
struct EndJson<'d> {
    height_nm: i64,
    why: &'static str,
    source: &'d Authority,
}

#[derive(Serialize)]
struct SpecificationJson {
    projection_nm: i64,
    thread_least_nm: i64,
    thread_nm: i64,
    thread_advised_nm: i64,
    allowed_nm: [i64; 2],
}

#[derive(Serialize)]
struct LikelyJson {
    convolved_nm: i64,
    grid_nm: i64,
    grid_error_nm: i64,
    root_sum_square_nm: i64,
    specify: SpecificationJson,
}

#[derive(Serialize)]
struct MeasuredJson<'d> {
    jobs: Vec<JobMeasuredJson<'d>>,
    projections: Option<FiguresJson>,
    tops: Option<FiguresJson>,
    pads: Option<FiguresJson>,
    tops_outside: Option<usize>,
    pads_outside: Option<usize>,
    columns: Vec<ColumnJson<'d>>,
    not_measured: usize,
    today: CountsJson,
    candidates: Vec<CandidateJson>,
    lower_steps_left_out: usize,
    sample: usize,
    open: usize,
    clears_measured_nm: Nm,
    clears_all_nm: Nm,
    clears_share_nm: Nm,
    claim: ClaimJson,
    projections_between: BetweenJson,
    pads_between: Option<BetweenJson>,
}

#[derive(Serialize)]
struct JobMeasuredJson<'d> {
    job: &'d str,
    base: &'d str,
    columns: usize,
    not_measured: usize,
    projections: Option<FiguresJson>,
    tops: Option<FiguresJson>,
    pads: Option<FiguresJson>,
    pad_spread_nm: Nm,
    needs_nm: Nm,
}

#[derive(Serialize)]
struct FiguresJson {
    count: usize,
    mean_nm: i64,
    deviation_nm: Nm,
    least_nm: i64,
    most_nm: i64,
}

#[derive(Serialize)]
struct ColumnJson<'d> {
    job: &'d str,
    mark: &'d str,
    raise_nm: Nm,
    pad_off_nm: Nm,
    needs_nm: Nm,
    missed: Option<&'static str>,
    rods: Vec<RodJson>,
}

#[derive(Serialize)]
struct RodJson {
    rod: String,
    off_drawing_nm: Nm,
    top_off_nm: Nm,
    needs_nm: Nm,
}

#[derive(Serialize)]
struct CountsJson {
    full: usize,
    scant: usize,
    unsure: usize,
    short: usize,
    #[serde(rename = "runs-out")]
    runs_out: usize,
    without_raise: usize,
    thread_unknown: usize,
}

#[derive(Serialize)]
struct CandidateJson {
    projection_nm: i64,
    rods: CountsJson,
    cleared: usize,
    thread_nm: Nm,
}

#[derive(Serialize)]
struct ClaimJson {
    sample: usize,
    sample_needed: Option<usize>,
    rank: Option<usize>,
    needs_nm: Nm,
    projection_nm: Nm,
    confidence_ppm: Option<u32>,
    largest_nm: Nm,
    largest_covers_ppm: Option<u32>,
}

#[derive(Serialize)]
struct BetweenJson {
    sample: usize,
    open: usize,
    sample_needed: Option<usize>,
    ends_nm: Option<[i64; 2]>,
    confidence_ppm: Option<u32>,
    ends_cover_ppm: Option<u32>,
}

/// Makes the values.
pub(super) fn value(detail: &Detail<'_>, style: Style) -> Value {
    let asked = &detail.asked;
    let json = DetailJson {
        format: 1,
        units: detail.jobs.first().map_or("in", |first| first.job.units.symbol()),
        step_nm: asked.step.nm(),
        probability_ppm: asked.probability.millionths(),
        share_ppm: asked.share.millionths(),
        confidence_ppm: asked.confidence.millionths(),
        spreads: SpreadsJson {
            rod_tops: asked.spreads.rod_tops.name(),
            parts: asked.spreads.parts.name(),
            bearing: asked.spreads.bearing.name(),
        },
        jobs: (detail.jobs.iter())
            .map(|studied| JobJson {
                job: &studied.job.name,
                limits: &studied.job.limits.name,
                datum: match studied.levels.datum() {
                    Datum::Relative => "relative",
                    Datum::Absolute(_) => "absolute",
                },
                columns: studied.job.columns.len(),
            })
            .collect(),
        clear: detail.is_clear(),
        bases: detail.kinds.iter().map(|it| kind(detail, it, style)).collect(),
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

fn kind<'d>(detail: &'d Detail<'_>, kind: &'d Kind<'_>, style: Style) -> KindJson<'d> {
    let terms = kind.terms.as_ref().ok();
    let unknown = if kind.concrete_unknown() { vec!["[limits.pad] top"] } else { Vec::new() };
    let members = kind.members.iter().enumerate();
    KindJson {
        members: members.map(|(at, it)| member(it, kind.drawings.get(at))).collect(),
        rod: kind.members.first().map_or("", |first| first.base.rods.size.as_str()),
        from: terms.map(|terms| origin(terms.plane.origin)),
        missing: kind.terms.as_ref().err().cloned().unwrap_or_default(),
        unknown,
        terms: terms.map_or_else(Vec::new, |it| it.list.iter().map(|it| term(detail, it)).collect()),
        plane: terms.map(plane),
        parts_nm: nm(terms.map(Terms::parts)),
        at_design_nm: nm(terms.map(Terms::at_design)),
        worst_nm: nm(terms.map(Terms::worst)),
        specify: kind.worst.as_ref().map(specification),
        likely: kind.likely.as_ref().map(likely),
        thread_advice: spare_thread_authority(),
        levelling_nm: terms
            .and_then(|terms| terms.levelling)
            .map(|parts| [parts.least, parts.nominal, parts.most].map(Length::nm)),
        bed_left_nm: bed_left(kind),
        note: note(kind, style),
        measured: kind.measured.as_ref().map(|it| measured(kind, it)),
    }
}

fn bed_left(kind: &Kind<'_>) -> Option<[i64; 2]> {
    let first = kind.members.first().filter(|first| first.base.has_bed())?;
    let top = first.job.limits.tables.pad.as_ref()?.top.as_ref()?;
    Some(gap_left(first.base.bed, top.value).map(Length::nm))
}

fn member<'d>(member: &'d Member<'_>, drawing: Option<&Drawing>) -> MemberJson<'d> {
    MemberJson {
        job: &member.job.name,
        base: &member.base.mark,
        projection_nm: nm(member.base.rods.projection),
        thread_nm: nm(member.base.rods.thread),
        thread_least_nm: nm(drawing.map(|drawing| drawing.thread_least)),
        projection_meets: drawing.and_then(|drawing| drawing.projection_meets),
        thread_meets: drawing.and_then(|drawing| drawing.thread_meets),
        allowed_nm: drawing.and_then(|drawing| drawing.allowed).map(|ends| ends.map(Length::nm)),
    }
}

fn term<'d>(detail: &Detail<'_>, term: &'d Term) -> TermJson<'d> {
    TermJson {
        term: &term.name,
        group: term.group.name(),
        least_nm: term.least.nm(),
        most_nm: term.most.nm(),
        taken_as: detail.asked.spreads.of(term).name(),
        source: &term.authority,
    }
}

fn plane(terms: &Terms) -> PlaneJson<'_> {
    let plane = &terms.plane;
    PlaneJson {
        design_nm: plane.design.nm(),
        low: EndJson { height_nm: plane.low.height.nm(), why: plane.low.why, source: &plane.low.authority },
        high: EndJson {
            height_nm: plane.high.height.nm(),
            why: plane.high.why,
            source: &plane.high.authority,
        },
    }
}

fn specification(spec: &Specification) -> SpecificationJson {
    SpecificationJson {
        projection_nm: spec.projection.nm(),
        thread_least_nm: spec.thread_least.nm(),
        thread_nm: spec.thread.nm(),
        thread_advised_nm: spec.thread_advised.nm(),
        allowed_nm: spec.allowed.map(Length::nm),
    }
}

fn likely((likely, spec): &(Likely, Specification)) -> LikelyJson {
    LikelyJson {
        convolved_nm: likely.convolved.nm(),
        grid_nm: likely.grid.nm(),
        grid_error_nm: likely.grid_error.nm(),
        root_sum_square_nm: likely.root_sum_square.nm(),
        specify: specification(spec),
    }
}

fn measured<'d>(kind: &'d Kind<'_>, measured: &'d Measured) -> MeasuredJson<'d> {
    let jobs = kind.members.iter().zip(&measured.jobs);
    MeasuredJson {
        jobs: jobs.map(|(member, it)| job_measured(member, it)).collect(),
        projections: measured.projections.as_ref().map(figures),
        tops: measured.tops.as_ref().map(figures),
        pads: measured.pads.as_ref().map(figures),
        tops_outside: measured.tops_outside,
        pads_outside: measured.pads_outside,
        columns: measured.columns.iter().map(|it| column(kind, it)).collect(),
        not_measured: measured.not_measured,
        today: counts(&measured.today),
        candidates: measured.candidates.iter().map(candidate).collect(),
        lower_steps_left_out: measured.left_out,
        sample: measured.sample,
        open: measured.open,
        clears_measured_nm: nm(measured.clears_measured),
        clears_all_nm: nm(measured.clears_all),
        clears_share_nm: nm(measured.clears_share),
        claim: claim(&measured.claim),
        projections_between: between(&measured.projections_between),
        pads_between: measured.pads_between.as_ref().map(between),
    }
}

fn job_measured<'d>(member: &'d Member<'_>, job: &JobMeasured) -> JobMeasuredJson<'d> {
    JobMeasuredJson {
        job: &member.job.name,
        base: &member.base.mark,
        columns: job.columns,
        not_measured: job.not_measured,
        projections: job.projections.as_ref().map(figures),
        tops: job.tops.as_ref().map(figures),
        pads: job.pads.as_ref().map(figures),
        pad_spread_nm: nm(job.pad_spread),
        needs_nm: nm(job.needs),
    }
}

fn figures(figures: &Figures) -> FiguresJson {
    FiguresJson {
        count: figures.count,
        mean_nm: figures.mean.nm(),
        deviation_nm: nm(figures.deviation),
        least_nm: figures.least.nm(),
        most_nm: figures.most.nm(),
    }
}

fn column<'d>(kind: &'d Kind<'_>, column: &'d MeasuredColumn) -> ColumnJson<'d> {
    ColumnJson {
        job: kind.members.get(column.member).map_or("", |member| member.job.name.as_str()),
        mark: &column.mark,
        raise_nm: nm(column.raise.map(|raise| raise.nominal)),
        pad_off_nm: nm(column.pad_off),
        needs_nm: match column.need {
            Need::UpTo(need) => Some(need.nm()),
            Need::Above | Need::Unknown => None,
        },
        missed: column.missed.map(missed),
        rods: (column.rods.iter())
            .map(|rod| RodJson {
                rod: rod.label.to_string(),
                off_drawing_nm: nm(rod.off_drawing),
                top_off_nm: nm(rod.top_off),
                needs_nm: nm(rod.needs),
            })
            .collect(),
    }
}

const fn missed(missed: Missed) -> &'static str {
    match missed {
        Missed::NotMeasured => "not-measured",
        Missed::Partly => "partly-measured",
        Missed::Referred => "referred",
        Missed::NoRaise => "no-raise",
        Missed::NotDrawn => "not-drawn",
    }
}

const fn counts(counts: &Counts) -> CountsJson {
    CountsJson {
        full: counts.full,
        scant: counts.scant,
        unsure: counts.unsure,
        short: counts.short,
        runs_out: counts.runs_out,
        without_raise: counts.without_raise,
        thread_unknown: counts.thread_unknown,
    }
}

fn candidate(candidate: &Candidate) -> CandidateJson {
    CandidateJson {
        projection_nm: candidate.projection.nm(),
        rods: counts(&candidate.counts),
        cleared: candidate.cleared,
        thread_nm: nm(candidate.thread),
    }
}

fn claim(claim: &Claim) -> ClaimJson {
    ClaimJson {
        sample: claim.sample,
        sample_needed: claim.sample_needed,
        rank: claim.rank,
        needs_nm: nm(claim.needs),
        projection_nm: nm(claim.projection),
        confidence_ppm: ppm(claim.confidence),
        largest_nm: nm(claim.largest),
        largest_covers_ppm: ppm(claim.largest_covers),
    }
}

fn between(between: &Between) -> BetweenJson {
    BetweenJson {
        sample: between.sample,
        open: between.open,
        sample_needed: between.sample_needed,
        ends_nm: between.ends.map(|ends| ends.map(Length::nm)),
        confidence_ppm: ppm(between.confidence),
        ends_cover_ppm: ppm(between.ends_cover),
    }
}
