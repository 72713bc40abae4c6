//! A panel is drawn anew only where the part of the page that it looks at has changed.
#![cfg(target_arch = "wasm32")]

use coolpath_web::kit::page::{Book, Page, use_book, use_page};
use coolpath_web::kit::shared::Shared;
use coolpath_web::state::State;
use coolpath_web::state::reduce::reduce;
use coolpath_web::state::{Action, FieldKey};
use std::cell::{Cell, RefCell};
use std::time::Duration;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use yew::platform::time::sleep;
use yew::prelude::*;

wasm_bindgen_test_configure!(run_in_browser);

thread_local! {
    static SET: RefCell<Option<UseStateSetter<Page>>> = const { RefCell::new(None) };
    static DRAWN: [Cell<u32>; 2] = const { [Cell::new(0), Cell::new(0)] };
}

fn count(at: usize) {
    DRAWN.with(|drawn| drawn[at].set(drawn[at].get() + 1));
}

fn drawn() -> [u32; 2] {
    DRAWN.with(|drawn| [drawn[0].get(), drawn[1].get()])
}

#[function_component]
fn Name() -> Html {
    count(0);
    let name = use_page(|page| page.state.design.name.clone());
    html! { <p id="name">{ name }</p> }
}

#[function_component]
fn Width() -> Html {
    count(1);
    let width = use_page(|page| {
        page.state
            .drafts
            .get(&FieldKey::new("inlet.width_m", 0))
            .cloned()
    });
    html! { <p id="width">{ width.unwrap_or_default() }</p> }
}

#[function_component]
fn Whole() -> Html {
    let page = use_state(Page::default);
    SET.with(|set| *set.borrow_mut() = Some(page.setter()));
    let book = use_book(Some((*page).clone()));
    html! {
        <ContextProvider<Book> context={book}><Name /><Width /></ContextProvider<Book>>
    }
}

async fn show(state: &State) {
    let page = Page {
        state: Shared::new(state.clone()),
        ..Page::default()
    };
    SET.with(|set| set.borrow().as_ref().expect("mounted").set(page));
    sleep(Duration::from_millis(20)).await;
}

#[wasm_bindgen_test]
async fn what_a_panel_does_not_look_at_leaves_it_alone() {
    let document = web_sys::window().unwrap().document().unwrap();
    let root = document.create_element("div").unwrap();
    document.body().unwrap().append_child(&root).unwrap();
    yew::Renderer::<Whole>::with_root(root.clone()).render();
    sleep(Duration::from_millis(20)).await;
    let text = |id: &str| {
        let found = root.query_selector(id).unwrap().expect("an element");
        found.text_content().unwrap_or_default()
    };
    let begun = drawn();
    let named = reduce(&State::default(), Action::NameDesign("Gull".to_owned()));
    show(&named).await;
    assert_eq!(text("#name"), "Gull");
    assert_eq!(drawn(), [begun[0] + 1, begun[1]]);
    let typed = Action::Type {
        key: FieldKey::new("inlet.width_m", 0),
        text: "7".to_owned(),
    };
    show(&reduce(&named, typed)).await;
    assert_eq!(text("#width"), "7");
    assert_eq!(drawn(), [begun[0] + 1, begun[1] + 1]);
}
