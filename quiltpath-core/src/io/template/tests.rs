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

/// The lines of the cloth round a quilt of 1600 x 2000 mm with a border of 150.
fn cloth() -> [ClothLine; 2] {
    [
        (ClothLineKind::RawEdge, 0.0),
        (ClothLineKind::InnerSeam, 150.0),
    ]
    .map(|(kind, off)| {
        let (right, low) = (1600.0 - off, 2000.0 - off);
        let corners = [(off, off), (right, off), (right, low), (off, low)];
        let corners = corners.map(|(x, y)| Point::new(x, y)).to_vec();
        ClothLine { kind, corners }
    })
}

fn on_cloth(lines: &[Motif]) -> (String, Template) {
    let mut out = String::new();
    let template = write_template_on_cloth(&mut out, Unit::Mm, "leaf", lines, &cloth(), Paper::A4)
        .expect("written");
    (out, template)
}

/// The boxes of the upright and level words on a sheet, each with its words, on the piece.
fn word_boxes(leaf: &str) -> Vec<(String, [f64; 4])> {
    let texts = leaf.split("<text class=\"word small middle\" transform=\"translate(");
    let boxes = texts.skip(1).map(|text| {
        let (at, rest) = text.split_once(')').expect("a place");
        let (x, y) = at.split_once(' ').expect("two numbers");
        let [x, y]: [f64; 2] = [x, y].map(|value| value.parse().expect("a number"));
        let (_, words) = rest.split_once('>').expect("words");
        let (words, _) = words.split_once('<').expect("words");
        let half = 1.8 * words.chars().count() as f64 / 2.0;
        let around = match rest.starts_with(" rotate(0)") {
            true => [x - half, y - 3.2, x + half, y],
            false => [x - 3.2, y - half, x, y + half],
        };
        (words.to_owned(), around)
    });
    boxes.collect()
}

#[test]
fn edge_and_seam_lie_beside_the_piece_where_the_cloth_has_them() {
    // The box of the piece lies 12 in from the edge and 6 from the seam, which reads in its own
    // place.
    let side = motif("side", &[(350.0, 12.0), (800.0, 144.0), (1250.0, 12.0)]);
    let (page, _) = on_cloth(&[side]);
    let of = |class: &str| -> Vec<f64> {
        let start = format!("<path class=\"{class}\" d=\"M");
        let paths = page.split(start.as_str()).skip(1);
        let data = paths.map(|rest| rest.split('"').next().expect("data"));
        let first = data.filter_map(|data| {
            data.split(['L', ' '])
                .next()?
                .split(',')
                .nth(1)?
                .parse()
                .ok()
        });
        first.collect()
    };
    let (edge, seam) = (of("edge"), of("seam"));
    assert!(edge.len() > 3 && seam.len() > 3);
    assert!(edge.iter().all(|y| *y == -12.0), "{edge:?}");
    assert!(seam.iter().all(|y| *y == 138.0), "{seam:?}");
    for words in ["raw edge", "inner seam"] {
        assert!(page.contains(&format!(">{words}</text>")), "{words}");
        assert!(page.contains(&format!("</svg> the {words}")), "{words}");
    }
    // A piece in the middle of the quilt has none.
    let (far, _) = on_cloth(&[motif("far", &[(600.0, 700.0), (800.0, 900.0)])]);
    assert!(!far.contains("class=\"edge\"") && !far.contains("by the lines beside"));
}

#[test]
fn no_words_cross_a_line_of_the_piece_or_of_the_cloth() {
    let (mut cuts, mut names) = (0, 0);
    for lines in [
        vec![(350.0, 12.0), (800.0, 144.0), (1250.0, 12.0)],
        vec![(12.0, 500.0), (144.0, 12.0), (500.0, 144.0)],
        vec![(1588.0, 500.0), (1460.0, 900.0), (1588.0, 1500.0)],
    ] {
        let (page, template) = on_cloth(&[motif("leaf", &lines)]);
        assert!(template.sheets > 1);
        let min = lines.iter().fold([f64::INFINITY; 2], |min, at| {
            [min[0].min(at.0), min[1].min(at.1)]
        });
        let mut walls: Vec<[Point; 2]> = Vec::new();
        let line: Vec<Point> = lines.iter().map(|&(x, y)| Point::new(x, y)).collect();
        walls.extend(line.windows(2).map(|pair| [pair[0], pair[1]]));
        for line in cloth() {
            for at in 0..4 {
                walls.push([line.corners[at], line.corners[(at + 1) % 4]]);
            }
        }
        for leaf in leaves(&page) {
            for (words, [left, top, right, low]) in word_boxes(&leaf) {
                if words.starts_with("cut here") {
                    cuts += 1;
                } else if !words.starts_with("lay ") {
                    names += 1;
                }
                for [a, b] in &walls {
                    // In steps finer than letters are high.
                    let steps = (b - a).norm().ceil() as u32;
                    let crosses = (0..=steps).any(|step| {
                        let at = a + (b - a) * (f64::from(step) / f64::from(steps));
                        let (x, y) = (at.x - min[0], at.y - min[1]);
                        x > left && x < right && y > top && y < low
                    });
                    assert!(!crosses, "{words} at {left} {top} on {a} to {b}");
                }
            }
        }
    }
    assert!(cuts > 3 && names > 5, "{cuts} {names}");
}

#[test]
fn the_overview_names_sheets_in_letters_of_nine_points_or_not_at_all() {
    // 9 points are 3.175 mm.
    let sizes = |width: f64, height: f64| -> Vec<f64> {
        let line = motif(
            "leaf",
            &[(0.0, 0.0), (width, height), (0.0, height), (width, 0.0)],
        );
        let (page, _) = page(Unit::Mm, &[line], Paper::A4);
        let texts = page
            .split("<text class=\"word middle\" font-size=\"")
            .skip(1);
        texts
            .map(|rest| {
                rest.split('"')
                    .next()
                    .expect("a size")
                    .parse()
                    .expect("a number")
            })
            .collect()
    };
    let few = sizes(500.0, 500.0);
    assert!(
        few.len() > 3 && few.iter().all(|size| *size >= 3.175),
        "{few:?}"
    );
    let many = sizes(2200.0, 2800.0);
    assert!(many.iter().all(|size| *size >= 3.175), "{many:?}");
}
