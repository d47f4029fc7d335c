//! Paper to print on: its size, and the part of it that every printer can print.

/// The margin on each side of a printed page, in millimetres: 1/2 in.
///
/// Printers for the home leave up to this much white at the top and the bottom, and half of it at
/// the sides. Common practice; the sample drivers of CUPS state 36 and 18 points (from memory).
const MARGIN_MM: f64 = 12.7;

/// A size of paper.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub enum Paper {
    /// 8 1/2 x 11 in (ANSI/ASME Y14.1, size A).
    Letter,
    /// 210 x 297 mm (ISO 216).
    A4,
}

impl Paper {
    /// The name as people write it: `Letter` or `A4`.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Letter => "Letter",
            Self::A4 => "A4",
        }
    }

    /// The shorter and the longer side, in millimetres.
    #[must_use]
    pub fn size_mm(self) -> [f64; 2] {
        match self {
            Self::Letter => [215.9, 279.4],
            Self::A4 => [210.0, 297.0],
        }
    }
}

/// A size of paper and which way it is turned.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
#[non_exhaustive]
pub struct Sheet {
    /// The size.
    pub paper: Paper,
    /// True when its longer side runs from left to right.
    pub sideways: bool,
}

/// The number of a page and how many there are, in its lower margin.
const NUMBER: &str =
    "@bottom-right{font:italic 9pt serif;content:counter(page) \" of \" counter(pages)}";

/// The margin as a rule of CSS Paged Media, for any paper.
pub(super) fn any_page_rule() -> String {
    format!("@page{{margin:{MARGIN_MM}mm;{NUMBER}}}\n")
}

impl Sheet {
    /// A sheet of this paper, its longer side from left to right when it lies sideways.
    #[must_use]
    pub fn new(paper: Paper, sideways: bool) -> Self {
        Self { paper, sideways }
    }

    /// Width and height inside margins of 1/2 in, in millimetres.
    ///
    /// ```
    /// use quiltpath_core::io::paper::{Paper, Sheet};
    ///
    /// let sheet = Sheet::new(Paper::A4, true);
    /// assert_eq!(sheet.inside_mm().map(|mm| (mm * 10.0).round() / 10.0), [271.6, 184.6]);
    /// ```
    #[must_use]
    pub fn inside_mm(self) -> [f64; 2] {
        let [short, long] = self.paper.size_mm().map(|side| side - 2.0 * MARGIN_MM);
        if self.sideways {
            [long, short]
        } else {
            [short, long]
        }
    }

    /// The size and the margin as a rule of CSS Paged Media (`@page`).
    pub(super) fn page_rule(self) -> String {
        let paper = match self.paper {
            Paper::Letter => "letter",
            Paper::A4 => "A4",
        };
        let turn = if self.sideways {
            "landscape"
        } else {
            "portrait"
        };
        format!("@page{{size:{paper} {turn};margin:{MARGIN_MM}mm}}\n")
    }
}
