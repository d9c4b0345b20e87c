//! How low and how high the underside of a plate may stand, and on whose word.

use crate::catalog::{Authority, Grout, Limit, Standing};
use crate::length::Length;
use crate::model::{Base, Job, Raise};
use crate::plan::stacks;

/// From what heights are counted.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Origin {
    /// From the top of concrete as it is designed.
    Design,
    /// From the concrete as it is cast under each plate: how far that is from its design is not known.
    Pad,
}

/// One end of where the underside of a plate may stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct End {
    /// Its height above the origin.
    pub height: Length,
    /// What brings it there.
    pub why: &'static str,
    /// On whose word.
    pub authority: Authority,
}

/// What the shims under a plate may be off, beside the height they are called by.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct ShimTolerance {
    /// How far the plate may then stand below its lowest.
    pub less: Length,
    /// How far the plate may then stand above its highest.
    pub more: Length,
    /// On whose word.
    pub authority: Authority,
}

/// Where the underside of a plate may stand.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Plane {
    /// From what its heights are counted.
    pub origin: Origin,
    /// Its design: the designed bed, or nothing.
    pub design: Length,
    /// Its lowest.
    pub low: End,
    /// Its highest.
    pub high: End,
    /// What the shims under it may be off; none where there are none.
    pub shims: Option<ShimTolerance>,
}

/// Tells where the underside of a plate may stand under the limits in force.
///
/// # Errors
/// Says what is missing where no limit tells how high it may come.
pub fn plane(job: &Job, base: &Base) -> Result<Plane, &'static str> {
    let tables = &job.limits.tables;
    let top = tables.pad.as_ref().and_then(|pad| pad.top.as_ref());
    let grout = tables.grout.as_ref().filter(|_| base.has_bed());
    match (top, grout) {
        (Some(top), Some(grout)) => Ok(on_a_bed(job, base, top, grout)),
        (Some(top), None) => Ok(on_its_pad(job, top)),
        (None, Some(grout)) => Ok(Plane {
            origin: Origin::Pad,
            design: base.bed,
            low: thinnest_bed(base, Length::ZERO, end(grout.least.value, "the thinnest bed", &grout.least)),
            high: end(grout.most.value, "the thickest bed", &grout.most),
            shims: None,
        }),
        (None, None) => above_its_pad(job),
    }
}

/// A bed of grout over concrete whose limits are known: at the design seat, unless the concrete is too high for that.
fn on_a_bed(job: &Job, base: &Base, top: &Limit<[Length; 2]>, grout: &Grout) -> Plane {
    let [lowest, highest] = top.value;
    let at_design =
        End { height: base.bed, why: "the plate at its design level", authority: Authority::this_job() };
    let thinnest = end(highest + grout.least.value, "the thinnest bed on the highest concrete", top);
    let thinnest = thinnest_bed(base, highest, thinnest);
    let thickest = end(lowest + grout.most.value, "the thickest bed on the lowest concrete", top);
    let seats = job.limits.tables.design.as_ref().map(|design| &design.accept);
    let (low, level) = match seats {
        Some(accept) => (
            end(base.bed - accept.value, "the seat at the lowest that is accepted", accept),
            end(base.bed + accept.value, "the seat at the highest that is accepted", accept),
        ),
        None => {
            let step = end(base.bed - grout.step.value, "one step of the bed below design", &grout.step);
            (lower(step, thickest), at_design)
        }
    };
    Plane { origin: Origin::Design, design: base.bed, low, high: higher(level, thinnest), shims: None }
}

/// Gives where the thinnest bed brings a plate, or what must go into it where that takes more: a levelling nut and its washer
/// at their most.
fn thinnest_bed(base: &Base, concrete: Length, grout: End) -> End {
    let Some(levelling) = base.levelling() else { return grout };
    let authority = Authority::new(Standing::HouseRule, "the sum of the parts in the bed, each at its most");
    let nuts = End {
        height: concrete + levelling.height().most,
        why: "levelling nut and washer on the highest concrete",
        authority,
    };
    higher(grout, nuts)
}

/// A plate on its pad or on shims, over concrete whose limits are known: no plate is shimmed above the highest.
fn on_its_pad(job: &Job, top: &Limit<[Length; 2]>) -> Plane {
    let [lowest, highest] = top.value;
    let low = end(lowest, "the plate on the lowest concrete", top);
    let high = end(highest, "the plate on the highest concrete", top);
    let (low, high) = match job.limits.tables.design.as_ref().map(|design| &design.accept) {
        Some(accept) => (
            higher(low, end(-accept.value, "the seat at the lowest that is accepted", accept)),
            higher(high, end(accept.value, "the seat at the highest that is accepted", accept)),
        ),
        None => (low, high),
    };
    let (room_below, room) = (low.height - lowest, high.height - lowest);
    let shims = shims(job, room_below, room);
    Plane { origin: Origin::Design, design: Length::ZERO, low, high, shims }
}

/// A plate on its pad or on shims, over concrete whose limits are not known.
fn above_its_pad(job: &Job) -> Result<Plane, &'static str> {
    let tables = &job.limits.tables;
    let most = tables.shim.as_ref().and_then(|shim| shim.most.as_ref());
    let most = most.ok_or(
        "no limit says how high a plate may come to stand: set [limits.pad] top, or [limits.shim] most",
    )?;
    let on_pad = Authority::new(Standing::HouseRule, "a plate that nothing is put under stands on its pad");
    let on_pad = End { height: Length::ZERO, why: "the plate on its pad", authority: on_pad };
    let low = match &tables.grind {
        Some(grind) => end(-grind.most.value, "the pad ground as deep as may be", &grind.most),
        None => on_pad,
    };
    let high = end(most.value, "the highest stack of shims without asking", most);
    let shims = shims(job, Length::ZERO, most.value);
    Ok(Plane { origin: Origin::Pad, design: Length::ZERO, low, high, shims })
}

fn end<T>(height: Length, why: &'static str, limit: &Limit<T>) -> End {
    End { height, why, authority: limit.authority.clone() }
}

fn higher(one: End, other: End) -> End {
    if other.height > one.height { other } else { one }
}

fn lower(one: End, other: End) -> End {
    if other.height < one.height { other } else { one }
}

/// Gives the most that the stacks worth planning with may be off, none higher than the room.
fn shims(job: &Job, room_below: Length, room: Length) -> Option<ShimTolerance> {
    let most = job.limits.tables.shim.as_ref().and_then(|shim| shim.most.as_ref()).map(|most| most.value);
    let authority = job.shims.pieces.first()?.authority.clone();
    let all = stacks(&job.shims, Some(most.map_or(room, |most| most.min(room))));
    // a stack that stands higher than the lowest plate, since none just reaches it, is thin by so much less below it
    let thin =
        |height: Raise| height.nominal - height.least - (height.nominal - room_below).max(Length::ZERO);
    let less = all.iter().map(|stack| thin(stack.height)).max();
    let more = all.iter().map(|stack| stack.height.most - stack.height.nominal).max();
    let [less, more] = [less, more].map(|off| off.unwrap_or(Length::ZERO).max(Length::ZERO));
    Some(ShimTolerance { less, more, authority })
}
