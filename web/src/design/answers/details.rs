//! One condition in full: stations, flows, heat, ratios, warnings and the solver's report.

use crate::kit::format;
use crate::kit::page::Outcome;
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::language::tr;
use coolpath_core::path::report::Method;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// The condition to show.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Its outcome.
    pub outcome: Outcome,
    /// Units.
    pub system: UnitSystem,
}

/// What the solver's steps were.
fn steps(method: Method) -> &'static str {
    match method {
        Method::Newton => tr("Newton steps"),
        Method::Relaxed => tr("Newton steps from a relaxed start"),
        Method::Bracketed => tr("Newton steps after a bracketed search for the oil"),
        Method::Halves => tr("Newton steps on both halves of the deck"),
    }
}

/// Rows of the details: what, how much.
#[must_use]
pub fn rows(answer: &Answer, system: UnitSystem) -> Vec<(&'static str, String)> {
    let pressure = |si: f64| format::quantity(si, Dimension::Pressure, system, 3);
    let flow = |si: f64| format::quantity(si, Dimension::MassFlow, system, 3);
    let heat = |si: f64| format::quantity(si, Dimension::Heat, system, 3);
    let power = |si: f64| format::quantity(si, Dimension::Power, system, 3);
    let warm = |si: f64| format::temperature(si, system);
    let force = |si: f64| format::quantity(si, Dimension::Force, system, 3);
    vec![
        (
            tr("True airspeed"),
            format::quantity(answer.true_airspeed.value, Dimension::Speed, system, 3),
        ),
        (tr("Outside air"), warm(answer.outside_air.value)),
        (tr("Brake power"), power(answer.brake_power.value)),
        (
            tr("Mixture over stoichiometric"),
            format::ratio(Some(answer.mixture)),
        ),
        (
            tr("Ram pressure before the inlet"),
            pressure(answer.ram.value),
        ),
        (
            tr("Upper deck above outside static"),
            pressure(answer.upper_deck.value),
        ),
        (
            tr("Lower deck above outside static"),
            pressure(answer.lower_deck.value),
        ),
        (
            tr("Across the baffles, Δp"),
            pressure(answer.baffle_drop.value),
        ),
        (tr("Upper deck air"), warm(answer.upper_deck_air.value)),
        (tr("Air behind the fins"), warm(answer.behind_fins.value)),
        (tr("Lower deck air"), warm(answer.lower_deck_air.value)),
        (tr("Air through the inlets"), flow(answer.inlet_flow.value)),
        (tr("Air through the fins"), flow(answer.fin_flow.value)),
        (tr("Air past the seals"), flow(answer.leak_flow.value)),
        (
            tr("Air through the oil cooler"),
            flow(answer.cooler_flow.value),
        ),
        (tr("Air through the exits"), flow(answer.exit_flow.value)),
        (
            tr("Inlet velocity over airspeed"),
            format::ratio(answer.inlet_velocity_ratio),
        ),
        (
            tr("Exit velocity over airspeed"),
            format::ratio(answer.exit_velocity_ratio),
        ),
        (
            tr("Exit over inlet area"),
            format::ratio(Some(answer.area_ratio)),
        ),
        (tr("Mean head"), warm(answer.head_mean.value)),
        (
            tr("Hottest head, as its probe reads it"),
            warm(answer.head_hottest.value),
        ),
        (
            tr("Head margin"),
            format::margin(answer.head_margin.value, answer.limits.head.kind, system),
        ),
        (tr("Hot oil, before the cooler"), warm(answer.oil_hot.value)),
        (tr("Oil temperature"), warm(answer.oil.value)),
        (
            tr("Oil margin"),
            format::margin(answer.oil_margin.value, answer.limits.oil.kind, system),
        ),
        (tr("Heat from the fins"), heat(answer.fin_heat.value)),
        (tr("Heat into the oil"), heat(answer.oil_heat.value)),
        (
            tr("Heat from the oil cooler"),
            heat(answer.cooler_heat.value),
        ),
        (tr("Drag at the exits"), force(answer.drag_parts.exits_n)),
        (
            tr("Drag of leaks and cabin air"),
            force(answer.drag_parts.overboard_n),
        ),
        (
            tr("Drag of spilled air"),
            force(answer.drag_parts.spillage_n),
        ),
        (tr("Drag of open flaps"), force(answer.drag_parts.flap_n)),
        (
            tr("Solver"),
            tr!(
                "{} {}, residual {}",
                answer.report.iterations,
                steps(answer.report.method),
                format_args!("{:.0e}", answer.report.residual)
            ),
        ),
    ]
}

/// One condition in full.
#[function_component]
pub fn Details(props: &Props) -> Html {
    match &props.outcome {
        Err(error) => html! { <p class="fault">{ error.to_string() }</p> },
        Ok(answer) => html! {
            <>
                <ul class="warnings">
                    { for answer.warnings.iter().map(|warning| html! { <li>{ warning.sentence(props.system) }</li> }) }
                </ul>
                <details>
                    <summary>{ tr!("All results: {}", answer.name) }</summary>
                    <dl class="numbers">
                        { for rows(answer, props.system).into_iter().map(|(what, value)| html! {
                            <div><dt>{ what }</dt><dd>{ value }</dd></div>
                        }) }
                    </dl>
                </details>
            </>
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate::evaluate_all;
    use coolpath_core::document::example;

    #[test]
    fn no_row_of_the_example_lacks_its_number_or_shows_none() {
        for answer in evaluate_all(&example::design()).into_iter().flatten() {
            for system in [UnitSystem::Customary, UnitSystem::Metric] {
                for (what, value) in rows(&answer, system) {
                    assert!(
                        !value.contains("NaN") && !value.contains("inf"),
                        "{what}: {value}"
                    );
                    let at_rest = answer.true_airspeed.value == 0.0;
                    assert!(
                        value != format::NONE || at_rest,
                        "{what} of {}",
                        answer.name
                    );
                }
            }
        }
    }
}
