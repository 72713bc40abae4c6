//! What follows the page while it is open: the link's fragment, and bands after the last keystroke.

use crate::browser::job::{Shown, use_job};
use crate::browser::window;
use crate::kit::page::BandSet;
use crate::kit::shared::Shared;
use crate::shell::arrive::arrive;
use crate::shell::route;
use crate::shell::route::Route;
use coolpath_core::answer::band::bands;
use coolpath_core::document::design::Design;
use std::rc::Rc;
use std::time::Duration;
use yew::prelude::*;

/// Where the link's fragment leads; a fragment that is no place leaves the page where it stands.
#[hook]
pub fn use_route() -> Route {
    let current = use_state(|| route::route(&window::fragment()).unwrap_or(route::START));
    {
        let current = current.clone();
        use_effect_with((), move |()| {
            let set = current.setter();
            window::on_fragment(move || {
                if let Some(next) = route::route(&window::fragment()) {
                    set.set(next);
                }
            })
        });
    }
    let found = *current;
    // Only now does the place exist that is gone to.
    use_effect_with(found, |route| match route.anchor {
        Some(anchor) => arrive(anchor),
        None => window::to_top(),
    });
    found
}

/// Bands, computed one condition at a time after the last keystroke, so that typing stays fluid.
#[hook]
pub fn use_bands(design: &Shared<Design>) -> Shared<BandSet> {
    let none = Shared::from(use_memo((), |()| BandSet::new()));
    let job = use_job::<Shared<BandSet>, Shared<BandSet>>();
    {
        let (job, none) = (job.clone(), none.clone());
        use_effect_with(design.clone(), move |design| {
            let design = design.clone();
            job.start(move |run| async move {
                let mut found = none;
                run.tell(found.clone());
                run.wait(Duration::from_millis(150)).await?;
                if design.check().is_err() {
                    return Ok(found);
                }
                for place in 0..design.conditions.len() {
                    run.rest().await?;
                    let mut set = (*found).clone();
                    set.push(bands(&design, place).map(Rc::new));
                    found = Shared::new(set);
                    run.tell(found.clone());
                }
                Ok(found)
            });
        });
    }
    match job.shown() {
        Shown::Working(found) | Shown::Done(found) => found.clone(),
        _ => none,
    }
}
