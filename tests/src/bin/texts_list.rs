//! Writes the list of all texts of the page, `web/texts/english.json`; with the word `made-up` the made-up language
//! beside it, so that the page can be looked at in it.

use coolpath_tests::texts::{Texts, made_up};
use std::path::Path;

fn main() -> std::io::Result<()> {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("../web/texts");
    let texts = Texts::of_project();
    std::fs::write(folder.join("english.json"), texts.list())?;
    if std::env::args().nth(1).as_deref() == Some("made-up") {
        let name = format!("{}.json", made_up::CODE);
        std::fs::write(folder.join(name), made_up::language(&texts).to_string())?;
    }
    Ok(())
}
