//! What else would mend a limit that no permitted size holds: each a full solution of its own.

use crate::decide::compare::Preset;
use crate::decide::power::{at_part_of_power, with_power_as_share};
use crate::decide::size::judge::Judge;
use crate::decide::size::request::{Demand, Margin, SizeError, gave_up};
use crate::document::condition::{Condition, Mixture};
use crate::document::design::Design;
use crate::document::installation::areas::{exit_m2, inlets_m2, resized};
use crate::language::tr_later;
use crate::math::order;
use crate::path::budget::Budget;
use serde::{Deserialize, Serialize};
use std::borrow::Cow;

/// A single change and what it does to the worst margin.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
pub struct Remedy {
    /// The change in words.
    pub change: Cow<'static, str>,
    /// The worst margin after it.
    pub margin: Margin,
    /// Gain of the margin that was worst before, K or Pa.
    pub gain: f64,
}

type Change = fn(&mut Design);

/// The changes that are tried, one at a time.
const CHANGES: [(&str, Change); 9] = [
    (tr_later("a fifth more exit"), |design| {
        scale(design, 1.0, 1.2)
    }),
    (tr_later("a fifth more inlet"), |design| {
        scale(design, 1.2, 1.0)
    }),
    (
        tr_later("a sealed plenum instead of what seals now"),
        |design| {
            preset(design, Preset::HardPlenum);
        },
    ),
    (tr_later("a widening duct behind each inlet"), |design| {
        preset(design, Preset::Diffusers);
    }),
    (tr_later("10 kt more airspeed"), |design| {
        for condition in &mut design.conditions {
            if condition.airspeed.value > 0.0 {
                condition.airspeed.value += 10.0 * 1852.0 / 3600.0;
            }
        }
    }),
    (tr_later("full rich mixture"), |design| {
        let installation = &design.installation;
        let leaner = |condition: &&mut Condition| condition.mixture != Mixture::FullRich;
        for condition in design.conditions.iter_mut().filter(leaner) {
            // Less power is a remedy of its own.
            if let Ok(kept) = with_power_as_share(installation, condition) {
                *condition = kept;
            }
            condition.mixture = Mixture::FullRich;
        }
    }),
    (tr_later("a tenth less power"), |design| {
        let installation = &design.installation;
        for condition in &mut design.conditions {
            if let Ok(less) = at_part_of_power(installation, condition, 0.9) {
                *condition = less;
            }
        }
    }),
    (tr_later("an oil cooler rated a third higher"), |design| {
        preset(design, Preset::BiggerCooler);
    }),
    (tr_later("an inch more duct to the cooler"), |design| {
        preset(design, Preset::WiderDuct);
    }),
];

fn preset(design: &mut Design, preset: Preset) {
    design.installation = preset.applied(&design.installation);
}

fn scale(design: &mut Design, inlets: f64, exit: f64) {
    let installation = &design.installation;
    design.installation = resized(
        installation,
        inlets * inlets_m2(installation),
        exit * exit_m2(installation),
    );
}

/// Every single change with its gain in the condition and demand that are missed most, the
/// largest gain first; changes without a solution are left out.
///
/// # Errors
/// [`SizeError`] if the design itself has no answer, or the search's budget did not last.
pub fn remedies(design: &Design, demand: &Demand) -> Result<Vec<Remedy>, SizeError> {
    let search = Budget::of_a_search(design.conditions.len());
    let judge = Judge::new(design, demand, &search);
    let mut warm = vec![None; design.conditions.len()];
    let before = judge.worst(&design.installation, &mut warm)?;
    let mut found: Vec<Remedy> = CHANGES
        .iter()
        .filter_map(|(change, apply)| {
            let mut changed = design.clone();
            apply(&mut changed);
            if changed.check().is_err() || changed == *design {
                return None;
            }
            let judge = Judge::new(&changed, demand, &search);
            let mut warm = vec![None; changed.conditions.len()];
            let there = judge
                .margin(&changed.installation, judge.place_of(&before), &mut warm)
                .ok()?;
            Some(Remedy {
                change: Cow::Borrowed(*change),
                margin: judge.worst(&changed.installation, &mut warm).ok()?,
                gain: there.by - before.by,
            })
        })
        .collect();
    search.lasts().map_err(gave_up)?;
    order::by_number(&mut found, |remedy| -remedy.gain);
    Ok(found)
}
