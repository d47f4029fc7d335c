//! Numbers in messages: short enough for people, never so short that they contradict the sentence.

/// A number to four significant digits, whole ones in full, without zeros at its end.
///
/// A number that is not whole but would look so gets up to six digits: an angle a little beyond a
/// limit of 150 must not read as 150.
pub(crate) fn rounded(value: f64) -> String {
    const SMALLEST: f64 = 1e-6;
    const LARGEST: f64 = 1e9;
    let size = value.abs();
    if size == 0.0 || !size.is_finite() {
        return (value + 0.0).to_string();
    }
    if !(SMALLEST..LARGEST).contains(&size) {
        let text = format!("{value:.3e}");
        let (digits, exponent) = text.split_once('e').unwrap_or((&text, "0"));
        return format!("{}e{exponent}", without_zeros(digits));
    }
    let leading = size.log10().floor();
    let digits = |count: f64| {
        let places = (count - 1.0 - leading).max(0.0) as usize;
        without_zeros(&format!("{value:.places$}"))
    };
    let short = digits(4.0);
    if short.contains('.') {
        short
    } else {
        digits(6.0)
    }
}

fn without_zeros(digits: &str) -> String {
    if digits.contains('.') {
        digits
            .trim_end_matches('0')
            .trim_end_matches('.')
            .to_owned()
    } else {
        digits.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn numbers_are_short() {
        for (value, text) in [
            (0.0, "0"),
            (-0.0, "0"),
            (2.5, "2.5"),
            (2.6458333333333335, "2.646"),
            (-12.345678, "-12.35"),
            (123456.7, "123457"),
            (0.000123456, "0.0001235"),
            (100.0, "100"),
            (150.00384153958856, "150.004"),
            (60.00000000000001, "60"),
            (-1e-7, "-1e-7"),
            (1.23456e12, "1.235e12"),
            (f64::INFINITY, "inf"),
        ] {
            assert_eq!(rounded(value), text);
        }
        assert_eq!(rounded(f64::NAN), "NaN");
    }
}
