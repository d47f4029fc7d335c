//! Options that take one of a few words: the words, and what each stands for.

use clap::builder::{PossibleValue, PossibleValuesParser, TypedValueParser};
use quiltpath_core::chain::{Alternate, Ends};
use quiltpath_core::corner::{Arrangement, ExtraLoops};
use quiltpath_core::fit::Parity;
use quiltpath_core::geom::BoxCorner;
use quiltpath_core::io::lines::LineFormat;
use quiltpath_core::io::paper::Paper;
use quiltpath_core::plan::Severity;
use quiltpath_core::plan::spec::{CornerStyle, StrokesSpec, UnitSpec};
use quiltpath_core::raster::{BlankKind, Fills};
use quiltpath_core::trim::JoinOrder;
use quiltpath_core::units::Unit;

/// Words and what they stand for.
pub(crate) type Table<T> = &'static [(&'static str, T)];

pub(crate) const UNITS: Table<UnitSpec> = &[
    ("in", UnitSpec::In),
    ("mm", UnitSpec::Mm),
    ("cm", UnitSpec::Cm),
];

pub(crate) const FORMATS: Table<LineFormat> = &[
    (LineFormat::Svg.name(), LineFormat::Svg),
    (LineFormat::Json.name(), LineFormat::Json),
    (LineFormat::JsonLines.name(), LineFormat::JsonLines),
    (LineFormat::Dxf.name(), LineFormat::Dxf),
    (LineFormat::Gcode.name(), LineFormat::Gcode),
];

pub(crate) const BLANKS: Table<BlankKind> = &[
    (BlankKind::Repeat.name(), BlankKind::Repeat),
    (BlankKind::Corner.name(), BlankKind::Corner),
];

pub(crate) const FILLS: Table<Fills> = &[("outline", Fills::Outline), ("refuse", Fills::Refuse)];

pub(crate) const PAPERS: Table<Paper> = &[("letter", Paper::Letter), ("a4", Paper::A4)];

/// The paper that whoever measures in this unit is likely to have.
pub(crate) fn usual_paper(unit: Unit) -> Paper {
    match unit.is_metric() {
        true => Paper::A4,
        false => Paper::Letter,
    }
}

pub(crate) const STYLES: Table<CornerStyle> = &[
    ("leg", CornerStyle::Leg),
    ("block", CornerStyle::Block),
    ("mitred", CornerStyle::Mitred),
    ("bent", CornerStyle::Bent),
    ("open", CornerStyle::Open),
    ("butted", CornerStyle::Butted),
];

pub(crate) const ARRANGEMENTS: Table<Arrangement> = &[
    ("mirrored", Arrangement::Mirrored),
    ("turned", Arrangement::Turned),
];

pub(crate) const STROKES: Table<StrokesSpec> = &[
    ("one-line", StrokesSpec::OneLine),
    ("as-drawn", StrokesSpec::AsDrawn),
    ("apart", StrokesSpec::Apart),
];

pub(crate) const ENDS: Table<Ends> = &[("level", Ends::Level), ("link", Ends::Link)];

pub(crate) const ALTERNATES: Table<Alternate> = &[
    ("left-right", Alternate::LeftRight),
    ("top-bottom", Alternate::TopBottom),
    ("centred", Alternate::Centred),
];

pub(crate) const PARITIES: Table<Parity> = &[("even", Parity::Even), ("odd", Parity::Odd)];

pub(crate) const SEVERITIES: Table<Severity> = &[
    ("note", Severity::Note),
    ("warning", Severity::Warning),
    ("error", Severity::Error),
];

pub(crate) const ELBOWS: Table<BoxCorner> = &[
    ("top-left", BoxCorner::TopLeft),
    ("top-right", BoxCorner::TopRight),
    ("bottom-right", BoxCorner::BottomRight),
    ("bottom-left", BoxCorner::BottomLeft),
];

pub(crate) const ORDERS: Table<JoinOrder> = &[
    ("free", JoinOrder::Free),
    ("reverse", JoinOrder::KeepAndReverse),
    ("keep", JoinOrder::Keep),
];

/// How a corner is made from a repeat.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum MadeStyle {
    Mitred,
    Bent,
}

pub(crate) const MADE: Table<MadeStyle> =
    &[("mitred", MadeStyle::Mitred), ("bent", MadeStyle::Bent)];

pub(crate) const EXTRAS: Table<ExtraLoops> =
    &[("link", ExtraLoops::Link), ("drop", ExtraLoops::Drop)];

/// Reads one of the words of a table; a typo gets the nearest one.
pub(crate) fn choice<T>(table: Table<T>) -> impl TypedValueParser<Value = T>
where
    T: Copy + Send + Sync + 'static,
{
    let words = table
        .iter()
        .map(|(word, _)| PossibleValue::new(*word).aliases(american(word)));
    PossibleValuesParser::new(words).try_map(move |given| {
        let fits = |word: &str| word == given || american(word) == Some(given.as_str());
        let found = table.iter().find(|(word, _)| fits(word));
        found.map(|(_, value)| *value).ok_or("unknown word")
    })
}

/// How a word is spelled in America, where that differs; taken as well, never written.
fn american(word: &str) -> Option<&'static str> {
    match word {
        "mitred" => Some("mitered"),
        "centred" => Some("centered"),
        _ => None,
    }
}
