//! Readings of drawings as Ls: what is refused, doubted and known beforehand.

use super::*;
use crate::geom::{BoxCorner, Point};
use crate::motif::Motif;

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Motif::from_points("m", points).expect("a line")
}

/// A zigzag L with its elbow top left, 10 wide and 8 high, legs 2 and 3 deep, from right to
/// bottom.
fn zigzag() -> Vec<(f64, f64)> {
    vec![
        (10.0, 1.0),
        (9.0, 2.0),
        (7.0, 0.0),
        (5.0, 2.0),
        (3.0, 0.0),
        (0.0, 3.0),
        (3.0, 5.0),
        (0.0, 6.0),
        (3.0, 7.0),
        (1.0, 8.0),
    ]
}

fn refused(points: &[(f64, f64)]) -> String {
    let error = analyse_legs(&motif(points)).expect_err("is no L");
    assert!(error.is_leg());
    error.to_string()
}

#[test]
fn what_is_no_l_is_refused_with_what_to_do() {
    let flat = refused(&[(0.0, 0.0), (5.0, 0.0), (9.0, 0.0)]);
    assert!(flat.starts_with("no empty inner corner found"), "{flat}");
    let block = refused(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0), (0.0, 0.0)]);
    assert!(block.contains("give its elbow and leg depth"), "{block}");
    let circle: Vec<(f64, f64)> = (0..=90)
        .map(|step| (f64::from(step) * 4.0).to_radians().sin_cos())
        .collect();
    refused(&circle);
}

#[test]
fn ends_that_lie_elsewhere_are_named() {
    let mut points = zigzag();
    points.extend(zigzag().into_iter().rev());
    assert_eq!(
        refused(&points),
        "the line does not run from one leg's open end to the other's: its start lies 0 % of \
         the horizontal leg's free length from the open end, its end 117 % of the vertical \
         leg's; give an L that starts and ends at its open ends, or give its elbow and leg depth outright"
    );
    let given = LegGiven {
        elbow: Some(BoxCorner::TopLeft),
        ..LegGiven::default()
    };
    let shape = choose_leg(&motif(&points), &given).expect("given outright");
    assert_eq!(
        shape.doubts,
        [LegDoubt::PortsElsewhere {
            starts_on: LegName::Horizontal,
            start_share: 0.0,
            end_share: 7.0 / 6.0,
        }]
    );
}

#[test]
fn a_diagonal_and_a_spiral_are_doubtful() {
    let diagonal = analyse_legs(&motif(&[(9.0, 0.0), (0.0, 9.0)])).expect("a reading");
    assert!(diagonal.len() == 2 && diagonal.iter().all(|shape| !shape.is_clear()));
    assert_eq!(
        diagonal[0].doubts[0],
        LegDoubt::RivalElbow {
            elbow: BoxCorner::TopLeft,
            rival: BoxCorner::BottomRight,
            share: 0.25,
            rival_share: 0.25,
        }
    );
    let spiral: Vec<(f64, f64)> = (0..400)
        .map(|step| {
            let angle = f64::from(step) / 20.0;
            (angle * angle.cos(), angle * angle.sin())
        })
        .collect();
    match analyse_legs(&motif(&spiral)) {
        Ok(shapes) => assert!(!shapes[0].is_clear()),
        Err(error) => assert!(error.is_leg()),
    }
}

#[test]
fn what_is_given_wins() {
    let drawing = motif(&zigzag());
    let measured = choose_leg(&drawing, &LegGiven::default()).expect("an L");
    assert_eq!(
        (measured.depth_horizontal, measured.depth_vertical),
        (2.0, 3.0)
    );
    assert!(measured.is_clear(), "{:?}", measured.doubts);
    let given = LegGiven {
        depth_horizontal: Some(2.5),
        ..LegGiven::default()
    };
    let shape = choose_leg(&drawing, &given).expect("an L");
    assert_eq!((shape.depth_horizontal, shape.depth_vertical), (2.5, 3.0));
    assert_eq!(shape.outer_depth_horizontal, 2.0);

    let quarter = LegGiven {
        turn_degrees: Some(90.0),
        ..LegGiven::default()
    };
    let shape = choose_leg(&drawing, &quarter).expect("an L");
    assert_eq!(shape.elbow, BoxCorner::TopRight);
    assert_eq!((shape.depth_horizontal, shape.depth_vertical), (3.0, 2.0));
    assert_eq!(shape.standard_depths(), measured.standard_depths());
    assert_eq!(shape.runs_clockwise(), measured.runs_clockwise());
}

#[test]
fn a_full_square_is_an_l_when_all_is_given() {
    let block = motif(&[(0.0, 0.0), (4.0, 0.0), (4.0, 4.0), (0.0, 4.0)]);
    let mut given = LegGiven {
        elbow: Some(BoxCorner::TopRight),
        depth_horizontal: Some(1.0),
        ..LegGiven::default()
    };
    assert!(choose_leg(&block, &given).is_err());
    given.depth_vertical = Some(1.5);
    let shape = choose_leg(&block, &given).expect("given outright");
    assert_eq!(shape.standard_depths(), (1.5, 1.0));
    assert_eq!(shape.turn_degrees, 0.0);
}

#[test]
fn what_cannot_be_is_refused() {
    let drawing = motif(&zigzag());
    let refused = |given: LegGiven| {
        choose_leg(&drawing, &given)
            .expect_err("cannot be")
            .to_string()
    };
    for depth in [0.0, -1.0, 8.0, f64::NAN, f64::INFINITY] {
        let message = refused(LegGiven {
            depth_horizontal: Some(depth),
            ..LegGiven::default()
        });
        assert!(message.contains("above 0 and below 8"), "{message}");
    }
    let message = refused(LegGiven {
        elbow: Some(BoxCorner::BottomRight),
        ..LegGiven::default()
    });
    assert!(
        message.starts_with("no empty inner corner found"),
        "{message}"
    );
    let message = refused(LegGiven {
        turn_degrees: Some(f64::NAN),
        ..LegGiven::default()
    });
    assert_eq!(
        message,
        "the turn of the drawing is NaN; give an angle in degrees"
    );
}
