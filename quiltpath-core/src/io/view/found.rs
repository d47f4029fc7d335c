//! What is found, by kind: one line for each sentence, with every place and the ways out.
//!
//! Problem: a plan may have thousands of findings, most of them alike. Method: findings of one kind
//! and severity are one entry; among them those whose short sentences are equal are one line, which
//! says of which pieces and places it holds. Guarantee: each finding is in one line of one entry,
//! and all its places are there.

use std::cmp::Reverse;
use std::collections::HashMap;

use serde::Serialize;

use crate::io::numbers::point_in_unit;
use crate::io::words;
use crate::plan::{BorderRoom, Change, Finding, Severity, SideChoices, Solved, Stitching, ways_of};

/// All that is found, in two groups.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct Found {
    /// What there is to look at before stitching: warnings and errors.
    pub look: Vec<FoundKind>,
    /// What is good to know: notes.
    pub know: Vec<FoundKind>,
}

/// Findings of one kind and severity.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct FoundKind {
    /// Its number, from 1, through both groups: that of its pin.
    pub number: usize,
    /// The kind in one word that stays the same.
    pub code: String,
    /// `note`, `warning` or `error`.
    pub severity: String,
    /// The kind in a few words.
    pub title: String,
    /// How many there are: places, and findings that have none.
    pub count: usize,
    /// What there is to say, the worst first.
    pub lines: Vec<FoundLine>,
}

/// Findings that say the same.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct FoundLine {
    /// The short sentences, without what they are about.
    pub says: String,
    /// What they are about, as people call it: `top side`, `top left corner`, a drawing.
    pub about: Vec<String>,
    /// The border, where they are about one alone.
    pub border: Option<usize>,
    /// The pieces by their names.
    pub pieces: Vec<String>,
    /// All places, the worst first, in the plan's unit.
    pub places: Vec<[f64; 2]>,
    /// Changes of the plan that help.
    pub ways: Vec<WayOut>,
}

/// A change of the plan that helps.
#[derive(Debug, Clone, PartialEq, Serialize)]
#[non_exhaustive]
pub struct WayOut {
    /// What it does, in a few words.
    pub says: String,
    /// The change.
    pub change: Change,
}

impl Found {
    pub(super) fn of(
        solved: &Solved,
        stitching: Option<&Stitching>,
        sides: &[SideChoices],
        rooms: &[BorderRoom],
    ) -> Self {
        let later = stitching.iter().flat_map(|stitching| &stitching.findings);
        let mut all: Vec<&Finding> = solved.findings.iter().chain(later).collect();
        all.sort_by_key(|finding| Reverse(finding.severity));
        let mut kinds: Vec<FoundKind> = Vec::new();
        let mut lines: HashMap<(usize, String), usize> = HashMap::new();
        for finding in all {
            let (code, severity) = (finding.code(), finding.severity.name());
            let known =
                (kinds.iter()).position(|kind| kind.code == code && kind.severity == severity);
            let at = known.unwrap_or(kinds.len());
            if known.is_none() {
                kinds.push(FoundKind {
                    number: at + 1,
                    code: code.to_owned(),
                    severity: severity.to_owned(),
                    title: words::finding_title(&finding.kind).to_owned(),
                    count: 0,
                    lines: Vec::new(),
                });
            }
            let kind = &mut kinds[at];
            kind.count += finding.places.len().max(1);
            let says = words::finding_brief(finding, solved);
            let line = *lines.entry((at, says.clone())).or_insert_with(|| {
                kind.lines.push(FoundLine::saying(says, finding.border));
                kind.lines.len() - 1
            });
            kind.lines[line].add(finding, solved, &ways_of(finding, sides, rooms));
        }
        let note = Severity::Note.name();
        let (know, look) = kinds.into_iter().partition(|kind| kind.severity == note);
        Self { look, know }
    }
}

impl FoundLine {
    fn saying(says: String, border: Option<usize>) -> Self {
        Self {
            says,
            about: Vec::new(),
            border,
            pieces: Vec::new(),
            places: Vec::new(),
            ways: Vec::new(),
        }
    }

    /// Takes in one more finding that says the same.
    fn add(&mut self, finding: &Finding, solved: &Solved, ways: &[Change]) {
        let put = |all: &mut Vec<String>, name: Option<String>| {
            if let Some(name) = name.filter(|name| !all.contains(name)) {
                all.push(name);
            }
        };
        put(&mut self.about, words::finding_about(finding, solved));
        let piece = finding.piece.and_then(|at| solved.pieces.get(at));
        put(&mut self.pieces, piece.map(|piece| piece.name.clone()));
        if self.border != finding.border {
            self.border = None;
        }
        let places = finding.places.iter();
        self.places
            .extend(places.map(|&place| point_in_unit(place, solved.unit)));
        for way in ways {
            let all = &mut self.ways;
            match all
                .iter_mut()
                .find_map(|known| both(&known.change, way).map(|both| (known, both)))
            {
                Some((known, both)) => *known = WayOut::of(both, solved),
                None => all.push(WayOut::of(way.clone(), solved)),
            }
        }
    }
}

impl WayOut {
    fn of(change: Change, solved: &Solved) -> Self {
        Self {
            says: words::change(&change, solved),
            change,
        }
    }
}

/// Two changes as one, where one does what both do.
fn both(one: &Change, other: &Change) -> Option<Change> {
    if one == other {
        return Some(one.clone());
    }
    match (one, other) {
        (
            Change::Repeats {
                border,
                sides,
                repeats,
            },
            Change::Repeats {
                border: border2,
                sides: more,
                repeats: repeats2,
            },
        ) if (border, repeats) == (border2, repeats2) => {
            let more = more.iter().filter(|side| !sides.contains(side));
            Some(Change::Repeats {
                border: *border,
                sides: sides.iter().chain(more).copied().collect(),
                repeats: *repeats,
            })
        }
        _ => None,
    }
}
