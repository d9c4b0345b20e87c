//! `[[base]]`: the kinds of column base, every part found in the catalog.

use super::context::Context;
use super::job_toml::{entries, one_of};
use super::parts::{Size, nut, pitch, size, washer};
use super::plate;
use super::setting;
use super::steel;
use crate::catalog::{Authority, Catalog, InPitches, Limit, Limits, Pitch, Standing};
use crate::length::Length;
use crate::model::{Base, Duty, RodKind, Units};
use crate::source::{Node, Place, Problem, Table};
use crate::text::{Style, System};

/// The kinds of base of a job.
#[derive(Default)]
pub(super) struct Bases {
    /// One slot a `[[base]]`, also where it is faulty.
    pub(super) slots: Vec<Slot>,
    /// Whether every `[[base]]` has a mark that can be used.
    pub(super) whole: bool,
    /// Whether there is any `[[base]]`, faulty ones too.
    pub(super) any: bool,
}

/// One `[[base]]`.
pub(super) struct Slot {
    /// Its mark.
    pub(super) mark: String,
    /// Where the mark stands.
    pub(super) place: Place,
    /// How many rods it has, where that can be read.
    pub(super) count: Option<u32>,
    /// The base, where nothing is wrong with it.
    pub(super) base: Option<Base>,
}

impl Bases {
    /// Finds a base by its mark, and notes one that is not known.
    pub(super) fn find(&self, context: Context<'_>, mark: &str, place: Place) -> Option<usize> {
        let found = self.slots.iter().position(|slot| slot.mark == mark);
        if found.is_none() && self.whole {
            let message = format!("{} is not a base of this job", crate::text::quoted(mark));
            context.unknown(place, message, mark, self.slots.iter().map(|slot| slot.mark.as_str()));
        }
        found
    }

    /// Gives the only base, where there is only one.
    pub(super) fn only(&self) -> Option<usize> {
        (self.whole && self.slots.len() == 1).then_some(0)
    }
}

/// What a base is read with.
#[derive(Clone, Copy)]
struct With<'a> {
    context: Context<'a>,
    catalog: &'a Catalog,
    limits: Option<&'a Limits>,
    units: Units,
}

/// Reads every `[[base]]`.
pub(super) fn read(
    context: Context<'_>,
    root: &Table<'_>,
    catalog: &Catalog,
    limits: Option<&Limits>,
    units: Units,
) -> Bases {
    let with = With { context, catalog, limits, units };
    let nodes = entries(context.walk, root, "base");
    let mut bases = Bases { slots: Vec::new(), whole: true, any: !nodes.is_empty() };
    for node in nodes {
        let Some(table) = context.walk.table(node, "[[base]]") else {
            bases.whole = false;
            continue;
        };
        let mark = table.need(context.walk, "mark", "\"B1\"");
        let mark =
            mark.and_then(|node| Some((context.name(&context.walk.text(node)?, node.place)?, node.place)));
        let (count, base) = one(with, &table, mark.as_ref().map(|(mark, _)| mark.as_str()));
        table.close(context.walk);
        let Some((mark, place)) = mark else {
            bases.whole = false;
            continue;
        };
        match bases.slots.iter().find(|slot| slot.mark == mark) {
            Some(first) => context.twice(&format!("the base `{mark}`"), place, first.place),
            None => bases.slots.push(Slot { mark, place, count, base }),
        }
    }
    // without any base the job is refused as a whole, not column by column
    bases.whole &= !bases.slots.is_empty();
    bases
}

fn one(with: With<'_>, table: &Table<'_>, mark: Option<&str>) -> (Option<u32>, Option<Base>) {
    let With { context, catalog, limits, .. } = with;
    let walk = context.walk;
    let rods = table
        .need(walk, "rods", "{ diameter = \"3/4\", count = 4 }")
        .and_then(|node| walk.table(node, "rods"))
        .map(|table| rods(with, &table));
    let (size, count, kind) = rods.map_or((None, None, None), |rods| (rods.size, rods.count, rods.kind));
    let plate = table
        .need(walk, "plate", "{ thickness = \"1/2\" }")
        .and_then(|node| walk.table(node, "plate"))
        .and_then(|table| plate::read(context, &table, size.as_ref(), catalog, limits));
    let washer_nodes = table.get("washers").and_then(|node| walk.list(node)).unwrap_or_default();
    let washers = every(washer_nodes, |node| washer(walk, node, size.as_ref(), catalog));
    let nuts = table.need(walk, "nuts", "[\"heavy-hex\"], there is no default").and_then(|node| {
        let items = walk.list(node)?;
        if items.is_empty() {
            let problem = Problem::at(node.place, "a rod needs at least one nut, and there is no default");
            walk.problems.note(problem.fix("name its series, as in nuts = [\"heavy-hex\"]"));
            return None;
        }
        every(items, |node| nut(context, node, size.as_ref(), catalog))
    });
    let extra = match table.get("extra") {
        Some(node) => washer(walk, node, size.as_ref(), catalog).map(Some),
        None => washers.as_ref().map(|washers| washers.last().cloned()),
    };
    let beyond = table.get("beyond").map(|node| walk.size(node));
    let duty =
        table.get("duty").map(|node| one_of(walk, node, [("column", Duty::Column), ("post", Duty::Post)]));
    let bed = bed(with, table);
    let setting = setting::read(context, table, bed, size.as_ref(), catalog);
    let build = || {
        let kind = kind?;
        let diameter = kind.diameter;
        let (own_beyond, clear, most_extra) = engagement(limits?, kind.pitch);
        let beyond = match beyond {
            Some(own) => Limit { value: own?, authority: Authority::this_job() },
            None => own_beyond,
        };
        Some(Base {
            mark: mark?.to_owned(),
            plate: plate?,
            rods: kind,
            washers: washers?,
            nuts: nuts?,
            extra: extra?,
            beyond,
            clear,
            most_extra,
            bed: bed?,
            setting: setting?,
            duty: duty.unwrap_or(Some(Duty::Column))?,
            hole_table: catalog.holes.iter().find_map(|holes| holes.series.row(diameter)).cloned(),
            plain_washer: catalog.holes.iter().find_map(|holes| holes.plain(diameter)).cloned(),
        })
    };
    (count, build())
}

/// Reads every item, so that all faults are told; none if one cannot be read.
fn every<T>(items: &[Node], read: impl Fn(&Node) -> Option<T>) -> Option<Vec<T>> {
    let read: Vec<Option<T>> = items.iter().map(read).collect();
    read.into_iter().collect()
}

/// Reads the designed bed of grout, which lies within the limits of grout; without the key there is none.
fn bed(with: With<'_>, table: &Table<'_>) -> Option<Length> {
    let With { context, limits, .. } = with;
    let Some(node) = table.get("bed") else { return Some(Length::ZERO) };
    let bed = context.walk.size(node)?;
    if bed == Length::ZERO {
        return Some(bed);
    }
    let style = Style::new(
        match with.units {
            Units::Inch => System::Inch,
            Units::Millimetre => System::Metric,
        },
        64,
    );
    let shown = style.exact(bed);
    let Some(grout) = &limits?.grout else {
        context
            .note(Problem::at(node.place, format!("a bed of {shown}, and no limits of grout are set")).fix(
                "add [limits.grout] with least, most and step, or set bed to 0 where there is no grout",
            ));
        return None;
    };
    let (least, most) = (grout.least.value, grout.most.value);
    if (least..=most).contains(&bed) {
        return Some(bed);
    }
    let (least, most) = (style.exact(least), style.exact(most));
    context.note(
        Problem::at(
            node.place,
            format!("a bed of {shown} lies outside the limits of grout, {least} to {most}"),
        )
        .fix("give the bed as the drawings have it, or set [limits.grout] least and most to what they allow"),
    );
    None
}

/// What could be read of the rods.
struct Rods {
    size: Option<Size>,
    count: Option<u32>,
    kind: Option<RodKind>,
}

fn rods(with: With<'_>, table: &Table<'_>) -> Rods {
    let walk = with.context.walk;
    let node = table.need(walk, "diameter", "\"3/4\"");
    let size = node.and_then(|node| size(walk, node, with.units));
    let pitch = node.zip(size.as_ref()).and_then(|(node, size)| pitch(walk, node, size, with.catalog));
    let count = table.need(walk, "count", "4").and_then(|node| walk.whole(node, 1, 64));
    let count = count.and_then(|count| u32::try_from(count).ok());
    let pattern = table.get("pattern").map(|node| plate::sides(walk, node));
    let projection = table.get("projection").map(|node| walk.size(node));
    let thread = table.get("thread").map(|node| walk.size(node));
    let steel = steel::rods(with.context, table, size.as_ref(), with.catalog);
    table.close(walk);
    let build = || {
        let (pitch, pitch_authority) = pitch?;
        let size = size.clone()?;
        Some(RodKind {
            size: size.called,
            diameter: size.diameter,
            count: count?,
            pattern: sound(pattern)?,
            projection: sound(projection)?,
            thread: sound(thread)?,
            pitch,
            pitch_authority,
            steel: steel?,
        })
    };
    let kind = build();
    Rods { size, count, kind }
}

/// Gives an optional key that could be read, or is absent.
#[expect(clippy::option_option, reason = "outside: whether it is sound; inside: whether it is there")]
pub(super) fn sound<T>(key: Option<Option<T>>) -> Option<Option<T>> {
    match key {
        Some(Some(value)) => Some(Some(value)),
        Some(None) => None,
        None => Some(None),
    }
}

/// Gives the thread wanted beyond the nut, the clear thread under it and the most extra washers.
fn engagement(limits: &Limits, pitch: Pitch) -> (Limit<Length>, Limit<Length>, Limit<u32>) {
    if let Some(engagement) = &limits.engagement {
        let at = |limit: &Limit<InPitches>| Limit {
            value: limit.value.at(pitch),
            authority: limit.authority.clone(),
        };
        return (at(&engagement.beyond), at(&engagement.clear), engagement.extra.clone());
    }
    let authority = Authority::new(Standing::HouseRule, "no engagement limits in force");
    let none = Limit { value: Length::ZERO, authority: authority.clone() };
    (none.clone(), none, Limit { value: 0, authority })
}
