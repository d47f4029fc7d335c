//! JSON that can't be read.

use std::fmt;

/// What is wrong with a JSON text.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub enum DataFault {
    /// The file has nothing in it.
    Empty {
        /// What is accepted.
        accepted: &'static str,
    },
    /// The file is not UTF-8 text.
    NotText,
    /// The file is UTF-16 text.
    Utf16,
    /// The text is not JSON, or not what is wanted at this place.
    Syntax {
        /// What is wrong and what would be accepted.
        reason: String,
    },
    /// A key is not known.
    UnknownKey {
        /// The key.
        key: String,
        /// The accepted key that is spelt most like it.
        nearest: Option<String>,
        /// The keys that are accepted here.
        accepted: Vec<String>,
    },
    /// A word is not one of those accepted.
    UnknownValue {
        /// The word.
        value: String,
        /// The accepted word that is spelt most like it.
        nearest: Option<String>,
        /// The words that are accepted here.
        accepted: Vec<String>,
    },
    /// A list of points names no unit.
    NoUnit,
    /// There is no path.
    NoPath,
}

fn did_you_mean(nearest: Option<&str>) -> String {
    nearest.map_or_else(String::new, |name| format!("; did you mean \"{name}\"?"))
}

impl fmt::Display for DataFault {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Empty { accepted } => write!(f, "the file is empty; give {accepted}"),
            Self::NotText => write!(f, "the file is not UTF-8 text; save it as UTF-8 JSON"),
            Self::Utf16 => write!(f, "the file is UTF-16 text; save it as UTF-8 JSON"),
            Self::Syntax { reason } => f.write_str(reason),
            Self::UnknownKey {
                key,
                nearest,
                accepted,
            } => write!(
                f,
                "unknown key \"{key}\"{}; accepted here: {}",
                did_you_mean(nearest.as_deref()),
                accepted.join(", ")
            ),
            Self::UnknownValue {
                value,
                nearest,
                accepted,
            } => write!(
                f,
                "unknown value \"{value}\"{}; accepted here: {}",
                did_you_mean(nearest.as_deref()),
                accepted.join(", ")
            ),
            Self::NoUnit => write!(
                f,
                "the point list names no unit; write {{\"unit\":\"in\",\"points\":[…]}} or name the unit when reading it"
            ),
            Self::NoPath => write!(f, "no path in the file; give at least one list of points"),
        }
    }
}
