//! A session of a log: its trace, what was set aside, and the stretches that can become readings.

use crate::charts::save::Save;
use crate::charts::view::FigureView;
use crate::charts::{Size, room, trace};
use crate::fly::log::aside::set_aside;
use crate::fly::log::job::Opened;
use crate::fly::sick::alert;
use crate::kit::format;
use crate::kit::page::use_page;
use crate::kit::panel_field::PanelField;
use crate::kit::shared::Shared;
use crate::kit::table_text::TableText;
use crate::part;
use crate::state::panel_texts::{key, typed_or};
use coolpath_core::document::design::Design;
use coolpath_core::document::quantity::Quantity;
use coolpath_core::document::reading::{Reading, Sick};
use coolpath_core::language::{tr, tr_later};
use coolpath_core::prove::flights::sick_in;
use coolpath_core::prove::log::{Channel, Kind, Session, Stretch, whole_flight};
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use yew::prelude::*;

/// What a session's view needs.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The log.
    pub opened: Shared<Opened>,
    /// Session that is shown.
    pub session: usize,
    /// Units.
    pub system: UnitSystem,
    /// Room for the chart, CSS pixels.
    pub width: u32,
    /// Leaves a quantity's column out.
    pub on_leave: Callback<Quantity>,
    /// Takes readings over.
    pub on_add: Callback<Vec<Reading>>,
}

/// A session.
#[function_component]
pub fn SessionView(props: &Props) -> Html {
    let design = use_page(|page| page.design.clone());
    let ends = use_page(|page| ["log-from", "log-to"].map(|id| typed_or(&page.state, id, "")));
    let judged = {
        let of = (props.opened.clone(), props.session, design.clone());
        use_memo(of, |(opened, at, design)| judged(opened, *at, design))
    };
    let (Some(session), Some(stretches)) = (
        props.opened.sessions.get(props.session),
        props.opened.stretches.get(props.session),
    ) else {
        return Html::default();
    };
    let (readings, sick) = &*judged;
    let add = |list: Vec<Stretch>| {
        let (opened, at, on_add) = (props.opened.clone(), props.session, props.on_add.clone());
        let design = design.clone();
        Callback::from(move |_: MouseEvent| {
            let (Some(session), Some(all)) = (opened.sessions.get(at), opened.stretches.get(at))
            else {
                return;
            };
            // Judged beside all of the flight, which tells a nozzle.
            let of = |stretch: &Stretch| {
                let found = reading(&opened, at, session, stretch);
                told_apart(found, &design)
            };
            // One that the flight has already must not count twice.
            let others = all.iter().filter(|other| !list.contains(other));
            let mut readings: Vec<Reading> = list.iter().chain(others).map(of).collect();
            let sick = sick_in(&design, &readings);
            readings.truncate(list.len());
            for (reading, sick) in readings.iter_mut().zip(sick) {
                reading.sick = sick;
            }
            on_add.emit(readings);
        })
    };
    let steady: Vec<Stretch> = stretches
        .iter()
        .copied()
        .filter(|stretch| stretch.kind == Kind::Steady)
        .collect();
    let size = Size {
        width: room(props.width, 640),
        height: 260,
    };
    let engine = &design.installation.engine;
    html! {
        <>
            { alert(sick, readings, props.system) }
            { set_aside(session, props.system, &props.on_leave) }
            { part!(FigureView { figure: trace::figure(session, stretches, engine, props.system, size) }) }
            { whole(&props.opened, props.session, session, &design, &add) }
            if stretches.is_empty() {
                <p class="hint">{ tr("No steady window, climb or descent was found: choose a stretch below.") }</p>
            } else {
                <p class="hint">{ tr("Or take stretches one by one. A steady stretch is read at its calmest two minutes, a climb, descent or ground run all along.") }</p>
                { part!(Save { sheet: sheet(session, stretches, props.system) }) }
                <div class="scroll" tabindex="0" role="region" aria-label={tr("Stretches of the log")}>
                    <table>
                        <thead><tr>
                            <th scope="col">{ tr(COLUMNS[0]) }</th>
                            <th scope="col"><span class="visually-hidden">{ tr("Add") }</span></th>
                            { for COLUMNS[1..].iter().map(|name| html! { <th scope="col">{ tr(name) }</th> }) }
                        </tr></thead>
                        <tbody>{ for stretches.iter().map(|stretch| html! {
                            <tr>
                                <th scope="row">{ stretch.label() }</th>
                                <td><button type="button" class="quiet" aria-label={tr!("Add {}", stretch.label())} onclick={add(vec![*stretch])}>{ tr("Add") }</button></td>
                                <td>{ drift(session, stretch, props.system) }</td>
                                { for means(session, stretch, props.system).into_iter().map(|text| html! { <td>{ text }</td> }) }
                            </tr>
                        }) }</tbody>
                    </table>
                </div>
                if steady.len() > 1 {
                    <div class="buttons"><button type="button" onclick={add(steady.clone())}>{ tr!("Add all {} steady stretches", steady.len()) }</button></div>
                }
            }
            { chosen(session, &ends, &add) }
        </>
    }
}

/// The whole flight and its stretches, and which cylinder of each is sick: the whole, which knows since
/// when, comes first.
fn judged(opened: &Opened, at: usize, design: &Design) -> (Vec<Reading>, Vec<Option<Sick>>) {
    let (Some(session), Some(stretches)) = (opened.sessions.get(at), opened.stretches.get(at))
    else {
        return (Vec::new(), Vec::new());
    };
    let flight = whole_flight(session).into_iter();
    let all = flight.chain(stretches.iter().copied());
    let readings: Vec<Reading> = all
        .map(|stretch| reading(opened, at, session, &stretch))
        .collect();
    let sick = sick_in(design, &readings);
    (readings, sick)
}

/// What takes all of the flight at once.
fn whole(
    opened: &Opened,
    at: usize,
    session: &Session,
    design: &Design,
    add: &dyn Fn(Vec<Stretch>) -> Callback<MouseEvent>,
) -> Html {
    let Some(flight) = whole_flight(session) else {
        return Html::default();
    };
    let log = log_name(opened, at);
    let taken = |reading: &Reading| reading.whole && reading.log == log;
    if design.readings.iter().any(taken) {
        return html! { <p class="hint" id="log-whole">{ tr("The whole flight is among the readings; stretches of it that are marked “fit” count in it.") }</p> };
    }
    let minutes = rounded_text((flight.to_s - flight.from_s) / 60.0, 2);
    html! {
        <div id="log-whole">
            <div class="buttons"><button type="button" onclick={add(vec![flight])}>{ tr!("Use the whole flight ({} min)", minutes) }</button></div>
            <p class="hint">{ tr("Every moment from lift-off to touchdown counts, steady or not: heads and oil are followed with their time constants. Moments close together agree for the same reasons and count for less.") }</p>
        </div>
    }
}

/// Heads of the table's columns.
const COLUMNS: [&str; 5] = [
    tr_later("Stretch"),
    tr_later("Fastest change"),
    tr_later("Altitude, mean"),
    tr_later("Airspeed, mean"),
    tr_later("Hottest head, mean"),
];

/// The stretches as a table that leaves the page.
fn sheet(session: &Session, stretches: &[Stretch], system: UnitSystem) -> TableText {
    let rows = stretches.iter().map(|stretch| {
        let begin = vec![stretch.label(), drift(session, stretch, system)];
        [begin, means(session, stretch, system).to_vec()].concat()
    });
    TableText::new(tr("Stretches of the log"), &COLUMNS.map(tr), rows.collect())
}

/// A stretch as a reading of its log.
fn reading(opened: &Opened, at: usize, session: &Session, stretch: &Stretch) -> Reading {
    Reading {
        log: log_name(opened, at),
        ..stretch.reading(session, &stretch.label())
    }
}

/// A reading whose name tells it from those of other logs.
fn told_apart(reading: Reading, design: &Design) -> Reading {
    let is_taken = |other: &Reading| other.name == reading.name && other.log != reading.log;
    if !design.readings.iter().any(is_taken) {
        return reading;
    }
    let stem = reading
        .log
        .rsplit_once('.')
        .map_or(reading.log.as_str(), |(stem, _)| stem);
    Reading {
        name: format!("{}, {stem}", reading.name),
        ..reading
    }
}

/// The name by which readings know their log, with the session where it has several.
fn log_name(opened: &Opened, session: usize) -> String {
    let name = &opened.picked.name;
    if opened.sessions.len() > 1 {
        format!("{name}, session {}", session + 1)
    } else {
        name.clone()
    }
}

fn drift(session: &Session, stretch: &Stretch, system: UnitSystem) -> String {
    let unit = Dimension::TemperatureDifference.shown(system);
    let rate = rounded_text(unit.from_si(60.0 * stretch.drift_k_s), 2);
    if session.channel(Quantity::Oil).is_some() && !stretch.notes_oil(session) {
        return tr!(
            "{} {} a minute; the oil had not settled and is left out",
            rate,
            unit.symbol
        );
    }
    tr!("{} {} a minute", rate, unit.symbol)
}

fn means(session: &Session, stretch: &Stretch, system: UnitSystem) -> [String; 3] {
    let rows = session.rows_between(stretch.read_s.0, stretch.read_s.1);
    let of = |channel: Option<&Channel>, dimension, digits| {
        channel
            .and_then(|channel| session.mean(channel, rows.clone()))
            .map_or_else(
                || "–".to_owned(),
                |si| format::quantity(si, dimension, system, digits),
            )
    };
    let hottest = session
        .channels
        .iter()
        .filter(|channel| channel.quantity.is_head())
        .filter_map(|channel| session.mean(channel, rows.clone()))
        .reduce(f64::max);
    [
        of(session.channel(Quantity::Altitude), Dimension::Altitude, 3),
        of(session.channel(Quantity::Airspeed), Dimension::Speed, 3),
        hottest.map_or_else(
            || "–".to_owned(),
            |kelvin| format::temperature(kelvin, system),
        ),
    ]
}

/// A stretch between two minutes of the builder's choice.
fn chosen(
    session: &Session,
    ends: &[String; 2],
    add: &dyn Fn(Vec<Stretch>) -> Callback<MouseEvent>,
) -> Html {
    let minute = |at: usize| {
        coolpath_core::units::typed::bare_number(&ends[at])
            .map(|minutes| 60.0 * minutes)
            .filter(|seconds| (0.0..=session.duration_s() + 1.0).contains(seconds))
    };
    let found = match (minute(0), minute(1)) {
        (Some(from_s), Some(to_s)) if to_s - from_s >= 30.0 => Some(Stretch::chosen(from_s, to_s)),
        _ => None,
    };
    html! {
        <>
            <div class="fields">
                { part!(PanelField { of: key("log-from"), label: tr("Stretch from minute") }) }
                { part!(PanelField { of: key("log-to"), label: tr("to minute") }) }
            </div>
            <div class="buttons"><button type="button" disabled={found.is_none()} onclick={add(found.into_iter().collect())}>{ tr("Add this stretch") }</button></div>
            if found.is_none() && ends.iter().all(|end| !end.is_empty()) {
                <p class="hint">{ tr!("From 0 to {} minutes, at least half a minute long.", rounded_text(session.duration_s() / 60.0, 3)) }</p>
            }
        </>
    }
}
