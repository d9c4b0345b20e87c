//! What README.md shows is run: its walk, its parts, its commands.

mod tool;

use tool::clean::WALK_JOB;
use tool::{Job, rodreach};

const README: &str = include_str!("../README.md");

/// The first fenced block that holds a text.
fn block(holding: &str) -> &'static str {
    README.split("```").skip(1).step_by(2).find(|block| block.contains(holding)).expect("the block is there")
}

#[test]
fn the_walk_of_the_readme_is_read_as_it_says() {
    let walk = block("mark,reading").strip_prefix("text\n").unwrap();
    let toml =
        WALK_JOB.replace("[\"A1\", \"A2\", \"A3\"]", "[\"A1\", \"A2\"]").replace("levels_units = \"ft\"", "");
    let job = Job::of(&[("job.toml", &toml), ("walk.csv", walk)]);
    let ran = job.run("check", &[]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(ran.out.contains("1 of 2 columns may be set. 1 on hold."), "{}", ran.out);
    assert!(ran.out.contains("bent"), "{}", ran.out);
}

/// The job of the walk, with these lines under `[measure]` in place of its walk and this behind it.
fn job_with(measure: &str, behind: &str) -> String {
    let columns = ["A1", "A2", "A3"].iter().zip([0, 20, 40]);
    let columns: String =
        columns.map(|(mark, x)| format!("[[column]]\nmark = \"{mark}\"\nat = [\"{x}'\", \"0\"]\n")).collect();
    WALK_JOB.replace("walk = \"walk.csv\"", measure) + &columns + behind
}

#[test]
fn the_instrument_of_the_readme_is_read_and_brings_what_to_watch() {
    let tables = block("[[instrument]]").strip_prefix("toml\n").unwrap();
    let toml = job_with("levels = \"levels.csv\"", tables);
    let levels = "setup,point,sight,reading\n1,BM1,BS,4.52\n1,A1,,4.5\n1,A2,,4.51\n1,A3,FS,4.5\n";
    let ran = Job::of(&[("job.toml", &toml), ("levels.csv", levels)]).run("level", &[]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("WHAT TO WATCH, rotary-laser"), "{}", ran.out);
}

#[test]
fn the_differences_of_the_readme_are_read() {
    let rows = block("from,to,difference").strip_prefix("text\n").unwrap();
    let toml = job_with("levels = \"levels.csv\"\ndifferences = \"d.csv\"", "");
    let levels = "point,reading\nA1,4.5\nA2,4.49\nA3,4.5\n";
    let ran = Job::of(&[("job.toml", &toml), ("levels.csv", levels), ("d.csv", rows)]).run("level", &[]);
    assert!(ran.status < 2, "{}{}", ran.out, ran.err);
}

#[test]
fn the_surveyors_file_of_the_readme_is_read_as_it_says() {
    let rows = block("edge of slab").strip_prefix("text\n").unwrap();
    let job = Job::of(&[("job.toml", &job_with("elevations = \"s.csv\"", "")), ("s.csv", rows)]);
    let ran = job.run("level", &["--format", "json"]);
    assert_eq!(ran.status, 1, "A3 was not read: {}{}", ran.out, ran.err);
    let answer = ran.json();
    assert_eq!(tool::item(&answer["points"], "point", "A1")["elevation_nm"], 30_473_904_000_i64);
    assert_eq!(tool::item(&answer["points"], "point", "A2 rod 2")["elevation_nm"], 30_534_864_000_i64);
    assert_eq!(answer["unmatched"][0]["description"], "edge of slab");
    assert_eq!(answer["unmatched"][0]["line"], 4);
    let screen = job.run("level", &[]).out;
    assert!(screen.contains("NOT USED") && screen.contains("104 (edge of slab)"), "{screen}");
    let check = job.run("check", &["--format", "json"]).json();
    let note = tool::item(&check["findings"], "rule", "survey-points-unmatched");
    assert_eq!(note["level"], "note");
}

#[test]
fn the_parts_the_readme_gives_by_hand_are_read() {
    let parts: Vec<&str> = README
        .split('`')
        .filter(|code| code.starts_with("nuts = [{ height") || code.starts_with("washers = [{"))
        .collect();
    assert_eq!(parts.len(), 2, "{parts:?}");
    let mut toml = WALK_JOB.replace("washers = [\"wide\"]\n", "").replace("nuts = [\"heavy-hex\"]\n", "");
    toml = toml.replace("[[line]]", &format!("{}\n[[line]]", parts.join("\n")));
    toml.push_str("\n[limits]\nplates = \"astm-a6-inside\"\n");
    let job = Job::of(&[("job.toml", &toml), ("walk.csv", tool::clean::WALK)]);
    let ran = job.run("explain", &["A1"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("0.5525\""), "the plate is 1/2 in and 0.0525 more at most: {}", ran.out);
}

#[test]
fn the_grades_of_the_readme_are_read() {
    let code =
        |start: &str| README.split('`').find(|code| code.starts_with(start)).expect("the code is there");
    let toml = WALK_JOB.replace("count = 4", &format!("count = 4, {}", code("grade = ")));
    let toml = toml.replace("nuts = [\"heavy-hex\"]", code("nuts = [{ series"));
    let ran = Job::of(&[("job.toml", &toml), ("walk.csv", tool::clean::WALK)]).run("explain", &["A1"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    assert!(ran.out.contains("nut A heavy hex on F1554-36 rods"), "{}", ran.out);
}

#[test]
fn the_grout_and_the_spares_of_the_readme_are_read() {
    let tables = block("[grout]").strip_prefix("toml\n").unwrap();
    let toml = format!("{WALK_JOB}\n{tables}");
    let ran =
        Job::of(&[("job.toml", &toml), ("walk.csv", tool::clean::WALK)]).run("order", &["--format", "json"]);
    assert_eq!(ran.status, 0, "{}{}", ran.out, ran.err);
    let grout = ran.json()["grout"].clone();
    assert_eq!((&grout["product"], &grout["consistency"]), (&"bag-50-lb".into(), &"fluid".into()));
    assert_eq!((&grout["edge_nm"], &grout["shoulder_nm"]), (&25_400_000.into(), &12_700_000.into()));
}

#[test]
fn every_command_of_the_readme_is_there_and_every_command_is_in_the_readme() {
    let help = rodreach(&["--help"]).out;
    let listed: Vec<&str> = README
        .lines()
        .filter_map(|line| line.strip_prefix("| `rodreach "))
        .filter_map(|rest| rest.split([' ', '`']).next())
        .collect();
    assert_eq!(listed.len(), 12, "{listed:?}");
    for command in &listed {
        assert!(help.contains(&format!("  {command} ")), "{command} is not in\n{help}");
    }
    let offered =
        help.lines().skip_while(|line| *line != "Commands:").skip(1).take_while(|line| !line.is_empty());
    for line in offered.filter(|line| line.starts_with("  ") && !line.starts_with("   ")) {
        let command = line.split_whitespace().next().unwrap();
        assert!(command == "help" || listed.contains(&command), "{command} is not in the README");
    }
}

#[cfg(feature = "xlsx")]
#[test]
fn the_workbook_of_the_readme_is_read_as_it_says() {
    let lines = block("book.xlsx#Rods").strip_prefix("toml\n").unwrap();
    let job = Job::of(&[("job.toml", &WALK_JOB.replace("walk = \"walk.csv\"", lines))]);
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheets = [
        ("Walk", vec!["mark,reading,low,high", "A1,4.52,,", "A2,4.53,3,3", "A3,4.54,3,3"]),
        ("Rods", vec!["column,rod,projection", "A1,low,3", "A1,high,3-1/8x"]),
    ];
    for (name, rows) in sheets {
        let sheet = book.add_worksheet().set_name(name).unwrap();
        for (row, cells) in (0..).zip(rows) {
            for (column, cell) in (0..).zip(cells.split(',')) {
                sheet.write_string(row, column, cell).unwrap();
            }
        }
    }
    job.write("book.xlsx", book.save_to_buffer().unwrap());
    let ran = job.run("check", &[]);
    assert!(ran.status == 2 && ran.err.starts_with("error: book.xlsx: Rods!C3: "), "{}", ran.err);
}

#[test]
fn every_way_to_set_a_plate_of_the_readme_is_read_as_it_says() {
    let mut found = 0;
    for block in README.split("```").skip(1).step_by(2).filter(|block| block.contains("seat_on   =")) {
        let keys = block.strip_prefix("toml\n").unwrap();
        let job = Job::of(&[
            ("job.toml", &WALK_JOB.replace("[[base]]\n", &format!("[[base]]\n{keys}"))),
            ("walk.csv", "mark,reading,low,high\nA1,54 in,4,4\nA2,54 in,4,4\nA3,54 in,4,4\n"),
        ]);
        let ran = job.run("check", &["--format", "json"]);
        assert!(ran.status <= 1, "{keys}\n{}", ran.err);
        assert!(ran.json()["columns"][0]["seat_on"].is_string());
        found += 1;
    }
    assert_eq!(found, 3);
}
