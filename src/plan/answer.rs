//! What was chosen, as a plan.

use super::action::{Action, Aim, Choice, Optimum, Plan};
use super::cost::Cost;
use super::fewest::{NoPlan, Wish};
use super::hurdle::hurdle;
use super::pose::Posed;
use super::reach::{End, reach};
use super::solve::Chosen;
use crate::length::Length;
use crate::model::Job;

impl Posed {
    /// Makes a plan of what was chosen, every difference looked at once more.
    pub(super) fn plan(&self, job: &Job, chosen: &Chosen, wish: &Wish) -> Result<Plan, NoPlan> {
        let referred: Vec<bool> = chosen.iter().map(Option::is_none).collect();
        let fixed = self.puzzle().fixed(chosen, &referred);
        let (lows, highs) = (reach(&self.system, &fixed, End::Low), reach(&self.system, &fixed, End::High));
        if !lows.clashes.is_empty() || !highs.clashes.is_empty() {
            return Err(NoPlan::NotProven);
        }
        let mut choices: Vec<Choice> =
            job.columns.iter().map(|_| Choice::without(Action::Unmeasured)).collect();
        for (index, (pad, choice)) in self.task.pads.iter().zip(chosen).enumerate() {
            let place = &mut choices[pad.column];
            let Some(candidate) = choice.map(|choice| &pad.open[choice]) else {
                let seat = |end: Option<i64>| end.map(|end| Length::from_nm(end + pad.design));
                *place = Choice {
                    seat_range: Some((seat(lows.ends[index]), seat(highs.ends[index]))),
                    hurdle: hurdle(job, self, &referred, index),
                    ..Choice::without(Action::Refer)
                };
                continue;
            };
            if pad.window.is_some_and(|most| candidate.departure.abs() > most) {
                return Err(NoPlan::NotProven);
            }
            *place = self.task.options[candidate.option].choice(candidate.cost.held > 0);
        }
        let cost = self.cost(chosen);
        let optimum = Some(Optimum { cost, at_least: cost });
        Ok(Plan {
            choices,
            aim: Aim::Fewest,
            to: wish.to,
            guarded: wish.guarded,
            optimum,
            firm: None,
            shortage: None,
        })
    }

    /// Sums what was chosen.
    pub(super) fn cost(&self, chosen: &Chosen) -> Cost {
        let costs = self.task.pads.iter().zip(chosen);
        costs.map(|(pad, choice)| choice.map_or(Cost::REFER, |choice| pad.open[choice].cost)).sum()
    }
}
