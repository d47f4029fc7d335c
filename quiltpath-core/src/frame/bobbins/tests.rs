use super::*;
use crate::frame::Stopped;
use crate::geom::measure::{length, point_at};
use crate::motif::Motif;
use crate::plan::spec::{
    BorderSpec, CornerSpec, CornerStyle, QuiltSpec, SideSpec, ThreadSpec, UnitSpec,
};
use crate::plan::{PlanSpec, solve, stitch_plan};
use proptest::prelude::*;

/// A quilt of 300 by 400 mm with this motif round it.
fn stitched(style: CornerStyle, motif: &[(f64, f64)], reserve: f64) -> (Solved, Stitching) {
    let border = BorderSpec::new(60.0, CornerSpec::new(style), SideSpec::new("motif"));
    let quilt = QuiltSpec::rectangle(300.0, 400.0);
    let mut plan = PlanSpec::new(UnitSpec::Mm, quilt).with_borders([border]);
    plan.thread = Some(ThreadSpec::default().with_reserve_percent(reserve * 100.0));
    let points: Vec<Point> = motif.iter().map(|&(x, y)| Point::new(x, y)).collect();
    let motif = |_: &_| Ok(Motif::from_points("motif", points.clone())?.into());
    let solved = solve(&plan, motif).expect("solved");
    let stitching = stitch_plan(&plan, &solved).expect("stitched");
    (solved, stitching)
}

const ZIGZAG: [(f64, f64); 4] = [(0.0, 5.0), (5.0, 0.0), (15.0, 10.0), (20.0, 5.0)];

/// A smooth wave with a loop in it.
fn looped() -> Vec<(f64, f64)> {
    let turn = |k: usize| std::f64::consts::TAU * (k as f64 / 120.0 - 0.5);
    (0..=120)
        .map(|k| {
            (
                20.0 * k as f64 / 120.0 - 6.0 * turn(k).sin(),
                5.0 - 5.0 * turn(k).cos(),
            )
        })
        .collect()
}

/// Every place where a bobbin might be changed, found stitch by stitch: the thread spent up to
/// there, how good it is, its run and its length.
fn places(solved: &Solved, stitching: &Stitching) -> (Vec<(f64, ChangeAt, usize, f64)>, f64) {
    let thread = &stitching.options.thread;
    let of = |length: f64| (length + thread.thickness) * (1.0 + thread.waste);
    let mut all = Vec::new();
    let mut spent = 0.0;
    for (number, (run, line)) in stitching.runs.iter().zip(&stitching.job.lines).enumerate() {
        all.push((spent, ChangeAt::RunStart, number, 0.0));
        spent += thread.tail * (1.0 + thread.waste);
        let needles = line.points();
        let (before, own) = (line.ties.before.len(), line.stitches.points.len());
        let mut reached = Vec::new();
        for (at, needle) in needles.iter().enumerate() {
            if at > 0 {
                spent += of((needle - needles[at - 1]).norm());
            }
            if (before..before + own).contains(&at) {
                let along = line.stitches.along[at - before];
                reached.push((along, spent));
                let cusp = line.stitches.anchors.contains(&(at - before));
                let why = if cusp { ChangeAt::Cusp } else { ChangeAt::Line };
                all.push((spent, why, number, along));
            }
        }
        let mut join = 0.0;
        for part in &run.parts[..run.parts.len() - 1] {
            join += (part.between[1] - part.between[0]) * solved.pieces[part.piece].length();
            let next = reached
                .iter()
                .position(|(along, _)| *along > join)
                .expect("a needle");
            let ([a, from], [b, to]) = (reached[next - 1].into(), reached[next].into());
            let at: f64 = from + (join - a) / (b - a) * (to - from);
            all.push((at, ChangeAt::Join, number, join));
        }
        spent += thread.tail * (1.0 + thread.waste);
    }
    (all, spent)
}

/// From the start of the first run.
fn brute(solved: &Solved, stitching: &Stitching) -> Vec<(ChangeAt, usize, f64)> {
    brute_from(solved, stitching, 0.0)
}

/// With a bobbin put in when so much thread was spent.
fn brute_from(solved: &Solved, stitching: &Stitching, fresh: f64) -> Vec<(ChangeAt, usize, f64)> {
    let (all, total) = places(solved, stitching);
    let thread = &stitching.options.thread;
    let bobbin = thread.bobbin.expect("a bobbin");
    let reserve = thread.reserve * bobbin;
    let (mut start, mut found) = (fresh, Vec::new());
    while total > start + bobbin - reserve {
        let latest = start + bobbin - reserve;
        let rank = |&(spent, why, ..): &(f64, ChangeAt, usize, f64)| match why {
            ChangeAt::RunStart if spent >= latest - reserve && spent <= latest + reserve / 2.0 => {
                Some(ChangeAt::RunStart)
            }
            // Where nothing is good the last stitch is, or the end of the run that has it.
            ChangeAt::RunStart | ChangeAt::Line => (spent <= latest).then_some(ChangeAt::Line),
            _ if spent < latest - reserve => (spent <= latest).then_some(ChangeAt::Line),
            _ => (spent <= latest).then_some(why),
        };
        let usable = all.iter().filter(|place| place.0 > start);
        let ranked = usable.filter_map(|place| Some((rank(place)?, place)));
        let best = ranked.min_by(|a, b| a.0.cmp(&b.0).then(b.1.0.total_cmp(&a.1.0)));
        let (rank, best) = best.expect("a place");
        let why = if best.1 == ChangeAt::RunStart {
            best.1
        } else {
            rank
        };
        start = best.0;
        found.push((why, best.2, best.3));
    }
    found
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(crate::cases(48)))]
    #[test]
    fn changes_are_those_of_looking_at_every_stitch(
        bobbin in 600.0..6000.0f64,
        reserve in prop::sample::select(vec![0.05, 0.1, 0.2, 0.4]),
        bent in any::<bool>(),
    ) {
        let style = if bent { CornerStyle::Bent } else { CornerStyle::Open };
        let (solved, mut stitching) = stitched(style, &ZIGZAG, reserve);
        stitching.options.thread.bobbin = Some(bobbin);
        let found = bobbin_changes(&solved, &stitching).expect("changes").changes;
        let brute = brute(&solved, &stitching);
        prop_assert_eq!(found.len(), brute.len());
        for (change, (why, run, length)) in found.iter().zip(brute) {
            prop_assert_eq!((change.why, change.place.run), (why, run));
            prop_assert!((change.place.length - length).abs() < 1e-6);
        }
    }

    #[test]
    fn changes_to_come_count_from_the_last_fresh_bobbin(
        bobbin in 600.0..6000.0f64,
        along in 0.0..1.0f64,
        on in 0.0..1.0f64,
    ) {
        let (solved, mut stitching) = stitched(CornerStyle::Bent, &ZIGZAG, 0.1);
        stitching.options.thread.bobbin = Some(bobbin);
        // A needle point at which the bobbin was empty, as a place in its run.
        let (all, total) = places(&solved, &stitching);
        let needles: Vec<_> = all
            .iter()
            .filter(|place| matches!(place.1, ChangeAt::Line | ChangeAt::Cusp) && place.3 > 0.0)
            .collect();
        let &&(spent, _, run, length) = &needles[(along * (needles.len() - 1) as f64) as usize];
        let mut progress = Progress::of(&solved, &stitching);
        let stopped = Stopped::new(0, run, length);
        progress.change_bobbin(&stitching, Stopped::new(0, 0, length / 2.0)).expect("its run");
        progress.change_bobbin(&stitching, stopped).expect("its run");
        progress.stopped = Some(stopped);
        let to_come = changes_to_come(&solved, &stitching, &progress).expect("changes").changes;
        // The run's tail is not spent at its last needle point, but by all of it.
        let done = length >= stitching.runs[run].motif.length() * (1.0 - 1e-9);
        let tail = stitching.options.thread.tail * (1.0 + stitching.options.thread.waste);
        prop_assume!(!done && tail < total);
        let brute = brute_from(&solved, &stitching, spent);
        prop_assert_eq!(to_come.len(), brute.len());
        for (change, (why, run, length)) in to_come.iter().zip(&brute) {
            prop_assert_eq!((change.why, change.place.run), (*why, *run));
            prop_assert!((change.place.length - length).abs() < 1e-6);
        }
        // A thread break later on: what came before it was changed as planned.
        let &&(later, _, run, length) =
            &needles[((along + on * (1.0 - along)) * (needles.len() - 1) as f64) as usize];
        progress.stopped = Some(Stopped::new(0, run, length));
        let left = changes_to_come(&solved, &stitching, &progress).expect("changes").changes;
        let spent_at = |&(_, run, length): &&(ChangeAt, usize, f64)| {
            let near = |place: &&(f64, ChangeAt, usize, f64)| {
                place.2 == *run && (place.3 - length).abs() < 1e-6
            };
            all.iter().find(near).expect("a place").0
        };
        let after = brute.iter().filter(|change| spent_at(change) >= later - 1e-6).count();
        prop_assert_eq!(left.len(), after);
        prop_assert_eq!(&left[..], &to_come[to_come.len() - after..]);
    }

    #[test]
    fn there_are_as_many_as_the_job_counts_or_more_by_the_reserve(
        bobbin in 1_500.0..20_000.0f64,
        reserve in 0.0..0.3f64,
    ) {
        let (solved, mut stitching) = stitched(CornerStyle::Open, &ZIGZAG, reserve);
        stitching.options.thread.bobbin = Some(bobbin);
        let need = stitching.job.thread.thread.bobbin;
        let count = bobbin_changes(&solved, &stitching).expect("changes").count() + 1;
        prop_assert!(count as f64 >= (need / bobbin).ceil());
        // A tail and a tie-off may be left besides.
        let least = bobbin * (1.0 - 2.0 * reserve) - 150.0;
        prop_assert!(count as f64 <= (need / least).ceil(), "{} of {}", count, need / least);
    }
}

#[test]
fn the_thread_is_that_of_the_job_and_the_empty_place_where_a_bobbin_of_it_ends() {
    let (solved, mut stitching) = stitched(CornerStyle::Bent, &ZIGZAG, 0.1);
    let (_, total) = places(&solved, &stitching);
    assert!((total - stitching.job.thread.thread.bobbin).abs() < 1e-9 * total);
    // A bobbin that holds all of it has nothing to be changed for; one less by its reserve has.
    for (bobbin, changes, empty) in [
        (total / 0.9, 0, false),
        (total, 1, false),
        (total * 0.8, 1, true),
    ] {
        stitching.options.thread.bobbin = Some(bobbin);
        let found = bobbin_changes(&solved, &stitching)
            .expect("changes")
            .changes;
        assert_eq!(found.len(), changes);
        assert!(found.iter().all(|change| change.empty.is_some() == empty));
        for (change, empty) in found
            .iter()
            .filter_map(|change| Some((change, change.empty?)))
        {
            let points = stitching.runs[empty.run].motif.points();
            let at = point_at(points, empty.length).expect("a point");
            assert!((at - empty.at).norm() < 1e-9 && empty.length > change.place.length);
        }
    }
    stitching.options.thread.bobbin = None;
    assert_eq!(
        bobbin_changes(&solved, &stitching),
        Ok(BobbinChanges::default())
    );
    stitching.options.thread.reserve = 0.5;
    assert!(
        bobbin_changes(&solved, &stitching)
            .expect_err("all of it")
            .is_geometry()
    );
}

#[test]
fn a_bobbin_that_is_changed_where_it_was_planned_moves_no_other() {
    let (solved, mut stitching) = stitched(CornerStyle::Open, &ZIGZAG, 0.1);
    stitching.options.thread.bobbin = Some(700.0);
    let planned = bobbin_changes(&solved, &stitching)
        .expect("changes")
        .changes;
    assert!(planned.len() > 3, "{}", planned.len());
    let mut within = 0;
    for (number, change) in planned.iter().enumerate() {
        let mut progress = Progress::of(&solved, &stitching);
        let at = Stopped::new(0, change.place.run, change.place.length);
        // Until it is changed there, that is the next one.
        progress.stopped = Some(at);
        let next = changes_to_come(&solved, &stitching, &progress).expect("changes");
        assert_eq!(next.changes, planned[number..]);
        progress.change_bobbin(&stitching, at).expect("its run");
        let next = changes_to_come(&solved, &stitching, &progress).expect("changes");
        assert_eq!(next.count(), planned.len() - number - 1);
        // At the end of a run the next one has the fresh bobbin, without the last tail.
        let whole = stitching.runs[change.place.run].motif.length();
        if change.place.length < whole * (1.0 - 1e-9) {
            within += 1;
            for (one, other) in next.changes.iter().zip(&planned[number + 1..]) {
                assert_eq!((one.why, one.place.run), (other.why, other.place.run));
                assert!((one.place.length - other.place.length).abs() < 1e-6);
            }
        }
        // Said twice it is one bobbin; said of a place before, it is that one.
        let once = progress.clone();
        progress.change_bobbin(&stitching, at).expect("its run");
        assert_eq!(progress, once);
        progress
            .change_bobbin(&stitching, Stopped::new(0, 0, 0.0))
            .expect("its run");
        assert_eq!(progress.bobbins, [0.0]);
    }
    assert!(within > 3, "{within}");
    let none = Progress::of(&solved, &stitching);
    let all = changes_to_come(&solved, &stitching, &none).expect("changes");
    assert_eq!(all.changes, planned);
    let mut wrong = none.clone();
    for at in [Stopped::new(1, 0, 0.0), Stopped::new(0, 4, 0.0)] {
        assert!(
            wrong
                .change_bobbin(&stitching, at)
                .expect_err("not there")
                .is_plan()
        );
        assert_eq!(wrong, none);
    }
}

#[test]
fn a_smooth_line_is_changed_where_it_crosses_itself() {
    let (solved, mut stitching) = stitched(CornerStyle::Open, &looped(), 0.3);
    let mut crossings = 0;
    for bobbin in (16..40).map(|step| 25.0 * f64::from(step)) {
        stitching.options.thread.bobbin = Some(bobbin);
        let found = bobbin_changes(&solved, &stitching)
            .expect("changes")
            .changes;
        for change in found
            .iter()
            .filter(|change| change.why == ChangeAt::Crossing)
        {
            let points = stitching.runs[change.place.run].motif.points();
            let strands = points.windows(2).filter(|pair| {
                crate::geom::measure::distance_to_segment(change.place.at, pair[0], pair[1]) < 1e-6
            });
            assert_eq!(strands.count(), 2);
            assert!(change.place.length < length(points));
            crossings += 1;
        }
    }
    assert!(crossings > 5, "{crossings}");
}

#[test]
fn a_bobbin_that_is_too_short_for_a_stitch_still_comes_to_an_end() {
    let (solved, mut stitching) = stitched(CornerStyle::Open, &ZIGZAG, 0.05);
    stitching.options.stitch = crate::stitch::resample::StitchOptions::new(0.5);
    let runs = stitching.runs.iter().map(|run| &run.motif);
    stitching.job = crate::stitch::job::stitch_lines(runs, &stitching.options).expect("a job");
    stitching.options.thread.bobbin = Some(0.01);
    let found = bobbin_changes(&solved, &stitching).expect("changes");
    assert_eq!(found.changes.len(), MOST);
    let needles: usize = stitching
        .job
        .lines
        .iter()
        .map(|line| line.stitches.points.len())
        .sum();
    assert!(found.more > 0 && found.count() <= needles + stitching.runs.len());
}
