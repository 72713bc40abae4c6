//! The form: the sections of the installation in the order in which the air passes them.

use crate::design::fields::entries::Entries;
use crate::design::fields::group_fields::GroupFields;
use crate::design::oil_point::OilPoint;
use crate::design::part_panel::LimitsPage;
use crate::part;
use crate::state::List;
use coolpath_core::language::tr;
use yew::prelude::*;

/// A part of the form.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Part {
    Aircraft,
    Engine,
    Inlets,
    Decks,
    Oil,
    Exit,
}

/// Identifier of a part's section.
fn section_id(part: Part) -> &'static str {
    match part {
        Part::Aircraft => "section-aircraft",
        Part::Engine => "section-engine",
        Part::Inlets => "section-inlets",
        Part::Decks => "section-decks",
        Part::Oil => "section-oil",
        Part::Exit => "section-exit",
    }
}

fn title(part: Part) -> &'static str {
    match part {
        Part::Aircraft => tr("Aircraft and conditions"),
        Part::Engine => tr("Engine"),
        Part::Inlets => tr("Inlets"),
        Part::Decks => tr("Upper and lower deck"),
        Part::Oil => tr("Oil, cooler and shutter"),
        Part::Exit => tr("Exit"),
    }
}

/// The form.
#[function_component]
pub fn Sections() -> Html {
    let group = |prefix: &'static str| part!(GroupFields { prefix });
    let list = |list: List| part!(Entries { list });
    html! {
        <form class="sections" onsubmit={Callback::from(|event: SubmitEvent| event.prevent_default())}>
            { section(Part::Inlets, html! { { list(List::Inlets) } }) }
            { section(Part::Decks, group("decks")) }
            { section(Part::Exit, html! { { list(List::Exits) } }) }
            { section(Part::Oil, html! { <>
                <h3>{ tr("Cooler and duct") }</h3>{ group("cooler") }
                <h3>{ tr("Shutter") }</h3>{ group("shutter") }
                <h3>{ tr("Oil") }</h3>{ group("oil") }
            </> }) }
            { section(Part::Engine, html! { <>
                { group("engine") }
                { part!(LimitsPage) }
                <h3>{ tr("Engine cooling data") }</h3>
                <p class="hint">{ tr("One point of your engine tells more than any default here. Best is the engine maker's cooling chart, then your own readings.") }</p>
                { group("reference") }
                { part!(OilPoint) }
            </> }) }
            { section(Part::Aircraft, html! { <>
                <h3>{ tr("Conditions") }</h3>{ list(List::Conditions) }
                <h3>{ tr("Aircraft and propeller") }</h3>{ group("airframe") }
            </> }) }
        </form>
    }
}

fn section(part: Part, content: Html) -> Html {
    html! {
        <section id={section_id(part)} class="section" tabindex="-1" aria-label={title(part)}>
            <h2>{ title(part) }</h2>
            { content }
        </section>
    }
}
