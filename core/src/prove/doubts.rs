//! Doubts about a reading, before it is used for anything.

use crate::air::airspeed;
use crate::air::atmosphere;
use crate::answer::solve_condition::solve_condition;
use crate::document::design::Design;
use crate::document::quantity::Quantity;
use crate::document::reading::{Moment, Reading};
use crate::language::tr;
use crate::math::order;
use crate::path::report::gauge_temperature;
use crate::units::si::{degf, to_degf};

/// Farthest that air is from the standard atmosphere without a doubt, K (from memory).
const FAR_FROM_STANDARD_K: f64 = 33.0;
/// Farthest that another unit's reading may be from it to be offered instead, K.
const NEAR_STANDARD_K: f64 = 22.0;
/// Farthest that one head is from the median of the others without a doubt, K (from memory).
const WILD_HEAD_K: f64 = 45.0;
/// A head that stays this near the outside air with the engine running is dead, K (from memory).
const DEAD_HEAD_K: f64 = 40.0;
/// Pressures that should agree and differ by more than this are in doubt, Pa.
const DECKS_APART_PA: f64 = 75.0;
/// The oil fits the probe's other place better by so much, K.
const OTHER_PROBE_K: f64 = 8.0;

/// A doubt about a reading.
#[derive(Debug, Clone, Copy, PartialEq)]
#[non_exhaustive]
pub enum Flag {
    /// The OAT is far from the standard atmosphere and would fit in the other unit.
    OatInOtherUnit,
    /// The OAT is far from the standard atmosphere.
    OatFar,
    /// More pressure across the baffles than ram pressure there is.
    DropAboveRam,
    /// Upper minus lower deck is not the pressure across the baffles.
    DecksDisagree,
    /// A head that does not warm up.
    DeadHead(Quantity),
    /// A head far from the others.
    WildHead(Quantity),
    /// More heads were read than the engine has cylinders.
    OtherEngine {
        /// Heads that were read.
        heads: usize,
        /// Cylinders of the engine.
        cylinders: u8,
    },
    /// Oil that looks like a probe on the other side of the cooler.
    OilOtherSide,
    /// A shutter is fitted, but its opening was not noted.
    ShutterUnknown,
    /// The moment has no answer, so that nothing can be compared with it.
    NoAnswer,
}

impl core::fmt::Display for Flag {
    fn fmt(&self, f: &mut core::fmt::Formatter<'_>) -> core::fmt::Result {
        match self {
            Self::OatInOtherUnit => f.write_str(tr(
                "OAT is far from standard air at this altitude, but would fit in the other unit: \
                 °F or °C?",
            )),
            Self::OatFar => f.write_str(tr("OAT is far from standard air at this altitude")),
            Self::DropAboveRam => f.write_str(tr(
                "Δp is above the ram pressure at this airspeed: tubes, unit or airspeed wrong?",
            )),
            Self::DecksDisagree => f.write_str(tr("upper minus lower deck is not the Δp noted")),
            Self::DeadHead(head) => {
                f.write_str(&tr!("{} hardly warms: a dead probe?", head.label()))
            }
            Self::WildHead(head) => f.write_str(&tr!(
                "{} is far from the other heads: a bad probe, or one cylinder that differs",
                head.label()
            )),
            Self::OtherEngine { heads, cylinders } => f.write_str(&tr!(
                "it has {} heads, your engine has {} cylinders: another engine’s log?",
                heads,
                cylinders
            )),
            Self::OilOtherSide => f.write_str(tr(
                "oil fits better if its probe stood on the other side of the cooler: see “oil”",
            )),
            Self::ShutterUnknown => f.write_str(tr("shutter opening not noted: taken as open")),
            Self::NoAnswer => f.write_str(tr(
                "this condition has no answer: power and fuel flow may not fit",
            )),
        }
    }
}

/// Doubts about a reading; its corrected moments are judged.
#[must_use]
pub fn flags(design: &Design, reading: &Reading, moments: &[Moment]) -> Vec<Flag> {
    let mut found: Vec<Flag> = Vec::new();
    let mut note = |flag: Flag| {
        if !found.contains(&flag) {
            found.push(flag);
        }
    };
    for moment in moments {
        air_flags(moment).into_iter().for_each(&mut note);
        head_flags(moment).into_iter().for_each(&mut note);
        let (heads, cylinders) = (moment.heads().count(), design.installation.engine.cylinders);
        if heads > usize::from(cylinders) {
            note(Flag::OtherEngine { heads, cylinders });
        }
    }
    // One solution is enough to judge the oil; the last moment is nearest to steady.
    if let Some(last) = moments.last() {
        model_flags(design, reading, last)
            .into_iter()
            .for_each(&mut note);
    }
    found
}

fn air_flags(moment: &Moment) -> Vec<Flag> {
    let mut found = Vec::new();
    if let (Some(altitude), Some(oat)) = (moment.get(Quantity::Altitude), moment.get(Quantity::Oat))
    {
        let standard = atmosphere::standard_temperature(altitude);
        if (oat - standard).abs() > FAR_FROM_STANDARD_K {
            // The same number in the other unit.
            let (celsius, fahrenheit) = (oat - 273.15, to_degf(oat));
            let other = [degf(celsius), fahrenheit + 273.15];
            found.push(
                if other
                    .iter()
                    .any(|kelvin| (kelvin - standard).abs() < NEAR_STANDARD_K)
                {
                    Flag::OatInOtherUnit
                } else {
                    Flag::OatFar
                },
            );
        }
    }
    let drop = moment.baffle_drop();
    if let (Some(drop), Some(speed)) = (drop, moment.get(Quantity::Airspeed)) {
        // At rest the propeller alone blows, which this rule does not know.
        if speed > 0.0 && drop > 1.1 * airspeed::impact_pressure(speed) {
            found.push(Flag::DropAboveRam);
        }
    }
    if let (Some(drop), Some(upper), Some(lower)) = (
        moment.get(Quantity::BaffleDrop),
        moment.get(Quantity::UpperDeck),
        moment.get(Quantity::LowerDeck),
    ) && (upper - lower - drop).abs() > DECKS_APART_PA
    {
        found.push(Flag::DecksDisagree);
    }
    found
}

fn head_flags(moment: &Moment) -> Vec<Flag> {
    let heads: Vec<(Quantity, f64)> = Quantity::HEADS
        .into_iter()
        .filter_map(|head| Some((head, moment.get(head)?)))
        .collect();
    if heads.len() < 3 {
        return Vec::new();
    }
    let mut sorted: Vec<f64> = heads.iter().map(|head| head.1).collect();
    order::ascending(&mut sorted);
    let median = sorted[sorted.len() / 2];
    let outside = moment.get(Quantity::Oat).unwrap_or(288.15);
    heads
        .into_iter()
        .filter_map(|(head, kelvin)| {
            if median > outside + 2.0 * DEAD_HEAD_K && kelvin < outside + DEAD_HEAD_K {
                Some(Flag::DeadHead(head))
            } else if (kelvin - median).abs() > WILD_HEAD_K {
                Some(Flag::WildHead(head))
            } else {
                None
            }
        })
        .collect()
}

fn model_flags(design: &Design, reading: &Reading, moment: &Moment) -> Vec<Flag> {
    let mut found = Vec::new();
    let installation = &design.installation;
    if installation.shutter.fitted && moment.get(Quantity::Shutter).is_none() {
        found.push(Flag::ShutterUnknown);
    }
    let Ok(condition) = reading.condition_of(moment, &installation.engine) else {
        return found;
    };
    let Ok(solved) = solve_condition(installation, &condition, None) else {
        found.push(Flag::NoAnswer);
        return found;
    };
    if let Some(oil) = moment.get(Quantity::Oil) {
        let state = &solved.solution.state;
        let after = installation.oil.probe.is_after_cooler();
        let here = (oil - gauge_temperature(state, after)).abs();
        let there = (oil - gauge_temperature(state, !after)).abs();
        if here - there > OTHER_PROBE_K && there < 0.3 * here {
            found.push(Flag::OilOtherSide);
        }
    }
    found
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::document::example;
    use crate::units::si::{foot, inh2o, knot};

    fn flags_of(changes: &[(Quantity, f64)]) -> Vec<Flag> {
        let mut values: crate::document::reading::Values = [
            (Quantity::Altitude, foot(3000.0)),
            (Quantity::Oat, degf(60.0)),
            (Quantity::Airspeed, knot(100.0)),
            (Quantity::PowerShare, 0.75),
            (Quantity::Head1, degf(380.0)),
            (Quantity::Head2, degf(390.0)),
            (Quantity::Head3, degf(400.0)),
            (Quantity::Head4, degf(395.0)),
            (Quantity::BaffleDrop, inh2o(4.0)),
            (Quantity::Shutter, 1.0),
        ]
        .into_iter()
        .collect();
        values.extend(changes.iter().copied());
        let reading = Reading::steady("one", values);
        flags(&example::design(), &reading, &reading.moments)
    }

    #[test]
    fn more_heads_than_cylinders_are_another_engines() {
        let six = [
            (Quantity::Head5, degf(392.0)),
            (Quantity::Head6, degf(388.0)),
        ];
        let (heads, cylinders) = (6, 4);
        assert_eq!(flags_of(&six), [Flag::OtherEngine { heads, cylinders }]);
    }

    #[test]
    fn an_ordinary_reading_raises_no_doubt() {
        assert_eq!(flags_of(&[]), []);
    }

    #[test]
    fn each_planted_fault_is_named() {
        // 60 °F noted as 60 °C; and −40, which is as cold in either unit.
        let found = flags_of(&[(Quantity::Oat, 60.0 + 273.15)]);
        assert_eq!(found, [Flag::OatInOtherUnit]);
        let found = flags_of(&[(Quantity::Oat, degf(-40.0))]);
        assert_eq!(found, [Flag::OatFar]);
        let found = flags_of(&[(Quantity::BaffleDrop, inh2o(8.0))]);
        assert_eq!(found, [Flag::DropAboveRam]);
        let found = flags_of(&[
            (Quantity::UpperDeck, inh2o(5.0)),
            (Quantity::LowerDeck, inh2o(0.2)),
        ]);
        assert_eq!(found, [Flag::DecksDisagree]);
        let found = flags_of(&[(Quantity::Head2, degf(100.0))]);
        assert_eq!(found, [Flag::DeadHead(Quantity::Head2)]);
        let found = flags_of(&[(Quantity::Head2, degf(300.0))]);
        assert_eq!(found, [Flag::WildHead(Quantity::Head2)]);
        // Beyond the speeds that the model takes.
        let found = flags_of(&[(Quantity::Airspeed, knot(420.0))]);
        assert_eq!(found, [Flag::NoAnswer]);
    }

    #[test]
    fn oil_of_the_other_side_of_the_cooler_is_noticed() {
        let design = example::design();
        let reading = |oil: f64| {
            let mut values = Reading::steady("", crate::document::reading::Values::new()).moments
                [0]
            .values
            .clone();
            for (quantity, value) in [
                (Quantity::Altitude, foot(3000.0)),
                (Quantity::Oat, degf(60.0)),
                (Quantity::Airspeed, knot(100.0)),
                (Quantity::PowerShare, 0.75),
                (Quantity::Shutter, 1.0),
                (Quantity::Oil, oil),
            ] {
                values.insert(quantity, value);
            }
            Reading::steady("one", values)
        };
        let condition = reading(370.0).moments[0]
            .condition(
                &design.installation.engine,
                crate::document::condition::Mixture::BestPower,
            )
            .expect("complete");
        let state = solve_condition(&design.installation, &condition, None)
            .expect("an answer")
            .solution
            .state;
        let after = design.installation.oil.probe.is_after_cooler();
        for (oil, expected) in [
            (gauge_temperature(&state, after), vec![]),
            (gauge_temperature(&state, !after), vec![Flag::OilOtherSide]),
        ] {
            let reading = reading(oil);
            let difference =
                (gauge_temperature(&state, true) - gauge_temperature(&state, false)).abs();
            assert!(difference > OTHER_PROBE_K, "{difference} K apart");
            assert_eq!(flags(&design, &reading, &reading.moments), expected);
        }
    }
}
