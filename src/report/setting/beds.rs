//! A designed bed of grout: what is planned, what is allowed, and what is published of such beds.

use crate::catalog::{
    bed_for_flow, flow_authority, gap_left, instructions_authority, mortar_authority, mortars,
    wants_instructions,
};
use crate::check::{Case, ColumnCase};
use crate::length::Rounding;
use crate::report::document::{Document, Tone};
use crate::report::rules::source;
use crate::text::Style;

/// Adds the section of a column whose base has a designed bed.
pub(in crate::report) fn explained(
    document: &mut Document,
    case: &Case<'_>,
    column: &ColumnCase,
    style: Style,
) {
    let base = case.base(column.index);
    if !base.has_bed() {
        return;
    }
    document.heading(Tone::Plain, "BED OF GROUT");
    let designed = style.exact(base.bed);
    let planned = column.raise.map(|raise| raise.nominal);
    let told = match planned {
        Some(bed) => {
            let off = style.signed(bed - base.bed, Rounding::Nearest);
            format!("planned {}, designed {designed}: {off} from the designed bed", style.exact(bed))
        }
        None => format!("none is planned, designed {designed}"),
    };
    document.text(Tone::Plain, told);
    let tables = &case.job.limits.tables;
    if let Some(grout) = &tables.grout {
        let (least, most) = (style.exact(grout.least.value), style.exact(grout.most.value));
        let step = style.exact(grout.step.value);
        document.item(Tone::Plain, "allowed", format!("{least} to {most}, planned in steps of {step}"));
        document.item(Tone::Quiet, " ", format!("source, {}", source(&grout.most.authority)));
    }
    if let Some(top) = tables.pad.as_ref().and_then(|pad| pad.top.as_ref()) {
        let [least, most] = gap_left(base.bed, top.value).map(|gap| style.exact(gap));
        document.item(
            Tone::Plain,
            "room",
            format!("{least} to {most} where the concrete is within its limits"),
        );
        document.item(Tone::Quiet, " ", format!("source, {}", source(&top.authority)));
    }
    let bed = planned.unwrap_or(base.bed);
    let flow = base.plate.size.map(|[a, b]| a.min(b));
    let wanted = match flow {
        Some(flow) => format!(
            "{} for flowable grout across this plate, {}",
            style.write(bed_for_flow(flow), Rounding::Up),
            style.exact(flow)
        ),
        None => "the size of the plate is not given, so how far grout flows is not known".to_owned(),
    };
    document.item(Tone::Plain, "to flow", wanted);
    document.item(Tone::Quiet, " ", format!("source, {}", source(&flow_authority())));
    document.item(Tone::Plain, "mortar", format!("for {}: {}", style.exact(bed), mortars(bed).join("; or ")));
    document.item(Tone::Quiet, " ", format!("source, {}", source(&mortar_authority())));
    if wants_instructions(bed) {
        document.item(Tone::Plain, "thin", "obtain instructions for a gap this small");
        document.item(Tone::Quiet, " ", format!("source, {}", source(&instructions_authority())));
    }
    document.text(
        Tone::Quiet,
        "What holds the plate until the grout is hard, packs or levelling nuts, is not counted as shims. The last \
         figures are told and not judged: the drawings and the maker of the grout rule.",
    );
}
