use super::title::{LETTER, MOST_ROWS, TITLE, set_in_rows};
use super::*;
use crate::geom::Point;
use crate::io::json::read_plan;
use crate::motif::Motif;
use crate::plan::solve;

/// The picture of a plan of nested borders, each open at its corners, with this title.
fn drawn(title: &str, borders: &[(&str, f64)]) -> String {
    drawn_on(r#""width": 60, "height": 80"#, title, borders)
}

fn drawn_on(quilt: &str, title: &str, borders: &[(&str, f64)]) -> String {
    let borders = borders.iter().map(|(name, width)| {
        format!(
            r#"{{"name": "{name}", "width": {width}, "corner": {{"style": "open"}}, "side": {{"motif": "wave"}}}}"#
        )
    });
    let plan = format!(
        r#"{{"unit": "in", "title": "{title}", "quilt": {{{quilt}}}, "borders": [{}]}}"#,
        borders.collect::<Vec<_>>().join(",")
    );
    let plan = read_plan(plan.as_bytes()).expect("a plan");
    let solved = solve(&plan, |_| {
        let wave = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];
        let points = wave.map(|(x, y)| Point::new(x, y)).to_vec();
        Ok(Motif::from_points("wave", points)?.into())
    });
    write_picture(&solved.expect("solved"), None).expect("drawn")
}

/// The words of the measures, without their markup.
fn said(svg: &str) -> Vec<String> {
    let texts = svg.split("<text class=\"measure\"").skip(1);
    let words = texts.map(|rest| {
        let (text, _) = rest.split_once("</text>").expect("an end");
        let (_, text) = text.split_once('>').expect("a start");
        let parts = text.split('<').enumerate();
        let plain: String = parts
            .map(|(at, part)| match at {
                0 => part,
                _ => part.split_once('>').expect("a tag").1,
            })
            .collect();
        plain.replace('\u{2009}', " ").replace('\u{200a}', "")
    });
    words.collect()
}

#[test]
fn every_nested_border_has_the_measures_of_its_joins() {
    // Borders of 6, 4 and 5 in: their corners lie 0, 6 and 10 in inside the quilt's. Corners are
    // left open, so repeats begin a seam gap of 1/4 in beyond the width of the neighbour.
    let said = said(&drawn(
        "",
        &[("outer", 6.0), ("middle", 4.0), ("inner", 5.0)],
    ));
    for (words, count) in [
        ("60 in", 1),
        ("80 in", 1),
        ("6 1/4 in", 8),
        ("outer: 47 1/2 in", 2),
        ("outer: 67 1/2 in", 2),
        ("middle: 39 1/2 in", 2),
        ("middle: 59 1/2 in", 2),
        ("inner: 29 1/2 in", 2),
        ("inner: 49 1/2 in", 2),
    ] {
        let words = words.replace('/', "\u{2044}");
        assert_eq!(
            said.iter().filter(|one| **one == words).count(),
            count,
            "{words}: {said:?}"
        );
    }
    // One border needs no name.
    let one = self::said(&drawn("", &[("outer", 6.0)]));
    assert!(one.iter().all(|words| !words.contains("outer")), "{one:?}");
}

#[test]
fn rows_of_measures_keep_apart_and_lie_within_the_picture() {
    for nested in 1..=5 {
        let names = ["a", "b", "c", "d", "e"].map(|name| (name, 4.0));
        let svg = drawn("", &names[..nested]);
        let (_, view) = svg.split_once("viewBox=\"").expect("a box");
        let (view, _) = view.split_once('"').expect("a box");
        let view: Vec<f64> = view
            .split(' ')
            .map(|n| n.parse().expect("a number"))
            .collect();
        let em = 6000.0 / LETTERS;
        let mut rows: Vec<f64> = Vec::new();
        for path in svg.split("<path class=\"dim\" d=\"M").skip(1) {
            let (data, _) = path.split_once('"').expect("an end");
            let numbers: Vec<f64> = data
                .split(['L', ' '])
                .map(|number| number.parse().expect("a number"))
                .collect();
            let level = numbers[1] == numbers[3];
            if level && numbers[1] < 0.0 && !rows.contains(&numbers[1]) {
                rows.push(numbers[1]);
            }
        }
        rows.sort_by(f64::total_cmp);
        assert_eq!(rows.len(), nested + 1, "{rows:?}");
        // Letters stand above their line and are not higher than their size and a third.
        assert!(rows[0] - 1.3 * em >= view[1], "{rows:?} in {view:?}");
        assert!(
            rows.windows(2).all(|pair| pair[1] - pair[0] > 1.7 * em),
            "{rows:?}"
        );
    }
}

#[test]
fn a_long_title_is_set_in_rows_that_fit() {
    let long = "A quilt for the garden room, begun in spring and quilted in autumn, ".repeat(2);
    let svg = drawn(&long, &[("border", 6.0)]);
    let rows: Vec<&str> = svg
        .split("<text class=\"head\"")
        .skip(1)
        .map(|rest| {
            rest.split_once('>')
                .expect("words")
                .1
                .split_once('<')
                .expect("an end")
                .0
        })
        .collect();
    assert!(rows.len() > 1, "{rows:?}");
    assert_eq!(rows.join(" "), long.trim());
    // 60 of 80 in are 34.5 letters; 4.4 stand beside the quilt on either side, 1 of them free.
    let wide = LETTERS * 0.75 + 2.0 * 3.4;
    for row in &rows {
        assert!(row.chars().count() as f64 * TITLE * LETTER <= wide, "{row}");
    }
    let word = "x".repeat(5000);
    let rows = set_in_rows(&word, 40);
    assert_eq!(rows.len(), MOST_ROWS);
    assert!(rows.iter().all(|row| row.chars().count() <= 40));
    assert!(rows[MOST_ROWS - 1].ends_with('…'));
    assert_eq!(set_in_rows("", 40), Vec::<String>::new());
    assert_eq!(set_in_rows("a b", 0), ["a", "b"]);
}

#[test]
fn band_and_gaps_are_measured_on_the_cloth_and_their_words_stand_inside_the_seam() {
    // A hexagon with sides of 24 in, a corner to the left, and a border of 5 in.
    let corners: Vec<String> = (0..6)
        .map(|at| {
            let (sin, cos) = (f64::from(at) * std::f64::consts::FRAC_PI_3).sin_cos();
            format!("[{}, {}]", 24.0 + 24.0 * cos, 24.0 + 24.0 * sin)
        })
        .collect();
    let svg = drawn_on(
        &format!(r#""corners": [{}]"#, corners.join(",")),
        "",
        &[("border", 5.0)],
    );
    // Millimetres to the steps of the picture.
    let step = 48.0 * 25.4 / 6000.0;
    let at = |x: &str, y: &str| [x, y].map(|v| v.parse::<f64>().expect("a number") * step / 25.4);
    let inside = |[x, y]: [f64; 2], off: f64| {
        let (dx, dy) = ((x - 24.0).abs(), (y - 24.0).abs());
        let apothem = 24.0 * 3.0_f64.sqrt() / 2.0 - off;
        dy <= apothem && dx * 3.0_f64.sqrt() / 2.0 + dy / 2.0 <= apothem
    };
    let mut said = 0;
    for text in svg.split("<text class=\"say\" x=\"").skip(1) {
        let (x, rest) = text.split_once('"').expect("an end");
        let (_, rest) = rest.split_once("y=\"").expect("a height");
        let (y, _) = rest.split_once('"').expect("an end");
        let place = at(x, y);
        assert!(inside(place, 5.0), "{place:?}");
        said += 1;
    }
    assert_eq!(said, 3);
    let across = svg
        .split("<path class=\"dim\" d=\"M")
        .skip(1)
        .filter(|path| {
            let (data, _) = path.split_once('"').expect("an end");
            let parts: Vec<&str> = data.split(['L', ' ']).collect();
            let (a, b) = (at(parts[0], parts[1]), at(parts[2], parts[3]));
            let long = (b[0] - a[0]).hypot(b[1] - a[1]);
            inside(a, -0.1) && inside(b, -0.1) && (long - 5.0).abs() < 0.02
        });
    assert_eq!(across.count(), 1);
}
