//! The strip of conditions: a card each, with heads and oil on one scale for all.

use crate::kit::format;
use crate::kit::page::{BandSet, Outcome, known_bands, use_dispatch, use_page};
use crate::kit::shared::Shared;
use crate::kit::verdict;
use crate::kit::verdict::Verdict;
use crate::state::Action;
use coolpath_core::answer::band::Band;
use coolpath_core::answer::evaluate::{Answer, Limit};
use coolpath_core::answer::verdict::odds_percent;
use coolpath_core::document::condition::{Condition, Phase};
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// A scale about a limit: how far it reaches below and above, K.
struct Scale {
    below_k: f64,
    above_k: f64,
}

/// Wide enough for a cold cruise on the left and a hot climb on the right.
const HEADS: Scale = Scale {
    below_k: 105.0,
    above_k: 45.0,
};
const OIL: Scale = Scale {
    below_k: 60.0,
    above_k: 30.0,
};

impl Scale {
    /// Place of a temperature, per cent of the bar.
    fn place(&self, over_limit_k: f64) -> f64 {
        (100.0 * (over_limit_k + self.below_k) / (self.below_k + self.above_k)).clamp(0.0, 100.0)
    }
}

/// What the strip shows.
#[derive(Clone, PartialEq)]
struct Shown {
    design: Shared<Design>,
    answers: Shared<Vec<Outcome>>,
    bands: Shared<BandSet>,
    verdicts: Shared<Vec<Option<Verdict>>>,
    system: UnitSystem,
    place: usize,
}

/// The strip.
#[function_component]
pub fn Strip() -> Html {
    let shown = use_page(|page| Shown {
        design: page.design.clone(),
        answers: page.answers.clone(),
        bands: page.bands.clone(),
        verdicts: page.verdicts.clone(),
        system: page.system(),
        place: page.place(),
    });
    let on_show = use_dispatch().reform(Action::Show);
    html! {
        <section class="strip" id="strip" aria-label={tr("Conditions")}>
            { for shown.design.conditions.iter().enumerate().map(|(place, condition)| card(&shown, place, condition, &on_show)) }
        </section>
    }
}

/// What sets a condition apart, such as "85 kt, 1,500 ft".
#[must_use]
pub fn manner(condition: &Condition, system: UnitSystem) -> String {
    let altitude = grouped(&format::quantity(
        condition.altitude.value,
        Dimension::Altitude,
        system,
        2,
    ));
    if condition.phase == Phase::Ground {
        return tr!("on the ground, {}", altitude);
    }
    let speed = format::quantity(condition.airspeed.value, Dimension::Speed, system, 3);
    format!("{speed}, {altitude}")
}

/// A whole number before a unit with a comma between its thousands.
fn grouped(text: &str) -> String {
    let digits = text.chars().take_while(char::is_ascii_digit).count();
    if digits < 4 || text[digits..].starts_with('.') {
        return text.to_owned();
    }
    format!("{},{}", &text[..digits - 3], &text[digits - 3..])
}

fn card(shown: &Shown, place: usize, condition: &Condition, on_show: &Callback<usize>) -> Html {
    let show = on_show.reform(move |_: MouseEvent| place);
    let found = shown.verdicts.get(place).and_then(Option::as_ref);
    let state = found.map_or(verdict::State::NoAnswer, |found| found.state);
    let odds = found.and_then(Verdict::chance).map_or_else(
        || match shown.bands.get(place) {
            Some(Err(_)) => format::NONE.to_owned(),
            _ => "…".to_owned(),
        },
        odds_percent,
    );
    let bands = known_bands(&shown.bands, place);
    let content = match shown.answers.get(place) {
        Some(Ok(answer)) => {
            let figures = bands.map(|bands| &bands.figures);
            html! { <>
                { bar(Limit::Head, answer, figures.map(|f| &f.head_hottest), shown.system) }
                { bar(Limit::Oil, answer, figures.map(|f| &f.oil), shown.system) }
            </> }
        }
        Some(Err(error)) => html! { <span class="cond-fault">{ error.to_string() }</span> },
        None => Html::default(),
    };
    html! {
        <button type="button" key={place} class={classes!("cond", state.class())} onclick={show}
            aria-pressed={(place == shown.place).to_string()}>
            <span class="cond-head">
                <span class="cond-name">{ condition.name.clone() }</span>
                <span class="cond-state">{ verdict::mark(state, 17) }
                    <span class="visually-hidden">{ tr!("{}, odds ", state.words()) }</span>{ odds }</span>
            </span>
            <span class="cond-manner">{ manner(condition, shown.system) }</span>
            { content }
        </button>
    }
}

fn bar(of: Limit, answer: &Answer, band: Option<&Band>, system: UnitSystem) -> Html {
    let is_heads = of == Limit::Head;
    let (name, kelvin, margin, scale) = match of {
        Limit::Head => (
            tr("CHT"),
            answer.head_hottest.value,
            answer.head_margin.value,
            HEADS,
        ),
        Limit::Oil => (tr("Oil"), answer.oil.value, answer.oil_margin.value, OIL),
    };
    let at = |over_k: f64| format!("{:.2}%", scale.place(over_k));
    let span = |from: f64, to: f64| format!("{:.2}%", scale.place(to) - scale.place(from));
    let over = -margin;
    let band = band.map(|band| (over - band.below, over + band.above));
    html! {
        <span class="bar-row">
            <span class="bar-name">{ name }</span>
            <svg class="bar" height="16" aria-hidden="true">
                <rect class="bar-track" x="0" y="4" width="100%" height="8" />
                if let Some((low, high)) = band {
                    if low < 0.0 {
                        <rect class="bar-band" x={at(low)} y="3" width={span(low, high.min(0.0))} height="10" rx="2" />
                    }
                    if high > 0.0 {
                        <rect class="bar-beyond" x={at(low.max(0.0))} y="3" width={span(low.max(0.0), high)} height="10" rx="2" />
                    }
                }
                <line class="bar-limit" x1={at(0.0)} x2={at(0.0)} y1="0" y2="16" />
                <circle class="bar-dot" cx={at(over)} cy="8" r="5" />
            </svg>
            <span class={if is_heads { "bar-value head" } else { "bar-value" }}>{ format::temperature(kelvin, system) }</span>
        </span>
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn thousands_are_parted() {
        assert_eq!(grouped("1500 ft"), "1,500 ft");
        assert_eq!(grouped("500 ft"), "500 ft");
        assert_eq!(grouped("12000 ft"), "12,000 ft");
    }

    #[test]
    fn a_limit_stands_at_one_place_and_everything_stays_on_the_bar() {
        assert!((HEADS.place(0.0) - 70.0).abs() < 1e-9);
        assert_eq!(HEADS.place(-1000.0), 0.0);
        assert_eq!(OIL.place(1000.0), 100.0);
        assert!(OIL.place(-10.0) < OIL.place(0.0));
    }
}
