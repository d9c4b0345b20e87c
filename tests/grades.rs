//! Grades of rods and nuts through the whole program: asked about where a nut is too weak, named where hardware is.

mod tool;

use tool::Job;
use tool::clean::walk_job;

/// The clean job with these grades.
fn graded(rods: &str, nuts: &str) -> Job {
    let job = walk_job();
    let toml = job.read("job.toml");
    assert!(toml.contains("count = 4") && toml.contains("nuts = [\"heavy-hex\"]"), "{toml}");
    let toml = toml.replace("count = 4", &format!("count = 4, {rods}"));
    job.write("job.toml", toml.replace("nuts = [\"heavy-hex\"]", &format!("nuts = {nuts}")));
    job
}

/// The sentence of the rule, where it is told.
fn asked(job: &Job) -> Option<String> {
    let ran = job.run("check", &["--format", "json"]);
    let answer = ran.json();
    let findings = answer["findings"].as_array().unwrap();
    let found = findings.iter().find(|finding| finding["rule"] == "nut-too-weak")?;
    assert_eq!((found["level"].as_str(), ran.status), (Some("ask"), 1), "{found}");
    Some(found["text"].as_str().unwrap().to_owned())
}

/// ASTM F1554, recommended nuts, and ASTM A563-15, Table 3, both as printed on public pages.
#[test]
fn a_nut_that_is_too_weak_or_unknown_is_asked_about_and_a_right_one_is_not() {
    let told = |rods, nuts| asked(&graded(rods, nuts));
    assert_eq!(told("grade = \"F1554-36\"", "[{ series = \"heavy-hex\", grade = \"A\" }]"), None);
    assert_eq!(
        told("grade = \"F1554-105\", finish = \"plain\"", "[{ series = \"heavy-hex\", grade = \"A\" }]")
            .unwrap(),
        "base B1: nut A heavy hex on F1554-105 rods, DH heavy hex is recommended; ask the engineer"
    );
    assert_eq!(
        told("grade = \"F1554-55\"", "[\"heavy-hex\"]").unwrap(),
        "base B1: the grade of the nut is not known; A hex (plain) or A heavy hex (zinc) is recommended on F1554-55 \
         rods: look, or ask the engineer"
    );
}

#[test]
fn the_hardware_list_names_the_grades() {
    let job =
        graded("grade = \"F1554-36\", finish = \"zinc\"", "[{ series = \"heavy-hex\", grade = \"DH\" }]");
    let screen = job.run("hardware", &[]).out.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(screen.contains("3/4 F1554-36, zinc;") && screen.contains("nut heavy-hex grade DH"), "{screen}");
}
