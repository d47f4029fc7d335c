//! Which of our own JSON files a text is, where another was asked for: the answer is what it is and
//! what to give, not a list of keys.

use serde_json::Value;

use crate::error::{DataFault, Error};

/// A kind of JSON file.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Kind {
    Plan,
    Result,
    Lines,
    Progress,
    Quilt,
}

impl Kind {
    /// The kind of an object, by the keys that the others don't have.
    fn of(text: &str) -> Option<Self> {
        let Ok(Value::Object(object)) = serde_json::from_str(text) else {
            return None;
        };
        let has = |keys: [&str; 2]| keys.iter().all(|key| object.contains_key(*key));
        if has(["pieces", "totals"]) {
            Some(Self::Result)
        } else if has(["quilt", "borders"]) {
            Some(Self::Plan)
        } else if has(["plan", "drawings"]) {
            Some(Self::Quilt)
        } else if has(["plan", "unit"]) {
            Some(Self::Progress)
        } else if object.contains_key("points") || object.contains_key("paths") {
            Some(Self::Lines)
        } else {
            None
        }
    }

    fn is(self) -> &'static str {
        match self {
            Self::Plan => "this is a plan",
            Self::Result => "this is the result of a plan",
            Self::Lines => "this is a drawing, a list of points",
            Self::Progress => "this is the progress of a quilt",
            Self::Quilt => "this is a plan with its drawings in one",
        }
    }
}

/// The error for a text that is of another kind than the one wanted; `None` where it isn't.
///
/// # Complexity
///
/// O(bytes), of a text that could not be read.
pub(super) fn instead(text: &str, wanted: Kind) -> Option<Error> {
    let found = Kind::of(text).filter(|found| *found != wanted)?;
    let give = match (wanted, found) {
        (Kind::Plan, Kind::Result) => "give the plan that it was made from, plan.json beside it",
        (Kind::Plan, Kind::Progress) => "give the plan, and this beside it as what is stitched",
        (Kind::Plan, Kind::Quilt) => "give the plan alone",
        (Kind::Plan, _) => "give a plan, which names it as a \"motif\"",
        (Kind::Lines, Kind::Result) => {
            "give one of its lines, a file of the folder pieces or paths beside it"
        }
        (Kind::Lines, _) => "give a drawing, such as one of its motifs",
        (Kind::Progress, _) => {
            "give the progress.json that the commands at the frame write into a plan's folder"
        }
        (Kind::Quilt, _) => "give a plan with its drawings, {\"plan\": …, \"drawings\": …}",
        (Kind::Result, _) => "give the result.json that a plan was answered with",
    };
    let reason = format!("{}; {give}", found.is());
    Some(Error::from(DataFault::Syntax { reason }).at(1, 1))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::io::json::{read_plan, read_points, result::read_result};

    const PLAN: &str = r#"{"unit": "in", "quilt": {}, "borders": []}"#;
    const RESULT: &str = r#"{"unit": "in", "quilt": {}, "bands": [], "pieces": [], "totals": {}}"#;
    const LINES: &str = r#"{"unit": "in", "points": [[0, 0], [1, 1]]}"#;

    #[test]
    fn another_kind_of_file_is_named_with_what_to_give() {
        let plan = |text: &str| read_plan(text.as_bytes()).expect_err("no plan").to_string();
        let lines = |text: &str| {
            let error = read_points(text.as_bytes(), None).expect_err("no lines");
            error.to_string()
        };
        let result = |text: &str| {
            let error = read_result(text.as_bytes()).expect_err("no result");
            error.to_string()
        };
        let of_result = "1:1: this is the result of a plan; give ";
        assert_eq!(
            plan(RESULT),
            format!("{of_result}the plan that it was made from, plan.json beside it")
        );
        assert_eq!(
            lines(RESULT),
            format!("{of_result}one of its lines, a file of the folder pieces or paths beside it")
        );
        assert!(plan(LINES).starts_with("1:1: this is a drawing, a list of points; give a plan"));
        assert!(lines(PLAN).starts_with("1:1: this is a plan; give a drawing"));
        for text in [PLAN, LINES] {
            assert!(result(text).contains("give the result.json"), "{text}");
        }
    }

    #[test]
    fn what_is_of_the_kind_or_of_none_keeps_its_own_error() {
        let misspelt = PLAN.replace("borders", "bordrs");
        let error = read_plan(misspelt.as_bytes()).expect_err("misspelt");
        assert!(
            error.to_string().contains("did you mean \"borders\""),
            "{error}"
        );
        assert_eq!(instead("{", Kind::Plan).map(|_| ()), None);
        assert_eq!(instead(RESULT, Kind::Result).map(|_| ()), None);
    }
}
