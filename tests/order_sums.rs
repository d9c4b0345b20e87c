//! Whatever a plan puts under whichever columns: the order is the sum over the columns.

mod small_job;

use proptest::prelude::*;
use rodreach::catalog::{Authority, Extent, ShimPiece};
use rodreach::check::Case;
use rodreach::length::{Length, Volume, read_volume};
use rodreach::levels::reduce;
use rodreach::model::{Base, Column, Job, Levelling, Packs, Rod, RodLabel, Setting, Supplies, WasherPart};
use rodreach::order::{
    FastenerKind, HardwareRow, OrderList, PlateOrder, PlateUse, hardware, order_list, shim_mass,
    sum_of_masses, sum_of_volumes, totals,
};
use rodreach::plan::{Action, Aim, Choice, Plan, StackPiece, To};
use small_job::{base, catalog, len, limit_set, row, three_quarter};
use std::collections::BTreeMap;

const SIXTEENTH: i64 = 1_587_500;

/// A kind of base: sides in inches, hole in sixteenths, rods, whether size, hole and spacing are known, and what it is set on: 1 to
/// 4 are packs, all known, of no size, of no number, and of another number; 5 and 6 are levelling nuts with a washer and without.
type AnyBase = (i64, i64, i64, u32, (bool, bool, bool), u8);

/// A column: its base, what is done there, how often a shim of 2, 4 or 8 sixteenths, the thread of its low rod in
/// sixteenths, whether that rod is measured.
type AnyColumn = (usize, u8, [u32; 3], i64, bool);

fn any_base() -> impl Strategy<Value = AnyBase> {
    let known = (prop::bool::weighted(0.9), prop::bool::weighted(0.9), prop::bool::weighted(0.8));
    (10_i64..13, 10_i64..13, 14_i64..16, prop_oneof![9 => Just(4_u32), 1 => Just(6_u32)], known, 0_u8..7)
}

fn any_column() -> impl Strategy<Value = AnyColumn> {
    (0_usize..3, 0_u8..6, prop::array::uniform3(0_u32..3), 20_i64..60, prop::bool::weighted(0.9))
}

fn job_of(
    bases: &[AnyBase],
    columns: &[AnyColumn],
    stock: Option<[u32; 3]>,
    percents: [u32; 2],
) -> (Job, Plan) {
    let catalog = catalog();
    let parts = three_quarter(&catalog, "3/4");
    let mut job = small_job::job(&limit_set(&catalog, "low-rise"), base(&parts), &[]);
    job.bases = (0..)
        .zip(bases)
        .map(|(number, &(a, b, hole, count, (size, holes, pattern), set_on))| {
            let mut base = base(&parts);
            base.mark = format!("B{number}");
            base.plate.size = size.then(|| [a, b].map(|side| Length::from_nm(side * 16 * SIXTEENTH)));
            base.plate.holes = holes.then(|| Length::from_nm(hole * SIXTEENTH));
            base.rods.pattern = pattern.then(|| [len("4"), len("6")]);
            base.rods.count = count;
            let washer = row(&catalog.washers, "wide", "3/4");
            base.extra = Some(WasherPart {
                series: "wide".to_owned(),
                thickness: Extent::exact(washer.thickness.nominal),
                outer: washer.outer,
                authority: washer.authority.clone(),
            });
            base.most_extra.value = 2;
            base.setting = setting(&base, set_on);
            base
        })
        .collect();
    job.columns = (0..).zip(columns).map(|(number, it)| column(number, it, bases.len())).collect();
    let piece =
        |thickness| ShimPiece { thickness: Extent::exact(thickness), authority: Authority::this_job() };
    job.shims.pieces = thicknesses().map(piece).to_vec();
    job.shims.stock = stock.map(|stock| thicknesses().into_iter().zip(stock).collect());
    job.supplies = Supplies::default();
    [job.supplies.spares.value, job.supplies.grout.waste.value] = percents;
    job.supplies.grout.bag = catalog.grouts[0].bags.first().cloned();
    job.supplies.grout.edge = Some(len("1"));
    job.supplies.grout.shoulder = len("3/8");
    let plan = Plan {
        choices: columns.iter().map(choice).collect(),
        aim: Aim::Level,
        to: To::Accept,
        guarded: false,
        optimum: None,
        firm: None,
        shortage: None,
    };
    (job, plan)
}

fn setting(base: &Base, set_on: u8) -> Option<Setting> {
    let packs = |count, size: Option<&str>| {
        let size = size.map(|side| [len(side); 2]);
        Some(Setting::Packs(Packs { size, count, left_in: Some(true), cover: None }))
    };
    match set_on {
        1 => packs(Some(4), Some("3")),
        2 => packs(Some(4), None),
        3 => packs(None, Some("3")),
        4 => packs(Some(2), Some("3-1/2")),
        5 | 6 => {
            let washer = (set_on == 5).then(|| base.washers[0].clone());
            Some(Setting::Nuts(Box::new(Levelling { washer, nut: base.nuts[0].clone() })))
        }
        _ => None,
    }
}

fn thicknesses() -> [Length; 3] {
    [8, 4, 2].map(|sixteenths| Length::from_nm(sixteenths * SIXTEENTH))
}

fn column(number: usize, &(base, _, _, thread, measured): &AnyColumn, bases: usize) -> Column {
    let low = Rod {
        projection: measured.then(|| len("3-1/2")),
        thread: Some(Length::from_nm(thread * SIXTEENTH)),
        ..Rod::unmeasured(RodLabel::Low)
    };
    let high = Rod { label: RodLabel::High, ..low.clone() };
    let rods = vec![low, high];
    Column {
        mark: format!("C{number}"),
        base: base % bases,
        at: None,
        seat: None,
        point: None,
        rods,
        note: None,
    }
}

fn choice(&(_, action, counts, ..): &AnyColumn) -> Choice {
    let stack: Vec<StackPiece> = thicknesses()
        .into_iter()
        .zip(counts)
        .filter(|(_, count)| *count > 0)
        .map(|(thickness, count)| StackPiece { thickness, count })
        .collect();
    let height = stack.iter().map(|piece| piece.thickness * i64::from(piece.count)).sum();
    let (action, raise, stack) = match action {
        0 => (Action::NoShim, Some(Length::ZERO), Vec::new()),
        1 | 2 if !stack.is_empty() => (Action::Shim, Some(height), stack),
        3 => (Action::Grout, Some(len("1") + height), Vec::new()),
        4 => (Action::Grind, Some(len("-1/16")), Vec::new()),
        5 => (Action::Refer, None, Vec::new()),
        _ => (Action::Unmeasured, None, Vec::new()),
    };
    Choice { raise, stack, ..Choice::without(action) }
}

fn planned(rows: &[HardwareRow]) -> impl Iterator<Item = &HardwareRow> {
    rows.iter().filter(|row| row.raise.is_some())
}

fn by_thickness<'r>(rows: impl Iterator<Item = &'r HardwareRow>) -> BTreeMap<Length, u32> {
    let mut sums = BTreeMap::new();
    for piece in rows.flat_map(|row| &row.stack) {
        *sums.entry(piece.thickness).or_default() += piece.count;
    }
    sums
}

fn by_thickness_of(
    list: &OrderList,
    purpose: PlateUse,
    number: fn(&PlateOrder) -> u32,
) -> BTreeMap<Length, u32> {
    let mut sums = BTreeMap::new();
    for it in list.plates_for(purpose) {
        *sums.entry(it.kind.thickness).or_default() += number(it);
    }
    sums.retain(|_, sum| *sum > 0);
    sums
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(400))]

    #[test]
    fn the_order_is_the_sum_over_the_columns(
        bases in prop::collection::vec(any_base(), 1..=3),
        columns in prop::collection::vec(any_column(), 1..=9),
        stock in prop::option::of(prop::array::uniform3(0_u32..8)),
        percents in [0_u32..40, 0_u32..40],
    ) {
        let (job, plan) = job_of(&bases, &columns, stock, percents);
        let levels = reduce(&job);
        let case = Case::new(&job, &levels, &plan);
        let rows = hardware(&case);
        let list = order_list(&job, &rows);
        let all = totals(&rows);

        // pieces, and those on hold
        let shims = |number| by_thickness_of(&list, PlateUse::Shim, number);
        prop_assert_eq!(shims(|it| it.pieces), by_thickness(planned(&rows)));
        let held = by_thickness(planned(&rows).filter(|row| !row.may_set));
        prop_assert_eq!(shims(|it| it.held), held);
        prop_assert_eq!(all.pieces, shims(|it| it.pieces).values().sum::<u32>());

        // packs: pieces by column, by kind and in all; those that nobody knows are listed, and no sum hides them
        let packs = || rows.iter().filter_map(|row| Some((row, row.packs.as_ref()?)));
        let mut pieces = BTreeMap::new();
        for piece in packs().filter_map(|(_, packs)| packs.pieces()).flatten() {
            *pieces.entry(piece.thickness).or_default() += piece.count;
        }
        let open: Vec<usize> = (0..rows.len())
            .filter(|&at| rows[at].packs.as_ref().is_some_and(|packs| packs.pieces().is_none()))
            .collect();
        let known = open.is_empty();
        prop_assert_eq!(&list.packs_open, &open);
        prop_assert_eq!(by_thickness_of(&list, PlateUse::Pack, |it| it.pieces), pieces.clone());
        prop_assert_eq!(all.pack_pieces, known.then(|| pieces.values().sum::<u32>()));
        let of_held = |it: &&HardwareRow| !it.may_set;
        let held: u32 = rows.iter().filter(of_held).filter_map(HardwareRow::pack_plates).flatten().map(|(_, it)| it).sum();
        prop_assert_eq!(list.plates_for(PlateUse::Pack).map(|it| it.held).sum::<u32>(), held);
        let mass = sum_of_masses(rows.iter().map(HardwareRow::pack_mass));
        prop_assert_eq!(list.mass_of(PlateUse::Pack, PlateOrder::mass), mass);
        prop_assert_eq!(all.pack_mass, mass);
        prop_assert_eq!(mass.is_some(), packs().all(|(_, packs)| packs.size.is_some() && packs.pieces().is_some()));
        prop_assert_eq!(all.on_packs, packs().count());

        // what is on the rods under the plates, apart from what is above them
        let on_nuts = |washer: bool| -> u32 {
            let bases = job.columns.iter().map(|column| job.base_of(column));
            let counted = bases.filter(|base| base.levelling().is_some_and(|it| !washer || it.washer.is_some()));
            counted.map(|base| base.rods.count).sum()
        };
        for (kind, wanted) in [(FastenerKind::Nut, on_nuts(false)), (FastenerKind::Washer, on_nuts(true))] {
            prop_assert_eq!(list.of_kind(kind).map(|it| it.under).sum::<u32>(), wanted);
            let in_all = all.under.iter().filter(|(part, _)| part.kind == kind);
            prop_assert_eq!(in_all.map(|(_, count)| count).sum::<u32>(), wanted);
        }

        // masses, by column, by kind, in all, and of the plan as check has it
        let mass = sum_of_masses(planned(&rows).map(|row| row.shim_mass));
        prop_assert_eq!(list.mass_of(PlateUse::Shim, PlateOrder::mass), mass);
        prop_assert_eq!(all.shim_mass, mass);
        prop_assert_eq!(shim_mass(&job, &plan), mass);
        let unknown = planned(&rows).any(|row| {
            let base = job.bases.iter().find(|base| base.mark == row.base).unwrap();
            !row.stack.is_empty() && (base.plate.size.is_none() || base.plate.holes.is_none())
        });
        prop_assert_eq!(mass.is_none(), unknown);

        // volumes
        let volume = sum_of_volumes(rows.iter().filter_map(|row| row.grout.as_ref()).map(|bed| bed.volume));
        prop_assert_eq!(list.grout.volume, volume);
        prop_assert_eq!(all.grout, volume);
        prop_assert_eq!(list.grout.beds.len(), planned(&rows).filter(|row| row.action == Action::Grout).count());

        // washers and nuts
        let extra: u32 = rows.iter().filter_map(|row| row.extra.as_ref()).map(|(_, count)| count).sum();
        prop_assert_eq!(list.of_kind(FastenerKind::Washer).map(|it| it.more).sum::<u32>(), extra);
        prop_assert_eq!(all.extra.iter().map(|(_, count)| count).sum::<u32>(), extra);
        let rods: u32 = job.columns.iter().map(|column| job.base_of(column).rods.count).sum();
        prop_assert_eq!(list.of_kind(FastenerKind::Nut).map(|it| it.drawn).sum::<u32>(), rods);

        // every column is counted or said not to be
        let counted = planned(&rows).count();
        prop_assert_eq!(counted + list.not_counted.len(), columns.len());
        prop_assert_eq!(list.held.len(), planned(&rows).filter(|row| !row.may_set).count());
        prop_assert_eq!(list.grind.len(), planned(&rows).filter(|row| row.action == Action::Grind).count());

        // spares and stock
        for it in &list.plates {
            let spares = u64::from(it.pieces) * u64::from(percents[0]);
            prop_assert!(u64::from(it.spares) * 100 >= spares && u64::from(it.spares) * 100 < spares + 100);
            prop_assert_eq!(it.to_order + it.from_stock.unwrap_or(0), it.pieces + it.spares);
            let is_shim = it.kind.purpose == PlateUse::Shim;
            prop_assert_eq!(it.from_stock.is_some(), stock.is_some() && is_shim, "nothing of packs is on hand");
        }
        for (thickness, on_hand) in job.shims.stock.iter().flatten() {
            let of = |number: fn(&PlateOrder) -> u32| {
                let shims = list.plates_for(PlateUse::Shim);
                shims.filter(|it| it.kind.thickness == *thickness).map(number).sum::<u32>()
            };
            let wanted = of(|it| it.pieces + it.spares);
            prop_assert_eq!(of(|it| it.from_stock.unwrap_or(0)), wanted.min(*on_hand));
        }

        // bags
        if let (Some(mixed), Some(bags)) = (list.grout.mixed, list.grout.bags) {
            let yields = read_volume("0.45 ft3").unwrap().nm3();
            let whole = u128::from(bags.whole);
            prop_assert!(whole * yields >= mixed.nm3());
            prop_assert!(whole == 0 || (whole - 1) * yields < mixed.nm3());
            prop_assert!(mixed >= list.grout.volume.unwrap());
            prop_assert!(list.grout.apart.unwrap() >= bags.whole);
        } else {
            prop_assert!(volume.is_none());
        }

        // no kind stands twice
        for (at, it) in list.plates.iter().enumerate() {
            prop_assert!(list.plates.iter().skip(at + 1).all(|other| other.kind != it.kind));
        }
    }
}

/// The figures of the property do occur: shims, grout, grinding, extra washers, columns on hold and others.
#[test]
fn a_job_of_every_sort_is_among_those_that_are_tried() {
    let bases = [(10, 12, 15, 4, (true, true, true), 0)];
    let columns: Vec<AnyColumn> = (0..6).map(|action| (0, action, [1, 0, 2], 44, true)).collect();
    let (job, plan) = job_of(&bases, &columns, Some([5, 5, 1]), [10, 10]);
    let levels = reduce(&job);
    let rows = hardware(&Case::new(&job, &levels, &plan));
    let list = order_list(&job, &rows);
    assert_eq!(
        (list.plates.len(), list.grind.len(), list.grout.beds.len(), list.not_counted.len()),
        (2, 1, 1, 1)
    );
    assert!(list.of_kind(FastenerKind::Washer).any(|it| it.more > 0));
    assert!(list.grout.volume > Some(Volume::ZERO) && list.held.len() > 1);
    assert!(list.plates[1].to_order > list.plates[0].to_order, "the thin ones run short");
}

/// So do packs of every sort, and levelling nuts: of beds of 1 and 1-3/4 in two 1/2 in make the first four times over, and nothing
/// of three pieces the second.
#[test]
fn packs_that_are_counted_and_packs_that_are_not_are_among_those_that_are_tried() {
    let of = |set_on: u8, counts: [u32; 3]| {
        let columns: [AnyColumn; 1] = [(0, 3, counts, 44, true)];
        let (job, plan) = job_of(&[(10, 12, 15, 4, (true, true, true), set_on)], &columns, None, [10, 10]);
        let levels = reduce(&job);
        let rows = hardware(&Case::new(&job, &levels, &plan));
        (totals(&rows), order_list(&job, &rows))
    };
    let (all, list) = of(1, [0; 3]);
    assert_eq!((all.pack_pieces, list.plates.len(), list.plates[0].to_order), (Some(8), 1, 9));
    assert!(all.pack_mass.is_some() && list.packs_open.is_empty());
    let (all, list) = of(1, [1, 1, 0]);
    assert_eq!((all.pack_pieces, all.pack_mass, &list.packs_open[..]), (None, None, &[0][..]));
    let (all, list) = of(2, [0; 3]);
    assert_eq!((all.pack_pieces, all.pack_mass, list.plates[0].each), (Some(8), None, None));
    assert_eq!(of(3, [0; 3]).0.pack_pieces, None);
    assert_eq!(of(4, [0; 3]).0.pack_pieces, Some(4));
    assert_eq!((of(5, [0; 3]).0.under.len(), of(6, [0; 3]).0.under.len()), (2, 1));
}
