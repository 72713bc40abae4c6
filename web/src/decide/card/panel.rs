//! Shutter card: the opening over outside air in the builder's own notches, printed on half a page.

use crate::browser::window;
use crate::charts::table::TableView;
use crate::charts::view::FigureView;
use crate::charts::{Size, room, shutter};
use crate::decide::card::pocket::PocketCard;
use crate::decide::card::points::use_points;
use crate::decide::card::today::Today;
use crate::decide::card::words;
use crate::kit::controls::option_field;
use crate::kit::format;
use crate::kit::later::use_after_pause;
use crate::kit::page::use_page;
use crate::kit::panel_field::PanelField;
use crate::kit::refused::RefusedNote;
use crate::kit::shared::Shared;
use crate::kit::soon::Soon;
use crate::kit::table_text::TableText;
use crate::part;
use crate::state::panel_texts::{key, typed_or};
use coolpath_core::answer::solved::EvaluateError;
use coolpath_core::decide::shutter_card::{CardPoint, MOST_TAPED, Tape, tape_card};
use coolpath_core::document::condition::Condition;
use coolpath_core::document::design::Design;
use coolpath_core::document::installation::Installation;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use std::rc::Rc;
use yew::prelude::*;

/// Tape at one temperature, or why there is none.
type TapeAt = Result<Tape, EvaluateError>;

/// Texts of the counts, and what is usual.
const NOTCHES: (&str, &str) = ("card-notches", "6");
const STRIPS: (&str, &str) = ("card-strips", "8");

/// What the card is of.
#[derive(Clone, PartialEq)]
struct Wanted {
    design: Shared<Design>,
    place: usize,
    system: UnitSystem,
    width: u32,
}

/// The panel.
#[function_component]
pub fn CardPanel() -> Html {
    let wanted = use_page(|page| Wanted {
        design: page.design.clone(),
        place: page.place(),
        system: page.system(),
        width: page.width,
    });
    let [notches, strips] =
        use_page(|page| [NOTCHES, STRIPS].map(|(id, usual)| typed_or(&page.state, id, usual)));
    // By name, so that it stays what it is when another condition is removed.
    let of = use_state(|| None::<String>);
    let field = |(id, usual): (&'static str, &'static str), label: &'static str, text: &str| {
        let judged = words::marks(text, label).map(drop);
        part!(PanelField {
            of: key(id),
            label,
            usual,
            keypad: "numeric",
            judged
        })
    };
    let shown = use_after_pause(&wanted);
    let conditions = &shown.design.conditions;
    let chosen = conditions
        .iter()
        .position(|one| Some(&one.name) == of.as_ref());
    let place = chosen
        .unwrap_or(shown.place)
        .min(conditions.len().saturating_sub(1));
    let condition = conditions.get(place);
    let points = use_points(&shown.design, place, shown.system);
    let tapes = use_tapes(&shown.design, place, points.as_ref());
    // A card of the design before is never printed.
    let waiting = shown != wanted || points.is_none();
    let counts = (
        words::marks(&notches, "").unwrap_or(6),
        words::marks(&strips, "").unwrap_or(8),
    );
    let fitted = shown.design.installation.shutter.fitted;
    let print = Callback::from(|_: MouseEvent| window::print_only("print-card"));
    let names: Vec<String> = conditions.iter().map(|one| one.name.clone()).collect();
    let choose = {
        let (of, names) = (of.clone(), names.clone());
        move |at: usize| of.set(names.get(at).cloned())
    };
    html! {
        <section class="section job" id="card" tabindex="-1" aria-label={tr("Shutter today")}>
            <Soon>{ part!(Today { design: shown.design.clone(), system: shown.system, counts }) }</Soon>
            <div class="job-columns card-pair">
                { part!(PocketCard { design: shown.design.clone(), system: shown.system, counts, current: shown == wanted }) }
                <div class="card-whole">
                    <h3>{ tr("Every OAT of one condition") }</h3>
                    <div class="fields card-fields">
                        { option_field("card-condition", tr("Condition of the card"), names, place, choose) }
                        if fitted { { field(NOTCHES, tr("Notches of the shutter's lever"), &notches) } }
                        { field(STRIPS, tr("Strips of tape that would cover the core"), &strips) }
                    </div>
                    <div class="buttons"><button type="button" onclick={print} disabled={waiting}>{ tr("Print this card") }</button></div>
                    // A block of its own: what is typed above stays where it is when the card comes.
                    if let Some((condition, points)) = condition.zip(points.as_ref()) {
                        { card(&shown.design, condition, (points, &tapes), counts, shown.system) }
                    }
                </div>
            </div>
            if let Some((condition, points)) = condition.zip(points.as_ref()).filter(|_| fitted) {
                { jams(condition, points, &shown) }
            }
        </section>
    }
}

/// Tape at the card's temperatures: solved anew with the card, not with what is counted or where it is shown.
#[hook]
fn use_tapes(
    design: &Shared<Design>,
    place: usize,
    points: Option<&Shared<Vec<CardPoint>>>,
) -> Rc<Vec<TapeAt>> {
    let of = (design.clone(), place, points.cloned());
    use_memo(of, |(design, place, points)| {
        let condition = design.conditions.get(*place);
        let Some((condition, points)) = condition.zip(points.as_ref()) else {
            return Vec::new();
        };
        let oats: Vec<f64> = points.iter().map(|point| point.oat.value).collect();
        tape_card(&design.installation, condition, &oats)
    })
}

/// The oil with a jammed shutter.
fn jams(condition: &Condition, points: &[CardPoint], shown: &Wanted) -> Html {
    let limit = shown.design.installation.engine.oil_limit.value;
    let size = Size {
        width: room(shown.width, 1300),
        height: 260,
    };
    part!(FigureView {
        figure: shutter::jams(condition, points, limit, shown.system, size)
    })
}

/// The card's table.
fn sheet(
    installation: &Installation,
    condition: &Condition,
    (points, tapes): (&[CardPoint], &[TapeAt]),
    counts: (u32, u32),
    system: UnitSystem,
) -> TableText {
    let unit = Dimension::Temperature.shown(system);
    let shown = |kelvin: f64| format::whole_degrees(kelvin, system);
    let limit = installation.engine.oil_limit.value;
    let fitted = installation.shutter.fitted;
    let shutter = |texts: &[&str]| -> Vec<String> {
        let texts = if fitted { texts } else { &[] };
        texts.iter().map(|text| (*text).to_owned()).collect()
    };
    let columns = [
        vec![tr!("OAT, {}", unit.symbol)],
        shutter(&[tr("Notch, from closed"), tr("Open")]),
        vec![
            if fitted {
                tr("Tape instead")
            } else {
                tr("Tape")
            }
            .to_owned(),
            tr!("Oil, {}", unit.symbol),
        ],
        shutter(&[tr("Jammed shut"), tr("Jammed open")]),
    ]
    .concat();
    let marked = |kelvin: f64| {
        let over = if kelvin > limit {
            tr(" over limit")
        } else {
            ""
        };
        format!("{}{over}", shown(kelvin))
    };
    let rows = points.iter().zip(tapes).map(|(point, tape)| {
        let (low, high) = point.opening_band;
        let open = [100.0 * point.opening, 100.0 * low, 100.0 * high];
        let open = format!("{:.0} % ({:.0}–{:.0})", open[0], open[1], open[2]);
        // Without a shutter the oil is that under the tape.
        let taped_k = tape.as_ref().ok().filter(|_| !fitted).and_then(|tape| {
            words::oil_under_k(installation, condition, point.oat.value, *tape, counts.1)
        });
        let tape = match tape {
            Err(error) => error.to_string(),
            Ok(tape) => words::strips(*tape, counts.1),
        };
        // Where oil congeals in the cold core no setting can be told.
        let set = if point.congealing.is_some() {
            [format::NONE.to_owned(), format::NONE.to_owned()]
        } else {
            [words::opening(point, counts.0), open]
        };
        [
            vec![shown(point.oat.value)],
            shutter(&[&set[0], &set[1]]),
            vec![tape, marked(taped_k.unwrap_or(point.oil.value))],
            shutter(&[
                &marked(point.oil_jammed_shut.value),
                &marked(point.oil_jammed_open.value),
            ]),
        ]
        .concat()
    });
    TableText {
        title: tr("Shutter card").to_owned(),
        columns,
        rows: rows.collect(),
    }
}

fn card(
    design: &Design,
    condition: &Condition,
    (points, tapes): (&[CardPoint], &[TapeAt]),
    counts: (u32, u32),
    system: UnitSystem,
) -> Html {
    let installation = &design.installation;
    let unit = Dimension::Temperature.shown(system);
    let shown = |kelvin: f64| format::whole_degrees(kelvin, system);
    let limit = installation.engine.oil_limit.value;
    let jammed_hot = points
        .iter()
        .find(|point| point.oil_jammed_shut.value > limit);
    let fitted = installation.shutter.fitted;
    let sheet = sheet(installation, condition, (points, tapes), counts, system);
    let congealing = points.iter().rev().find(|point| point.congealing.is_some());
    let bypassing = points
        .iter()
        .rev()
        .find(|point| point.oil_through_cooler < 0.5);
    html! {
        <div class="card">
            <h3>{ format!("{}: {}", design.name, condition.name) }</h3>
            { part!(RefusedNote) }
            <p>{ tr!("To hold {} oil temperature. Limit {} (yours, from your manual{}).",
                format::temperature(condition.oil_target.value, system),
                format::degrees(limit, system),
                if installation.engine.limits_page.is_empty() { String::new() } else { tr!(", page {}", installation.engine.limits_page) },
            ) }</p>
            { part!(TableView { sheet }) }
            <ul class="warnings">
                { jammed_hot.filter(|_| fitted).map(|point| html! {
                    <li>{ tr!("Jammed shut, oil goes over limit at {} {} OAT and above. Rig the shutter to fail open.", shown(point.oat.value), unit.symbol) }</li>
                }) }
                <li>{ tr!("Never tape over the whole core: this card stops at {:.0} % of it.", 100.0 * MOST_TAPED) }</li>
                { congealing.map(|point| html! {
                    <li>{ tr!("At {} {} and below, oil may congeal in the cold core; then it overheats in freezing air, and this card no longer applies.", shown(point.oat.value), unit.symbol) }</li>
                }) }
                if installation.oil.thermostat {
                    <li>{ bypassing.map_or_else(
                        || tr("The thermostatic bypass is included; across this card most of the oil goes through the cooler.").to_owned(),
                        |point| tr!("The thermostatic bypass is included: at {} {} and below, more than half of the oil bypasses the cooler. It does not guarantee a minimum temperature.", shown(point.oat.value), unit.symbol),
                    ) }</li>
                }
                <li>{ tr("An estimate until flown: watch the gauge, not the card.") }</li>
            </ul>
        </div>
    }
}
