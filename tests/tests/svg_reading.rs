//! The SVG reader against usvg and against the published rules of SVG 2 and CSS.

use kurbo::{BezPath, ParamCurve, Point, Shape};
use quiltpath_core::io::svg_read::{SvgDrawing, read_svg};

mod peer;

use peer::{peer_paths, walk};

const PX_PER_MM: f64 = 96.0 / 25.4;

/// A drawing whose first path shows where its origin is and how it is scaled.
fn page(root: &str, body: &str) -> String {
    format!(
        "<svg xmlns='http://www.w3.org/2000/svg' xmlns:xlink='http://www.w3.org/1999/xlink' \
         fill='none' stroke='black' {root}><path d='M0 0H1V1'/>{body}</svg>"
    )
}

fn read(svg: &str) -> SvgDrawing {
    read_svg(svg.as_bytes()).unwrap_or_else(|e| panic!("{svg}: {e}"))
}

/// Holds all paths against usvg's: same number, order, start, direction and place.
///
/// usvg keeps f32 (about 1e-7 relative) and draws arcs within 3e-4 of their radius.
fn compare(svg: &str) {
    let ours = read(svg);
    let theirs = peer_paths(svg, &[]);
    assert_eq!(ours.paths.len(), theirs.len(), "{svg}");
    let origin = theirs[0]
        .segments()
        .next()
        .expect("the mark")
        .start()
        .to_vec2();
    for (our, their) in ours.paths.iter().zip(&theirs) {
        let size = their.bounding_box().size();
        let allowed = 3e-4 * (size.width + size.height + 1.0) + 1e-4;
        for (a, b) in walk(&our.path).into_iter().zip(walk(their)) {
            let scaled = (a.to_vec2() * PX_PER_MM + origin).to_point();
            let off = scaled.distance(b);
            assert!(
                off <= allowed,
                "{svg}\n{}: {scaled} is {off} from {b}",
                our.id
            );
        }
    }
}

const SHAPES: [&str; 14] = [
    "<path d='M1 2 L8 3 L5 9'/>",
    "<path d='m1 2 c3 4 5-6 7 8s-3 4-5 1q2-3 4 0t4 1z m1 1 h3 v4 z'/>",
    "<path d='M3 3 A4 2 30 0 1 9 7 A4 2 30 1 0 3 9 a1 1 0 0 0 5 5'/>",
    "<line x1='1' y1='2' x2='7' y2='9'/>",
    "<polyline points='1,2 3,4 5,1 7-3'/>",
    "<polygon points='1 2 9 4 5 11'/>",
    "<rect x='1' y='2' width='8' height='5'/>",
    "<rect x='1' y='2' width='8' height='5' rx='1.5'/>",
    "<rect x='1' y='2' width='8' height='5' ry='1.5' rx='9'/>",
    "<rect x='10%' y='20%' width='30%' height='40%'/>",
    "<circle cx='4' cy='5' r='3'/>",
    "<circle cx='50%' cy='50%' r='25%'/>",
    "<ellipse cx='4' cy='5' rx='3' ry='1'/>",
    "<ellipse cx='1cm' cy='5mm' rx='2pt' ry='1pc'/>",
];

const ROOTS: [&str; 12] = [
    "width='100' height='80'",
    "width='100mm' height='80mm' viewBox='0 0 100 80'",
    "width='4in' height='3in' viewBox='-5 -7 40 30'",
    "width='10cm' height='5cm' viewBox='3 4 20 20'",
    "width='10cm' height='5cm' viewBox='3 4 20 20' preserveAspectRatio='xMinYMax slice'",
    "width='10cm' height='5cm' viewBox='3 4 20 20' preserveAspectRatio='none'",
    "width='72pt' height='6pc' viewBox='0 0 20 20'",
    "width='300px' height='400px' viewBox='0 0 30 20' preserveAspectRatio='xMaxYMid meet'",
    "viewBox='0 0 30 20'",
    "width='60mm' viewBox='0 0 30 20'",
    "height='60mm' viewBox='0 0 30 20'",
    "width='100%' height='100%' viewBox='1 2 30 20'",
];

#[test]
fn every_shape_in_every_root_lies_where_usvg_puts_it() {
    for root in ROOTS {
        compare(&page(root, &SHAPES.concat()));
    }
}

#[test]
fn every_transform_lies_where_usvg_puts_it() {
    for transform in [
        "translate(3)",
        "translate(3,4)",
        "scale(2)",
        "scale(2 -3)",
        "rotate(30)",
        "rotate(-45 3 4)",
        "skewX(20)",
        "skewY(-10)",
        "matrix(1 2 -3 1.5 5 6)",
        "translate(1 2)rotate(15), scale(.5)\n skewX(5)",
    ] {
        let shapes = SHAPES.concat();
        let group = format!(
            "<g transform='{transform}'>{shapes}<a transform='{transform}'>{shapes}</a></g>"
        );
        compare(&page(ROOTS[2], &group));
        let own: String = SHAPES
            .map(|shape| shape.replacen(' ', &format!(" transform='{transform}' "), 1))
            .concat();
        compare(&page(ROOTS[3], &own));
    }
}

#[test]
fn use_symbol_and_nested_svg_lie_where_usvg_puts_them() {
    let line = "<path id='p' d='M1 2 L8 3 L5 9'/>";
    for body in [
        format!(
            "<defs>{line}</defs><use href='#p' x='3' y='4'/><use xlink:href='#p' transform='rotate(20)' x='5'/>"
        ),
        format!(
            "<defs><g id='g' transform='scale(2)'>{line}</g></defs><use href='#g' y='2' transform='translate(1 1)'/>"
        ),
        format!(
            "<symbol id='s' viewBox='0 0 10 10'>{line}</symbol><use href='#s' x='3' y='4' width='20' height='15'/>"
        ),
        format!(
            "<symbol id='s' viewBox='2 1 10 10' preserveAspectRatio='xMinYMax slice'>{line}</symbol><use href='#s' width='20' height='15'/>"
        ),
        format!(
            "<symbol id='s' viewBox='0 0 10 10' preserveAspectRatio='none'>{line}</symbol><use href='#s' width='20' height='15'/><use href='#s'/>"
        ),
        format!("<symbol id='s'>{line}</symbol><use href='#s' x='3' y='4'/>"),
        format!("<svg x='3' y='4' width='20' height='15' viewBox='-1 -2 10 10'>{line}</svg>"),
        format!(
            "<svg x='10%' y='4' width='50%' height='15' viewBox='-1 -2 10 10' preserveAspectRatio='none'>{line}</svg>"
        ),
        format!("<svg width='20' height='15'>{line}<rect width='50%' height='50%'/></svg>"),
        format!(
            "<svg viewBox='0 0 5 5'><svg x='1' width='3' height='3' viewBox='0 0 9 9'>{line}</svg></svg>"
        ),
        format!(
            "<svg id='n' width='5' height='5' viewBox='0 0 9 9'>{line}</svg><use href='#n' x='9' width='10' height='20'/>"
        ),
        format!("<defs>{line}<use id='u' href='#p' x='1'/></defs><use href='#u' y='1'/>"),
        format!(
            "<switch><foreignObject requiredExtensions='http://example.org/'/><g>{line}</g></switch>"
        ),
    ] {
        for root in [ROOTS[0], ROOTS[1], ROOTS[4]] {
            compare(&page(root, &body));
        }
    }
}

#[test]
fn what_is_hidden_is_what_usvg_hides() {
    let line = "<path class='c' d='M1 2 L8 3 L5 9'/>";
    for body in [
        format!("<g display='none'>{line}</g>"),
        format!("<g style='display:none'>{line}</g>"),
        format!(
            "<g visibility='hidden'>{line}<rect visibility='visible' width='1' height='2'/></g>"
        ),
        format!("<style>.c{{display:none}}</style>{line}<line x2='5'/>"),
        format!(
            "<style>g > .c{{visibility:hidden}} path{{display:inline}}</style><g>{line}</g>{line}"
        ),
        format!(
            "<defs>{line}</defs><clipPath>{line}</clipPath><mask>{line}</mask><pattern>{line}</pattern><marker>{line}</marker>"
        ),
        format!(
            "<defs><g id='h' visibility='hidden'>{line}</g></defs><use href='#h'/><g visibility='hidden'><use href='#h'/></g>"
        ),
    ] {
        compare(&page(ROOTS[1], &body));
    }
}

/// The path data of one path, in user units of 1 mm.
fn drawn(data: &str) -> BezPath {
    let svg = format!(
        "<svg xmlns='http://www.w3.org/2000/svg' width='9mm' height='9mm' viewBox='0 0 9 9'><path d='{data}'/></svg>"
    );
    read(&svg).paths.remove(0).path
}

/// W3C, Scalable Vector Graphics (SVG) 2, chapter 9 "Paths", sections 9.3.3 to 9.3.9.
#[test]
fn the_path_grammar_of_svg_2_chapter_9() {
    for (short, long) in [
        // 9.3.3: pairs after a moveto are implicit linetos, relative after `m`.
        (
            "M 100 200 200 100 -100 -200",
            "M 100 200 L 200 100 L -100 -200",
        ),
        ("m 1 2 3 4 5 6", "M 1 2 L 4 6 L 9 12"),
        // 9.3.2: superfluous white space and separators may be left out, commands repeated.
        ("M 100 100 L 200 200", "M100 100L200 200"),
        (
            "M 100 200 L 200 100 L -100 -200",
            "M 100 200 L 200 100 -100 -200",
        ),
        // 9.3.9: the grammar eats as much as it can.
        ("M 0.6.5 L0-1-1-2", "M 0.6 0.5 L 0 -1 L -1 -2"),
        ("M0 0-1-1", "M 0 0 L -1 -1"),
        ("M.5.5.5-.5", "M 0.5 0.5 L 0.5 -0.5"),
        ("M1e1 0L1E-1 0", "M 10 0 L 0.1 0"),
        // 9.3.4: after a closepath the next subpath starts at the same initial point.
        ("M1 1 L5 1 L5 5 z L9 9", "M1 1 L5 1 L5 5 z M1 1 L9 9"),
        ("M1 1 L5 1 L5 5 z m2 2 l1 1", "M1 1 L5 1 L5 5 z M3 3 L4 4"),
        // 9.3.5: horizontal and vertical lines.
        ("M1 2 h 3 4 v 5 H 0 V 1", "M1 2 L4 2 L8 2 L8 7 L0 7 L0 1"),
        // 9.3.6 and 9.3.7: the reflected control point, and none after another command.
        (
            "M0 0 C1 2 3 4 5 0 S 8 -3 9 0",
            "M0 0 C1 2 3 4 5 0 C 7 -4 8 -3 9 0",
        ),
        ("M0 0 L5 0 S 8 -3 9 0", "M0 0 L5 0 C 5 0 8 -3 9 0"),
        (
            "M0 0 Q2 3 4 0 T 8 0 12 0",
            "M0 0 Q2 3 4 0 Q 6 -3 8 0 Q 10 3 12 0",
        ),
        ("M0 0 C1 2 3 4 5 0 T 9 0", "M0 0 C1 2 3 4 5 0 Q 5 0 9 0"),
        (
            "M1 1 c1 2 3 4 5 0 s 3 -3 4 0 q 1 1 2 0 t 2 0",
            "M1 1 C2 3 4 5 6 1 C 8 -3 9 -2 10 1 Q 11 2 12 1 Q 13 0 14 1",
        ),
        // 9.3.8: flags are single digits that need no separator.
        ("M0 0 a1 1 0 00 1 1", "M0 0 a 1 1 0 0 0 1 1"),
        ("M0 0 a1 1 0 01.5.5", "M0 0 a 1 1 0 0 1 0.5 0.5"),
        ("M0 0 A1,1,0,1,1,1,1", "M0 0 A 1 1 0 1 1 1 1"),
        // 9.5.1 and B.2.5: a radius of 0 is a line, an arc to its own start is nothing.
        ("M0 0 A0 9 0 0 1 5 5", "M0 0 L5 5"),
        ("M0 0 A2 9 0 0 1 0 0 L5 5", "M0 0 L5 5"),
        // B.2.5: the sign of a radius does not count.
        ("M0 0 A-3 -2 0 0 1 2 1", "M0 0 A3 2 0 0 1 2 1"),
    ] {
        assert_eq!(drawn(short), drawn(long), "{short}");
    }
}

/// W3C SVG 2, appendix B.2: which of four arcs the flags choose, and radii that must grow.
#[test]
fn arcs_by_svg_2_appendix_b_2() {
    use std::f64::consts::PI;
    // Two circles of radius 5 pass through (0, 0) and (6, 0), their centres at (3, -4) and (3, 4).
    let short = 2.0 * 5.0 * (3.0_f64 / 5.0).asin();
    let long = 2.0 * PI * 5.0 - short;
    for (large, sweep, centre, length) in [
        (0, 0, (3.0, -4.0), short),
        (0, 1, (3.0, 4.0), short),
        (1, 0, (3.0, 4.0), long),
        (1, 1, (3.0, -4.0), long),
    ] {
        let arc = drawn(&format!("M0 0 A5 5 0 {large} {sweep} 6 0"));
        assert!(
            (arc.perimeter(1e-9) - length).abs() < 1e-5,
            "{large} {sweep}"
        );
        for segment in arc.segments() {
            for step in 0..=10 {
                let radius = segment.eval(f64::from(step) / 10.0).distance(centre.into());
                assert!((radius - 5.0).abs() < 1e-5, "{large} {sweep}: {radius}");
            }
        }
    }
    // B.2.5, step 3: radii too small grow until the ellipse just reaches; x:y stays 2:1.
    for segment in drawn("M0 0 A2 1 0 0 1 8 0").segments() {
        for step in 0..=10 {
            let Point { x, y } = segment.eval(f64::from(step) / 10.0);
            let unit = ((x - 4.0) / 4.0).powi(2) + (y / 2.0).powi(2);
            assert!((unit - 1.0).abs() < 1e-5, "{x} {y}");
            assert!(y <= 1e-9, "a sweep of positive angle passes above");
        }
    }
    // B.2.3 with a turned ellipse: the implicit equation in its own axes.
    let (sin, cos) = 30.0_f64.to_radians().sin_cos();
    let arc = drawn("M3 3 A4 2 30 0 1 6 5");
    let flat = |p: Point| Point::new((cos * p.x + sin * p.y) / 4.0, (cos * p.y - sin * p.x) / 2.0);
    let middle = flat(arc.segments().next().expect("a segment").eval(1.0));
    let (a, b) = (flat(Point::new(3.0, 3.0)), flat(Point::new(6.0, 5.0)));
    let half = a.distance(b) / 2.0;
    let centre = a.midpoint(b) + (b - a).turn_90() / (2.0 * half) * (1.0 - half * half).sqrt();
    assert!((middle.distance(centre) - 1.0).abs() < 1e-5);
}

/// W3C, CSS Values and Units Module Level 3, section 6.2: the absolute units.
#[test]
fn the_unit_table_of_css_values() {
    for (unit, per_inch) in [
        ("in", 1.0),
        ("cm", 2.54),
        ("mm", 25.4),
        ("Q", 101.6),
        ("pt", 72.0),
        ("pc", 6.0),
        ("px", 96.0),
        ("", 96.0),
    ] {
        let svg = format!(
            "<svg xmlns='http://www.w3.org/2000/svg' width='{w}{unit}' height='{w}{unit}' viewBox='0 0 3 3'>\
             <line x2='3'/></svg>",
            w = 2.0 * per_inch
        );
        let drawing = read(&svg);
        assert!(
            (drawing.width_mm.expect(unit) - 50.8).abs() < 1e-12,
            "{unit}"
        );
        assert!(
            (drawing.paths[0].path.perimeter(1e-9) - 50.8).abs() < 1e-12,
            "{unit}"
        );
        let inside =
            format!("<svg xmlns='http://www.w3.org/2000/svg'><line x2='{per_inch}{unit}'/></svg>");
        assert!(
            (read(&inside).paths[0].path.perimeter(1e-9) - 25.4).abs() < 1e-12,
            "{unit}"
        );
    }
}

#[test]
fn sizes_keep_full_precision() {
    let svg = "<svg xmlns='http://www.w3.org/2000/svg' width='100mm' height='100mm' viewBox='0 0 100 100'>\
               <path d='M0.1234567890123456 12345678.901234567 L1 1'/></svg>";
    let start = read(svg).paths[0]
        .path
        .segments()
        .next()
        .expect("a segment")
        .start();
    assert_eq!(
        start,
        Point::new(0.123_456_789_012_345_6, 12_345_678.901_234_567)
    );
}
