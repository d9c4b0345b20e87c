//! How a plate is set, as JSON has it: keys that are there only where the job says it.

use crate::check::{Case, ColumnCase, Pack, Room, room};
use crate::length::Length;
use crate::model::{Base, Packs, Setting, SettingPlate};
use crate::order::{ColumnPacks, LevellingHardware, packs};
use crate::report::check::json::{PieceJson, stack};
use crate::report::figures::kg;
use crate::report::hardware::setting::LevellingHardwareJson;
use serde::Serialize;
use serde_json::Number;

/// The packs under a column.
#[derive(Serialize)]
pub(in crate::report) struct PacksJson {
    count: Option<u32>,
    size_nm: Option<[i64; 2]>,
    height_nm: i64,
    /// The pieces of one pack; null where nothing makes its height.
    each: Option<Vec<PieceJson>>,
    /// The nearest heights where nothing makes it: below and above.
    #[serde(skip_serializing_if = "Option::is_none")]
    nearest_nm: Option<[Option<i64>; 2]>,
    /// The pieces of all packs.
    pieces: Option<Vec<PieceJson>>,
    /// Their mass; null where their size or pieces are not known.
    mass_kg: Option<Number>,
}

impl PacksJson {
    /// Gives the packs of a column.
    pub(in crate::report) fn of(packs: &ColumnPacks) -> Self {
        let near = |stack: &Option<Pack>| stack.as_ref().map(|it| it.height.nominal.nm());
        let each = &packs.each;
        Self {
            count: packs.count,
            size_nm: packs.size.map(|size| size.map(Length::nm)),
            height_nm: packs.height.nm(),
            each: each.exact.as_ref().map(|it| stack(&it.pieces)),
            nearest_nm: each.exact.is_none().then(|| [near(&each.below), near(&each.above)]),
            pieces: packs.pieces().map(|all| stack(&all)),
            mass_kg: packs.mass().map(kg),
        }
    }
}

/// The room for levelling nuts under a column.
#[derive(Serialize)]
pub(super) struct LevellingJson {
    /// The bed less nut and washer at their worst; negative where there is no room.
    room_nm: i64,
    /// The most between the concrete and the nut.
    stand_off_nm: i64,
}

impl From<Room> for LevellingJson {
    fn from(room: Room) -> Self {
        Self { room_nm: (room.least() - room.parts.most).nm(), stand_off_nm: room.stand_off().nm() }
    }
}

/// What a column has beside its plan, where the job says what its plate is set on.
#[derive(Serialize)]
pub(in crate::report) struct SetJson {
    #[serde(skip_serializing_if = "Option::is_none")]
    seat_on: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    packs: Option<PacksJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    levelling: Option<LevellingJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    levelling_nuts: Option<LevellingHardwareJson>,
}

impl SetJson {
    /// Gives how the plate of a column is set.
    pub(in crate::report) fn of(case: &Case<'_>, column: &ColumnCase) -> Self {
        let base = case.base(column.index);
        Self {
            seat_on: base.setting.as_ref().map(Setting::word),
            packs: packs(base, &case.job.shims, column).as_ref().map(PacksJson::of),
            levelling: room(base, column.raise.map(|raise| raise.nominal), column).map(LevellingJson::from),
            levelling_nuts: LevellingHardware::of(base)
                .map(|it| LevellingHardwareJson::of(&it, base.rods.count)),
        }
    }
}

/// What the drawing says of how a plate is set.
#[derive(Serialize)]
pub(in crate::report) struct SetDrawnJson {
    #[serde(skip_serializing_if = "Option::is_none")]
    seat_on: Option<&'static str>,
    #[serde(skip_serializing_if = "Option::is_none")]
    levelling: Option<LevellingDrawnJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    packs: Option<PacksDrawnJson>,
    #[serde(skip_serializing_if = "Option::is_none")]
    setting_plate: Option<PlateDrawnJson>,
}

#[derive(Serialize)]
struct LevellingDrawnJson {
    nut: String,
    washer: Option<String>,
}

#[derive(Serialize)]
struct PacksDrawnJson {
    size_nm: Option<[i64; 2]>,
    count: Option<u32>,
    left_in: Option<bool>,
    cover_nm: Option<i64>,
}

#[derive(Serialize)]
struct PlateDrawnJson {
    size_nm: Option<[i64; 2]>,
    thickness_nm: Option<i64>,
}

impl SetDrawnJson {
    /// Gives what the drawing says of a base.
    pub(in crate::report) fn of(base: &Base) -> Self {
        let pair = |size: Option<[Length; 2]>| size.map(|size| size.map(Length::nm));
        let plate = match &base.setting {
            Some(Setting::Plate(plate)) => Some(plate),
            _ => None,
        };
        Self {
            seat_on: base.setting.as_ref().map(Setting::word),
            levelling: base.levelling().map(|it| LevellingDrawnJson {
                nut: it.nut.called(),
                washer: it.washer.as_ref().map(|washer| washer.series.clone()),
            }),
            packs: base.packs().map(|Packs { size, count, left_in, cover }| PacksDrawnJson {
                size_nm: pair(*size),
                count: *count,
                left_in: *left_in,
                cover_nm: cover.map(Length::nm),
            }),
            setting_plate: plate.map(|SettingPlate { size, thickness }| PlateDrawnJson {
                size_nm: pair(*size),
                thickness_nm: thickness.map(Length::nm),
            }),
        }
    }
}
