//! Lengths that people type, and lengths that people read.

use quiltpath_core::units::{Length, Unit};

use super::dice::told;

pub(super) fn lengths(data: &[u8]) {
    let Ok(text) = std::str::from_utf8(data) else {
        return;
    };
    if let Ok(unit) = text.parse::<Unit>() {
        assert_eq!(unit.symbol().parse::<Unit>().expect("its own symbol"), unit);
    }
    let typed: Length = match text.parse() {
        Ok(typed) => typed,
        Err(error) => return told(&error),
    };
    assert!(typed.value.abs() <= 1e9, "{text} {typed:?}");
    let back: Length = typed.to_string().parse().expect("its own words");
    assert_eq!(back, typed);
    let mm = typed.to_mm(Some(Unit::In)).expect("a unit is named");
    for &unit in Unit::ALL {
        let told = unit.readable(mm);
        let _ = unit.readable_thread(mm);
        if mm.abs() >= 1e9 {
            continue;
        }
        // What is read is typed again: the nearest 1/16 in, or half a millimetre.
        let again: Length = told.parse().unwrap_or_else(|e| panic!("{told}: {e}"));
        let again = again.to_mm(None).expect("names its unit");
        assert!(
            (again - mm).abs() <= 0.8 * unit.in_mm().max(1.0),
            "{mm} {told}"
        );
    }
}
