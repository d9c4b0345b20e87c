//! `seat_on` of a `[[base]]`: how its plate is set, and the keys that go with it.

use super::base::sound;
use super::context::Context;
use super::job_toml::one_of;
use super::parts::{Size, nut, washer};
use super::plate::sides;
use crate::catalog::Catalog;
use crate::length::Length;
use crate::model::{Levelling, Packs, Setting, SettingPlate};
use crate::source::{Node, Place, Problem, Table};

/// What the key says, before what goes with it is read.
#[derive(Clone, Copy, PartialEq, Eq)]
enum On {
    Pad,
    Shims,
    Packs,
    Nuts,
    Plate,
}

impl On {
    const WRITTEN: [(&'static str, Self); 5] = [
        ("pad", Self::Pad),
        ("shims", Self::Shims),
        ("packs", Self::Packs),
        ("nuts", Self::Nuts),
        ("plate", Self::Plate),
    ];

    /// Gives its word.
    fn word(self) -> &'static str {
        Self::WRITTEN.iter().find(|(_, on)| *on == self).map_or("", |(word, _)| word)
    }

    /// Gives the key that belongs to it alone, where there is one.
    const fn key(self) -> Option<&'static str> {
        match self {
            Self::Pad | Self::Shims => None,
            Self::Packs => Some("packs"),
            Self::Nuts => Some("levelling"),
            Self::Plate => Some("setting_plate"),
        }
    }

    /// Tells whether it stands in a bed of grout.
    const fn in_a_bed(self) -> bool {
        matches!(self, Self::Packs | Self::Nuts | Self::Plate)
    }
}

/// Reads how a base is set; `bed` is its designed bed, where that could be read.
#[expect(clippy::option_option, reason = "outside: whether it is sound; inside: whether it is said")]
pub(super) fn read(
    context: Context<'_>,
    table: &Table<'_>,
    bed: Option<Length>,
    rod: Option<&Size>,
    catalog: &Catalog,
) -> Option<Option<Setting>> {
    let walk = context.walk;
    let said = table.get("seat_on").map(|node| (one_of(walk, node, On::WRITTEN), node.place));
    let on = said.and_then(|(on, _)| on);
    let strangers = strangers(context, table, said.map(|(on, _)| on));
    let fits = on.zip(said).is_none_or(|(on, (_, place))| fits_its_bed(context, on, place, bed));
    let setting = on.map(|on| match on {
        On::Pad => Some(Setting::Pad),
        On::Shims => Some(Setting::Shims),
        On::Packs => packs(context, table.get("packs")).map(Setting::Packs),
        On::Nuts => levelling(context, table, rod, catalog).map(|it| Setting::Nuts(Box::new(it))),
        On::Plate => setting_plate(context, table.get("setting_plate"), bed).map(Setting::Plate),
    });
    let faulty = strangers || !fits || said.is_some_and(|(on, _)| on.is_none());
    if faulty { None } else { sound(setting) }
}

/// Refuses the keys of other ways to set a plate; an unknown way refuses none. Tells whether there were any.
fn strangers(context: Context<'_>, table: &Table<'_>, on: Option<Option<On>>) -> bool {
    let mut any = false;
    for (word, other) in On::WRITTEN {
        let Some(key) = other.key() else { continue };
        if on == Some(Some(other)) {
            continue;
        }
        let Some(node) = table.get(key) else { continue };
        let problem = match on {
            Some(Some(on)) => Problem::at(
                node.place,
                format!(
                    "`{key}` goes with seat_on = \"{word}\", and this base has seat_on = \"{}\"",
                    on.word()
                ),
            )
            .fix(format!("take {key} out, or set seat_on = \"{word}\" if the drawings have it so")),
            None => Problem::at(
                node.place,
                format!("`{key}` says what the plate is set on, and seat_on is not given"),
            )
            .fix(format!("add seat_on = \"{word}\", or take {key} out")),
            // the word itself was noted
            Some(None) => continue,
        };
        context.note(problem);
        any = true;
    }
    any
}

/// Tells whether a way to set a plate goes with the bed of its base, and notes it where it does not.
fn fits_its_bed(context: Context<'_>, on: On, place: Place, bed: Option<Length>) -> bool {
    let word = on.word();
    let problem = match (on.in_a_bed(), bed) {
        // the bed itself was noted
        (_, None) => return true,
        (true, Some(bed)) if bed == Length::ZERO => {
            Problem::at(place, format!("seat_on = \"{word}\" needs a bed of grout, and this base has none"))
                .fix("add bed as the drawings have it, or set seat_on = \"pad\" or \"shims\"")
        }
        (false, Some(bed)) if bed > Length::ZERO => {
            Problem::at(place, format!("seat_on = \"{word}\" leaves no bed of grout, and this base has one")).fix(
                "say what holds the plate over its bed, seat_on = \"packs\", \"nuts\" or \"plate\", or take bed out",
            )
        }
        _ => return true,
    };
    context.note(problem);
    false
}

/// Reads the packs; what is not written is unknown.
fn packs(context: Context<'_>, node: Option<&Node>) -> Option<Packs> {
    let Some(node) = node else { return Some(Packs::default()) };
    let walk = context.walk;
    let table = walk.table(node, "packs")?;
    let size = table.get("size").map(|node| sides(walk, node));
    let count = table.get("count").map(|node| u32::try_from(walk.whole(node, 1, 64)?).ok());
    let left_in = table.get("left_in").map(|node| walk.yes(node));
    let cover = table.get("cover").map(|node| Some((walk.size(node)?, node.place)));
    table.close(walk);
    if let (Some(Some(false)), Some(Some((_, place)))) = (left_in, cover) {
        context.note(
            Problem::at(place, "`cover` is the grout over packs that are left in, and these are taken out")
                .fix("take cover out, or set left_in = true if the drawings leave them in"),
        );
        return None;
    }
    Some(Packs {
        size: sound(size)?,
        count: sound(count)?,
        left_in: sound(left_in)?,
        cover: sound(cover)?.map(|(cover, _)| cover),
    })
}

/// Reads levelling nut and washer; there is no default nut, and no washer is none.
fn levelling(
    context: Context<'_>,
    table: &Table<'_>,
    rod: Option<&Size>,
    catalog: &Catalog,
) -> Option<Levelling> {
    let walk = context.walk;
    let node = table.need(
        walk,
        "levelling",
        "{ nut = \"heavy-hex\", washer = \"plate\" }, there is no default nut",
    )?;
    let table = walk.table(node, "levelling")?;
    let part = table.need(walk, "nut", "\"heavy-hex\", there is no default");
    let part = part.and_then(|node| nut(context, node, rod, catalog));
    let under = table.get("washer").map(|node| washer(walk, node, rod, catalog));
    table.close(walk);
    Some(Levelling { washer: sound(under)?, nut: part? })
}

/// Reads the setting plate, which leaves room for grout in its bed; what is not written is unknown.
fn setting_plate(context: Context<'_>, node: Option<&Node>, bed: Option<Length>) -> Option<SettingPlate> {
    let Some(node) = node else { return Some(SettingPlate::default()) };
    let walk = context.walk;
    let table = walk.table(node, "setting_plate")?;
    let size = table.get("size").map(|node| sides(walk, node));
    let thickness = table.get("thickness").map(|node| Some((walk.thickness(node)?, node.place)));
    table.close(walk);
    if let (Some(Some((thickness, place))), Some(bed)) = (thickness, bed)
        && bed > Length::ZERO
        && thickness >= bed
    {
        context.note(
            Problem::at(place, "this setting plate leaves no grout in its bed").fix(
                "bed is all between the concrete and the base plate, the setting plate with it; check both figures",
            ),
        );
        return None;
    }
    Some(SettingPlate { size: sound(size)?, thickness: sound(thickness)?.map(|(thickness, _)| thickness) })
}
