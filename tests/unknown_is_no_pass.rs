//! Blanks each measurement of a clean job in turn: the exit status never becomes 0.

mod tool;

use tool::Job;
use tool::clean::{bedded_job, elevations_job, levels_job, walk_job};

/// Blanks every measured cell of a file in turn and checks the job each time.
fn blanked(job: &Job, file: &str, cells: &[&str], commands: &[&str]) {
    for command in commands {
        let clean = job.run(command, &[]);
        assert_eq!(clean.status, 0, "{command}: the job is clean\n{}{}", clean.out, clean.err);
    }
    let text = job.read(file);
    let rows: Vec<Vec<&str>> = text.lines().map(|line| line.split(',').collect()).collect();
    let mut tried = 0;
    for row in 1..rows.len() {
        for (at, head) in rows[0].iter().enumerate() {
            if !cells.contains(head) {
                continue;
            }
            let mut changed: Vec<Vec<&str>> = rows.clone();
            changed[row][at] = "";
            let lines: Vec<String> = changed.iter().map(|row| row.join(",")).collect();
            job.write(file, lines.join("\n") + "\n");
            for command in commands {
                let ran = job.run(command, &[]);
                assert_ne!(ran.status, 0, "{command} with {head} of row {row} blank\n{}", ran.out);
            }
            tried += 1;
        }
    }
    assert_eq!(tried, (rows.len() - 1) * cells.len());
    job.write(file, text);
}

#[test]
fn no_blank_cell_of_a_walk_is_a_pass() {
    blanked(&walk_job(), "walk.csv", &["reading", "low", "high"], &["check", "hardware"]);
}

#[test]
fn no_blank_reading_of_level_notes_is_a_pass() {
    blanked(&levels_job(), "levels.csv", &["reading"], &["check", "level"]);
}

#[test]
fn no_blank_projection_is_a_pass() {
    blanked(&levels_job(), "rods.csv", &["projection"], &["check"]);
}

#[test]
fn no_blank_elevation_is_a_pass() {
    blanked(&elevations_job(), "asbuilt.csv", &["elevation"], &["check", "level"]);
}

#[test]
fn no_blank_cell_is_a_pass_on_designed_beds() {
    blanked(&bedded_job(), "asbuilt.csv", &["elevation"], &["check", "level"]);
    blanked(&bedded_job(), "rods.csv", &["projection"], &["check"]);
}

#[test]
fn a_row_that_is_missing_altogether_is_no_pass() {
    for (job, file) in [
        (levels_job(), "rods.csv"),
        (levels_job(), "levels.csv"),
        (elevations_job(), "asbuilt.csv"),
        (bedded_job(), "asbuilt.csv"),
        (bedded_job(), "rods.csv"),
    ] {
        let text = job.read(file);
        let lines: Vec<&str> = text.lines().collect();
        for left_out in 1..lines.len() {
            let kept = lines.iter().enumerate().filter(|(at, _)| *at != left_out).map(|(_, line)| *line);
            job.write(file, kept.collect::<Vec<_>>().join("\n") + "\n");
            let ran = job.run("check", &[]);
            assert_ne!(ran.status, 0, "{file} without line {}\n{}", left_out + 1, ran.out);
        }
    }
}

#[test]
fn a_job_of_which_nothing_is_measured_is_no_pass() {
    let job = walk_job();
    job.write("walk.csv", "mark,reading,low,high\nA1,,,\nA2,,,\nA3,,,\n");
    let ran = job.run("check", &[]);
    assert_eq!(ran.status, 1, "{}", ran.err);
    assert!(ran.out.contains("STILL TO MEASURE"), "{}", ran.out);
    // without any measurement section at all
    job.replace("job.toml", "walk = \"walk.csv\"\n", "");
    job.replace(
        "job.toml",
        "[[line]]",
        "[[column]]\nmark = \"A1\"\n[[column]]\nmark = \"A2\"\n[[column]]\nmark = \"A3\"\n[[line]]",
    );
    let ran = job.run("check", &[]);
    assert_eq!(ran.status, 1, "{}{}", ran.out, ran.err);
}

/// On levelling nuts a thread that nobody measured is a question, whatever the drawing says.
#[test]
fn no_blank_cell_is_a_pass_on_levelling_nuts() {
    let job = bedded_job();
    let toml = job.read("job.toml");
    let at = toml.find("bed = ").expect("the job has a bed");
    let nuts = "seat_on = \"nuts\"\nlevelling = { nut = \"iso-4032\", washer = { thickness = [4, 4, 4], outer = 60 } }\n";
    job.write("job.toml", format!("{}{nuts}{}", &toml[..at], &toml[at..]));
    // so much thread that it reaches
    job.write("rods.csv", job.read("rods.csv").replace(",95", ",120"));
    blanked(&job, "asbuilt.csv", &["elevation"], &["check", "level"]);
    blanked(&job, "rods.csv", &["projection", "thread"], &["check", "hardware"]);
}
