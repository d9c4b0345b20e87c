//! Rods in shear under a plate that stands clear of its concrete, in `explain` and `ask`: for the engineer, no verdict.

use super::document::{Document, Tone};
use super::rules::source;
use crate::catalog::Authority;
use crate::check::{Case, ColumnCase};
use crate::length::{Length, Rounding};
use crate::model::{
    bearing_authority, full_bearing, grout_pad_authority, lever_arm_authority, share_on_mortar,
    share_on_mortar_authority, without_lever_arm,
};
use crate::plan::Action;
use crate::text::Style;

/// Adds the section of a column that is planned on grout, or on shims thicker than half a rod.
pub(super) fn asked(document: &mut Document, case: &Case<'_>, column: &ColumnCase, style: Style) {
    let base = case.base(column.index);
    let grout = case.choice(column.index).action == Action::Grout;
    let (diameter, Some(raise)) = (base.rods.diameter, column.raise) else { return };
    let (raise, thin) = (raise.nominal, without_lever_arm(diameter));
    if raise <= Length::ZERO || !(grout || raise > thin) {
        return;
    }
    document.heading(Tone::Ask, "RODS IN SHEAR: for the engineer, no verdict");
    document.text(
        Tone::Plain,
        format!(
            "Whether these rods carry shear is not known here. If they do: the plate stands {} clear of its concrete, half a \
             rod is {}. Nothing below was taken into the plan.",
            style.exact(raise),
            style.exact(thin)
        ),
    );
    let mut told = |name: &str, words: String, authority: &Authority| {
        document.item(Tone::Plain, name, words);
        document.item(Tone::Quiet, " ", format!("source, {}", source(authority)));
    };
    let arm = match (grout, raise > thin) {
        (true, false) => "does this mortar reach 30 MPa, so that no lever arm counts?",
        (true, true) => "this bed is thicker than half a rod: does a lever arm count, so that the rods bend?",
        (false, _) => {
            "these shims are thicker than half a rod: does a lever arm count, so that the rods bend?"
        }
    };
    told("lever arm", arm.to_owned(), &lever_arm_authority());
    if !grout {
        return;
    }
    told(
        "grout pad",
        "do the rods keep 0.80 of their strength in shear on this bed, and no more?".to_owned(),
        &grout_pad_authority(),
    );
    let share = share_on_mortar(raise, diameter).map_or_else(
        || "this bed is too thick for 1 - 0.01 t: no share of the strength in shear is given".to_owned(),
        |share| {
            let percent = i128::from(share.part.nm()) * 100 / i128::from(share.whole.nm().max(1));
            format!(
                "by 1 - 0.01 t {percent} % of their strength in shear is left: are its other conditions met?"
            )
        },
    );
    told("or", share, &share_on_mortar_authority());
    let joint = base.plate.size.map(|[a, b]| full_bearing(a.min(b))).map_or_else(
        || "the size of the plate is not given, so how thick a bed may be is not known".to_owned(),
        |most| {
            let most_told = style.write(most, Rounding::Down);
            match raise > most {
                true => format!("a fifth of the smaller side is {most_told}: what holds for this bed, which is thicker?"),
                false => {
                    format!("a fifth of the smaller side is {most_told}: is this bed, which is no thicker, strong enough?")
                }
            }
        },
    );
    told("bearing", joint, &bearing_authority());
}
