//! The grammar of path data: SVG 2, section 9.3. One pass, drawn as it is read.
//!
//! A fault is an error at the byte where it stands; what was drawn before it does not count, since
//! a path that silently stops half way would be stitched half way.

use kurbo::{Point, Vec2};

use super::place::Flaw;
use super::scan::Scanner;
use crate::io::pen::{ArcShape, Pen};

/// The control point that a smooth curve reflects.
#[derive(Clone, Copy)]
enum Reflect {
    Nothing,
    Cubic(Point),
    Quadratic(Point),
}

/// Draws path data. Empty data, or `none`, draws nothing.
///
/// # Complexity
///
/// O(length of the data), no allocation but the pen's.
pub(super) fn draw(data: &str, pen: &mut Pen) -> Result<(), Flaw> {
    if data.trim() == "none" {
        return Ok(());
    }
    let mut scan = Scanner::new(data);
    let mut command = 0;
    let mut reflect = Reflect::Nothing;
    scan.skip_space();
    while let Some(byte) = scan.peek() {
        match byte {
            b'M' | b'm' => command = byte,
            _ if command == 0 => return Err(Flaw::expected(scan.at(), "M or m first")),
            b'L' | b'l' | b'H' | b'h' | b'V' | b'v' | b'C' | b'c' | b'S' | b's' | b'Q' | b'q'
            | b'T' | b't' | b'A' | b'a' | b'Z' | b'z' => command = byte,
            b'0'..=b'9' | b'.' | b'-' | b'+' if !matches!(command, b'Z' | b'z') => {
                // Further pairs after a move are lines.
                command = match command {
                    b'M' => b'L',
                    b'm' => b'l',
                    same => same,
                };
                reflect = segment(&mut scan, command, reflect, pen)?;
                continue;
            }
            _ => {
                let what = "a number or one of the commands M L H V C S Q T A Z";
                return Err(Flaw::expected(scan.at(), what));
            }
        }
        scan.step();
        scan.skip_space();
        reflect = segment(&mut scan, command, reflect, pen)?;
    }
    Ok(())
}

/// Reads the numbers of one segment and draws it.
fn segment(
    scan: &mut Scanner<'_>,
    command: u8,
    reflect: Reflect,
    pen: &mut Pen,
) -> Result<Reflect, Flaw> {
    let at = pen.at();
    let origin = if command.is_ascii_lowercase() {
        at.to_vec2()
    } else {
        Vec2::ZERO
    };
    let mut point = || -> Result<Point, Flaw> {
        let (x, y) = (scan.listed()?, scan.listed()?);
        Ok(Point::new(x, y) + origin)
    };
    let mut next = Reflect::Nothing;
    match command.to_ascii_uppercase() {
        b'M' => pen.move_to(point()?),
        b'L' => pen.line_to(point()?),
        b'H' => pen.line_to(Point::new(scan.listed()? + origin.x, at.y)),
        b'V' => pen.line_to(Point::new(at.x, scan.listed()? + origin.y)),
        b'C' => {
            let (first, second, to) = (point()?, point()?, point()?);
            pen.curve_to(first, second, to);
            next = Reflect::Cubic(second);
        }
        b'S' => {
            let first = match reflect {
                Reflect::Cubic(control) => at + (at - control),
                _ => at,
            };
            let (second, to) = (point()?, point()?);
            pen.curve_to(first, second, to);
            next = Reflect::Cubic(second);
        }
        b'Q' => {
            let (control, to) = (point()?, point()?);
            pen.quad_to(control, to);
            next = Reflect::Quadratic(control);
        }
        b'T' => {
            let control = match reflect {
                Reflect::Quadratic(control) => at + (at - control),
                _ => at,
            };
            pen.quad_to(control, point()?);
            next = Reflect::Quadratic(control);
        }
        b'A' => {
            let radii = Vec2::new(scan.listed()?, scan.listed()?);
            let degrees = scan.listed()?;
            let (large, sweep) = (scan.flag()?, scan.flag()?);
            let to = Point::new(scan.listed()?, scan.listed()?) + origin;
            let shape = ArcShape {
                radii,
                degrees,
                large,
                sweep,
            };
            pen.arc_to(shape, to);
        }
        _ => pen.close(),
    }
    Ok(next)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::transform::Transform;

    fn drawn(data: &str) -> Result<String, Flaw> {
        let mut pen = Pen::new(&Transform::identity());
        draw(data, &mut pen)?;
        Ok(pen.finish().expect("within the limits").to_svg())
    }

    #[test]
    fn the_grammar_of_svg_2_section_9_3() {
        for (data, expected) in [
            ("M 1 2 3 4 5 6", "M1,2 L3,4 L5,6"),
            ("m1 2 3 4", "M1,2 L4,6"),
            ("M0 0-1-1", "M0,0 L-1,-1"),
            ("M.5.5.25.75", "M0.5,0.5 L0.25,0.75"),
            ("M0,0H5V5h-1v-1z", "M0,0 L5,0 L5,5 L4,5 L4,4 Z"),
            ("M1 1L2 2zm1 0l1 1", "M1,1 L2,2 Z M2,1 L3,2"),
            ("M1 1L2 2zL0 0", "M1,1 L2,2 Z M1,1 L0,0"),
            (
                "M0 0C0 1 1 1 1 0S2-1 2 0",
                "M0,0 C0,1 1,1 1,0 C1,-1 2,-1 2,0",
            ),
            ("M0 0S2-1 2 0", "M0,0 C0,0 2,-1 2,0"),
            ("M0 0Q1 1 2 0T4 0t2 0", "M0,0 Q1,1 2,0 Q3,-1 4,0 Q5,1 6,0"),
            ("M0 0L1 0T3 0", "M0,0 L1,0 Q1,0 3,0"),
            ("M0 0Q1 1 2 0S3 3 4 0", "M0,0 Q1,1 2,0 C2,0 3,3 4,0"),
            ("M0 0A0 5 0 0 1 9 9", "M0,0 L9,9"),
            ("M0 0A5 5 0 0 1 0 0L1 1", "M0,0 L1,1"),
            ("", ""),
            (" none ", ""),
            ("\n M\n0\t0 L\r1,1 ", "M0,0 L1,1"),
        ] {
            assert_eq!(drawn(data).expect(data), expected, "{data}");
        }
        let spaced = drawn("M0 0a1 1 0 0 0 1 1").expect("spaced");
        assert_eq!(drawn("M0 0a1 1 0 001 1").expect("packed"), spaced);
    }

    #[test]
    fn a_fault_is_an_error_where_it_stands() {
        for (data, at) in [
            ("L1 1", 0),
            ("M0 0 L 5 x", 9),
            ("M0 0 L 5", 8),
            ("M0 0 X 5 5", 5),
            ("M0 0 L 1 1 2", 12),
            ("M0 0z 5 5", 6),
            ("M0 0A1 1 0 2 0 5 5", 11),
            ("M0 0 C 1 1 2 2 3", 16),
            ("M0 0 L NaN 5", 7),
            ("M0 0 L 1e999 5", 7),
            ("M0,,0", 3),
            ("M0 0 L5 5;", 9),
            ("é", 0),
        ] {
            assert_eq!(drawn(data).expect_err(data).at, at, "{data}");
        }
    }
}
