//! Numbers without a unit as they are typed, and what to write instead of what is none.

/// A whole number, 0 or more.
pub(crate) fn whole(text: &str) -> Result<usize, String> {
    let number = text.trim().parse();
    number.map_err(|_| format!("\"{text}\" is no whole number; write for example 2"))
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
        _ => Err(format!("\"{text}\" is no {what}")),
    }
}

/// A number of any size.
pub(crate) fn number(text: &str) -> Result<f64, String> {
    finite(text, "number; write for example 12.5")
}

/// A number, 0 or more.
pub(crate) fn from_0(text: &str) -> Result<f64, String> {
    match number(text)? {
        below if below < 0.0 => Err("give 0 or more".to_owned()),
        number => Ok(number),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_no_number_is_refused_with_an_example() {
        assert_eq!(whole(" 12 "), Ok(12));
        for text in ["", "1.5", "-1", "two", "99999999999999999999"] {
            let error = whole(text).expect_err(text);
            assert_eq!(
                error,
                format!("\"{text}\" is no whole number; write for example 2")
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
                format!("\"{text}\" is no number; write for example 12.5")
            );
        }
    }
}
