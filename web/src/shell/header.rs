//! The header: name, aircraft menu, views, undo, units, share, guide, print.

use crate::browser::window;
use crate::kit::controls::use_unfolding;
use crate::kit::page::{use_dispatch, use_page};
use crate::part;
use crate::shell::later::{Fetch, Later, Piece};
use crate::shell::route::View;
use crate::shell::shelf::Shelf;
use crate::shell::toolbar::Toolbar;
use crate::shell::units::UnitsChoice;
use crate::state::Action;
use coolpath_core::language::tr;
use yew::prelude::*;

/// What the header needs.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// View that is shown.
    pub view: View,
    /// Begins the questions of one's own aircraft.
    pub on_ask: Callback<()>,
    /// What brings its pieces.
    pub fetch: Fetch,
}

/// The header.
#[function_component]
pub fn Header(props: &Props) -> Html {
    let Props {
        view,
        on_ask,
        fetch,
    } = props;
    let ask = on_ask.reform(|_: MouseEvent| ());
    let name = use_page(|page| match page.design.name.trim() {
        "" => tr("Unnamed aircraft").to_owned(),
        _ => page.design.name.clone(),
    });
    html! {
        <header class="top">
            { brand() }
            <details class="menu aircraft">
                <summary><span class="menu-name">{ name }</span></summary>
                <div class="menu-body">
                    { part!(Toolbar) }
                    <div class="buttons"><button type="button" onclick={ask}>{ tr("Enter my aircraft") }</button></div>
                    { part!(Shelf) }
                </div>
            </details>
            { tabs(*view) }
            { part!(Tools { fetch: fetch.clone() }) }
        </header>
    }
}

/// Name and emblem.
pub(crate) fn brand() -> Html {
    html! { <h1 class="brand">{ emblem() }{ tr("Coolpath") }</h1> }
}

/// The views, one of them shown.
pub(crate) fn tabs(view: View) -> Html {
    html! {
        <nav class="tabs" aria-label={tr("Views")}>
            { for View::ALL.into_iter().map(|to| html! {
                <a href={format!("#{}", to.fragment())} aria-current={(to == view).then_some("page")}>
                    <svg viewBox="0 0 24 24" aria-hidden="true"><path d={to.sign()} /></svg>{ to.name() }
                </a>
            }) }
        </nav>
    }
}

/// What the tools need.
#[derive(Properties, Clone, PartialEq)]
struct ToolsProps {
    fetch: Fetch,
}

/// What is shared; its program comes when it is first unfolded.
#[function_component]
fn Share(props: &ToolsProps) -> Html {
    let (open, on_toggle) = use_unfolding();
    let (piece, fetch) = (Piece::Share, props.fetch.clone());
    html! {
        <details class="share" id="share" ontoggle={on_toggle}>
            <summary>{ tr("Share") }</summary>
            if *open {
                { part!(Later { piece, fetch }) }
            }
        </details>
    }
}

/// Undo, units, share, guide, print.
#[function_component]
fn Tools(props: &ToolsProps) -> Html {
    let (undone, can_undo, can_redo) = use_page(|page| {
        (
            page.state.undo_name(),
            !page.state.past.is_empty(),
            !page.state.future.is_empty(),
        )
    });
    let dispatch = use_dispatch();
    let print = Callback::from(|_: MouseEvent| window::print());
    html! {
        <div class="tools">
            <button type="button" class="undo" data-what={undone.as_ref().map(|what| format!(": {what}"))}
                title={undone.map(|what| tr!("Undo: {}", what))}
                onclick={dispatch.reform(|_: MouseEvent| Action::Undo)} disabled={!can_undo}>{ tr("Undo") }</button>
            <button type="button" class="flat redo" onclick={dispatch.reform(|_: MouseEvent| Action::Redo)} disabled={!can_redo}>{ tr("Redo") }</button>
            { part!(UnitsChoice) }
            { part!(Share { fetch: props.fetch.clone() }) }
            // Beside the page, so that nothing on it is left; the single file shows its own copy.
            <a class="button flat" href="guide.html" target="_blank">{ tr("Guide") }</a>
            <button type="button" class="flat" onclick={print}>{ tr("Print") }</button>
        </div>
    }
}

fn emblem() -> Html {
    html! {
        <svg class="emblem" width="30" height="22" viewBox="0 0 30 22" aria-hidden="true">
            <path class="emblem-cool" d="M1 6h9c5 0 4 10 9 10" />
            <path class="emblem-hot" d="M19 16h10M25 12l4 4-4 4" />
            <circle cx="14.5" cy="11" r="2.2" />
        </svg>
    }
}
