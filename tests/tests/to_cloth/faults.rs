//! Faults planted in drawings are found where they are.

use super::*;

#[test]
fn faults_planted_in_a_drawing_are_found_where_they_are() {
    // Out and back, 1/2 of 1/16 in apart on the drawing, about three times that on the cloth.
    let close = [
        (0.0, 1.0),
        (1.0, 0.0),
        (1.0, 1.6),
        (1.008, 1.6),
        (1.008, 0.0),
        (2.0, 2.0),
        (4.0, 1.0),
    ];
    let findings = reported("", OPEN, &close);
    let one = found("lines_close", &findings);
    assert_eq!(one.severity, Severity::Warning);
    assert!(
        one.message.contains("border-side-") && one.message.contains("1/16 in"),
        "{}",
        one.message
    );

    let twice = [
        (0.0, 1.0),
        (1.0, 0.0),
        (1.0, 1.6),
        (1.0, 0.0),
        (2.0, 2.0),
        (4.0, 1.0),
    ];
    let one = found("stitched_twice", &reported("", OPEN, &twice));
    assert_eq!(one.severity, Severity::Note);
    assert!(one.message.starts_with("border: "), "{}", one.message);

    // A curl of 1/64 in on the drawing, about three times that on the cloth.
    let knot = [
        (0.0, 1.0),
        (1.0, 0.0),
        (1.015, 0.015),
        (1.015, 0.0),
        (1.0, 0.015),
        (2.0, 2.0),
        (4.0, 1.0),
    ];
    let one = found("small_loop", &reported("", OPEN, &knot));
    assert!(
        one.message
            .contains("smaller than two stitches (3/16 in (5.08 mm))"),
        "{}",
        one.message
    );

    // 60 strokes side by side in an inch and a half of the drawing, 4 in of the cloth.
    let mut dense = vec![(0.0, 1.0)];
    dense.extend((0..60).map(|k| {
        (
            1.0 + 0.025 * f64::from(k),
            if k % 2 == 0 { 0.0 } else { 2.0 },
        )
    }));
    dense.push((4.0, 1.0));
    let one = found("dense", &reported("", OPEN, &dense));
    let at = one.at.expect("a place");
    assert!(at.y < 6.0 * INCH || at.y > 74.0 * INCH || at.x < 6.0 * INCH || at.x > 54.0 * INCH);
    assert!(
        !reported(r#""checks":{"densest":400},"#, OPEN, &dense)
            .iter()
            .any(|f| f.code == "dense")
    );
}

#[test]
fn lines_beyond_the_band_are_reported_by_what_they_meet() {
    // Ends overhang by a quarter of the repeat's length, and the corners are left empty.
    let overhang = |by: f64| [(0.0, 1.0), (-by, 0.5), (2.0, 0.0), (3.0, 2.0), (4.0, 1.0)];
    let gap = |gap: f64| format!(r#""corner":{{"style":"butted","gap":{gap}}},"#);
    let code = |by: f64| {
        let findings = reported("", &gap(0.0), &overhang(by));
        let errors: Vec<&'static str> = findings
            .iter()
            .filter(|found| found.severity == Severity::Error)
            .map(|found| found.code)
            .collect();
        assert!(!errors.is_empty(), "{by}: {findings:?}");
        errors[0]
    };
    // On the cloth about 2.6 times as far: the edge lies 1/2 in off the band, the binding half way.
    assert_eq!(code(0.02), "outside_band");
    assert_eq!(code(0.15), "under_binding");
    assert_eq!(code(0.5), "off_the_quilt");
    // Sides of an inner border that run over its outer seam.
    let text = r#"{"unit":"in","quilt":{"width":60,"height":80},"borders":[
        {"width":6,"corner":{"style":"open"},"side":{"motif":"plain"}},
        {"width":6,"corner":{"style":"butted","gap":0},"side":{"motif":"over"}}]}"#;
    let spec = read_plan(text.as_bytes()).expect("a plan");
    let solved = solve(&spec, |request| {
        let side: &[(f64, f64)] = if request.name == "over" {
            &overhang(0.5)
        } else {
            &SIDE
        };
        Ok(motif(side).into())
    })
    .expect("solved");
    let one = found("over_seam", &read(&solved.findings, &solved));
    assert!(
        one.message
            .contains("over the seam to the border outside it"),
        "{}",
        one.message
    );
}

#[test]
fn a_line_that_cuts_across_the_inner_corner_is_over_the_seam() {
    // An L whose two ends are joined straight: both lie in the band, the way between does not.
    let text = r#"{"unit":"in","quilt":{"width":60,"height":80},"borders":[{"width":6,
        "corner":{"style":"leg","motif":"corner","leg":{"elbow":"top_left","horizontal_depth":2,"vertical_depth":2,"turn_degrees":0}},
        "side":{"motif":"side"}}]}"#;
    let spec = read_plan(text.as_bytes()).expect("a plan");
    let straight = [
        (1.0, 5.0),
        (0.0, 4.0),
        (0.0, 0.0),
        (4.0, 0.0),
        (1.0, 4.0),
        (4.0, 1.0),
        (5.0, 1.0),
    ];
    let solved = solve(&spec, drawings(&SIDE, &straight)).expect("solved");
    let one = found("over_seam", &read(&solved.findings, &solved));
    assert!(
        one.message
            .starts_with("border-corner-top-left: the line runs over the seam by"),
        "{}",
        one.message
    );
    // A gap below the binding's allowance was asked for, so the band itself is only warned of.
    let gap = r#""edge_gap":"1/8","corner":{"style":"open"},"#;
    let one = found("under_binding", &reported("", gap, &SIDE));
    assert_eq!(one.severity, Severity::Warning);
}
