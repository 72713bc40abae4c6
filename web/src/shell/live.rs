//! What follows the page while it is open: the link's fragment, and bands after the last keystroke.

use crate::browser::window;
use crate::design::answers::BandSet;
use crate::shell::route;
use crate::shell::route::Route;
use coolpath_core::answer::band::bands;
use coolpath_core::document::design::Design;
use std::rc::Rc;
use std::time::Duration;
use yew::platform::{spawn_local, time::sleep};
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
        Some(anchor) => window::go_to(anchor),
        None => window::to_top(),
    });
    found
}

/// Bands, computed one condition at a time after the last keystroke, so that typing stays fluid.
#[hook]
pub fn use_bands(design: &Rc<Design>) -> Rc<BandSet> {
    let shown = use_state(|| Rc::new(BandSet::new()));
    let generation = use_mut_ref(|| 0_u64);
    {
        let shown = shown.clone();
        use_effect_with(design.clone(), move |design| {
            *generation.borrow_mut() += 1;
            let mine = *generation.borrow();
            let design = design.clone();
            shown.set(Rc::new(BandSet::new()));
            spawn_local(async move {
                let mut set = BandSet::new();
                sleep(Duration::from_millis(150)).await;
                if design.check().is_err() {
                    return;
                }
                for place in 0..design.conditions.len() {
                    sleep(Duration::ZERO).await;
                    if *generation.borrow() != mine {
                        return;
                    }
                    set.push(bands(&design, place).ok().map(Rc::new));
                    shown.set(Rc::new(set.clone()));
                }
            });
        });
    }
    (*shown).clone()
}
