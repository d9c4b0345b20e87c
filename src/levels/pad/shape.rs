//! The shape of every pad that was read at several places: how much it falls, tilts and departs from a plane.

use super::corners::positions;
use super::plane::{At, Plane, sum};
use crate::length::Length;
use crate::levels::Levelled;
use crate::levels::rounding::up;
use crate::model::{Job, Readings, SpotKind};
use std::cmp::Reverse;

/// What is known of the surface of a pad that was read at two places at least.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PadShape {
    /// The places with their heights, in the order of reading; the pad's own reading comes last.
    pub places: Vec<PadPlace>,
    /// The highest place, an index into [`PadShape::places`]; of equals the first.
    pub high: usize,
    /// The lowest of the other places; of equals the first.
    pub low: usize,
    /// The highest place less the lowest.
    pub fall: Fall,
    /// The fall across the whole plate, where it is known where the places stand.
    ///
    /// Of the plane that fits them best, from corner to corner. Of places in one line it is the least that any
    /// plane through the two that are farthest apart falls across the plate.
    pub across: Option<Fall>,
    /// The plane that fits the places best, where it is known where they stand and they stand in no line.
    pub plane: Option<PadPlane>,
}

/// One place of a pad.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct PadPlace {
    /// Its point, an index into [`Readings::points`].
    pub point: usize,
    /// The crew's word for it; `pad` for the reading that names none, which counts as taken in the middle.
    pub word: String,
    /// Its elevation on the datum.
    pub elevation: Length,
}

/// How much a pad falls, and what that is good to at 95 %.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Fall {
    /// The fall, never negative.
    pub value: Length,
    /// What it is good to, at 95 %.
    pub plus_minus: Length,
}

/// The plane that fits a pad best.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct PadPlane {
    /// How far the east side of the plate's place stands above the west side.
    pub tilt_x: Length,
    /// How far the north side stands above the south side.
    pub tilt_y: Length,
    /// The largest departure of a place from the plane, either way; none for three places, which are on it.
    pub out_of_flat: Option<Length>,
}

impl PadShape {
    /// Gives the fall that counts: from the highest place to the lowest, or across the plate where that is more, or as much and
    /// known less well.
    #[must_use]
    pub fn counts(&self) -> Fall {
        let order = |fall: &Fall| (fall.value, fall.plus_minus);
        self.across
            .map_or(self.fall, |across| if order(&across) > order(&self.fall) { across } else { self.fall })
    }

    /// Gives the most that the pad may fall, both falls with their own +-.
    #[must_use]
    pub fn at_most(&self) -> Length {
        let most = |fall: Fall| fall.value + fall.plus_minus;
        self.across.map_or(most(self.fall), |across| most(across).max(most(self.fall)))
    }
}

/// Gives the shape of every pad, in job order; none where fewer than two places of it have a height.
#[must_use]
pub fn pad_shapes(job: &Job, levels: &Levelled) -> Vec<Option<PadShape>> {
    read_places(job).into_iter().map(|places| pad_shape(levels, places)).collect()
}

/// Lists, for every pad in job order, the places beside others that have no height, by the crew's words: read but not
/// connected, or named and still to be read.
#[must_use]
pub fn places_without_height(job: &Job, levels: &Levelled) -> Vec<Vec<String>> {
    let mut named: Vec<Vec<(Option<usize>, &str)>> = vec![Vec::new(); job.columns.len()];
    for (named, places) in named.iter_mut().zip(read_places(job)) {
        named.extend(places.into_iter().map(|(point, word)| (Some(point), word)));
    }
    for (column, what) in &job.readings.unread {
        if let (SpotKind::Place(word), Some(named)) = (what, named.get_mut(*column)) {
            named.push((None, word));
        }
    }
    let without = |places: Vec<(Option<usize>, &str)>| {
        let several = places.len() > 1;
        let has_height = |point: Option<usize>| point.and_then(|point| elevation(levels, point)).is_some();
        let missing = places.into_iter().filter(|(point, _)| several && !has_height(*point));
        missing.map(|(_, word)| word.to_owned()).collect()
    };
    named.into_iter().map(without).collect()
}

/// Gives the elevation of a place, where it is known what its differences are good to.
fn elevation(levels: &Levelled, point: usize) -> Option<Length> {
    levels.difference_plus_minus(point, point)?;
    levels.height(point).map(|height| height.elevation)
}

/// Gives the shape of one pad.
fn pad_shape(levels: &Levelled, all: Vec<(usize, &str)>) -> Option<PadShape> {
    let known = all.into_iter().filter_map(|(point, word)| {
        Some(PadPlace { point, word: word.to_owned(), elevation: elevation(levels, point)? })
    });
    let places: Vec<PadPlace> = known.collect();
    if places.len() < 2 {
        return None;
    }
    let by_height = |place: &usize| places[*place].elevation;
    let high = (0..places.len()).max_by_key(|place| (by_height(place), Reverse(*place)))?;
    // two places even where all are as high: their difference is not known better than it was read
    let low = (0..places.len()).filter(|place| *place != high).min_by_key(by_height)?;
    let fall = Fall {
        value: places[high].elevation - places[low].elevation,
        plus_minus: levels.difference_plus_minus(places[high].point, places[low].point)?,
    };
    let at = positions(places.iter().map(|place| place.word.as_str()));
    let plane = at.as_ref().and_then(|at| Plane::through(at));
    let heights: Vec<i128> =
        places.iter().map(|place| i128::from((place.elevation - places[0].elevation).nm())).collect();
    let across = match (&plane, &at) {
        (Some(plane), _) => {
            let side = |shares: &[i128]| if sum(shares, &heights) < 0 { -2 } else { 2 };
            let (x, y) = (side(&plane.east), side(&plane.north));
            let shares = plane.east.iter().zip(&plane.north).map(|(east, north)| east * x + north * y);
            Some((shares.collect::<Vec<_>>(), plane.whole))
        }
        (None, Some(at)) => in_line(at, &heights),
        (None, None) => None,
    };
    Some(PadShape {
        across: match across {
            Some((shares, whole)) => Some(Fall {
                value: upward(sum(&shares, &heights), whole),
                plus_minus: plus_minus(levels, &places, &shares, whole)?,
            }),
            None => None,
        },
        plane: plane.zip(at).map(|(plane, at)| PadPlane {
            tilt_x: nearest(2 * sum(&plane.east, &heights), plane.whole),
            tilt_y: nearest(2 * sum(&plane.north, &heights), plane.whole),
            out_of_flat: out_of_flat(&plane, &at, &heights),
        }),
        places,
        high,
        low,
        fall,
    })
}

/// Lists the places of every pad that were read, connected or not, the pad's own reading last as `pad`.
fn read_places(job: &Job) -> Vec<Vec<(usize, &str)>> {
    let read = has_reading(&job.readings);
    let mut places: Vec<Vec<(usize, &str)>> = vec![Vec::new(); job.columns.len()];
    for spot in &job.readings.spots {
        if let (SpotKind::Place(word), Some(places)) = (&spot.what, places.get_mut(spot.column)) {
            places.push((spot.point, word));
        }
    }
    for (column, places) in job.columns.iter().zip(&mut places) {
        places.extend(column.point.filter(|point| read.get(*point) == Some(&true)).map(|point| (point, PAD)));
    }
    places
}

/// What the crew may write for the pad itself; it counts as read in the middle.
const PAD: &str = "pad";

/// Tells of every point whether anything was read on it.
fn has_reading(readings: &Readings) -> Vec<bool> {
    let sights = readings.sights.iter().map(|it| it.point);
    let elevations = readings.elevations.iter().map(|it| it.point);
    let differences = readings.differences.iter().flat_map(|it| [it.from, it.to]);
    let mut read = vec![false; readings.points.len()];
    for point in sights.chain(elevations).chain(differences) {
        if let Some(read) = read.get_mut(point) {
            *read = true;
        }
    }
    read
}

/// Carries the fall between the two places of a line that are farthest apart on to the edges of the plate.
///
/// Of all planes that fall so much between them, the flattest falls across the plate by that over the larger of
/// their two distances, in plates.
fn in_line(at: &[At], heights: &[i128]) -> Option<(Vec<i128>, i128)> {
    let apart = |a: usize, b: usize| i64::abs(at[a][0] - at[b][0]).max(i64::abs(at[a][1] - at[b][1]));
    let pairs = (0..at.len()).flat_map(|b| (0..b).map(move |a| (a, b)));
    // of pairs equally far apart, the one with the largest fall
    let (a, b) = pairs.max_by_key(|&(a, b)| (apart(a, b), i128::abs(heights[a] - heights[b])))?;
    let apart = apart(a, b);
    if apart == 0 {
        return None;
    }
    let sign = if heights[a] < heights[b] { -2 } else { 2 };
    let mut shares = vec![0; at.len()];
    shares[a] = sign;
    shares[b] = -sign;
    Some((shares, i128::from(apart)))
}

/// Gives what a sum of heights is good to at 95 %, from what every difference of two of them is; the shares make 0.
fn plus_minus(levels: &Levelled, places: &[PadPlace], shares: &[i128], whole: i128) -> Option<Length> {
    let share = |place: usize| shares[place] as f64 / whole as f64;
    let mut square = 0.0;
    for b in 0..places.len() {
        for a in 0..b {
            let apart = levels.difference_plus_minus(places[a].point, places[b].point)?.nm() as f64;
            square -= share(a) * share(b) * apart * apart;
        }
    }
    Some(up(square.max(0.0).sqrt()))
}

/// Gives the largest departure from the plane.
fn out_of_flat(plane: &Plane, at: &[At], heights: &[i128]) -> Option<Length> {
    if at.len() < 4 {
        return None;
    }
    let departures = at.iter().enumerate().map(|(place, at)| sum(&plane.above(place, *at), heights));
    Some(upward(departures.map(i128::abs).max()?, plane.whole))
}

/// Divides up to the next nanometre.
fn upward(sum: i128, whole: i128) -> Length {
    length(sum.div_euclid(whole) + i128::from(sum.rem_euclid(whole) > 0))
}

/// Divides to the nearest nanometre, halves up.
fn nearest(sum: i128, whole: i128) -> Length {
    length((2 * sum + whole).div_euclid(2 * whole))
}

fn length(nm: i128) -> Length {
    let nearest = nm.clamp(i128::from(i64::MIN), i128::from(i64::MAX));
    Length::from_nm(i64::try_from(nearest).unwrap_or(i64::MAX))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::{Bare, Unit, read};
    use crate::levels::tests::sample::Notes;
    use proptest::prelude::*;

    fn inch(text: &str) -> Length {
        read(text, Bare::of(Unit::Inch)).unwrap()
    }

    /// The shape of a pad read from one setup, heights in inches; a word that is blank is the pad itself.
    fn shape(heights: &[(&str, &str)]) -> Option<PadShape> {
        let notes = Notes::of(Unit::Inch).sense(crate::model::Sense::Height).columns(&["A", "B"]);
        let notes = heights.iter().fold(notes.sight("1", "B", "0"), |notes, (word, height)| match *word {
            "" => notes.sight("1", "A", height),
            _ => notes.spot("1", "A", word, height),
        });
        let job = notes.job();
        let levels = crate::levels::reduce(&job);
        let mut shapes = pad_shapes(&job, &levels);
        assert_eq!(shapes.pop(), Some(None), "B is read at one place");
        shapes.pop().flatten()
    }

    /// By hand: half the rises from west to east are 1/8 and 1/8, from south to north -1/16 and -1/16, so the pad is a
    /// plane that rises 1/8 to the east and falls 1/16 to the north, and 3/16 from corner to corner.
    /// A reading is good to +-1/16 (95 %), so a difference of two of one setup to 1/16 times the root of 2.
    #[test]
    fn four_corners_of_a_plane_worked_by_hand() {
        let found = shape(&[("NW", "0"), ("NE", "1/8"), ("SE", "3/16"), ("SW", "1/16")]).unwrap();
        assert_eq!((found.high, found.low), (2, 0));
        let fall = Fall { value: inch("3/16"), plus_minus: Length::from_nm(2_245_065) };
        assert_eq!((found.fall, found.across), (fall, Some(fall)));
        let plane = PadPlane { tilt_x: inch("1/8"), tilt_y: inch("-1/16"), out_of_flat: Some(Length::ZERO) };
        assert_eq!(found.plane, Some(plane));
        assert_eq!((found.counts(), found.at_most()), (fall, fall.value + fall.plus_minus));
    }

    /// By hand: the mean is 1/16, both tilts are nothing, and every corner is 1/16 off.
    #[test]
    fn a_twisted_pad_falls_across_no_plane_but_is_not_flat() {
        let found = shape(&[("NW", "0"), ("NE", "1/8"), ("SE", "0"), ("SW", "1/8")]).unwrap();
        assert_eq!(found.fall.value, inch("1/8"));
        assert_eq!(found.across.map(|it| it.value), Some(Length::ZERO));
        let plane = PadPlane { tilt_x: Length::ZERO, tilt_y: Length::ZERO, out_of_flat: Some(inch("1/16")) };
        assert_eq!((found.plane, found.counts()), (Some(plane), found.fall));
    }

    /// By hand: 1/8 to the north side and 1/8 to the east side make 1/2 from the south-west to the north-east corner.
    /// North and east carry 2 each, the middle -4, so the +- is 1/16 times the root of 24, from
    /// differences that are rounded up each.
    #[test]
    fn what_falls_inside_the_pad_falls_more_across_the_plate() {
        let found = shape(&[("", "0"), ("N", "1/8"), ("E", "1/8")]).unwrap();
        assert_eq!(found.fall.value, inch("1/8"));
        let across = Fall { value: inch("1/2"), plus_minus: Length::from_nm(7_777_134) };
        assert_eq!((found.across, found.counts()), (Some(across), across));
        let plane = PadPlane { tilt_x: inch("1/4"), tilt_y: inch("1/4"), out_of_flat: None };
        assert_eq!(found.plane, Some(plane));
    }

    #[test]
    fn places_in_one_line_are_carried_on_to_the_edges_of_the_plate() {
        let across = |heights: &[(&str, &str)]| shape(heights).unwrap().across.map(|it| it.value);
        assert_eq!(across(&[("", "0"), ("N", "1/16")]), Some(inch("1/8")));
        assert_eq!(across(&[("S", "0"), ("N", "1/16")]), Some(inch("1/16")));
        assert_eq!(across(&[("", "1/4"), ("S", "0"), ("N", "1/16")]), Some(inch("1/16")));
        assert_eq!(across(&[("NW", "1/16"), ("N", "0")]), Some(inch("1/8")));
        assert_eq!(across(&[("W", "0"), ("NE", "1/16")]), Some(inch("1/16")));
        assert_eq!(across(&[("centre", "0"), ("", "1/16")]), None, "both in the middle");
        assert_eq!(shape(&[("", "0"), ("N", "1/16")]).unwrap().plane, None);
    }

    #[test]
    fn a_word_that_is_not_known_leaves_only_high_and_low() {
        let found = shape(&[("NW", "0"), ("NE", "1/8"), ("SE", "1/4"), ("by the drain", "1/16")]).unwrap();
        assert_eq!((found.fall.value, found.across, found.plane), (inch("1/4"), None, None));
        assert_eq!((found.high, found.low), (2, 0));
    }

    #[test]
    fn a_level_pad_is_no_better_known_than_it_was_read() {
        let found = shape(&[("NW", "0"), ("by the drain", "0")]).unwrap();
        assert_eq!((found.high, found.low), (0, 1));
        assert_eq!(found.fall, Fall { value: Length::ZERO, plus_minus: Length::from_nm(2_245_065) });
    }

    #[test]
    fn a_pad_read_at_one_place_has_no_shape() {
        assert_eq!(shape(&[("", "0")]), None);
        assert_eq!(shape(&[("NW", "0")]), None);
        assert_eq!(shape(&[("", "0"), ("rod 1", "2")]), None, "the top of a rod is no place of the pad");
    }

    #[test]
    fn a_place_that_is_named_and_not_read_is_missing_beside_others() {
        let mut job = Notes::of(Unit::Inch).columns(&["A", "B"]).sight("1", "A", "0").job();
        job.readings.unread =
            vec![(0, SpotKind::Place("NW".to_owned())), (1, SpotKind::Place("NW".to_owned()))];
        let levels = crate::levels::reduce(&job);
        assert_eq!(places_without_height(&job, &levels), [vec!["NW".to_owned()], Vec::new()]);
    }

    #[test]
    fn a_place_that_is_not_connected_has_no_part_but_was_read() {
        let notes = Notes::of(Unit::Inch).columns(&["A"]).spot("1", "A", "NW", "0").spot("1", "A", "NE", "0");
        let job = notes.sight("1", "A", "0").spot("2", "A", "SE", "3").job();
        let levels = crate::levels::reduce(&job);
        let found = pad_shapes(&job, &levels).remove(0).unwrap();
        assert_eq!(found.places.iter().map(|it| it.word.as_str()).collect::<Vec<_>>(), ["NW", "NE", "pad"]);
        assert_eq!(places_without_height(&job, &levels), [["SE"]]);
    }

    proptest! {
        #[test]
        fn tilting_all_places_by_a_plane_leaves_it_as_flat_as_it_was(
            heights in [0_i64..9_999, 0_i64..9_999, 0_i64..9_999, 0_i64..9_999, 0_i64..9_999],
            east in -999_i64..999,
            north in -999_i64..999,
        ) {
            let words = ["NW", "NE", "SE", "SW", "N"];
            let at = positions(words.into_iter()).unwrap();
            let flat = |tilted: i64| {
                let each = words.iter().zip(&at).zip(heights);
                let each: Vec<(&str, String)> = each
                    .map(|((word, at), height)| {
                        let height = height + tilted * (at[0] * east + at[1] * north);
                        (*word, format!("{height} mm"))
                    })
                    .collect();
                let each: Vec<(&str, &str)> = each.iter().map(|(word, text)| (*word, text.as_str())).collect();
                shape(&each).unwrap().plane.unwrap()
            };
            let (before, after) = (flat(0), flat(1));
            prop_assert_eq!(before.out_of_flat, after.out_of_flat);
            prop_assert_eq!(after.tilt_x - before.tilt_x, Length::from_nm(2_000_000 * east));
            prop_assert_eq!(after.tilt_y - before.tilt_y, Length::from_nm(2_000_000 * north));
        }
    }
}
