//! The page of plans side by side: a table with a column for each, its picture on top.
//!
//! Each number has its plan's place in `data-plan` of its cell, and in `data-key` where it stands
//! in that plan's `result.json`. Roles are written out, since on a phone the rows are no table to
//! the style sheet.

use maud::{Markup, html};

use super::figures::PlanFigures;
use super::rows::{ComparedCell, ComparedRow};
use crate::error::Error;
use crate::io::fraction::{number, set};
use crate::io::html::{self, Head, shortened};
use crate::io::picture::bare_picture;
use crate::plan::Solved;
use crate::units::Unit;

const STYLE: &str = include_str!("compare.css");

/// The numbers of plans as words.
const COUNTS: [&str; 5] = ["Two", "Three", "Four", "Five", "Six"];

/// The page of plans with these rows.
pub(super) fn page(
    plans: &[PlanFigures],
    rows: &[ComparedRow],
    solved: &[&Solved],
    unit: Unit,
) -> Result<String, Error> {
    let pictures = plans.iter().zip(solved).map(|(plan, solved)| {
        let label = format!("Picture of {}", plan.called());
        bare_picture(solved, &label)
    });
    let pictures: Vec<Markup> = pictures.collect::<Result<_, Error>>()?;
    let customer = one_customer(plans);
    let body = html! {
        (header(plans, customer))
        main {
            div.wide tabindex="0" role="region" aria-label="The plans side by side" {
                table.plans role="table" style=(format!("--plans:{}", plans.len())) {
                    thead role="rowgroup" { (heads(plans, customer.is_some())) }
                    tbody role="rowgroup" {
                        (picture_row(plans, &pictures, unit))
                        @for row in rows { (one_row(row)) }
                        (choice_row(plans))
                    }
                }
            }
            (help(plans, solved, unit))
        }
    };
    let names: Vec<String> = plans
        .iter()
        .map(|plan| shortened(plan.called(), 40))
        .collect();
    let head = Head {
        title: &format!("Plans side by side: {}", names.join("; ")),
        sheet: None,
        script: None,
        style: STYLE,
    };
    Ok(html::page(&head, &body))
}

/// The customer that all plans are for.
fn one_customer(plans: &[PlanFigures]) -> Option<&str> {
    let first = plans.first()?.customer.as_deref()?;
    let all = plans
        .iter()
        .all(|plan| plan.customer.as_deref() == Some(first));
    all.then_some(first)
}

fn header(plans: &[PlanFigures], customer: Option<&str>) -> Markup {
    let count = plans.len().checked_sub(2).and_then(|at| COUNTS.get(at));
    html! {
        header {
            p.kind { "Comparison" }
            h1 { (count.unwrap_or(&"Several")) " plans side by side" }
            @if let Some(customer) = customer { p.customer { "For " b { (customer) } } }
        }
    }
}

/// The heads of the columns: number, title, and the customer where that isn't said above.
fn heads(plans: &[PlanFigures], said: bool) -> Markup {
    html! {
        tr role="row" {
            td role="cell" {}
            @for (plan, number) in plans.iter().zip(1..) {
                th role="columnheader" scope="col" {
                    span.no { (number) } " " (plan.called())
                    @if let Some(customer) = plan.customer.as_deref().filter(|_| !said) {
                        span.more { "For " (customer) }
                    }
                }
            }
        }
    }
}

fn picture_row(plans: &[PlanFigures], pictures: &[Markup], unit: Unit) -> Markup {
    html! {
        tr.pictures role="row" {
            th role="rowheader" scope="row" { "The quilt" }
            @for ((plan, picture), place) in plans.iter().zip(pictures).zip(1..) {
                td role="cell" data-plan=(place) {
                    (picture)
                    span.more { (size(plan, unit)) }
                }
            }
        }
    }
}

/// Width and height.
fn size(plan: &PlanFigures, unit: Unit) -> Markup {
    let keys = ["quilt.width", "quilt.height"];
    let [width, height] = [0, 1].map(|axis| {
        let readable = unit.readable(unit.change(plan.size[axis], Unit::Mm));
        number(keys[axis], plan.size[axis], &readable)
    });
    html! { (width) " x " (height) }
}

fn one_row(row: &ComparedRow) -> Markup {
    html! {
        tr role="row" {
            th role="rowheader" scope="row" { (row.name) }
            @for (cell, place) in row.cells.iter().zip(1..) {
                td role="cell" data-plan=(place) { (one_cell(cell)) }
            }
        }
    }
}

fn one_cell(cell: &ComparedCell) -> Markup {
    let words = match cell.value {
        Some(value) => number(&cell.key, value, &cell.words),
        None => set(&cell.words),
    };
    html! {
        @if cell.least { b { (words) } " " i.least { "least" } } @else { (words) }
        @if let Some(more) = &cell.more { span.more { (set(more)) } }
    }
}

/// A box to tick by hand, on paper alone.
fn choice_row(plans: &[PlanFigures]) -> Markup {
    html! {
        tr.choice role="row" {
            th role="rowheader" scope="row" { "Our choice" }
            @for _ in plans { td role="cell" { span.box {} } }
        }
    }
}

fn help(plans: &[PlanFigures], solved: &[&Solved], unit: Unit) -> Markup {
    let units = solved.iter().any(|solved| solved.unit != unit);
    let begun = plans.iter().any(|plan| plan.stitched > 0.0);
    html! {
        p.help {
            "The least of a row is bold and says so. "
            @if begun { "Where some is stitched already, minutes, thread, stitches, cuts and passes are those of what is left. " }
            @if units { "All lengths are in the unit of the first plan. " }
            "Stretch is how much longer or shorter than drawn a design lies; 0 % is as drawn. "
            "A turn is where the line bends as one part ends and the next starts; at 0 degrees it runs straight on."
        }
    }
}
