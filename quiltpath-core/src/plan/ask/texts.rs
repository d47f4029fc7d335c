//! What a plan says to people, checked: a customer in one line, and neither too long for a sheet.

use super::plan::PlanSpec;
use crate::error::{Error, PlanFault};

/// A line on the sheet has room for about half of it.
const MOST_CUSTOMER: usize = 200;

/// Some three printed pages.
const MOST_NOTES: usize = 10_000;

/// Refuses a customer in several lines, and texts that are too long.
pub(in crate::plan) fn check_texts(spec: &PlanSpec) -> Result<(), Error> {
    let lines = spec
        .customer
        .as_ref()
        .map_or(0, |text| text.trim().lines().count());
    if lines > 1 {
        return Err(Error::from(PlanFault::SeveralLines { lines }).in_element("customer"));
    }
    for (key, text, most) in [
        ("customer", &spec.customer, MOST_CUSTOMER),
        ("notes", &spec.notes, MOST_NOTES),
    ] {
        let given = text.as_ref().map_or(0, |text| text.chars().count());
        if given > most {
            return Err(Error::from(PlanFault::TextTooLong { given, most }).in_element(key));
        }
    }
    Ok(())
}

/// A text as it is printed: without what is blank round it, its lines ended alike; none where that
/// leaves nothing.
pub(in crate::plan) fn printed(text: Option<&str>) -> Option<String> {
    let lines = text?.trim().lines().map(str::trim_end);
    let text = lines.collect::<Vec<_>>().join("\n");
    (!text.is_empty()).then_some(text)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::plan::ask::{QuiltSpec, UnitSpec};

    #[test]
    fn texts_are_taken_up_to_their_limits_and_refused_by_their_keys_beyond() {
        let plan = || PlanSpec::new(UnitSpec::In, QuiltSpec::rectangle(40.0, 60.0));
        let check = |plan: PlanSpec| check_texts(&plan).map_err(|error| error.to_string());
        assert_eq!(check(plan()), Ok(()));
        let long = |count: usize| "é".repeat(count);
        let full = plan().with_customer(long(200)).with_notes(long(10_000));
        assert_eq!(check(full), Ok(()));
        assert_eq!(check(plan().with_notes("one\ntwo\r\n\nfour")), Ok(()));
        // A line end after it is no second line.
        assert_eq!(check(plan().with_customer("Maren Holt\n")), Ok(()));
        for (plan, wanted) in [
            (
                plan().with_customer("Maren Holt\nFerry Lane 3"),
                "customer: this is 2 lines; give one line, and the rest as notes",
            ),
            (
                plan().with_customer(long(201)),
                "customer: this has 201 characters; give at most 200",
            ),
            (
                plan().with_notes(long(10_001)),
                "notes: this has 10001 characters; give at most 10000",
            ),
        ] {
            assert_eq!(check(plan), Err(wanted.to_owned()));
        }
    }

    #[test]
    fn lines_stay_and_what_is_blank_round_them_goes() {
        assert_eq!(printed(None), None);
        assert_eq!(printed(Some(" \r\n\t")), None);
        let notes = printed(Some("\n Wool batting. \r\n\r\n  No knots.\n"));
        assert_eq!(notes.as_deref(), Some("Wool batting.\n\n  No knots."));
    }
}
