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

#[test]
fn the_parts_the_readme_gives_by_hand_are_read() {
    let parts: Vec<&str> = README
        .split('`')
        .filter(|code| code.starts_with("nuts = [{") || code.starts_with("washers = [{"))
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
fn every_command_of_the_readme_is_there_and_every_command_is_in_the_readme() {
    let help = rodreach(&["--help"]).out;
    let listed: Vec<&str> = README
        .lines()
        .filter_map(|line| line.strip_prefix("| `rodreach "))
        .filter_map(|rest| rest.split([' ', '`']).next())
        .collect();
    assert_eq!(listed.len(), 7, "{listed:?}");
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
