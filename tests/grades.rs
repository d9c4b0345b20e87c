//! Grades of rods and nuts through the whole program: asked about where a nut is too weak, named where hardware is.

mod tool;

use rodreach::catalog::{Finish, NutStyle, load};
use rodreach::length::Length;
use rodreach::quantity::{Stress, StressUnit};
use tool::Job;
use tool::clean::{levels_job, walk_job};

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

/// DIN EN 20898-2 (ISO 898-2), proof loads of style 1 nuts with coarse thread in N over the stress area of the mandrel in
/// mm2, from an extract on a public page: M12 84.3, M16 157, M20 245, M24 353, M30 561, M36 817.
#[test]
fn the_proof_stress_of_metric_nuts_times_the_stress_area_is_the_published_proof_load() {
    let catalog = load().unwrap();
    type Loads<'l> = &'l [(&'l str, i64)];
    let rows: [(i64, i64, Loads<'_>); 6] = [
        (12, 843, &[("5", 51_400), ("6", 59_000), ("8", 74_200), ("10", 88_500)]),
        (16, 1570, &[("5", 95_800), ("6", 109_900), ("8", 138_200), ("10", 164_900)]),
        (20, 2450, &[("4", 125_000), ("5", 154_400), ("6", 176_400), ("8", 225_400), ("10", 259_700)]),
        (24, 3530, &[("4", 180_000), ("5", 222_400), ("6", 254_200), ("8", 324_800), ("10", 374_200)]),
        (30, 5610, &[("4", 286_100), ("5", 353_400), ("6", 403_900), ("8", 516_100), ("10", 594_700)]),
        (36, 8170, &[("4", 416_700), ("5", 514_700), ("6", 588_200), ("8", 751_600), ("10", 866_000)]),
    ];
    for (size, tenths, loads) in rows {
        for (class, published) in loads {
            let diameter = Length::from_nm(size * 1_000_000);
            let nut = catalog.nut_grade(class, NutStyle::Style1, diameter).unwrap();
            let stress = nut.plain.pascals() / 1_000_000;
            assert_eq!(nut.plain, Stress::of(stress, StressUnit::Megapascal));
            let off = (stress * tenths - published * 10).abs();
            assert!(off * 1000 <= published * 10, "M{size} class {class}: {stress} MPa for {published} N");
            assert_eq!(nut.proof(Finish::Zinc), None, "of nuts tapped wider nothing was seen");
        }
    }
    assert!(catalog.nut_grade("4", NutStyle::Style1, Length::from_nm(16_000_000)).is_none());
}

/// ISO 898-2, pairing: on 8.8 class 8 or higher, as said on a public page; the other pairs from memory.
#[test]
fn a_metric_nut_is_asked_about_where_its_class_is_below_the_first_number_of_its_rod() {
    let told = |rods: &str, nut: &str| {
        let job = levels_job();
        let toml = job.read("job.toml").replace("count = 4", &format!("count = 4, {rods}"));
        job.write("job.toml", toml.replace("nuts = [\"iso-4032\"]", &format!("nuts = [{nut}]")));
        asked(&job)
    };
    let nut = |class: &str| format!("{{ series = \"iso-4032\", grade = \"{class}\" }}");
    assert_eq!(told("grade = \"8.8\"", &nut("8")), None);
    assert_eq!(told("grade = \"8.8\", finish = \"plain\"", &nut("10")), None);
    assert_eq!(told("grade = \"4.6\", finish = \"zinc\"", &nut("5")), None);
    assert_eq!(
        told("grade = \"4.6\", finish = \"plain\"", &nut("4")).unwrap(),
        "base P1: nut 4 style 1 on 4.6 rods, 5 style 1 is recommended; ask the engineer",
        "editions disagree: the stronger"
    );
    assert_eq!(
        told("grade = \"8.8\", finish = \"plain\"", &nut("6")).unwrap(),
        "base P1: nut 6 style 1 on 8.8 rods, 8 style 1 is recommended; ask the engineer"
    );
    assert_eq!(
        told("grade = \"10.9\", finish = \"plain\"", &nut("8")).unwrap(),
        "base P1: nut 8 style 1 on 10.9 rods, 10 style 1 is recommended; ask the engineer"
    );
    let unknown = [("grade = \"8.8\"", "\"iso-4032\"".to_owned(), "the grade of the nut is not known")]
        .into_iter()
        .chain([(
            "grade = \"8.8\", finish = \"zinc\"",
            nut("10"),
            "the proof stress of the nut is not known",
        )])
        .chain([("grade = \"F1554-36\"", nut("8"), "whether a nut of this style will do is not known")]);
    for (rods, nut, wanted) in unknown {
        let text = told(rods, &nut).unwrap();
        assert!(text.contains(wanted), "{text}");
    }
}
