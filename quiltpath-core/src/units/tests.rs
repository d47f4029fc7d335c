//! Lengths as typed and as read, and the published ratios of the units.

use super::*;
use proptest::prelude::*;

fn typed(text: &str) -> Length {
    text.parse().unwrap_or_else(|e| panic!("{text}: {e}"))
}

#[test]
fn lengths_as_people_type_them() {
    for text in [
        "4.5", "4 1/2", "4-1/2", "4½", "4 ½", "+4.5", "9/2", "4 2/4", "45e-1",
    ] {
        assert_eq!(typed(text), Length::bare(4.5), "{text}");
    }
    for text in [
        "4 1/2 in",
        "4.5in",
        "4½\"",
        "4-1/2 inches",
        "4 1/2″",
        " 4.5 IN ",
    ] {
        assert_eq!(typed(text), Length::with(4.5, Unit::In), "{text}");
    }
    assert_eq!(typed("11.4cm"), Length::with(11.4, Unit::Cm));
    assert_eq!(typed("114 mm"), Length::with(114.0, Unit::Mm));
    assert_eq!(typed("1/4"), Length::bare(0.25));
    assert_eq!(typed("-1 1/4 in"), Length::with(-1.25, Unit::In));
    assert_eq!(typed("½yd"), Length::with(0.5, Unit::Yd));
}

#[test]
fn what_is_no_length_is_refused_with_the_text() {
    for (text, part) in [
        ("", "the length is empty"),
        ("four", "\"four\" is not a length"),
        ("4..5", "is not a length"),
        ("--4", "is not a length"),
        ("1/2/3", "is not a length"),
        ("4 1/0 in", "divides by 0"),
        ("1⁄0", "divides by 0"),
        (&format!("1{}/2", "0".repeat(310)), "out of range"),
        ("4 furlong", "unknown unit \"furlong\"; use in"),
        ("1e308", "out of range"),
        ("1e999", "out of range"),
        ("NaN", "is not a length"),
        ("inf", "is not a length"),
        ("é", "is not a length"),
    ] {
        let error = text.parse::<Length>().expect_err(text).to_string();
        assert!(error.contains(part), "{text}: {error}");
    }
    let error = typed("64").to_mm(None).expect_err("bare").to_string();
    assert!(
        error.starts_with("64 has no unit; write 64 in or 64 mm"),
        "{error}"
    );
}

#[test]
fn lengths_as_people_read_them() {
    let inch = |value: f64| Unit::In.readable(value * 25.4);
    assert_eq!(inch(4.4375), "4 7/16 in");
    assert_eq!(inch(0.0), "0 in");
    assert_eq!(inch(-0.01), "0 in");
    assert_eq!(inch(-0.5), "-1/2 in");
    assert_eq!(inch(1.99), "2 in");
    assert_eq!(Unit::Mm.readable(112.3), "112.5 mm");
    assert_eq!(Unit::Cm.readable(112.3), "11.25 cm");
    assert_eq!(Unit::Mm.readable(-0.1), "0 mm");
    assert_eq!(Unit::Ft.readable(-0.1), "0.000 ft");
    assert_eq!(Unit::M.readable(-0.01), "0.0000 m");
    assert_eq!(Unit::M.readable(-1234.56), "-1.2346 m");
}

#[test]
fn lines_are_read_in_yards_or_metres_from_ten_of_them_on() {
    let inch = |value: f64| Unit::In.readable_line(value * 25.4);
    assert_eq!(inch(4.4375), "4 7/16 in");
    assert_eq!(inch(359.875), "359 7/8 in");
    assert_eq!(inch(360.0), "10.0 yd");
    assert_eq!(inch(-7772.1875), "-215.9 yd");
    assert_eq!(Unit::Mm.readable_line(9999.0), "9999 mm");
    assert_eq!(Unit::Mm.readable_line(10_000.0), "10.0 m");
    assert_eq!(Unit::Ft.readable_line(304_800.0), "333.3 yd");
}

#[test]
fn units_hold_the_published_ratios() {
    // NIST SP 811, appendix B.9: 1 in = 2.54 cm, 1 ft = 0.3048 m, 1 yd = 0.9144 m, all exact.
    assert_eq!(Unit::In.in_mm(), 25.4);
    assert_eq!(Unit::Ft.in_mm(), 304.8);
    assert_eq!(Unit::Yd.in_mm(), 914.4);
    for &unit in Unit::ALL {
        assert_eq!(unit.symbol().parse::<Unit>().expect("own symbol"), unit);
    }
}

proptest! {
    #[test]
    fn no_text_makes_it_panic(text in "[0-9 ./½⅞\"'a-zA-Zé–⁄+-]{0,14}") {
        let _ = text.parse::<Length>();
    }

    #[test]
    fn a_fraction_reads_as_its_value(whole in 0u32..200, part in 0u32..16, unit in prop::sample::select(Unit::ALL.to_vec())) {
        let value = f64::from(whole) + f64::from(part) / 16.0;
        let text = format!("{whole} {part}/16 {unit}");
        prop_assert_eq!(typed(&text), Length::with(value, unit));
        let shown = Unit::In.readable(value * 25.4);
        prop_assert_eq!(typed(&shown), Length::with(value, Unit::In));
    }
}

proptest! {
    #[test]
    fn the_nearest_is_that_of_the_standard_library(value in any::<f64>(), near in -1e9..1e9f64) {
        let half = near.trunc() + 0.5;
        let large = near * 1e7;
        for value in [value, near, half, half.next_up(), half.next_down(), -half, large, 0.0] {
            // Minus zero comes out as zero.
            prop_assert!(nearest(value) == value.round() || value.is_nan());
        }
    }
}
