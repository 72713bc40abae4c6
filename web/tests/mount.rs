//! The page mounts in a real browser.
#![cfg(target_arch = "wasm32")]

use coolpath_web::shell::later::{Coming, Fetch, NotFetched};
use wasm_bindgen_test::{wasm_bindgen_test, wasm_bindgen_test_configure};
use yew::Callback;

wasm_bindgen_test_configure!(run_in_browser);

#[wasm_bindgen_test]
async fn mounting_replaces_the_loading_line_with_the_heading() {
    let document = web_sys::window().unwrap().document().unwrap();
    let root = document.create_element("div").unwrap();
    root.set_inner_html("<p>loading</p>");
    document.body().unwrap().append_child(&root).unwrap();

    let nothing: Fetch = Callback::from(|_| -> Coming { Box::pin(async { Err(NotFetched) }) });
    coolpath_web::mount(root.clone(), nothing);
    yew::platform::time::sleep(std::time::Duration::ZERO).await;

    let heading = root.query_selector("h1").unwrap().expect("a heading");
    assert_eq!(heading.text_content().as_deref(), Some("Coolpath"));
    assert!(!root.text_content().unwrap().contains("loading"));
}
