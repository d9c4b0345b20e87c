//! Drawings: exact where they measure, readable where they write, and nothing left out without a word.

mod small_job;

use proptest::prelude::*;
use rodreach::draw::{
    Apart, Bounds, Join, Look, MM, Picture, PieceKind, PlanColumn, PlanData, PlanLine, PlanSheet,
    ProfileColumn, ProfileData, RodPlaces, RodPlan, Scale, SectionRod, ThreadShown, plan_views, profiles,
    rod_plans, section, section_view, text_width,
};
use rodreach::length::Length;
use rodreach::model::{
    Base, Levelling, Packs, PlateOutline, Raise, Rod, RodLabel, Setting, SettingPlate, stack_up,
};
use rodreach::plan::{Action, StackPiece};
use rodreach::text::{Style, System};
use small_job::{Parts, base, catalog, len, row};

/// A base of a 3/4 in rod with a plate, two washers at most and a nut, in nanometres.
fn parts(plate: i64, washer: i64, nut: i64) -> Base {
    let catalog = catalog();
    let pitch = row(&catalog.threads, "unc", "3/4").pitch;
    let mut base =
        base(&Parts { diameter: "3/4", pitch, plate: "1/2", washer: "1/4", nut: Length::from_nm(nut) });
    base.plate.thickness = rodreach::catalog::Extent::exact(Length::from_nm(plate));
    base.washers[0].thickness = rodreach::catalog::Extent::exact(Length::from_nm(washer));
    base.washers[0].outer = Some(len("2"));
    base.extra = base.washers.first().cloned();
    base.most_extra.value = 2;
    base
}

/// Room of a text by a wide face: DejaVu Sans, whose digits are 0.636 of the size, capitals 0.86 at most and whose
/// letters reach 0.93 up and 0.24 down; a little less than the program keeps free.
fn crowded(picture: &Picture) -> Option<String> {
    let texts = picture.texts();
    let sheet = Bounds { left: 0, top: 0, right: picture.width, bottom: picture.height };
    for (at, (text, room)) in texts.iter().enumerate() {
        if !sheet.holds(room) {
            return Some(format!("{text:?} sticks out: {room:?} of {sheet:?}"));
        }
        if let Some((other, _)) = texts.iter().skip(at + 1).find(|(_, other)| room.overlaps(other)) {
            return Some(format!("{text:?} and {other:?} overlap"));
        }
    }
    None
}

#[test]
fn two_texts_on_each_other_are_seen() {
    let mut picture = Picture { width: 50 * MM, height: 20 * MM, shapes: Vec::new() };
    let at = rodreach::draw::Point::new(10 * MM, 10 * MM);
    picture.text(at, rodreach::draw::Anchor::Start, 3 * MM, "A1");
    assert_eq!(crowded(&picture), None);
    picture.text(at.by(MM, MM), rodreach::draw::Anchor::Start, 3 * MM, "A2");
    assert!(crowded(&picture).is_some());
}

/// Advance widths of DejaVu Sans and DejaVu Sans Bold, in thousandths of the size, as Chromium measures them.
#[test]
fn the_widths_kept_free_are_those_of_a_wide_face_at_least() {
    for (text, plain, bold) in [
        ("0", 636, 696),
        ("W", 989, 1103),
        ("M", 863, 995),
        ("m", 974, 1042),
        ("i", 278, 343),
        ("\"", 460, 521),
        ("/", 337, 365),
        ("-", 361, 415),
        ("~", 838, 838),
        ("(", 390, 457),
        ("A", 684, 774),
        ("O", 787, 850),
        ("e", 615, 678),
        ("r", 411, 493),
        ("t", 392, 478),
        (" ", 318, 348),
        ("%", 950, 1002),
        ("'", 275, 306),
    ] {
        assert!(text_width(text, 1_000_000, false) >= plain * 1000, "{text}");
        assert!(text_width(text, 1_000_000, true) >= bold * 1000, "bold {text}");
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn a_section_measures_what_the_arithmetic_at_the_rod_says(
        plate in 1_000_000_i64..80_000_000,
        washer in 1_i64..12_000_000,
        nut in 1_000_000_i64..60_000_000,
        projection in 1_i64..300_000_000,
        thread in proptest::option::of(1_i64..200_000_000),
        raise in prop_oneof![Just(0), 1_i64..60_000_000],
        pieces in 1_u32..4,
        metric: bool,
    ) {
        let base = parts(plate, washer, nut);
        let rod = Rod {
            projection: Some(Length::from_nm(projection)),
            thread: thread.map(Length::from_nm),
            ..Rod::unmeasured(RodLabel::Low)
        };
        let each = Length::from_nm(raise / i64::from(pieces));
        let raise = each * i64::from(pieces);
        let (action, stack) = match raise == Length::ZERO {
            true => (Action::NoShim, Vec::new()),
            false => (Action::Shim, vec![StackPiece { thickness: each, count: pieces }]),
        };
        let worked = stack_up(&base, Raise::exact(raise), &rod, Length::ZERO);
        let shown = SectionRod {
            diameter: base.rods.diameter,
            top: rod.projection,
            thread: rod.thread.map_or(ThreadShown::Unknown, ThreadShown::Measured),
        };
        let drawn = section(&base, (action, Some(raise), &stack), worked.extra_washers, shown);
        prop_assert_eq!(drawn.beyond(), worked.beyond);
        let of = |kind: PieceKind| drawn.pieces.iter().filter(move |it| it.kind == kind);
        prop_assert_eq!(of(PieceKind::ExtraWasher).count(), usize::try_from(worked.extra_washers).unwrap());
        // every piece stands on the one before, from the pad up
        let mut top = Length::ZERO;
        for piece in &drawn.pieces {
            prop_assert_eq!(piece.from, top);
            top = piece.to;
        }
        // what of the nut is on thread is what is drawn on thread
        let nut = of(PieceKind::Nut).next().unwrap();
        let from = drawn.thread_from().unwrap_or(nut.from);
        let part = (nut.to.min(Length::from_nm(projection)) - nut.from.max(from)).max(Length::ZERO);
        prop_assert_eq!(part, worked.engaged[0].part);
        let style = Style::new(if metric { System::Metric } else { System::Inch }, 16);
        prop_assert_eq!(crowded(&section_view(&drawn, base.plate.holes, style)), None);
    }
}

#[test]
fn a_rod_that_is_not_measured_is_drawn_with_a_question_and_no_figure() {
    let base = parts(12_700_000, 3_759_200, 18_653_125);
    let rod = SectionRod { diameter: base.rods.diameter, top: None, thread: ThreadShown::Unknown };
    let drawn = section(&base, (Action::Refer, None, &[]), 0, rod);
    assert_eq!((drawn.beyond(), drawn.thread_from()), (None, None));
    let picture = section_view(&drawn, None, Style::new(System::Inch, 16));
    let texts: Vec<String> = picture.texts().into_iter().map(|(text, _)| text).collect();
    for wanted in ["stands ?", "thread ?", "beyond ?", "raise ?"] {
        assert!(texts.iter().any(|text| text == wanted), "no {wanted} in {texts:?}");
    }
}

fn any_words() -> impl Strategy<Value = String> {
    prop_oneof![
        Just("nothing".to_owned()),
        Just("ask engineer".to_owned()),
        "[1-9]/16\" \\+ [1-3] x 1/[248]\"",
        "hold: grout [1-9][0-9].[0-9] mm",
        "[ -~]{0,40}",
    ]
}

fn any_mark() -> impl Strategy<Value = String> {
    prop_oneof![4 => "[A-Z][1-9][0-9]?", 1 => "[ -~]{1,60}", 1 => "\\PC{1,20}"]
}

prop_compose! {
    fn any_column()(
        mark in any_mark(),
        under in any_words(),
        look in 0_usize..Look::ALL.len(),
        held: bool,
    ) -> PlanColumn {
        PlanColumn { mark, at: None, under, look: Look::ALL[look], held }
    }
}

/// A plan of columns on a grid that is a little off, or anywhere; joins between next columns.
fn any_plan(placed: bool) -> impl Strategy<Value = PlanData> {
    let size = (1_usize..9, 1_usize..5, 1_i64..20_000, proptest::collection::vec(any_column(), 40));
    let more = (
        proptest::collection::vec((-200_i64..200, -200_i64..200), 40),
        proptest::collection::vec(0..5_u8, 80),
        any::<bool>(),
    );
    (size, more).prop_map(move |((along, across, gap, mut columns), (off, how, walked))| {
        columns.truncate(along * across);
        let mut data = PlanData { columns, ..PlanData::default() };
        let whole = |it: usize| i64::try_from(it).unwrap();
        for (index, column) in data.columns.iter_mut().enumerate() {
            let (x, y) =
                (whole(index % along) * gap + off[index].0, whole(index / along) * gap + off[index].1);
            column.at = placed.then(|| [Length::from_nm(x * MM), Length::from_nm(y * MM)]);
        }
        for line in 0..across {
            let columns: Vec<usize> = (line * along..(line + 1) * along).collect();
            if columns.len() < 2 {
                continue;
            }
            for pair in columns.windows(2) {
                let apart = [Apart::Within, Apart::Close, Apart::Over, Apart::Unknown, Apart::NotCompared]
                    [usize::from(how[pair[0]])];
                let words =
                    matches!(apart, Apart::Close | Apart::Over).then(|| "~3/16\" of 3/16\"".to_owned());
                data.joins.push(Join { from: pair[0], to: pair[1], apart, words });
            }
            let spacing =
                vec![Length::from_nm(gap * MM); if how[line + 40] > 1 { columns.len() - 1 } else { 0 }];
            data.lines.push(PlanLine { name: format!("line {line}"), columns, spacing });
        }
        if walked {
            // there and back, and over to the next line
            let row = |row: usize| {
                let columns: Vec<usize> = (row * along..(row + 1) * along).collect();
                if row.is_multiple_of(2) { columns } else { columns.into_iter().rev().collect() }
            };
            data.walk = (0..across).flat_map(row).collect();
        }
        data
    })
}

/// Tells what a plan leaves out without saying so.
fn silent(data: &PlanData, sheets: &[PlanSheet]) -> Option<String> {
    for (index, column) in data.columns.iter().enumerate() {
        let mark = rodreach::draw::shortened(&column.mark, 12);
        let on: Vec<&PlanSheet> = sheets.iter().filter(|sheet| sheet.columns.contains(&index)).collect();
        if on.is_empty() {
            return Some(format!("{mark:?} is on no sheet"));
        }
        for sheet in on {
            let written = sheet.picture.texts().iter().any(|(text, _)| *text == mark);
            if !written && !sheet.unlabelled.contains(&index) {
                return Some(format!("{mark:?} has no label and is not said to have none"));
            }
        }
    }
    for sheet in sheets.iter().filter(|sheet| sheet.to_scale) {
        // each column on a sheet has a symbol of its own there, or is said to share one
        let places: Vec<Bounds> = (sheet.picture.shapes.iter())
            .filter_map(|shape| match shape {
                rodreach::draw::Shape::Rect {
                    area,
                    pen: Some(rodreach::draw::Pen::Medium | rodreach::draw::Pen::Dotted),
                    ..
                } => Some(*area),
                _ => None,
            })
            .collect();
        let shared =
            places.iter().enumerate().any(|(at, one)| places.iter().skip(at + 1).any(|it| it.overlaps(one)));
        if shared && sheet.crowded.is_empty() {
            return Some("two symbols lie on each other and nothing is said".to_owned());
        }
    }
    for (number, join) in data.joins.iter().enumerate() {
        let told = sheets.iter().any(|sheet| {
            let both = sheet.columns.contains(&join.from) && sheet.columns.contains(&join.to);
            both || sheet.cut.contains(&number)
        });
        if !told {
            return Some(format!("join {number} is on no sheet and not said to be cut"));
        }
    }
    for sheet in sheets {
        let words = |number: usize| data.joins[number].words.as_ref();
        let here = (0..data.joins.len()).filter(|&it| {
            sheet.columns.contains(&data.joins[it].from) && sheet.columns.contains(&data.joins[it].to)
        });
        let wanted = here.filter(|&it| words(it).is_some()).count();
        let found = sheet.picture.texts().iter().filter(|(text, _)| text == "~3/16\" of 3/16\"").count();
        if found + sheet.unwritten.len() < wanted {
            return Some(format!("{wanted} joins have words, {found} are written"));
        }
    }
    None
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 120, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn no_labels_of_a_plan_overlap_and_nothing_is_left_out_in_silence(
        data in prop_oneof![any_plan(true), any_plan(false)], metric: bool
    ) {
        let style = Style::new(if metric { System::Metric } else { System::Inch }, 16);
        let sheets = plan_views(&data, style);
        for sheet in &sheets {
            prop_assert_eq!(crowded(&sheet.picture), None);
        }
        prop_assert_eq!(silent(&data, &sheets), None);
        prop_assert_eq!(format!("{:?}", plan_views(&data, style)), format!("{sheets:?}"), "the same again");
    }

    #[test]
    fn no_labels_of_a_profile_overlap_and_every_column_is_on_it(
        columns in proptest::collection::vec((any_mark(), any_words(), proptest::option::of(-60_000_000_i64..60_000_000), 0_i64..20_000_000), 2..30),
        gap in 1_i64..20_000,
        known: bool,
        metric: bool,
        band in proptest::option::of(1_i64..10_000_000),
    ) {
        let style = Style::new(if metric { System::Metric } else { System::Inch }, 16);
        let count = columns.len();
        let column = |(mark, under, pad, raise): (String, String, Option<i64>, i64)| {
            let pad = pad.map(Length::from_nm);
            let seat = pad.map(|pad| pad + Length::from_nm(raise));
            let shown = |it: Option<Length>| {
                (it, it.map_or("?".to_owned(), |it| style.signed(it, rodreach::length::Rounding::Nearest)))
            };
            let grout = under.starts_with("hold");
            ProfileColumn { mark, under, grout, pad: shown(pad), seat: shown(seat) }
        };
        let data = ProfileData {
            columns: columns.into_iter().map(column).collect(),
            spacing: if known { vec![Length::from_nm(gap * MM); count - 1] } else { Vec::new() },
            steps: vec![("~3/16\" of 3/16\"".to_owned(), Apart::Close); count - 1],
            band: band.map(|most| ([Length::ZERO, Length::from_nm(most)], "band: as it is wanted here".to_owned())),
        };
        let all = profiles(&data, style);
        for profile in &all {
            prop_assert_eq!(crowded(&profile.picture), None);
        }
        prop_assert_eq!((all[0].columns[0], all[all.len() - 1].columns[1]), (0, count - 1));
        prop_assert!(all.windows(2).all(|pair| pair[0].columns[1] == pair[1].columns[0]));
    }
}

#[test]
fn columns_stand_to_scale_and_north_is_up() {
    let at = |x: i64, y: i64| Some([Length::from_nm(x * MM), Length::from_nm(y * MM)]);
    let column = |mark: &str, at| PlanColumn {
        mark: mark.to_owned(),
        at,
        under: "nothing".to_owned(),
        look: Look::Nothing,
        held: false,
    };
    let columns = vec![column("A1", at(0, 0)), column("A2", at(6_000, 0)), column("B1", at(0, 9_000))];
    let data = PlanData { columns, ..PlanData::default() };
    let sheets = plan_views(&data, Style::new(System::Metric, 16));
    assert_eq!(sheets.len(), 1);
    let squares: Vec<Bounds> = sheets[0]
        .picture
        .shapes
        .iter()
        .filter_map(|shape| match shape {
            rodreach::draw::Shape::Rect { area, pen: Some(rodreach::draw::Pen::Medium), .. } => Some(*area),
            _ => None,
        })
        .collect();
    let (a1, a2, b1) = (squares[0].middle(), squares[1].middle(), squares[2].middle());
    // 9 m at 1:75 are 120 mm of paper
    assert!((sheets[0].to_scale, b1.y < a1.y, a2.y == a1.y) == (true, true, true));
    assert_eq!((a2.x - a1.x, a1.y - b1.y), (80 * MM, 120 * MM));
    let scale = Scale::new(1, 75);
    assert_eq!(scale.paper(Length::from_nm(9_000 * MM)), 120 * MM);
}

prop_compose! {
    /// A plate with four rods, or one whose rods are not known.
    fn any_rod_plan()(
        title in any_mark(),
        words in any_words(),
        size in (1_i64..3_000, 1_i64..3_000),
        part in (1_i64..100, 1_i64..100),
        hole in 1_i64..80,
        corners: bool,
    ) -> RodPlan {
        let mm = |it: i64| Length::from_nm(it * MM);
        let pattern = [size.0 * part.0 / 100, size.1 * part.1 / 100].map(mm);
        let outline = PlateOutline::new(Some([mm(size.0), mm(size.1)]), 4, Some(mm(hole)), Some(pattern));
        let unknown = if corners { RodPlaces::Corners } else { RodPlaces::Unknown };
        RodPlan { title, words, places: outline.map_or(unknown, RodPlaces::Known) }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn rods_are_numbered_clockwise_from_the_upper_left_and_no_number_meets_another(
        bases in proptest::collection::vec(any_rod_plan(), 1..40)
    ) {
        let pictures = rod_plans(&bases);
        for picture in &pictures {
            prop_assert_eq!(crowded(picture), None);
        }
        let first = &pictures[0];
        let circles: Vec<(i64, i64)> = (first.shapes.iter())
            .filter_map(|shape| match shape {
                rodreach::draw::Shape::Circle { centre, .. } => Some((centre.x, centre.y)),
                _ => None,
            })
            .collect();
        let numbered = bases.iter().take(16).filter(|it| it.places != RodPlaces::Unknown).count();
        prop_assert_eq!(circles.len(), numbered * 4);
        for rods in circles.chunks(4) {
            let [(x1, y1), (x2, y2), (x3, y3), (x4, y4)] = [rods[0], rods[1], rods[2], rods[3]];
            // a very small plate may come to nothing on paper, never to another order
            prop_assert!(x1 == x4 && x2 == x3 && x1 <= x2, "{rods:?}");
            prop_assert!(y1 == y2 && y3 == y4 && y1 <= y4, "{rods:?}");
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig { cases: 200, failure_persistence: None, ..ProptestConfig::default() })]
    #[test]
    fn what_a_plate_is_set_on_hangs_under_it_in_its_bed_and_crowds_nothing(
        nut in 1_000_000_i64..60_000_000,
        washer in proptest::option::of(1_000_000_i64..12_000_000),
        bed in 1_i64..100_000_000,
        way in 0_u8..3,
        metric: bool,
    ) {
        let mut base = parts(12_700_000, 3_000_000, nut);
        let setting = match way {
            0 => Setting::Nuts(Box::new(Levelling {
                washer: washer.map(|thick| {
                    let mut part = base.washers[0].clone();
                    part.thickness = rodreach::catalog::Extent::exact(Length::from_nm(thick));
                    part
                }),
                nut: base.nuts[0].clone(),
            })),
            1 => Setting::Packs(Packs { size: washer.map(|_| [len("4"), len("4")]), ..Packs::default() }),
            _ => Setting::Plate(SettingPlate { size: None, thickness: washer.map(Length::from_nm) }),
        };
        base.setting = Some(setting);
        let rod = SectionRod { diameter: base.rods.diameter, top: Some(len("6")), thread: ThreadShown::Unknown };
        let bed = Length::from_nm(bed);
        let drawn = section(&base, (Action::Grout, Some(bed), &[]), 0, rod);
        let mut under = bed;
        for piece in &drawn.in_bed {
            prop_assert_eq!(piece.to, under);
            under = piece.from;
        }
        let high = bed - under;
        let wanted = match way {
            0 => Length::from_nm(nut + washer.unwrap_or(0)),
            1 => bed,
            _ => Length::from_nm(washer.unwrap_or(0)),
        };
        prop_assert_eq!(high, wanted);
        let style = Style::new(if metric { System::Metric } else { System::Inch }, 16);
        prop_assert_eq!(crowded(&section_view(&drawn, base.plate.holes, style)), None);
        // only a bed of grout has it, and it moves nothing that stands on the rod
        let on_pad = section(&base, (Action::NoShim, Some(Length::ZERO), &[]), 0, rod);
        prop_assert!(on_pad.in_bed.is_empty());
        prop_assert_eq!(drawn.nut_top - on_pad.nut_top, bed);
    }
}
