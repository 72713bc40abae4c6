//! The room of a view. Out of sight it keeps the page as it was when the view was shown last, so
//! that nothing is worked out for it.

use crate::decide::view::DecideView;
use crate::design::bench;
use crate::design::bench::Bench;
use crate::fly::FlightTest;
use crate::kit::page::{Book, use_book, use_page};
use crate::report::panel::ReportPanel;
use crate::shell::route::View;
use crate::workshop::view::WorkshopView;
use yew::prelude::*;

/// Which view, and whether it is shown.
#[derive(Properties, Clone, PartialEq)]
pub struct Props {
    /// The view.
    pub view: View,
    /// Page of the design view.
    pub page: bench::Page,
    /// Whether the view is shown.
    pub shown: bool,
}

/// A view in its room.
#[function_component]
pub fn Room(props: &Props) -> Html {
    let shown = props.shown;
    let page = use_page(move |page| shown.then(|| page.clone()));
    let book = use_book(page);
    html! {
        <ContextProvider<Book> context={book}>
            { match props.view {
                View::Design => html! { <Bench page={props.page} /> },
                View::Decide => html! { <DecideView /> },
                View::Fly => html! { <FlightTest /> },
                View::Workshop => html! { <WorkshopView /> },
                View::Report => html! { <ReportPanel /> },
            } }
        </ContextProvider<Book>>
    }
}
