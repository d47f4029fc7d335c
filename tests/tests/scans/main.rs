//! Pictures drawn by `resvg` from known lines, read again and held against them.
//!
//! The truth is the path data; `resvg` (crate, 0.49) draws it with a round pen, our own script
//! spoils the picture as scanners and phones do: blur, shade, noise, JPEG at quality 60, a turn.
//! The centre line has to be within 0.15 mm for 95 % of its length and within 0.6 mm everywhere,
//! but where lines are closer than the pen. `QUILTPATH_SCANS=all` runs the whole table in place of
//! a few of its rows; `QUILTPATH_SCANS_LOOK=folder` leaves the pictures with the lines on them
//! there.

mod fixture;
mod picture;
mod sheet;
mod truth;

use quiltpath_core::raster::{ScanOptions, scan};

use crate::picture::{Spoilt, drawn, look};
use crate::truth::{DRAWINGS, Drawn};

/// One row of the table: the drawing, dots per inch, the pen in millimetres, what is done to the
/// picture.
struct Case {
    drawing: &'static Drawn,
    dpi: f64,
    pen: f64,
    spoilt: Spoilt,
}

fn cases() -> Vec<Case> {
    let all = std::env::var("QUILTPATH_SCANS").is_ok_and(|value| value == "all");
    let mut cases = Vec::new();
    for drawing in &DRAWINGS {
        for (at, (dpi, pen)) in [
            (200.0, 0.6),
            (300.0, 0.4),
            (200.0, 1.2),
            (600.0, 0.8),
            (300.0, 0.6),
            (200.0, 0.4),
        ]
        .into_iter()
        .enumerate()
        {
            for spoilt in Spoilt::ALL {
                let few =
                    (at == 0 && spoilt != Spoilt::Jpeg) || (at == 1 && spoilt == Spoilt::Jpeg);
                if all || few {
                    cases.push(Case {
                        drawing,
                        dpi,
                        pen,
                        spoilt,
                    });
                }
            }
        }
    }
    cases
}

#[test]
fn centre_lines_are_where_the_pen_went() {
    let mut wrong = Vec::new();
    for case in cases() {
        let Case {
            drawing,
            dpi,
            pen,
            spoilt,
        } = case;
        let name = format!("{}-{dpi}dpi-{pen}mm-{spoilt:?}", drawing.name);
        let grey = spoilt.spoil(&drawn(drawing.data, drawing.size, dpi, pen), dpi);
        let truth = spoilt.turned(drawing.points());
        let width = truth::width(&truth);
        let options = ScanOptions::default()
            .with_width_mm(width)
            .expect("a width");
        let found = match scan(&name, &grey, &options) {
            Ok(found) => found,
            Err(error) => {
                wrong.push(format!("{name}: {error}"));
                continue;
            }
        };
        look(&name, &grey, &found);
        let off = truth::held_against(&found.drawing, &truth, pen);
        let report = &found.report;
        println!(
            "{name}: pen {:.3}, middle {:.3}, 95 % {:.3}, worst {:.3}, missed {:.3}; strokes {}, spurs {}, crossings {}, bridged {}, doubts {}",
            report.pen_mm,
            off.middle,
            off.most,
            off.worst,
            off.missed,
            found.drawing.strokes.len(),
            report.spurs,
            report.crossings,
            report.bridged.len(),
            report.doubts.len()
        );
        if off.most > 0.15 || off.worst > 0.6 || off.missed > 0.6 {
            wrong.push(format!("{name}: {off:?}"));
        }
        if (report.pen_mm - pen).abs() > 0.25 * pen + 0.1 {
            wrong.push(format!("{name}: the pen is {:.2} mm", report.pen_mm));
        }
    }
    assert!(wrong.is_empty(), "{}", wrong.join("\n"));
}
