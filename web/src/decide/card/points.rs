//! The points of a shutter card, found a few at a time.

use crate::browser::job::use_job;
use crate::charts::shutter;
use crate::kit::shared::Shared;
use crate::kit::short_tasks::Pace;
use coolpath_core::decide::shutter_card::{CardPoint, usual_oats_k};
use coolpath_core::document::design::Design;
use coolpath_core::units::typed::UnitSystem;
use yew::prelude::*;

/// Points of one condition's card; `None` until all are there.
#[hook]
pub fn use_points(
    design: &Shared<Design>,
    place: usize,
    system: UnitSystem,
) -> Option<Shared<Vec<CardPoint>>> {
    let job = use_job::<(), Shared<Vec<CardPoint>>>();
    {
        let job = job.clone();
        use_effect_with((design.clone(), place, system), move |of| {
            let (design, place, system) = of.clone();
            job.start(move |run| async move {
                run.tell(());
                let mut pace = Pace::begun();
                let mut made = Vec::new();
                for oat_k in usual_oats_k(system) {
                    let condition = design.conditions.get(place);
                    made.extend(
                        condition.and_then(|condition| shutter::point(&design, condition, oat_k)),
                    );
                    run.breathe(&mut pace).await?;
                }
                Ok(Shared::new(made))
            });
        });
    }
    job.done().cloned()
}
