//! Where `-o` writes: never over what an answer is made from, nor over what is no file.

mod tool;

use tool::{Job, rodreach_in};

/// What was read at the slab is there once; a slip in the name of a file must not cost it.
#[test]
fn an_answer_never_takes_the_place_of_a_file_it_is_made_from() {
    let job = Job::demo("tractor-shed");
    let folder = job.path("");
    let held = |name: &str| job.read(name);
    let (toml, walk) = (held("job.toml"), held("walk.csv"));
    for (command, more) in [
        ("check", vec!["--format", "csv"]),
        ("level", vec![]),
        ("explain", vec!["A4"]),
        ("ask", vec![]),
        ("report", vec![]),
        ("hardware", vec![]),
        ("order", vec![]),
        ("detail", vec![]),
        ("sheet", vec![]),
    ] {
        for name in ["job.toml", "./walk.csv"] {
            // a blank sheet takes the place of no CSV file at all, and says so in other words
            let ran = rodreach_in(&folder, &[vec![command, "."], more.clone(), vec!["-o", name]].concat());
            assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{command} {name}");
            assert!(ran.err.contains("nothing was written"), "{command} {name}: {}", ran.err);
            assert_eq!(
                (held("job.toml"), held("walk.csv")),
                (toml.clone(), walk.clone()),
                "{command} {name}"
            );
        }
    }
}

#[test]
fn the_earlier_answer_is_not_overwritten_by_the_one_that_is_compared_with_it() {
    let job = Job::demo("tractor-shed");
    job.run("check", &["--format", "json", "-o", "sent.json"]);
    let sent = job.read("sent.json");
    let ran = job.run("check", &["--since", "sent.json", "-o", "./sent.json"]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("the earlier answer"), "{}", ran.err);
    assert_eq!(job.read("sent.json"), sent);
    assert_eq!(job.run("check", &["--since", "sent.json", "-o", "now.json"]).status, 1);
}

#[test]
fn a_folder_that_is_not_there_and_a_dash_are_told_in_plain_words() {
    let job = Job::demo("tractor-shed");
    let before = job.names();
    for (name, words) in
        [("crates/a.json", "there is no folder"), ("-", "leave -o away"), (".", "is a folder")]
    {
        let ran = job.run("check", &["-o", name]);
        assert_eq!((ran.status, ran.out.as_str()), (2, ""), "{name}");
        assert!(ran.err.contains(words) && !ran.err.contains(".rodreach-"), "{name}: {}", ran.err);
    }
    assert_eq!(job.names(), before);
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_what_is_no_file_stays_what_it_is() {
    use std::os::unix::fs::FileTypeExt;
    let job = Job::demo("tractor-shed");
    std::fs::write(job.path("real.txt"), "of yesterday").unwrap();
    std::os::unix::fs::symlink("real.txt", job.path("link.txt")).unwrap();
    assert_eq!(job.run("check", &["-o", "link.txt"]).status, 1);
    assert!(job.path("link.txt").is_symlink());
    assert!(job.read("real.txt").contains("UNDER EACH COLUMN"));

    assert!(std::process::Command::new("mkfifo").arg(job.path("pipe")).status().unwrap().success());
    let ran = job.run("check", &["-o", "pipe"]);
    assert_eq!(ran.status, 2);
    assert!(ran.err.contains("is no file"), "{}", ran.err);
    assert!(std::fs::symlink_metadata(job.path("pipe")).unwrap().file_type().is_fifo());
}
