//! From the model to paper, at a scale that a person can measure with.

use crate::length::{Length, Unit};
use crate::text::{Style, System};

/// A scale: so much paper for so much of the model.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Scale {
    paper: i64,
    model: i64,
}

/// Scales of parts, paper to model.
const PARTS: [(i64, i64); 15] = [
    (4, 1),
    (3, 1),
    (2, 1),
    (3, 2),
    (1, 1),
    (2, 3),
    (1, 2),
    (2, 5),
    (1, 3),
    (1, 4),
    (1, 5),
    (1, 8),
    (1, 10),
    (1, 20),
    (1, 50),
];

/// Scales of buildings in metres: these, and ten times, a hundred times them.
const METRIC: [i64; 6] = [50, 75, 100, 150, 200, 250];
/// Scales of buildings in feet: an inch is so many.
const FEET: [i64; 14] = [4, 5, 6, 8, 10, 12, 15, 16, 20, 25, 30, 40, 50, 60];

impl Scale {
    /// Makes a scale of so much paper for so much of the model; both are at least 1.
    #[must_use]
    pub fn new(paper: i64, model: i64) -> Self {
        Self { paper: paper.max(1), model: model.max(1) }
    }

    /// Gives the largest scale of parts at which a length fits on so much paper.
    #[must_use]
    pub fn of_parts(model: Length, paper: i64) -> Self {
        let fits = |&(over, under): &(i64, i64)| Self::new(over, under).paper(model) <= paper;
        let found = PARTS.iter().find(|it| fits(it)).copied();
        let (over, under) = found.unwrap_or_else(|| (1, whole_up(model.nm(), paper.max(1))));
        Self::new(over, under)
    }

    /// Gives the largest scale of buildings at which a length fits on so much paper.
    #[must_use]
    pub fn of_buildings(model: Length, paper: i64, style: Style) -> Self {
        let one_to = |model: i64| Self::new(1, model);
        let all = (0..5_u32).flat_map(|tens| {
            let tens = 10_i64.pow(tens);
            let metric = style.system() == System::Metric;
            let feet = FEET.iter().map(move |it| it * 12 * tens);
            let metres = METRIC.iter().map(move |it| it * tens);
            if metric { metres.collect::<Vec<_>>() } else { feet.collect() }
        });
        let mut all: Vec<i64> = all.collect();
        all.sort_unstable();
        let fits = all.into_iter().find(|it| one_to(*it).paper(model) <= paper);
        one_to(fits.unwrap_or_else(|| whole_up(model.nm(), paper.max(1))))
    }

    /// Gives what a length of the model is on paper, to the nearest nanometre.
    #[must_use]
    pub fn paper(self, model: Length) -> i64 {
        let (paper, under) = (i128::from(self.paper), i128::from(self.model));
        let twice = i128::from(model.nm()) * paper * 2 + under;
        i64::try_from(twice.div_euclid(under * 2)).unwrap_or(i64::MAX / 4)
    }

    /// Says the scale: `1:100`, `2:1`, and how many feet an inch of paper is.
    #[must_use]
    pub fn words(self) -> String {
        match (self.paper, self.model) {
            (paper, 1) => format!("{paper}:1"),
            (1, model) => format!("1:{model}"),
            (paper, model) if model > paper => {
                let tenths = (model * 20 / paper + 1) / 2;
                let about = if model * 10 % paper == 0 { "" } else { "about " };
                format!("{about}1:{}.{}", tenths / 10, tenths % 10)
            }
            (paper, model) => format!("{}.{}:1", paper / model, paper * 10 / model % 10),
        }
    }

    /// Says how many feet an inch of paper is, where that is a whole number in an inch job.
    #[must_use]
    pub fn inch_words(self, style: Style) -> Option<String> {
        let whole = style.system() == System::Inch && self.paper == 1 && self.model % 12 == 0;
        whole.then(|| format!("1\" = {}'", self.model / 12))
    }

    /// Gives a round length for a scale bar, at most so long on paper.
    #[must_use]
    pub fn bar(self, paper: i64, style: Style) -> Length {
        let steps: &[i64] = match style.system() {
            System::Metric => &[1, 2, 5],
            System::Inch => &[1, 2, 5],
        };
        let units: &[i64] = match style.system() {
            System::Metric => &[Unit::Millimetre.nm()],
            // below a foot an inch and its parts
            System::Inch => &[Unit::Inch.nm() / 8, Unit::Inch.nm() / 2, Unit::Inch.nm(), Unit::Foot.nm()],
        };
        let mut best = Length::from_nm(units[0]);
        for unit in units {
            let most = if *unit < Unit::Foot.nm() && style.system() == System::Inch { 1 } else { 9 };
            for tens in 0..most {
                for step in steps {
                    let length = Length::from_nm(unit.saturating_mul(10_i64.saturating_pow(tens) * step));
                    if self.paper(length) <= paper && length > best {
                        best = length;
                    }
                }
            }
        }
        best
    }

    /// Gives how many times larger this draws than another: whole, to the nearest.
    #[must_use]
    pub fn times(self, other: Self) -> i64 {
        let over = i128::from(self.paper) * i128::from(other.model);
        let under = i128::from(self.model) * i128::from(other.paper);
        i64::try_from((over * 2 + under) / (under * 2)).unwrap_or(i64::MAX)
    }
}

const fn whole_up(over: i64, under: i64) -> i64 {
    over / under + 1
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::draw::shape::MM;

    #[test]
    fn a_scale_is_the_largest_that_fits_and_is_exact_where_it_can_be() {
        let metric = Style::new(System::Metric, 16);
        let scale = Scale::of_buildings(Length::from_nm(18_000 * MM), 134 * MM, metric);
        assert_eq!(scale.words(), "1:150");
        assert_eq!(scale.paper(Length::from_nm(18_000 * MM)), 120 * MM);
        let inch = Style::new(System::Inch, 16);
        let feet = Scale::of_buildings(Length::from_nm(Unit::Foot.nm() * 60), 134 * MM, inch);
        assert_eq!(feet.inch_words(inch).as_deref(), Some("1\" = 12'"));
        assert_eq!(feet.paper(Length::from_nm(Unit::Foot.nm() * 60)), 127 * MM);
        let part = Scale::of_parts(Length::from_nm(63_500_000), 40 * MM);
        assert_eq!(part.words(), "1:2");
        assert_eq!(Scale::new(2, 3).words(), "1:1.5");
    }

    #[test]
    fn a_scale_bar_is_round_and_fits() {
        let inch = Style::new(System::Inch, 16);
        let scale = Scale::new(1, 144);
        let bar = scale.bar(40 * MM, inch);
        assert_eq!(bar, Length::from_nm(Unit::Foot.nm() * 10));
        assert!(scale.paper(bar) <= 40 * MM);
        let metric = Style::new(System::Metric, 16);
        assert_eq!(Scale::new(1, 2).bar(20 * MM, metric), Length::from_nm(20 * MM));
    }
}
