//! What changed at one column beside its pad and what goes under it: base, holds, rods.

use crate::check::{Case, ColumnChange, RodChange};
use crate::length::{Length, Rounding};
use crate::model::{Setting, State};
use crate::text::{Style, and};

/// Says in sentences what changed at a column.
pub(super) fn details(case: &Case<'_>, change: &ColumnChange<'_>, style: Style) -> Vec<String> {
    let column = &case.columns[change.index];
    let mut said = Vec::new();
    if change.other_base {
        said.push(format!("base {} then, {} now", change.before.base, case.base(change.index).mark));
    }
    if change.pad_came_or_went {
        let (then, now) =
            if column.pad.is_some() { ("not measured", "measured") } else { ("measured", "not measured") };
        said.push(format!("pad {then} then, {now} now"));
    }
    if change.other_setting {
        said.push(setting(case, change, style));
    }
    if change.other_hold {
        said.push(hold(case, change));
    }
    said.extend(change.rods.iter().map(|rod| self::rod(rod, style)));
    said
}

/// Says what the plate was set on then and is now, with the parts that go with it.
fn setting(case: &Case<'_>, change: &ColumnChange<'_>, style: Style) -> String {
    let not_said = "nothing that is said";
    let before = change.before;
    let number = |number: Option<u32>| number.map_or("?".to_owned(), |it| it.to_string());
    let sides = |size: Option<[Length; 2]>| {
        size.map_or("?".to_owned(), |[a, b]| format!("{} x {}", style.exact(a), style.exact(b)))
    };
    let nuts = |nut: &str, washer: Option<&str>| {
        let washer = washer.map(|washer| format!(" with washer {washer}")).unwrap_or_default();
        format!("levelling nuts {nut}{washer}")
    };
    let then = match (&before.packs, &before.levelling) {
        (Some(packs), _) => format!("{} packs of {}", number(packs.count), sides(packs.size)),
        (_, Some(it)) => nuts(&it.nut, it.washer.as_deref()),
        _ => before.seat_on.clone().unwrap_or_else(|| not_said.to_owned()),
    };
    let base = case.base(change.index);
    let now = match &base.setting {
        Some(Setting::Packs(packs)) => format!("{} packs of {}", number(packs.count), sides(packs.size)),
        Some(Setting::Nuts(it)) => {
            nuts(&it.nut.called(), it.washer.as_ref().map(|washer| washer.series.as_str()))
        }
        Some(setting) => setting.word().to_owned(),
        None => not_said.to_owned(),
    };
    format!("plate set on {then} then, {now} now")
}

fn hold(case: &Case<'_>, change: &ColumnChange<'_>) -> String {
    let column = &case.columns[change.index];
    let now: Vec<&str> = column.hold.iter().map(|hold| hold.name()).collect();
    let then: Vec<&str> = change.before.hold.iter().map(String::as_str).collect();
    let only = |these: &[&str], those: &[&str]| -> Vec<String> {
        these.iter().filter(|it| !those.contains(it)).map(|it| it.replace('-', " ")).collect()
    };
    let set = |may_set: bool| if may_set { "might be set" } else { "on hold" };
    let mut words = match (change.before.may_set, column.may_set()) {
        (then, now) if then != now => {
            format!("{} then, {} now", set(then), if now { "may be set" } else { "NOT to be set" })
        }
        _ => "held for other reasons".to_owned(),
    };
    let (came, went) = (only(&now, &then), only(&then, &now));
    if !came.is_empty() {
        words.push_str(&format!("; came: {}", and(&came)));
    }
    if !went.is_empty() {
        words.push_str(&format!("; went: {}", and(&went)));
    }
    words
}

fn rod(change: &RodChange<'_>, style: Style) -> String {
    let label = change.label;
    let (then, now) = match (change.before, change.now) {
        (None, _) => return format!("rod {label}: not listed then"),
        (_, None) => return format!("rod {label}: not listed now"),
        (Some(then), Some(now)) => (then, now),
    };
    let stands = |projection: Option<Length>| match projection {
        Some(projection) => style.write(projection, Rounding::Nearest),
        None => "not measured".to_owned(),
    };
    let mut parts = Vec::new();
    if then.projection != now.projection {
        parts.push(format!("stood {} then, {} now", stands(then.projection), stands(now.projection)));
    }
    if then.state != now.state {
        parts.push(format!("{} then, {} now", state(then.state), state(now.state)));
    }
    if then.extra_washers != now.extra_washers {
        parts.push(format!("washers added {} then, {} now", then.extra_washers, now.extra_washers));
    }
    format!("rod {label}: {}", parts.join("; "))
}

/// Says a state as a table of the README has it.
const fn state(state: State) -> &'static str {
    match state {
        State::Full => "nut full",
        State::Scant => "nut full, less thread beyond than wanted",
        State::Unsure => "too close to call",
        State::Short => "nut NOT full",
        State::RunsOut => "thread runs out",
        State::Unmeasured => "not measured",
    }
}
