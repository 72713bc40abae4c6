//! "Minute by minute": heads and oil over a flight through the conditions.

use crate::charts::canvas::Role;
use crate::charts::figure::Figure;
use crate::charts::lines::{LineChart, Series};
use crate::charts::view::FigureView;
use crate::charts::{Size, room};
use crate::decide::minutes::plan;
use crate::decide::minutes::plan::{Flight, Plan, SOAK, START};
use crate::design::fields::number_field::NumberField;
use crate::kit::format;
use crate::kit::page::use_page;
use crate::kit::panel_field::PanelField;
use crate::kit::unfolding::Unfolding;
use crate::part;
use crate::state::FieldKey;
use crate::state::panel_texts::{MINUTES, key};
use coolpath_core::answer::minutes;
use coolpath_core::answer::minutes::Moment;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use coolpath_core::units::typed::{Dimension, UnitSystem, rounded_text};
use yew::prelude::*;

/// Between two points of the chart, s.
const STEP_S: f64 = 30.0;

/// The panel; it computes only while it stands open.
#[function_component]
pub fn FlightPanel() -> Html {
    html! { <Unfolding id="flight" title={tr("Minute by minute")}>{ part!(Flown) }</Unfolding> }
}

/// A flight through the conditions: its fields and what comes of them.
#[function_component]
fn Flown() -> Html {
    let (design, usual, plan, system, width) = use_page(|page| {
        let usual = Plan::of(&page.design, &page.answers, page.system());
        let plan = usual.typed(&page.state);
        let design = page.design.clone();
        (design, usual, plan, page.system(), page.width)
    });
    let field = |of: FieldKey, label: String, usual: &str| {
        part!(PanelField {
            of,
            label,
            usual: usual.to_owned()
        })
    };
    let unit = Dimension::Temperature.shown(system).symbol;
    html! { <>
        <p class="hint">{ tr("Flies the conditions in order; one without minutes is skipped. Heads and oil lag behind their steady temperatures by time constants, which a log of one climb can calibrate.") }</p>
        <div class="fields">
            { for design.conditions.iter().zip(&usual.minutes).enumerate().map(|(at, (condition, usual))| field(
                FieldKey::new(MINUTES, at),
                tr!("{} (minutes)", condition.name),
                usual,
            )) }
            { field(key(START[0]), tr!("Head at the start ({})", unit), &usual.start[0]) }
            { field(key(START[1]), tr!("Oil at the start ({})", unit), &usual.start[1]) }
            { field(key(SOAK), tr("After shutdown (minutes)").to_owned(), &usual.soak) }
            { for LAGS.into_iter().map(|id| part!(NumberField { id })) }
        </div>
        { flown(&design, &plan, system, width) }
    </> }
}

/// The time constants.
const LAGS: [&str; 4] = [
    "lags.heads_s",
    "lags.oil_s",
    "lags.still_fins_share",
    "lags.still_oil_share",
];

fn flown(design: &Design, plan: &Plan, system: UnitSystem, width: u32) -> Html {
    let flight = match plan.flight(design, system) {
        Ok(flight) => flight,
        Err(fault) => return html! { <p class="fault" role="alert">{ fault }</p> },
    };
    let found = minutes::flight(design, &flight.legs, flight.start, STEP_S);
    match found {
        Err(error) => html! { <p class="fault" role="alert">{ error.to_string() }</p> },
        Ok(moments) if moments.is_empty() => {
            html! { <p class="hint">{ tr("Enter minutes for at least one condition.") }</p> }
        }
        Ok(moments) => html! {
            <>
                { soaked(design, &flight, &moments, system) }
                { for plan::sentences(design, &flight, &moments, system).into_iter().map(|said| html! { <p>{ said }</p> }) }
                { part!(FigureView { figure: figure(design, &flight, &moments, system, Size { width: room(width, 640), height: 280 }) }) }
            </>
        },
    }
}

/// What happens after shutdown at the end of the flight.
fn soaked(design: &Design, flight: &Flight, moments: &[Moment], system: UnitSystem) -> Html {
    let (Some(last), Some(leg)) = (moments.last(), flight.legs.last()) else {
        return Html::default();
    };
    if flight.soak_s <= 0.0 {
        return Html::default();
    }
    minutes::soak(design, leg.condition, last.warmth, flight.soak_s, 60.0)
        .ok()
        .and_then(|moments| plan::soak_sentence(&moments, system))
        .map(|said| html! { <p>{ said }</p> })
        .unwrap_or_default()
}

fn figure(
    design: &Design,
    flight: &Flight,
    moments: &[Moment],
    system: UnitSystem,
    size: Size,
) -> Figure {
    let unit = Dimension::Temperature.shown(system);
    let limits = design.installation.engine.limits_always();
    let minute = |moment: &Moment| moment.seconds / 60.0;
    let series = |name, role, of: fn(&Moment) -> f64| Series {
        name,
        role,
        points: moments
            .iter()
            .map(|moment| (minute(moment), unit.from_si(of(moment))))
            .collect(),
        band: Vec::new(),
    };
    let mut marks = Vec::new();
    for pair in moments.windows(2) {
        if pair[0].leg != pair[1].leg {
            marks.push((minute(&pair[1]), ""));
        }
    }
    let chart = LineChart {
        crosses: Vec::new(),
        shades: Vec::new(),
        label: tr("Head and oil over the flight").to_owned(),
        along: tr("minutes").to_owned(),
        up: unit.symbol.to_owned(),
        series: vec![
            series(tr("hottest head"), Role::First, |moment| {
                moment.warmth.head_k
            }),
            series(tr("oil"), Role::Third, |moment| moment.warmth.oil_k),
        ],
        limits: vec![
            (tr("CHT"), unit.from_si(limits.head.kelvin)),
            (tr("oil"), unit.from_si(limits.oil.kelvin)),
        ],
        marks,
    };
    let name = |moment: &Moment| {
        flight
            .legs
            .get(moment.leg)
            .and_then(|leg| design.conditions.get(leg.condition))
            .map_or_else(String::new, |condition| condition.name.clone())
    };
    // The first moment of the highest, since it may stay there.
    let peak = |of: fn(&Moment) -> f64| {
        moments
            .iter()
            .fold(None::<&Moment>, |best, moment| match best {
                Some(best) if of(best) >= of(moment) => Some(best),
                _ => Some(moment),
            })
            .map_or_else(String::new, |moment| {
                tr!(
                    "{} at minute {:.0}",
                    format::temperature(of(moment), system),
                    minute(moment)
                )
            })
    };
    Figure {
        title: tr!(
            "Heads peak at {}, oil at {}",
            peak(|moment| moment.warmth.head_k),
            peak(|moment| moment.warmth.oil_k)
        ),
        topic: tr("Head and oil over the flight").to_owned(),
        sentence: tr("Vertical lines: change of phase. Dashed lines: your limits.").to_owned(),
        svg: chart.svg(size),
        columns: vec![
            tr("Minute").to_owned(),
            tr("Condition").to_owned(),
            tr!("Hottest head, {}", unit.symbol),
            tr!("Oil, {}", unit.symbol),
        ],
        rows: moments
            .iter()
            .map(|moment| {
                vec![
                    rounded_text(minute(moment), 3),
                    name(moment),
                    format!("{:.0}", unit.from_si(moment.warmth.head_k)),
                    format!("{:.0}", unit.from_si(moment.warmth.oil_k)),
                ]
            })
            .collect(),
        source: tr(
            "First-order lag toward each condition's steady answer; an estimate until flown.",
        )
        .to_owned(),
        readout: chart.readout(size, moments.iter().map(minute).collect()),
    }
}
