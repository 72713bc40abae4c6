//! "Hot day": readings corrected to another day, by the rule and by the model, side by side.

use crate::browser::job::use_job;
use crate::charts::table::TableView;
use crate::kit::controls::on_option;
use crate::kit::format;
use crate::kit::page::use_page;
use crate::kit::panel_field::PanelField;
use crate::kit::shared::Shared;
use crate::kit::table_text::TableText;
use crate::part;
use crate::state::Range;
use crate::state::panel_texts::{key, typed_or};
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use coolpath_core::prove::calibrate::Scatter;
use coolpath_core::prove::hot_day::{BothWays, Corrected, Day, RULE_BARREL, by_rule, corrected};
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Chosen, Dimension, UnitSystem};
use yew::prelude::*;

type Rows = Vec<(String, Result<Corrected, String>)>;

/// The panel.
#[function_component]
pub fn HotDayPanel() -> Html {
    let (design, system) = use_page(|page| (page.design.clone(), page.system()));
    let day = use_state(|| "hot".to_owned());
    let [sea_level, barrel] =
        use_page(|page| ["sea-level", "barrel"].map(|id| typed_or(&page.state, id, "")));
    let job = use_job::<(), (Rows, Shared<Design>)>();
    let chosen = day_of(&day, &sea_level, system);
    let start = {
        let (job, design, chosen) = (job.clone(), design.clone(), chosen.clone());
        Callback::from(move |_: MouseEvent| {
            let (design, chosen) = (design.clone(), chosen.clone());
            job.start(|run| async move {
                let day = chosen?;
                let mut found: Rows = Vec::new();
                for reading in design.readings.iter().filter(|reading| !reading.left_out) {
                    run.rest().await?;
                    let one = corrected(&design, reading, day, &Scatter::default())
                        .map_err(|error| error.to_string());
                    found.push((reading.name.clone(), one));
                }
                Ok((found, design))
            });
        })
    };
    let on_day = {
        let (day, job) = (day.clone(), job.clone());
        on_option(move |option| {
            day.set(option);
            job.clear();
        })
    };
    {
        // What was corrected was for what stood there before.
        let job = job.clone();
        use_effect_with((sea_level.clone(), barrel.clone()), move |_| job.clear());
    }
    let unit = Dimension::Temperature.shown(system);
    let days = [
        ("hot", tr("100 °F at sea level, less 3.6 °F per 1000 ft")),
        ("metric", tr("38 °C at sea level, less 6.5 °C per km")),
        ("other", tr("Another temperature at sea level")),
    ];
    html! {
        <details class="section" id="hot-day">
            <summary>{ tr("Readings corrected to a hot day") }</summary>
            <p class="hint">{ tr("The certification rule adds one degree for each degree by which the day is hotter, at the first occurrence of the highest head. The model says what the heads would really gain: same power, mixture and airspeed in hotter, thinner air.") }</p>
            if design.readings.is_empty() {
                <p>{ tr("There are no readings yet: type some, or add stretches of a log.") }</p>
            } else {
                <div class="fields">
                    <div class="field">
                        <label for="day">{ tr("The day") }</label>
                        <select id="day" onchange={on_day}>
                            { for days.into_iter().map(|(value, phrase)| html! { <option {value} selected={value == *day}>{ phrase }</option> }) }
                        </select>
                    </div>
                    if *day == "other" {
                        { part!(PanelField { of: key("sea-level"), label: tr!("Air at sea level ({})", unit.symbol) }) }
                    }
                    { part!(PanelField { of: key("barrel"), label: tr!("A cylinder barrel, if you measured one ({})", unit.symbol) }) }
                </div>
                if let (Err(fault), false) = (&chosen, sea_level.is_empty()) {
                    <p class="fault" role="alert">{ fault }</p>
                }
                <div class="buttons"><button type="button" onclick={start} disabled={chosen.is_err()}>{ tr("Correct the readings") }</button></div>
            }
            <div aria-live="polite">
                if let Some((found, of)) = job.done() {
                    if **of != *design { <p class="stale">{ tr("The design or its readings have changed since. Correct them again.") }</p> }
                    { table(found, system) }
                    { barrels(found, &barrel, system) }
                    { for found.iter().filter_map(|(name, one)| one.as_ref().err().map(|error| html! { <p class="question">{ tr!("“{}” cannot be corrected: {}", name, error) }</p> })) }
                }
            </div>
        </details>
    }
}

/// Air at sea level on another day.
const SEA_LEVEL: Range<'static> = Range {
    label: tr_later("Air at sea level"),
    ends: (220.0, 335.0),
    dimension: Dimension::Temperature,
};

fn day_of(day: &str, sea_level: &str, system: UnitSystem) -> Result<Day, String> {
    match day {
        "metric" => Ok(Day::HotMetric),
        "other" => SEA_LEVEL.value(sea_level, system).map(Day::SeaLevel),
        _ => Ok(Day::Hot),
    }
}

fn table(found: &Rows, system: UnitSystem) -> Html {
    let good = || {
        found
            .iter()
            .filter_map(|(name, one)| one.as_ref().ok().map(|one| (name, one)))
    };
    let rows = good()
        .flat_map(|(name, one)| {
            let heads = one.heads.iter();
            let heads = heads.map(|(number, both)| (tr!("head {}", number), Some(*both)));
            [(tr("hottest head").to_owned(), one.head)]
                .into_iter()
                .chain(heads)
                .chain([(tr("oil").to_owned(), one.oil)])
                .filter_map(move |(what, both)| Some(row(name, one, &what, &both?, system)))
        })
        .collect();
    let columns = [
        tr("Reading"),
        tr("OAT as flown → hot day"),
        tr("What"),
        tr("Read"),
        tr("By the rule"),
        tr("By the model"),
        tr("Your limits"),
    ];
    html! {
        <>
            { part!(TableView { sheet: TableText::new(tr("Corrected readings"), &columns, rows) }) }
            { why(&good().map(|(_, one)| one).collect::<Vec<_>>(), system).map(|said| html! { <p class="hint">{ said }</p> }).unwrap_or_default() }
        </>
    }
}

fn row(
    name: &str,
    one: &Corrected,
    what: &str,
    both: &BothWays,
    system: UnitSystem,
) -> Vec<String> {
    let degrees = |kelvin: f64| format::degrees(kelvin, system);
    let difference = Dimension::TemperatureDifference.shown(system);
    vec![
        name.to_owned(),
        format!("{} → {}", degrees(one.air), degrees(one.day)),
        what.to_owned(),
        degrees(both.reading),
        format!("{}, {}", degrees(both.rule), judged(both.rule, 0.0, both)),
        format!(
            "{} (−{:.0} +{:.0}), {}",
            degrees(both.model),
            difference.from_si(both.band.below),
            difference.from_si(both.band.above),
            judged(both.model, both.band.above, both)
        ),
        limits(both, system),
    ]
}

/// How a corrected temperature, which may lie so much higher, stands against the typed limits, the manual's first.
fn judged(kelvin: f64, above_k: f64, both: &BothWays) -> String {
    if kelvin > both.limit {
        return tr("over limit").to_owned();
    }
    match both.second {
        Some(second) if kelvin > second.kelvin => tr!("over your {}", second.kind.words()),
        _ if kelvin + above_k > both.limit => tr("may pass the limit").to_owned(),
        _ => tr("within limit").to_owned(),
    }
}

/// The typed limits of a quantity.
fn limits(both: &BothWays, system: UnitSystem) -> String {
    let redline = format::degrees(both.limit, system);
    both.second.map_or_else(
        || redline.clone(),
        |second| {
            let own = format::degrees(second.kelvin, system);
            format!("{redline}; {} {own}", second.kind.words())
        },
    )
}

/// Degrees per degree of air by the model, least and most, over the readings.
fn slopes(found: &[&Corrected], of: impl Fn(&Corrected) -> Option<BothWays>) -> Option<(f64, f64)> {
    let slopes: Vec<f64> = found
        .iter()
        .filter(|one| (one.day - one.air).abs() > 1.0)
        .filter_map(|one| Some(of(one)?.slope(one.day - one.air)))
        .collect();
    let least = slopes.iter().copied().reduce(f64::min)?;
    Some((least, slopes.into_iter().reduce(f64::max)?))
}

fn range((least, most): (f64, f64)) -> String {
    if most - least < 0.005 {
        format!("{least:.2}")
    } else {
        tr!("{:.2} to {:.2}", least, most)
    }
}

/// Why rule and model differ.
fn why(found: &[&Corrected], system: UnitSystem) -> Option<String> {
    let heads = slopes(found, |one| one.head)?;
    let (least, most) = heads;
    let gas = if system.is_customary(Chosen::Temperature) {
        "1100 °F"
    } else {
        "600 °C"
    };
    let verdict = if least > 1.05 {
        tr("Here the second outweighs the first, so that the rule promises too little.")
    } else if most < 0.95 {
        tr("Here the first outweighs the second, so that the rule is on the hot side.")
    } else if most - least < 0.1 {
        tr("Here they nearly balance.")
    } else {
        tr(
            "In some of these readings the first outweighs the second, in others the second the first.",
        )
    };
    let oil = slopes(found, |one| one.oil).map_or_else(String::new, |oil| {
        tr!(
            " Oil gains {} by the model: its cooler takes the air as it is, but a thermostatic valve or a \
             shutter gives part of it back, and oil is heated by heads and friction, which the day hardly moves.",
            range(oil)
        )
    });
    Some(tr!(
        "Why they differ: by the rule heads gain one degree per degree of air, by the model {}. Heads \
         stand between the air and gas of some {}, so they follow the air only in part; but at the same \
         indicated airspeed hotter air is thinner, less of it passes the fins, and the charge is hotter \
         too. {}{}",
        range(heads),
        gas,
        verdict,
        oil
    ))
}

fn barrels(found: &Rows, text: &str, system: UnitSystem) -> Html {
    if text.trim().is_empty() {
        return Html::default();
    }
    let one = found.iter().find_map(|(_, one)| one.as_ref().ok());
    match (one, typed::parse(text, Dimension::Temperature, system)) {
        (Some(one), Ok(kelvin)) => html! {
            <p>{ tr!("A barrel at {} when the first reading was taken is {} by the rule, which adds 0.7 degrees per degree to barrels. The model has no barrels.",
                format::degrees(kelvin, system),
                format::degrees(by_rule(kelvin, RULE_BARREL, one.air, one.day), system)) }</p>
        },
        _ => {
            html! { <p class="fault" role="alert">{ tr("The barrel's temperature must be a number.") }</p> }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::answer::band::Band;
    use coolpath_core::document::limits::{Held, LimitKind};
    use coolpath_core::units::si::degf;

    fn head(model_f: f64) -> BothWays {
        BothWays {
            reading: degf(400.0),
            rule: degf(430.0),
            model: degf(model_f),
            band: Band::default(),
            limit: degf(435.0),
            second: Some(Held {
                kelvin: degf(420.0),
                kind: LimitKind::Continuous,
            }),
        }
    }

    #[test]
    fn the_range_of_another_day_is_told_in_the_units_that_are_shown() {
        let told = |system| day_of("other", "hot", system).err();
        assert_eq!(
            told(UnitSystem::Metric).as_deref(),
            Some("Air at sea level must be between −53 and 61 °C")
        );
        assert_eq!(
            told(UnitSystem::Customary).as_deref(),
            Some("Air at sea level must be between −63 and 143 °F")
        );
    }

    #[test]
    fn each_head_is_judged_by_both_typed_limits() {
        for (model_f, said) in [
            (410.0, "within limit"),
            (425.0, "over your continuous limit"),
            (440.0, "over limit"),
        ] {
            let own = head(model_f);
            assert_eq!(judged(own.model, 0.0, &own), said);
        }
        let one = Corrected {
            seconds: 0.0,
            air: degf(60.0),
            day: degf(90.0),
            head: Some(head(425.0)),
            heads: vec![(1, head(410.0)), (2, head(425.0))],
            oil: None,
        };
        let cells = row(
            "Climb",
            &one,
            "head 2",
            &one.heads[1].1,
            UnitSystem::Customary,
        );
        assert_eq!(cells[4], "430 °F, over your continuous limit");
        assert_eq!(cells[6], "435 °F; continuous limit 420 °F");
        let said = why(&[&one], UnitSystem::Customary).expect("a slope");
        assert!(said.contains("by the model 0.83"), "{said}");
    }
}
