//! The phases at which a repeat is cut best on the diagonal: a sweep over all of them.
//!
//! Problem: of all phases, those that meet the diagonal least often and turn least there. Method:
//! the sweep of the module above gives stretches of phases between values of q, in which the
//! crossing segments stay the same. Of the stretches that meet the diagonal least often, those are
//! as good as the best whose turn is greater by at most [`EQUAL_KINK`]; neighbours are one cut, at
//! the stretch that turns least, for a curve's chords turn by little from one to the next. But a
//! straight stem, a stretch of at least [`STEM`], is a cut of its own, with its narrow neighbours:
//! two stems in one line turn alike, and the legs that they leave differ by much. Guarantee: the
//! first cut differs from the least turn by no more than that. So rounding, the fineness of the
//! chords and the size of the drawing don't decide between the two sides of a symmetrical repeat.
//! Failure: a line that meets no phase, which a closed period can't be.

use std::collections::BTreeSet;

use super::ExtraLoops;
use crate::corner::period::Period;

/// Turns that differ by less are equal, in radians: 2 degrees, about what the chords of a curve
/// that is followed to 0.01 mm differ in direction from it. Our own choice.
pub(super) const EQUAL_KINK: f64 = 2.0 * std::f64::consts::PI / 180.0;

/// How wide a stretch is a stem, as a share of the repeat. Our own choice.
const STEM: f64 = 1.0 / 16.0;

/// Where a copy's segment crosses the diagonal.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub(super) struct Crossing {
    pub(super) copy: i64,
    pub(super) segment: usize,
}

/// A phase to cut at.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Cut {
    pub(super) phase: f64,
    /// The turn at the diagonal, in radians.
    kink: f64,
    /// The segment that is cut, where it is a straight stem.
    stem: Option<usize>,
}

impl Cut {
    /// Of two cuts side by side the one that stands for both; `None` where each stands for itself.
    fn instead_of(self, before: Self) -> Option<Self> {
        let turns_less = self.kink < before.kink - 1e-12;
        match (before.stem, self.stem) {
            // A stem in two parts, as where phases go round.
            (Some(one), Some(other)) => (one == other).then_some(before),
            (Some(_), None) => (!turns_less).then_some(before),
            (None, Some(_)) => (self.kink <= before.kink + 1e-12).then_some(self),
            (None, None) if turns_less => Some(self),
            (None, None) => Some(before),
        }
    }
}

/// A stretch of phases in which the same segments cross the diagonal.
struct Stretch {
    crossings: usize,
    cut: Cut,
}

/// The cuts that are as good as the best, in the order of their phases; at least one.
///
/// # Complexity
///
/// O(n log n) in the points of the repeat.
pub(super) fn cuts(period: &Period, cot: f64, extra: ExtraLoops) -> Vec<Cut> {
    let stretches = stretches(period, cot, extra);
    let fewest = stretches.iter().map(|stretch| stretch.crossings).min();
    let among = |stretch: &&Stretch| Some(stretch.crossings) == fewest;
    let kinks = stretches
        .iter()
        .filter(among)
        .map(|stretch| stretch.cut.kink);
    let least = kinks.fold(f64::INFINITY, f64::min);
    let good = |stretch: &Stretch| {
        Some(stretch.crossings) == fewest && stretch.cut.kink <= least + EQUAL_KINK
    };
    let mut cuts: Vec<Cut> = Vec::new();
    let mut open = false;
    for stretch in &stretches {
        if good(stretch) {
            let before = open.then(|| cuts.last_mut()).flatten();
            match before.map(|last| (stretch.cut.instead_of(*last), last)) {
                Some((Some(one), last)) => *last = one,
                Some((None, _)) | None => cuts.push(stretch.cut),
            }
        }
        open = good(stretch);
    }
    // Phases go round: the last cut may be the first one again.
    let goes_round = stretches.first().is_some_and(good) && stretches.last().is_some_and(good);
    if goes_round && cuts.len() > 1 {
        let last = cuts[cuts.len() - 1];
        match last.instead_of(cuts[0]) {
            Some(one) if one == last => {
                cuts.remove(0);
            }
            Some(_) => {
                cuts.truncate(cuts.len() - 1);
            }
            None => {}
        }
    }
    if cuts.is_empty() {
        cuts.push(Cut {
            phase: 0.0,
            kink: 0.0,
            stem: None,
        });
    }
    cuts
}

/// Sweeps all phases from 0 to the period.
fn stretches(period: &Period, cot: f64, extra: ExtraLoops) -> Vec<Stretch> {
    let q = |index: usize| period.points[index].x - period.points[index].y * cot;
    let mut events: Vec<(f64, bool, Crossing)> = Vec::with_capacity(2 * period.segments() + 8);
    for segment in 0..period.segments() {
        let (a, b) = (q(segment), q(segment + 1));
        let (low, high) = (a.min(b), a.max(b));
        // The copies whose image of this segment reaches into the phases from 0 to the period.
        let first = (-high / period.pitch).ceil() as i64;
        let last = ((period.pitch - low) / period.pitch).floor() as i64;
        for copy in first..=last {
            let shift = copy as f64 * period.pitch;
            let crossing = Crossing { copy, segment };
            let (from, to) = ((low + shift).max(0.0), (high + shift).min(period.pitch));
            if from < to {
                events.push((from, true, crossing));
                events.push((to, false, crossing));
            }
        }
    }
    // At one value, what ends goes before what begins: phases are taken between values.
    events.sort_by(|a, b| a.0.total_cmp(&b.0).then(a.1.cmp(&b.1)));
    let mut active: BTreeSet<Crossing> = BTreeSet::new();
    let mut stretches = Vec::with_capacity(events.len());
    // Narrower gaps between values are rounding, not room to cut in.
    let least = 1e-9 * period.pitch;
    for (at, &(value, begins, crossing)) in events.iter().enumerate() {
        if begins {
            active.insert(crossing);
        } else {
            active.remove(&crossing);
        }
        let next = events.get(at + 1).map_or(period.pitch, |event| event.0);
        if next - value <= least {
            continue;
        }
        let turning = match extra {
            ExtraLoops::Link => active.last(),
            ExtraLoops::Drop => active.first(),
        };
        let Some(turning) = turning else { continue };
        stretches.push(Stretch {
            crossings: active.len(),
            cut: Cut {
                phase: f64::midpoint(value, next),
                kink: kink(period, cot, turning.segment),
                stem: (next - value >= STEM * period.pitch).then_some(turning.segment),
            },
        });
    }
    stretches
}

/// Where the line meets the diagonal at this phase, in the order of travel.
pub(super) fn crossings(period: &Period, cot: f64, phase: f64) -> Vec<Crossing> {
    let q = |index: usize| period.points[index].x - period.points[index].y * cot;
    let mut crossings: Vec<Crossing> = Vec::new();
    for segment in 0..period.segments() {
        let (a, b) = (q(segment), q(segment + 1));
        let (low, high) = (a.min(b), a.max(b));
        let first = ((phase - high) / period.pitch).ceil() as i64;
        let last = ((phase - low) / period.pitch).floor() as i64;
        crossings.extend((first..=last).map(|copy| Crossing { copy, segment }));
    }
    crossings.sort_unstable();
    crossings
}

/// Twice the angle between a segment and the diagonal's normal, in radians.
pub(super) fn kink(period: &Period, cot: f64, segment: usize) -> f64 {
    let step = period.points[segment + 1] - period.points[segment];
    let (along_diagonal, along_normal) = (step.x * cot + step.y, step.x - step.y * cot);
    2.0 * along_diagonal.abs().atan2(along_normal.abs())
}
