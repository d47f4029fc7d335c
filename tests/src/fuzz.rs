//! What the fuzzer runs: bytes in, work done, promises held. A test runs the committed corpus
//! through it.
//!
//! Each body takes any bytes and panics when a promise of the library is broken. Sizes are kept to
//! what is done within a second; what is beyond that is left to the tests of limits.

mod bands;
mod corners;
mod dice;
mod dxf;
mod fits;
mod json;
mod lengths;
mod lines;
mod made;
mod path_data;
mod pictures;
mod plan;
mod svg;
mod tops;
mod trim;

/// Does one piece of work with these bytes.
pub type Body = fn(&[u8]);

/// The targets: the name, which is also the folder of its corpus, and the body.
pub const TARGETS: [(&str, Body); 13] = [
    ("bands", bands::bands),
    ("corners", corners::corners),
    ("dxf", dxf::dxf),
    ("fits", fits::fits),
    ("json", json::json),
    ("lengths", lengths::lengths),
    ("lines", lines::lines),
    ("path_data", path_data::path_data),
    ("pictures", pictures::pictures),
    ("plan", plan::plan),
    ("plan_made", made::plan_made),
    ("svg", svg::svg),
    ("trim", trim::trim),
];

/// Runs the target of this name.
///
/// # Panics
///
/// When there is no such target, or when a promise is broken.
pub fn run(target: &str, data: &[u8]) {
    let found = TARGETS.iter().find(|(name, _)| *name == target);
    found.expect("a target of this name").1(data);
}
