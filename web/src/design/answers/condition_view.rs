//! One condition as details and charts.
//!
//! All of it is computed anew only when what it shows has changed: bands that arrive, notices and
//! texts that are no value leave it alone.

use crate::browser::job::use_job;
use crate::charts;
use crate::charts::sweeps::View;
use crate::charts::view::FigureView;
use crate::charts::{Size, column};
use crate::design::answers::details::Details;
use crate::design::answers::why::Why;
use crate::kit::controls::on_option;
use crate::kit::page::{use_dispatch, use_page};
use crate::kit::shared::Shared;
use crate::part;
use crate::state::Action;
use coolpath_core::answer::sweep::{PointBand, Swept};
use coolpath_core::document::condition::Phase;
use coolpath_core::document::design::Design;
use coolpath_core::language::tr;
use std::rc::Rc;
use std::time::Duration;
use yew::prelude::*;

/// One condition.
#[function_component]
pub fn ConditionView() -> Html {
    let (design, answers, place, system, width) = use_page(|page| {
        (
            page.design.clone(),
            page.answers.clone(),
            page.place(),
            page.system(),
            page.width,
        )
    });
    let dispatch = use_dispatch();
    let bands = use_sweep_bands(&design, place);
    let (Some(condition), Some(outcome)) = (design.conditions.get(place), answers.get(place))
    else {
        return Html::default();
    };
    let on_pick = on_option(move |option| {
        if let Ok(place) = option.parse() {
            dispatch.emit(Action::Show(place));
        }
    });
    let size = Size {
        width: column(width, None, 660),
        height: 280,
    };
    let view = |bands| View {
        installation: &design.installation,
        condition,
        system,
        size,
        bands,
    };
    html! {
        <section class="section" id="one-condition" aria-label={tr("One condition")}>
            <div class="field">
                <label for="shown-condition">{ tr("Condition in the charts") }</label>
                <select id="shown-condition" onchange={on_pick}>
                    { for design.conditions.iter().enumerate().map(|(at, condition)| html! {
                        <option value={at.to_string()} selected={at == place}>{ condition.name.clone() }</option>
                    }) }
                </select>
            </div>
            if let Ok(answer) = outcome {
                { part!(Details { outcome: outcome.clone(), system }) }
                { part!(Why { design: design.clone(), place, system }) }
                <div class="job-columns even figures">
                    { part!(FigureView { figure: charts::ladder::figure(answer, system, size) }) }
                    if design.installation.shutter.fitted {
                        { part!(FigureView { figure: charts::shutter::figure(
                            condition,
                            &charts::shutter::points(&design, condition, system),
                            system,
                            size,
                        ) }) }
                    }
                    { for charts::sweeps::over_airspeed(&view(&bands.airspeed))
                        .map(|figure| part!(FigureView { figure })) }
                    { part!(FigureView { figure: charts::sweeps::over_oat(&view(&bands.oat)) }) }
                    if condition.phase == Phase::Cruise {
                        { part!(FigureView { figure: charts::exit_sweep::speed_over_exit(&view(&bands.exit)) }) }
                    }
                </div>
            } else {
                { part!(Details { outcome: outcome.clone(), system }) }
            }
        </section>
    }
}

/// Bands of the three sweeps, each empty until all are known.
#[derive(Default)]
pub struct SweepBands {
    /// Over airspeed.
    pub airspeed: Vec<PointBand>,
    /// Over outside air.
    pub oat: Vec<PointBand>,
    /// Over the exit's area.
    pub exit: Vec<PointBand>,
}

/// Bands of the charts, computed one point at a time after the last keystroke.
#[hook]
pub fn use_sweep_bands(design: &Shared<Design>, place: usize) -> Rc<SweepBands> {
    let wanted = (design.clone(), place);
    let job = use_job::<(), ((Shared<Design>, usize), Rc<SweepBands>)>();
    {
        let job = job.clone();
        use_effect_with(wanted.clone(), move |wanted| {
            let wanted = wanted.clone();
            job.start(|run| async move {
                // The bands in the table come first.
                run.wait(Duration::from_millis(600)).await?;
                let (design, place) = &wanted;
                let mut found = SweepBands::default();
                let condition = design.conditions.get(*place);
                if let Some(condition) = condition.filter(|_| design.check().is_ok()) {
                    for (swept, list) in [
                        (Swept::Airspeed, &mut found.airspeed),
                        (Swept::Oat, &mut found.oat),
                        (Swept::ExitArea, &mut found.exit),
                    ] {
                        for x in charts::sweeps::band_values(swept) {
                            run.rest().await?;
                            list.extend(charts::sweeps::band_at(design, condition, swept, x));
                        }
                    }
                }
                Ok((wanted, Rc::new(found)))
            });
        });
    }
    // Bands of another design are no bands of this one.
    match job.done() {
        Some((of, found)) if *of == wanted => found.clone(),
        _ => Rc::default(),
    }
}
