//! DXF out: open polylines in the published ASCII form, release 12, for general machines.
//!
//! Written by the published DXF reference (group codes as text, from memory): release 12, since
//! about every reader takes it, with one POLYLINE of VERTEX entities for each line, first point
//! first, and its name as the layer. `$INSUNITS` gives the unit; release 12 does not know it yet,
//! so a comment (group 999) names it too.
//! The y axis of DXF points **up**: y changes its sign, the origin stays, and the picture looks as
//! it did. Numbers are rounded to 1e-4 of the unit of the file.

use std::collections::HashSet;
use std::fmt::Write;

use super::plain::{NamedLine, PlainLines, YAxis};
use super::ticks::Ticks;
use crate::error::Error;
use crate::units::Unit;

/// The longest name of a layer in release 12.
const NAME_LENGTH: usize = 31;

/// Writes a DXF of these lines at the end of `out`; their points are in `unit`.
///
/// The file is in millimetres for millimetres, centimetres and metres, in inches for inches, feet
/// and yards. Each line gets a layer of its own: what a name of a layer can't hold becomes `-`, a
/// name given twice gets a number.
///
/// ```
/// use quiltpath_core::io::{NamedLine, dxf::write_dxf};
/// use quiltpath_core::{geom::Point, units::Unit};
///
/// let points = [Point::new(0.0, 0.0), Point::new(4.5, 0.25)];
/// let mut dxf = String::new();
/// write_dxf(&mut dxf, Unit::In, &[NamedLine::new("leaf", &points)])?;
/// assert!(dxf.contains("VERTEX\n8\nleaf\n10\n4.5\n20\n-0.25\n"));
/// assert!(dxf.ends_with("EOF\n"));
/// # Ok::<(), quiltpath_core::Error>(())
/// ```
///
/// # Errors
///
/// A drawing error when there is no line; a geometry error that names the line when its points are
/// no line. Then nothing is written.
///
/// # Complexity
///
/// O(points).
pub fn write_dxf(out: &mut String, unit: Unit, lines: &[NamedLine<'_>]) -> Result<(), Error> {
    let plain = PlainLines::new(unit, lines, YAxis::Up)?;
    let mut layers = Layers::default();
    let names: Vec<String> = plain
        .lines
        .iter()
        .map(|line| layers.unique(line.0))
        .collect();
    let mut groups = Groups(out);
    groups.header(&plain);
    groups.tables(&names);
    groups.open("ENTITIES");
    for (name, (_, points)) in names.iter().zip(&plain.lines) {
        groups.polyline(name, points);
    }
    groups.text(0, "ENDSEC");
    groups.text(0, "EOF");
    Ok(())
}

/// Group codes, each on a line of its own before its value.
struct Groups<'a>(&'a mut String);

impl Groups<'_> {
    fn text(&mut self, code: u32, value: &str) {
        // Writing to a String can't fail.
        let _ = writeln!(self.0, "{code}\n{value}");
    }

    fn number(&mut self, code: u32, value: Ticks) {
        let _ = writeln!(self.0, "{code}");
        value.write(self.0);
        self.0.push('\n');
    }

    fn open(&mut self, section: &str) {
        self.text(0, "SECTION");
        self.text(2, section);
    }

    fn header(&mut self, plain: &PlainLines<'_>) {
        let (name, code) = match plain.unit {
            Unit::In => ("inches", "1"),
            _ => ("millimetres", "4"),
        };
        self.text(999, &format!("Lengths in {name}, x to the right, y up"));
        self.open("HEADER");
        self.text(9, "$ACADVER");
        self.text(1, "AC1009");
        self.text(9, "$INSUNITS");
        self.text(70, code);
        let all = || plain.lines.iter().flat_map(|(_, points)| points);
        let least = |axis: usize| all().map(|point| point[axis].0).min().unwrap_or(0);
        let most = |axis: usize| all().map(|point| point[axis].0).max().unwrap_or(0);
        for (name, corner) in [
            ("$EXTMIN", [least(0), least(1)]),
            ("$EXTMAX", [most(0), most(1)]),
        ] {
            self.text(9, name);
            self.point(corner.map(Ticks));
        }
        self.text(0, "ENDSEC");
    }

    fn tables(&mut self, names: &[String]) {
        self.open("TABLES");
        self.table("LTYPE", 1);
        self.text(0, "LTYPE");
        self.text(2, "CONTINUOUS");
        self.text(70, "0");
        self.text(3, "Solid line");
        self.text(72, "65");
        self.text(73, "0");
        self.text(40, "0");
        self.text(0, "ENDTAB");
        self.table("LAYER", names.len());
        for name in names {
            self.text(0, "LAYER");
            self.text(2, name);
            self.text(70, "0");
            self.text(62, "7");
            self.text(6, "CONTINUOUS");
        }
        self.text(0, "ENDTAB");
        self.text(0, "ENDSEC");
    }

    fn table(&mut self, name: &str, entries: usize) {
        self.text(0, "TABLE");
        self.text(2, name);
        self.text(70, &entries.to_string());
    }

    fn polyline(&mut self, layer: &str, points: &[[Ticks; 2]]) {
        self.text(0, "POLYLINE");
        self.text(8, layer);
        self.text(66, "1");
        self.point([Ticks(0); 2]);
        self.text(70, "0");
        for point in points {
            self.text(0, "VERTEX");
            self.text(8, layer);
            self.point(*point);
        }
        self.text(0, "SEQEND");
        self.text(8, layer);
    }

    fn point(&mut self, [x, y]: [Ticks; 2]) {
        self.number(10, x);
        self.number(20, y);
        self.text(30, "0");
    }
}

/// The names of layers given so far, in capitals: to readers capitals and small letters are the
/// same.
#[derive(Default)]
struct Layers(HashSet<String>);

impl Layers {
    fn unique(&mut self, wanted: &str) -> String {
        let allowed = |c: char| match c {
            c if c.is_ascii_alphanumeric() || "-_$".contains(c) => c,
            _ => '-',
        };
        let mut base: String = wanted
            .trim()
            .chars()
            .map(allowed)
            .take(NAME_LENGTH)
            .collect();
        if base.is_empty() {
            base.push_str("line");
        }
        let mut name = base.clone();
        let mut number = self.0.len();
        while !self.0.insert(name.to_ascii_uppercase()) {
            number += 1;
            let end = format!("-{number}");
            let kept = base.len().min(NAME_LENGTH - end.len());
            name = format!("{}{end}", &base[..kept]);
        }
        name
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::geom::Point;
    use proptest::prelude::*;

    /// The header's unit and each polyline's layer and vertices, read by group codes alone.
    fn read(dxf: &str) -> (String, Vec<(String, Vec<Point>)>) {
        let rows: Vec<&str> = dxf.lines().collect();
        assert_eq!(rows.len() % 2, 0);
        let groups: Vec<(u32, &str)> = rows
            .chunks(2)
            .map(|pair| (pair[0].parse().expect("a code"), pair[1]))
            .collect();
        let at = groups
            .iter()
            .position(|group| *group == (9, "$INSUNITS"))
            .expect("a unit");
        let mut lines: Vec<(String, Vec<Point>)> = vec![];
        let mut inside = "";
        for (code, value) in &groups {
            match (code, *value, inside) {
                (0, "POLYLINE", _) => lines.push((String::new(), vec![])),
                (8, layer, "POLYLINE") => lines.last_mut().expect("open").0 = layer.to_owned(),
                (8, layer, "VERTEX" | "SEQEND") => assert_eq!(lines.last().expect("open").0, layer),
                (10, x, "VERTEX") => {
                    let x = x.parse().expect("x");
                    lines
                        .last_mut()
                        .expect("open")
                        .1
                        .push(Point::new(x, f64::NAN));
                }
                (20, y, "VERTEX") => {
                    let point = lines.last_mut().expect("open").1.last_mut();
                    point.expect("x first").y = y.parse().expect("y");
                }
                _ => {}
            }
            if *code == 0 {
                inside = value;
            }
        }
        assert_eq!(inside, "EOF");
        (groups[at + 1].1.to_owned(), lines)
    }

    fn written(unit: Unit, lines: &[NamedLine<'_>]) -> String {
        let mut out = String::new();
        write_dxf(&mut out, unit, lines).expect("written");
        out
    }

    #[test]
    fn layers_are_safe_and_unique() {
        let points = [Point::new(0.0, 0.0), Point::new(1.0, 1.0)];
        let long = "a".repeat(40);
        let names = ["Leaf é", "leaf -", "", "  ", &long, &long, "0\n0\nEOF"];
        let lines: Vec<_> = names
            .iter()
            .map(|name| NamedLine {
                name,
                points: &points,
            })
            .collect();
        let (_, read) = read(&written(Unit::Mm, &lines));
        let layers: Vec<&str> = read.iter().map(|line| line.0.as_str()).collect();
        let (cut, numbered) = ("a".repeat(31), format!("{}-6", "a".repeat(29)));
        assert_eq!(
            layers,
            [
                "Leaf--", "leaf---2", "line", "line-4", &cut, &numbered, "0-0-EOF"
            ]
        );
    }

    #[test]
    fn nothing_is_written_when_a_line_is_none() {
        let mut out = String::from("before");
        let line = NamedLine {
            name: "leaf",
            points: &[],
        };
        let error = write_dxf(&mut out, Unit::Mm, &[line]).expect_err("no points");
        assert!(
            error
                .to_string()
                .starts_with("leaf: 0 points can't make a line")
        );
        assert!(write_dxf(&mut out, Unit::Mm, &[]).is_err());
        assert_eq!(out, "before");
    }

    proptest! {
        #[test]
        fn reading_back_moves_no_point(
            lines in prop::collection::vec(prop::collection::vec((-900.0..900.0f64, -900.0..900.0f64), 2..30), 1..4),
            unit in prop::sample::select(Unit::ALL.to_vec()),
        ) {
            let lines: Vec<Vec<Point>> = lines.iter().map(|line| line.iter().map(|&(x, y)| Point::new(x, y)).collect()).collect();
            let named: Vec<_> = lines.iter().map(|points| NamedLine { name: "p", points }).collect();
            let (code, back) = read(&written(unit, &named));
            let file = if code == "4" { Unit::Mm } else { Unit::In };
            let factor = (unit.in_mm() / file.in_mm()).round();
            prop_assert_eq!(back.len(), lines.len());
            for (back, line) in back.iter().zip(&lines) {
                prop_assert_eq!(back.1.len(), line.len());
                for (back, point) in back.1.iter().zip(line) {
                    let up = Point::new(point.x * factor, -point.y * factor);
                    prop_assert!((back - up).amax() <= 0.500_01e-4);
                }
            }
        }
    }
}
