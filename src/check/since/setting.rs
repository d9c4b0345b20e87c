//! Whether a plate is set as it was then: on the same thing, with the same packs or levelling nuts.

use super::fit::Why;
use crate::length::Length;
use crate::model::{Base, EarlierColumn, EarlierPacks, Levelling, Packs, Setting};

/// Tells what is not as it was then, or was not told; `base` is the base of the column now.
///
/// Shims and the bare pad are no parts of their own: whether a job says them or not changes nothing that was sent.
pub(super) fn setting(base: &Base, then: &EarlierColumn) -> Option<Why> {
    let now = base.setting.as_ref();
    let parts = |word: Option<&str>| word.filter(|word| !matches!(*word, "pad" | "shims")).map(str::to_owned);
    if parts(then.seat_on.as_deref()) != parts(now.map(Setting::word)) {
        return Some(Why::OtherSetting);
    }
    match now? {
        Setting::Packs(packs) => (!known_packs(packs, then)).then_some(Why::OtherPacks),
        Setting::Nuts(levelling) => {
            (!same_nuts(levelling, base.rods.count, then)).then_some(Why::OtherLevelling)
        }
        Setting::Pad | Setting::Shims | Setting::Plate(_) => None,
    }
}

/// Tells whether anything the job says of how a plate is set is not as it was then; what was not known then and is not now is
/// no change.
pub(super) fn is_other(base: &Base, then: &EarlierColumn) -> bool {
    let same = |packs: &Packs, it: &EarlierPacks| (packs.count, packs.size) == (it.count, it.size);
    match (setting(base, then), base.packs(), &then.packs) {
        (Some(Why::OtherPacks), Some(packs), Some(it)) => !same(packs, it),
        (why, ..) => why.is_some(),
    }
}

/// Tells whether packs are those of now, all of them known, and as high as the bed of that time.
fn known_packs(now: &Packs, then: &EarlierColumn) -> bool {
    // without a bed there were none
    let Some(bed) = then.raise.filter(|raise| *raise > Length::ZERO) else { return true };
    let Some(EarlierPacks { count: Some(count), size: Some(size), pieces: Some(pieces) }) = &then.packs
    else {
        return false;
    };
    let height = |(thickness, count): &(Length, u32)| *thickness * i64::from(*count);
    let is_whole = pieces.iter().map(height).sum::<Length>() == bed * i64::from(*count);
    is_whole && (now.count, now.size) == (Some(*count), Some(*size))
}

/// Tells whether levelling nuts and the washers on them are those of now.
fn same_nuts(now: &Levelling, rods: u32, then: &EarlierColumn) -> bool {
    let washer = now.washer.as_ref().map(|washer| washer.series.as_str());
    let same = |it: &crate::model::EarlierLevelling| {
        (it.nut.as_str(), it.washer.as_deref(), it.count) == (now.nut.called().as_str(), washer, rods)
    };
    then.levelling.as_ref().is_some_and(same)
}
