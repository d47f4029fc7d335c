//! Numbers without a unit as they are typed, and what to give instead of anything else.

/// A whole number, 0 or more.
pub(crate) fn whole(text: &str) -> Result<usize, String> {
    let number = text.trim().parse();
    number.map_err(|_| format!("\"{text}\" is not a whole number; give for example 2"))
}

/// A whole number, 1 or more.
pub(crate) fn counting(text: &str) -> Result<usize, String> {
    match whole(text)? {
        0 => Err("give 1 or more".to_owned()),
        number => Ok(number),
    }
}

/// A number; `what` names it in the message.
pub(crate) fn finite(text: &str, what: &str) -> Result<f64, String> {
    let text = text.trim();
    match text.parse::<f64>() {
        Ok(value) if value.is_finite() => Ok(value),
        _ => Err(format!("\"{text}\" is not {what}")),
    }
}

/// A number of any size.
pub(crate) fn number(text: &str) -> Result<f64, String> {
    finite(text, "a number; give for example 12.5")
}

/// A number, 0 or more.
pub(crate) fn from_0(text: &str) -> Result<f64, String> {
    match number(text)? {
        below if below < 0.0 => Err("give 0 or more".to_owned()),
        number => Ok(number),
    }
}

/// A share in percent, 0 or more, with or without its sign.
pub(crate) fn percent(text: &str) -> Result<f64, String> {
    let text = text.trim();
    from_0(text.strip_suffix('%').unwrap_or(text))
}

/// An angle in degrees.
pub(crate) fn degrees(text: &str) -> Result<f64, String> {
    finite(bare_degrees(text), "an angle; give for example 22.5")
}

/// The number of an angle, without the name or the sign of degrees that may follow.
pub(crate) fn bare_degrees(text: &str) -> &str {
    let text = text.trim();
    let names = ["degrees", "degree", "deg", "°"];
    let bare = names.iter().find_map(|name| text.strip_suffix(name));
    bare.unwrap_or(text)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn anything_but_a_number_is_refused_with_an_example() {
        assert_eq!(whole(" 12 "), Ok(12));
        for text in ["", "1.5", "-1", "two", "99999999999999999999"] {
            let error = whole(text).expect_err(text);
            assert_eq!(
                error,
                format!("\"{text}\" is not a whole number; give for example 2")
            );
        }
        assert_eq!(counting("1"), Ok(1));
        assert_eq!(counting("0"), Err("give 1 or more".to_owned()));
        assert_eq!(number("-2.5"), Ok(-2.5));
        assert_eq!(from_0("0"), Ok(0.0));
        assert_eq!(from_0("-0.5"), Err("give 0 or more".to_owned()));
        for text in ["", "ten", "NaN", "inf"] {
            let error = from_0(text).expect_err(text);
            assert_eq!(
                error,
                format!("\"{text}\" is not a number; give for example 12.5")
            );
        }
    }

    #[test]
    fn signs_and_names_of_percent_and_degrees_may_follow() {
        assert_eq!(percent("10"), Ok(10.0));
        assert_eq!(percent(" 12.5 % "), Ok(12.5));
        assert_eq!(percent("-1%"), Err("give 0 or more".to_owned()));
        for text in ["90", "90°", "90 degrees", " 90deg", "90 degree "] {
            assert_eq!(degrees(text), Ok(90.0), "{text}");
        }
        assert_eq!(degrees("-22.5"), Ok(-22.5));
        for text in ["", "deg", "90 rad", "NaN"] {
            let error = degrees(text).expect_err(text);
            assert!(error.contains("is not an angle"), "{text}: {error}");
        }
    }
}
