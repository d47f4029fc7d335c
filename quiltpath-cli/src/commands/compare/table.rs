//! Plans side by side as a table for people and as JSON Lines.

use quiltpath_core::io::compare::{Comparison, PlanFigures};
use serde_json::json;

use crate::message::one_line;

/// The plans by number, then a row for each kind of figure.
pub(super) fn as_text(comparison: &Comparison) -> String {
    let mut text = String::new();
    for (plan, number) in comparison.plans.iter().zip(1..) {
        text.push_str(&format!("{number}  {}\n", called(plan)));
    }
    let mut rows: Vec<(&str, Vec<String>)> = Vec::new();
    let numbers = 1..=comparison.plans.len();
    rows.push(("", numbers.map(|number| number.to_string()).collect()));
    for row in comparison.rows() {
        let words = row.cells.iter().map(|cell| match cell.least {
            true => format!("{} least", cell.words),
            false => cell.words.clone(),
        });
        rows.push((row.name, words.collect()));
        let more = row.cells.iter().map(|cell| cell.more.clone());
        if row.cells.iter().any(|cell| cell.more.is_some()) {
            rows.push(("", more.map(Option::unwrap_or_default).collect()));
        }
    }
    let wide = |words: &str| words.chars().count();
    let first = rows.iter().map(|(name, _)| wide(name)).max().unwrap_or(0);
    let column = |at: usize| rows.iter().map(|(_, cells)| wide(&cells[at])).max();
    let columns: Vec<usize> = (0..comparison.plans.len())
        .map(|at| column(at).unwrap_or(0))
        .collect();
    for (name, cells) in &rows {
        let mut row = format!("{name:<first$}");
        for (cell, width) in cells.iter().zip(&columns) {
            row.push_str(&format!("  {:<width$}", one_line(cell)));
        }
        text.push_str(row.trim_end());
        text.push('\n');
    }
    text
}

/// A plan by its title, its customer and its file.
fn called(plan: &PlanFigures) -> String {
    let customer = plan.customer.as_ref();
    let customer = customer.map_or_else(String::new, |customer| format!(", for {customer}"));
    let words = match &plan.title {
        Some(title) => format!("{title}{customer} ({})", plan.name),
        None => format!("{}{customer}", plan.name),
    };
    one_line(&words)
}

/// One object a line for each plan.
pub(super) fn as_json(comparison: &Comparison) -> String {
    let line = |plan: &PlanFigures| {
        let [note, warning, error] = plan.findings;
        let stretch = plan.worst_stretch.as_ref().map(
            |worst| json!({ "stretch": worst.stretch, "place": worst.place, "key": worst.key }),
        );
        let kink = plan.worst_kink.as_ref().map(
            |worst| json!({ "degrees": worst.degrees, "place": worst.place, "key": worst.key }),
        );
        let line = json!({
            "plan": plan.name,
            "title": plan.title,
            "customer": plan.customer,
            "unit": comparison.unit.symbol(),
            "width": plan.size[0],
            "height": plan.size[1],
            "minutes": plan.minutes,
            "needle_thread": plan.needle_thread,
            "bobbin_thread": plan.bobbin_thread,
            "stitches": plan.stitches,
            "thread_cuts": plan.thread_cuts,
            "passes": plan.passes,
            "worst_stretch": stretch,
            "worst_kink": kink,
            "findings": { "error": error, "warning": warning, "note": note },
            "stitched": plan.stitched,
        });
        format!("{line}\n")
    };
    comparison.plans.iter().map(line).collect()
}
