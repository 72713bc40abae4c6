//! Writes the list of all texts of the page, `web/texts/english.json`.

use coolpath_tests::texts::Texts;
use std::path::Path;

fn main() -> std::io::Result<()> {
    let list = Path::new(env!("CARGO_MANIFEST_DIR")).join("../web/texts/english.json");
    std::fs::write(list, Texts::of_project().list())
}
