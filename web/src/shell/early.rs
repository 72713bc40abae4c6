//! What a first visit sees before the program is there, written into the page when it is built: the
//! question, and the example's answer for whoever asks for it. The same components draw it as on the page.

use crate::design::bench;
use crate::design::drawing_pane::Still;
use crate::design::strip::{Strip, manner};
use crate::kit::page::{Book, Page};
use crate::kit::shared::Shared;
use crate::part;
use crate::sheet::View;
use crate::shell::app::{outcomes, verdicts};
use crate::shell::first_use::{Begin, Picture, SHOWN, begun_cards, lead};
use crate::shell::header::{brand, tabs};
use crate::shell::route;
use crate::shell::verdict_bar::VerdictBar;
use coolpath_core::answer::band::bands;
use coolpath_core::language::tr;
use coolpath_core::units::typed::UnitSystem;
use std::rc::Rc;
use yew::prelude::*;

/// The first visit's question with its two ways on.
///
/// A button says in `data-begin` what it begins; `loader/common.js` hears it.
#[function_component]
pub fn EarlyQuestion() -> Html {
    let way = |what: Begin, words: &'static str| {
        html! { <button type="button" class="primary" data-begin={what.name()}>{ words }</button> }
    };
    let picture = |six: bool| {
        html! { <div class="first-picture" aria-hidden="true">{ part!(Picture { six }) }</div> }
    };
    html! { <>
        { lead() }
        { begun_cards([picture(false), picture(true)], way) }
        <p class="hint" id="early-asked" role="status" hidden={true}>{ tr("The questions are on their way …") }</p>
    </> }
}

/// Room of the drawing on a desk and on a phone, px.
const DESK_PX: (f64, f64) = (760.0, 430.0);
/// As on the page of 375 px.
const PHONE_PX: (f64, f64) = (343.0, 300.0);

/// The example's first view.
#[function_component]
pub fn EarlyExample() -> Html {
    let page = worked_out();
    let condition = page.design.conditions.get(SHOWN);
    let answer = page
        .answers
        .get(SHOWN)
        .and_then(|found| found.as_ref().ok());
    let still = condition.zip(answer).map(|(condition, answer)| {
        let of_size = |size, id| {
            let still = Still {
                installation: &page.design.installation,
                condition,
                answer,
                system: UnitSystem::Customary,
                view: View::Side,
                size,
                id,
            };
            still.html()
        };
        html! { <>
            <div class="draw-bar"><p><strong>{ format!("{}, {}.", condition.name, manner(condition, page.system())) }</strong></p></div>
            <div class="on-desk">{ of_size(DESK_PX, "earlydesk") }</div>
            <div class="on-phone">{ of_size(PHONE_PX, "earlyphone") }</div>
        </> }
    });
    html! {
        <ContextProvider<Book> context={Book::of(&page)}>
        <div class="page early">
            <header class="top">{ brand() }{ tabs(route::View::Design) }</header>
            { part!(VerdictBar) }
            <div class="notices"><p class="hint" role="status">{ tr("These are the example’s numbers; its fields and charts are on their way …") }</p></div>
            <main id="main"><div class="view"><div class="bench-view">
                <div class="bench"><section class="draw" aria-label={tr("Drawing")}>{ still }</section></div>
                { part!(Strip) }
                <nav class="jobs phone-jobs" aria-label={tr("Decisions")}>{ bench::jobs() }</nav>
            </div></div></main>
        </div>
        </ContextProvider<Book>>
    }
}

/// The example as it stands on the page once its bands are known.
fn worked_out() -> Page {
    let page = Page::default();
    let answers = outcomes(&page.design);
    let found: Vec<_> = (0..page.design.conditions.len())
        .map(|place| bands(&page.design, place).map(Rc::new))
        .collect();
    let judged = verdicts(&page.design.installation, &answers, &found);
    Page {
        answers: Shared::new(answers),
        bands: Shared::new(found),
        verdicts: Shared::new(judged),
        ..page
    }
}
