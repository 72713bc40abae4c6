//! Starts the page in the browser.

mod views;

use coolpath_web::{ROOT_ID, mount};

fn main() {
    let root = web_sys::window()
        .and_then(|window| window.document())
        .and_then(|document| document.get_element_by_id(ROOT_ID))
        .expect("the page's template holds the root element");
    mount(root, views::fetch());
}
