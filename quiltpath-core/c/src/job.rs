//! The work behind the boundary: a plan's text to its result's, and every way in which that fails.

use std::any::Any;
use std::fmt;
use std::panic::{AssertUnwindSafe, catch_unwind};

use quiltpath_core::Error;
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::io::json::{key_hint, read_plan};
use quiltpath_core::plan::{solve, stitch_plan};
use quiltpath_core::units::Unit;

/// Why a call gives no result.
#[derive(Debug, Clone, PartialEq)]
pub(crate) enum Refusal {
    /// The plan or a motif is wrong.
    Data(Error),
    /// The call itself is wrong: null, or no UTF-8.
    Call(String),
    /// A fault of this library, which should not happen.
    Fault(String),
}

impl Refusal {
    /// A refusal of the call itself.
    pub(crate) fn call(message: String) -> Self {
        Self::Call(message)
    }
}

impl From<Error> for Refusal {
    fn from(error: Error) -> Self {
        Self::Data(error)
    }
}

impl fmt::Display for Refusal {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Data(error) => {
                error.fmt(f)?;
                key_hint(error).map_or(Ok(()), |hint| write!(f, "; {hint}"))
            }
            Self::Call(message) => f.write_str(message),
            Self::Fault(message) => write!(f, "fault in quiltpath: {message}"),
        }
    }
}

/// Runs a call; a panic in it becomes a refusal.
pub(crate) fn guarded<T>(call: impl FnOnce() -> Result<T, Refusal>) -> Result<T, Refusal> {
    // Nothing outlives a call that panics but what C owns, and that is written after it.
    catch_unwind(AssertUnwindSafe(call)).unwrap_or_else(|panic| Err(Refusal::Fault(words(&*panic))))
}

fn words(panic: &(dyn Any + Send)) -> String {
    let text = panic.downcast_ref::<&str>().copied();
    let text = text.or_else(|| panic.downcast_ref::<String>().map(String::as_str));
    text.unwrap_or("no message").to_owned()
}

/// A plan solved, with its passes and stitches: the text of `plan.json` to that of `result.json`.
///
/// `bytes` gives the drawing of a motif by its name in the plan.
pub(crate) fn result_of(
    plan: &str,
    mut bytes: impl FnMut(&str) -> Result<Vec<u8>, Error>,
) -> Result<String, Refusal> {
    let plan = read_plan(plan.as_bytes())?;
    let solved = solve(&plan, |request| {
        let name = &request.name;
        let options = ReadOptions::default()
            .with_unit(Some(plan.unit.into()))
            .with_layers(&request.layers);
        let bytes = bytes(name)?;
        let drawing = LineDrawing::read(name, &bytes, &options);
        let strokes = drawing.and_then(|drawing| drawing.strokes(Unit::Mm));
        let strokes = strokes.map_err(|error| error.in_file(name))?;
        Ok(strokes.with_file(name))
    })?;
    let stitching = stitch_plan(&plan, &solved)?;
    Ok(write_result(&PlanResult::new(&solved, Some(&stitching))?)?)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_panic_becomes_a_refusal() {
        let refused = guarded::<()>(|| panic!("{} of them", 3));
        let message = refused.expect_err("a panic").to_string();
        assert_eq!(message, "fault in quiltpath: 3 of them");
        let refused = guarded::<()>(|| panic!("plain"));
        assert_eq!(refused, Err(Refusal::Fault("plain".to_owned())));
    }
}
