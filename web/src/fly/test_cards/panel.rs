//! "Test cards": half a page for each condition, and the leak checklist, to print.

use crate::browser::window;
use crate::fly::test_cards::face;
use crate::fly::test_cards::face::Typed;
use crate::fly::test_cards::words;
use crate::fly::test_cards::words::{LEAK_CHECKS, USUAL_RESERVE_K};
use crate::kit::controls::{option_field, use_unfolding};
use crate::kit::page::{Outcome, use_page};
use crate::kit::panel_field::PanelField;
use crate::part;
use crate::state::panel_texts::{key, typed_or};
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use std::rc::Rc;
use yew::prelude::*;

/// Texts that are typed for all cards.
const TYPED: [&str; 5] = [
    "reserve",
    "knock-off",
    "oil-pressure",
    "fuel-pressure",
    "ground-minutes",
];

/// Sizes that cards are printed in: the class of the page while it prints, and the words.
const SIZES: [(&str, &str); 2] = [
    ("print-tests", tr_later("half a page (two on A4 or Letter)")),
    ("print-tests print-a6", tr_later("A6, one a page")),
];

/// The panel; it draws its cards only while it stands open.
#[function_component]
pub fn CardsPanel() -> Html {
    let (design, answers, system) =
        use_page(|page| (page.design.clone(), page.answers.clone(), page.system()));
    let [
        reserve,
        knock_off,
        oil_pressure,
        fuel_pressure,
        ground_minutes,
    ] = use_page(|page| TYPED.map(|id| typed_or(&page.state, id, "")));
    let size = use_state(|| 0_usize);
    let altitude = Dimension::Altitude.shown(system);
    let knock_off = if typed::bare_number(&knock_off).is_some() {
        format!("{} {}", knock_off.trim(), altitude.symbol)
    } else {
        knock_off
    };
    let (open, on_toggle) = use_unfolding();
    let unit = Dimension::TemperatureDifference.shown(system);
    let below = if reserve.trim().is_empty() {
        Ok(USUAL_RESERVE_K)
    } else {
        typed::parse(&reserve, Dimension::TemperatureDifference, system)
            .ok()
            .filter(|kelvin| (0.0..=100.0).contains(kelvin))
            .ok_or(tr("The reserve must be a number of degrees, zero or more."))
    };
    let (size, resize) = (*size, size.setter());
    let print = Callback::from(move |_: MouseEvent| window::print_only(SIZES[size].0));
    html! {
        <details class="section" id="test-cards" ontoggle={on_toggle}>
            <summary>{ tr("Test cards and leak checklist") }</summary>
            if *open {
                <div class="fields card-fields">
                    { part!(PanelField { of: key("reserve"), label: tr!("Stop each test short of the limit by ({})", unit.symbol), placeholder: rounded_text(unit.from_si(USUAL_RESERVE_K), 2) }) }
                    { part!(PanelField { of: key("knock-off"), label: tr!("Knock-it-off altitude ({})", altitude.symbol) }) }
                    { part!(PanelField { of: key("oil-pressure"), label: tr("Minimum oil pressure, from your manual, with its unit"), keypad: "text" }) }
                    { part!(PanelField { of: key("fuel-pressure"), label: tr("Minimum fuel pressure, from your manual, with its unit"), keypad: "text" }) }
                    { part!(PanelField { of: key("ground-minutes"), label: tr("Time limit on the ground, min") }) }
                    { option_field("card-size", tr("Print as"), SIZES.map(|(_, words)| tr(words).to_owned()), size, move |at| resize.set(at)) }
                </div>
                { match below {
                    Ok(below_k) => {
                        let typed = Typed { below_k, knock_off, oil_pressure, fuel_pressure, ground_minutes };
                        html! {
                            <>
                                <div class="buttons"><button type="button" onclick={print}>{ tr("Print the cards") }</button></div>
                                { all(&design, &answers, system, &typed) }
                            </>
                        }
                    },
                    Err(fault) => html! { <p class="fault" role="alert">{ fault }</p> },
                } }
            }
        </details>
    }
}

fn all(design: &Design, answers: &[Outcome], system: UnitSystem, typed: &Typed) -> Html {
    let answers: Vec<Option<&Answer>> = answers
        .iter()
        .map(|found| found.as_ref().ok().map(Rc::as_ref))
        .collect();
    let cards = words::cards(design, &answers, system);
    let count = cards.len();
    html! {
        <>
            { face::build_up(design, &cards) }
            { for cards.iter().enumerate().map(|(at, card)| html! { <>
                { face::to_fly(design, card, (at + 1, count), typed, system) }
                { face::record(design, card, (at + 1, count)) }
            </> }) }
            <section class="test-card leak-card">
                <h3>{ tr!("{}: leak checklist", design.name) }</h3>
                <ul class="ticks">{ for LEAK_CHECKS.into_iter().map(|line| html! { <li><span class="box" aria-hidden="true"></span>{ tr(line) }</li> }) }</ul>
            </section>
        </>
    }
}
