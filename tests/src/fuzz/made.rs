//! Whole plans by dice: 3 to 8 sides, every style, odd sizes, drawings of a few points, and what
//! `tops` adds.

use quiltpath_core::chain::{Alternate, Ends};
use quiltpath_core::corner::{Arrangement, ExtraLoops};
use quiltpath_core::fit::Parity;
use quiltpath_core::geom::{BoxCorner as Elbow, Point};
use quiltpath_core::io::json::{read_plan, write_plan};
use quiltpath_core::plan::PlanSpec;
use quiltpath_core::plan::spec::{
    BorderSpec, BySide, ChecksSpec, CornerSpec, CornerStyle, LegSpec, LengthSpec, MachineSpec,
    OrderSpec, QuiltSpec, RollSpec, SideNameSpec, SideSpec, StationSpec, StitchingSpec, ThreadSpec,
    ThroughSpec, TrimSpec, UnitSpec, YSpec,
};
use quiltpath_core::trim::JoinOrder;
use quiltpath_core::units::{Length, Unit};

use super::dice::Dice;
use super::plan::{drawn, worked};
use super::tops;

pub(super) fn plan_made(data: &[u8]) {
    let mut dice = Dice::new(data);
    let (mut spec, sides) = spec(&mut dice);
    let corner = corner_points(&mut dice);
    let side = side_points(&mut dice);
    tops::add(&mut spec, sides, &mut dice);
    let centre = side_points(&mut dice);
    if numbers_of_json(&spec) {
        let text = write_plan(&spec);
        let back = read_plan(text.as_bytes()).unwrap_or_else(|e| panic!("{e}: {text}"));
        assert_eq!(write_plan(&back), text);
    }
    worked(&spec, |request| {
        drawn(match request.name.as_str() {
            "corner" => corner.clone(),
            "centre" => centre.clone(),
            _ => side.clone(),
        })
    });
}

/// JSON has no NaN, and no length beyond what can be typed.
fn numbers_of_json(spec: &PlanSpec) -> bool {
    let text = format!("{spec:?}");
    let word = |word: &str| {
        word.parse::<f64>()
            .is_ok_and(|n| n.is_nan() || n.abs() > 1e9)
    };
    !text
        .split(|c: char| !(c.is_ascii_alphanumeric() || ".+-".contains(c)))
        .any(word)
}

/// A length in millimetres as the plan's unit or another has it.
pub(super) fn length(dice: &mut Dice<'_>, from: f64, to: f64) -> LengthSpec {
    if dice.once_in(24) {
        return LengthSpec(Length::bare(dice.number()));
    }
    // Sixteenths, as off a tape measure.
    let mm = dice.between(from, to);
    LengthSpec::with((mm / 25.4 * 16.0).round() / 16.0, Unit::In)
}

pub(super) fn maybe_length(
    dice: &mut Dice<'_>,
    times: usize,
    from: f64,
    to: f64,
) -> Option<LengthSpec> {
    dice.maybe(times, |dice| length(dice, from, to))
}

fn number(dice: &mut Dice<'_>, times: usize, from: f64, to: f64) -> Option<f64> {
    dice.maybe(times, |dice| dice.mostly(from, to))
}

fn quilt(dice: &mut Dice<'_>) -> (QuiltSpec, usize) {
    let (width, height) = (dice.between(300.0, 2500.0), dice.between(300.0, 2500.0));
    let exact = |mm: f64| LengthSpec::with(mm, Unit::Mm);
    match dice.below(4) {
        0 => (QuiltSpec::rectangle(exact(width), exact(height)), 4),
        1 => {
            let mut near = |mm: f64| length(dice, mm * 0.97, mm * 1.03);
            let mut spec = {
                let mut spec = QuiltSpec::default();
                spec.top = Some(near(width));
                spec.right = Some(near(height));
                spec.bottom = Some(near(width));
                spec.left = Some(near(height));
                spec
            };
            let across = width.hypot(height);
            let which = dice.below(3);
            if which != 0 {
                spec.falling = Some(length(dice, across * 0.98, across * 1.02));
            }
            if which != 1 {
                spec.rising = Some(length(dice, across * 0.98, across * 1.02));
            }
            (spec, 4)
        }
        _ => {
            let sides = 3 + dice.below(6);
            let corners = (0..sides).map(|index| {
                let share = index as f64 + dice.between(-0.15, 0.15);
                let angle = std::f64::consts::TAU * share / sides as f64 - 2.3;
                let corner = [width / 2.0 * angle.cos(), height / 2.0 * angle.sin()];
                corner.map(|mm| LengthSpec::with(mm, Unit::Mm))
            });
            let spec = {
                let mut spec = QuiltSpec::default();
                spec.corners = Some(corners.collect());
                spec
            };
            (spec, sides)
        }
    }
}

fn corner(dice: &mut Dice<'_>) -> CornerSpec {
    use CornerStyle::{Bent, Block, Butted, Leg, Mitred, Open};
    let style = dice.pick(&[Leg, Open, Butted, Block, Mitred, Bent]);
    let mut spec = CornerSpec::new(style);
    if matches!(style, Leg | Block) {
        spec.motif = Some("corner".to_owned());
        spec.arrangement = dice.maybe(2, |d| d.pick(&[Arrangement::Mirrored, Arrangement::Turned]));
    }
    let elbows = [
        Elbow::TopLeft,
        Elbow::TopRight,
        Elbow::BottomRight,
        Elbow::BottomLeft,
    ];
    match style {
        Leg => match dice.below(3) {
            0 => {
                spec.leg = Some({
                    let mut spec = LegSpec::default();
                    spec.elbow = dice.maybe(2, |d| d.pick(&elbows));
                    spec.horizontal_depth = maybe_length(dice, 2, 10.0, 90.0);
                    spec.vertical_depth = maybe_length(dice, 2, 10.0, 90.0);
                    spec.turn_degrees = number(dice, 6, -180.0, 180.0);
                    spec
                });
            }
            1 => {
                spec.trim = Some({
                    let mut spec = TrimSpec::new(length(dice, 10.0, 90.0));
                    spec.elbow = dice.maybe(2, |d| d.pick(&elbows));
                    spec.width = maybe_length(dice, 3, 50.0, 150.0);
                    spec.height = maybe_length(dice, 3, 50.0, 150.0);
                    spec.inset = maybe_length(dice, 3, 0.0, 5.0);
                    spec.order = dice.maybe(2, |d| {
                        d.pick(&[JoinOrder::Free, JoinOrder::KeepAndReverse, JoinOrder::Keep])
                    });
                    spec
                });
            }
            _ => {}
        },
        Open | Block | Butted => {
            spec.gap = maybe_length(dice, 3, 0.0, 20.0);
            if style == Block {
                spec.on_point = dice.maybe(2, |d| d.once_in(2)).unwrap_or(false);
            }
            if style == Butted {
                spec.through = dice.maybe(2, |d| {
                    d.pick(&[ThroughSpec::TopBottom, ThroughSpec::LeftRight])
                });
            }
        }
        Mitred | Bent => {
            spec.legs = dice.maybe(2, |d| d.below(4));
            if style == Mitred {
                spec.smooth = maybe_length(dice, 2, 0.0, 20.0);
                spec.extra = dice.maybe(2, |d| d.pick(&[ExtraLoops::Link, ExtraLoops::Drop]));
            } else if dice.once_in(2) {
                spec.radius = maybe_length(dice, 2, 20.0, 300.0);
            } else {
                spec.length_change_percent = number(dice, 2, 1.0, 99.0);
            }
        }
        style => unreachable!("{style:?} was not picked"),
    }
    spec
}

fn side(dice: &mut Dice<'_>, sides: usize) -> SideSpec {
    let mut spec = SideSpec::new("side");
    spec.every = dice.maybe(6, |d| d.below(5));
    spec.parity = dice
        .maybe(6, |d| d.pick(&[Parity::Even, Parity::Odd]))
        .unwrap_or_default();
    spec.repeats = dice.maybe(6, |d| {
        if d.once_in(2) {
            BySide::One(d.below(20))
        } else {
            BySide::List((0..sides).map(|_| d.maybe(2, |d| d.below(20))).collect())
        }
    });
    spec.opposite_alike = dice.maybe(4, |d| d.once_in(2)).unwrap_or(false);
    spec.alternate = dice
        .maybe(2, |d| {
            d.pick(&[
                Alternate::None,
                Alternate::LeftRight,
                Alternate::TopBottom,
                Alternate::Centred,
            ])
        })
        .unwrap_or_default();
    spec.ease = dice.maybe(3, |d| d.once_in(2)).unwrap_or(false);
    spec.ends = dice
        .maybe(3, |d| d.pick(&[Ends::Level, Ends::Link]))
        .unwrap_or_default();
    spec
}

fn border(dice: &mut Dice<'_>, sides: usize) -> BorderSpec {
    let width = if dice.once_in(3) {
        BySide::List(
            (0..sides)
                .map(|_| Some(length(dice, 50.0, 160.0)))
                .collect(),
        )
    } else {
        BySide::One(length(dice, 50.0, 160.0))
    };
    let stations = (0..dice.below(24).saturating_sub(18)).map(|_| {
        let mut spec = StationSpec::new(
            SideNameSpec::Number(1 + dice.below(sides)),
            length(dice, 20.0, 900.0),
        );
        spec.edge = maybe_length(dice, 2, -15.0, 15.0);
        spec.seam = maybe_length(dice, 2, 50.0, 160.0);
        spec
    });
    let mut stations: Vec<StationSpec> = stations.collect();
    stations.sort_by(|a, b| a.at.mm(Unit::Mm).total_cmp(&b.at.mm(Unit::Mm)));
    let mut spec = BorderSpec::new(width, corner(dice), side(dice, sides));
    spec.name = dice.maybe(3, |d| d.pick(&["border", "a/b <c>", "é", ""]).to_owned());
    spec.seam_gap = maybe_length(dice, 3, 0.0, 20.0);
    spec.edge_gap = maybe_length(dice, 3, 0.0, 20.0);
    spec.slack = maybe_length(dice, 3, 0.0, 10.0);
    spec.stations = stations;
    spec
}

fn spec(dice: &mut Dice<'_>) -> (PlanSpec, usize) {
    let (quilt, sides) = quilt(dice);
    let borders = (0..1 + dice.below(8) / 6)
        .map(|_| border(dice, sides))
        .collect();
    let mut spec = PlanSpec::new(
        dice.pick(&[UnitSpec::In, UnitSpec::Mm, UnitSpec::Cm]),
        quilt,
    );
    spec.title = dice.maybe(4, |d| d.pick(&["A & B", "<t>", ""]).to_owned());
    spec.borders = borders;
    if dice.once_in(4) {
        spec.order = OrderSpec::CornersFirst;
    }
    spec.stitching = dice.maybe(4, |d| {
        let mut spec = StitchingSpec::default();
        spec.stitches_per_inch = number(d, 2, 4.0, 20.0);
        spec.minimum = maybe_length(d, 3, 0.1, 2.0);
        spec.chord_error = maybe_length(d, 3, 0.01, 1.0);
        spec.tie_off = d.maybe(3, |d| d.below(8));
        spec
    });
    spec.machine = dice.maybe(2, |d| {
        let mut spec = MachineSpec::default();
        spec.unit = d.maybe(4, |d| d.pick(&[UnitSpec::In, UnitSpec::Mm, UnitSpec::Cm]));
        spec.y = d.pick(&[YSpec::Down, YSpec::Up]);
        spec.throat = maybe_length(d, 2, 200.0, 800.0);
        if spec.throat.is_some() {
            spec.reserve = maybe_length(d, 4, 0.0, 60.0);
            spec.roll = d.maybe(3, |d| {
                let bar = LengthSpec::with(d.mostly(20.0, 100.0), Unit::Mm);
                RollSpec::new(bar, LengthSpec::with(d.mostly(0.5, 10.0), Unit::Mm))
            });
        }
        spec.turned = d.maybe(2, |d| d.once_in(2)).unwrap_or(false);
        spec.top_speed = maybe_length(d, 4, 10.0, 200.0);
        spec.acceleration = maybe_length(d, 4, 10.0, 500.0);
        spec.seconds_per_start = number(d, 4, 0.0, 30.0);
        spec.seconds_per_cut = number(d, 4, 0.0, 30.0);
        spec.seconds_per_advance = number(d, 4, 0.0, 300.0);
        spec.seconds_per_reading = number(d, 4, 0.0, 30.0);
        spec.seconds_per_loading = number(d, 4, 0.0, 900.0);
        spec
    });
    spec.thread = dice.maybe(6, |d| {
        let mut spec = ThreadSpec::default();
        spec.thickness = maybe_length(d, 2, 0.5, 5.0);
        spec.tail = maybe_length(d, 2, 0.0, 200.0);
        spec.waste_percent = number(d, 2, 0.0, 50.0);
        spec.spool = maybe_length(d, 2, 1e5, 2e6);
        spec.bobbin = maybe_length(d, 2, 1e4, 2e5);
        spec
    });
    spec.checks = dice.maybe(6, |d| {
        let mut spec = ChecksSpec::default();
        spec.closest = maybe_length(d, 2, 0.0, 10.0);
        spec.densest = maybe_length(d, 2, 50.0, 1000.0);
        spec
    });
    spec.shared_depth = dice.maybe(4, |d| d.once_in(2)).unwrap_or(false);
    spec.join_tolerance = maybe_length(dice, 8, 0.01, 2.0);
    spec.max_stretch_percent = number(dice, 8, 1.0, 30.0);
    spec.customer = dice.maybe(6, |d| d.pick(&["A & <b>", " ", "A\nB"]).to_owned());
    spec.notes = dice.maybe(6, |d| d.pick(&["<i>\r\n\u{7}", "\n", "A\n\nB"]).to_owned());
    (spec, sides)
}

/// An L of a few zigzags, its depth and its ends by dice; or any points.
fn corner_points(dice: &mut Dice<'_>) -> Vec<Point> {
    if dice.once_in(4) {
        return dice.points(2, 16, [100.0, 100.0]);
    }
    let (size, depth) = (dice.between(80.0, 160.0), dice.between(15.0, 60.0));
    let teeth = 2 + dice.below(4);
    let mut leg: Vec<(f64, f64)> = (0..2 * teeth)
        .map(|tooth| {
            let along = size - (size - depth) * tooth as f64 / (2 * teeth) as f64;
            let across = if tooth % 2 == 0 { 0.0 } else { depth };
            (across, along)
        })
        .collect();
    leg[0].0 = dice.between(0.0, depth);
    let other = leg.iter().rev().map(|&(across, along)| (along, across));
    let points = leg
        .iter()
        .copied()
        .chain(std::iter::once((0.0, 0.0)))
        .chain(other);
    points.map(|(x, y)| Point::new(x, y)).collect()
}

/// A wave from left to right; or any points.
fn side_points(dice: &mut Dice<'_>) -> Vec<Point> {
    if dice.once_in(4) {
        return dice.points(2, 12, [100.0, 50.0]);
    }
    let level = dice.between(0.0, 50.0);
    let mut points = dice.points(1, 10, [100.0, 50.0]);
    points.insert(0, Point::new(0.0, level));
    points.push(Point::new(
        100.0,
        if dice.once_in(6) { 50.0 - level } else { level },
    ));
    points
}
