//! A component that stands as a part keeps its own state, and takes over nothing of another kind in its place.
#![cfg(target_arch = "wasm32")]

use coolpath_web::part;
use std::cell::Cell;
use std::rc::Rc;
use std::time::Duration;
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use web_sys::Element;
use yew::platform::time::sleep;
use yew::prelude::*;

wasm_bindgen_test_configure!(run_in_browser);

/// Which kind is shown, and its number.
type Shown = (bool, u32);

/// What a test holds in its hands.
#[derive(Clone, Default)]
struct Hands {
    show: Rc<Cell<Option<UseStateSetter<Shown>>>>,
    gone: Rc<Cell<u32>>,
}

impl PartialEq for Hands {
    fn eq(&self, other: &Self) -> bool {
        Rc::ptr_eq(&self.gone, &other.gone)
    }
}

#[derive(Properties, Clone, PartialEq)]
struct Given {
    number: u32,
    hands: Hands,
}

/// Remembers the first number that it was given, and tells when it goes.
#[function_component]
fn First(given: &Given) -> Html {
    let first = use_state(|| given.number);
    let gone = given.hands.gone.clone();
    use_effect_with((), move |()| move || gone.set(gone.get() + 1));
    html! { <p class="first">{ format!("first {} now {}", *first, given.number) }</p> }
}

/// The same element, from other hooks.
#[function_component]
fn Second(given: &Given) -> Html {
    let doubled = use_memo(given.number, |number| 2 * number);
    html! { <p class="first">{ format!("second {doubled}") }</p> }
}

#[derive(Properties, Clone, PartialEq)]
struct RootProps {
    hands: Hands,
}

#[function_component]
fn Root(props: &RootProps) -> Html {
    let shown = use_state(|| (true, 1));
    props.hands.show.set(Some(shown.setter()));
    let (is_first, number) = *shown;
    let hands = props.hands.clone();
    if is_first {
        part!(First { number, hands })
    } else {
        part!(Second { number, hands })
    }
}

async fn drawn(root: &Element) -> (String, Element) {
    sleep(Duration::from_millis(50)).await;
    let element = root.query_selector("p").expect("a selector");
    let element = element.expect("a paragraph");
    (element.text_content().unwrap_or_default(), element)
}

#[wasm_bindgen_test]
async fn a_part_keeps_its_state_and_another_kind_takes_over_nothing() {
    let document = web_sys::window().and_then(|window| window.document());
    let root = document
        .and_then(|document| document.create_element("div").ok())
        .expect("an element");
    let hands = Hands::default();
    yew::Renderer::<Root>::with_root_and_props(
        root.clone(),
        RootProps {
            hands: hands.clone(),
        },
    )
    .render();
    let show = |shown| {
        let set = hands.show.take().expect("it was drawn");
        set.set(shown);
        hands.show.set(Some(set));
    };
    let (text, first) = drawn(&root).await;
    assert_eq!(text, "first 1 now 1");

    show((true, 2));
    let (text, same) = drawn(&root).await;
    assert_eq!(text, "first 1 now 2");
    assert!(same == first, "the element was made anew");

    show((false, 3));
    let (text, other) = drawn(&root).await;
    assert_eq!((text.as_str(), hands.gone.get()), ("second 6", 1));
    assert!(other != first, "the element of another kind was taken over");

    show((true, 4));
    assert_eq!(drawn(&root).await.0, "first 4 now 4");
}
