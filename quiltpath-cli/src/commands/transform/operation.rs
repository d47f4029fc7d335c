//! The operations of `transform`, from text such as `rotate 90` or `fit 4 in x 3 in`.

use quiltpath_core::transform::{Mirror, Proportions};
use quiltpath_core::units::Length;

use crate::args::{bare_degrees, finite, list};

/// One operation; lengths as typed, angles in degrees, positive clockwise.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Operation {
    /// A turn about a point, or about the middle of the drawing.
    Rotate {
        degrees: f64,
        about: Option<[Length; 2]>,
    },
    /// A mirror over the middle of the drawing.
    Mirror(Mirror),
    /// A mirror over the line through two points.
    MirrorLine([Length; 4]),
    /// Factors; the top left corner stays.
    Scale([f64; 2]),
    /// A new size; the top left corner stays.
    Fit {
        width: Option<Length>,
        height: Option<Length>,
        proportions: Proportions,
    },
    /// To the right and down.
    Move([Length; 2]),
    /// The start, the end or the elbow comes to a point.
    Carry(Handle, [Length; 2]),
    /// The same line from its end to its start.
    Reverse,
}

/// What of a drawing is brought to a point.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Handle {
    Start,
    End,
    /// The corner of the box where the two legs of an L meet.
    Elbow,
}

/// The first word of each operation, and how it is written.
const FORMS: [(&str, &str); 10] = [
    ("rotate", "rotate DEGREES, rotate DEGREES about X, Y"),
    (
        "mirror",
        "mirror left-right, mirror top-bottom, mirror line X1, Y1, X2, Y2",
    ),
    ("scale", "scale FACTOR, scale X_FACTOR Y_FACTOR"),
    (
        "fit",
        "fit WIDTH x HEIGHT, fit width WIDTH, fit height HEIGHT",
    ),
    ("stretch", "stretch WIDTH x HEIGHT"),
    ("move", "move RIGHT, DOWN"),
    ("start", "start at X, Y"),
    ("end", "end at X, Y"),
    ("elbow", "elbow at X, Y"),
    ("reverse", "reverse"),
];

/// Reads operations, one a text.
///
/// The error names the number of the operation at fault and what would be accepted.
pub(crate) fn parse_all(texts: &[String]) -> Result<Vec<Operation>, String> {
    let numbered = texts.iter().zip(1..);
    let read = numbered.map(|(text, number)| {
        parse(text).map_err(|error| format!("--op {number} \"{text}\": {error}"))
    });
    read.collect()
}

fn parse(text: &str) -> Result<Operation, String> {
    let (word, rest) = first_word(text);
    let Some((_, form)) = FORMS.iter().find(|(known, _)| *known == word) else {
        return Err(unknown(&word));
    };
    arguments(&word, rest).map_err(|reason| format!("{reason}; write {form}"))
}

fn arguments(word: &str, rest: &str) -> Result<Operation, String> {
    match word {
        "rotate" => {
            let (angle, about) = match rest.split_once("about") {
                Some((angle, about)) => (angle, Some(list(about, &[','])?)),
                None => (rest, None),
            };
            Ok(Operation::Rotate {
                degrees: finite(bare_degrees(angle), "an angle")?,
                about,
            })
        }
        "mirror" => match first_word(rest) {
            (way, "") if way == "left-right" => Ok(Operation::Mirror(Mirror::LeftRight)),
            (way, "") if way == "top-bottom" => Ok(Operation::Mirror(Mirror::TopBottom)),
            (way, points) if way == "line" => Ok(Operation::MirrorLine(list(points, &[','])?)),
            (way, _) => Err(nearest(&way, &["left-right", "top-bottom", "line"])),
        },
        "scale" => {
            let factors: Vec<&str> = rest.split([' ', ',']).filter(|f| !f.is_empty()).collect();
            match factors.as_slice() {
                [both] => finite(both, "a factor").map(|f| Operation::Scale([f, f])),
                [x, y] => Ok(Operation::Scale([
                    finite(x, "a factor")?,
                    finite(y, "a factor")?,
                ])),
                [] => Err("no factor given, but 1 or 2 are needed".to_owned()),
                more => Err(format!(
                    "{} factors given, but 1 or 2 are needed",
                    more.len()
                )),
            }
        }
        "fit" => match first_word(rest) {
            (side, length) if side == "width" => fit(Some(length), None),
            (side, length) if side == "height" => fit(None, Some(length)),
            (word, _) if word.starts_with(char::is_alphabetic) => {
                Err(nearest(&word, &["width", "height"]))
            }
            _ => sized(rest, Proportions::Keep),
        },
        "stretch" => sized(rest, Proportions::Free),
        "move" => Ok(Operation::Move(list(rest, &[','])?)),
        "start" => carry(Handle::Start, rest),
        "end" => carry(Handle::End, rest),
        "elbow" => carry(Handle::Elbow, rest),
        _ if rest.is_empty() => Ok(Operation::Reverse),
        _ => Err(format!("\"{rest}\" does not belong here")),
    }
}

fn carry(handle: Handle, rest: &str) -> Result<Operation, String> {
    match first_word(rest) {
        (at, point) if at == "at" => Ok(Operation::Carry(handle, list(point, &[','])?)),
        (other, _) => Err(nearest(&other, &["at"])),
    }
}

fn fit(width: Option<&str>, height: Option<&str>) -> Result<Operation, String> {
    let length = |text: &str| text.parse::<Length>().map_err(|error| error.to_string());
    Ok(Operation::Fit {
        width: width.map(length).transpose()?,
        height: height.map(length).transpose()?,
        proportions: Proportions::Keep,
    })
}

fn sized(text: &str, proportions: Proportions) -> Result<Operation, String> {
    let [width, height] = list(text, &['x', 'X', '×'])?;
    Ok(Operation::Fit {
        width: Some(width),
        height: Some(height),
        proportions,
    })
}

/// The first word in lower case, and the rest.
fn first_word(text: &str) -> (String, &str) {
    let text = text.trim();
    let (word, rest) = text.split_once(char::is_whitespace).unwrap_or((text, ""));
    (word.to_ascii_lowercase(), rest.trim())
}

fn unknown(word: &str) -> String {
    let known = FORMS.map(|(known, _)| known);
    let near = nearest(word, &known);
    match FORMS
        .iter()
        .find(|(known, _)| near.ends_with(&format!("\"{known}\"?")))
    {
        Some((_, form)) => format!("{near}; write {form}"),
        None => format!("{near}; write one of {}", known.join(", ")),
    }
}

/// That this word is not known, with the nearest one that is.
fn nearest(word: &str, known: &[&str]) -> String {
    let near = known
        .iter()
        .map(|known| (strsim::damerau_levenshtein(word, known), known))
        .min()
        .filter(|(distance, known)| *distance <= 1.max(known.len() / 3));
    match near {
        _ if word.is_empty() => "a word is missing".to_owned(),
        Some((_, known)) => format!("\"{word}\" is unknown; did you mean \"{known}\"?"),
        None => format!("\"{word}\" is unknown"),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use quiltpath_core::units::Unit;

    fn read(text: &str) -> Operation {
        parse(text).unwrap_or_else(|error| panic!("{text}: {error}"))
    }

    fn inches<const N: usize>(values: [f64; N]) -> [Length; N] {
        values.map(|value| Length::with(value, Unit::In))
    }

    #[test]
    fn every_form_is_read() {
        let plain = |degrees| Operation::Rotate {
            degrees,
            about: None,
        };
        assert_eq!(read("rotate 90"), plain(90.0));
        assert_eq!(read("ROTATE -22.5 degrees"), plain(-22.5));
        assert_eq!(read("rotate 45°"), plain(45.0));
        assert_eq!(
            read("rotate 30 about 2 in, 3 in"),
            Operation::Rotate {
                degrees: 30.0,
                about: Some(inches([2.0, 3.0]))
            }
        );
        assert_eq!(
            read("mirror left-right"),
            Operation::Mirror(Mirror::LeftRight)
        );
        assert_eq!(
            read(" mirror  top-bottom "),
            Operation::Mirror(Mirror::TopBottom)
        );
        assert_eq!(
            read("mirror line 0, 0, 1, 1 1/2 in"),
            Operation::MirrorLine(inches([0.0, 0.0, 1.0, 1.5]))
        );
        assert_eq!(read("scale 2"), Operation::Scale([2.0, 2.0]));
        assert_eq!(read("scale 2 1.5"), Operation::Scale([2.0, 1.5]));
        assert_eq!(
            read("move -1 in, 2 in"),
            Operation::Move(inches([-1.0, 2.0]))
        );
        for (text, handle) in [
            ("start at 1, 2 in", Handle::Start),
            ("end at 1, 2 in", Handle::End),
            ("elbow at 1, 2 in", Handle::Elbow),
        ] {
            assert_eq!(read(text), Operation::Carry(handle, inches([1.0, 2.0])));
        }
        assert_eq!(read("reverse"), Operation::Reverse);
        let sized = |width, height, proportions| Operation::Fit {
            width,
            height,
            proportions,
        };
        let four = Some(Length::with(4.0, Unit::In));
        let three = Some(Length::with(3.0, Unit::In));
        let keep = Proportions::Keep;
        assert_eq!(read("fit 4 in x 3 in"), sized(four, three, keep));
        assert_eq!(read("fit width 4 in"), sized(four, None, keep));
        assert_eq!(read("fit height 3 in"), sized(None, three, keep));
        assert_eq!(
            read("stretch 4 x 3 in"),
            sized(four, three, Proportions::Free)
        );
    }

    #[test]
    fn a_typo_is_reported_with_its_number_and_what_would_do() {
        let refused = |text: &str| {
            let texts = ["reverse".to_owned(), text.to_owned()];
            parse_all(&texts).expect_err(text)
        };
        for (text, message) in [
            (
                "rotat 90",
                "--op 2 \"rotat 90\": \"rotat\" is unknown; did you mean \"rotate\"?; write rotate DEGREES",
            ),
            (
                "zigzag",
                "\"zigzag\" is unknown; write one of rotate, mirror",
            ),
            ("", "a word is missing; write one of rotate"),
            ("rotate", "\"\" is not an angle; write rotate DEGREES"),
            ("rotate NaN", "\"NaN\" is not an angle"),
            (
                "rotate 90 about 2 in",
                "1 length given, but 2 are needed; write rotate",
            ),
            (
                "mirror left-rigth",
                "did you mean \"left-right\"?; write mirror left-right",
            ),
            (
                "mirror line 1 in, 2 in",
                "2 lengths given, but 4 are needed",
            ),
            ("scale", "no factor given, but 1 or 2 are needed"),
            ("scale 1 2 3", "3 factors given"),
            ("scale big", "\"big\" is not a factor"),
            (
                "fit 4 in",
                "1 length given, but 2 are needed; write fit WIDTH x HEIGHT",
            ),
            ("fit width", "the length is empty"),
            ("fit widht 4 in", "did you mean \"width\"?; write fit WIDTH"),
            ("stretch 4 in x 3 furlong", "unknown unit \"furlong\""),
            ("start 1 in, 2 in", "\"1\" is unknown; write start at X, Y"),
            (
                "reverse twice",
                "\"twice\" does not belong here; write reverse",
            ),
        ] {
            let error = refused(text);
            assert!(error.contains(message), "{text}: {error}");
        }
    }
}
