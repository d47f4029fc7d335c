use super::*;
use crate::geom::Point;
use crate::io::json::read_plan;
use crate::motif::Motif;
use crate::plan::{MotifRequest, Severity, solve, stitch_plan};
use crate::strokes::Drawing;

fn load(_: &MotifRequest) -> Result<Drawing, Error> {
    let wave = [(0.0, 1.0), (1.0, 0.0), (2.0, 1.0), (3.0, 2.0), (4.0, 1.0)];
    let points = wave.map(|(x, y)| Point::new(x, y) * 25.4);
    Ok(Motif::from_points("m", points.to_vec())?.into())
}

/// A plan with these keys, before those of the border's corner.
fn planned(keys: &str, corner: &str) -> (Solved, Stitching) {
    let text = format!(
        r#"{{{keys}, "quilt": {{"width": "60 in", "height": "80 in"}},
        "borders": [{{"width": "6 in", "corner": {{{corner}}}, "side": {{"motif": "m"}}}}]}}"#
    );
    let plan = read_plan(text.as_bytes()).expect("a plan");
    let solved = solve(&plan, load).expect("solved");
    let stitching = stitch_plan(&plan, &solved).expect("stitched");
    (solved, stitching)
}

const OPEN: &str = r#""style": "open""#;
const MITRED: &str = r#""style": "mitred""#;

fn row<'a>(rows: &'a [ComparedRow], name: &str) -> &'a ComparedRow {
    rows.iter().find(|row| row.name == name).expect(name)
}

#[test]
fn figures_are_those_of_the_plans_and_the_least_is_marked() {
    let plans = [
        planned(r#""unit": "in""#, OPEN),
        planned(r#""unit": "in", "machine": {"throat": 18}"#, MITRED),
    ];
    let named = [0, 1].map(|at| Compared::new("a plan", &plans[at].0, &plans[at].1));
    let compared = compare(&named).expect("two plans");
    let rows = compared.rows();
    for (at, (solved, stitching)) in plans.iter().enumerate() {
        let figures = &compared.plans[at];
        assert_eq!(figures.minutes, stitching.minutes());
        assert_eq!(figures.stitches, stitching.job.count());
        assert_eq!(figures.thread_cuts, stitching.runs.len());
        assert_eq!(figures.passes, stitching.passes.len());
        let sides = solved.pieces.iter().filter_map(|piece| match &piece.kind {
            crate::plan::PieceKind::Side(side) => Some((side.fit.chosen.stretch - 1.0).abs()),
            _ => None,
        });
        let worst = figures.worst_stretch.as_ref().expect("sides");
        let farthest = sides.fold(0.0, f64::max);
        assert!(((worst.stretch - 1.0).abs() - farthest).abs() < 1e-9);
        let found = stitching.all_findings(solved);
        let found = found.filter(|finding| finding.severity == Severity::Note);
        assert_eq!(figures.findings[0], found.count());
        let joins = solved.joins.iter().map(|join| join.kink_degrees);
        let sharpest = figures.worst_kink.as_ref().expect("turns");
        assert!(joins.fold(0.0, f64::max) <= sharpest.degrees + 1e-6);
    }
    let cuts = row(&rows, "Thread cuts");
    let fewer = usize::from(plans[1].1.runs.len() < plans[0].1.runs.len());
    assert_ne!(plans[0].1.runs.len(), plans[1].1.runs.len());
    assert!(cuts.cells[fewer].least && !cuts.cells[1 - fewer].least);
    let passes = row(&rows, "Passes");
    assert!(passes.cells[0].least && !passes.cells[1].least);
    assert!(rows.iter().all(|row| row.name != "Stitched already"));
    assert!(
        row(&rows, "Good to know")
            .cells
            .iter()
            .all(|cell| !cell.least)
    );
}

/// With open corners nothing else meets.
#[test]
fn the_sharpest_turn_of_sides_alone_is_between_their_repeats() {
    let (solved, stitching) = planned(r#""unit": "in""#, OPEN);
    let compared = compare(&[Compared::new("a", &solved, &stitching); 2]).expect("two");
    let sharpest = compared.plans[0].worst_kink.as_ref().expect("a turn");
    let at: usize = sharpest
        .key
        .split('.')
        .nth(1)
        .expect("a number")
        .parse()
        .expect("whole");
    let crate::plan::PieceKind::Side(side) = &solved.pieces[at].kind else {
        panic!("{sharpest:?}");
    };
    assert_eq!(sharpest.key, format!("pieces.{at}.kink_degrees"));
    assert_eq!(sharpest.degrees, side.kink_degrees);
    let sides = solved.pieces.iter().filter_map(|piece| match &piece.kind {
        crate::plan::PieceKind::Side(side) => Some(side.kink_degrees),
        _ => None,
    });
    assert!(sides.fold(0.0, f64::max) - sharpest.degrees < 1e-6);
    assert_eq!(sharpest.place, side.side.to_string());
}

#[test]
fn all_lengths_are_in_the_unit_of_the_first_plan() {
    let inches = planned(r#""unit": "in""#, OPEN);
    let metric = planned(r#""unit": "mm""#, OPEN);
    let plans = [
        Compared::new("in", &inches.0, &inches.1),
        Compared::new("mm", &metric.0, &metric.1),
    ];
    let compared = compare(&plans).expect("two plans");
    assert_eq!(compared.unit, Unit::In);
    assert_eq!(compared.plans[1].size, [60.0, 80.0]);
    let thread = row(&compared.rows(), "Thread").clone();
    assert_eq!(thread.cells[0].words, thread.cells[1].words);
    assert!(thread.cells[1].words.ends_with(" yd"), "{thread:?}");
    let page = write_comparison(&plans).expect("a page");
    assert!(page.contains("All lengths are in the unit of the first plan."));
    let turned = [plans[1], plans[0]];
    let page = write_comparison(&turned).expect("a page");
    assert!(
        page.contains("1524 mm") && !page.contains("60 in"),
        "{page}"
    );
    let alike = write_comparison(&[plans[0], plans[0]]).expect("a page");
    assert!(!alike.contains("unit of the first plan"));
}

#[test]
fn titles_and_customers_are_plain_text_and_no_id_comes_twice() {
    let title = r#""unit": "in", "title": "</title><script>alert(1)</script> & more""#;
    let first = planned(&format!(r#"{title}, "customer": "Holt <b>""#), OPEN);
    let other = planned(r#""unit": "in", "customer": "Berg""#, MITRED);
    let plans = [
        Compared::new("a.json", &first.0, &first.1),
        Compared::new("<i>b</i>.json", &other.0, &other.1),
    ];
    let page = write_comparison(&plans).expect("a page");
    assert!(!page.contains("<script") && !page.contains("<i>b"));
    assert!(page.contains("&lt;i&gt;b&lt;/i&gt;.json"));
    assert!(page.contains("For Holt &lt;b&gt;") && page.contains("For Berg"));
    assert_eq!(page.matches("<svg").count(), 2);
    assert!(!page.contains(" id=\""));
    assert!(page.contains("<h1>Two plans side by side</h1>"));
    let same = write_comparison(&[plans[1]; 3]).expect("a page");
    assert_eq!(same.matches("Berg").count(), 1);
    assert!(same.contains("<h1>Three plans side by side</h1>"));
}

#[test]
fn fewer_than_two_plans_and_more_than_six_are_refused() {
    let (solved, stitching) = planned(r#""unit": "in""#, OPEN);
    let plan = Compared::new("a", &solved, &stitching);
    for (count, wanted) in [
        (0, "0 plans to compare; give 2 to 6"),
        (1, "1 plan to compare; give 2 to 6"),
        (7, "7 plans to compare; give 2 to 6"),
    ] {
        let error = compare(&vec![plan; count]).expect_err("refused");
        assert_eq!(error.to_string(), wanted);
        assert!(write_comparison(&vec![plan; count]).is_err());
    }
    assert_eq!(compare(&[plan; 6]).expect("six").plans.len(), 6);
}
