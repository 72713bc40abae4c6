//! The two faces of a card: what to fly, and what is written down.

use crate::fly::test_cards::words::{Card, HEAD_RATES_K_S, OIL_RATES_K_S, abort_at};
use crate::kit::format;
use crate::kit::refused::RefusedNote;
use crate::part;
use coolpath_core::document::condition::Phase;
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// What the builder typed for all cards.
#[derive(Debug, Clone, PartialEq)]
pub struct Typed {
    /// A test ends so far below a limit, K.
    pub below_k: f64,
    /// Altitude below which a test is not begun or goes on, in words.
    pub knock_off: String,
    /// Least oil pressure, as typed.
    pub oil_pressure: String,
    /// Least fuel pressure, as typed.
    pub fuel_pressure: String,
    /// Minutes on the ground, as typed.
    pub ground_minutes: String,
}

/// Minutes at which temperatures are noted.
const MINUTES: [&str; 8] = ["0", "1", "2", "3", "5", "7", "10", "15"];

/// What is written at the head of a record.
const CONDITIONS: [&str; 6] = [
    tr_later("Date"),
    tr_later("Weight"),
    tr_later("Fuel grade"),
    tr_later("Clock at start"),
    tr_later("Altimeter setting"),
    tr_later("Wind, gusts"),
];

/// What is written after a test.
const RESULT: [&str; 6] = [
    tr_later("OAT at first maximum"),
    tr_later("Altitude then"),
    tr_later("Highest CHT, cylinder"),
    tr_later("Highest oil"),
    tr_later("Δp or indicator"),
    tr_later("Lowest oil pressure"),
];

/// What is written after the landing.
const AFTER: [&str; 4] = [
    tr_later("Shutdown, clock"),
    tr_later("Highest head after it"),
    tr_later("Restart after, min"),
    tr_later("Hot restart: how"),
];

fn lines(rows: &[(&'static str, String)]) -> Html {
    rows.iter()
        .map(|(what, value)| html! { <div><dt>{ *what }</dt><dd>{ value.clone() }</dd></div> })
        .collect()
}

fn boxes(labels: &[&'static str]) -> Html {
    html! { <div class="boxes">{ for labels.iter().map(|label| html! { <div><span>{ tr(label) }</span></div> }) }</div> }
}

fn or_blank(text: &str) -> String {
    if text.trim().is_empty() {
        "______".to_owned()
    } else {
        text.trim().to_owned()
    }
}

/// What ends the test.
fn abort(design: &Design, card: &Card, typed: &Typed, system: UnitSystem) -> Html {
    let engine = &design.installation.engine;
    let lags = &design.installation.lags;
    let degrees = |kelvin: f64| format::degrees(kelvin, system);
    let page = if engine.limits_page.is_empty() {
        String::new()
    } else {
        tr!(", page {}", engine.limits_page)
    };
    let (head, oil) = (engine.head_limit.value, engine.oil_limit.value);
    let unit = Dimension::TemperatureDifference.shown(system);
    let rising = |what: &'static str, limit: f64, rates: &[f64], lag_s: f64| {
        let at = rates.iter().map(|rate| {
            let at = degrees(abort_at(limit, typed.below_k, *rate, lag_s));
            tr!("at {:.0}: {}", unit.from_si(60.0 * rate), at)
        });
        html! { <tr><th scope="row">{ tr!("{} rising, {}/min", what, unit.symbol) }</th>{ for at.map(|text| html! { <td>{ text }</td> }) }</tr> }
    };
    let pressures = tr!(
        "Abort too at oil pressure below {}, fuel pressure below {}{}.",
        or_blank(&typed.oil_pressure),
        or_blank(&typed.fuel_pressure),
        match card.phase {
            Phase::Ground => tr!(", or after {} min", or_blank(&typed.ground_minutes)),
            _ => tr!(", or below {} (knock it off)", or_blank(&typed.knock_off)),
        }
    );
    html! {
        <>
            <p class="abort">{ tr!("Abort at head {} or oil {}.", degrees(head - typed.below_k), degrees(oil - typed.below_k)) }
                <span>{ tr!(" Limits {} and {} (yours, from your manual{}).", degrees(head), degrees(oil), page) }</span></p>
            <table class="rates">
                <tbody>
                    { rising(tr("Head"), head, &HEAD_RATES_K_S, lags.heads) }
                    { rising(tr("Oil"), oil, &OIL_RATES_K_S, lags.oil) }
                </tbody>
            </table>
            <p class="pressures">{ pressures }</p>
        </>
    }
}

/// What to fly.
pub fn to_fly(
    design: &Design,
    card: &Card,
    (number, count): (usize, usize),
    typed: &Typed,
    system: UnitSystem,
) -> Html {
    html! {
        <section class="test-card" key={format!("fly {}", card.place)}>
            <h3>{ tr!("{} of {}: {}", number, count, card.name) }</h3>
            { part!(RefusedNote) }
            if let Some(refused) = &card.refused { <p class="refused">{ refused.clone() }</p> }
            { abort(design, card, typed, system) }
            <div class="card-columns">
                <dl class="numbers">{ lines(&card.set) }</dl>
                <dl class="numbers">{ lines(&card.expected) }</dl>
            </div>
            <p><strong>{ card.start }</strong>{ " " }{ card.how }</p>
            <p class="small">{ if card.phase == Phase::Ground {
                tr("Hot: idle into the wind, then shut down; watch oil pressure. The one at the controls does not write.")
            } else {
                tr("Hot: reduce power, level off, speed up, enrich, open cowl flaps, return; watch oil pressure. Do not write while flying: let the log record, note the clock.")
            } }</p>
        </section>
    }
}

/// What is written down.
pub fn record(design: &Design, card: &Card, (number, count): (usize, usize)) -> Html {
    let cylinders = usize::from(design.installation.engine.cylinders);
    let rows = (1..=cylinders)
        .map(|number| format!("CHT {number}"))
        .chain([tr("Oil").to_owned()]);
    html! {
        <section class="test-card record-card" key={format!("record {}", card.place)}>
            <h3>{ tr!("{} of {}, record: {}", number, count, card.name) }</h3>
            { boxes(&CONDITIONS) }
            <table class="card-grid">
                <thead><tr><th scope="col">{ "min" }</th>{ for MINUTES.into_iter().map(|minute| html! { <th scope="col">{ minute }</th> }) }</tr></thead>
                <tbody>{ for rows.map(|name| html! { <tr><th scope="row">{ name }</th>{ for MINUTES.into_iter().map(|_| html! { <td></td> }) }</tr> }) }</tbody>
            </table>
            { boxes(&RESULT) }
            { boxes(&AFTER) }
            <p class="signed">{ tr("Corrected to a hot day (step 5): by the rule ______ by the model ______ limit ______") }
                <span class="verdicts"><span class="box" aria-hidden="true"></span>{ tr(" pass ") }<span class="box" aria-hidden="true"></span>{ tr(" fail") }</span></p>
            <p class="signed">{ tr("Pilot ______________ Checked by ______________ Date ________") }</p>
        </section>
    }
}

/// The order in which the cards are flown.
pub fn build_up(design: &Design, cards: &[Card]) -> Html {
    html! {
        <section class="test-card build-up" key="build-up">
            <h3>{ tr!("{}: build-up", design.name) }</h3>
            <p>{ tr("From the most margin to the least. Fly the next only when the last agreed with what it says. Alone, near the field, planned (see FAA AC 90-89), within your operating limitations.") }</p>
            <ol class="ticks">{ for cards.iter().map(|card| html! { <li><span class="box" aria-hidden="true"></span>{ card.name.clone() }</li> }) }</ol>
        </section>
    }
}
