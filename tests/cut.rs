//! Drawings for cutting: every place worked by hand, read back with a reader of its own, and the folder they stand in.

mod tool;

use proptest::prelude::*;
use rodreach::draw::{CutDrawing, cut_drawing, room_of_text};
use rodreach::length::Length;
use rodreach::model::PlateOutline;
use rodreach::output::{dxf, svg_cut};
use serde_json::json;
use tool::clean::{WALK_JOB, walk_job};
use tool::{Job, Ran, rodreach};

/// A shape as a reader finds it: its kind, its layer, and its numbers by code, in half nanometres.
#[derive(Debug)]
struct Read {
    kind: String,
    layer: String,
    text: String,
    numbers: Vec<(u16, i128)>,
}

impl Read {
    fn all(&self, code: u16) -> Vec<i128> {
        self.numbers.iter().filter(|(it, _)| *it == code).map(|(_, number)| *number).collect()
    }
}

/// Reads a decimal number of millimetres as half nanometres; anything finer is no number.
fn halves(text: &str) -> i128 {
    let (sign, digits) = text.strip_prefix('-').map_or((1, text), |rest| (-1, rest));
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    assert!(part.len() <= 7, "{text}");
    // ten-millionths of a millimetre: a half nanometre is five of them
    let fine: i128 = format!("{whole}{part:0<7}").parse().unwrap();
    assert_eq!(fine % 5, 0, "{text}");
    sign * fine / 5
}

fn pairs(text: &str) -> Vec<(u16, &str)> {
    let lines: Vec<&str> = text.strip_suffix("\r\n").unwrap().split("\r\n").collect();
    assert_eq!(lines.len() % 2, 0);
    assert!(!text.replace("\r\n", "").contains(['\r', '\n']));
    lines.chunks(2).map(|pair| (pair[0].trim().parse().unwrap(), pair[1])).collect()
}

fn entities(text: &str) -> Vec<Read> {
    let pairs = pairs(text);
    let from = pairs.iter().position(|pair| *pair == (2, "ENTITIES")).unwrap();
    let mut found: Vec<Read> = Vec::new();
    for (code, value) in &pairs[from + 1..] {
        match (*code, *value) {
            (0, "ENDSEC") => break,
            (0, kind) => found.push(Read {
                kind: kind.to_owned(),
                layer: String::new(),
                text: String::new(),
                numbers: Vec::new(),
            }),
            (8, layer) => found.last_mut().unwrap().layer = layer.to_owned(),
            (1, text) => found.last_mut().unwrap().text = text.to_owned(),
            (10..60, number) => found.last_mut().unwrap().numbers.push((*code, halves(number))),
            _ => {}
        }
    }
    found
}

fn of_kind<'r>(all: &'r [Read], kind: &str) -> Vec<&'r Read> {
    all.iter().filter(|it| it.kind == kind).collect()
}

/// Gives the value behind a variable of the head.
fn variable(text: &str, name: &str) -> String {
    let pairs = pairs(text);
    let at = pairs.iter().position(|pair| *pair == (9, name)).unwrap_or_else(|| panic!("no {name}"));
    pairs[at + 1].1.to_owned()
}

/// Draws the plates of a job into its folder `cut`.
fn cut(job: &Job, more: &[&str]) -> Ran {
    let mut args = vec!["--cut", "-o", "cut"];
    args.extend(more);
    job.run("order", &args)
}

fn names_in(job: &Job, folder: &str) -> Vec<String> {
    let entries = std::fs::read_dir(job.path(folder)).unwrap();
    let mut names: Vec<String> =
        entries.map(|entry| entry.unwrap().file_name().to_string_lossy().into_owned()).collect();
    names.sort();
    names
}

/// 10 x 14 in is 254 x 355.6 mm. Holes of 15/16 in (23.8125 mm) stand 4 x 8 in (101.6 x 203.2 mm) apart: (254 - 101.6) / 2 = 76.2
/// and 177.8 from the left, (355.6 - 203.2) / 2 = 76.2 and 279.4 from below, 11.90625 about it.
#[test]
fn the_plates_of_the_tractor_shed_are_cut_as_worked_by_hand() {
    let job = Job::demo("tractor-shed");
    let ran = cut(&job, &[]);
    assert_eq!(ran.status, 1, "columns are on hold: {}", ran.err);
    let wanted = ["B1_0.125in.dxf", "B1_0.125in.svg", "B1_0.375in.dxf", "B1_0.375in.svg", "cut-list.csv"];
    assert_eq!(names_in(&job, "cut"), wanted);
    for (name, mark) in [("B1_0.125in", "B1 1/8\""), ("B1_0.375in", "B1 3/8\"")] {
        let text = job.read(&format!("cut/{name}.dxf"));
        let all = entities(&text);
        let line = of_kind(&all, "LWPOLYLINE");
        assert_eq!((line.len(), line[0].layer.as_str(), line[0].all(10).len()), (1, "CUT", 4));
        assert_eq!(line[0].all(10), ["0", "254", "254", "0"].map(halves));
        assert_eq!(line[0].all(20), ["0", "0", "355.6", "355.6"].map(halves));
        let centres = [["76.2", "279.4"], ["177.8", "279.4"], ["177.8", "76.2"], ["76.2", "76.2"]];
        let circles = of_kind(&all, "CIRCLE");
        assert_eq!(circles.len(), 4);
        for (circle, [x, y]) in circles.iter().zip(centres) {
            let numbers = [10, 20, 30, 40].map(|code| circle.all(code)[0]);
            assert_eq!(numbers, [x, y, "0", "11.90625"].map(halves));
            assert_eq!(circle.layer, "HOLES");
        }
        let texts = of_kind(&all, "TEXT");
        assert_eq!((texts.len(), texts[0].text.as_str(), texts[0].layer.as_str()), (1, mark, "ENGRAVE"));
        assert_eq!(texts[0].all(40), [halves("12")]);
        // from below the strip of 88.10625 to 267.49375; its middle less 0.4 of 12
        assert_eq!(texts[0].all(20), [halves("173")]);
    }
    let svg = job.read("cut/B1_0.125in.svg");
    for part in [
        "width=\"274mm\" height=\"375.6mm\" viewBox=\"-10 -10 274 375.6\"",
        "<polygon points=\"0,355.6 254,355.6 254,0 0,0\"/>",
        "<circle cx=\"76.2\" cy=\"76.2\" r=\"11.90625\"/>",
        "<circle cx=\"177.8\" cy=\"279.4\" r=\"11.90625\"/>",
    ] {
        assert!(svg.contains(part), "{part}\n{svg}");
    }
}

/// 300 x 400 mm, four holes of 30 mm, 160 x 260 mm apart: 70 and 230 from the left, 70 and 330 from below.
#[test]
fn the_plate_of_the_packing_hall_is_cut_as_worked_by_hand() {
    let job = Job::demo("packing-hall");
    assert_eq!(cut(&job, &[]).status, 1);
    assert_eq!(names_in(&job, "cut"), ["P1_5mm.dxf", "P1_5mm.svg", "cut-list.csv"]);
    let all = entities(&job.read("cut/P1_5mm.dxf"));
    assert_eq!(of_kind(&all, "LWPOLYLINE")[0].all(20), ["0", "0", "400", "400"].map(halves));
    let holes: Vec<[i128; 3]> =
        of_kind(&all, "CIRCLE").iter().map(|it| [10, 20, 40].map(|code| it.all(code)[0])).collect();
    let wanted = [["70", "330"], ["230", "330"], ["230", "70"], ["70", "70"]];
    assert_eq!(holes, wanted.map(|[x, y]| [x, y, "15"].map(halves)));
    assert_eq!(of_kind(&all, "TEXT")[0].text, "P1 5 mm");
}

#[test]
fn a_drawing_declares_millimetres_and_its_size_in_jobs_of_inches_too() {
    for job in [Job::demo("tractor-shed"), Job::demo("packing-hall")] {
        cut(&job, &[]);
        for name in names_in(&job, "cut").iter().filter(|name| name.ends_with(".dxf")) {
            let text = job.read(&format!("cut/{name}"));
            let head = ["$ACADVER", "$INSUNITS", "$MEASUREMENT"].map(|name| variable(&text, name));
            // 4 is millimetres, 1 is metric, in the published reference of the format
            assert_eq!(head, ["AC1015", "4", "1"]);
        }
    }
}

#[test]
fn the_list_has_the_pieces_of_the_order() {
    let job = Job::demo("tractor-shed");
    job.replace("job.toml", "[shims]\n", "[shims]\nstock = { \"1/8\" = 9, \"3/8\" = 1 }\n");
    let order = job.run("order", &["--format", "json"]).json();
    let ran = cut(&job, &["--format", "json"]);
    let list = ran.json();
    let mut reader = csv::Reader::from_path(job.path("cut/cut-list.csv")).unwrap();
    let heads = reader.headers().unwrap().clone();
    let rows: Vec<csv::StringRecord> = reader.records().map(Result::unwrap).collect();
    let plates = order["plates"].as_array().unwrap();
    assert_eq!((plates.len(), rows.len()), (2, 2));
    for (at, plate) in plates.iter().enumerate() {
        let kind = &list["plates"][at];
        for (theirs, ours) in [
            ("plate", "plate"),
            ("pieces", "pieces"),
            ("held", "held"),
            ("spares", "spares"),
            ("from_stock", "from_stock"),
            ("to_order", "cut"),
            ("each_kg", "each_kg"),
            ("order_mass_kg", "cut_mass_kg"),
        ] {
            assert_eq!(plate[theirs], kind[ours], "{theirs}");
        }
        let cell = |head: &str| &rows[at][heads.iter().position(|it| it == head).unwrap()];
        assert_eq!(cell("cut"), plate["to_order"].to_string());
        assert_eq!(cell("from_stock"), plate["from_stock"].to_string());
        assert_eq!(cell("cut_kg"), plate["order_mass_kg"].to_string());
        assert_eq!((cell("x_mm"), cell("y_mm"), cell("hole_mm")), ("254", "355.6", "23.8125"));
    }
    // a 3/8 piece is on hand and its spare is not; of 1/8 there is enough
    assert_eq!(list["totals"], json!({ "drawn": 2, "not_drawn": 0, "cut": 1 }));
}

/// Two bases of one outline share a drawing; a third without the size of its holes is told, and the rest is written.
#[test]
fn what_cannot_be_drawn_is_told_with_its_fix_and_the_rest_is_written() {
    let job = three_bases("size = [\"10\", \"14\"], thickness = \"1/2\"");
    let ran = cut(&job, &[]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(
        ran.out.contains("NOT DRAWN") && ran.out.contains("add holes = diameter to its plate"),
        "{}",
        ran.out
    );
    assert_eq!(names_in(&job, "cut"), ["B1-B2_0.125in.dxf", "B1-B2_0.125in.svg", "cut-list.csv"]);
    let list = job.read("cut/cut-list.csv");
    assert_eq!(list.lines().count(), 3, "{list}");
    assert!(list.contains("the diameter of the rod holes is not given"), "{list}");
    let all = job.run("order", &["--cut", "-o", "again", "--format", "json"]).json();
    assert_eq!(all["plates"][1]["dxf"], json!(null));
    assert_eq!(all["plates"][1]["not_drawn"][0]["fix"], "add holes = diameter to its plate");
    assert_eq!(all["totals"]["not_drawn"], 1);
}

#[test]
fn where_nothing_can_be_drawn_no_folder_is_written() {
    let job = three_bases("size = [\"10\", \"14\"], thickness = \"1/2\"");
    let toml = job.read("job.toml");
    job.write("job.toml", toml.replace(", holes = \"15/16\"", ""));
    let ran = cut(&job, &[]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(ran.out.contains("NOTHING WAS DRAWN"), "{}", ran.out);
    assert!(!job.path("cut").exists());
    let clean = walk_job();
    let ran = cut(&clean, &[]);
    assert_eq!((ran.status, clean.path("cut").exists()), (0, false), "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("NOTHING TO CUT"), "{}", ran.out);
}

/// A plate that two holes run over is no plate.
#[test]
fn holes_that_reach_the_edge_are_not_drawn() {
    let job = three_bases("size = [\"10\", \"8\"], thickness = \"1/2\", holes = \"15/16\"");
    let ran = cut(&job, &[]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(ran.out.contains("a hole reaches the edge of the plate"), "{}", ran.out);
    assert!(!names_in(&job, "cut").iter().any(|name| name.starts_with("B3")));
}

/// 66 letters of 3 mm take 277 mm at most; a plate of 10 x 10 in has 244 mm between its clear edges.
#[test]
fn a_mark_without_room_is_told_and_the_plate_is_cut_all_the_same() {
    let job = three_bases("size = [\"10\", \"10\"], thickness = \"1/2\", holes = \"15/16\"");
    let long = "w".repeat(60);
    job.replace("job.toml", "mark = \"B3\"", &format!("mark = \"{long}\""));
    job.replace("walk.csv", "A3,B3", &format!("A3,{long}"));
    let ran = cut(&job, &["--format", "json"]);
    let plates = &ran.json()["plates"];
    assert_eq!((&plates[1]["bases"], &plates[1]["engraved"]), (&json!([long]), &json!(null)));
    assert_eq!(plates[0]["engraved"]["height_nm"], 12_000_000);
    let name = plates[1]["dxf"].as_str().unwrap();
    assert_eq!(name, format!("{}_0.125in.dxf", "w".repeat(40)));
    assert_eq!(entities(&job.read(&format!("cut/{name}"))).len(), 5);
    let screen = job.run("order", &["--cut", "-o", "again/"]).out;
    assert!(screen.contains("S2: no room beside the holes") && job.path("again").is_dir(), "{screen}");
}

/// Four columns, the third base as given: A4 stands 0.03 ft (0.36 in) above the other three, which so take shims.
fn three_bases(third: &str) -> Job {
    let base = |mark: &str, plate: &str| {
        format!(
            "[[base]]\nmark = \"{mark}\"\nplate = {{ {plate} }}\nrods = {{ diameter = \"3/4\", count = 4, pattern = \
             [\"4\", \"8\"], projection = \"3\", thread = \"3\" }}\nwashers = [\"wide\"]\nnuts = [\"heavy-hex\"]\n"
        )
    };
    let plate = "size = [\"10\", \"14\"], thickness = \"1/2\", holes = \"15/16\"";
    let from = WALK_JOB.find("[[base]]").unwrap();
    let to = WALK_JOB.find("[[line]]").unwrap();
    let bases: String =
        [("B1", plate), ("B2", plate), ("B3", third)].map(|(mark, it)| base(mark, it)).concat();
    let toml = format!("{}{bases}{}", &WALK_JOB[..from], &WALK_JOB[to..]);
    let walk = "mark,base,reading,low,high\nA1,B1,4.53,3,3\nA2,B2,4.53,3,3\nA3,B3,4.53,3,3\nA4,B1,4.5,3,3\n";
    let toml = toml
        .replace("\"A3\"]", "\"A3\", \"A4\"]")
        .replace("spacing = \"20'\"", "spacing = \"20'\"\naccept = \"1/4\"");
    let toml = format!("{toml}\n[limits.building]\naccept = \"1/4\"\n");
    Job::of(&[("job.toml", &toml), ("walk.csv", walk)])
}

#[test]
fn a_folder_that_holds_anything_is_left_alone_and_an_empty_one_is_filled() {
    let job = Job::demo("packing-hall");
    std::fs::create_dir(job.path("cut")).unwrap();
    job.write("cut/B9_3mm.dxf", "an older drawing");
    let before = job.names();
    let ran = cut(&job, &[]);
    assert_eq!((ran.status, ran.out.as_str()), (2, ""));
    assert!(ran.err.contains("is not empty"), "{}", ran.err);
    assert_eq!(names_in(&job, "cut"), ["B9_3mm.dxf"]);
    assert_eq!(job.names(), before, "nothing is left beside it");
    std::fs::remove_file(job.path("cut/B9_3mm.dxf")).unwrap();
    assert_eq!(cut(&job, &[]).status, 1);
    assert_eq!(names_in(&job, "cut").len(), 3);
    assert_eq!(job.names(), before);
}

#[test]
fn a_name_that_is_no_folder_is_refused_and_nothing_is_written() {
    let job = Job::demo("packing-hall");
    let before = job.names();
    for (output, words) in [
        ("cut.dxf", "looks like a file"),
        ("shims.CSV", "looks like a file"),
        ("walk/there/cut", "cannot be written"),
    ] {
        let ran = job.run("order", &["--cut", "-o", output]);
        assert_eq!(ran.status, 2, "{output}");
        assert!(ran.err.contains(words), "{}", ran.err);
    }
    job.write("plain", "text");
    assert!(job.run("order", &["--cut", "-o", "plain"]).err.contains("is no folder"));
    assert_eq!(job.read("plain"), "text");
    assert_eq!(job.run("order", &["--cut"]).status, 2, "without a folder");
    let ran = job.run("order", &["-o", "plates.dxf"]);
    assert!(ran.status == 2 && ran.err.contains("--cut -o FOLDER"), "{}", ran.err);
    assert_eq!(job.names().len(), before.len() + 1, "{:?}", job.names());
}

#[test]
fn the_same_job_makes_the_same_bytes() {
    let job = Job::demo("tractor-shed");
    for folder in ["one", "two"] {
        job.run("order", &["--cut", "-o", folder]);
    }
    let all = |folder: &str| {
        names_in(&job, folder).iter().map(|name| job.read(&format!("{folder}/{name}"))).collect::<Vec<_>>()
    };
    assert_eq!(all("one"), all("two"));
    assert_eq!(all("one").len(), 5);
}

/// A mark with everything that is a code in one of the formats.
#[test]
fn no_mark_leaves_its_line_or_its_element() {
    let job = Job::demo("tractor-shed");
    let toml = job.read("job.toml");
    job.write(
        "job.toml",
        toml.replace("\"B1\"\nplate", "'%%d ^J \\U+0041 <a&b> \u{c5}'\nplate")
            .replace("base = \"B1\"", "base = '%%d ^J \\U+0041 <a&b> \u{c5}'"),
    );
    let ran = cut(&job, &[]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert_eq!(names_in(&job, "cut")[1], "d-J-U-0041-a-b_0.125in.dxf");
    let all = entities(&job.read("cut/d-J-U-0041-a-b_0.125in.dxf"));
    let wanted = "%%%%%%d ^ J \\U+005CU+0041 <a&b> \\U+00C5 1/8\"";
    assert_eq!(of_kind(&all, "TEXT")[0].text, wanted);
    assert_eq!(all.len(), 6);
    let svg = job.read("cut/d-J-U-0041-a-b_0.125in.svg");
    assert!(svg.contains(">%%d ^J \\U+0041 &lt;a&amp;b&gt; \u{c5} 1/8&quot;</text>"), "{svg}");
}

#[test]
fn the_help_of_order_shows_how_to_cut() {
    let help = rodreach(&["order", "--help"]).out;
    assert!(help.contains("rodreach order my-job --cut -o cut") && help.contains("--cut"), "{help}");
}

fn plate() -> impl Strategy<Value = ([i64; 2], [i64; 2], i64)> {
    let side = 20_000_000_i64..3_000_000_000;
    ([side.clone(), side], [1_u32..1000, 1_u32..1000], 1_u32..1000).prop_map(|(size, shares, hole)| {
        // a spacing that leaves room, and a hole that fits
        let pattern = [0, 1].map(|at| (size[at] * i64::from(shares[at]) / 1000).max(2));
        let least = [0, 1].map(|at| pattern[at].min(size[at] - pattern[at])).into_iter().min().unwrap();
        (size, pattern, ((least - 2) * i64::from(hole) / 1000).max(1))
    })
}

fn drawn(size: [i64; 2], pattern: [i64; 2], hole: i64, mark: &str) -> Option<(PlateOutline, CutDrawing)> {
    let nm = Length::from_nm;
    let outline = PlateOutline::new(Some(size.map(nm)), 4, Some(nm(hole)), Some(pattern.map(nm))).ok()?;
    let drawing = cut_drawing(&outline, mark, "any");
    Some((outline, drawing))
}

proptest! {
    /// Whatever the plate, what is written is the plate to the nanometre: spacing, size and diameter; and no hole leaves it.
    #[test]
    fn every_number_of_a_drawing_reads_back_to_the_nanometre((size, pattern, hole) in plate()) {
        let Some((_, drawing)) = drawn(size, pattern, hole, "B1") else {
            return Err(TestCaseError::reject("no plate"));
        };
        let all = entities(&dxf(&drawing));
        let half = |nm: i64| i128::from(nm) * 2;
        let line = of_kind(&all, "LWPOLYLINE")[0];
        prop_assert_eq!(line.all(10), [0, size[0], size[0], 0].map(half));
        prop_assert_eq!(line.all(20), [0, 0, size[1], size[1]].map(half));
        let circles = of_kind(&all, "CIRCLE");
        prop_assert_eq!(circles.len(), 4);
        for circle in &circles {
            prop_assert_eq!(circle.all(40), vec![i128::from(hole)], "the radius is half the diameter");
            for (code, side) in [(10, size[0]), (20, size[1])] {
                let at = circle.all(code)[0];
                prop_assert!(at * 2 > half(hole) && (half(side) - at) * 2 > half(hole));
            }
        }
        for (code, at) in [(10, 0), (20, 1)] {
            let mut places: Vec<i128> = circles.iter().map(|circle| circle.all(code)[0]).collect();
            places.sort_unstable();
            prop_assert_eq!((places[0], places[2]), (places[1], places[3]));
            prop_assert_eq!(places[2] - places[0], half(pattern[at]));
            // the middle of the plate, or half a nanometre before it
            let off = half(size[at]) - places[0] - places[2];
            prop_assert!((0..=2).contains(&off), "{}", off);
        }
        // the other format has the same numbers
        let svg = svg_cut(&drawing);
        let mut of_svg: Vec<[i128; 3]> = svg.lines().filter(|line| line.starts_with("<circle")).map(|line| {
            let each: Vec<&str> = line.split('"').collect();
            [halves(each[1]), half(size[1]) - halves(each[3]), halves(each[5])]
        }).collect();
        let mut of_dxf: Vec<[i128; 3]> =
            circles.iter().map(|circle| [10, 20, 40].map(|code| circle.all(code)[0])).collect();
        of_svg.sort_unstable();
        of_dxf.sort_unstable();
        prop_assert_eq!(of_svg, of_dxf);
    }

    /// A mark lies on the plate and beside every hole, 5 mm clear of both, however wide its letters come out.
    #[test]
    fn a_mark_is_clear_of_edges_and_holes((size, pattern, hole) in plate(), letters in 1_usize..80) {
        let Some((outline, drawing)) = drawn(size, pattern, hole, &"W".repeat(letters)) else {
            return Err(TestCaseError::reject("no plate"));
        };
        let Some(mark) = drawing.engraving() else { return Ok(()) };
        let room = room_of_text(mark).map(|ends| ends.map(Length::nm));
        let clear = 5_000_000 - 2;
        prop_assert!(mark.height.nm() >= 3_000_000 && mark.height.nm() <= 12_000_000);
        for at in [0, 1] {
            prop_assert!(room[at][0] >= clear && room[at][1] <= size[at] - clear, "{:?}", room);
        }
        for hole in &outline.holes {
            let reach = hole.diameter.nm() / 2 + clear;
            let beside = |at: usize| {
                let centre = hole.centre[at].nm();
                room[at][1] <= centre - reach || room[at][0] >= centre + reach
            };
            prop_assert!(beside(0) || beside(1), "{:?} {:?}", room, hole);
        }
    }
}
