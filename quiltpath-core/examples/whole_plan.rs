//! A whole plan from the demo's files to its result; run from the top of the repository.
#![allow(clippy::print_stdout)]

use quiltpath_core::Error;
use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::json::read_plan;
use quiltpath_core::io::json::result::{PlanResult, write_result};
use quiltpath_core::plan::{solve, stitch_plan};
use quiltpath_core::units::Unit;

/// Plans the demo quilt and prints what came out.
pub fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::path::Path::new("fixtures/demo");
    let plan = read_plan(&std::fs::read(folder.join("plan.json"))?)?;
    let solved = solve(&plan, |request| {
        let bytes = std::fs::read(folder.join(&request.name))
            .map_err(|error| Error::motif_unreadable(&request.name, error.to_string()))?;
        let options = ReadOptions::default().with_unit(Some(plan.unit.into()));
        LineDrawing::read(&request.name, &bytes, &options)?.strokes(Unit::Mm)
    })?;
    let stitching = stitch_plan(&plan, &solved)?;
    println!(
        "{} pieces, {:.0} mm of line, {} passes",
        solved.pieces.len(),
        solved.length(),
        stitching.passes.len()
    );
    let result = write_result(&PlanResult::new(&solved, Some(&stitching))?)?;
    println!("{} bytes of result.json", result.len());
    Ok(())
}
