//! The decide view: each job as question, answer and picture, then what supports them.

use crate::decide::card::panel::CardPanel;
use crate::decide::chances::SurePanel;
use crate::decide::climb::ClimbPanel;
use crate::decide::compare::panel::ComparePanel;
use crate::decide::duct::panel::DuctPanel;
use crate::decide::lip::LipPanel;
use crate::decide::minutes::panel::FlightPanel;
use crate::decide::size::panel::SizePanel;
use crate::kit::soon::Soon;
use crate::part;
use yew::prelude::*;

/// The view.
#[function_component]
pub fn DecideView() -> Html {
    html! {
        <div class="decide">
            { part!(SizePanel) }
            <Soon>{ part!(ComparePanel) }</Soon>
            <Soon after={2}>{ part!(CardPanel) }</Soon>
            <Soon after={3}>
                { part!(ClimbPanel) }
                { part!(DuctPanel) }
                { part!(LipPanel) }
                { part!(FlightPanel) }
                { part!(SurePanel) }
            </Soon>
        </div>
    }
}
