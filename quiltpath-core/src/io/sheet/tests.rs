use super::*;
use crate::geom::Point;
use crate::io::json::read_plan;
use crate::motif::Motif;
use crate::plan::spec::{CornerSpec, CornerStyle, QuiltSpec};
use crate::plan::{MotifRequest, PieceKind, PlanSpec, Stitched, solve, solve_around, stitch_plan};
use crate::strokes::Drawing;
use proptest::prelude::*;

const WAVE: [(f64, f64); 5] = [(0.0, 1.0), (1.0, 0.0), (2.0, 1.0), (3.0, 2.0), (4.0, 1.0)];
const CORNER: [(f64, f64); 6] = [
    (1.0, 6.0),
    (0.0, 5.0),
    (2.0, 4.0),
    (0.0, 0.0),
    (5.0, 2.0),
    (6.0, 1.0),
];

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y) * 25.4);
    Motif::from_points("m", points.collect()).expect("a motif")
}

fn load(request: &MotifRequest) -> Result<Drawing, Error> {
    let points: &[(f64, f64)] = if request.name == "corner" {
        &CORNER
    } else {
        &WAVE
    };
    Ok(motif(points).into())
}

fn sheet_of(spec: &PlanSpec) -> Option<(String, Solved, Stitching)> {
    let solved = solve(spec, load).ok()?;
    let stitching = stitch_plan(spec, &solved).ok()?;
    let page = write_sheet(&solved, &stitching).expect("a whole plan");
    Some((page, solved, stitching))
}

fn sheet(text: &str) -> (String, Solved, Stitching) {
    let spec: PlanSpec = read_plan(text.as_bytes()).expect("a plan");
    sheet_of(&spec).expect("planned")
}

fn square(keys: &str, border: &str) -> (String, Solved, Stitching) {
    sheet(&format!(
        r#"{{"unit":"in","quilt":{{"width":60,"height":80}},{keys}"borders":[{{"width":6,{border}"side":{{"motif":"wave"}}}}]}}"#
    ))
}

const LEG: &str = r#""corner":{"style":"leg","motif":"corner"},"#;
const OPEN: &str = r#""corner":{"style":"open"},"#;

/// The page is well-formed enough to be read: each element that opens closes, in order, and each
/// piece, part and finding stands where it has to.
fn check(page: &str, solved: &Solved, stitching: &Stitching) {
    let pieces = solved.pieces.len();
    assert_eq!(page.matches("class=\"card\"").count(), pieces);
    assert_eq!(page.matches("<input type=\"checkbox\"").count(), pieces);
    let boxes = page.matches("<span class=\"box\"").count();
    assert_eq!(boxes, stitching.runs.len());
    assert_eq!(
        page.matches("<ol class=\"stops\">").count(),
        stitching.passes.len()
    );
    assert_eq!(page.matches("<use href=").count(), pieces);
    for (piece, number) in solved.pieces.iter().zip(&stitching.piece_numbers(solved)) {
        let line = format!("id=\"line.{number}\"");
        assert_eq!(page.matches(&line).count(), 1, "{}", piece.name);
        assert!(page.contains(&format!("<a href=\"#at.{number}\">{}</a>", piece.name)));
    }
    let parts: usize = stitching.runs.iter().map(|run| run.parts.len()).sum();
    assert_eq!(page.matches("data-from=").count(), parts);
    let findings = solved.findings.len() + stitching.findings.len();
    assert_eq!(page.matches("<li id=\"finding.").count(), findings);
    assert!(!page.contains("NaN") && !page.contains("inf\""));
    balanced(page);
}

fn balanced(page: &str) {
    const EMPTY: [&str; 4] = ["meta", "input", "!DOCTYPE", "br"];
    let body = page.split("<script>").next().expect("a page");
    let mut open: Vec<&str> = Vec::new();
    for rest in body.split('<').skip(1) {
        let (tag, _) = rest.split_once('>').unwrap_or_else(|| panic!("{rest}"));
        let name = tag.split([' ', '\n', '/']).next().unwrap_or_default();
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name));
        } else if !tag.ends_with('/') && !EMPTY.contains(&name) {
            open.push(name);
        }
    }
    assert_eq!(open, ["html", "body"]);
}

#[test]
fn every_piece_part_and_finding_stands_on_the_sheet() {
    for keys in [
        "",
        r#""machine":{"throat":18},"#,
        r#""machine":{"throat":18,"turned":true},"#,
        r#""machine":{"throat":4},"#,
    ] {
        for border in [LEG, OPEN] {
            let (page, solved, stitching) = square(keys, border);
            check(&page, &solved, &stitching);
            assert_eq!(
                page.matches("class=\"pass\"").count(),
                stitching.passes.len()
            );
        }
    }
}

#[test]
fn what_is_stitched_already_is_ticked_and_told_apart_from_what_is_left() {
    let text = format!(
        r#"{{"unit":"in","quilt":{{"width":60,"height":80}},"machine":{{"throat":18}},
            "borders":[{{"width":6,{LEG}"side":{{"motif":"wave"}}}}]}}"#
    );
    let (before, solved, stitching) = sheet(&text);
    assert!(!before.contains("Stitched already") && !before.contains(" checked"));
    let mut stitched = Stitched::of(&solved).expect("nothing yet");
    // The corners above are done then, and the sides below them begun.
    for run in &stitching.runs[..stitching.passes[1].runs.end] {
        stitched.add(&solved, run).expect("a run of the plan");
    }
    let mut spec: PlanSpec = read_plan(text.as_bytes()).expect("a plan");
    spec.quilt = QuiltSpec::rectangle(60.0, 80.5);
    let solved = solve_around(&spec, &stitched, load).expect("solved");
    let stitching = stitch_plan(&spec, &solved).expect("stitched");
    let page = write_sheet(&solved, &stitching).expect("a whole plan");
    check(&page, &solved, &stitching);
    let count = |of: fn(&crate::plan::Piece) -> bool| {
        solved.pieces.iter().filter(|&piece| of(piece)).count()
    };
    let (done, begun) = (count(|one| one.is_stitched()), count(|one| one.has_begun()));
    assert!(done > 0 && begun > done);
    for (piece, number) in solved.pieces.iter().zip(stitching.piece_numbers(&solved)) {
        let card = page
            .split(&format!("id=\"piece.{number}\""))
            .nth(1)
            .expect("a card");
        let card = card.split("</li>").next().expect("an end");
        assert_eq!(
            card.contains(" checked "),
            piece.is_stitched(),
            "{}",
            piece.name
        );
        let told = card.contains("% stitched already, the rest in ");
        assert_eq!(
            told,
            piece.has_begun() && !piece.is_stitched(),
            "{}",
            piece.name
        );
    }
    let length = solved.stitched_length();
    let words = crate::io::words::line_both(solved.unit, solved.length() - length);
    let all = page
        .split("<dt>Stitched already</dt>")
        .nth(1)
        .expect("a row");
    assert!(
        all.starts_with("<dd><data data-key=\"totals.stitched\" value="),
        "{all:.200}"
    );
    let pieces = crate::io::words::counted(done, "whole piece");
    assert!(
        all.contains(&format!("</data>: {pieces}, {} in part</dd>", begun - done)),
        "{all:.300}"
    );
    let left = all.split("<dt>Left</dt>").nth(1).expect("a row");
    let left = left.split("</dd>").next().expect("an end");
    let line = crate::io::fraction::set(&words).into_string();
    let pieces = crate::io::words::counted(solved.pieces.len() - done, "piece");
    assert_eq!(left, format!("<dd>{line}, of {pieces}"));
}

#[test]
fn nested_and_wavy_borders_measure_from_their_own_seams() {
    let (page, solved, stitching) = sheet(
        r#"{"unit":"mm","quilt":{"width":1500,"height":2000},"borders":[
            {"name":"outer","width":150,"stations":[{"side":"top","at":700,"edge":-10,"seam":155}],"corner":{"style":"open"},"side":{"motif":"wave"}},
            {"name":"inner","width":100,"corner":{"style":"open"},"side":{"motif":"wave"}}]}"#,
    );
    check(&page, &solved, &stitching);
    assert_eq!(page.matches("from the raw edge").count(), 4);
    assert_eq!(page.matches("from the outer seam").count(), 4);
    // Where the seam and the edge of a straight border lie on both sides of a start, what lies
    // between them adds up to the width.
    for (index, piece) in solved.pieces.iter().enumerate() {
        let limits = crate::io::numbers::Limits::of(&solved.layouts[piece.border]);
        let lie = limits.lie(piece);
        if index > 0 {
            let width = if piece.border == 0 { 150.0 } else { 100.0 };
            assert!(
                (lie.from_seam[0] + lie.from_edge[0] - width).abs() < 1e-6,
                "{lie:?}"
            );
        }
    }
}

#[test]
fn titles_and_names_are_plain_text() {
    let (page, solved, stitching) = sheet(
        r#"{"unit":"in","title":"</title><script>alert(1)</script> \"&\"","quilt":{"width":60,"height":80},
            "borders":[{"name":"<b>\"x\" & y</b>","width":6,"corner":{"style":"open"},"side":{"motif":"wave"}}]}"#,
    );
    check(&page, &solved, &stitching);
    assert_eq!(page.matches("<script>").count(), 1);
    assert!(page.contains("<h1>&lt;/title&gt;&lt;script&gt;"));
    assert!(!page.contains("<b>\"x"));
}

#[test]
fn customer_and_notes_are_plain_text_in_their_lines() {
    let said =
        r#""customer":" Holt & <i>Sons</i> ","notes":"Wool <batting>.\r\nKeep \"1/4\" free.\n","#;
    let (page, solved, stitching) = square(&format!(r#"{said}"machine":{{"throat":18}},"#), OPEN);
    check(&page, &solved, &stitching);
    let customer = "Holt &amp; &lt;i&gt;Sons&lt;/i&gt;";
    let below = page.split("</h1>").nth(1).expect("a title");
    let below = below.split("</header>").next().expect("a head");
    assert!(below.contains(&format!("data-text=\"customer\">{customer}</span>")));
    assert!(
        below.contains("data-text=\"notes\">Wool &lt;batting&gt;.\nKeep &quot;1/4&quot; free.</p>")
    );
    let on_paper = format!("class=\"on-paper\">, for {customer}</span>");
    assert_eq!(page.matches(&on_paper).count(), stitching.passes.len());
    assert!(stitching.passes.len() > 1);
    let (plain, _, _) = square("", OPEN);
    assert!(!plain.contains("class=\"customer\"") && !plain.contains("class=\"on-paper\""));
    assert!(!plain.contains("class=\"notes\""));
}

#[test]
fn numbers_follow_the_order_of_stitching_and_reversed_pieces_start_at_their_end() {
    let (page, solved, stitching) = square("", OPEN);
    let numbers = stitching.piece_numbers(&solved);
    let mut order: Vec<usize> = numbers.clone();
    order.sort_unstable();
    assert_eq!(order, (1..=solved.pieces.len()).collect::<Vec<_>>());
    let parts = stitching.runs.iter().flat_map(|run| &run.parts);
    for (part, place) in parts.zip(1..) {
        assert_eq!(numbers[part.piece], place);
        let number = numbers[part.piece];
        let card = page.split(&format!("id=\"piece.{number}\"")).nth(1);
        let start = card.and_then(|card| card.split("<dt>Start</dt>").nth(1));
        let end = if part.reversed { "end" } else { "start" };
        let key = format!("pieces.{}.{end}.0", part.piece);
        let first = start.and_then(|text| text.split("data-key=\"").nth(1));
        assert!(first.is_some_and(|text| text.starts_with(&key)), "{number}");
    }
}

#[test]
fn the_parts_of_a_piece_are_its_whole_length() {
    for throat in [4, 9, 18] {
        let (_, solved, stitching) = square(&format!(r#""machine":{{"throat":{throat}}},"#), LEG);
        for (index, piece) in solved.pieces.iter().enumerate() {
            let runs = stitching.runs.iter().flat_map(|run| &run.parts);
            let mut parts: Vec<[f64; 2]> = runs
                .filter(|part| part.piece == index)
                .map(|part| part.between)
                .collect();
            parts.sort_by(|a, b| a[0].total_cmp(&b[0]));
            let mut reached = 0.0;
            for [from, to] in parts {
                assert!((from - reached).abs() < 1e-9 && to > from, "{}", piece.name);
                reached = to;
            }
            assert!((reached - 1.0).abs() < 1e-9, "{}", piece.name);
        }
        // A run is as long as its parts.
        for run in &stitching.runs {
            let long = |part: &crate::plan::RunPart| {
                (part.between[1] - part.between[0]) * solved.pieces[part.piece].motif().length()
            };
            let parts: f64 = run.parts.iter().map(long).sum();
            assert!((parts - run.motif.length()).abs() < 1e-6 * parts.max(1.0));
        }
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(24)))]

    #[test]
    fn outlines_of_three_to_twelve_sides_have_their_sheet(
        sides in 3..=12_usize,
        turn in 0.0..1.0_f64,
        // From here on the open corners of twelve sides leave a span.
        size in 45.0..90.0_f64,
        mitred in any::<bool>(),
    ) {
        let corner = |at: usize| {
            let angle = std::f64::consts::TAU * (at as f64 + turn) / sides as f64;
            format!("[{},{}]", size * angle.cos(), size * angle.sin())
        };
        let corners: Vec<String> = (0..sides).map(corner).collect();
        let text = format!(
            r#"{{"unit":"in","quilt":{{"corners":[{}]}},"borders":[{{"width":5,{OPEN}"side":{{"motif":"wave"}}}}]}}"#,
            corners.join(",")
        );
        let mut spec: PlanSpec = read_plan(text.as_bytes()).expect("a plan");
        if mitred {
            spec.borders[0].corner = CornerSpec::new(CornerStyle::Mitred);
        }
        let planned = sheet_of(&spec);
        prop_assert!(planned.is_some() || mitred);
        if let Some((page, solved, stitching)) = planned {
            check(&page, &solved, &stitching);
            let sides_found = solved.pieces.iter().filter(|piece| matches!(piece.kind, PieceKind::Side(_)));
            prop_assert_eq!(sides_found.count(), sides);
        }
    }
}
