//! Plans from JSON, plans to JSON, and the JSON Schema of a plan.

use super::fault;
use crate::error::Error;
use crate::plan::PlanSpec;

/// What a plan's file should hold.
const A_PLAN: &str = "a plan such as {\"unit\":\"in\",\"quilt\":{…},\"borders\":[…]}";

/// Reads a plan from JSON.
///
/// ```
/// let plan = quiltpath_core::io::json::read_plan(br#"{
///     "unit": "in",
///     "quilt": { "width": "64 1/4", "height": 80 },
///     "borders": [{
///         "width": 6,
///         "corner": { "style": "leg", "motif": "corner.svg" },
///         "side": { "motif": "border.svg" }
///     }]
/// }"#)?;
/// assert_eq!(plan.borders[0].side.motif, "border.svg");
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A data error with row, column and key path; an unknown key or value names the nearest
/// accepted one.
pub fn read_plan(bytes: &[u8]) -> Result<PlanSpec, Error> {
    fault::from_str(fault::utf8(bytes, A_PLAN)?)
}

/// Writes a plan as JSON, indented, with a line end.
#[must_use]
pub fn write_plan(plan: &PlanSpec) -> String {
    // Plain structs with string keys can't fail to serialise into memory.
    let mut text = serde_json::to_string_pretty(plan).unwrap_or_default();
    text.push('\n');
    text
}

/// The JSON Schema (draft 2020-12) of a plan, made from the types that read it, indented.
#[cfg(feature = "schema")]
#[must_use]
pub fn plan_schema() -> String {
    let schema = schemars::schema_for!(PlanSpec);
    let mut text = serde_json::to_string_pretty(&schema).unwrap_or_default();
    text.push('\n');
    text
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAN: &str = r#"{
  "unit": "in",
  "quilt": {
    "width": "64 1/4",
    "height": 80
  },
  "borders": [
    {
      "width": "6 in",
      "corner": {
        "style": "open"
      },
      "side": {
        "motif": "border.svg",
        "repeats": {
          "top": 8
        }
      }
    }
  ]
}
"#;

    #[test]
    fn a_plan_is_read_and_written_again() {
        let plan = read_plan(PLAN.as_bytes()).expect("a plan");
        assert_eq!(
            read_plan(write_plan(&plan).as_bytes()).expect("own output"),
            plan
        );
    }

    #[test]
    fn a_fault_is_told_with_its_place_and_what_would_do() {
        for (from, to, message) in [
            (
                "\"width\": \"6 in\"",
                "\"widht\": \"6 in\"",
                "9:13: borders[0].widht: unknown key \"widht\"; did you mean \"width\"?; accepted here: name, width, seam_gap",
            ),
            (
                "\"open\"",
                "\"opne\"",
                "borders[0].corner.style: unknown value \"opne\"; did you mean \"open\"?; accepted here: leg, open, butted",
            ),
            (
                "\"64 1/4\"",
                "\"64 1/4 furlong\"",
                "4:29: quilt.width: \"64 1/4 furlong\" has the unknown unit \"furlong\"",
            ),
            (
                "\"64 1/4\"",
                "true",
                "expected a length: a number, or a text such as",
            ),
            (
                "{\n        \"style\": \"open\"\n      }",
                "\"open\"",
                "borders[0].corner: invalid type: string \"open\", expected an object with its keys in braces",
            ),
            ("\"64 1/4\"", "NaN", "NaN is no number of JSON"),
            ("  \"unit\": \"in\",\n", "", "missing field `unit`"),
        ] {
            let text = PLAN.replace(from, to);
            assert_ne!(text, PLAN);
            let error = read_plan(text.as_bytes()).expect_err(to).to_string();
            assert!(error.contains(message), "{to}: {error}");
        }
        let empty = read_plan(b" ").expect_err("empty").to_string();
        assert!(
            empty.starts_with("the file is empty; give a plan such as"),
            "{empty}"
        );
        let cut = &PLAN[..PLAN.len() / 2];
        let cut = read_plan(cut.as_bytes()).expect_err("cut off").to_string();
        assert!(
            cut.contains("the text ends too soon") && !cut.contains('?'),
            "{cut}"
        );
    }

    #[cfg(feature = "schema")]
    #[test]
    fn the_schema_names_every_key_of_a_plan() {
        let schema = plan_schema();
        for key in [
            "seam_gap",
            "arrangement",
            "max_stretch_percent",
            "top_bottom",
            "2020-12",
        ] {
            assert!(schema.contains(key), "{key}");
        }
    }
}
