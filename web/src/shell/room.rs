//! The room of a view. Out of sight it keeps the page as it was when the view was shown last, so
//! that nothing is worked out for it.

use crate::design::bench;
use crate::kit::page::{Book, use_book, use_page};
use crate::part;
use crate::shell::later::{Fetch, Later, Piece};
use crate::shell::route::View;
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
    /// What brings the views.
    pub fetch: Fetch,
}

/// A view in its room.
#[function_component]
pub fn Room(props: &Props) -> Html {
    let shown = props.shown;
    let page = use_page(move |page| shown.then(|| page.clone()));
    let book = use_book(page);
    let page_shown = use_mut_ref(|| props.page);
    if shown {
        *page_shown.borrow_mut() = props.page;
    }
    let context = *page_shown.borrow();
    html! {
        <ContextProvider<Book> context={book}>
            <ContextProvider<bench::Page> {context}>
                { part!(Later { piece: Piece::View(props.view), fetch: props.fetch.clone() }) }
            </ContextProvider<bench::Page>>
        </ContextProvider<Book>>
    }
}
