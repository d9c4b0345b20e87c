//! What a screen shows of jobs that were measured.

use crate::detail::{Between, Claim, Counts, Detail, Figures, Kind, Measured, Missed, Percent};
use crate::length::{Length, Rounding};
use crate::report::document::{Align, Document, Tone};
use crate::text::{Style, count};

/// Writes what the measured columns of a kind say.
pub(super) fn learned(
    document: &mut Document,
    detail: &Detail<'_>,
    kind: &Kind<'_>,
    measured: &Measured,
    style: Style,
) {
    let jobs = measured.jobs.iter().filter(|job| job.columns > 0).count();
    let columns = measured.columns.len();
    document
        .heading(Tone::Plain, format!("MEASURED: {} of {}", count(columns, "column"), count(jobs, "job")));
    by_job(document, kind, measured, style);
    pads_by_job(document, kind, measured, style);
    let pooled = [
        ("rods", "projection less the drawing's", &measured.projections, None),
        ("rod tops", "from their design", &measured.tops, Some(measured.tops_outside)),
        ("pads", "from their design", &measured.pads, Some(measured.pads_outside)),
    ];
    for (name, what, figures, outside) in pooled {
        let said = figures.as_ref().map_or("not known".to_owned(), |figures| {
            let outside = match outside {
                None => String::new(),
                Some(None) => "; no limit is set for them".to_owned(),
                Some(Some(0)) => "; all within their limits".to_owned(),
                Some(Some(number)) => format!("; {number} OUTSIDE THEIR LIMITS"),
            };
            format!("{}{outside}", in_words(figures, style))
        });
        document.item(Tone::Plain, name, format!("{what}: {said}"));
    }
    if measured.jobs.iter().any(|job| job.columns > 0 && job.pads.is_none()) {
        let why = "where heights are relative, or no design seat is given, no pad and no top can be held \
                   against its design";
        document.item(Tone::Quiet, " ", why);
    }
    trials(document, kind, measured, style);
    cleared(document, detail, measured, style);
    claims(document, detail, measured, style);
    left_out(document, measured);
}

fn by_job(document: &mut Document, kind: &Kind<'_>, measured: &Measured, style: Style) {
    let rows = kind.members.iter().zip(&measured.jobs).map(|(member, job)| {
        let figures = job.projections.as_ref();
        let cell = |figure: Option<Length>, way| figure.map_or("-".to_owned(), |it| style.signed(it, way));
        vec![
            format!("{} of {}", member.base.mark, member.job.name),
            format!("{}/{}", job.columns, job.columns + job.not_measured),
            figures.map_or(0, |figures| figures.count).to_string(),
            cell(figures.map(|figures| figures.mean), Rounding::Nearest),
            figures
                .and_then(|figures| figures.deviation)
                .map_or("-".to_owned(), |deviation| style.write(deviation, Rounding::Up)),
            cell(figures.map(|figures| figures.least), Rounding::Down),
            cell(figures.map(|figures| figures.most), Rounding::Up),
            job.needs.map_or("-".to_owned(), |needs| style.write(needs, Rounding::Up)),
        ]
    });
    document.grid(
        &[
            ("job", Align::Wrap),
            ("columns", Align::Right),
            ("rods", Align::Right),
            ("mean", Align::Right),
            ("spread", Align::Right),
            ("lowest", Align::Right),
            ("highest", Align::Right),
            ("needs", Align::Right),
        ],
        rows.collect(),
    );
    document.text(
        Tone::Quiet,
        "Mean, spread (standard deviation), lowest and highest of what rods stand above their own pads, less the drawing. \
         Low and high are the ends of a group, not a sample of its rods; one value for all counts once. Needs: what the drawing would have had to say for \
         the worst rod to be full where the pads want the plate.",
    );
}

fn pads_by_job(document: &mut Document, kind: &Kind<'_>, measured: &Measured, style: Style) {
    if measured.jobs.iter().all(|job| job.pads.is_none() && job.pad_spread.is_none()) {
        return;
    }
    let rows = kind.members.iter().zip(&measured.jobs).map(|(member, job)| {
        let figures = job.pads.as_ref();
        let cell = |figure: Option<Length>, way| figure.map_or("?".to_owned(), |it| style.signed(it, way));
        let plain =
            |figure: Option<Length>| figure.map_or("?".to_owned(), |it| style.write(it, Rounding::Up));
        vec![
            format!("{} of {}", member.base.mark, member.job.name),
            figures.map_or("?".to_owned(), |figures| figures.count.to_string()),
            cell(figures.map(|figures| figures.mean), Rounding::Nearest),
            plain(figures.and_then(|figures| figures.deviation)),
            cell(figures.map(|figures| figures.least), Rounding::Down),
            cell(figures.map(|figures| figures.most), Rounding::Up),
            plain(job.pad_spread),
        ]
    });
    document.grid(
        &[
            ("pads from design", Align::Wrap),
            ("pads", Align::Right),
            ("mean", Align::Right),
            ("spread", Align::Right),
            ("lowest", Align::Right),
            ("highest", Align::Right),
            ("high to low", Align::Right),
        ],
        rows.collect(),
    );
}

fn in_words(figures: &Figures, style: Style) -> String {
    let spread = figures
        .deviation
        .map_or(String::new(), |deviation| format!(", spread {}", style.write(deviation, Rounding::Up)));
    format!(
        "{} measured, mean {}{spread}, from {} to {}",
        figures.count,
        style.signed(figures.mean, Rounding::Nearest),
        style.signed(figures.least, Rounding::Down),
        style.signed(figures.most, Rounding::Up),
    )
}

fn trials(document: &mut Document, kind: &Kind<'_>, measured: &Measured, style: Style) {
    let row = |name: String, counts: &Counts, cleared: String, thread: String| {
        let states = [counts.full, counts.scant, counts.unsure, counts.short, counts.runs_out];
        let mut row = vec![name];
        row.extend(states.map(|number| number.to_string()));
        row.extend([cleared, thread]);
        row
    };
    let mut rows = vec![row("today".to_owned(), &measured.today, "-".to_owned(), "-".to_owned())];
    rows.extend(measured.candidates.iter().map(|candidate| {
        let drawn = kind.members.iter().any(|it| it.base.rods.projection == Some(candidate.projection));
        let specified = kind.worst.is_some_and(|worst| worst.projection == candidate.projection);
        let mark = match (drawn, specified) {
            (true, true) => " drawn, asked",
            (true, false) => " drawn",
            (false, true) => " asked",
            (false, false) => "",
        };
        row(
            format!("{}{mark}", style.exact(candidate.projection)),
            &candidate.counts,
            format!("{}/{}", candidate.cleared, measured.sample),
            candidate.thread.map_or("?".to_owned(), |thread| style.write(thread, Rounding::Up)),
        )
    }));
    document.grid(
        &[
            ("projection", Align::Left),
            ("full", Align::Right),
            ("scant", Align::Right),
            ("unsure", Align::Right),
            ("short", Align::Right),
            ("runs out", Align::Right),
            ("cleared", Align::Right),
            ("thread for it", Align::Right),
        ],
        rows,
    );
    let mut said = vec![
        "Rods in each state with that projection on the drawing, the thread as it was, where the pads alone want the plate; \
         columns cleared of those that count; and the thread on the drawing with which no measured thread would run out."
            .to_owned(),
    ];
    if measured.left_out > 0 {
        said.push(format!("{} are not listed.", count(measured.left_out, "lower step")));
    }
    let unknown = measured.today.thread_unknown;
    if unknown > 0 {
        let verb = if unknown == 1 { "has" } else { "have" };
        said.push(format!(
            "{} {verb} no thread measured: whether it runs out is not known.",
            count(unknown, "rod")
        ));
    }
    if measured.today.without_raise > 0 {
        said.push(format!("{} without a raise: not judged.", count(measured.today.without_raise, "rod")));
    }
    document.text(Tone::Quiet, said.join(" "));
}

fn cleared(document: &mut Document, detail: &Detail<'_>, measured: &Measured, style: Style) {
    let named = |length: Option<Length>| length.map(|length| style.exact(length));
    let all = match (named(measured.clears_all), named(measured.clears_measured)) {
        (Some(all), _) => format!("{all} would have cleared every column that counts ({})", measured.sample),
        (None, Some(some)) => format!(
            "nothing is known to clear every column: {} not wholly measured, or referred. {some} would have \
             cleared every rod that was measured",
            is_are(measured.open)
        ),
        (None, None) => "nothing can be said: no rod was measured where a raise is planned".to_owned(),
    };
    document.item(Tone::Plain, "all", all);
    let share = detail.asked.share.words();
    let said = match named(measured.clears_share) {
        Some(found) => format!("{found} would have cleared {share} of the columns that count, in these jobs"),
        None => format!("no step is known to clear {share} of these columns"),
    };
    document.item(Tone::Plain, share, said);
}

fn is_are(number: usize) -> String {
    format!("{} {}", count(number, "column"), if number == 1 { "is" } else { "are" })
}

fn percent(percent: Option<Percent>) -> String {
    percent.map_or("none".to_owned(), Percent::about)
}

fn claims(document: &mut Document, detail: &Detail<'_>, measured: &Measured, style: Style) {
    let (share, sure) = (detail.asked.share.words(), detail.asked.confidence.words());
    let (tone, said) = next_job(&measured.claim, (&share, &sure), style);
    document.item(tone, "next job", said);
    let mut between = |name: &str, what: &str, found: &Between| {
        document.item(Tone::Plain, name, ends(found, what, (&share, &sure), style));
    };
    between("rods lie", "the rods of", &measured.projections_between);
    if let Some(pads) = &measured.pads_between {
        between("pads lie", "the pads of", pads);
    }
    document.text(
        Tone::Quiet,
        "Tolerance intervals from order statistics, whatever the distribution (S. S. Wilks, 1941). A column counts once, \
         with its worst rod, since the rods of a template move together; they hold as far as columns of the next job come \
         from the same crews and drawings as these.",
    );
}

fn next_job(claim: &Claim, (share, sure): (&str, &str), style: Style) -> (Tone, String) {
    let needed =
        claim.sample_needed.map_or("more than can be counted".to_owned(), |needed| needed.to_string());
    match (claim.rank, claim.projection) {
        (Some(rank), Some(projection)) => (
            Tone::Good,
            format!(
                "{} clears {share} of columns at {sure} confidence: column {rank} of {} in order of need, sure to {}",
                style.exact(projection),
                claim.sample,
                percent(claim.confidence)
            ),
        ),
        (Some(rank), None) => (
            Tone::Ask,
            format!(
                "nothing is claimed: column {rank} of {} in order of need is one that is not wholly measured, or referred",
                claim.sample
            ),
        ),
        (None, _) => (
            Tone::Ask,
            format!(
                "THE SAMPLE IS TOO SMALL to claim {share} at {sure} confidence: that takes {needed} columns, these are \
                 {}.{}",
                claim.sample,
                claim.largest.map_or(String::new(), |largest| format!(
                    " At that confidence {}, which clears all that are known, clears {} of columns",
                    style.exact(largest),
                    percent(claim.largest_covers)
                ))
            ),
        ),
    }
}

fn ends(found: &Between, what: &str, (share, sure): (&str, &str), style: Style) -> String {
    if let Some([low, high]) = found.ends {
        return format!(
            "{what} {share} of columns come out from {} to {}, sure to {}",
            style.signed(low, Rounding::Down),
            style.signed(high, Rounding::Up),
            percent(found.confidence)
        );
    }
    if found.open > 0 {
        return format!("nothing is claimed: {} not wholly measured", is_are(found.open));
    }
    let needed =
        found.sample_needed.map_or("more than can be counted".to_owned(), |needed| needed.to_string());
    format!(
        "the sample is too small to claim {share} at {sure} confidence: that takes {needed} columns, these are {}; \
         between the ends of it lie {}",
        found.sample,
        percent(found.ends_cover)
    )
}

fn left_out(document: &mut Document, measured: &Measured) {
    let marks = |missed: Missed| {
        let each = measured.columns.iter().filter(move |column| column.missed == Some(missed));
        each.map(|column| column.mark.clone()).collect::<Vec<_>>()
    };
    let sorts = [
        (Missed::Partly, "not every rod measured and sound: they count as needing more than any step"),
        (
            Missed::Referred,
            "nothing brings the plate where it must be: they count as needing more than any step",
        ),
        (Missed::NoRaise, "no height of the pad, or no plan: they do not count"),
        (Missed::NotDrawn, "the drawing's projection is not given: they do not count"),
    ];
    for (missed, why) in sorts {
        let marks = marks(missed);
        if !marks.is_empty() {
            document.item(Tone::Ask, "columns", format!("{}: {why}", marks.join(", ")));
        }
    }
    if measured.not_measured > 0 {
        let said =
            format!("{} with no rod measured yet: they do not count", count(measured.not_measured, "column"));
        document.item(Tone::Plain, "columns", said);
    }
}
