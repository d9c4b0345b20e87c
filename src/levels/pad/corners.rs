//! Where the spots of a pad stand, and what of them makes its centre.

use super::plane::{At, Plane};
use crate::model::{Job, SpotKind};

/// Gives the height of a pad's centre as shares of the heights of its spots; none where no spot was read.
///
/// Where three spots or more stand at known places that are not in one line, it is the middle of the plane that
/// fits them best; otherwise the plain mean of them all. The shares add up to 1. Rod tops are no spots of the
/// pad. How large the plate is does not matter: places are counted in half plates.
pub(in crate::levels) fn centre(job: &Job, column: usize) -> Vec<(usize, f64)> {
    let spots = places(job, column);
    let plane = positions(spots.iter().map(|(_, word)| *word)).and_then(|at| Plane::through(&at));
    let shares: Vec<f64> = match plane {
        Some(plane) => plane.middle.iter().map(|share| *share as f64 / plane.whole as f64).collect(),
        None => vec![1.0 / spots.len() as f64; spots.len()],
    };
    spots.into_iter().map(|(point, _)| point).zip(shares).collect()
}

/// Lists the places of a pad beside the pad itself, each with its point and the crew's word, in the order of reading.
fn places(job: &Job, column: usize) -> Vec<(usize, &str)> {
    let spots = job.readings.spots.iter().filter(|spot| spot.column == column);
    let places = spots.filter_map(|spot| match &spot.what {
        SpotKind::Place(word) => Some((spot.point, word.as_str())),
        SpotKind::Rod(_) => None,
    });
    places.collect()
}

/// Gives where all of these places stand; none where one of the words is not known.
pub(in crate::levels) fn positions<'w>(words: impl Iterator<Item = &'w str>) -> Option<Vec<At>> {
    words.map(position).collect()
}

/// Gives where a place stands on the plate, by the crew's word for it.
///
/// # Example
/// `NW`, `north-west corner`, `N`, `north side`, `centre`.
fn position(word: &str) -> Option<At> {
    let word = word.to_lowercase().replace(['-', '.', '_'], " ");
    let mut tokens: Vec<&str> = word.split_whitespace().collect();
    let kind = tokens.pop_if(|last| matches!(*last, "corner" | "side" | "edge"));
    let at = match tokens.concat().as_str() {
        // a reading that names no place counts as taken in the middle
        "pad" | "centre" | "center" | "mid" | "middle" => [0, 0],
        "n" | "north" => [0, 1],
        "s" | "south" => [0, -1],
        "e" | "east" => [1, 0],
        "w" | "west" => [-1, 0],
        "nw" | "northwest" => [-1, 1],
        "ne" | "northeast" => [1, 1],
        "se" | "southeast" => [1, -1],
        "sw" | "southwest" => [-1, -1],
        _ => return None,
    };
    let sides = i64::abs(at[0]) + i64::abs(at[1]);
    // a north corner is that of a plate which stands askew, and a north-west side is none at all
    let fits = match kind {
        None => true,
        Some("corner") => sides == 2,
        Some(_) => sides == 1,
    };
    fits.then_some(at)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::length::Unit;
    use crate::levels::tests::sample::Notes;

    #[test]
    fn words_of_the_crew_are_places() {
        for (word, at) in [
            ("NW", [-1, 1]),
            ("nw corner", [-1, 1]),
            ("north-west corner", [-1, 1]),
            ("North West", [-1, 1]),
            ("N.E.", [1, 1]),
            ("southeast", [1, -1]),
            ("SW", [-1, -1]),
            ("n", [0, 1]),
            ("south side", [0, -1]),
            ("East edge", [1, 0]),
            ("west", [-1, 0]),
            ("centre", [0, 0]),
            ("Center", [0, 0]),
            ("mid", [0, 0]),
        ] {
            assert_eq!(position(word), Some(at), "{word}");
        }
    }

    #[test]
    fn other_words_are_no_places() {
        for word in ["", "corner", "by the drain", "north corner", "NW side", "centre side", "N2", "NWE", "2"]
        {
            assert_eq!(position(word), None, "{word}");
        }
    }

    /// The centre of a pad whose spots were read at these places, by the names of the spots.
    fn shares(words: &[&str]) -> Vec<f64> {
        let notes = Notes::of(Unit::Inch).columns(&["A"]);
        let notes = words.iter().fold(notes, |notes, word| notes.spot("1", "A", word, "0"));
        centre(&notes.job(), 0).into_iter().map(|(_, share)| share).collect()
    }

    #[test]
    fn the_centre_is_the_middle_of_the_plane_or_the_plain_mean() {
        assert_eq!(shares(&["NW", "NE", "SE", "SW"]), [0.25; 4]);
        assert_eq!(shares(&["NW", "NE", "SE"]), [0.5, 0.0, 0.5]);
        assert_eq!(shares(&["N", "E", "SW", "centre"]).iter().sum::<f64>(), 1.0);
        assert_eq!(shares(&["NW", "SE"]), [0.5; 2]);
        assert_eq!(
            shares(&["NW", "NE", "SE", "by the drain"]),
            [0.25; 4],
            "no places where a word is not known"
        );
        assert_eq!(shares(&["NW", "centre", "SE", "SE corner"]), [0.25; 4], "all in one line");
        assert!(shares(&[]).is_empty());
    }

    #[test]
    fn the_top_of_a_rod_is_no_place_of_the_pad() {
        let notes =
            Notes::of(Unit::Inch).columns(&["A"]).spot("1", "A", "rod 2", "0").spot("1", "A", "NW", "0");
        assert_eq!(centre(&notes.job(), 0), [(1, 1.0)]);
    }
}
