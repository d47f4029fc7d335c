//! A whole plan from the demo's files to its result; run from the top of the repository.
#![allow(clippy::print_stdout)]

use quiltpath_core::io::{json, svg_read::read_svg};
use quiltpath_core::plan::solve;

/// Plans the demo quilt and tells what came out.
pub fn main() -> Result<(), Box<dyn std::error::Error>> {
    let folder = std::path::Path::new("fixtures/demo");
    let plan = json::read_plan(&std::fs::read(folder.join("plan.json"))?)?;
    let tolerances = plan.tolerances()?;
    let mut drawings = std::collections::HashMap::new();
    for name in ["corner.svg", "border.svg"] {
        drawings.insert(name, std::fs::read(folder.join(name))?);
    }
    let solved = solve(&plan, |request| {
        let drawing = read_svg(&drawings[request.name.as_str()])?;
        drawing.motif(
            &request.name,
            tolerances.flattening,
            tolerances.join,
            request.gaps,
        )
    })?;
    let ring = &solved.paths[0].motif;
    println!(
        "{} pieces, {:.0} mm of line",
        solved.pieces.len(),
        ring.length()
    );
    println!("{}", json::write_result(&solved, None).len());
    Ok(())
}
