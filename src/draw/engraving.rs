//! Where the mark of a plate is engraved: in the widest strip that is free of holes, as large as it fits.

use crate::length::Length;
use crate::model::PlateOutline;

/// From a letter to the next edge or hole at least: 5 mm (house rule).
const CLEAR: i64 = 5_000_000;
/// Highest capitals: 12 mm (house rule).
const MOST: i64 = 12_000_000;
/// Lowest capitals: 3 mm, below which no mark is read from a rusty plate (house rule).
const LEAST: i64 = 3_000_000;
/// Heights of capitals are whole tenths of a millimetre.
const STEP: i64 = 100_000;
/// Width of a character in hundredths of the height of a capital: no letter of the usual faces is wider.
const WIDTH: i64 = 140;
/// The same as letters mostly come out.
const USUAL: i64 = 80;
/// How far letters reach below their line, in the same hundredths.
const BELOW: i64 = 35;
/// The whole height of a line, accents and what reaches below it included, in the same hundredths.
const LINE: i64 = 150;

/// A mark on a plate.
///
/// # Units
/// Exact nanometres from the corner at the lower left, x to the right, y up.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Engraving {
    /// What is engraved.
    pub text: String,
    /// Where its line begins, at the foot of the first letter.
    pub at: [Length; 2],
    /// The height of a capital.
    pub height: Length,
    /// Whether it runs up the plate, a quarter turn counterclockwise.
    pub turned: bool,
}

/// A strip of a plate without holes: from where to where, along x and along y.
type Strip = [[i64; 2]; 2];

/// Finds the place of a mark; none where it does not fit with letters that can be read.
#[must_use]
pub fn engraving(outline: &PlateOutline, text: &str) -> Option<Engraving> {
    let mut best: Option<Engraving> = None;
    for strip in strips(outline) {
        for turned in [false, true] {
            let Some(found) = fitted(strip, text, turned) else { continue };
            if best.as_ref().is_none_or(|best| found.height > best.height) {
                best = Some(found);
            }
        }
    }
    best
}

/// Gives the room a mark may take at most, whatever face it is set in: from where to where, along x and along y.
#[must_use]
pub fn room_of_text(mark: &Engraving) -> [[Length; 2]; 2] {
    let height = mark.height.nm();
    let below = Length::from_nm(height * BELOW / 100);
    let above = Length::from_nm(height * (LINE - BELOW) / 100);
    let [x, y] = mark.at;
    let along = Length::from_nm(width(&mark.text, height));
    if mark.turned {
        [[x - above, x + below], [y, y + along]]
    } else {
        [[x, x + along], [y - below, y + above]]
    }
}

/// Lists the strips across the whole plate that no hole reaches into, the widest first.
fn strips(outline: &PlateOutline) -> Vec<Strip> {
    let whole = outline.size.map(|side| [0, side.nm()]);
    let mut strips: Vec<Strip> = Vec::new();
    for side in [1, 0] {
        let mut taken: Vec<[i64; 2]> = outline
            .holes
            .iter()
            .map(|hole| {
                let (centre, reach) = (hole.centre[side].nm(), (hole.diameter.nm() + 1) / 2);
                [centre - reach, centre + reach]
            })
            .collect();
        taken.sort_unstable();
        let mut from = 0;
        for [low, high] in taken.into_iter().chain([[whole[side][1]; 2]]) {
            if low > from {
                let mut strip = whole;
                strip[side] = [from, low];
                strips.push(strip);
            }
            from = from.max(high);
        }
    }
    // of equal ones the first stays first
    strips.sort_by_key(|strip| std::cmp::Reverse(strip.iter().map(|[from, to]| to - from).min()));
    strips
}

fn fitted(strip: Strip, text: &str, turned: bool) -> Option<Engraving> {
    let room = strip.map(|[from, to]| to - from - 2 * CLEAR);
    let (along, across) = if turned { (room[1], room[0]) } else { (room[0], room[1]) };
    let each = WIDTH.saturating_mul(i64::try_from(text.chars().count()).ok()?.max(1));
    let scaled =
        |room: i64, hundredths: i64| i64::try_from(i128::from(room) * 100 / i128::from(hundredths)).ok();
    let height = scaled(along, each)?.min(scaled(across, LINE)?).min(MOST) / STEP * STEP;
    if height < LEAST {
        return None;
    }
    // letters mostly come out narrower: in the middle as they mostly do, and never out of the strip
    let start = |[from, to]: [i64; 2]| {
        let usual = i64::midpoint(from, to) - width(text, height) / WIDTH * USUAL / 2;
        usual.min(to - CLEAR - width(text, height))
    };
    let middle = |[from, to]: [i64; 2]| i64::midpoint(from, to);
    let foot = height * (LINE / 2 - BELOW) / 100;
    let [x, y] = strip;
    let at = if turned { [middle(x) + foot, start(y)] } else { [start(x), middle(y) - foot] };
    Some(Engraving {
        text: text.to_owned(),
        at: at.map(Length::from_nm),
        height: Length::from_nm(height),
        turned,
    })
}

fn width(text: &str, height: i64) -> i64 {
    i64::try_from(text.chars().count()).unwrap_or(i64::MAX).saturating_mul(height * WIDTH / 100)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn mm(mm: i64) -> Length {
        Length::from_nm(mm * 1_000_000)
    }

    fn plate(size: [i64; 2], pattern: [i64; 2], hole: i64) -> PlateOutline {
        PlateOutline::new(Some(size.map(mm)), 4, Some(mm(hole)), Some(pattern.map(mm))).unwrap()
    }

    /// By hand: 7 letters of 12 mm take 7 x 9.6 = 67.2 mm as a rule, the strip between the rows of holes is 300 wide and runs from
    /// 85 to 315: 33.6 before its middle, 12 x 0.4 below it.
    #[test]
    fn a_mark_stands_in_the_middle_of_the_widest_strip() {
        let mark = engraving(&plate([300, 400], [160, 260], 30), "P1 5 mm").unwrap();
        assert_eq!((mark.height, mark.turned), (mm(12), false));
        assert_eq!(mark.at, [116_400_000, 195_200_000].map(Length::from_nm));
    }

    #[test]
    fn a_long_mark_is_smaller_and_runs_up_a_tall_plate() {
        let tall = plate([120, 900], [60, 800], 20);
        let mark = engraving(&tall, &"B1 ".repeat(20)).unwrap();
        assert!(mark.turned && mark.height < mm(12), "{mark:?}");
    }

    #[test]
    fn where_no_readable_letter_fits_there_is_no_mark() {
        let small = plate([60, 60], [40, 40], 14);
        assert_eq!(engraving(&small, "B1 B2 B3 1-1/8\""), None, "15 letters on 50 mm are 2.3 mm high");
        assert_eq!(engraving(&small, "B1 1/8\"").unwrap().height, Length::from_nm(5_100_000));
    }
}
