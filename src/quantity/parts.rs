//! Division of whole numbers in a stated direction.

/// Divides, to the next whole number below.
pub(super) const fn down(over: i128, under: i128) -> i128 {
    over.div_euclid(under)
}

/// Divides, to the next whole number above.
pub(super) const fn up(over: i128, under: i128) -> i128 {
    -(-over).div_euclid(under)
}

/// Gives `value` times `over / under`, down, without the product of all ever being formed.
///
/// # Units
/// `over` and `under` are small: below 2^40. None where the result is beyond what is held.
pub(super) fn times(value: i128, over: i128, under: i128) -> Option<i128> {
    let (whole, rest) = (value.div_euclid(under), value.rem_euclid(under));
    whole.checked_mul(over)?.checked_add(rest.checked_mul(over)?.div_euclid(under))
}

/// Gives a number in 64 bits, at their end where it does not fit.
pub(super) fn narrow(value: i128) -> i64 {
    i64::try_from(value).unwrap_or(if value < 0 { i64::MIN } else { i64::MAX })
}
