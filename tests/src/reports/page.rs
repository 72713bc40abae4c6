//! The table of reports as a page of text.

use super::exponent::{Finding, Trial, finding};
use super::judged::{DRAWS, Judged, Outcome, median};
use super::report::{Bound, Kind};
use std::fmt::{Result, Write};

/// Groups of changes, in the order they are shown.
pub const GROUPS: [&str; 6] = [
    "pressure",
    "seals",
    "exit",
    "oil cooler",
    "mixture",
    "one cylinder",
];

/// The page.
///
/// # Panics
/// If the files are malformed.
#[must_use]
pub fn page(outcome: &Outcome) -> String {
    let mut text = String::new();
    // Writing to a text cannot fail.
    let _ = write_page(&mut text, outcome);
    text
}

fn write_page(text: &mut String, outcome: &Outcome) -> Result {
    writeln!(text, "# Levels\n")?;
    writeln!(
        text,
        "Predicted with the generic engine as it is, in the installations of `assumptions.json`. \
         Predicted and missed in °F; band of nine in ten.\n"
    )?;
    levels(text, outcome, "level", "heads")?;
    levels(text, outcome, "oil level", "oil")?;
    writeln!(text, "# Changes\n")?;
    writeln!(
        text,
        "Compared at the reported level: the generic head and the heat into the oil are moved until \
         the state before the change comes out as reported. The band is that of {} draws of all \
         assumptions, each brought to the same level; the model's own error, which is much the same \
         before and after, is not in it.\n",
        DRAWS
    )?;
    changes(text, outcome)?;
    summary(text, outcome)?;
    left_out(text, outcome)?;
    pressure(text, outcome)
}

fn levels(text: &mut String, outcome: &Outcome, group: &str, what: &str) -> Result {
    writeln!(
        text,
        "| {what} | condition | reported | predicted | missed by | band | inside |"
    )?;
    writeln!(text, "|---|---|---|---|---|---|---|")?;
    for one in outcome
        .judged
        .iter()
        .filter(|one| one.report.group == group)
    {
        writeln!(
            text,
            "| {} | {} | {} | {:.0} | {:+.0} | {:.0} to {:.0} | {} |",
            one.report.id,
            one.report.condition,
            one.report.shown(),
            one.predicted,
            one.miss(),
            one.band.0,
            one.band.1,
            yes(one.is_inside())
        )?;
    }
    let own = || outcome.counted(Kind::Level, Some(group));
    let plain = || own().filter(|one| one.report.bound == Bound::None);
    let inside = own().filter(|one| one.is_inside()).count();
    writeln!(
        text,
        "\nMedian bias of {} {what} levels {:+.0} °F; of the {} that are no bounds {:+.0} °F; {inside} inside.\n",
        own().count(),
        median(own().map(Judged::miss)).unwrap_or(f64::NAN),
        plain().count(),
        median(plain().map(Judged::miss)).unwrap_or(f64::NAN),
    )
}

fn changes(text: &mut String, outcome: &Outcome) -> Result {
    writeln!(
        text,
        "| change | group | figure | reported | predicted | band | ratio | sign | inside | counted | remark |"
    )?;
    writeln!(text, "|---|---|---|---|---|---|---|---|---|---|---|")?;
    let all = outcome.judged.iter();
    for one in all.filter(|one| one.report.kind == Kind::Change) {
        let lost = if one.lost > 0.0 {
            let after = if one.remark.is_empty() { "" } else { "; " };
            format!(
                "{after}{:.0} % of the draws have no answer",
                100.0 * one.lost
            )
        } else {
            String::new()
        };
        writeln!(
            text,
            "| {} | {} | {} | {} | {:+.0} | {:+.0} to {:+.0} | {:.2} | {} | {} | {} | {}{lost} |",
            one.report.id,
            one.report.group,
            one.report.figure.name(),
            one.report.shown(),
            one.predicted,
            one.band.0,
            one.band.1,
            one.ratio(),
            yes(one.has_its_sign()),
            yes(one.is_inside()),
            if one.is_alternative {
                "no"
            } else {
                one.report.judged.as_str()
            },
            one.remark
        )?;
    }
    writeln!(text)
}

fn summary(text: &mut String, outcome: &Outcome) -> Result {
    writeln!(
        text,
        "| group | counted | median ratio | signs right | inside | middle inside |"
    )?;
    writeln!(text, "|---|---|---|---|---|---|")?;
    let line = |text: &mut String, name: &str, own: &[&Judged]| {
        let count = |of: fn(&Judged) -> bool| own.iter().filter(|one| of(one)).count();
        writeln!(
            text,
            "| {name} | {} | {} | {} | {} | {} |",
            own.len(),
            median(own.iter().map(|one| one.ratio()))
                .map_or_else(String::new, |ratio| format!("{ratio:.2}")),
            count(Judged::has_its_sign),
            count(Judged::is_inside),
            count(Judged::holds_the_middle)
        )
    };
    for group in GROUPS {
        let own: Vec<&Judged> = outcome.counted(Kind::Change, Some(group)).collect();
        line(text, group, &own)?;
    }
    let all: Vec<&Judged> = outcome.counted(Kind::Change, None).collect();
    line(text, "all", &all)?;
    let free: Vec<&Judged> = all.into_iter().filter(|one| !one.is_fitted).collect();
    line(text, "all that nothing was fitted to", &free)?;
    writeln!(text)
}

fn left_out(text: &mut String, outcome: &Outcome) -> Result {
    writeln!(text, "# Without a prediction\n")?;
    for (report, why) in &outcome.left_out {
        writeln!(text, "- {}, {}: {why}.", report.id, report.shown())?;
    }
    writeln!(text)
}

fn pressure(text: &mut String, outcome: &Outcome) -> Result {
    let Some(own) = outcome.judged.iter().find(|one| one.report.id == "R01a") else {
        return Ok(());
    };
    let reported = own.report.middle();
    let Finding {
        trials,
        fitting,
        by_level,
    } = finding(reported);
    writeln!(text, "# Heads over pressure: R01\n")?;
    writeln!(
        text,
        "Δp over the baffles from 2.0 to 4.6 inH₂O: reported {reported:+.0} °F, the model {:+.0} °F \
         (band {:+.0} to {:+.0}). How that depends on the exponents, each at the same level before \
         and the same pressures:\n",
        own.predicted, own.band.0, own.band.1
    )?;
    writeln!(
        text,
        "| slope of conductance over flow | exponent of flow in Δp | conductance over Δp | head minus air over Δp | change, °F |"
    )?;
    writeln!(text, "|---|---|---|---|---|")?;
    let row = |text: &mut String, one: &Trial| {
        writeln!(
            text,
            "| {:.2} | {:.1} | {:.3} | {:.3} | {:+.0} |",
            one.conductance_slope,
            one.drop_exponent,
            one.conductance_over_drop,
            one.head_slope,
            one.change
        )
    };
    for one in &trials {
        row(text, one)?;
    }
    match &fitting {
        Some(one) => {
            writeln!(text, "\nThe reported change would ask for:\n")?;
            writeln!(
                text,
                "| slope of conductance over flow | exponent of flow in Δp | conductance over Δp | head minus air over Δp | change, °F |"
            )?;
            writeln!(text, "|---|---|---|---|---|")?;
            row(text, one)?;
        }
        None => writeln!(text, "\nNo permitted slope gives the reported change.")?,
    }
    let levels: Vec<String> = by_level
        .iter()
        .map(|(level, change)| format!("{change:+.0} °F from {level:.0} °F"))
        .collect();
    writeln!(
        text,
        "\nWith the default exponents and another hottest head before: {}.",
        levels.join(", ")
    )
}

fn yes(is: bool) -> &'static str {
    if is { "yes" } else { "no" }
}
