//! Exact volumes: whole cubic nanometres, as lengths are whole nanometres.

use super::Length;

/// A volume, held as a whole number of cubic nanometres.
///
/// # Units
/// Cubic nanometres: 1 in3, 1 ft3 and 1 l are exact.
///
/// # Example
/// ```
/// use rodreach::length::{Length, Volume, read_volume};
/// let inch = |inches: i64| Length::from_nm(inches * 25_400_000);
/// let block = Volume::block([inch(12), inch(12)], inch(12)).unwrap();
/// assert_eq!(Some(block), read_volume("1 ft3"));
/// ```
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, PartialOrd, Ord)]
pub struct Volume(u128);

/// A cubic millimetre, in cubic nanometres.
const MM3: u128 = 1_000_000_000_000_000_000;

/// The units a volume may be written in, with their cubic nanometres.
const UNITS: [(&str, u128); 4] = [
    ("ft3", 304_800_000 * 304_800_000 * 304_800_000),
    ("in3", 25_400_000 * 25_400_000 * 25_400_000),
    ("m3", 1_000_000_000 * MM3),
    ("l", 1_000_000 * MM3),
];

/// Most digits of a volume that is read.
const MOST_DIGITS: usize = 10;

impl Volume {
    /// No volume at all.
    pub const ZERO: Self = Self(0);

    /// Makes a volume of so many cubic nanometres.
    #[must_use]
    pub const fn from_nm3(nm3: u128) -> Self {
        Self(nm3)
    }

    /// Gives the volume in cubic nanometres.
    #[must_use]
    pub const fn nm3(self) -> u128 {
        self.0
    }

    /// Gives the volume of a block; none where a side is less than nothing or there is too much to hold.
    #[must_use]
    pub fn block([a, b]: [Length; 2], height: Length) -> Option<Self> {
        let [a, b, height] = [a, b, height].map(|side| u128::try_from(side.nm()).ok());
        Some(Self(a?.checked_mul(b?)?.checked_mul(height?)?))
    }

    /// Adds a volume; none where there is too much to hold.
    #[must_use]
    pub fn plus(self, other: Self) -> Option<Self> {
        self.0.checked_add(other.0).map(Self)
    }

    /// Takes a volume away; none where there is not so much.
    #[must_use]
    pub fn less(self, other: Self) -> Option<Self> {
        self.0.checked_sub(other.0).map(Self)
    }

    /// Gives the volume and so many hundredths of it more, up to the next cubic nanometre.
    #[must_use]
    pub fn with_percent(self, percent: u32) -> Option<Self> {
        Some(Self(self.0.checked_mul(100 + u128::from(percent))?.div_ceil(100)))
    }

    /// Counts how many parts of another volume cover this one, up; none where that other is nothing.
    ///
    /// # Units
    /// Parts of one: 1 counts whole ones, 1000 counts thousandths.
    #[must_use]
    pub fn over(self, one: Self, parts: u32) -> Option<u64> {
        if one == Self::ZERO {
            return None;
        }
        u64::try_from(self.0.checked_mul(u128::from(parts))?.div_ceil(one.0)).ok()
    }

    /// Gives the volume in whole cubic millimetres, up.
    #[must_use]
    pub const fn mm3(self) -> u128 {
        self.0.div_ceil(MM3)
    }
}

/// Reads a volume that names its unit: `0.45 ft3`, `12.7 l`, `778 in3`, `0.0127 m3`; none where it is anything else.
///
/// What is finer than a cubic nanometre is cut off.
#[must_use]
pub fn read_volume(text: &str) -> Option<Volume> {
    let text = text.trim().to_ascii_lowercase().replace('\u{b3}', "3");
    let (digits, unit) = UNITS.iter().find_map(|(name, nm3)| {
        let rest = text.strip_suffix(name)?;
        let ends = rest.ends_with(|c: char| c.is_ascii_digit() || c == ' ');
        ends.then_some((rest.trim_end(), *nm3))
    })?;
    let (whole, part) = digits.split_once('.').unwrap_or((digits, ""));
    let all = format!("{whole}{part}");
    let sound = !whole.is_empty() && digits.len() <= MOST_DIGITS && all.chars().all(|c| c.is_ascii_digit());
    if !sound || digits.ends_with('.') {
        return None;
    }
    let scale = 10_u128.pow(u32::try_from(part.len()).ok()?);
    Some(Volume(all.parse::<u128>().ok()?.checked_mul(unit)? / scale))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn nm3(text: &str) -> Option<u128> {
        read_volume(text).map(Volume::nm3)
    }

    #[test]
    fn volumes_are_read_exactly_in_every_unit() {
        assert_eq!(nm3("1 in3"), Some(16_387_064_000_000_000_000_000));
        assert_eq!(nm3("1728in3"), nm3("1 ft3"));
        assert_eq!(nm3("0.45 ft3"), Some(12_742_580_966_400_000_000_000_000));
        assert_eq!(nm3("12.7 L"), Some(12_700_000 * MM3));
        assert_eq!(nm3("0.0127 m\u{b3}"), nm3("12.7 l"));
    }

    #[test]
    fn what_is_no_volume_is_none() {
        for text in
            ["", "0.45", "ft3", "-1 l", "1e3 l", "1. l", ".5 l", "1 gal", "1 ft", "1.2.3 l", "12345678901 l"]
        {
            assert_eq!(nm3(text), None, "{text}");
        }
    }

    #[test]
    fn a_share_that_is_begun_counts_whole_and_nothing_runs_over() {
        let [one, three] = ["1 l", "3 l"].map(|text| read_volume(text).unwrap());
        assert_eq!(three.over(one, 1), Some(3));
        assert_eq!(three.plus(Volume::from_nm3(1)).unwrap().over(one, 1), Some(4));
        assert_eq!(one.over(three, 1000), Some(334));
        assert_eq!(one.over(Volume::ZERO, 1), None);
        let most = Volume::from_nm3(u128::MAX);
        assert_eq!((most.plus(one), most.with_percent(1), most.over(one, 2)), (None, None, None));
        assert_eq!(Volume::block([Length::from_nm(-1), Length::from_nm(1)], Length::from_nm(1)), None);
        assert_eq!(one.less(three), None);
        assert_eq!(one.with_percent(10).unwrap().mm3(), 1_100_000);
        assert_eq!(Volume::from_nm3(1).mm3(), 1);
    }
}
