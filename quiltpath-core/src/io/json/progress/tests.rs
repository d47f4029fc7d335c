//! Progress written and read again, and files that are none.

use super::*;
use crate::geom::Point;
use crate::io::json::read_plan;
use crate::motif::Motif;
use crate::plan::{Solved, Stitching, solve, stitch_plan};

fn planned(corner: &str) -> (Solved, Stitching) {
    let plan = format!(
        r#"{{"unit": "in", "quilt": {{"width": 40, "height": 60}}, "borders": [
            {{"width": 6, "corner": {{"style": "{corner}"}}, "side": {{"motif": "wave"}}}}]}}"#
    );
    let plan = read_plan(plan.as_bytes()).expect("a plan");
    let solved = solve(&plan, |_| {
        let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
        let points = wave.map(|(x, y)| Point::new(x, y)).to_vec();
        Ok(Motif::from_points("wave", points)?.into())
    });
    let solved = solved.expect("solved");
    let stitching = stitch_plan(&plan, &solved).expect("stitched");
    (solved, stitching)
}

fn progress(corner: &str) -> Progress {
    let (solved, stitching) = planned(corner);
    let mut progress = Progress::of(&solved, &stitching);
    for run in &stitching.runs {
        let length = run.motif.length();
        let stitched = &mut progress.stitched;
        let stretches = [[0.1 * length, 0.3 * length], [0.45 * length, length]];
        for stretch in stretches {
            stitched
                .add_between(&solved, run, stretch)
                .expect("taken down");
        }
    }
    let mark = MarkRead::new(
        "seam corner top left",
        Point::new(0.1, 0.2),
        Point::new(1e-3, 7.0),
    );
    progress.passes.push(PassRead::new(2, vec![mark]));
    progress.stopped = Some(Stopped::new(2, 0, 1234.5));
    progress.bobbins = vec![100.25, 0.1 + 0.2];
    progress
}

#[test]
fn progress_is_read_as_it_was_written() {
    for corner in ["open", "mitred", "bent"] {
        let progress = progress(corner);
        let text = write_progress(&progress).expect("written");
        let read = read_progress(text.as_bytes()).expect("read");
        let names = |mut of: Progress| {
            // A line that is read has no name of its own.
            for part in of.stitched.borders.iter_mut().flat_map(|b| &mut b.parts) {
                part.line.motif = part.line.motif.clone().renamed("stitched");
            }
            of
        };
        assert_eq!(read, names(progress));
        assert_eq!(write_progress(&read).expect("written"), text);
        let more = text.replacen('{', "{\"later\": [1], ", 1);
        assert_eq!(read_progress(more.as_bytes()).expect("read"), read);
    }
}

#[test]
fn faults_have_their_place_and_what_is_accepted() {
    let text = write_progress(&progress("mitred")).expect("written");
    let refused = |from: &str, to: &str| {
        assert!(text.contains(from), "{from}");
        let changed = text.replacen(from, to, 1);
        let refused = read_progress(changed.as_bytes()).expect_err(to);
        refused.to_string()
    };
    for (from, to, words) in [
        (
            "\"unit\":\"mm\"",
            "\"unit\":\"in\"",
            "unit: unknown value \"in\"",
        ),
        (
            "\"pass\":3",
            "\"pass\":0",
            "passes[0]: pass: the number is 0; numbers here count from 1",
        ),
        ("\"run\":1", "\"run\":0", "stopped: run: the number is 0"),
        (
            "\"length\":1234.5",
            "\"length\":-1",
            "stopped: length: the length is -1; give 0 or more",
        ),
        ("[100.25", "[-100.25", "bobbins[0]: the length is -100.2"),
        (
            "\"seam\":[[",
            "\"seam\":[[1,2],[",
            "stitched[0]: widths: there are more or fewer",
        ),
        (
            "\"width\":152",
            "\"width\":-152",
            "stitched[0]: widths[0]: the gaps leave no band",
        ),
        (
            "\"stretches\":[[0",
            "\"stretches\":[[2",
            "stretches[0]: stretches are shares",
        ),
        (
            "\"directions\":[[",
            "\"directions\":[[9",
            "a direction is not 1 long",
        ),
        (
            "\"ends\":[",
            "\"ends\":[0,",
            "ends: repeats end at rising indices",
        ),
        (
            "\"corner\":\"",
            "\"corner\":\"x",
            "there is no such corner; give top_left",
        ),
        ("\"style\":\"mitred\",", "", "a corner needs its \"style\""),
        (
            "\"corner\":\"",
            "\"angle\":\"",
            "a part is one of a corner, a side",
        ),
    ] {
        let message = refused(from, to);
        assert!(message.contains(words), "{message}");
    }
    let plan = read_progress(br#"{"quilt": {}, "borders": []}"#).expect_err("a plan");
    assert!(
        plan.to_string()
            .contains("this is a plan; give the progress.json")
    );
    let cut = read_progress(&text.as_bytes()[..200]).expect_err("cut off");
    assert!(cut.position().is_some(), "{cut}");
}
