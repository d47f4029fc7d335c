//! Minutes and thread by closed formulas and published examples.

use super::*;

#[test]
fn minutes_follow_the_textbook() {
    // Elementary kinematics: a line of length L from rest to rest takes L/v + v/a above v²/a, and
    // 2 √(L/a) below it. 10 in are 254 mm.
    let bench = ten_inches();
    let moving = |speed: f64, acceleration: f64| {
        let (speed, acceleration) = (format!("{speed} mm"), format!("{acceleration} mm"));
        let (_, report) = stitched(
            &bench,
            &["--speed", &speed, "--acceleration", &acceleration],
        );
        report["seconds"]["moving"].as_f64().expect("seconds")
    };
    for (v, a) in [
        (75.0, 250.0),
        (200.0, 400.0),
        (254.0, 254.0),
        (1000.0, 400.0),
    ] {
        let textbook = if 254.0 >= v * v / a {
            254.0 / v + v / a
        } else {
            2.0 * f64::sqrt(254.0 / a)
        };
        let found = moving(v, a);
        assert!(
            (found - textbook).abs() < 1e-9 * textbook,
            "{found} {textbook}"
        );
        assert!(found >= 254.0 / v && moving(v * 1.5, a) <= found && moving(v, a * 1.5) <= found);
    }
    let (_, report) = stitched(&bench, &["--seconds", "12, 1.5, 4"]);
    close(&report["seconds"]["standing"], 12.0 + 2.0 * 1.5 + 4.0);
    close(&report["minutes"], (254.0 / 75.0 + 0.3 + 19.0) / 60.0);
    let (_, report) = stitched(&bench, &["--seconds", "12, 1.5, 4", "--tie-off", "none"]);
    close(&report["seconds"]["standing"], 16.0);
    // A corner that may be cut less is taken more slowly.
    let bench = Bench::new().with("a.json", line_of("[[0,0],[5,0],[5,5]]"));
    let corner = |deviation| stitched(&bench, &["--corner", deviation]).1["minutes"].as_f64();
    assert!(corner("0.01 mm") > corner("1 mm"));
}

#[test]
fn thread_follows_the_published_examples() {
    let plain = ["--tie-off", "none", "--tail", "0 in", "--waste", "0"];
    // textilecalculations.com, "Calculate amount of sewing thread consumption": layers of 0.01 in
    // at 10 per inch take 2.2 of thread for each length of seam, half of it on the bobbin.
    let bench = ten_inches();
    let thread = |bench: &Bench, more: &[&str]| {
        stitched(bench, &[&plain[..], more].concat()).1["thread"].clone()
    };
    let found = thread(
        &bench,
        &[
            "--thickness",
            "0.01 in",
            "--bobbin",
            "2 in",
            "--spool",
            "11 in",
        ],
    );
    close(&found["needle"], 11.0);
    close(&found["bobbin"], 11.0);
    assert_eq!(
        (&found["bobbins"], &found["spools"]),
        (&Value::from(6), &Value::from(1))
    );
    // The published ratio of stitch type 301 is 2.5: 220 cm of seam take 550 cm. It is T S = 0.25.
    let seam = "{\"unit\":\"cm\",\"points\":[[0,0],[220,0]]}";
    let seam = Bench::new().with("a.json", seam);
    let found = thread(&seam, &["--stitch", "2.5 mm", "--thickness", "0.625 mm"]);
    close(&found["needle"], 275.0);
    close(&found["bobbin"], 275.0);
    assert!(found["spools"].is_null());
    // Tails at both ends and a tenth lost: (10 + 1 + 2 x 4) x 1.1.
    let more = [
        "--tie-off",
        "none",
        "--tail",
        "4 in",
        "--waste",
        "10",
        "--thickness",
        "0.01 in",
    ];
    close(&stitched(&bench, &more).1["thread"]["needle"], 20.9);
}
