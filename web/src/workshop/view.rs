//! The workshop view: templates, areas, gauges.

use crate::design::area::panel::AreaHelper;
use crate::part;
use crate::workshop::cut::panel::CutPanel;
use crate::workshop::gauges::panel::Gauges;
use crate::workshop::photo::PhotoPanel;
use yew::prelude::*;

/// The view.
#[function_component]
pub fn WorkshopView() -> Html {
    html! {
        <div class="workshop" id="paper">
            { part!(CutPanel) }
            { part!(PhotoPanel) }
            { part!(AreaHelper) }
            { part!(Gauges) }
        </div>
    }
}
