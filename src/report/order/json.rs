//! The values behind `order --format json`.

use super::packets::plates_of;
use super::{Told, plates, why_not_counted};
use crate::catalog::{Authority, Consistency};
use crate::check::Hold;
use crate::length::Length;
use crate::order::{FastenerKind, FastenerOrder, HardwareRow, PlateOrder, PlateUse, STEEL};
use crate::plan::{Action, Aim, To};
use crate::report::figures::{kg, litres, mm2};
use serde::Serialize;
use serde_json::{Number, Value};

#[derive(Serialize)]
struct OrderJson {
    format: u32,
    job: String,
    units: &'static str,
    aim: Aim,
    to: To,
    held: Vec<HeldJson>,
    not_counted: Vec<NotCountedJson>,
    steel_kg_m3: u32,
    spares: PercentJson,
    plates: Vec<PlateJson>,
    packs: Vec<PlateJson>,
    packs_not_counted: Vec<PacksOpenJson>,
    washers: Vec<FastenerJson>,
    nuts: Vec<FastenerJson>,
    grout: GroutJson,
    grind: Vec<GrindJson>,
    packets: Vec<PacketJson>,
    totals: TotalsJson,
}

#[derive(Serialize)]
struct HeldJson {
    mark: String,
    hold: Vec<Hold>,
}

#[derive(Serialize)]
struct NotCountedJson {
    mark: String,
    action: Action,
    why: &'static str,
}

#[derive(Serialize)]
struct PacksOpenJson {
    mark: String,
    why: &'static str,
}

#[derive(Serialize)]
struct PercentJson {
    percent: u32,
    source: Authority,
}

#[derive(Serialize)]
struct PlateJson {
    plate: String,
    thickness_nm: i64,
    size_nm: Option<[i64; 2]>,
    holes: HolesJson,
    bases: Vec<String>,
    pieces: u32,
    held: u32,
    spares: u32,
    from_stock: Option<u32>,
    to_order: u32,
    each_kg: Option<Number>,
    mass_kg: Option<Number>,
    order_mass_kg: Option<Number>,
}

#[derive(Serialize)]
struct HolesJson {
    count: u32,
    diameter_nm: Option<i64>,
    pattern_nm: Option<[i64; 2]>,
    /// Their middles from the middle of the plate.
    at_nm: Option<Vec<[i64; 2]>>,
    fit: Option<bool>,
}

#[derive(Serialize)]
struct FastenerJson {
    series: String,
    size: String,
    #[serde(skip_serializing_if = "Option::is_none")]
    measured_nm: Option<i64>,
    drawn: u32,
    levelling: u32,
    more: u32,
    held: u32,
    spares: u32,
    to_order: u32,
}

#[derive(Serialize)]
struct GroutJson {
    product: Option<String>,
    yield_l: Option<Number>,
    yield_source: Option<Authority>,
    consistency: Option<&'static str>,
    waste: PercentJson,
    edge_nm: Option<i64>,
    shoulder_nm: i64,
    bases: Vec<BedJson>,
    volume_l: Option<Number>,
    with_waste_l: Option<Number>,
    bags_exact: Option<Number>,
    bags: Option<u64>,
    bags_apart: Option<u64>,
}

#[derive(Serialize)]
struct BedJson {
    mark: String,
    bed_nm: i64,
    form_nm: Option<[i64; 2]>,
    volume_l: Option<Number>,
    bags_exact: Option<Number>,
    bags: Option<u64>,
    flow_nm: Option<i64>,
    wants_nm: Option<[i64; 2]>,
    thin: Option<bool>,
    may_set: bool,
}

#[derive(Serialize)]
struct GrindJson {
    mark: String,
    depth_nm: i64,
    size_nm: Option<[i64; 2]>,
    area_mm2: Option<Number>,
    may_set: bool,
}

#[derive(Serialize)]
struct PacketJson {
    mark: String,
    base: String,
    action: Action,
    plates: Vec<PacketPlateJson>,
    /// Null where the packs are not known.
    packs: Option<Vec<PacketPlateJson>>,
    levelling: Vec<PacketPartJson>,
    washers: u32,
    washer_series: Option<String>,
    on_rods: Vec<OnRodJson>,
    shim_mass_kg: Option<Number>,
    pack_mass_kg: Option<Number>,
    grout_l: Option<Number>,
    hold: Vec<Hold>,
    may_set: bool,
}

#[derive(Serialize)]
struct PacketPlateJson {
    plate: String,
    thickness_nm: i64,
    count: u32,
}

/// A levelling nut, or a washer on it.
#[derive(Serialize)]
struct PacketPartJson {
    series: String,
    count: u32,
}

#[derive(Serialize)]
struct OnRodJson {
    rod: String,
    washers: u32,
}

#[derive(Serialize)]
struct TotalsJson {
    pieces: u32,
    spares: u32,
    to_order: u32,
    shim_mass_kg: Option<Number>,
    order_mass_kg: Option<Number>,
    pack_pieces: Option<u32>,
    packs_to_order: Option<u32>,
    pack_mass_kg: Option<Number>,
    order_pack_mass_kg: Option<Number>,
    more_washers: u32,
    grout_l: Option<Number>,
    bags: Option<u64>,
}

/// Makes the value.
pub(super) fn value(told: &Told<'_>) -> Value {
    let case = &told.judged.case;
    let spares = &case.job.supplies.spares;
    let row = |index: &usize| &told.rows[*index];
    let held = told.list.held.iter().map(row);
    let not_counted = told.list.not_counted.iter().map(row);
    let fasteners = |kind: FastenerKind| told.list.of_kind(kind).map(fastener).collect();
    let grind = told.list.grind.iter().map(|it| GrindJson {
        mark: told.rows[it.row].mark.clone(),
        depth_nm: it.depth.nm(),
        size_nm: it.size.map(nm),
        area_mm2: it.size.map(mm2),
        may_set: told.rows[it.row].may_set,
    });
    let packets = told.rows.iter().filter(|row| row.is_planned());
    let json = OrderJson {
        format: 1,
        job: case.job.name.clone(),
        units: case.job.units.symbol(),
        aim: case.plan.aim,
        to: case.plan.to,
        held: held.map(|row| HeldJson { mark: row.mark.clone(), hold: row.hold.clone() }).collect(),
        not_counted: not_counted
            .map(|row| NotCountedJson {
                mark: row.mark.clone(),
                action: row.action,
                why: why_not_counted(row.action),
            })
            .collect(),
        steel_kg_m3: STEEL,
        spares: PercentJson { percent: spares.value, source: spares.authority.clone() },
        plates: plates(told, PlateUse::Shim),
        packs: plates(told, PlateUse::Pack),
        packs_not_counted: (told.list.packs_open.iter().map(row))
            .map(|row| PacksOpenJson { mark: row.mark.clone(), why: plates::why_packs_open(row) })
            .collect(),
        washers: fasteners(FastenerKind::Washer),
        nuts: fasteners(FastenerKind::Nut),
        grout: grout(told),
        grind: grind.collect(),
        packets: packets.map(|row| packet(told, row)).collect(),
        totals: totals(told),
    };
    serde_json::to_value(json).unwrap_or(Value::Null)
}

fn nm(sides: [Length; 2]) -> [i64; 2] {
    sides.map(Length::nm)
}

fn plates(told: &Told<'_>, purpose: PlateUse) -> Vec<PlateJson> {
    let all = told.list.plates.iter().enumerate().filter(|(_, it)| it.kind.purpose == purpose);
    all.map(|(at, it)| plate(told, at, it)).collect()
}

fn plate(told: &Told<'_>, at: usize, it: &PlateOrder) -> PlateJson {
    let outline = &it.kind.outline;
    PlateJson {
        plate: plates::label(told.list, at),
        thickness_nm: it.kind.thickness.nm(),
        size_nm: outline.size.map(nm),
        holes: HolesJson {
            count: outline.holes.count,
            diameter_nm: outline.holes.diameter.map(Length::nm),
            pattern_nm: outline.holes.pattern.map(nm),
            at_nm: outline.holes.at().map(|at| at.map(nm).to_vec()),
            fit: outline.holes_fit(),
        },
        bases: it.bases.clone(),
        pieces: it.pieces,
        held: it.held,
        spares: it.spares,
        from_stock: it.from_stock,
        to_order: it.to_order,
        each_kg: it.each.map(kg),
        mass_kg: it.mass().map(kg),
        order_mass_kg: it.order_mass().map(kg),
    }
}

fn fastener(it: &FastenerOrder) -> FastenerJson {
    FastenerJson {
        series: it.fastener.name.clone(),
        size: it.fastener.size.clone(),
        measured_nm: it.fastener.measured.map(Length::nm),
        drawn: it.drawn,
        levelling: it.under,
        more: it.more,
        held: it.held,
        spares: it.spares,
        to_order: it.to_order,
    }
}

/// Gives thousandths of a bag as a number.
fn bags_exact(thousandths: u64) -> Number {
    crate::report::check::json::decimal(i128::from(thousandths), 3)
}

fn grout(told: &Told<'_>) -> GroutJson {
    let (grout, supply) = (&told.list.grout, &told.judged.case.job.supplies.grout);
    let beds = grout.beds.iter().filter_map(|&(row, bags)| {
        let row = &told.rows[row];
        let bed = row.grout.as_ref()?;
        Some(BedJson {
            mark: row.mark.clone(),
            bed_nm: bed.bed.nm(),
            form_nm: bed.form.map(nm),
            volume_l: bed.volume.map(litres),
            bags_exact: bags.map(|bags| bags_exact(bags.thousandths)),
            bags: bags.map(|bags| bags.whole),
            flow_nm: bed.flow.map(Length::nm),
            wants_nm: bed.wants.map(nm),
            thin: bed.is_thin(),
            may_set: row.may_set,
        })
    });
    GroutJson {
        product: supply.bag.as_ref().map(|bag| bag.name.clone()),
        yield_l: supply.bag.as_ref().map(|bag| litres(bag.yields)),
        yield_source: supply.bag.as_ref().map(|bag| bag.authority.clone()),
        consistency: supply.consistency.map(Consistency::words),
        waste: PercentJson { percent: supply.waste.value, source: supply.waste.authority.clone() },
        edge_nm: supply.edge.map(Length::nm),
        shoulder_nm: supply.shoulder.nm(),
        bases: beds.collect(),
        volume_l: grout.volume.map(litres),
        with_waste_l: grout.mixed.map(litres),
        bags_exact: grout.bags.map(|bags| bags_exact(bags.thousandths)),
        bags: grout.bags.map(|bags| bags.whole),
        bags_apart: grout.apart.filter(|_| grout.bags.is_some()),
    }
}

fn packet(told: &Told<'_>, row: &HardwareRow) -> PacketJson {
    let plates = |purpose: PlateUse| {
        let all = plates_of(told, row).into_iter();
        let all = all.filter(move |(at, _)| told.list.plates[*at].kind.purpose == purpose);
        let json = |(at, count): (usize, u32)| PacketPlateJson {
            plate: plates::label(told.list, at),
            thickness_nm: told.list.plates[at].kind.thickness.nm(),
            count,
        };
        all.map(json).collect()
    };
    let levelling = row.under.iter();
    let extra = row.extra.as_ref();
    let on_rods = row.extra_rods.iter().filter(|_| extra.is_some());
    PacketJson {
        mark: row.mark.clone(),
        base: row.base.clone(),
        action: row.action,
        plates: plates(PlateUse::Shim),
        packs: row.pack_plates().map(|_| plates(PlateUse::Pack)),
        levelling: levelling
            .map(|(part, count)| PacketPartJson { series: part.name.clone(), count: *count })
            .collect(),
        washers: extra.map_or(0, |(_, count)| *count),
        washer_series: extra.map(|(part, _)| part.name.clone()),
        on_rods: on_rods
            .map(|(rod, washers)| OnRodJson { rod: rod.to_string(), washers: *washers })
            .collect(),
        shim_mass_kg: row.shim_mass.map(kg),
        pack_mass_kg: row.pack_mass().map(kg),
        grout_l: row.grout.as_ref().and_then(|bed| bed.volume).map(litres),
        hold: row.hold.clone(),
        may_set: row.may_set,
    }
}

fn totals(told: &Told<'_>) -> TotalsJson {
    let list = told.list;
    let sum = |purpose: PlateUse, number: fn(&PlateOrder) -> u32| list.plates_for(purpose).map(number).sum();
    let packs = |number| list.packs_open.is_empty().then(|| sum(PlateUse::Pack, number));
    let mass = |purpose, mass| list.mass_of(purpose, mass).map(kg);
    TotalsJson {
        pieces: sum(PlateUse::Shim, |it| it.pieces),
        spares: sum(PlateUse::Shim, |it| it.spares),
        to_order: sum(PlateUse::Shim, |it| it.to_order),
        shim_mass_kg: mass(PlateUse::Shim, PlateOrder::mass),
        order_mass_kg: mass(PlateUse::Shim, PlateOrder::order_mass),
        pack_pieces: packs(|it| it.pieces),
        packs_to_order: packs(|it| it.to_order),
        pack_mass_kg: mass(PlateUse::Pack, PlateOrder::mass),
        order_pack_mass_kg: mass(PlateUse::Pack, PlateOrder::order_mass),
        more_washers: told.list.of_kind(FastenerKind::Washer).map(|it| it.more).sum(),
        grout_l: told.list.grout.volume.map(litres),
        bags: told.list.grout.bags.map(|bags| bags.whole),
    }
}
