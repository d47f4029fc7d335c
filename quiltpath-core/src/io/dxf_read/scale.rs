//! The unit that the header of a DXF names, by `$INSUNITS` of the published DXF reference.

use crate::units::Unit;

/// How many millimetres one unit of the file is, and the unit that its author measures in; `None`
/// for 0, which is no unit, and for units of the sky.
pub(super) fn unit(code: i64) -> Option<(f64, Unit)> {
    // US survey foot: 1200/3937 m (NIST Special Publication 811, appendix B.6).
    const SURVEY_FOOT: f64 = 1_200_000.0 / 3937.0;
    Some(match code {
        1 => (25.4, Unit::In),
        2 => (304.8, Unit::Ft),
        3 => (1_609_344.0, Unit::Ft),
        4 => (1.0, Unit::Mm),
        5 => (10.0, Unit::Cm),
        6 => (1e3, Unit::M),
        7 => (1e6, Unit::M),
        8 => (25.4e-6, Unit::In),
        9 => (0.0254, Unit::In),
        10 => (914.4, Unit::Yd),
        11 => (1e-7, Unit::Mm),
        12 => (1e-6, Unit::Mm),
        13 => (1e-3, Unit::Mm),
        14 => (100.0, Unit::Cm),
        15 => (1e4, Unit::M),
        16 => (1e5, Unit::M),
        21 => (SURVEY_FOOT, Unit::Ft),
        22 => (SURVEY_FOOT / 12.0, Unit::In),
        23 => (SURVEY_FOOT * 3.0, Unit::Yd),
        24 => (SURVEY_FOOT * 5280.0, Unit::Ft),
        _ => return None,
    })
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn units_are_those_of_the_reference() {
        assert_eq!(unit(1), Some((25.4, Unit::In)));
        assert_eq!(unit(4), Some((1.0, Unit::Mm)));
        assert_eq!(unit(5), Some((10.0, Unit::Cm)));
        for none in [-1, 0, 17, 20, 25] {
            assert_eq!(unit(none), None);
        }
        // A survey foot is 0.304 800 6 m (NIST Special Publication 811, appendix B.8).
        let (foot, _) = unit(21).expect("a unit");
        assert!((foot - 304.8006).abs() < 1e-4);
    }
}
