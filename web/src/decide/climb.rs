//! Climb help: airspeed or power that holds a head temperature, and what enriching is worth.

use crate::kit::controls::use_unfolding;
use crate::kit::format;
use crate::kit::page::use_page;
use crate::kit::panel_field::PanelField;
use crate::part;
use crate::state::Range;
use crate::state::field;
use crate::state::panel_texts;
use crate::state::panel_texts::key;
use coolpath_core::decide::climb::{
    Holding, POWERS, SPEEDS_M_S, largest_power, mixtures, slowest_airspeed,
};
use coolpath_core::document::condition::Condition;
use coolpath_core::document::condition::Mixture;
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::si::degf;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// Text of the temperature to hold.
const TARGET: &str = "climb-target";

/// What may be held.
const TO_HOLD: Range<'static> = Range {
    label: tr_later("CHT to hold"),
    ends: (degf(80.0), degf(800.0)),
    dimension: Dimension::Temperature,
};

/// The panel; it computes only while it stands open.
#[function_component]
pub fn ClimbPanel() -> Html {
    let (design, place, system) =
        use_page(|page| (page.design.clone(), page.place(), page.system()));
    let (open, on_toggle) = use_unfolding();
    let typed = use_page(|page| panel_texts::typed(&page.state, &key(TARGET)));
    let limit_k = design.installation.engine.limits_always().head.kelvin;
    let usual = field::shown(limit_k, Dimension::Temperature, system);
    let target = TO_HOLD.value(typed.as_ref().unwrap_or(&usual), system);
    let unit = Dimension::Temperature.shown(system).symbol;
    html! {
        <details class="section" id="climb" ontoggle={on_toggle}>
            <summary>{ tr("Safe climb speed") }</summary>
            if *open {
                <div class="fields">
                    { part!(PanelField { of: key(TARGET), label: tr("CHT to hold"), unit, usual, judged: target.clone().map(drop) }) }
                </div>
                // Always one child: a list that grows would build the field anew and lose its focus.
                { target.ok().zip(design.conditions.get(place))
                    .map(|(target, condition)| answers(&design, condition, target, system))
                    .unwrap_or_default() }
            }
        </details>
    }
}

fn answers(design: &Design, condition: &Condition, target: f64, system: UnitSystem) -> Html {
    let installation = &design.installation;
    let speed = |m_s: f64| format::quantity(m_s, Dimension::Speed, system, 3);
    let percent = |share: f64| tr!("{:.0} % of rated power", 100.0 * share);
    let held = format::quantity(target, Dimension::Temperature, system, 3);
    let slowest = match slowest_airspeed(installation, condition, target) {
        Ok(Holding::From(found)) => tr!("{} indicated, at this power", speed(found)),
        Ok(Holding::Everywhere) => tr!("any from {} up", speed(SPEEDS_M_S.0)),
        Ok(Holding::Nowhere) => tr!("none up to {}", speed(SPEEDS_M_S.1)),
        Err(error) => error.to_string(),
    };
    let largest = match largest_power(installation, condition, target) {
        Ok(Holding::From(found)) => {
            tr!(
                "{}, at {} indicated",
                percent(found),
                speed(condition.airspeed.value)
            )
        }
        Ok(Holding::Everywhere) => tr!("any up to {}", percent(POWERS.1)),
        Ok(Holding::Nowhere) => tr!("none down to {}", percent(POWERS.0)),
        Err(error) => error.to_string(),
    };
    let name = |mixture: Mixture| match mixture {
        Mixture::FullRich => tr("full rich"),
        Mixture::BestPower => tr("best power"),
        Mixture::PeakEgt => tr("peak EGT"),
        Mixture::LeanOfPeak => tr("lean of peak EGT"),
        Mixture::FuelFlow => tr("by fuel flow"),
        Mixture::RichByEgt => tr("rich of peak by EGT"),
        Mixture::LeanByEgt => tr("lean of peak by EGT"),
        Mixture::Ratio => tr("by fuel–air ratio"),
    };
    let now =
        coolpath_core::answer::solve_condition::solve_condition(installation, condition, None)
            .ok()
            .map(|found| {
                coolpath_core::answer::head_readings::hottest_reading(installation, &found)
            });
    let rows: Vec<(String, String)> = match mixtures(installation, condition) {
        Err(error) => vec![(tr("Mixture").to_owned(), error.to_string())],
        Ok(found) => found
            .into_iter()
            .map(|(mixture, head)| {
                let change = now.map_or_else(String::new, |now| {
                    let by =
                        format::quantity(head - now, Dimension::TemperatureDifference, system, 2);
                    let sign = if head > now { "+" } else { "" };
                    if mixture == condition.mixture {
                        tr(" (as it is)").to_owned()
                    } else {
                        format!(" ({sign}{by})")
                    }
                });
                (
                    tr!("Hottest head, {}", name(mixture)),
                    format!("{}{change}", format::temperature(head, system)),
                )
            })
            .collect(),
    };
    html! {
        <>
            <dl class="numbers">
                <div><dt>{ tr!("Slowest airspeed that holds {}", held) }</dt><dd>{ slowest }</dd></div>
                <div><dt>{ tr!("Largest power that holds {}", held) }</dt><dd>{ largest }</dd></div>
                { for rows.into_iter().map(|(what, words)| html! { <div><dt>{ what }</dt><dd>{ words }</dd></div> }) }
            </dl>
            <p class="hint">{ tr!("For “{}”, at its own outside air. Hot in flight: reduce power, level off, speed up, enrich, open cowl flaps, return. Mixture only as your engine's manual permits at this power.", condition.name) }</p>
        </>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_may_be_held_is_told_in_the_units_that_are_shown_and_is_what_is_taken() {
        assert_eq!(
            TO_HOLD.must(UnitSystem::Metric),
            "CHT to hold must be between 27 and 426 °C"
        );
        for end in ["80", "800"] {
            assert!(TO_HOLD.value(end, UnitSystem::Customary).is_ok(), "{end}");
        }
    }
}
