//! Starts the page in the browser, and the engine in its workers.

mod views;

use coolpath_web::browser::language;
use coolpath_web::engine::serve::serve;
use coolpath_web::{ROOT_ID, mount};
use wasm_bindgen::JsCast;
use wasm_bindgen_futures::spawn_local;
use web_sys::DedicatedWorkerGlobalScope;

fn main() {
    if let Ok(scope) = js_sys::global().dyn_into::<DedicatedWorkerGlobalScope>() {
        return serve(&scope, views::answering);
    }
    let root = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id(ROOT_ID))
        .expect("the page's template holds the root element");
    match language::chosen() {
        None => {
            mount(root, views::fetch());
        }
        Some(chosen) => spawn_local(async move {
            language::bring(&chosen).await;
            mount(root, views::fetch());
        }),
    }
}
