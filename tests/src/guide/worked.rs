//! The worked example's figures, by the names under which the guide and the README quote them.

use crate::guide::figure::Figure;
use crate::guide::jobs::jobs;
use coolpath_core::answer::band::bands;
use coolpath_core::answer::evaluate::{Answer, evaluate};
use coolpath_core::answer::model_error::{DROP_SHARE, HEAD_K, OIL_K};
use coolpath_core::answer::verdict::{DEFAULT_CHANCE, Judgement, Verdict, judge};
use coolpath_core::document::design::Design;
use coolpath_core::document::example;
use coolpath_core::document::installation::areas::{exit_m2, inlets_m2};
use coolpath_core::document::table;
use coolpath_core::units::typed::Dimension;
use coolpath_core::workshop::gauge::indicator_reading;
use std::collections::BTreeMap;
use std::sync::LazyLock;

/// Figures by name.
pub type Figures = BTreeMap<String, Figure>;

/// All figures of the worked example.
pub static FIGURES: LazyLock<Figures> = LazyLock::new(|| {
    let design = example::design();
    let mut figures = Figures::new();
    inputs(&mut figures, &design);
    defaults(&mut figures);
    conditions(&mut figures, "", &design);
    jobs(&mut figures, &design);
    figures
});

/// Short names of the example's conditions.
const CONDITIONS: [&str; 6] = [
    "ground",
    "climb",
    "cruise-climb",
    "cruise",
    "cold",
    "descent",
];
/// The take-off climb and the first cruise among them.
pub(super) const CLIMB: usize = 1;
pub(super) const CRUISE: usize = 3;

/// The verdict on a condition, as the page forms it: by the bands.
#[must_use]
pub fn judged(design: &Design, place: usize) -> (Answer, Judgement) {
    let answer = evaluate(design, place).expect("an answer");
    let bands = bands(design, place).expect("bands");
    let found = judge(
        &design.installation,
        &answer,
        Some(&bands),
        None,
        DEFAULT_CHANCE,
    );
    (answer, found)
}

/// The page's words for a verdict.
#[must_use]
pub fn words(verdict: Verdict) -> &'static str {
    match verdict {
        Verdict::Inside => "Inside limits",
        Verdict::TooCold => "Too cold",
        Verdict::TooClose => "Too close to call",
        Verdict::Over => "Too hot",
    }
}

pub(super) fn put(figures: &mut Figures, name: String, figure: Figure) {
    let before = figures.insert(name.clone(), figure);
    assert!(before.is_none(), "{name} stands twice");
}

fn inputs(figures: &mut Figures, design: &Design) {
    let installation = &design.installation;
    let (inlet, exit) = (&installation.inlets[0], &installation.exits[0]);
    for (name, si, dimension) in [
        (
            "power",
            installation.engine.rated_power.value,
            Dimension::Power,
        ),
        ("inlet-width", inlet.width.value, Dimension::Length),
        ("inlet-height", inlet.height.value, Dimension::Length),
        ("inlets", inlets_m2(installation), Dimension::Area),
        ("exit-width", exit.width.value, Dimension::Length),
        ("exit-gap", exit.gap.value, Dimension::Length),
        ("pipes", exit.pipes_area.value, Dimension::Area),
        ("exit", exit_m2(installation), Dimension::Area),
        (
            "hose",
            installation.cooler.duct_diameter.value,
            Dimension::Length,
        ),
        (
            "head-limit",
            installation.engine.head_limit.value,
            Dimension::Temperature,
        ),
        (
            "oil-limit",
            installation.engine.oil_limit.value,
            Dimension::Temperature,
        ),
        (
            "generic-head",
            installation.reference.head.value,
            Dimension::Temperature,
        ),
    ] {
        put(figures, format!("input.{name}"), Figure::of(si, dimension));
    }
    let target = design.conditions[CRUISE].oil_target.value;
    put(
        figures,
        "input.oil-target".to_owned(),
        Figure::of(target, Dimension::Temperature),
    );
    let ratio = exit_m2(installation) / inlets_m2(installation);
    put(figures, "input.area-ratio".to_owned(), Figure::plain(ratio));
    for (short, condition) in CONDITIONS.into_iter().zip(&design.conditions) {
        for (name, si, dimension) in [
            ("airspeed", condition.airspeed.value, Dimension::Speed),
            ("altitude", condition.altitude.value, Dimension::Altitude),
            ("power", condition.power_share, Dimension::Percent),
            ("rpm", condition.rpm, Dimension::RotationalSpeed),
        ] {
            put(
                figures,
                format!("input.{short}.{name}"),
                Figure::of(si, dimension),
            );
        }
    }
}

/// Every input's default and likely range, and the model's own error.
fn defaults(figures: &mut Figures) {
    for input in table::all() {
        let mut tell = |what: &str, si: f64| {
            put(
                figures,
                format!("{what}.{}", input.id),
                Figure::of(si, input.dimension),
            );
        };
        tell("default", input.default);
        if let Some((low, high)) = input.likely {
            tell("low", low);
            tell("high", high);
        }
    }
    let head = table::by_id("reference.head_k").and_then(|input| input.likely);
    let (low, high) = head.expect("a likely range");
    for (name, si, dimension) in [
        (
            "generic",
            0.5 * (high - low),
            Dimension::TemperatureDifference,
        ),
        ("head", HEAD_K, Dimension::TemperatureDifference),
        ("oil", OIL_K, Dimension::TemperatureDifference),
        ("dp", DROP_SHARE, Dimension::Percent),
    ] {
        put(figures, format!("model.{name}"), Figure::of(si, dimension));
    }
}

pub(super) fn conditions(figures: &mut Figures, prefix: &str, design: &Design) {
    for (place, short) in CONDITIONS.into_iter().enumerate() {
        let (answer, judgement) = judged(design, place);
        let mut tell = |name: &str, figure: Figure| {
            put(figures, format!("{prefix}{short}.{name}"), figure);
        };
        let temperature = |kelvin| Figure::rounded(kelvin, Dimension::Temperature);
        let difference = |kelvin| Figure::rounded(kelvin, Dimension::TemperatureDifference);
        tell("cht", temperature(answer.head_hottest.value));
        tell("mean-cht", temperature(answer.head_mean.value));
        tell("oil", temperature(answer.oil.value));
        tell("cht-over", difference(-answer.head_margin.value));
        tell("cht-under", difference(answer.head_margin.value));
        tell("oil-under", difference(answer.oil_margin.value));
        tell("state", Figure::Words(words(judgement.verdict).to_owned()));
        let chance = judgement.chance_inside.map_or(0.0, |chance| chance.share);
        tell("odds", Figure::odds(chance));
        tell(
            "oat",
            Figure::of(answer.outside_air.value, Dimension::Temperature),
        );
        tell(
            "dp",
            Figure::of(answer.baffle_drop.value, Dimension::Pressure),
        );
        tell(
            "upper",
            Figure::of(answer.upper_deck.value, Dimension::Pressure),
        );
        tell(
            "lower",
            Figure::of(answer.lower_deck.value, Dimension::Pressure),
        );
        let asi = indicator_reading(answer.baffle_drop.value);
        tell("dp-asi", Figure::of(asi, Dimension::Speed));
        tell(
            "ivr",
            Figure::plain(answer.inlet_velocity_ratio.unwrap_or(0.0)),
        );
        tell(
            "air",
            Figure::of(answer.inlet_flow.value, Dimension::MassFlow),
        );
        tell("drag", Figure::of(answer.drag.value, Dimension::Force));
        let cost = answer.speed_cost.map_or(0.0, |cost| cost.value);
        tell("speed-cost", Figure::of(cost, Dimension::Speed));
        if let Some(opening) = answer.shutter_opening {
            tell("shutter", Figure::of(opening, Dimension::Percent));
        }
        tell("ram", Figure::of(answer.ram.value, Dimension::Pressure));
    }
}
