//! An interrupted write leaves the file that was there as it was.
#![cfg(unix)]

mod tool;

use std::process::Command;
use tool::Job;

/// Runs a command that writes `answer.json` with files held to so many blocks of 512 bytes; the system ends a program that
/// writes more.
fn write_within(job: &Job, blocks: u32) -> bool {
    let program = assert_cmd::cargo::cargo_bin!("rodreach");
    let script = format!("ulimit -f {blocks}; exec \"$0\" check job.toml --format json -o answer.json");
    let status = Command::new("sh")
        .args(["-c", &script])
        .arg(program)
        .current_dir(job.path("job.toml").parent().unwrap())
        .status()
        .unwrap();
    status.code().is_some_and(|code| code < 2)
}

#[test]
fn a_program_that_is_ended_while_it_writes_leaves_the_old_answer_whole() {
    let job = Job::demo("tractor-shed");
    let old = "the answer of yesterday\n";
    std::fs::write(job.path("answer.json"), old).unwrap();
    assert!(!write_within(&job, 1), "the answer is longer than 512 bytes");
    assert_eq!(job.read("answer.json"), old);
    assert!(write_within(&job, 1_000_000));
    let new: serde_json::Value = serde_json::from_str(&job.read("answer.json")).unwrap();
    assert_eq!(new["format"], 1);
}
