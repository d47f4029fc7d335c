//! Path data held against the parsers of kurbo and svgtypes: the same numbers, or both refuse.
//!
//! Known differences: kurbo reflects the control point of a quadratic in `S`, and that of a cubic
//! in `T`, which SVG 2, section 9.3.6 and 9.3.7 do not, and it stops without a word at further
//! numbers that begin with `+`, so it is not asked about those. svgtypes refuses a comma after
//! white space behind a flag, which the grammar has. An arc is curves here and elsewhere, so only
//! its end is compared, and large arcs not at all: of those, others make curves until the memory
//! ends.

use kurbo::{BezPath, PathEl, Point};
use quiltpath_core::io::svg_read::read_svg;
use svgtypes::{SimplePathSegment, SimplifyingPathParser};

use super::dice::told;

pub(super) fn path_data(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else {
        return;
    };
    let plain = |c: char| c.is_ascii_graphic() && !"<>&'\"".contains(c) || " \n\t\r".contains(c);
    if !text.chars().all(plain) {
        return;
    }
    // One unit is a millimetre, so that nothing is scaled.
    let svg = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 100'><path d='{text}'/></svg>"
    );
    let ours = read_svg(svg.as_bytes());
    let arcs = text.contains(['A', 'a']);
    if arcs && large_numbers(text) {
        return;
    }
    let theirs = by_svgtypes(text);
    let ours = match ours {
        Ok(drawing) => drawing.paths[0].path.clone(),
        Err(error) => {
            told(&error);
            // What is too large, or draws nothing, is no matter of the grammar.
            let words = error.to_string();
            let beyond = ["nothing is drawn", "a point lies at", "too large"];
            assert!(
                theirs.is_none() || beyond.iter().any(|said| words.contains(said)),
                "svgtypes takes {text:?}; ours: {words}"
            );
            return;
        }
    };
    let Some(theirs) = theirs else {
        assert!(arcs, "svgtypes refuses {text:?}");
        return;
    };
    same(text, &ours, &theirs, "svgtypes");
    if text.contains(['S', 's', 'T', 't', '+']) {
        return;
    }
    if let Ok(kurbo) = BezPath::from_svg(text) {
        same(text, &ours, &kurbo, "kurbo");
    } else {
        assert!(arcs, "kurbo refuses {text:?}");
    }
}

/// Numbers from which both others make curves until the memory ends.
fn large_numbers(text: &str) -> bool {
    let mut runs = text.split(|c: char| !c.is_ascii_digit());
    text.contains(['e', 'E']) || runs.any(|digits| digits.len() > 6)
}

fn by_svgtypes(text: &str) -> Option<BezPath> {
    let mut path = BezPath::new();
    for segment in SimplifyingPathParser::from(text) {
        match segment.ok()? {
            SimplePathSegment::MoveTo { x, y } => path.move_to((x, y)),
            SimplePathSegment::LineTo { x, y } => path.line_to((x, y)),
            SimplePathSegment::CurveTo {
                x1,
                y1,
                x2,
                y2,
                x,
                y,
            } => {
                path.curve_to((x1, y1), (x2, y2), (x, y));
            }
            SimplePathSegment::Quadratic { x1, y1, x, y } => path.quad_to((x1, y1), (x, y)),
            SimplePathSegment::ClosePath => path.close_path(),
        }
    }
    Some(path)
}

/// The points of all segments, a point equal to the one before it left out, and a subpath without
/// any length too: ours draws neither.
fn points(path: &BezPath) -> Vec<Point> {
    let mut points = Vec::new();
    let mut subpath: Vec<Point> = Vec::new();
    let mut end = |subpath: &mut Vec<Point>| {
        if subpath.len() > 1 {
            points.append(subpath);
        }
        subpath.clear();
    };
    for element in path.elements() {
        match *element {
            PathEl::MoveTo(to) => {
                end(&mut subpath);
                subpath.push(to);
            }
            PathEl::LineTo(to) => subpath.push(to),
            PathEl::QuadTo(control, to) => subpath.extend([control, to]),
            PathEl::CurveTo(first, second, to) => subpath.extend([first, second, to]),
            PathEl::ClosePath => {}
        }
        subpath.dedup();
    }
    end(&mut subpath);
    points
}

fn same(text: &str, ours: &BezPath, theirs: &BezPath, whose: &str) {
    let near = |a: Point, b: Point, size: f64| (a - b).hypot() <= 1e-9 * (1.0 + size);
    let (our_points, their_points) = (points(ours), points(theirs));
    let size = their_points
        .iter()
        .fold(0.0f64, |most, p| most.max(p.to_vec2().hypot()));
    if text.contains(['A', 'a']) {
        let ends = [our_points.last(), their_points.last()];
        if let [Some(&a), Some(&b)] = ends {
            assert!(
                near(a, b, size),
                "{whose}: {text:?} ends at {b}, ours at {a}"
            );
        }
        return;
    }
    let all = our_points.len() == their_points.len()
        && our_points
            .iter()
            .zip(&their_points)
            .all(|(&a, &b)| near(a, b, size));
    assert!(
        all,
        "{whose}: {text:?} is {}, ours {}",
        theirs.to_svg(),
        ours.to_svg()
    );
}
