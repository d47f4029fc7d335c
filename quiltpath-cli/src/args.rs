//! What is typed: the options that several subcommands share, and how values are read.

mod choices;
mod in_out;
mod lengths;
mod line_end;
mod numbers;
mod reading;
mod threads;
mod writing;

pub(crate) use choices::{
    ALTERNATES, ARRANGEMENTS, BLANKS, ELBOWS, ENDS, EXTRAS, FILLS, FORMATS, MADE, MadeStyle,
    ORDERS, PAPERS, PARITIES, SEVERITIES, STROKES, STYLES, UNITS, choice, usual_paper,
};
pub(crate) use in_out::{InOut, Ways};
pub(crate) use lengths::{Place, Size, from_0_in_unit, in_unit, list, positive_in_unit};
pub(crate) use line_end::LineEnd;
pub(crate) use numbers::{bare_degrees, counting, degrees, finite, from_0, number, percent, whole};
pub(crate) use reading::{Reading, gaps_of_lines};
pub(crate) use threads::Threads;
pub(crate) use writing::Writing;
