//! The figures of several plans as rows that people read, the least of each row marked.

use super::figures::PlanFigures;
use crate::io::words::percent;
use crate::units::Unit;

/// A row of figures: one kind, a cell for each plan.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct ComparedRow {
    /// What it is, such as `Thread cuts`.
    pub name: &'static str,
    /// The plans' figures, in their order.
    pub cells: Vec<ComparedCell>,
}

/// A figure of one plan.
#[derive(Debug, Clone, PartialEq)]
#[non_exhaustive]
pub struct ComparedCell {
    /// The figure as people read it.
    pub words: String,
    /// Where on the quilt it is.
    pub more: Option<String>,
    /// Whether no other plan has less, and one has more.
    pub least: bool,
    /// The way to the number in `result.json`; a name of its own where that has no such number.
    pub key: String,
    /// The number; none where the plan has nothing of the kind.
    pub value: Option<f64>,
}

/// A figure before it is compared.
struct Figure {
    cell: ComparedCell,
    /// What decides which is the least.
    cost: f64,
    /// That cost as people read it: equal for figures that count as alike.
    reads: String,
}

/// All rows. Lengths of the figures are in `unit`.
pub(super) fn rows(plans: &[PlanFigures], unit: Unit) -> Vec<ComparedRow> {
    let thread = |length: f64| unit.readable_thread(unit.change(length, Unit::Mm));
    let count = |key: &str, value: usize| figure(key, value as f64, value.to_string());
    let row = |name, of: &dyn Fn(&PlanFigures) -> Figure| ComparedRow {
        name,
        cells: marked(plans.iter().map(of).collect()),
    };
    let mut rows = vec![
        row("Minutes, about", &|plan| {
            let minutes = plan.minutes;
            figure("totals.minutes", minutes, format!("{minutes:.0}"))
        }),
        row("Thread", &|plan| {
            figure("thread", plan.thread(), thread(plan.thread()))
        }),
        row("Stitches", &|plan| count("totals.stitches", plan.stitches)),
        row("Thread cuts", &|plan| {
            count("totals.thread_cuts", plan.thread_cuts)
        }),
        row("Passes", &|plan| count("totals.passes", plan.passes)),
        row("Worst stretch", &|plan| match &plan.worst_stretch {
            Some(worst) => {
                let figure = figure(&worst.key, worst.stretch, percent(worst.stretch));
                let (cost, reads) = (worst.cost(), percent(1.0 + worst.cost()));
                with_more(
                    Figure {
                        cost,
                        reads,
                        ..figure
                    },
                    worst.place.clone(),
                )
            }
            None => nothing(),
        }),
        row("Sharpest turn", &|plan| match &plan.worst_kink {
            Some(worst) => {
                let words = format!("{:.0} degrees", worst.degrees);
                let straight = words.starts_with("0 ");
                let figure = figure(&worst.key, worst.degrees, words);
                match straight {
                    true => figure,
                    false => with_more(figure, worst.place.clone()),
                }
            }
            None => nothing(),
        }),
        row("Not to be stitched", &|plan| {
            count("findings.error", plan.findings[2])
        }),
        row("To look at first", &|plan| {
            count("findings.warning", plan.findings[1])
        }),
        // More that is good to know is no worse.
        unmarked(row("Good to know", &|plan| {
            count("findings.note", plan.findings[0])
        })),
    ];
    if plans.iter().any(|plan| plan.stitched > 0.0) {
        rows.push(unmarked(row("Stitched already", &|plan| {
            figure("totals.stitched", plan.stitched, thread(plan.stitched))
        })));
    }
    rows
}

fn figure(key: &str, value: f64, words: String) -> Figure {
    Figure {
        cost: value,
        reads: words.clone(),
        cell: ComparedCell {
            words,
            more: None,
            least: false,
            key: key.to_owned(),
            value: Some(value),
        },
    }
}

fn with_more(mut figure: Figure, more: String) -> Figure {
    figure.cell.more = Some(more);
    figure
}

/// The figure of a plan that has nothing of the kind: it is neither less than another nor more.
fn nothing() -> Figure {
    let mut figure = figure("", 0.0, "none".to_owned());
    figure.cell.value = None;
    figure
}

/// The cells, the least of them marked: all that read as the one that costs least, unless all do.
fn marked(figures: Vec<Figure>) -> Vec<ComparedCell> {
    let there = figures.iter().filter(|figure| figure.cell.value.is_some());
    let least = there.clone().min_by(|a, b| a.cost.total_cmp(&b.cost));
    let reads = least.map(|figure| figure.reads.clone());
    let is_least = |figure: &Figure| Some(&figure.reads) == reads.as_ref();
    let all = there.clone().all(is_least);
    let mark = |figure: &Figure| ComparedCell {
        least: !all && figure.cell.value.is_some() && is_least(figure),
        ..figure.cell.clone()
    };
    figures.iter().map(mark).collect()
}

fn unmarked(mut row: ComparedRow) -> ComparedRow {
    for cell in &mut row.cells {
        cell.least = false;
    }
    row
}

#[cfg(test)]
mod tests {
    use super::*;

    fn least(figures: Vec<Figure>) -> Vec<bool> {
        let cells = marked(figures);
        cells.iter().map(|cell| cell.least).collect()
    }

    fn of(words: &str, cost: f64) -> Figure {
        figure("key", cost, words.to_owned())
    }

    #[test]
    fn the_least_is_marked_and_what_reads_alike_is_alike() {
        let three = vec![of("3", 3.0), of("1", 1.0), of("2", 2.0)];
        assert_eq!(least(three), [false, true, false]);
        assert_eq!(least(vec![of("42", 42.4), of("42", 41.6)]), [false; 2]);
        let two = vec![of("42", 42.4), of("43", 43.0), of("42", 41.6)];
        assert_eq!(least(two), [true, false, true]);
        // Pressed together by as much as another is drawn out.
        let stretch = |stretch: f64| {
            let (cost, reads) = ((stretch - 1.0).abs(), percent(1.0 + (stretch - 1.0).abs()));
            Figure {
                cost,
                reads,
                ..of(&percent(stretch), stretch)
            }
        };
        let both = vec![stretch(1.0203), stretch(0.9797), stretch(1.03)];
        assert_eq!(least(both), [true, true, false]);
        // A plan without any has neither less nor more.
        let some = vec![nothing(), of("7", 7.0), of("8", 8.0)];
        assert_eq!(least(some), [false, true, false]);
        assert_eq!(least(vec![nothing(), of("7", 7.0)]), [false; 2]);
        assert_eq!(least(vec![nothing(), nothing()]), [false; 2]);
    }
}
