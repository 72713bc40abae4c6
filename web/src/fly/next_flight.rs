//! The model, fitted to some readings, checked on others that the fit has not seen.

use crate::browser::job::{End, Run, use_job};
use crate::charts::table::TableView;
use crate::fly::path::use_opened;
use crate::kit::format;
use crate::kit::page::use_page;
use crate::kit::shared::Shared;
use crate::kit::sheet::Sheet;
use coolpath_core::document::design::Design;
use coolpath_core::prove::flights::{
    Checked, Checking, Compared, Figure, check_only_windows, summary,
};
use coolpath_core::units::typed::{Dimension, UnitSystem};
use yew::prelude::*;

/// Solutions in one step.
const STEP: usize = 60;

/// What was found, and the design that it is of.
type Found = (Shared<Design>, std::rc::Rc<Checked>);

/// What the panel needs.
#[derive(Properties, Clone, PartialEq)]
pub struct NextFlightProps {
    /// Whether its step is next, so that it stands open.
    pub next: bool,
    /// Told of what a check found, in a few words, and of which design.
    pub on_checked: Callback<(Shared<Design>, String)>,
}

/// The panel.
#[function_component]
pub fn NextFlightPanel(props: &NextFlightProps) -> Html {
    let opened = use_opened(props.next);
    let (design, system) = use_page(|page| (page.design.clone(), page.system()));
    let job = use_job::<(), Found>();
    let steady = check_only_windows(&design).len();
    let start = {
        let (job, design, told) = (job.clone(), design.clone(), props.on_checked.clone());
        Callback::from(move |_: MouseEvent| {
            let (design, told) = (design.clone(), told.clone());
            job.start(|run| checked(run, design, told));
        })
    };
    html! {
        <details class="section" id="next-flight" open={opened}>
            <summary>{ "Check on readings that the fit has not seen" }</summary>
            <p class="hint">{ "Mark the readings of another flight “check only” in the table of readings. The usual values are fitted to the others, and each steady reading that is marked is predicted with its band of nine in ten. Stretches that are not steady are not compared." }</p>
            if steady == 0 {
                <p>{ "No steady reading is marked “check only”." }</p>
            } else {
                <div class="buttons"><button type="button" onclick={start}>{ "Check the model" }</button></div>
            }
            <div aria-live="polite">
                { job.told(|()| html! { <p>{ "Fitting without them, then predicting them…" }{ " " }{ job.stop_button() }</p> }) }
                { job.done().map(|(of, checked)| html! { <>
                    if *of != design { <p class="stale">{ "The design or its readings have changed since. Check again." }</p> }
                    { result(checked, of, system) }
                </> }) }
            </div>
        </details>
    }
}

async fn checked(
    run: Run<(), Found>,
    design: Shared<Design>,
    told: Callback<(Shared<Design>, String)>,
) -> Result<Found, End> {
    let windows = check_only_windows(&design);
    let mut checking = Checking::new(&design, &[], &windows).map_err(|error| error.to_string())?;
    run.tell(());
    loop {
        run.rest().await?;
        if !checking.advance(STEP) {
            break;
        }
    }
    let found = checking.outcome().map_err(|error| error.to_string())?;
    let (held, all) = held(&found);
    told.emit((design.clone(), format!("held on {held} of {all}")));
    Ok((design, std::rc::Rc::new(found)))
}

fn name(figure: Figure) -> &'static str {
    match figure {
        Figure::HeadMean => "mean head",
        Figure::HeadHottest => "hottest head",
        Figure::Oil => "oil",
    }
}

/// Predicted minus measured in words, such as "oil 6 °F low".
fn off(figure: Figure, bias: f64, system: UnitSystem) -> String {
    let side = if bias < 0.0 { "low" } else { "high" };
    let by = format::difference(bias.abs(), system);
    format!("{} {by} {side}", name(figure))
}

/// Readings in which every band held what was read, and all that were predicted.
fn held(checked: &Checked) -> (usize, usize) {
    let of = checked.judged.iter();
    let held = of.filter(|judged| {
        let mut read = Figure::ALL
            .into_iter()
            .filter_map(|figure| judged.get(figure));
        read.all(|one| one.is_inside())
    });
    (held.count(), checked.judged.len())
}

/// On how many readings every band held what was read, and how far the means are off.
#[must_use]
pub fn coverage(checked: &Checked, system: UnitSystem) -> String {
    let (held, all) = held(checked);
    if all == 0 {
        return "None of the readings that are marked could be predicted.".to_owned();
    }
    let means: Vec<String> = Figure::ALL
        .into_iter()
        .filter_map(|figure| Some(off(figure, summary(&checked.judged, figure)?.bias, system)))
        .collect();
    format!(
        "Held on {held} of {all} readings that the fit had not seen; in the mean predicted {}.",
        means.join(", ")
    )
}

fn result(checked: &Checked, of: &Design, system: UnitSystem) -> Html {
    let windows = check_only_windows(of);
    let named = |place: usize| {
        windows
            .get(place)
            .map_or_else(String::new, |window| window.reading.name.clone())
    };
    let difference = |kelvin: f64| {
        Dimension::TemperatureDifference
            .shown(system)
            .from_si(kelvin)
    };
    let degrees = |kelvin: f64| format::degrees(kelvin, system);
    let cell = |one: Option<Compared>| match one {
        Some(one) => format!(
            "{} read; {} predicted, {} to {}: {}",
            degrees(one.measured),
            degrees(one.predicted),
            degrees(one.low),
            degrees(one.high),
            if one.is_inside() { "held" } else { "not held" }
        ),
        None => "not read".to_owned(),
    };
    let sums = Figure::ALL.map(|figure| {
        summary(&checked.judged, figure).map_or_else(String::new, |found| {
            format!(
                "{:+.0} mean, {:.0} rms; {:.0} of {} held",
                difference(found.bias),
                difference(found.rms),
                found.inside_share * found.count as f64,
                found.count
            )
        })
    });
    let mut rows: Vec<Vec<String>> = checked
        .judged
        .iter()
        .map(|judged| {
            let cells = Figure::ALL.map(|figure| cell(judged.get(figure)));
            [vec![named(judged.place)], cells.to_vec()].concat()
        })
        .collect();
    let symbol = Dimension::TemperatureDifference.shown(system).symbol;
    let last = format!("Predicted minus read ({symbol})");
    rows.push([vec![last], sums.to_vec()].concat());
    let columns = [&["Reading"][..], &Figure::ALL.map(name)].concat();
    let sheet = Sheet::new("Check on readings not fitted", &columns, rows);
    html! {
        <>
            <p><strong>{ coverage(checked, system) }</strong></p>
            <TableView {sheet} />
            { for checked.refused.iter().map(|one| html! { <p class="question">{ format!("“{}” is not compared: {}", named(one.place), one.reason) }</p> }) }
        </>
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use coolpath_core::document::example;
    use coolpath_core::document::quantity::Quantity;
    use coolpath_core::document::reading::{Reading, Values};
    use coolpath_core::units::si::{degf, knot};

    fn reading(name: &str, head_degf: f64, check_only: bool) -> Reading {
        let values: Values = [
            (Quantity::PowerShare, 0.75),
            (Quantity::Rpm, 2500.0),
            (Quantity::Airspeed, knot(130.0)),
            (Quantity::Altitude, 1500.0),
            (Quantity::Oat, degf(60.0)),
            (Quantity::HEADS[0], degf(head_degf)),
            (Quantity::HEADS[1], degf(head_degf - 10.0)),
        ]
        .into_iter()
        .collect();
        Reading {
            check_only,
            ..Reading::steady(name, values)
        }
    }

    fn found(readings: Vec<Reading>) -> Checked {
        let mut design = example::design();
        design.readings = readings;
        let windows = check_only_windows(&design);
        let mut checking = Checking::new(&design, &[], &windows).expect("a fit");
        while checking.advance(STEP) {}
        checking.outcome().expect("an outcome")
    }

    #[test]
    fn the_fit_never_sees_what_is_for_checking_and_the_sentence_counts_what_held() {
        let fitted = || vec![reading("a", 380.0, false), reading("b", 381.0, false)];
        let mut readings = fitted();
        readings.extend([
            reading("same", 380.0, true),
            reading("far off", 500.0, true),
        ]);
        let seen = found(readings);
        let said = coverage(&seen, UnitSystem::Customary);
        assert!(said.starts_with("Held on 1 of 2 readings"), "{said}");
        assert!(
            said.contains("hottest head") && said.contains("low"),
            "{said}"
        );
        // What was fitted is what the same readings give alone.
        let alone = found(fitted());
        assert!(!alone.fitted.is_empty());
        for (one, other) in alone.fitted.iter().zip(&seen.fitted) {
            assert_eq!(one.value.to_bits(), other.value.to_bits());
        }
        assert_eq!(alone.fitted.len(), seen.fitted.len());
    }
}
