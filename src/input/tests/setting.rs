//! `seat_on`: how a base is set, and what goes with each way.

use super::{JOB, Job, WALK, assert_told, changed, same};
use crate::length::{Bare, Length, Unit, read};
use crate::model::{Packs, Setting, SettingPlate};

fn inch(text: &str) -> Length {
    read(text, Bare::of(Unit::Inch)).unwrap()
}

fn loaded(lines: &str) -> crate::model::Job {
    let job = format!("{JOB}{lines}");
    Job::new(&[("job.toml", &job), ("walk.csv", WALK)]).load().unwrap().job
}

fn setting(lines: &str) -> Option<Setting> {
    loaded(lines).bases.remove(0).setting
}

fn told(lines: &str, wanted: &[&str]) {
    assert_told(&changed(|job| format!("{job}{lines}"), same), wanted);
}

#[test]
fn without_the_key_nothing_is_said_and_nothing_assumed() {
    assert!(setting("").is_none());
    assert!(setting("bed = \"1-1/2\"\n").is_none());
}

#[test]
fn pad_and_shims_stand_by_themselves() {
    assert!(matches!(setting("seat_on = \"pad\"\n"), Some(Setting::Pad)));
    assert!(matches!(setting("seat_on = \"shims\"\nbed = 0\n"), Some(Setting::Shims)));
}

#[test]
fn packs_are_read_and_what_is_not_written_is_unknown() {
    let lines = "bed = \"1-1/2\"\nseat_on = \"packs\"\n\
                 packs = { size = [\"4\", \"3-1/2\"], count = 4, left_in = true, cover = \"1\" }\n";
    let Some(Setting::Packs(packs)) = setting(lines) else { panic!("no packs") };
    let wanted = Packs {
        size: Some([inch("4"), inch("3-1/2")]),
        count: Some(4),
        left_in: Some(true),
        cover: Some(inch("1")),
    };
    assert_eq!(packs, wanted);
    for lines in ["bed = 1\nseat_on = \"packs\"\n", "bed = 1\nseat_on = \"packs\"\npacks = {}\n"] {
        let Some(Setting::Packs(packs)) = setting(lines) else { panic!("no packs") };
        assert_eq!(packs, Packs::default());
    }
    let lines = "bed = 1\nseat_on = \"packs\"\npacks = { left_in = false }\n";
    let Some(Setting::Packs(packs)) = setting(lines) else { panic!("no packs") };
    assert_eq!((packs.left_in, packs.cover), (Some(false), None));
}

#[test]
fn a_levelling_nut_and_its_washer_are_series_or_as_measured() {
    let lines =
        "bed = \"1-1/2\"\nseat_on = \"nuts\"\nlevelling = { nut = \"heavy-hex\", washer = \"plate\" }\n";
    let base = loaded(lines).bases.remove(0);
    let levelling = base.levelling().unwrap();
    assert_eq!((levelling.nut.series.as_str(), levelling.nut.height), ("heavy-hex", base.nuts[0].height));
    assert_eq!(levelling.washer.as_ref().unwrap().series, "plate");
    let lines = "bed = \"1-1/2\"\nseat_on = \"nuts\"\n\
                 levelling = { nut = { height = [\"0.71\", \"0.74\", \"0.76\"] }, washer = { thickness = [\"0.24\", \"1/4\", \"0.28\"] } }\n";
    let base = loaded(lines).bases.remove(0);
    let height = base.levelling().unwrap().height();
    assert_eq!(
        (height.least, height.nominal, height.most),
        (inch("0.95"), inch("0.99"), inch("1.04")),
        "washer and nut together"
    );
    let lines = "bed = 1\nseat_on = \"nuts\"\nlevelling = { nut = \"heavy-hex\" }\n";
    assert!(loaded(lines).bases[0].levelling().unwrap().washer.is_none(), "no washer is none");
}

#[test]
fn a_setting_plate_is_a_part_of_the_bed() {
    let lines =
        "bed = \"1-1/2\"\nseat_on = \"plate\"\nsetting_plate = { thickness = \"1/4\", size = [10, 14] }\n";
    let base = loaded(lines).bases.remove(0);
    assert_eq!((base.bed, base.plate.thickness.nominal), (inch("1-1/2"), inch("1/2")), "neither changes");
    let Some(Setting::Plate(plate)) = base.setting else { panic!("no plate") };
    let wanted = SettingPlate { size: Some([inch("10"), inch("14")]), thickness: Some(inch("1/4")) };
    assert_eq!(plate, wanted);
    assert!(
        matches!(setting("bed = 1\nseat_on = \"plate\"\n"), Some(Setting::Plate(plate)) if plate == SettingPlate::default())
    );
}

#[test]
fn a_word_that_is_not_known_is_told_with_all_that_are() {
    told(
        "seat_on = \"wedges\"\n",
        &[
            "job.toml:15:11: `wedges` is not known here | use \"pad\", \"shims\", \"packs\", \"nuts\" or \"plate\"",
        ],
    );
    told("seat_on = 4\n", &["job.toml:15:11: expected a text in quotes, found a number"]);
}

#[test]
fn what_stands_in_a_bed_needs_one_and_what_does_not_has_none() {
    for (word, more) in [("packs", ""), ("nuts", "levelling = { nut = \"heavy-hex\" }\n"), ("plate", "")] {
        let wanted = format!(
            "job.toml:15:11: seat_on = \"{word}\" needs a bed of grout, and this base has none | add bed as the drawings \
             have it, or set seat_on = \"pad\" or \"shims\""
        );
        told(&format!("seat_on = \"{word}\"\n{more}"), &[&wanted]);
        told(&format!("seat_on = \"{word}\"\nbed = 0\n{more}"), &[&wanted]);
    }
    for word in ["pad", "shims"] {
        let wanted = format!(
            "job.toml:15:11: seat_on = \"{word}\" leaves no bed of grout, and this base has one | say what holds the plate \
             over its bed, seat_on = \"packs\", \"nuts\" or \"plate\", or take bed out"
        );
        told(&format!("seat_on = \"{word}\"\nbed = 1\n"), &[&wanted]);
    }
}

#[test]
fn keys_of_another_way_are_refused_by_name_and_all_in_one_run() {
    told(
        "seat_on = \"pad\"\npacks = {}\nlevelling = { nut = \"heavy-hex\" }\nsetting_plate = {}\n",
        &[
            "job.toml:16:9: `packs` goes with seat_on = \"packs\", and this base has seat_on = \"pad\" | take packs out, or \
             set seat_on = \"packs\" if the drawings have it so",
            "job.toml:17:13: `levelling` goes with seat_on = \"nuts\", and this base has seat_on = \"pad\" | take levelling",
            "job.toml:18:17: `setting_plate` goes with seat_on = \"plate\", and this base has seat_on = \"pad\" | take",
        ],
    );
    told(
        "bed = 1\nlevelling = { nut = \"heavy-hex\" }\n",
        &[
            "job.toml:16:13: `levelling` says what the plate is set on, and seat_on is not given | add seat_on = \"nuts\", or \
           take levelling out",
        ],
    );
}

#[test]
fn there_is_no_default_levelling_nut() {
    told(
        "bed = 1\nseat_on = \"nuts\"\n",
        &[
            "job.toml:9:1: `levelling` is missing in [[base]] | add levelling = { nut = \"heavy-hex\", washer = \"plate\" }, \
           there is no default nut",
        ],
    );
    told(
        "bed = 1\nseat_on = \"nuts\"\nlevelling = { washer = \"plate\" }\n",
        &["job.toml:17:13: `nut` is missing in levelling | add nut = \"heavy-hex\", there is no default"],
    );
    told(
        "bed = 1\nseat_on = \"nuts\"\nlevelling = { nut = \"heavyhex\", washer = \"plat\", nuts = 1 }\n",
        &[
            "job.toml:17:21: `heavyhex` is not a series of nuts | did you mean `heavy-hex`?",
            "job.toml:17:42: `plat` is not a series of washers | did you mean `plate`?",
            "job.toml:17:50: `nuts` is not a key of levelling | did you mean `nut`?",
        ],
    );
}

#[test]
fn packs_and_setting_plates_that_cannot_be_are_told_with_their_place() {
    let packs = |keys: &str| format!("bed = 1\nseat_on = \"packs\"\npacks = {{ {keys} }}\n");
    told(&packs("size = [4, 0]"), &["job.toml:17:18: both lengths must be more than 0"]);
    told(&packs("size = [4]"), &["job.toml:17:18: expected 2 lengths, found 1"]);
    told(&packs("count = 0"), &["job.toml:17:19: expected a whole number from 1 to 64, found `0`"]);
    told(&packs("left_in = \"yes\""), &["job.toml:17:21: expected true or false, found"]);
    told(&packs("cover = \"-1\""), &["job.toml:17:19: this length cannot be less than 0"]);
    told(
        &packs("left_in = false, cover = 1"),
        &[
            "job.toml:17:36: `cover` is the grout over packs that are left in, and these are taken out | take cover out, or \
           set left_in = true if the drawings leave them in",
        ],
    );
    told(
        &packs("widgets = 1"),
        &["job.toml:17:11: `widgets` is not a key of packs | its keys are size, count, left_in, cover"],
    );
    let plate = |keys: &str| format!("bed = 1\nseat_on = \"plate\"\nsetting_plate = {{ {keys} }}\n");
    told(&plate("thickness = 0"), &["job.toml:17:31: this length must be more than 0"]);
    told(
        &plate("thickness = 1"),
        &[
            "job.toml:17:31: this setting plate leaves no grout in its bed | bed is all between the concrete and the base \
           plate, the setting plate with it; check both figures",
        ],
    );
    let Some(Setting::Plate(plate)) = setting(&plate("thickness = \"63/64\"")) else { panic!("no plate") };
    assert_eq!(plate.thickness, Some(inch("63/64")));
}
