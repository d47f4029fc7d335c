//! The drawings that a plan names: which they are, and all of them in one with the plan.

use std::collections::BTreeMap;

use crate::error::Error;
use crate::io::json::{QuiltFile, drawing_name};
use crate::plan::spec::BySide;
use crate::plan::{MotifRequest, PlanSpec};

/// The drawings that a plan names, each once, in the order in which it asks for them.
#[must_use]
pub fn requests(plan: &PlanSpec) -> Vec<MotifRequest> {
    let mut all: Vec<MotifRequest> = Vec::new();
    for border in &plan.borders {
        let corner = border.corner.motif.as_ref();
        let corner = corner.map(|name| MotifRequest {
            name: name.clone(),
            layers: border.corner.layers.clone(),
        });
        let sides = border.side.motif.iter().flat_map(BySide::values);
        let sides = sides.map(|name| MotifRequest {
            name: name.clone(),
            layers: border.side.layers.clone(),
        });
        for request in corner.into_iter().chain(sides) {
            if !all.contains(&request) {
                all.push(request);
            }
        }
    }
    // The layers of other drawings are asked for where they are used; here their files are enough.
    for name in plan.drawings() {
        if !all.iter().any(|known| known.name == *name) {
            all.push(MotifRequest {
                name: name.clone(),
                layers: Vec::new(),
            });
        }
    }
    all
}

/// Calls the drawings of a plan by other names.
pub(super) fn rename(plan: &mut PlanSpec, mut name: impl FnMut(&str) -> String) {
    for motif in plan.drawings_mut() {
        *motif = name(motif);
    }
}

/// A plan with all drawings that it names, in one; `bytes` gives a drawing by its name in the plan.
///
/// There a drawing has its plain file name, with a number where several have the same.
///
/// # Errors
///
/// Those of `bytes`.
pub fn gather(
    plan: &PlanSpec,
    mut bytes: impl FnMut(&str) -> Result<Vec<u8>, Error>,
) -> Result<QuiltFile, Error> {
    let mut quilt = QuiltFile::new(plan.clone());
    let mut names: BTreeMap<String, String> = BTreeMap::new();
    for request in requests(plan) {
        if names.contains_key(&request.name) {
            continue;
        }
        let name = free_name(&drawing_name(&request.name), |name| {
            quilt.drawings.contains_key(name)
        });
        let bytes = bytes(&request.name)?;
        quilt.drawings.insert(name.clone(), bytes);
        names.insert(request.name, name);
    }
    rename(&mut quilt.plan, |name| names[name].clone());
    Ok(quilt)
}

/// This name, or with a number before its end where it is taken.
fn free_name(name: &str, taken: impl Fn(&str) -> bool) -> String {
    if !taken(name) {
        return name.to_owned();
    }
    let (stem, end) = match name.rsplit_once('.') {
        Some((stem, end)) if !stem.is_empty() => (stem, format!(".{end}")),
        _ => (name, String::new()),
    };
    let numbered = (2_usize..).map(|number| format!("{stem}-{number}{end}"));
    let mut free = numbered.filter(|name| !taken(name));
    free.next().unwrap_or_default()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::spec::{BlocksSpec, DesignSpec, QuiltSpec, SashingSpec, SideSpec, UnitSpec};

    #[test]
    fn drawings_of_blocks_and_sashes_are_gathered_and_renamed() {
        let side = SideSpec::new("a/sash.svg".to_owned());
        let sashing = SashingSpec::new(2.0, side).with_cornerstone(DesignSpec::new("a/knot.svg"));
        let blocks = BlocksSpec::new(2, 2)
            .with_block(DesignSpec::new("a/block.svg"))
            .with_sashing(sashing);
        let plan =
            PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(40.0, 40.0)).with_blocks(blocks);
        let quilt = gather(&plan, |name| Ok(name.as_bytes().to_vec())).expect("gathered");
        let names: Vec<&String> = quilt.drawings.keys().collect();
        assert_eq!(names, ["block.svg", "knot.svg", "sash.svg"]);
        let named: Vec<&String> = quilt.plan.drawings().collect();
        assert_eq!(named, ["block.svg", "knot.svg", "sash.svg"]);
    }
}
