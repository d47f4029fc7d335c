//! Division: nothing lost, nothing deeper than the throat, cuts only where they are needed.

use super::*;
use crate::geom::measure::length;
use crate::order::{Roll, Throat};
use proptest::prelude::*;

fn motif(points: &[(f64, f64)]) -> Motif {
    let points = points.iter().map(|&(x, y)| Point::new(x, y)).collect();
    Motif::from_points("piece", points).expect("a motif")
}

fn whole(motif: &Motif) -> Placed<'_> {
    Placed {
        motif,
        ends: &[],
        with: None,
        or_with: None,
    }
}

/// A frame whose quilt begins at 0 both ways.
fn frame(throat: impl Into<Throat>) -> OrderOptions {
    let quilt = Bounds {
        min: Point::new(0.0, 0.0),
        max: Point::new(40.0, 40.0),
    };
    OrderOptions::new(throat, quilt)
}

/// Throats, of every second of which a roll takes some.
fn throats() -> impl Strategy<Value = Throat> {
    let roll = prop::option::of((2.0..6.0f64, 0.02..0.4f64));
    (3.0..60.0f64, roll).prop_map(|(height, roll)| {
        let roll = roll.map(|(bar, thickness)| Roll::new(bar, thickness).expect("a roll"));
        Throat::new(height).with_roll(roll)
    })
}

/// Lines of 3 to 13 points that are cut up by copies at some of their points.
fn lines() -> impl Strategy<Value = (Motif, Vec<usize>)> {
    let point = (0.0..40.0f64, 0.0..40.0f64, prop::bool::weighted(0.3));
    prop::collection::vec(point, 3..14).prop_map(|points| {
        let ends = (1..points.len()).filter(|&k| points[k].2).collect();
        let points: Vec<(f64, f64)> = points.iter().map(|&(x, y, _)| (x, y)).collect();
        (motif(&points), ends)
    })
}

/// The fewest parts of a line, none with more between its greatest and its least y than the window
/// there is high, cut at many places: fewest parts up to each of them.
fn fewest_parts(points: &[Point], throat: &Throat) -> usize {
    const STEPS: usize = 32;
    let mut places = vec![points[0].y];
    for pair in points.windows(2) {
        let step = (pair[1].y - pair[0].y) / STEPS as f64;
        places.extend((1..=STEPS).map(|k| pair[0].y + step * k as f64));
    }
    let mut fewest = vec![0; places.len()];
    for to in 1..places.len() {
        let (mut least, mut greatest) = (places[to], places[to]);
        fewest[to] = usize::MAX;
        for from in (0..to).rev() {
            least = least.min(places[from]);
            greatest = greatest.max(places[from]);
            if greatest - least > throat.reach(least) {
                break;
            }
            fewest[to] = fewest[to].min(fewest[from] + 1);
        }
    }
    fewest[places.len() - 1]
}

proptest! {
    #[test]
    fn atoms_fit_the_throat_and_make_up_the_whole_line(
        (motif, ends) in lines(), throat in throats(), twice in any::<bool>(),
    ) {
        let loadings = if twice { Loadings::Twice } else { Loadings::Once };
        let pieces = [Placed { motif: &motif, ends: &ends, with: None, or_with: None }];
        let divided = divide(&pieces, &frame(throat), loadings).expect("divided");
        let count = divided.atoms.len();
        prop_assert_eq!(divided.stretches.len(), count);
        prop_assert_eq!(divided.joins.len(), count - 1);
        let mut total = 0.0;
        for (number, atom) in divided.atoms.iter().enumerate() {
            let [top, bottom] = atom.loading.span(&atom.bounds);
            prop_assert!(bottom - top <= throat.reach(top) + 1e-7, "atom {number}");
            prop_assert!(twice || atom.loading == Loading::Upright);
            let onward = [RunStep { atom: number, reversed: false }];
            let line = divided.line(&pieces, &onward);
            prop_assert_eq!((line[0], line[line.len() - 1]), (atom.start, atom.end));
            prop_assert_eq!(Bounds::of(&line), Some(atom.bounds));
            total += length(&line);
            let back = [RunStep { atom: number, reversed: true }];
            let back = divided.line(&pieces, &back);
            prop_assert!(back.iter().rev().eq(&line));
            if number > 0 {
                prop_assert_eq!(divided.atoms[number - 1].end, atom.start);
            }
        }
        prop_assert!((total - motif.length()).abs() < 1e-9 * (1.0 + total));
        let steps: Vec<RunStep> = (0..count).map(|atom| RunStep { atom, reversed: false }).collect();
        let line = divided.line(&pieces, &steps);
        let mut line = line.iter();
        prop_assert!(motif.points().iter().all(|point| line.any(|other| other == point)));
        // The ends of copies are ends of atoms.
        for &end in &ends {
            let point = motif.points()[end];
            prop_assert!(divided.atoms.iter().any(|atom| atom.end == point));
        }
        if divided.deep.is_empty() {
            let whole = usize::from(ends.last() != Some(&(motif.points().len() - 1)));
            prop_assert_eq!(count, ends.len() + whole);
        }
    }

    #[test]
    fn a_copy_is_cut_as_seldom_as_can_be((motif, _) in lines(), throat in throats()) {
        let divided = divide(&[whole(&motif)], &frame(throat), Loadings::Once).expect("divided");
        // Cuts at all the places of a grid only can't do better; those at the best places can.
        prop_assert!(divided.atoms.len() <= fewest_parts(motif.points(), &throat));
        let bounds = motif.bounds();
        let fits = bounds.height() <= throat.reach(bounds.min.y);
        prop_assert_eq!(divided.deep.is_empty(), fits);
        // And no way does better: a part that ends later than ours would be deeper than its window.
        for (number, atom) in divided.atoms.iter().enumerate().take(divided.atoms.len() - 1) {
            let (height, reach) = (atom.bounds.height(), throat.reach(atom.bounds.min.y));
            prop_assert!((height - reach).abs() < 1e-7, "atom {number} is {height} deep");
        }
    }
}

#[test]
fn a_straight_line_is_cut_where_the_throat_ends() {
    let line = motif(&[(0.0, 0.0), (10.0, 25.0), (20.0, 0.0)]);
    let divided = divide(&[whole(&line)], &frame(10.0), Loadings::Once).expect("divided");
    let ends: Vec<Point> = divided.atoms.iter().map(|atom| atom.end).collect();
    // Down to 10, 20, round the tip and up to 15, 5 and the end.
    let there = [
        (4.0, 10.0),
        (8.0, 20.0),
        (14.0, 15.0),
        (18.0, 5.0),
        (20.0, 0.0),
    ];
    assert_eq!(ends, there.map(|(x, y)| Point::new(x, y)));
    assert_eq!(divided.deep, [0]);
    let place = divided.stretches[1].to;
    assert_eq!((place.point, place.share), (0, 0.8));
}

#[test]
fn each_piece_goes_where_it_lies_across_and_a_link_with_its_neighbour() {
    let across = motif(&[(0.0, 0.0), (30.0, 4.0), (60.0, 0.0)]);
    let down = motif(&[(60.0, 5.0), (56.0, 35.0), (60.0, 65.0)]);
    let link = motif(&[(60.0, 0.0), (60.0, 5.0)]);
    let with = Placed {
        with: Some(0),
        ..whole(&link)
    };
    let pieces = [whole(&across), with, whole(&down)];
    let loading = |loadings, throat| {
        let divided = divide(&pieces, &frame(throat), loadings).expect("divided");
        let atoms = divided.atoms.iter().map(|atom| atom.loading);
        (atoms.collect::<Vec<_>>(), divided.deep)
    };
    let (upright, turned) = (Loading::Upright, Loading::Turned);
    assert_eq!(
        loading(Loadings::Twice, 20.0),
        (vec![upright, upright, turned], vec![])
    );
    assert_eq!(loading(Loadings::Once, 60.0), (vec![upright; 3], vec![]));
    assert_eq!(loading(Loadings::Once, 59.0), (vec![upright; 4], vec![2]));
}

/// A block 12 wide and 14 high stays upright by the rule, but a throat of 13 takes it turned only.
#[test]
fn what_the_throat_takes_only_turned_goes_there() {
    let block = motif(&[(0.0, 0.0), (12.0, 14.0), (0.0, 14.0)]);
    let loading = |throat| {
        let divided = divide(&[whole(&block)], &frame(throat), Loadings::Twice).expect("divided");
        (divided.atoms[0].loading, divided.atoms.len())
    };
    assert_eq!(loading(14.0), (Loading::Upright, 1));
    assert_eq!(loading(13.0), (Loading::Turned, 1));
    assert_eq!(loading(11.0).0, Loading::Upright);
    assert!(loading(11.0).1 > 1);
}

#[test]
fn joins_lead_from_the_last_atom_to_the_first() {
    let line = motif(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]);
    let side = Placed {
        ends: &[1, 2],
        ..whole(&line)
    };
    let mut divided = divide(&[side, side], &frame(5.0), Loadings::Once).expect("divided");
    divided.join(0, 1).expect("joined");
    divided.join(1, 1).expect("joined");
    let (start, end) = (AtomEnd::Start, AtomEnd::End);
    let inside = [[end(0), start(1)], [end(2), start(3)]];
    let added = [[end(1), start(2)], [end(3), start(2)]];
    assert_eq!(divided.joins, [inside, added].concat());
    let error = divided.join(0, 2).expect_err("no piece 2");
    assert!(error.is_stitch());
    assert!(
        error
            .to_string()
            .contains("piece 2 is named, but there are only 2"),
        "{error}"
    );
}

#[test]
fn what_cannot_be_divided_is_refused_with_the_piece() {
    let line = motif(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0)]);
    let refused = |ends: &[usize], with, throat| {
        let piece = Placed {
            motif: &line,
            ends,
            with,
            or_with: None,
        };
        let error = divide(&[piece], &frame(throat), Loadings::Once).expect_err("refused");
        error.to_string()
    };
    for ends in [&[0, 2][..], &[2, 1], &[1, 1], &[3]] {
        let error = refused(ends, None, 5.0);
        assert!(error.starts_with("piece 0: piece: the copies"), "{error}");
        assert!(error.ends_with("from 1 to 2"), "{error}");
    }
    assert!(refused(&[], Some(1), 5.0).contains("only 1"));
    for throat in [0.0, -1.0, f64::NAN, f64::INFINITY] {
        assert!(refused(&[], None, throat).contains("the throat is"));
    }
    // Far more parts than anybody could stitch, and steps too small to distinguish.
    for throat in [1e-6, 1e-300] {
        assert!(refused(&[], None, throat).contains("more than 10000 parts"));
    }
}

/// Stretches of other pieces give some line or none, but no panic.
#[test]
fn a_line_of_pieces_that_were_not_divided_is_no_panic() {
    let long = motif(&[(0.0, 0.0), (1.0, 1.0), (2.0, 2.0), (3.0, 9.0)]);
    let short = motif(&[(0.0, 0.0), (1.0, 1.0)]);
    let divided =
        divide(&[whole(&long), whole(&long)], &frame(2.0), Loadings::Once).expect("divided");
    let steps: Vec<RunStep> = (0..99)
        .map(|atom| RunStep {
            atom,
            reversed: false,
        })
        .collect();
    let line = divided.line(&[whole(&short)], &steps);
    assert!(line.iter().all(|point| short.points().contains(point)));
}

/// A throat of 16 with nothing on the roll at the top. With 24 wound, 1/5 thick, on a bar of 2, the
/// roll has grown from 1 to sqrt(1 + 4.8/π), so by 0.5899.
#[test]
fn what_fits_at_the_top_of_a_quilt_is_cut_further_down() {
    let line = |y: f64| motif(&[(0.0, y), (1.0, y + 15.5)]);
    let (upper, lower) = (line(0.0), line(24.0));
    let roll = Roll::new(2.0, 0.2).expect("a roll");
    let throat = Throat::new(16.0).with_roll(Some(roll));
    let pieces = [whole(&upper), whole(&lower)];
    let divided = divide(&pieces, &frame(throat), Loadings::Once).expect("divided");
    assert_eq!((divided.atoms.len(), divided.deep), (3, vec![1]));
    let cut = divided.atoms[1].end.y;
    assert!((cut - (24.0 + 16.0 - 0.5899)).abs() < 1e-4, "{cut}");
    // From below it is the last part that is as high as its window.
    let turned = motif(&[(1.0, 39.5), (0.0, 24.0)]);
    let divided = divide(&[whole(&turned)], &frame(throat), Loadings::Once).expect("divided");
    let cut = divided.atoms[0].end.y;
    assert!(
        (cut + throat.reach(cut) - 39.5).abs() < 1e-9 && cut > 24.0,
        "{cut}"
    );
    // A throat that the roll fills before the piece ends.
    let narrow = Throat::new(0.8).with_roll(Some(roll));
    let error = divide(&pieces, &frame(narrow), Loadings::Once).expect_err("refused");
    let error = error.to_string();
    assert!(
        error.starts_with("piece 1: piece: nothing is left of a throat of 0.8:"),
        "{error}"
    );
}
