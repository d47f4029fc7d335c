//! Lines with odd numbers: written in every format, stitched, checked, joined, moved.

use kurbo::BezPath;
use quiltpath_core::check::{Limits, check_lines};
use quiltpath_core::geom::flatten::flatten;
use quiltpath_core::geom::{Bounds, BoxCorner, Point};
use quiltpath_core::io::gcode::{GcodeOptions, write_gcode};
use quiltpath_core::io::svg_write::{SvgPath, WriteOptions, write_svg};
use quiltpath_core::io::template::write_template;
use quiltpath_core::io::{NamedLine, YAxis, dxf::write_dxf, paper::Paper};
use quiltpath_core::motif::Motif;
use quiltpath_core::stitch::job::{JobOptions, stitch_lines};
use quiltpath_core::stitch::resample::{StitchOptions, resample};
use quiltpath_core::strokes::{Drawing, EndPlace, Gaps, LegEnds, LineEnds, OneLineOptions, Stroke};
use quiltpath_core::transform::{Proportions, Transform};
use quiltpath_core::units::Unit;

use super::dice::{Dice, finite, told};

/// Beyond so many stitches it takes more than a second, by right.
const MOST_STITCHES: f64 = 1e5;

/// From here on a path is refused at once, by its docs: twice the 10 million stitches.
const REFUSED_STITCHES: f64 = 2e7;

pub(super) fn lines(data: &[u8]) {
    let mut dice = Dice::new(data);
    let lines: Vec<Vec<Point>> = (0..1 + dice.below(3))
        .map(|_| dice.points(0, 24, [100.0, 60.0]))
        .collect();
    match dice.below(5) {
        0 => written(&mut dice, &lines),
        1 => stitched(&mut dice, &lines),
        2 => checked(&mut dice, &lines),
        3 => joined(&mut dice, &lines),
        _ => curved(&mut dice),
    }
}

type Writer<'a> = dyn Fn(&mut String) -> Result<(), quiltpath_core::Error> + 'a;

/// Either an error and nothing written, or a text of numbers.
fn written(dice: &mut Dice<'_>, lines: &[Vec<Point>]) {
    let unit = dice.unit();
    let named: Vec<NamedLine<'_>> = (lines.iter())
        .map(|points| NamedLine::new("a line", points))
        .collect();
    let paths: Vec<SvgPath<'_>> = (lines.iter())
        .map(|points| SvgPath::new("a<b", points).with_title(Some("a & b")))
        .collect();
    let gcode = GcodeOptions::default()
        .with_feed(dice.maybe(2, |dice| dice.mostly(1.0, 100.0)))
        .with_y(dice.pick(&[YAxis::Up, YAxis::Down]));
    let mut length = || dice.maybe(2, |dice| dice.mostly(0.01, 1.0));
    let svg = WriteOptions::default()
        .with_smooth(length())
        .with_stroke_width(length())
        .with_dots(length());
    let paper = dice.pick(&[Paper::Letter, Paper::A4]);
    let writers: [&Writer<'_>; 4] = [
        &|out| write_dxf(out, unit, &named),
        &|out| write_gcode(out, unit, &named, &gcode),
        &|out| write_svg(out, unit, &paths, &svg),
        &|out| {
            let motifs: Result<Vec<Motif>, _> = (lines.iter())
                .map(|points| Motif::from_points("a <motif>", points.clone()))
                .collect();
            write_template(out, unit, "a <name>", &motifs?, paper).map(|_| ())
        },
    ];
    for write in writers {
        let mut out = String::new();
        match write(&mut out) {
            Ok(()) => assert!(!out.contains("NaN") && !out.contains("inf\""), "{out}"),
            Err(error) => {
                told(&error);
                assert!(out.is_empty(), "{out}");
            }
        }
    }
}

fn motifs(lines: &[Vec<Point>]) -> Vec<Motif> {
    let motif = |points: &Vec<Point>| Motif::from_points("m", points.clone()).ok();
    let motifs: Vec<Motif> = lines.iter().filter_map(motif).collect();
    for motif in &motifs {
        let ends = [motif.start().direction, motif.end().direction];
        assert!(
            ends.iter().all(|way| (way.norm() - 1.0).abs() < 1e-6),
            "{ends:?}"
        );
    }
    motifs
}

fn stitched(dice: &mut Dice<'_>, lines: &[Vec<Point>]) {
    let target = dice.mostly(0.5, 10.0);
    let stitch = StitchOptions::new(target)
        .with_minimum(dice.mostly(0.01, 0.8 * target))
        .with_chord_error(dice.mostly(0.01, 1.0))
        .with_cusp_degrees(dice.mostly(0.0, 180.0));
    let motifs = motifs(lines);
    let most: f64 = motifs.iter().map(Motif::length).sum();
    let (by_target, by_minimum) = (most / target, most / stitch.minimum);
    let refused = by_target > REFUSED_STITCHES;
    if target > 0.0 && !refused && by_target.max(by_minimum) > MOST_STITCHES {
        return;
    }
    for motif in &motifs {
        match resample(motif.line(), &stitch) {
            Ok(stitches) => {
                let points = &stitches.points;
                finite(points);
                assert_eq!(points.first(), motif.points().first());
                assert_eq!(points.last(), motif.points().last());
                let longest = 2.0f64.sqrt() * stitch.target * (1.0 + 1e-9);
                assert!(stitches.report.longest <= longest, "{:?}", stitches.report);
                assert!(stitches.anchors.is_sorted());
                assert!(stitches.anchors.iter().all(|&anchor| anchor < points.len()));
            }
            Err(error) => told(&error),
        }
    }
    let mut options = JobOptions::new(Unit::Mm);
    options.stitch = stitch;
    options.tie_off.stitches = dice.below(6);
    options.tie_off.length = dice.mostly(0.5, 2.0);
    options.machine.top_speed = dice.mostly(10.0, 100.0);
    options.machine.acceleration = dice.mostly(10.0, 500.0);
    options.thread.waste = dice.mostly(0.0, 1.0);
    match stitch_lines(&motifs, &options) {
        Ok(job) => {
            assert!(
                job.time.seconds().is_finite() && job.time.seconds() >= 0.0,
                "{:?}",
                job.time
            );
            assert!(job.length.is_finite() && job.thread.thread.total().is_finite());
            for line in &job.lines {
                finite(&line.points());
            }
        }
        Err(error) => told(&error),
    }
}

fn checked(dice: &mut Dice<'_>, lines: &[Vec<Point>]) {
    // Millions of squares along one long line take seconds by right.
    if lines
        .iter()
        .flatten()
        .any(|point| point.coords.amax() > 1e6)
    {
        return;
    }
    let mut limits = Limits::default();
    limits.close.distance = dice.mostly(0.1, 10.0);
    limits.close.length = dice.mostly(1.0, 20.0);
    limits.density.side = dice.mostly(5.0, 50.0);
    limits.density.length = dice.mostly(50.0, 500.0);
    limits.loops.length = dice.mostly(1.0, 20.0);
    let lines: Vec<&[Point]> = lines.iter().map(Vec::as_slice).collect();
    match check_lines(&lines, &limits) {
        Ok(report) => {
            for run in report.close.places.iter().chain(&report.twice.places) {
                assert!(run.length.is_finite() && run.nearest.is_finite());
                finite(&[run.at]);
            }
            for dense in &report.density.places {
                assert!(dense.length >= limits.density.length * (1.0 - 1e-9));
            }
            for small in &report.loops.places {
                assert!(small.length <= limits.loops.length * (1.0 + 1e-9));
            }
        }
        Err(error) => told(&error),
    }
}

fn joined(dice: &mut Dice<'_>, lines: &[Vec<Point>]) {
    let motifs = motifs(lines);
    let strokes = motifs.iter().map(|motif| {
        let path = quiltpath_core::interop::to_kurbo(motif);
        Stroke::new("p", path)
    });
    let drawing = Drawing::new("m", strokes.collect());
    let options = OneLineOptions::default().with_join(dice.mostly(0.0, 1.0));
    let place = |d: &mut Dice<'_>| {
        let at = EndPlace::At(Point::new(d.mostly(0.0, 99.0), d.mostly(0.0, 99.0)));
        d.pick(&[
            EndPlace::Left,
            EndPlace::Right,
            EndPlace::Top,
            EndPlace::Bottom,
            at,
        ])
    };
    let legs = LegEnds {
        elbow: dice.pick(&BoxCorner::ALL),
        depth_horizontal: dice.mostly(0.1, 50.0),
        depth_vertical: dice.mostly(0.1, 50.0),
        turn_degrees: dice.mostly(-90.0, 90.0),
    };
    let given = [dice.maybe(2, place), dice.maybe(2, place)];
    let ends = dice.pick(&[
        LineEnds::Free,
        LineEnds::Across,
        LineEnds::Legs(legs),
        LineEnds::given(given[0], given[1]),
        LineEnds::Across.with_given(given[0], given[1]),
        LineEnds::Legs(legs).with_given(given[0], given[1]),
    ]);
    let options = options.with_ends(ends);
    // All that is drawn is stitched, and no more than the report has.
    let cut = dice.maybe(2, |d| d.mostly(0.5, 50.0));
    match drawing.lines(&options.with_cut(cut)) {
        Ok(lines) => {
            let report = lines.report;
            let long: f64 = lines.motifs.iter().map(|line| line.length()).sum();
            let sum = report.drawn + report.retraced + report.linked;
            if report.strokes > 0 {
                assert!(
                    (long - sum).abs() <= 1e-6 * (1.0 + sum),
                    "{long} {report:?}"
                );
                assert_eq!(lines.motifs.len(), report.cuts + 1);
                assert!(
                    report.least <= report.added() * (1.0 + 1e-6) + 1e-6,
                    "{report:?}"
                );
            }
            lines.motifs.iter().for_each(|line| finite(line.points()));
        }
        Err(error) => told(&error),
    }
    for gaps in [Gaps::Refuse, Gaps::Link, Gaps::OneLine, Gaps::Apart] {
        match drawing.one_line(&options.with_gaps(gaps)) {
            Ok(joined) => finite(joined.as_ref()),
            Err(error) => told(&error),
        }
    }
    match drawing.fewest_lines(&options) {
        Ok(met) => assert!(met.len() <= motifs.len()),
        Err(error) => told(&error),
    }
    for motif in &motifs {
        let size = [
            dice.maybe(2, |d| d.mostly(1.0, 90.0)),
            dice.maybe(2, |d| d.mostly(1.0, 90.0)),
        ];
        let how = dice.pick(&[Proportions::Keep, Proportions::Free]);
        let bounds: Bounds = motif.bounds();
        match Transform::fit(bounds, size[0], size[1], how) {
            Ok(fit) => match motif.transformed(&fit) {
                Ok(moved) => finite(moved.points()),
                Err(error) => told(&error),
            },
            Err(error) => told(&error),
        }
        for end in [
            motif.start_at(motif.points()[0]),
            motif.end_at(Point::origin()),
        ] {
            match end {
                Ok(moved) => assert!(moved.length() > 0.0),
                Err(error) => told(&error),
            }
        }
    }
}

fn curved(dice: &mut Dice<'_>) {
    let mut path = BezPath::new();
    let points = dice.points(1, 40, [100.0, 60.0]);
    if points.iter().any(|point| point.coords.amax() > 1e5) {
        return;
    }
    let mut points = points.iter().map(|p| kurbo::Point::new(p.x, p.y));
    let mut next = || points.next();
    path.move_to(next().unwrap_or_default());
    while let Some(to) = next() {
        match dice.below(5) {
            0 => path.move_to(to),
            1 => path.line_to(to),
            2 => path.quad_to(to, next().unwrap_or(to)),
            3 => path.curve_to(to, next().unwrap_or(to), next().unwrap_or(to)),
            _ => path.close_path(),
        }
    }
    let bounds = quiltpath_core::geom::curve_bounds::curve_bounds(&path);
    match flatten(&path, 0.01) {
        Ok(flat) => {
            for subpath in &flat {
                finite(&subpath.points);
                for way in [subpath.start_direction, subpath.end_direction] {
                    let size = way.norm();
                    assert!(size == 0.0 || (size - 1.0).abs() < 1e-6, "{way}");
                }
                let ink = Bounds::of(&subpath.points).expect("points");
                let all = bounds.expect("points").union(&ink);
                let grown = bounds.expect("points");
                assert!(
                    (all.size() - grown.size()).amax() <= 0.021,
                    "{ink:?} {grown:?}"
                );
            }
        }
        Err(error) => told(&error),
    }
}
