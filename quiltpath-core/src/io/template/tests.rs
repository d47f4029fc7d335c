use super::*;
use crate::geom::{Point, Vector};
use crate::io::svg_read::read_svg;

fn motif(name: &str, points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Motif::from_points(name, points).expect("a line")
}

fn page(unit: Unit, lines: &[Motif], paper: Paper) -> (String, Template) {
    let mut out = String::new();
    let template = write_template(&mut out, unit, "leaf", lines, paper).expect("written");
    (out, template)
}

/// The drawings of the sheets, each as an SVG file of its own.
fn leaves(page: &str) -> Vec<String> {
    let starts = page.split("<svg class=\"leaf\"").skip(1);
    let ends = starts.map(|rest| {
        let (drawing, _) = rest.split_once("</figure>").expect("an end");
        // What all sheets share stands outside of them.
        let own = match drawing.split_once("<use ") {
            Some((before, rest)) => {
                let (_, after) = rest.split_once("</use>").expect("an end");
                [before, after].concat()
            }
            None => drawing.to_owned(),
        };
        format!("<svg xmlns=\"http://www.w3.org/2000/svg\" {own}")
    });
    ends.collect()
}

/// The places of the marks of a sheet, in the piece's millimetres.
fn marks(leaf: &str) -> Vec<&str> {
    leaf.split("<circle class=\"fine\" ")
        .skip(1)
        .filter_map(|rest| rest.split(" r=").next())
        .collect()
}

#[test]
fn a_sheet_shows_the_line_at_true_size() {
    // 3 x 2 in in feet; read back as a drawing, each point lies where the sheet's middle puts it.
    let line = motif(
        "leaf",
        &[(0.0, 0.0), (0.25, 0.0), (0.25, 1.0 / 6.0), (0.1, 0.1)],
    );
    let (page, template) = page(Unit::Ft, &[line], Paper::Letter);
    assert_eq!(template.sheets, 1);
    let leaf = &leaves(&page)[0];
    let drawing = read_svg(leaf.as_bytes()).expect("a drawing");
    assert!(drawing.width_mm.is_some_and(|mm| (mm - 190.5).abs() < 0.01));
    let path = drawing
        .paths
        .iter()
        .map(|path| path.path.elements())
        .find(|path| path.len() == 4)
        .expect("the line");
    let at = |element: &kurbo::PathEl| match element {
        kurbo::PathEl::MoveTo(p) | kurbo::PathEl::LineTo(p) => Point::new(p.x, p.y),
        other => panic!("{other:?}"),
    };
    let origin = at(&path[0]);
    let middle = Point::new(190.5 / 2.0, 11.0 + (254.0 - 12.0) / 2.0);
    for (element, (x, y)) in
        path.iter()
            .zip([(0.0, 0.0), (76.2, 0.0), (76.2, 50.8), (30.48, 30.48)])
    {
        let off = at(element) - origin - Vector::new(x, y);
        assert!(off.amax() <= 0.01, "{off}");
    }
    assert!((origin - (middle - Vector::new(38.1, 25.4))).amax() <= 0.011);
}

#[test]
fn neighbours_share_their_marks_and_name_each_other() {
    let line = motif("leaf", &[(0.0, 900.0), (0.0, 0.0), (900.0, 0.0)]);
    let (page, template) = page(Unit::Mm, &[line], Paper::A4);
    let leaves = leaves(&page);
    assert_eq!(leaves.len(), template.sheets);
    let named = |name: &str| {
        let label = format!("aria-label=\"Sheet {name} ");
        let leaf = leaves.iter().find(|leaf| leaf.contains(&label));
        leaf.unwrap_or_else(|| panic!("no sheet {name}")).as_str()
    };
    let (a1, a2, b1) = (named("A1"), named("A2"), named("B1"));
    assert!(a1.contains("cut here, lay on A2") && a2.contains("lay A1 up to this line"));
    assert!(a1.contains("cut here, lay on B1") && b1.contains("lay A1 up to this line"));
    // No line comes to B2, so it is named nowhere.
    assert!(!page.contains("B2"));
    for (one, other) in [(a1, a2), (a1, b1)] {
        let shared = marks(one);
        let shared = shared.iter().filter(|mark| marks(other).contains(mark));
        assert_eq!(shared.count(), 2);
    }
    assert_eq!((marks(a1).len(), marks(b1).len()), (4, 4));
}

#[test]
fn every_stretch_of_the_line_is_written_where_it_shows_and_not_elsewhere() {
    // 20,000 points wind over a metre square; strips that two sheets share are written twice.
    let points: Vec<Point> = (0..20_000)
        .map(|at| {
            let (row, along) = (at / 500, at % 500);
            let along = if row % 2 == 0 { along } else { 499 - along };
            Point::new(
                f64::from(along) * 2.0,
                f64::from(row) * 25.0 + f64::from(at % 2),
            )
        })
        .collect();
    let line = Motif::from_points("leaf", points).expect("a line");
    let (page, template) = page(Unit::Mm, &[line], Paper::A4);
    assert!(template.sheets >= 24, "{template:?}");
    let written: usize = leaves(&page)
        .iter()
        .flat_map(|leaf| leaf.split("class=\"line\" d=\"").skip(1))
        .map(|path| path.split('"').next().unwrap_or("").matches(',').count())
        .sum();
    assert!((20_000..26_000).contains(&written), "{written}");
}

#[test]
fn ends_are_named_once_where_they_meet_and_numbered_where_there_are_several() {
    let square = [
        (0.0, 0.0),
        (50.0, 0.0),
        (50.0, 50.0),
        (0.0, 50.0),
        (0.0, 0.0),
    ];
    let (closed, _) = page(Unit::Mm, &[motif("a", &square)], Paper::A4);
    assert!(closed.contains(">start and end</text>") && !closed.contains(">end</text>"));
    let two = [
        motif("a", &square[..3]),
        motif("b", &[(70.0, 0.0), (90.0, 90.0)]),
    ];
    let (open, _) = page(Unit::Mm, &two, Paper::A4);
    for words in [">start 1<", ">end 1<", ">start 2<", ">end 2<"] {
        assert_eq!(open.matches(words).count(), 1, "{words}");
    }
    assert_eq!(open.matches("class=\"end\"").count(), 2);
}

#[test]
fn names_are_text_and_cut_short() {
    let line = motif("leaf", &[(0.0, 0.0), (400.0, 90.0)]);
    let name = "</title><script src=\"https://a.example/\">&".repeat(40);
    let mut out = String::new();
    write_template(&mut out, Unit::Mm, &name, &[line], Paper::A4).expect("written");
    assert!(out.len() < 20_000, "{}", out.len());
    assert!(!out.contains("<script") && out.contains("&lt;script"));
}

#[test]
fn a_page_is_whole_and_names_nothing_to_load() {
    let (page, _) = page(
        Unit::Mm,
        &[motif("leaf", &[(0.0, 0.0), (400.0, 90.0)])],
        Paper::A4,
    );
    for loaded in ["src=", "url(", "@import", "xlink", "//"] {
        assert!(!page.contains(loaded), "{loaded}");
    }
    let links = page.matches("href=").count();
    assert_eq!(links, page.matches("href=\"#all\"").count());
    assert!(page.starts_with("<!DOCTYPE html><html lang=\"en\">"));
    assert!(page.ends_with("</html>\n"));
}

#[test]
fn what_fits_no_paper_is_refused_and_nothing_written() {
    let mut out = String::from("before");
    let huge = motif("leaf", &[(0.0, 0.0), (1e9, 1e8)]);
    for unit in [Unit::Mm, Unit::In] {
        let refused = write_template(
            &mut out,
            unit,
            "leaf",
            std::slice::from_ref(&huge),
            Paper::A4,
        );
        let error = refused.expect_err("too large");
        assert!(error.is_paper() || error.is_geometry(), "{error}");
    }
    let error = write_template(&mut out, Unit::Mm, "leaf", &[], Paper::A4).expect_err("nothing");
    assert!(error.is_drawing());
    assert_eq!(out, "before");
}

#[test]
fn the_smallest_lines_are_drawn() {
    for size in [1e-300, 1e-9, 0.001] {
        let (page, template) = page(
            Unit::Mm,
            &[motif("leaf", &[(0.0, 0.0), (size, 0.0)])],
            Paper::A4,
        );
        assert_eq!(template.sheets, 1);
        assert!(page.contains("class=\"line\" d=\"M0,0L0,0\""), "{size}");
    }
}

#[test]
fn words_on_a_seam_never_cross_a_line() {
    // Lines cross the seams of two sheets in the middle, and in many places round it.
    let combs: Vec<(f64, f64)> = (0..30)
        .flat_map(|row| {
            let (y, left) = (4.0 * f64::from(row), row % 2 == 0);
            if left {
                [(0.0, y), (300.0, y)]
            } else {
                [(300.0, y), (0.0, y)]
            }
        })
        .collect();
    for points in [vec![(0.0, 50.0), (300.0, 50.0), (300.0, 0.0)], combs] {
        let line = motif("leaf", &points);
        let (page, template) = page(Unit::Mm, &[line], Paper::A4);
        assert!(template.sheets > 1);
        let texts = page.split("<text class=\"word small middle\" transform=\"translate(");
        let mut seen = 0;
        for text in texts.skip(1) {
            seen += 1;
            let (at, rest) = text.split_once(')').expect("a place");
            let (x, y) = at.split_once(' ').expect("two numbers");
            let [x, y]: [f64; 2] = [x, y].map(|value| value.parse().expect("a number"));
            assert!(rest.starts_with(" rotate(-90)"), "{rest:.40}");
            let (_, words) = rest.split_once('>').expect("words");
            let (words, _) = words.split_once('<').expect("words");
            // Upright words reach half their length up and down, and their height to the left.
            let half = 1.8 * words.chars().count() as f64 / 2.0;
            for pair in points.windows(2) {
                let level = pair[0].1 == pair[1].1;
                assert!(
                    !level || (pair[0].1 - y).abs() > half,
                    "{words} at {x}, {y}"
                );
            }
        }
        assert!(seen > 0);
    }
}
