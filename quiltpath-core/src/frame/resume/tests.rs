use super::*;
use crate::geom::measure::{length, point_at};
use crate::units::Unit;
use proptest::prelude::*;

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Motif::from_points("line", points).expect("a line")
}

fn options() -> JobOptions {
    JobOptions::new(Unit::Mm)
}

#[test]
fn what_lies_beyond_the_end_is_refused_with_the_length_there_is() {
    let line = motif(&[(0.0, 0.0), (254.0, 0.0)]);
    let words = |stop| {
        let error = stitched_length(&line, stop, &options()).expect_err("beyond");
        assert!(error.is_resume(), "{error}");
        error.to_string()
    };
    assert_eq!(
        words(Stop::Length(300.0)),
        "the run can't have stopped after 300 of line, since it is 254 long; give up to that"
    );
    assert_eq!(
        words(Stop::Stitch(109)),
        "the run can't have stopped at stitch 109, since it has 108 stitches, tie-offs included; give up to that"
    );
    // 3 s for each tie-off, 254/75 + 0.3 s to move.
    assert_eq!(
        words(Stop::Minutes(1.0)),
        "the run can't have stopped after 1 minutes, since it takes 0.1614; give up to that"
    );
    for stop in [
        Stop::Length(-1.0),
        Stop::Length(f64::NAN),
        Stop::Minutes(-1.0),
    ] {
        assert!(
            stitched_length(&line, stop, &options())
                .expect_err("none")
                .is_geometry()
        );
    }
    let none = rest_of(&line, 254.0, 0.0, &options()).expect_err("nothing left");
    assert!(
        none.to_string()
            .starts_with("nothing of the run is left after 254"),
        "{none}"
    );
    assert!(
        rest_of(&line, 10.0, -1.0, &options())
            .expect_err("back")
            .is_geometry()
    );
}

#[test]
fn the_ends_of_a_run_are_its_ends() {
    let line = motif(&[(0.0, 0.0), (254.0, 0.0)]);
    let at = |stop| stitched_length(&line, stop, &options()).expect("a length");
    assert_eq!((at(Stop::Stitch(0)), at(Stop::Stitch(4))), (0.0, 0.0));
    assert!((at(Stop::Stitch(104)) - 254.0).abs() < 1e-9);
    assert_eq!(at(Stop::Stitch(108)), 254.0);
    assert_eq!(
        (at(Stop::Minutes(0.0)), at(Stop::Minutes(0.05))),
        (0.0, 0.0)
    );
    let end = (254.0 / 75.0 + 0.3 + 3.0) / 60.0;
    assert!((at(Stop::Minutes(end)) - 254.0).abs() < 1e-6);
    // Nothing is stitched: the rest is the line itself, bit for bit.
    let rest = rest_of(&line, 5.0, 12.7, &options()).expect("a rest");
    assert_eq!(
        (rest.motif.points(), rest.from, rest.overlap),
        (line.points(), 0.0, 5.0)
    );
    // A break in the last stitch: the end is secured anew.
    let rest = rest_of(&line, 254.0, 12.7, &options()).expect("a rest");
    assert!((rest.motif.length() - 12.7).abs() < 1e-9 && (rest.overlap - 12.7).abs() < 1e-9);
}

#[test]
fn a_closed_run_begins_and_ends_at_its_start() {
    let line = motif(&[
        (0.0, 0.0),
        (100.0, 0.0),
        (100.0, 100.0),
        (0.0, 100.0),
        (0.0, 0.0),
    ]);
    let strands = strands_at(&line, Point::new(0.0, 0.0), STRANDS_MM, FARTHEST_MM);
    let mut lengths: Vec<f64> = strands.expect("strands").iter().map(|s| s.length).collect();
    lengths.sort_by(f64::total_cmp);
    assert_eq!(lengths, [0.0, 400.0]);
}

#[test]
fn a_point_off_the_run_is_refused_and_a_turn_is_one_strand() {
    let line = motif(&[(0.0, 0.0), (100.0, 0.0), (0.0, 1.0)]);
    let far = strands_at(&line, Point::new(50.0, 60.0), STRANDS_MM, FARTHEST_MM);
    let far = far.expect_err("far");
    assert!(
        far.is_resume() && far.to_string().contains("up to 25.4 are accepted"),
        "{far}"
    );
    let no = strands_at(&line, Point::new(f64::NAN, 0.0), STRANDS_MM, FARTHEST_MM);
    assert!(no.expect_err("no point").is_geometry());
    let one = strands_at(&line, Point::new(101.0, 0.0), STRANDS_MM, FARTHEST_MM).expect("one");
    assert_eq!((one.len(), one[0].length), (1, 100.0));
    // Away from the turn the two ways are two strands.
    let two = strands_at(&line, Point::new(20.0, 0.0), STRANDS_MM, FARTHEST_MM).expect("two");
    assert_eq!((two.len(), two[0].length), (2, 20.0));
}

proptest! {
    #[test]
    fn rest_and_stitched_cover_the_line_once_but_for_the_overlap(
        points in prop::collection::vec((-90.0..90.0f64, -90.0..90.0f64), 2..30),
        closed in any::<bool>(),
        share in 0.0..=1.0f64,
        back in 0.0..40.0f64,
    ) {
        let mut points = points;
        if closed { points.push(points[0]); }
        prop_assume!(points.iter().any(|point| *point != points[0]));
        let line = motif(&points);
        let whole = line.length();
        let stitched = share * whole;
        let rest = rest_of(&line, stitched, back, &options());
        prop_assume!(stitched - back < whole);
        let rest = rest.expect("a rest");
        prop_assert!((rest.from - (stitched - back).max(0.0)).abs() < 1e-9);
        prop_assert!((rest.from + rest.overlap - stitched).abs() < 1e-9);
        prop_assert!((rest.from + rest.motif.length() - whole).abs() < 1e-9);
        // It is the line itself from there on.
        prop_assert_eq!(rest.motif.end(), line.end());
        for at in [0.0, 0.3, 0.7, 1.0].map(|share| share * rest.motif.length()) {
            let own = point_at(rest.motif.points(), at).expect("a point");
            let there = point_at(line.points(), rest.from + at).expect("a point");
            prop_assert!((own - there).norm() < 1e-9);
        }
    }

    #[test]
    fn strands_are_the_places_of_looking_everywhere(
        points in prop::collection::vec((-9.0..9.0f64, -9.0..9.0f64), 2..20),
        (x, y) in (-9.0..9.0f64, -9.0..9.0f64),
    ) {
        let (line, point) = (motif(&points), Point::new(x, y));
        let strands = strands_at(&line, point, 1.0, 100.0).expect("strands");
        // Walked in tiny steps: each stretch within the circle and its nearest place.
        let step = 0.001;
        let nearest = strands[0].distance;
        let (mut walked, mut inside) = (Vec::new(), false);
        let mut at = 0.0;
        for pair in line.points().windows(2) {
            let (whole, way) = ((pair[1] - pair[0]).norm(), pair[1] - pair[0]);
            for k in 0..=(whole / step) as usize {
                let along = k as f64 * step;
                let distance = (pair[0] + way * (along / whole) - point).norm();
                let near = distance <= nearest + 1.0;
                match walked.last_mut() {
                    Some((_, least)) if near && inside && *least <= distance => {}
                    Some(last) if near && inside => *last = (at + along, distance),
                    _ if near => walked.push((at + along, distance)),
                    _ => {}
                }
                inside = near;
            }
            at += whole;
        }
        // What only just touches the circle may fall between two steps.
        for strand in strands.iter().filter(|strand| strand.distance < nearest + 0.99) {
            let alike = |(_, distance): &&(f64, f64)| (distance - strand.distance).abs() < 2.0 * step;
            prop_assert!(walked.iter().any(|one| alike(&one)));
            let there = point_at(line.points(), strand.length).expect("a point");
            prop_assert!((there - strand.at).norm() < 1e-9);
        }
        prop_assert!(strands.len() >= walked.iter().filter(|(_, far)| *far < nearest + 0.99).count());
        prop_assert!(strands.windows(2).all(|pair| pair[0].distance <= pair[1].distance));
    }

    #[test]
    fn a_stitch_and_a_time_are_where_the_needle_is(
        points in prop::collection::vec((-90.0..90.0f64, -90.0..90.0f64), 2..12),
        share in 0.0..1.0f64,
    ) {
        let line = motif(&points);
        let job = stitch_lines([&line], &options()).expect("a job");
        let needles = job.lines[0].points();
        let stitch = (share * job.count() as f64) as usize;
        let length = stitched_length(&line, Stop::Stitch(stitch), &options()).expect("a length");
        if (4..=job.count() - 4).contains(&stitch) {
            let there = point_at(line.points(), length).expect("a point");
            prop_assert!((there - needles[stitch]).norm() < 1e-9);
        }
        // In time, what is left takes as long as the rest of the whole.
        let takes = job.time.moving + 6.0;
        let minutes = share * takes / 60.0;
        let length = stitched_length(&line, Stop::Minutes(minutes), &options()).expect("a length");
        let clock = Clock::of(line.points(), &options().machine).expect("a clock");
        let there = (minutes * 60.0 - 3.0).clamp(0.0, job.time.moving);
        prop_assert!((clock.seconds_at(length) - there).abs() < 1e-6);
        prop_assert!(length <= self::length(&line) + 1e-9);
    }
}
