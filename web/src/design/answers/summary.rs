//! One line per condition: margins, flow, shutter, drag, each with its band.

use crate::kit::format;
use crate::kit::page::{BandSet, Outcome, known_bands};
use crate::kit::shared::Shared;
use crate::kit::shutter_words;
use crate::kit::verdict;
use crate::kit::verdict::{State, Verdict};
use coolpath_core::answer::band::Bands;
use coolpath_core::answer::evaluate::{Answer, Limit};
use coolpath_core::answer::solved::ShutterState;
use coolpath_core::answer::verdict::odds_about;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// What the summary shows.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Design that the answers belong to.
    pub design: Shared<Design>,
    /// Answers in the order of the conditions.
    pub answers: Shared<Vec<Outcome>>,
    /// Bands, as far as there are any.
    pub bands: Shared<BandSet>,
    /// Units.
    pub system: UnitSystem,
    /// Condition that the drawing shows.
    pub shown: usize,
    /// Shows another condition in the drawing.
    pub on_show: Callback<usize>,
}

/// What the shutter does, in words.
#[must_use]
pub fn shutter_words(answer: &Answer, system: UnitSystem) -> String {
    if answer.shutter == ShutterState::NotFitted {
        return tr("none fitted").to_owned();
    }
    shutter_words::at_stop(answer.shutter, system)
        .unwrap_or_else(|| shutter_words::between(answer.shutter_opening.unwrap_or(1.0)))
}

/// Whether the shutter holds the oil, in words behind its number.
#[must_use]
pub fn held_words(answer: &Answer) -> &'static str {
    if matches!(answer.shutter, ShutterState::Holds) {
        tr(", held by the shutter")
    } else {
        ""
    }
}

fn with_band(number: String, band: Option<String>) -> Html {
    html! {
        <>
            <span class="number">{ number }</span>
            if let Some(band) = band {
                <span class="band">{ band }</span>
            }
        </>
    }
}

/// The state that the condition's odds give it, not the margin of the best estimate alone.
fn state_mark(state: State) -> Html {
    html! { <span class={state.class()}>{ verdict::mark(state, 15) }{ " " }</span> }
}

/// The state in words, with the odds that both limits hold where they are known.
fn standing(found: &Verdict) -> String {
    let odds = found
        .chance()
        .map_or_else(String::new, |chance| tr!(", odds {}", odds_about(chance)));
    format!("{}{odds}", found.words())
}

/// The summary.
#[function_component]
pub fn Summary(props: &Props) -> Html {
    html! {
        <table class="answers">
            <thead>
                <tr>
                    <th scope="col">{ tr("Condition") }</th>
                    <th scope="col">{ tr("Hottest CHT") }</th>
                    <th scope="col">{ tr("Oil temperature") }</th>
                    <th scope="col">{ tr("Closest limit") }</th>
                    <th scope="col">{ tr("Δp, air") }</th>
                    <th scope="col">{ tr("Shutter") }</th>
                    <th scope="col">{ tr("Cooling drag") }</th>
                </tr>
            </thead>
            <tbody>
                { for props.answers.iter().enumerate().map(|(place, outcome)| row(props, place, outcome)) }
            </tbody>
        </table>
    }
}

fn row(props: &Props, place: usize, outcome: &Outcome) -> Html {
    let name = props
        .design
        .conditions
        .get(place)
        .map(|condition| condition.name.clone())
        .unwrap_or_default();
    let show = props.on_show.reform(move |_: MouseEvent| place);
    let shown = place == props.shown;
    let head = html! {
        <th scope="row">
            <button type="button" class="link" onclick={show} aria-pressed={shown.to_string()}>{ name }</button>
        </th>
    };
    match outcome {
        Err(error) => html! {
            <tr key={place}>{ head }<td colspan="6" class="fault">{ error.to_string() }</td></tr>
        },
        Ok(answer) => {
            let bands = known_bands(&props.bands, place);
            html! {
                <tr key={place} class={shown.then_some("shown")}>
                    { head }
                    { cells(&props.design.installation, answer, bands, props.system) }
                </tr>
            }
        }
    }
}

fn cells(
    installation: &Installation,
    answer: &Answer,
    bands: Option<&Bands>,
    system: UnitSystem,
) -> Html {
    let figures = bands.map(|bands| &bands.figures);
    let temperature_band = |band| format::temperature_band(band, system);
    let binding = match answer.binding {
        Limit::Head => (tr("CHT"), answer.head_margin.value, answer.limits.head.kind),
        Limit::Oil => (tr("oil"), answer.oil_margin.value, answer.limits.oil.kind),
    };
    let held = held_words(answer);
    let found = verdict::of(installation, answer, bands);
    let oil_band = figures.map(|figures| format!("{}{held}", temperature_band(&figures.oil)));
    let drag_band =
        figures.map(|figures| format::quantity_band(&figures.drag, Dimension::Force, system));
    html! {
        <>
            <td data-label={tr("Hottest CHT")}>
                { with_band(format::temperature(answer.head_hottest.value, system), figures.map(|f| temperature_band(&f.head_hottest))) }
            </td>
            <td data-label={tr("Oil temperature")}>
                { with_band(format::temperature(answer.oil.value, system), oil_band) }
            </td>
            <td data-label={tr("Closest limit")}>
                { state_mark(found.state) }
                { format!("{}: {}", binding.0, format::margin(binding.1, binding.2, system)) }
                <span class="second">{ standing(&found) }</span>
            </td>
            <td data-label={tr("Δp, air")}>
                { with_band(
                    format::quantity(answer.baffle_drop.value, Dimension::Pressure, system, 2),
                    figures.map(|f| format::quantity_band(&f.baffle_drop, Dimension::Pressure, system)),
                ) }
                <span class="second">{ format::quantity(answer.inlet_flow.value, Dimension::MassFlow, system, 3) }</span>
            </td>
            <td data-label={tr("Shutter")}>{ shutter_words(answer, system) }</td>
            <td data-label={tr("Cooling drag")}>
                { with_band(format::quantity(answer.drag.value, Dimension::Force, system, 2), drag_band) }
                if let Some(cost) = answer.speed_cost {
                    <span class="second">{ tr!("costs {}", format::quantity(cost.value, Dimension::Speed, system, 2)) }</span>
                }
            </td>
        </>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::evaluate::evaluate;
    use coolpath_core::document::example;

    #[test]
    fn the_shutter_is_told_in_per_cent_and_degrees_or_by_what_is_missing() {
        let mut design = example::design();
        let held = evaluate(&design, 3).expect("solved");
        let text = shutter_words(&held, UnitSystem::Customary);
        assert!(
            text.contains("% open (") && text.ends_with("° from fully open)"),
            "{text}"
        );
        let hot = evaluate(&design, 1).expect("solved");
        let text = shutter_words(&hot, UnitSystem::Customary);
        assert!(text.starts_with("Fully open; oil "), "{text}");
        design.installation.shutter.fitted = false;
        let none = evaluate(&design, 3).expect("solved");
        assert_eq!(shutter_words(&none, UnitSystem::Customary), "none fitted");
    }
}
