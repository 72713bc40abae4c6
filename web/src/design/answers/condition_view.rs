//! One condition as details and charts.
//!
//! All of it is computed anew only when what it shows has changed: bands that arrive, notices and
//! texts that are no value leave it alone.

use crate::charts;
use crate::charts::Size;
use crate::charts::sweeps::View;
use crate::charts::view::FigureView;
use crate::design::answers::Outcome;
use crate::design::answers::details::Details;
use crate::design::answers::why::Why;
use crate::kit::controls::on_option;
use coolpath_core::answer::sweep::{PointBand, Swept};
use coolpath_core::document::condition::Phase;
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;
use std::rc::Rc;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
use yew::prelude::*;

/// The condition to show.
#[derive(Properties, Clone)]
pub struct Props {
    /// Design that the answers belong to.
    pub design: Rc<Design>,
    /// Answers in the order of the conditions.
    pub answers: Rc<Vec<Outcome>>,
    /// The condition's place.
    pub place: usize,
    /// Units.
    pub system: UnitSystem,
    /// Room for charts, CSS pixels.
    pub width: u32,
    /// Shows another condition.
    pub on_show: Callback<usize>,
}

impl PartialEq for Props {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.design, &other.design)
            && Rc::ptr_eq(&self.answers, &other.answers)
            && self.place == other.place
            && self.system == other.system
            && self.width == other.width
    }
}

/// One condition.
#[function_component]
pub fn ConditionView(props: &Props) -> Html {
    let Props {
        design,
        answers,
        place,
        system,
        ..
    } = props;
    let (place, system) = (*place, *system);
    let bands = use_sweep_bands(design, place);
    let (Some(condition), Some(outcome)) = (design.conditions.get(place), answers.get(place))
    else {
        return Html::default();
    };
    let on_pick = {
        let on_show = props.on_show.clone();
        on_option(move |option| {
            if let Ok(place) = option.parse() {
                on_show.emit(place);
            }
        })
    };
    let size = Size {
        width: props.width.min(640),
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
        <section class="section" id="one-condition" aria-label="One condition">
            <div class="field">
                <label for="shown-condition">{ "Condition in the charts" }</label>
                <select id="shown-condition" onchange={on_pick}>
                    { for design.conditions.iter().enumerate().map(|(at, condition)| html! {
                        <option value={at.to_string()} selected={at == place}>{ condition.name.clone() }</option>
                    }) }
                </select>
            </div>
            if let Ok(answer) = outcome {
                <Details outcome={outcome.clone()} {system} />
                <Why design={design.clone()} {place} {system} />
                <FigureView figure={charts::ladder::figure(answer, system, size)} />
                if design.installation.shutter.fitted {
                    <FigureView figure={charts::shutter::figure(
                        condition,
                        &charts::shutter::points(design, condition),
                        system,
                        size,
                    )} />
                }
                { for charts::sweeps::over_airspeed(&view(&bands.airspeed))
                    .map(|figure| html! { <FigureView {figure} /> }) }
                <FigureView figure={charts::sweeps::over_oat(&view(&bands.oat))} />
                if condition.phase == Phase::Cruise {
                    <FigureView figure={charts::sweeps::speed_over_exit(&view(&bands.exit))} />
                }
            } else {
                <Details outcome={outcome.clone()} {system} />
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
pub fn use_sweep_bands(design: &Rc<Design>, place: usize) -> Rc<SweepBands> {
    let shown = use_state(|| (None, Rc::new(SweepBands::default())));
    let generation = use_mut_ref(|| 0_u64);
    let wanted = (design.clone(), place);
    {
        let shown = shown.clone();
        use_effect_with(wanted.clone(), move |wanted| {
            *generation.borrow_mut() += 1;
            let mine = *generation.borrow();
            let (design, place) = wanted.clone();
            spawn_local(async move {
                // The bands in the table come first.
                sleep(Duration::from_millis(600)).await;
                if *generation.borrow() != mine || design.check().is_err() {
                    return;
                }
                let Some(condition) = design.conditions.get(place) else {
                    return;
                };
                let mut found = SweepBands::default();
                for (swept, list) in [
                    (Swept::Airspeed, &mut found.airspeed),
                    (Swept::Oat, &mut found.oat),
                    (Swept::ExitArea, &mut found.exit),
                ] {
                    for x in charts::sweeps::band_values(swept) {
                        sleep(Duration::ZERO).await;
                        if *generation.borrow() != mine {
                            return;
                        }
                        list.extend(charts::sweeps::band_at(&design, condition, swept, x));
                    }
                }
                shown.set((Some((design.clone(), place)), Rc::new(found)));
            });
        });
    }
    // Bands of another design are no bands of this one.
    match &*shown {
        (Some((of, at)), found) if Rc::ptr_eq(of, &wanted.0) && *at == place => found.clone(),
        _ => Rc::default(),
    }
}
