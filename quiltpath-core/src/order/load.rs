//! One loading: its passes, runs and travel.

use super::atom::{Atom, Sweep};
use super::cuts::{Net, assign};
use super::loading::Loading;
use super::options::{MORE_PASSES, OrderOptions};
use super::ordered::{Loaded, Pass, Run};
use super::passes::Places;
use super::runs::runs;
use super::travel::{Travel, order_runs};
use super::windows::{Lines, choose, every};
use crate::geom::Point;
use crate::graph::root;

/// The most choices of windows that are tried one by one where more than two ends meet: 64.
const TRIED: usize = 64;

/// The most runs in a pass for which several choices of windows are compared by travel: 8.
const COMPARED: usize = 8;

/// Atoms, what is joined, and the frame.
pub(super) struct Frame<'a> {
    pub(super) atoms: &'a [Atom],
    /// Sets of ends that are joined, as `graph` has them.
    pub(super) joined: Vec<usize>,
    pub(super) options: &'a OrderOptions,
}

/// The atoms of one sweep of one loading.
pub(super) struct Group {
    pub(super) loading: Loading,
    pub(super) sweep: Sweep,
    pub(super) atoms: Vec<usize>,
}

/// Atoms with the places where windows may begin, and the vertices at their ends.
struct Task {
    /// The top and the bottom of each atom, from the top of the quilt.
    spans: Vec<[f64; 2]>,
    places: Places,
    /// All of them, with those that don't matter.
    all: Places,
    /// The most passes.
    passes: usize,
    ends: Vec<[usize; 2]>,
    vertices: usize,
}

impl Task {
    fn lines(&self, net: &Net<'_>) -> Lines {
        let strands = net.parts.iter().flat_map(|part| &part.strands);
        Lines::of(strands, &self.places)
    }

    /// The atoms put into windows that together reach all of them, with the fewest runs. A window
    /// begins at the top of what is stitched in it; one in which nothing is stitched is left out.
    fn put(&self, net: &Net<'_>, places: &Places, windows: &[usize]) -> Windowed {
        let assigned = assign(net, &places.reach_from(windows));
        let mut members: Vec<Vec<usize>> = vec![Vec::new(); windows.len()];
        for (atom, &window) in assigned.window.iter().enumerate() {
            members[window].push(atom);
        }
        let mut scratch = vec![0; self.vertices];
        members.retain(|atoms| !atoms.is_empty());
        let (tops, runs) = members
            .iter()
            .map(|atoms| {
                let tops = atoms.iter().map(|&atom| self.spans[atom][0]);
                let top = tops.fold(f64::INFINITY, f64::min);
                (top, runs(atoms, &self.ends, &mut scratch))
            })
            .unzip();
        Windowed {
            tops,
            runs,
            least: assigned.least,
            travel: Travel::default(),
        }
    }
}

/// Atoms put into some windows.
#[derive(Default)]
struct Windowed {
    tops: Vec<f64>,
    runs: Vec<Vec<Run>>,
    /// No way to put them into these windows takes fewer runs.
    least: usize,
    travel: Travel,
}

impl Windowed {
    fn cuts(&self) -> usize {
        self.runs.iter().map(Vec::len).sum()
    }
}

impl Frame<'_> {
    /// The atoms by loading and sweep, in the order of stitching, when each lies so.
    pub(super) fn groups(&self, loadings: &[Loading]) -> Vec<Group> {
        let all = Loading::ALL.map(|loading| Sweep::ALL.map(|sweep| (loading, sweep)));
        let groups = all.into_iter().flatten().map(|(loading, sweep)| {
            let own = |&atom: &usize| loadings[atom] == loading && self.atoms[atom].sweep == sweep;
            Group {
                loading,
                sweep,
                atoms: (0..loadings.len()).filter(own).collect(),
            }
        });
        groups.collect()
    }

    /// Whether some window takes an atom when the quilt lies this way.
    pub(super) fn takes(&self, loading: Loading, atom: usize) -> bool {
        self.options.takes(loading, &self.atoms[atom].bounds)
    }

    /// The places where windows for these atoms may begin.
    pub(super) fn windows(&self, loading: Loading, chosen: &[usize]) -> Places {
        Places::of(&self.spans(loading, chosen), |top| {
            self.options.throat.reach(top)
        })
    }

    /// The top and the bottom of these atoms, from the top of the quilt as loaded.
    fn spans(&self, loading: Loading, chosen: &[usize]) -> Vec<[f64; 2]> {
        let bounds = chosen.iter().map(|&atom| &self.atoms[atom].bounds);
        let spans = bounds.map(|bounds| self.options.below_top(loading, bounds));
        spans.collect()
    }

    /// One loading with up to so many more passes than the fewest; `chosen` are the atoms stitched
    /// in it, each of which the throat takes.
    pub(super) fn load(&mut self, loading: Loading, chosen: &[usize], more: usize) -> Loaded {
        let spans = self.spans(loading, chosen);
        let reach = |top| self.options.throat.reach(top);
        let places = Places::of(&spans, reach);
        let mut number = vec![usize::MAX; self.joined.len()];
        let mut vertices = 0;
        let mut vertex = |end: usize| {
            let place = root(&mut self.joined, end);
            if number[place] == usize::MAX {
                number[place] = vertices;
                vertices += 1;
            }
            number[place]
        };
        let ends: Vec<[usize; 2]> = chosen
            .iter()
            .map(|&atom| [vertex(2 * atom), vertex(2 * atom + 1)])
            .collect();
        let task = Task {
            all: Places::all(&spans, reach),
            passes: places.fewest() + more,
            spans,
            places,
            ends,
            vertices,
        };
        let net = Net::of(&task.ends, vertices);
        let (best, least) = fewest(&task, &net, |atom| self.ends(loading, chosen[atom]));
        let more = with_more(&task, &net, best.cuts());
        let (cuts, travel) = (best.cuts(), best.travel);
        let passes = best
            .runs
            .into_iter()
            .zip(&best.tops)
            .map(|(mut runs, &top)| {
                for step in runs.iter_mut().flat_map(|run| &mut run.steps) {
                    step.atom = chosen[step.atom];
                }
                let [to_machine, to_cloth] = loading.machine(&self.options.quilt, top);
                Pass {
                    top,
                    reach: reach(top),
                    to_machine,
                    to_cloth,
                    runs,
                }
            });
        Loaded {
            loading,
            back: false,
            passes: passes.collect(),
            apart: task
                .places
                .apart()
                .iter()
                .map(|&atom| chosen[atom])
                .collect(),
            cuts,
            least_cuts: least.min(cuts),
            cuts_with_more: more,
            travel: travel.length,
            exactness: travel.exactness,
        }
    }

    /// Where an atom starts and ends on the frame with the window at the top of the quilt.
    fn ends(&self, loading: Loading, atom: usize) -> [Point; 2] {
        let [loaded, _] = loading.machine(&self.options.quilt, 0.0);
        let atom = &self.atoms[atom];
        [atom.start, atom.end].map(|point| loaded.apply(point))
    }
}

/// The fewest runs in so many passes, with little travel, and the number below which no choice of
/// windows brings the runs.
fn fewest(task: &Task, net: &Net<'_>, ends: impl Fn(usize) -> [Point; 2]) -> (Windowed, usize) {
    let places = &task.places;
    let count = task.passes;
    let lowest = task.put(net, &task.all, &task.all.lowest());
    let all = (net.joined() > 0).then(|| every(places, count, TRIED));
    let (mut tried, least) = match all.flatten() {
        Some(all) => {
            let tried: Vec<Windowed> = all
                .iter()
                .map(|windows| task.put(net, places, windows))
                .collect();
            let least = tried.iter().map(|tried| tried.least).min();
            (tried, least.unwrap_or(0))
        }
        None => {
            let found = choose(
                &task.lines(net),
                places,
                count,
                lowest.cuts() + net.joined(),
            );
            let tried = found
                .windows
                .iter()
                .map(|windows| task.put(net, places, windows));
            let least = found.least.saturating_sub(net.joined());
            (
                tried.collect(),
                least.max(net.parts.len()).max(places.fewest()),
            )
        }
    };
    // Where others are no better, windows lie as far down as they can.
    tried.insert(0, lowest);
    let counts = |tried: &Windowed| (tried.cuts(), tried.tops.len());
    let best = tried.iter().map(counts).min();
    tried.retain(|tried| Some(counts(tried)) == best);
    let few = |tried: &Windowed| tried.runs.iter().all(|runs| runs.len() <= COMPARED);
    if !tried.iter().all(few) {
        tried.truncate(1);
    }
    for tried in &mut tried {
        tried.travel = order_runs(&mut tried.runs, &tried.tops, &ends);
    }
    let shorter = |best: Windowed, next: Windowed| {
        let by_rounding = 1e-9 * best.travel.length;
        if next.travel.length < best.travel.length - by_rounding {
            next
        } else {
            best
        }
    };
    let best = tried.into_iter().reduce(shorter);
    (best.unwrap_or_default(), least)
}

/// The fewest runs found with one more pass, with two and so on; no more than with the fewest.
fn with_more(task: &Task, net: &Net<'_>, cuts: usize) -> [usize; MORE_PASSES] {
    let lines = task.lines(net);
    let mut fewer = cuts;
    std::array::from_fn(|more| {
        let passes = task.passes + more + 1;
        let limit = (fewer + net.joined()).saturating_sub(1);
        let found = choose(&lines, &task.places, passes, limit);
        let cuts = found
            .windows
            .iter()
            .map(|windows| task.put(net, &task.places, windows).cuts());
        fewer = cuts.min().map_or(fewer, |cuts| cuts.min(fewer));
        fewer
    })
}
