//! The known name that a mistyped one most likely stands for.

/// Gives the known name nearest to a mistyped one, if one is near enough.
#[must_use]
pub fn nearest<'n>(typed: &str, known: impl IntoIterator<Item = &'n str>) -> Option<&'n str> {
    let typed: String = typed.chars().take(64).flat_map(char::to_lowercase).collect();
    let allowed = (typed.chars().count() / 3).clamp(1, 3);
    known
        .into_iter()
        // a longer name is further away than any slip, and would take long to compare
        .filter(|name| name.chars().nth(64 + 3).is_none())
        .map(|name| (strsim::damerau_levenshtein(&typed, &name.to_lowercase()), name))
        .filter(|(distance, _)| *distance <= allowed)
        .min_by_key(|(distance, _)| *distance)
        .map(|(_, name)| name)
}

#[cfg(test)]
mod tests {
    use super::nearest;

    #[test]
    fn a_slip_of_the_finger_finds_its_name_and_a_stranger_does_not() {
        let known = ["projection", "thread", "pattern"];
        assert_eq!(nearest("projecton", known), Some("projection"));
        assert_eq!(nearest("Tread", known), Some("thread"));
        assert_eq!(nearest("colour", known), None);
        assert_eq!(nearest("A3", ["A1", "B2", "A33"]), Some("A1"));
    }
}
