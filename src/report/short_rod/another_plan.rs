//! Less raise by another plan: what `--hold-at` would be worth trying at. Check judges it anew when it is tried.

use crate::check::ColumnCase;
use crate::length::Length;
use crate::plan::{Action, Considered, Fate};
use crate::text::{Style, System};

/// Most raises that are listed.
const MOST_RAISES: usize = 4;

/// Lists the raises below the one planned that a whole plan can hold a column at, no rod in its way, highest first;
/// none where no options were looked at.
pub(super) fn raises(column: &ColumnCase, considered: &[Considered]) -> Option<Vec<Length>> {
    if considered.is_empty() {
        return None;
    }
    let now = column.raise.map_or(Length::ZERO, |raise| raise.nominal);
    let open = considered.iter().filter(|it| {
        let plain = matches!(it.option.action, Action::NoShim | Action::Shim);
        let would_do = match it.fate {
            Fate::HeldElsewhere | Fate::Dearer | Fate::NoFlatter => true,
            Fate::Apart { .. } => it.whole.is_some(),
            Fate::Taken | Fate::Rod(..) | Fate::Design => false,
        };
        plain && would_do && !it.held && it.option.raise.nominal < now
    });
    let mut found: Vec<Length> = open.map(|it| it.option.raise.nominal).collect();
    found.sort_unstable_by(|a, b| b.cmp(a));
    found.dedup();
    Some(found)
}

/// Says what is worth trying.
pub(super) fn words(mark: &str, raises: Option<&[Length]>, style: Style) -> String {
    match raises {
        None => format!("try the column at less raise: --hold-at {mark}=HEIGHT"),
        Some([]) => {
            "no lower raise leaves a plan with every measured sound rod full; --hold-at shows what one \
                     does"
                .to_owned()
        }
        Some(all) => {
            let tries =
                all.iter().take(MOST_RAISES).map(|it| format!("--hold-at {mark}={}", typed(style, *it)));
            format!(
                "less raise can be planned: {}; OPTIONS tells what the whole plan needs then",
                tries.collect::<Vec<_>>().join(", ")
            )
        }
    }
}

/// Writes a height as it is typed on a command line.
fn typed(style: Style, height: Length) -> String {
    let exact = style.exact(height);
    let bare = match style.system() {
        System::Inch => exact.strip_suffix('"'),
        System::Metric => exact.strip_suffix(" mm"),
    };
    bare.map_or_else(|| format!("'{exact}'"), str::to_owned)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_height_is_typed_without_its_unit_where_the_job_has_it() {
        let typed = |system, nm| typed(Style::new(system, 16), Length::from_nm(nm));
        assert_eq!(typed(System::Inch, 4_762_500), "3/16");
        assert_eq!(typed(System::Inch, 3_000_000), "'3 mm'");
        assert_eq!(typed(System::Metric, 3_000_000), "3");
    }
}
