//! Faults of the job file, each told at its key or value.

use super::{JOB, Job, WALK, assert_told, changed, same};

/// Gives the faults of `JOB` with one text in it replaced.
fn with(old: &str, new: &str) -> Vec<String> {
    assert!(JOB.contains(old), "{old}");
    changed(|job| job.replacen(old, new, 1), same)
}

/// Gives the faults of `JOB` with more behind it; line 15 is the first line of it.
fn and(text: &str) -> Vec<String> {
    changed(|job| format!("{job}{text}"), same)
}

#[test]
fn unknown_keys_are_told_with_the_nearest_name() {
    assert_told(
        &with("limits =", "limit ="),
        &[
            "job.toml:1:1: `limits` is missing in [job] | add limits = \"low-rise\"",
            "job.toml:4:1: `limit` is not a key of [job] | did you mean `limits`?",
        ],
    );
    assert_told(
        &with("count = 4", "count = 4, patern = [1, 2]"),
        &["job.toml:12:39: `patern` is not a key of rods | did you mean `pattern`?"],
    );
    assert_told(
        &with("walk = ", "rods_orgin = 1\nwalk = "),
        &["job.toml:7:1: `rods_orgin` is not a key of [measure] | did you mean `rods_origin`?"],
    );
    assert_told(
        &and("[shim]\npieces = 3\n"),
        &["job.toml:15:2: `shim` is not a key of the job file | did you mean `shims`?"],
    );
    assert_told(
        &and("[limits.neighbors]\naccept = 1\n"),
        &["job.toml:15:9: `neighbors` is not a key of [limits]"],
    );
}

#[test]
fn the_head_of_the_job_is_checked() {
    assert_told(
        &with("\"in\"", "\"inch\""),
        &["job.toml:3:9: `inch` is not a unit of a job | use units = \"in\" or units = \"mm\""],
    );
    assert_told(
        &with("\"low-rise\"", "\"low-rize\""),
        &["job.toml:4:10: `low-rize` is not a limit set | did you mean `low-rise`?"],
    );
    assert_told(&with("\"low-rise\"", "\"mine.toml\""), &["job.toml:4:10: `mine.toml` was not found"]);
    assert_told(&with("\"Shed\"", "\" \""), &["job.toml:2:8: a name is needed here, this is blank"]);
    assert_told(
        &with("[measure]", "fraction = 20\n[measure]"),
        &["job.toml:6:12: answers are not written in fractions of 1/20"],
    );
    assert_told(
        &with("[measure]", "fraction = 8\n[measure]"),
        &["job.toml:6:12: expected a whole number from 16 to 64"],
    );
    assert_told(
        &with("[measure]", "seat = true\n[measure]"),
        &["job.toml:6:8: expected a length, found true or false"],
    );
}

#[test]
fn a_job_file_with_syntax_faults_is_told_with_the_others_where_it_can_be() {
    let found = with("limits = \"low-rise\"", "limits = \"low-rise");
    assert!(found[0].starts_with("job.toml:4:"), "{found:?}");
    let found = changed(|job| job.replace("count = 4", "count = 0") + "x = = 1\n", same);
    assert_eq!(found.len(), 4, "{found:?}");
    assert!(
        found.iter().any(|line| line.starts_with("job.toml:12:36: expected a whole number from 1 to 64")),
        "{found:?}"
    );
    assert!(
        found.iter().any(|line| line.starts_with("job.toml:15:5: this is not TOML as it should be")),
        "{found:?}"
    );
    let found = changed(|_| "this is no job\n".to_owned(), same);
    assert!(found.iter().all(|line| line.contains("this is not TOML")), "{found:?}");
}

#[test]
fn a_zero_plate_and_other_impossible_parts_are_told() {
    let fault = |old: &str, new: &str, wanted: &str| assert_told(&with(old, new), &[wanted]);
    fault("thickness = \"1/2\"", "thickness = 0", "job.toml:11:23: this length must be more than 0");
    fault("thickness = \"1/2\"", "thickness = \"-1/2\"", "job.toml:11:23: this length must be more than 0");
    fault(
        "thickness = \"1/2\"",
        "thickness = \"1/2\", size = [0, 4]",
        "job.toml:11:37: both lengths must be more than 0",
    );
    fault(
        "thickness = \"1/2\"",
        "thickness = \"1/2\", size = [4]",
        "job.toml:11:37: expected 2 lengths, found 1",
    );
    fault(
        "thickness = \"1/2\"",
        "thickness = \"1/2\", holes = \"3/4\"",
        "job.toml:11:38: a rod of 3/4 does not pass through this hole",
    );
    fault(
        "thickness = \"1/2\"",
        "thickness = \"1/2\", tolerance = [1, 0]",
        "job.toml:11:42: the lower deviation stands above the upper one",
    );
    fault(
        "thickness = \"1/2\"",
        "thickness = \"1/2\", tolerance = [\"-1/2\", 0]",
        "job.toml:11:23: nothing is left of this thickness",
    );
    fault(
        "thickness = \"1/2\"",
        "thickness = \"30\"",
        "job.toml:11:23: the plate table `astm-a6` has no tolerance for this thickness | add tolerance",
    );
    fault(
        "plate = { thickness = \"1/2\" }",
        "",
        "job.toml:9:1: `plate` is missing in [[base]] | add plate =",
    );
    fault(
        "nuts = [\"heavy-hex\"]",
        "",
        "job.toml:9:1: `nuts` is missing in [[base]] | add nuts = [\"heavy-hex\"], there is no default",
    );
    fault(
        "nuts = [\"heavy-hex\"]",
        "nuts = []",
        "job.toml:14:8: a rod needs at least one nut, and there is no default",
    );
    fault(
        "\"heavy-hex\"",
        "\"heavyhex\"",
        "job.toml:14:9: `heavyhex` is not a series of nuts | did you mean `heavy-hex`?",
    );
    fault(
        "\"heavy-hex\"",
        "{ height = [3, 2, 1] }",
        "job.toml:14:20: these are not a least, a nominal and a most",
    );
    fault(
        "\"wide\"",
        "\"iso-7089\"",
        "job.toml:13:12: `iso-7089` has no washer for a rod of `3/4` | series that have one: ",
    );
    fault("nuts = ", "beyond = -1\nnuts = ", "job.toml:14:10: this length cannot be less than 0");
    fault(
        "nuts = ",
        "duty = \"pole\"\nnuts = ",
        "job.toml:14:8: `pole` is not known here | use \"column\" or \"post\"",
    );
    fault("count = 4", "count = 65", "job.toml:12:36: expected a whole number from 1 to 64, found `65`");
    fault("count = 4", "count = 4, projection = -2", "job.toml:12:52: this length cannot be less than 0");
    fault("mark = \"B1\"", "mark = \"\"", "job.toml:10:8: a name is needed here, this is blank");
}

#[test]
fn a_rod_without_pitch_or_parts_is_told_with_the_sizes_that_are_known() {
    let found = with("\"3/4\"", "\"13/16\"");
    assert!(
        found[0]
            .starts_with("job.toml:12:21: no thread table has a rod of `13/16` | the sizes that are known: "),
        "{found:?}"
    );
    assert!(found[0].contains("1-1/8") && found[0].contains("M24"), "{found:?}");
    assert!(
        found[1].starts_with("job.toml:13:12: `wide` has no washer for a rod of `13/16` | no series has one"),
        "{found:?}"
    );
    assert_told(&with("\"3/4\"", "\"M\""), &["job.toml:12:21: `M` is not a metric size"]);
    assert_told(&with("\"3/4\"", "\"M24x2\""), &["job.toml:12:21: `M24x2` is not a metric size"]);
    assert_told(&with("\"3/4\"", "0"), &["job.toml:12:21: this length must be more than 0"]);
}

#[test]
fn bases_columns_and_benchmarks_that_stand_twice_are_told() {
    let (_, base) = JOB.split_once("[[base]]").unwrap();
    assert_told(
        &and(&format!("[[base]]{base}")),
        &["job.toml:16:8: the base `B1` stands here a second time | it stands first at job.toml:10:8"],
    );
    let column = "[[column]]\nmark = \"A1\"\n";
    let other = "[[column]]\nmark = \"A2\"\n";
    assert_told(
        &and(&format!("{column}{other}{column}")),
        &["job.toml:20:8: the column `A1` stands here a second time | it stands first at job.toml:16:8"],
    );
    let mark = "[[benchmark]]\npoint = \"BM\"\nelevation = 1\n";
    assert_told(
        &and(&format!("{mark}{mark}")),
        &["job.toml:19:9: the benchmark `BM` stands here a second time | it stands first at job.toml:16:9"],
    );
    assert_told(
        &and("[[benchmark]]\npoint = \"BM\"\n"),
        &["job.toml:15:1: `elevation` is missing in [[benchmark]]"],
    );
}

#[test]
fn columns_are_checked_against_their_bases_and_each_other() {
    let columns =
        "[[column]]\nmark = \"A1\"\nbase = \"B2\"\n[[column]]\nmark = \"A2\"\nat = [0]\nseat = \"x\"\n";
    assert_told(
        &and(columns),
        &[
            "job.toml:17:8: `B2` is not a base of this job | did you mean `B1`?",
            "job.toml:20:6: expected 2 lengths, found 1",
            "job.toml:21:8: `x`: this is not a length",
        ],
    );
    let columns = "[[column]]\nmark = \"A1\"\nat = [0, 1]\n[[column]]\nmark = \"A2\"\nat = [0, 1]\n";
    assert_told(&and(columns), &["job.toml:19:8: `A2` stands where `A1` stands"]);
    let both = changed(
        |job| {
            job.replace("[job]\n", "[job]\ncolumns = \"walk.csv\"\n")
                + "[[column]]\nmark = \"A1\"\n[[column]]\nmark = \"A2\"\n"
        },
        same,
    );
    assert_told(
        &both,
        &["job.toml:2:11: [[column]] and a file of columns cannot stand together | use one of the two"],
    );
}

#[test]
fn a_job_without_columns_or_bases_is_told() {
    let (head, _) = JOB.split_once("[[base]]").unwrap();
    assert_told(
        &changed(|_| head.to_owned(), same),
        &["job.toml:1:1: the columns of this job stand on no [[base]]"],
    );
    let text = JOB.replace("walk = \"walk.csv\"\n", "");
    assert_told(
        &changed(|_| text.clone(), same),
        &["job.toml:1:1: this job has no columns and no level notes"],
    );
    let one = JOB.replace("[[base]]", "[base]");
    assert_told(
        &changed(|_| one.clone(), same),
        &["job.toml:9:1: `base` is one table, a list of them is expected | write [[base]]"],
    );
}

#[test]
fn lines_are_checked() {
    let line = |text: &str| and(&format!("[[line]]\nname = \"A\"\n{text}"));
    let fault = |text: &str, wanted: &str| assert_told(&line(text), &[wanted]);
    let two = "columns = [\"A1\", \"A2\"]\n";
    fault(
        &format!("{two}kind = \"wall\"\n"),
        "job.toml:15:1: the distances along this wall line are not known",
    );
    fault(&format!("{two}spacing = \"20'\"\n"), "job.toml:15:1: `kind` is missing in [[line]]");
    fault(
        &format!("{two}kind = \"fence\"\n"),
        "job.toml:18:8: `fence` is not known here | use \"wall\" or \"frame\"",
    );
    fault(
        &format!("{two}kind = \"wall\"\nspacing = [1, 2]\n"),
        "job.toml:19:11: 2 columns have 1 distance between them, 2 are given here",
    );
    fault(&format!("{two}kind = \"wall\"\nspacing = 0\n"), "job.toml:19:11: this length must be more than 0");
    fault(
        &format!("{two}kind = \"frame\"\naccept = -1\n"),
        "job.toml:19:10: this length cannot be less than 0",
    );
    fault(
        "kind = \"frame\"\ncolumns = [\"A1\"]\n",
        "job.toml:18:11: a line has at least 2 columns, this has 1",
    );
    fault(
        "kind = \"frame\"\ncolumns = [\"A1\", \"A1\"]\n",
        "job.toml:18:18: this column stands here a second time | it stands first at job.toml:18:12",
    );
    fault(
        "kind = \"frame\"\ncolumns = [\"A1\", \"A3\"]\n",
        "job.toml:18:18: `A3` is not a column of this job | did you mean `A1`?",
    );
    let frame = "[[line]]\nname = \"A\"\nkind = \"frame\"\ncolumns = [\"A1\", \"A2\"]\n";
    assert_told(
        &and(&format!("{frame}{frame}")),
        &["job.toml:20:8: the line `A` stands here a second time | it stands first at job.toml:16:8"],
    );
    // without the wall limit the distances are not needed
    let text = format!("{JOB}[limits.wall]\noff = true\n[[line]]\nname = \"A\"\nkind = \"wall\"\n{two}");
    assert!(Job::new(&[("job.toml", &text), ("walk.csv", WALK)]).load().is_ok());
}

#[test]
fn shims_are_checked() {
    let fault = |text: &str, wanted: &str| assert_told(&and(&format!("[shims]\n{text}\n")), &[wanted]);
    fault(
        "catalog = \"plates\"",
        "job.toml:16:11: `plates` is not a series of shims | did you mean `plate`?",
    );
    fault(
        "catalog = \"plate\"\nthicknesses = [1]",
        "job.toml:17:15: `catalog` and `thicknesses` cannot stand together",
    );
    fault("thicknesses = []", "job.toml:16:15: at least one thickness is needed");
    fault(
        "thicknesses = [\"1/8\", 0.125]",
        "job.toml:16:23: this thickness stands here a second time | it stands first at job.toml:16:16",
    );
    fault("thicknesses = [0]", "job.toml:16:16: this length must be more than 0");
    fault("thicknesses = [1]\ntolerance = [-1, 0]", "job.toml:16:16: nothing is left of this thickness");
    fault("pieces = 9", "job.toml:16:10: expected a whole number from 1 to 8, found `9`");
    let many: Vec<String> = (1..=30).map(|n| format!("\"{n}/64\"")).collect();
    fault(
        &format!("thicknesses = [{}]\npieces = 8", many.join(", ")),
        "job.toml:17:10: 30 thicknesses in stacks of up to 8 pieces make more than 200000 stacks",
    );
    assert_told(
        &and("[limits.shim]\noff = true\n"),
        &[
            "job.toml:4:10: the limits in force do not say how many pieces make a stack | add pieces = 3 to [shims]",
        ],
    );
}

#[test]
fn what_is_measured_is_checked() {
    assert_told(
        &with("[measure]", "[measure]\nlevels_units = \"yd\""),
        &["job.toml:7:16: `yd` is not a unit of level readings | use \"in\", \"ft\", \"mm\" or \"m\""],
    );
    assert_told(
        &with("[measure]", "[measure]\nsense = \"staff\""),
        &["job.toml:7:9: `staff` is not known here | use \"rod\" or \"height\""],
    );
    assert_told(
        &with("[measure]", "[measure]\nrods_plus_minus = -1"),
        &["job.toml:7:19: this length cannot be less than 0"],
    );
    let job = JOB.replace("[measure]", "[measure]\nlevels = \"levels.csv\"");
    assert_told(
        &Job::new(&[("job.toml", &job), ("walk.csv", WALK), ("levels.csv", "point,reading\nA1,4 ft\n")])
            .faults(),
        &[
            "job.toml:7:10: `walk` and `levels` cannot stand together: both hold the readings of the pads | use one of the two",
        ],
    );
}

#[test]
fn a_plate_table_that_is_not_known_is_told_at_its_name() {
    assert_told(
        &and("[limits]\nplates = \"astm-a7\"\n"),
        &["job.toml:16:10: `astm-a7` is not a table of plate tolerances | did you mean `astm-a6`?"],
    );
}

#[test]
fn several_faults_of_several_files_are_told_in_one_run() {
    let job = JOB
        .replace("\"low-rise\"", "\"low-ris\"")
        .replace("\"1/2\"", "\"half\"")
        .replace("count", "cuont")
        .replace("\"wide\"", "\"wyde\"")
        .replace(
            "walk = \"walk.csv\"",
            "walk = \"walk.csv\"\nrods = \"rods.csv\"\nelevations = \"none.csv\"",
        );
    let rods = "column,rod,projecton\nA1,9,2\nA7,1,-2\n";
    let found =
        Job::new(&[("job.toml", &job), ("walk.csv", &WALK.replace("54-3/8", "54.3")), ("rods.csv", rods)])
            .faults();
    assert_told(
        &found,
        &[
            "job.toml:4:10: `low-ris` is not a limit set | did you mean `low-rise`?",
            "job.toml:9:14: `none.csv` was not found",
            "job.toml:13:23: `half`: this is not a length",
            "job.toml:14:8: `count` is missing in rods",
            "job.toml:14:28: `cuont` is not a key of rods | did you mean `count`?",
            "job.toml:15:12: `wyde` is not a series of washers | did you mean `wide`?",
            "walk.csv:3:4: `54.3`: this number has no unit",
            "rods.csv:1:12: `projecton` is not a column of this file | did you mean `projection`?",
            "rods.csv:2:4: this column has numbered rods beside low or high",
            "rods.csv:3:1: `A7` is not a column of this job | did you mean `A1`?",
            "rods.csv:3:6: `-2`: a rod cannot stand out less than 0",
        ],
    );
}
