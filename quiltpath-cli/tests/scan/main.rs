//! `scan`, and pictures given to other commands: what is read, what is refused and how.

#[path = "../common/mod.rs"]
mod common;
mod paper;

use common::Bench;
use image::{DynamicImage, GrayImage, ImageFormat, Luma};

use crate::paper::{PIXELS_A_MM, Sheet, dot, png};

/// A stem with a leaf on it, and a dot-sized speck, drawn on paper for a repeat.
fn stem(bench: &Bench) -> Sheet {
    let mut sheet = Sheet::new(
        bench,
        &["--blank", "repeat", "--depth", "60mm", "--length", "120mm"],
    );
    for step in 0..=1200 {
        let along = f64::from(step) / 1200.0;
        let down = 30.0 + 12.0 * (std::f64::consts::TAU * along).sin();
        sheet.draw([120.0 * along, down], 0.7);
        if step < 120 {
            sheet.draw([40.0, 41.0 - 0.2 * f64::from(step)], 0.7);
        }
    }
    sheet
}

/// What a command prints as JSON.
fn printed(bench: &Bench, args: &[&str]) -> serde_json::Value {
    serde_json::from_str(&bench.run(args).ok().out).expect("JSON")
}

fn with(name: &str, bytes: Vec<u8>) -> Bench {
    Bench::new().with(name, bytes)
}

#[test]
fn drawing_paper_becomes_a_motif_at_true_size() {
    let bench = Bench::new();
    let sheet = stem(&bench);
    let bench = bench.with("photo.png", png(&sheet.picture));
    let run = bench.run(&[
        "scan",
        "photo.png",
        "--out",
        "m.svg",
        "--overlay",
        "check.svg",
    ]);
    let err = run.ok().err;
    assert!(
        err.contains("paper for a repeat 60 mm deep and 120 mm long"),
        "{err}"
    );
    assert!(err.contains("stitched twice"), "{err}");
    assert!(
        bench.read("check.svg").contains("<image"),
        "the picture below the lines"
    );
    let facts = printed(&bench, &["measure", "m.svg", "--json"]);
    let width = facts["width"].as_f64().expect("a width");
    assert!((width - 120.0).abs() < 0.4, "{width}");
    // At the height where the paper has them, and on both edges.
    let start = facts["start"]["y"].as_f64().expect("a start");
    assert!((start - 30.0).abs() < 0.4, "{facts}");

    let report = printed(
        &bench,
        &[
            "scan",
            "photo.png",
            "--out",
            "n.svg",
            "--json",
            "--unit",
            "in",
        ],
    );
    assert_eq!(report["paper"]["kind"], "repeat");
    assert_eq!(report["strokes"]["is_least"], true);
    assert!((report["paper"]["depth"].as_f64().expect("a depth") - 60.0 / 25.4).abs() < 1e-9);

    // Whichever way up it lies, and as every kind of picture.
    let [mut turned, mut jpeg] = [Vec::new(), Vec::new()];
    let write = |picture: DynamicImage, out: &mut Vec<u8>, format| {
        picture
            .write_to(&mut std::io::Cursor::new(out), format)
            .expect("a picture");
    };
    let upside_down = image::imageops::rotate180(&sheet.picture);
    write(
        DynamicImage::from(upside_down.clone()).to_luma16().into(),
        &mut turned,
        ImageFormat::Png,
    );
    write(
        DynamicImage::from(upside_down).to_rgb8().into(),
        &mut jpeg,
        ImageFormat::Jpeg,
    );
    let bench = bench.with("turned.png", turned).with("turned.jpg", jpeg);
    for name in ["turned.png", "turned.jpg"] {
        let facts = printed(&bench, &["measure", name, "--json"]);
        let width = facts["width"].as_f64().expect("a width");
        assert!((width - 120.0).abs() < 0.4, "{name}: {width}");
    }
}

#[test]
fn other_commands_read_pictures() {
    let bench = Bench::new();
    let sheet = stem(&bench);
    let bench = bench.with("photo.png", png(&sheet.picture));
    let fit = bench.run(&[
        "fit",
        "photo.png",
        "--span",
        "50 in",
        "--depth",
        "4 in",
        "--out",
        "fit.svg",
    ]);
    let err = fit.ok().err;
    assert!(err.contains("by the marks this is paper"), "{err}");
    let plan = [
        "plan",
        "--quilt",
        "60 in x 70 in",
        "--border",
        "6 in",
        "--side",
        "photo.png",
        "--style",
        "mitred",
        "--out",
        "out",
    ];
    let err = bench.run(&plan).ok().err;
    assert!(err.contains("stitched twice"), "{err}");

    // Without marks the size is a guess, which is noted with what sets it.
    let mut plain = GrayImage::from_pixel(900, 300, Luma([250]));
    for step in 0..800 {
        let down = 150.0 + 60.0 * (f64::from(step) / 100.0).sin();
        dot(&mut plain, [50.0 + f64::from(step), down], 4.0);
    }
    let bench = bench.with("plain.png", png(&plain));
    let run = bench.run(&["measure", "plain.png", "--unit", "in"]).ok();
    assert!(run.err.contains("its size is a guess"), "{}", run.err);
    assert!(
        run.err.contains("quiltpath scan --width sets it"),
        "{}",
        run.err
    );
    bench
        .run(&["scan", "plain.png", "--width", "6 in", "--out", "w.svg"])
        .ok();
    let facts = printed(&bench, &["measure", "w.svg", "--json", "--unit", "in"]);
    assert!(
        (facts["width"].as_f64().expect("a width") - 6.0).abs() < 0.01,
        "{facts}"
    );
}

#[test]
fn marks_that_are_missing_are_reported() {
    let bench = Bench::new();
    let sheet = stem(&bench);
    let [right, below] = sheet.marks_apart();
    let cases: [(&[[f64; 2]], &[&str]); 4] = [
        (
            &[[right, 0.0]],
            &[
                "3 of the drawing paper's four marks",
                "the ring among them",
                "--width",
            ],
        ),
        (
            &[[0.0, 0.0]],
            &[
                "3 of the drawing paper's four marks",
                "ring isn't among them",
            ],
        ),
        (
            &[[0.0, 0.0], [right, 0.0], [0.0, below], [right, below]],
            &["marks", "aren't found", "--width gives it"],
        ),
        (
            &[[0.25 * right, below], [0.5 * right, below]],
            &["not the code", "--width"],
        ),
    ];
    let mut bench = bench;
    for (at, (gone, words)) in cases.into_iter().enumerate() {
        let mut sheet = sheet.clone();
        for place in gone {
            sheet.cover(*place, if at == 3 { 26.0 } else { 8.0 });
        }
        if at == 2 {
            for share in 0..=20 {
                sheet.cover([f64::from(share) / 20.0 * right, below], 8.0);
            }
        }
        let name = format!("{at}.png");
        bench = bench.with(&name, png(&sheet.picture));
        bench
            .run(&["scan", &name, "--out", "m.svg"])
            .failed(1, words);
    }
    // With a width they are read all the same, and that the marks are in it is a warning.
    let run = bench
        .run(&["scan", "0.png", "--width", "5 in", "--out", "m.svg"])
        .ok();
    assert!(run.err.contains("3 marks of drawing paper"), "{}", run.err);
}

#[test]
fn what_is_no_drawing_is_refused() {
    let blank = GrayImage::from_pixel(600, 400, Luma([250]));
    let mut specks = GrayImage::from_pixel(1400, 1400, Luma([255]));
    for at in 0..50_000_u32 {
        // 5 pixels apart, so that all are separate.
        let (x, y) = (at % 270 * 5 + 10, at / 270 * 5 + 10);
        for by in 0..4 {
            specks.put_pixel(x + by % 2, y + by / 2, Luma([0]));
        }
    }
    // Letters of a kind: small signs in rows.
    let mut text = GrayImage::from_pixel(1200, 1200, Luma([255]));
    for at in 0..900_u32 {
        let (x, y) = (30 + at % 38 * 30, 40 + at / 38 * 46);
        for step in 0..20 {
            dot(&mut text, [f64::from(x), f64::from(y + step)], 4.0);
            if at % 3 > 0 {
                dot(
                    &mut text,
                    [f64::from(x + step / 2), f64::from(y + (at % 2) * 10)],
                    4.0,
                );
            }
        }
    }
    // Soft shades with grain, as a photo of a face has them.
    let mut state = 9_u32;
    let face = GrayImage::from_fn(900, 900, |x, y| {
        state = state.wrapping_mul(1_664_525).wrapping_add(1_013_904_223);
        let [x, y] = [x, y].map(|at| f64::from(at) / 900.0 - 0.5);
        let shade =
            |at: [f64; 2], wide: f64| (-((x - at[0]).hypot(y - at[1]) / wide).powi(4)).exp();
        let features =
            shade([-0.12, -0.1], 0.06) + shade([0.12, -0.1], 0.06) + shade([0.0, 0.2], 0.1);
        let light = 205.0 - 95.0 * shade([0.0, 0.0], 0.4) - 60.0 * features;
        Luma([(light + f64::from(state >> 24) / 12.0) as u8])
    });
    let cases: [(&str, Vec<u8>, &[&str]); 8] = [
        (
            "blank.png",
            png(&blank),
            &["no line is found", "dark pen on light paper"],
        ),
        (
            "black.png",
            png(&GrayImage::from_pixel(600, 400, Luma([2]))),
            &["100 % of the picture is dark"],
        ),
        ("specks.png", png(&specks), &["only 50000 specks"]),
        ("text.png", png(&text), &["small signs", "as writing does"]),
        (
            "face.png",
            png(&face),
            &["pixels wide", "only drawings of lines can be read"],
        ),
        (
            "cut.png",
            png(&blank)[..120].to_vec(),
            &["can't be read", "save it again"],
        ),
        (
            "words.png",
            b"GIF89a and more".to_vec(),
            &["no PNG or JPEG picture"],
        ),
        ("empty.png", Vec::new(), &["no PNG or JPEG picture"]),
    ];
    for (name, bytes, words) in cases {
        let bench = with(name, bytes);
        let run = bench.run(&["scan", name, "--width", "6 in", "--out", "m.svg"]);
        run.failed(1, &[&[name], words].concat());
        assert!(!bench.path("m.svg").exists(), "{name}");
    }
}

#[test]
fn a_hundred_megapixels_are_refused_from_the_head_of_the_file() {
    let picture = png(&GrayImage::from_pixel(10_000, 10_000, Luma([255])));
    let bench = with("huge.png", picture);
    let run = bench.run(&["scan", "huge.png", "--width", "6 in", "--out", "m.svg"]);
    run.failed(1, &["10000 x 10000 pixels", "up to 64 million"]);
}

#[test]
fn options_that_make_no_sense_are_refused() {
    let bench = with("a.png", png(&GrayImage::from_pixel(100, 100, Luma([255]))));
    for (args, words) in [
        (&["--width", "0"][..], &["--width"][..]),
        (&["--width", "6"], &["--width", "--unit"]),
        (&["--width", "6 in", "--bridge", "-1mm"], &["--bridge"]),
        (&["--fills", "paint"], &["outline", "refuse"]),
        (&["--strokes", "one"], &["one-line"]),
        (
            &["--width", "6 in", "--overlay", "m.svg"],
            &["--overlay", "another name"],
        ),
    ] {
        let args = [&["scan", "a.png", "--out", "m.svg"], args].concat();
        bench.run(&args).failed(2, words);
    }
    bench
        .run(&["template", "--blank", "repeat", "--out", "b.html"])
        .failed(2, &["--depth"]);
    let large = [
        "template", "--blank", "repeat", "--depth", "5in", "--length", "14in", "--out", "b.html",
    ];
    bench.run(&large).failed(
        2,
        &[
            "doesn't fit on a sheet of Letter",
            "--depth and --length set it",
        ],
    );
    let args = [
        "template", "--blank", "corner", "--depth", "5 in", "--paper", "letter", "--out", "c.html",
    ];
    let run = bench.run(&args).ok();
    assert!(
        run.err.contains("6 1/4 in long rather than 10 in"),
        "{}",
        run.err
    );
    assert_eq!(PIXELS_A_MM, 8.0);
}
