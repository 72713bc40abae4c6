//! The shutter today: from the outside air on the ground to a notch for climb and cruise.

use crate::decide::card::words;
use crate::kit::format;
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::panel_field::on_typed;
use crate::kit::shared::Shared;
use crate::kit::shutter_words::at_stop;
use crate::kit::verdict;
use crate::state::panel_texts::key;
use crate::state::{Action, Range, panel_texts};
use coolpath_core::air::atmosphere::LAPSE_RATE;
use coolpath_core::answer::solved::ShutterState;
use coolpath_core::decide::shutter_card::{CardPoint, shutter_card, tape_card};
use coolpath_core::document::condition::{Condition, Phase};
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::path::butterfly;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// What today's shutter needs.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// Design.
    pub design: Shared<Design>,
    /// Units.
    pub system: UnitSystem,
    /// Notches of the lever, strips of tape over the core.
    pub counts: (u32, u32),
}

/// Density altitude over pressure altitude for each kelvin above standard, m: the usual 120 ft per
/// °C (common practice).
const DENSITY_M_PER_K: f64 = 36.6;
/// Outside air before anything is typed: standard at sea level, K.
const USUAL_K: f64 = 288.15;
/// Air that the card covers, K.
const RANGE_K: (f64, f64) = (233.15, 323.15);
/// The outside air that is typed.
const GROUND_AIR: Range<'static> = Range {
    label: tr_later("OAT on the ground"),
    ends: RANGE_K,
    dimension: Dimension::Temperature,
};

/// Altitude of the ground: that of the lowest condition, m.
fn ground_m(design: &Design) -> f64 {
    design
        .conditions
        .iter()
        .map(|condition| condition.altitude.value)
        .fold(f64::INFINITY, f64::min)
        .min(1e4)
}

/// Outside air of a condition when it is so warm on the ground, K.
fn air_at(ground_k: f64, condition: &Condition, ground_m: f64) -> f64 {
    ground_k - LAPSE_RATE * (condition.altitude.value - ground_m)
}

/// Density altitude on the ground, m.
fn density_altitude_m(ground_k: f64, ground_m: f64) -> f64 {
    let standard_k = USUAL_K - LAPSE_RATE * ground_m;
    ground_m + DENSITY_M_PER_K * (ground_k - standard_k)
}

/// The first climb and the first level condition, as a pilot calls them.
fn flown(design: &Design) -> Vec<(&'static str, &Condition)> {
    let first = |phase: Phase| design.conditions.iter().find(|one| one.phase == phase);
    [
        first(Phase::Climb).map(|one| (tr("in the climb"), one)),
        first(Phase::Cruise).map(|one| (tr("in cruise"), one)),
    ]
    .into_iter()
    .flatten()
    .collect()
}

fn point(design: &Design, condition: &Condition, oat_k: f64) -> Option<CardPoint> {
    shutter_card(design, condition, &[oat_k])
        .into_iter()
        .next()?
        .ok()
}

/// Where the lever stands, in words.
fn setting(point: &CardPoint, notches: u32) -> String {
    match point.state {
        ShutterState::OpenTooHot { .. } => tr("fully open").to_owned(),
        ShutterState::ClosedTooCold { .. } => tr("closed").to_owned(),
        _ => tr!(
            "notch {} of {}",
            words::notch(point.opening, notches),
            notches
        ),
    }
}

/// Text of the outside air.
const OAT: &str = "card-oat";

/// Today's shutter.
#[function_component]
pub fn Today(props: &Props) -> Html {
    let Props {
        design,
        system,
        counts,
    } = props;
    let system = *system;
    let typed = use_page(|page| panel_texts::typed(&page.state, &key(OAT)));
    let dispatch = use_dispatch();
    let unit = Dimension::Temperature.shown(system);
    let whole = |kelvin: f64| format::whole_degrees(kelvin, system);
    let read = typed
        .as_ref()
        .map_or(Ok(USUAL_K), |text| GROUND_AIR.value(text, system));
    // While a text is no temperature the steps go on from the one before; no setting is told.
    let last = use_mut_ref(|| USUAL_K);
    if let Ok(kelvin) = read {
        *last.borrow_mut() = kelvin;
    }
    let kelvin = *last.borrow();
    let fault = read.err();
    let is_fault = fault.is_some();
    let text = typed.unwrap_or_else(|| whole(kelvin));
    let step = |steps: f64| {
        let shown = (unit.from_si(kelvin) / 5.0).round() * 5.0 + 5.0 * steps;
        let text = whole(unit.to_si(shown).clamp(RANGE_K.0, RANGE_K.1));
        let key = key(OAT);
        dispatch.reform(move |_: MouseEvent| Action::Type {
            key: key.clone(),
            text: text.clone(),
        })
    };
    let on_input = on_typed(&dispatch, key(OAT));
    let ground = ground_m(design);
    let list: Vec<(&str, &Condition, f64, Option<CardPoint>)> = flown(design)
        .into_iter()
        .map(|(when, condition)| {
            let oat = air_at(kelvin, condition, ground);
            (when, condition, oat, point(design, condition, oat))
        })
        .collect();
    let fitted = design.installation.shutter.fitted;
    html! { <>
        <p class="ask">{ tr("Shutter today") }</p>
        <div aria-live="polite"><h2 class="answer">{ if is_fault {
            tr("Enter the OAT for today’s setting").to_owned()
        } else {
            title(&list, fitted, counts.0)
        } }</h2></div>
        <p class="answer-more">{ tr!(
            "Density altitude on the ground about {}. Air aloft is taken as {} colder per 1,000 ft. Watch the gauge, not the card.",
            format::quantity(density_altitude_m(kelvin, ground), Dimension::Altitude, system, 2),
            format::quantity(LAPSE_RATE * 304.8, Dimension::TemperatureDifference, system, 2),
        ) }</p>
        <div class="job-columns">
            <div>
                <div class={classes!("shutter-oat", "field", fault.is_some().then_some("field-fault"))}>
                    <label for="card-oat">{ tr("OAT on the ground") }<span class="unit">{ format!(" ({})", unit.symbol) }</span></label>
                    <span class="stepper">
                        <button type="button" aria-label={tr("Five degrees colder")} onclick={step(-1.0)}>{ "−" }</button>
                        <input id="card-oat" type="text" autocomplete="off" value={text} oninput={on_input} aria-describedby="card-oat-fault" />
                        <button type="button" aria-label={tr("Five degrees warmer")} onclick={step(1.0)}>{ "+" }</button>
                    </span>
                    <p class="fault" id="card-oat-fault">{ fault.unwrap_or_default() }</p>
                </div>
                { for alerts(design, if is_fault { &[] } else { &list }, system).into_iter().map(|(state, text)| html! {
                    <p class={classes!("alert", state.class())}>{ verdict::mark(state, 17) }{ " " }{ text }</p>
                }) }
            </div>
            <div class="today">
                { for list.iter().filter(|_| !is_fault).map(|(when, condition, oat, point)| one(design, when, condition, *oat, point.as_ref(), *counts, system)) }
            </div>
        </div>
    </> }
}

fn title(
    list: &[(&str, &Condition, f64, Option<CardPoint>)],
    fitted: bool,
    notches: u32,
) -> String {
    if !fitted {
        return tr("No shutter is fitted: tape instead").to_owned();
    }
    let parts: Vec<String> = list
        .iter()
        .filter_map(|(when, .., point)| {
            Some(format!("{} {when}", setting(point.as_ref()?, notches)))
        })
        .collect();
    if parts.is_empty() {
        return tr("No climb or level condition has an answer").to_owned();
    }
    format::capital(&parts.join(", "))
}

/// What a jam would do today, and thick oil.
fn alerts(
    design: &Design,
    list: &[(&str, &Condition, f64, Option<CardPoint>)],
    system: UnitSystem,
) -> Vec<(verdict::State, String)> {
    let limit = design.installation.engine.oil_limit.value;
    let fitted = design.installation.shutter.fitted;
    let mut found = Vec::new();
    for (when, _, _, point) in list {
        let Some(point) = point else { continue };
        let jammed = point.oil_jammed_shut.value;
        if fitted && jammed > limit {
            found.push((
                verdict::State::Over,
                tr!(
                    "Jammed shut {}, oil reaches {}, limit {}. Rig it to fail open.",
                    when,
                    format::temperature(jammed, system),
                    format::degrees(limit, system)
                ),
            ));
        }
        if point.oil.value > limit {
            found.push((
                verdict::State::Over,
                tr!(
                    "Oil reaches {} {}, limit {}: the shutter cannot hold it.",
                    format::temperature(point.oil.value, system),
                    when,
                    format::degrees(limit, system)
                ),
            ));
        }
        if point.congealing.is_some() {
            found.push((
                verdict::State::TooClose,
                tr!(
                    "Oil in the cold core may congeal {}: then it overheats in freezing air, and this setting no longer applies.",
                    when
                ),
            ));
        }
    }
    found
}

fn one(
    design: &Design,
    when: &str,
    condition: &Condition,
    oat_k: f64,
    point: Option<&CardPoint>,
    (notches, strips): (u32, u32),
    system: UnitSystem,
) -> Html {
    let fitted = design.installation.shutter.fitted;
    let Some(point) = point else {
        return html! { <div class="notch"><p>{ condition.name.clone() }</p><p>{ tr("No answer here.") }</p></div> };
    };
    let installation = &design.installation;
    let found = tape_card(installation, condition, &[oat_k]).pop();
    let found = found.and_then(Result::ok);
    let taped_k =
        found.and_then(|tape| words::oil_under_k(installation, condition, oat_k, tape, strips));
    let tape = found.map_or_else(
        || format::NONE.to_owned(),
        |tape| words::strips(tape, strips),
    );
    let set = if fitted {
        setting(point, notches)
    } else {
        tr!("tape: {}", tape)
    };
    html! {
        <div class="notch">
            <p>{ tr!("{}, {} outside", condition.name, format::degrees(oat_k, system)) }</p>
            <h3>{ set }</h3>
            if fitted { { quadrant(point.opening, notches, when) } }
            if fitted {
                <p>{ at_stop(point.state, system).unwrap_or_else(|| tr!(
                    "{} oil needs {:.0} % open; notch {} is {:.0} %",
                    format::temperature(point.oil.value, system),
                    100.0 * point.opening,
                    words::notch(point.opening, notches),
                    100.0 * words::notch_opening(point.opening, notches)
                )) }</p>
            } else if let Some(taped_k) = taped_k {
                <p>{ tr!("Oil {} under it; wanted {}", format::temperature(taped_k, system), format::degrees(condition.oil_target.value, system)) }</p>
            }
            if fitted { <p class="hint">{ tr!("Tape instead: {}.", tape) }</p> }
        </div>
    }
}

/// The lever on its quadrant, 0 shut at the left, and the disc in its duct.
fn quadrant(opening: f64, notches: u32, when: &str) -> Html {
    let notch = words::notch(opening, notches);
    let angle = |at: f64| std::f64::consts::PI * (1.0 - at);
    let polar = |at: f64, r: f64| (70.0 + r * angle(at).cos(), 82.0 - r * angle(at).sin());
    let share = |notch: u32| f64::from(notch) / f64::from(notches.max(1));
    let (x, y) = polar(share(notch), 46.0);
    let labelled = |at: u32| notches <= 8 || at.is_multiple_of(5) || at == notches;
    // The disc as the lever sets it: its angle from open, by the law that the model itself uses.
    let tilt = butterfly::angle_from_open(words::notch_opening(opening, notches));
    html! {
        <svg class="quadrant" viewBox="0 0 260 96" role="img" aria-label={tr!("Lever at notch {} of {} {}", notch, notches, when)}>
            <path d="M16 82A54 54 0 0 1 124 82" />
            { for (0..=notches).map(|at| {
                let ((x1, y1), (x2, y2), (tx, ty)) = (polar(share(at), 54.0), polar(share(at), 49.0), polar(share(at), 65.0));
                html! { <>
                    <line x1={format!("{x1:.1}")} y1={format!("{y1:.1}")} x2={format!("{x2:.1}")} y2={format!("{y2:.1}")} />
                    if labelled(at) { <text x={format!("{tx:.1}")} y={format!("{:.1}", ty + 5.0)}>{ at }</text> }
                </> }
            }) }
            <line class="lever" x1="70" y1="82" x2={format!("{x:.1}")} y2={format!("{y:.1}")} />
            <circle class="knob" cx={format!("{x:.1}")} cy={format!("{y:.1}")} r="6" />
            <path d="M160 28H250M160 82H250" />
            <line class="disc" x1="180" y1="55" x2="230" y2="55" transform={format!("rotate({tilt:.1} 205 55)")} />
        </svg>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;

    #[test]
    fn the_range_of_the_outside_air_is_told_in_the_units_that_are_shown() {
        assert_eq!(
            GROUND_AIR.must(UnitSystem::Metric),
            "OAT on the ground must be between −40 and 50 °C"
        );
        assert_eq!(
            GROUND_AIR.must(UnitSystem::Customary),
            "OAT on the ground must be between −40 and 122 °F"
        );
    }

    #[test]
    fn air_aloft_is_colder_and_the_lowest_condition_is_the_ground() {
        let design = example::design();
        let ground = ground_m(&design);
        assert!(
            design
                .conditions
                .iter()
                .all(|one| one.altitude.value >= ground)
        );
        let high = &design.conditions[3];
        let aloft = air_at(USUAL_K, high, ground);
        assert!((USUAL_K - aloft - 0.0065 * (high.altitude.value - ground)).abs() < 1e-9);
        assert!(density_altitude_m(USUAL_K + 20.0, 0.0) > 700.0);
    }

    #[test]
    fn a_cold_day_closes_the_shutter_more_and_both_phases_are_told() {
        let design = example::design();
        let ground = ground_m(&design);
        let list = |kelvin: f64| {
            flown(&design)
                .into_iter()
                .map(|(when, condition)| {
                    let oat = air_at(kelvin, condition, ground);
                    (when, condition, oat, point(&design, condition, oat))
                })
                .collect::<Vec<_>>()
        };
        let (cold, warm) = (list(263.0), list(288.0));
        assert_eq!(cold.len(), 2);
        for (a, b) in cold.iter().zip(&warm) {
            let opening = |found: &Option<CardPoint>| found.as_ref().expect("a point").opening;
            assert!(opening(&a.3) <= opening(&b.3));
        }
        let said = title(&cold, true, 6);
        assert!(
            said.contains("in the climb, ") && said.ends_with("in cruise"),
            "{said}"
        );
        assert_eq!(title(&cold, false, 6), "No shutter is fitted: tape instead");
    }
}
