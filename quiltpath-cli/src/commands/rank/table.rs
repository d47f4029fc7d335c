//! The ranking as a table for people and as JSON Lines.

use crate::words::percent;
use serde_json::json;

use super::rating::Rank;
use crate::message::one_line;

/// A line for each drawing: place, worst stretch, repeats by side, file.
pub(super) fn as_text(ranks: &[Rank]) -> String {
    let repeats = |rank: &Rank| {
        let counts = rank.sides.iter().map(|side| side.fit.chosen.repeats);
        let counts: Vec<String> = counts.map(|count| count.to_string()).collect();
        counts.join(" ")
    };
    let width = ranks.iter().map(|rank| repeats(rank).len()).max();
    let width = width.unwrap_or(0).max("repeats".len());
    let mut text = format!("   #  stretch  {:<width$}  drawing\n", "repeats");
    for (place, rank) in ranks.iter().enumerate() {
        text.push_str(&format!(
            "{:>4}  {:>7}  {:<width$}  {}{}\n",
            place + 1,
            percent(rank.stretch),
            repeats(rank),
            one_line(&rank.name),
            rank.why_not
                .map_or_else(String::new, |why| format!(" (no border repeat, but {why})"))
        ));
    }
    text
}

/// One object a line for each drawing.
pub(super) fn as_json(ranks: &[Rank]) -> String {
    let mut text = String::new();
    for (place, rank) in ranks.iter().enumerate() {
        let sides: Vec<_> = rank
            .sides
            .iter()
            .map(|side| {
                let chosen = side.fit.chosen;
                match side.place {
                    Some((border, name)) => json!({
                        "border": border,
                        "side": name,
                        "repeats": chosen.repeats,
                        "stretch": chosen.stretch,
                    }),
                    None => json!({ "repeats": chosen.repeats, "stretch": chosen.stretch }),
                }
            })
            .collect();
        let mut line = json!({
            "place": place + 1,
            "drawing": rank.name,
            "worst_stretch": rank.stretch,
            "sides": sides,
        });
        if let Some(why_not) = rank.why_not {
            line["why_not"] = why_not.into();
        }
        if let Some(row) = rank.line {
            line["line"] = row.into();
        }
        text.push_str(&format!("{line}\n"));
    }
    text
}
