//! Rods in shear under a plate that stands clear of its concrete, in `explain` and `ask`: for the engineer, no verdict.

use crate::catalog::{Authority, Catalog};
use crate::check::{Case, ColumnCase, style};
use crate::length::{Length, Rounding};
use crate::model::{
    ON_A_GROUT_PAD, Share, arm_authority, bearing_authority, bending_authority, full_bearing,
    grout_pad_authority, lever_arm, lever_arm_authority, share_on_mortar, share_on_mortar_authority,
    without_lever_arm,
};
use crate::order::{Area, RodBending, ThreadStrength};
use crate::plan::Action;
use crate::quantity::Force;
use crate::report::document::{Document, Tone};
use crate::report::rules::source;
use crate::text::{Style, count};
use serde::Serialize;

/// What `explain` and `ask` tell of the rods of one column in shear.
pub(super) struct InShear {
    style: Style,
    grout: bool,
    gap: Length,
    half_rod: Length,
    shear: Option<Force>,
    tension: Option<Force>,
    rods: u32,
    share: Option<Share>,
    most_bed: Option<Length>,
    arm: [Length; 4],
    bending: Option<Bending>,
}

/// One rod in bending, where the strengths of its grade are known.
struct Bending {
    grade: String,
    area: Area,
    breaks: String,
    rod: RodBending,
    /// The tension on it, all rods sharing it equally.
    pull: Option<Force>,
    strengths: Authority,
}

/// One question: about what, the words, and on whose word.
struct Question {
    about: &'static str,
    words: String,
    authority: Authority,
}

impl InShear {
    /// Gathers it; none where nothing, or shims no thicker than half a rod, stand under the plate, and where the job says
    /// that the rods carry no shear.
    pub(super) fn of(case: &Case<'_>, column: &ColumnCase, catalog: &Catalog) -> Option<Self> {
        let base = case.base(column.index);
        let grout = case.choice(column.index).action == Action::Grout;
        let (diameter, raise) = (base.rods.diameter, column.raise?);
        let half_rod = without_lever_arm(diameter);
        if raise.nominal <= Length::ZERO || !(grout || raise.most > half_rod) {
            return None;
        }
        if base.loads.shear == Some(Force::ZERO) {
            return None;
        }
        let plate = base.plate.thickness.most;
        let arm = lever_arm(diameter, raise.most, plate);
        Some(Self {
            style: style(case.job),
            grout,
            gap: raise.nominal,
            half_rod,
            shear: base.loads.shear,
            tension: base.loads.tension,
            rods: base.rods.count,
            share: share_on_mortar(raise.nominal, diameter),
            most_bed: base.plate.size.map(|[a, b]| full_bearing(a.min(b))),
            arm: [half_rod, raise.most, plate, arm],
            bending: Bending::of(case, column, catalog, arm),
        })
    }

    /// Gives a row of a short table: how far the plate stands clear, half a rod, the lever arm if one counts, the shear.
    pub(super) fn row(&self) -> Vec<String> {
        let exact = |length: Length| self.style.exact(length);
        let shear = self.shear.map_or("not given".to_owned(), |shear| self.style.force_exact(shear));
        vec![exact(self.gap), exact(self.half_rod), exact(self.arm[3]), shear]
    }

    /// Adds the section.
    pub(super) fn tell(&self, document: &mut Document) {
        let style = self.style;
        document.heading(Tone::Ask, "RODS IN SHEAR: for the engineer, no verdict");
        let lead = match self.shear {
            None => "Whether these rods carry shear is not known here. If they do: the plate".to_owned(),
            Some(shear) => format!(
                "By the job these {} carry {} of shear together. The plate",
                count(self.rods as usize, "rod"),
                style.force_exact(shear)
            ),
        };
        document.text(
            Tone::Plain,
            format!(
                "{lead} stands {} clear of its concrete, half a rod is {}. Nothing below was taken into the plan.",
                style.exact(self.gap),
                style.exact(self.half_rod)
            ),
        );
        for question in self.questions() {
            document.item(Tone::Plain, question.about, question.words);
            document.item(Tone::Quiet, " ", format!("source, {}", source(&question.authority)));
        }
    }

    fn questions(&self) -> Vec<Question> {
        let mut all = vec![self.is_there_an_arm(), self.how_long()];
        if let Some(bending) = &self.bending {
            all.push(Question {
                about: "bending",
                words: bending.words(self),
                authority: bending_authority(),
            });
            let words = format!("{}, {}", bending.grade, bending.breaks);
            all.push(Question { about: "grade", words, authority: bending.strengths.clone() });
        }
        if self.grout {
            all.extend([self.grout_pad(), self.or(), self.full_bearing()]);
        }
        all
    }

    fn is_there_an_arm(&self) -> Question {
        let thick = self.arm[1];
        let words = match (self.grout, thick > self.half_rod) {
            (true, false) => "does this mortar reach 30 MPa, so that no lever arm counts?",
            (true, true) => {
                "this bed is thicker than half a rod: does a lever arm count, so that the rods bend?"
            }
            (false, _) if self.gap <= self.half_rod => {
                "these shims may come out thicker than half a rod: does a lever arm count, so that the rods bend?"
            }
            (false, _) => {
                "these shims are thicker than half a rod: does a lever arm count, so that the rods bend?"
            }
        };
        Question { about: "lever arm", words: words.to_owned(), authority: lever_arm_authority() }
    }

    fn how_long(&self) -> Question {
        let [half, gap, plate, arm] = self.arm.map(|it| self.style.exact(it));
        let words = format!(
            "if one counts: half a rod {half} + gap {gap} + half the plate of {plate} = {arm}, at the most"
        );
        Question { about: "its length", words, authority: arm_authority() }
    }

    fn grout_pad(&self) -> Question {
        let wanted = self.shear.and_then(|shear| shear.over_share(i64::from(ON_A_GROUT_PAD), 100));
        let wanted = self.wanted(wanted);
        let words =
            format!("do the rods keep 0.80 of their strength in shear on this bed, and no more?{wanted}");
        Question { about: "grout pad", words, authority: grout_pad_authority() }
    }

    fn or(&self) -> Question {
        let words = self.share.map_or_else(
            || {
                "this bed is too thick for 1 - 0.01 t: no share of the strength in shear is given".to_owned()
            },
            |share| {
                let (part, whole) = (share.part.nm(), share.whole.nm().max(1));
                let percent = i128::from(part) * 100 / i128::from(whole);
                let wanted = self.wanted(self.shear.and_then(|shear| shear.over_share(part, whole)));
                format!(
                    "by 1 - 0.01 t {percent} % of their strength in shear is left: are its other conditions met?{wanted}"
                )
            },
        );
        Question { about: "or", words, authority: share_on_mortar_authority() }
    }

    /// Says what strength a share of it asks of the rods for the shear that is given.
    fn wanted(&self, strength: Option<Force>) -> String {
        let told = self.shear.zip(strength).map(|(shear, strength)| {
            format!(
                " Then {} asks {} of them before it is lessened.",
                self.style.force_exact(shear),
                self.style.force(strength, Rounding::Up)
            )
        });
        told.unwrap_or_default()
    }

    fn full_bearing(&self) -> Question {
        let words = self.most_bed.map_or_else(
            || "the size of the plate is not given, so how thick a bed may be is not known".to_owned(),
            |most| {
                let most_told = self.style.write(most, Rounding::Down);
                match self.gap > most {
                    true => {
                        format!("a fifth of the smaller side is {most_told}: what holds for this bed, which is thicker?")
                    }
                    false => format!(
                        "a fifth of the smaller side is {most_told}: is this bed, which is no thicker, strong enough?"
                    ),
                }
            },
        );
        Question { about: "bearing", words, authority: bearing_authority() }
    }

    fn left(&self) -> Vec<LeftJson> {
        let asks = |part: i64, whole: i64| {
            self.shear.and_then(|shear| shear.over_share(part, whole)).map(Force::millinewtons_up)
        };
        let pad = i64::from(ON_A_GROUT_PAD);
        let mortar = self.share.map(|share| (share.part.nm(), share.whole.nm().max(1)));
        vec![
            LeftJson { by: "ACI 318-19", percent: Some(pad), asks: asks(pad, 100) },
            LeftJson {
                by: "EN 1992-4",
                percent: mortar.map(|(part, whole)| part.saturating_mul(100) / whole),
                asks: mortar.and_then(|(part, whole)| asks(part, whole)),
            },
        ]
    }

    /// Gives the section as JSON has it.
    pub(super) fn json(&self) -> ShearJson {
        ShearJson {
            gap_nm: self.gap.nm(),
            half_rod_nm: self.half_rod.nm(),
            on_grout: self.grout,
            shear: self.shear.map(Force::millinewtons_up),
            tension: self.tension.map(Force::millinewtons_up),
            lever_arm_nm: self.arm[3].nm(),
            left: if self.grout { self.left() } else { Vec::new() },
            bending: self.bending.as_ref().map(Bending::json),
            questions: self.questions().into_iter().map(QuestionJson::of).collect(),
            decides: "the engineer of record",
        }
    }
}

impl Bending {
    fn of(case: &Case<'_>, column: &ColumnCase, catalog: &Catalog, arm: Length) -> Option<Self> {
        let base = case.base(column.index);
        let steel = base.rods.steel.as_ref()?;
        let row = steel.strengths.as_ref()?;
        let area = ThreadStrength::of(catalog, base.rods.diameter, base.rods.pitch)?.stress_area;
        let pull = base.loads.tension.map(|tension| tension.shared_by(base.rods.count));
        let strengths = [row.least_yield, row.tensile];
        let rod = RodBending::of(area, strengths, arm, pull.unwrap_or_default())?;
        let breaks = format!("f_uk {}", style(case.job).steel(row.tensile));
        Some(Self { grade: steel.grade.clone(), area, breaks, rod, pull, strengths: row.authority.clone() })
    }

    fn words(&self, of: &InShear) -> String {
        let (style, rod) = (of.style, &self.rod);
        let moment = |it: crate::order::Moment| style.moment(it.newton_millimetres());
        let down = |it| style.force(it, Rounding::Down);
        let [in_tension, in_shear] = rod.factors.map(|it| format!("{}.{:02}", it / 100, it % 100));
        let tension = match self.pull {
            None => "the tension on it is not given and lessens what follows: what is it?".to_owned(),
            Some(Force::ZERO) => "no tension, the job says.".to_owned(),
            Some(pull) => format!(
                "of the tension {} if all share it equally, of {} over its factor {in_tension}, leaves {}.",
                style.force(pull, Rounding::Up),
                down(rod.tension),
                moment(rod.left)
            ),
        };
        let most = if self.pull.is_some() { "" } else { "at the most, were there no tension, " };
        let each = of.shear.map(|shear| {
            let each = style.force(shear.shared_by(of.rods), Rounding::Up);
            format!(" The shear given is {each} on each if all share it equally.")
        });
        format!(
            "one rod, stress area {}: M0 {}; {tension} Over its factor {in_shear} it carries {most}{} of shear where the plate \
             may turn, {} where it cannot: which?{}",
            style.area(self.area.square_micrometres()),
            moment(rod.alone),
            down(rod.free),
            down(rod.fixed),
            each.unwrap_or_default()
        )
    }

    fn json(&self) -> BendingJson {
        let rod = &self.rod;
        BendingJson {
            grade: self.grade.clone(),
            stress_area_mm2: self.area,
            moment: rod.alone.newton_millimetres(),
            tension_on_one: self.pull.map(Force::millinewtons_up),
            tension_of_one: rod.tension.millinewtons_down(),
            moment_left: self.pull.map(|_| rod.left.newton_millimetres()),
            plate_free: self.pull.map(|_| rod.free.millinewtons_down()),
            plate_fixed: self.pull.map(|_| rod.fixed.millinewtons_down()),
            source: bending_authority(),
        }
    }
}

/// The section as JSON has it: forces in whole millinewtons, what is carried down and what is loaded up.
#[derive(Serialize)]
pub(in crate::report) struct ShearJson {
    gap_nm: i64,
    half_rod_nm: i64,
    on_grout: bool,
    #[serde(rename = "shear_mN")]
    shear: Option<i64>,
    #[serde(rename = "tension_mN")]
    tension: Option<i64>,
    lever_arm_nm: i64,
    /// What is left of the strength in shear on grout; nothing is said of shims.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    left: Vec<LeftJson>,
    bending: Option<BendingJson>,
    questions: Vec<QuestionJson>,
    decides: &'static str,
}

/// What one publication leaves of the strength in shear, and the strength it then asks for the shear that is given.
#[derive(Serialize)]
struct LeftJson {
    by: &'static str,
    percent: Option<i64>,
    #[serde(rename = "asks_mN")]
    asks: Option<i64>,
}

/// One rod in bending; what it carries is not known where its tension is not.
#[derive(Serialize)]
struct BendingJson {
    grade: String,
    stress_area_mm2: Area,
    #[serde(rename = "moment_Nmm")]
    moment: i64,
    #[serde(rename = "tension_on_one_mN")]
    tension_on_one: Option<i64>,
    #[serde(rename = "tension_of_one_mN")]
    tension_of_one: i64,
    #[serde(rename = "moment_left_Nmm")]
    moment_left: Option<i64>,
    #[serde(rename = "plate_free_mN")]
    plate_free: Option<i64>,
    #[serde(rename = "plate_fixed_mN")]
    plate_fixed: Option<i64>,
    source: Authority,
}

#[derive(Serialize)]
struct QuestionJson {
    about: &'static str,
    text: String,
    source: Authority,
}

impl QuestionJson {
    fn of(question: Question) -> Self {
        Self { about: question.about, text: question.words, source: question.authority }
    }
}
