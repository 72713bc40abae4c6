//! "Test cards": half a page for each condition, and the leak checklist, to print.

use crate::browser::window;
use crate::fly::test_cards::words;
use crate::fly::test_cards::words::{Card, LEAK_CHECKS, USUAL_RESERVE_K};
use crate::kit::controls::use_unfolding;
use crate::kit::format;
use crate::kit::page::{Outcome, use_page};
use crate::kit::panel_field::PanelField;
use crate::kit::refused::RefusedNote;
use crate::state::panel_texts::{key, typed_or};
use coolpath_core::answer::evaluate::Answer;
use coolpath_core::document::design::Design;
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use std::rc::Rc;
use yew::prelude::*;

/// What is written on a card by hand.
const BOXES: [&str; 8] = [
    "Date",
    "Clock at start",
    "Clock at end",
    "OAT",
    "Altimeter setting",
    "Highest head, which",
    "Oil",
    "Δp or indicator",
];

/// The panel; it draws its cards only while it stands open.
#[function_component]
pub fn CardsPanel() -> Html {
    let (design, answers, system) =
        use_page(|page| (page.design.clone(), page.answers.clone(), page.system()));
    let reserve = use_page(|page| typed_or(&page.state, "reserve", ""));
    let (open, on_toggle) = use_unfolding();
    let unit = Dimension::TemperatureDifference.shown(system);
    let below = if reserve.trim().is_empty() {
        Ok(USUAL_RESERVE_K)
    } else {
        typed::parse(&reserve, Dimension::TemperatureDifference, system)
            .ok()
            .filter(|kelvin| (0.0..=100.0).contains(kelvin))
            .ok_or("The reserve must be a number of degrees, zero or more.")
    };
    let print = Callback::from(|_: MouseEvent| window::print_only("print-tests"));
    html! {
        <details class="section" id="test-cards" ontoggle={on_toggle}>
            <summary>{ "Test cards and leak checklist" }</summary>
            if *open {
                <div class="fields card-fields">
                    <PanelField of={key("reserve")} label={format!("End a test below the limit by ({})", unit.symbol)} placeholder={rounded_text(unit.from_si(USUAL_RESERVE_K), 2)} />
                </div>
                { match below {
                    Ok(below) => html! {
                        <>
                            <div class="buttons"><button type="button" onclick={print}>{ "Print the cards" }</button></div>
                            { all(&design, &answers, system, below) }
                        </>
                    },
                    Err(fault) => html! { <p class="fault" role="alert">{ fault }</p> },
                } }
            }
        </details>
    }
}

fn all(design: &Design, answers: &[Outcome], system: UnitSystem, below_k: f64) -> Html {
    let answers: Vec<Option<&Answer>> = answers
        .iter()
        .map(|found| found.as_ref().ok().map(Rc::as_ref))
        .collect();
    let cards = words::cards(design, &answers, system);
    let count = cards.len();
    html! {
        <>
            { for cards.iter().enumerate().map(|(at, card)| one(design, card, (at + 1, count), below_k, system)) }
            <section class="test-card leak-card">
                <h3>{ format!("{}: leak checklist", design.name) }</h3>
                <ul class="ticks">{ for LEAK_CHECKS.into_iter().map(|line| html! { <li><span class="box" aria-hidden="true"></span>{ line }</li> }) }</ul>
            </section>
        </>
    }
}

fn one(
    design: &Design,
    card: &Card,
    (number, count): (usize, usize),
    below_k: f64,
    system: UnitSystem,
) -> Html {
    let engine = &design.installation.engine;
    let degrees = |kelvin: f64| format::degrees(kelvin, system);
    let page = if engine.limits_page.is_empty() {
        String::new()
    } else {
        format!(", page {}", engine.limits_page)
    };
    let list = |rows: &[(&'static str, String)]| {
        rows.iter()
            .map(|(what, value)| html! { <div><dt>{ *what }</dt><dd>{ value.clone() }</dd></div> })
            .collect::<Html>()
    };
    html! {
        <section class="test-card" key={card.place}>
            <h3>{ format!("{number} of {count}: {}", card.name) }</h3>
            <RefusedNote />
            <p class="abort">{ format!("Abort at head {} or oil {}.", degrees(engine.head_limit.value - below_k), degrees(engine.oil_limit.value - below_k)) }
                <span>{ format!(" Limits {} and {} (yours, from your manual{page}).", degrees(engine.head_limit.value), degrees(engine.oil_limit.value)) }</span></p>
            <div class="card-columns">
                <dl class="numbers">{ list(&card.set) }</dl>
                <dl class="numbers">{ list(&card.expected) }</dl>
            </div>
            <p>{ card.how }</p>
            <div class="boxes">{ for BOXES.into_iter().map(|label| html! { <div><span>{ label }</span></div> }) }</div>
            <p class="small">{ "Log once a second if you can, else every 15 s; note the clock, do not write while flying. Alone, near the field, planned (see FAA AC 90-89), within your operating limitations. Hot: reduce power, level off, speed up, enrich, open flaps, return; watch oil pressure. Fly the cards in this order, and the next only when the last agreed." }</p>
        </section>
    }
}
