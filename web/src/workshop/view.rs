//! The workshop view: templates, areas, gauges.

use crate::design::area::panel::AreaHelper;
use crate::workshop::cut::panel::CutPanel;
use crate::workshop::gauges::panel::Gauges;
use crate::workshop::photo::PhotoPanel;
use yew::prelude::*;

/// The view.
#[function_component]
pub fn WorkshopView() -> Html {
    html! {
        <div class="workshop" id="paper">
            <CutPanel />
            <PhotoPanel />
            <AreaHelper />
            <Gauges />
        </div>
    }
}
