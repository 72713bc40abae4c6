//! What each choice of an installation does to the example, as a page of text.
//!
//! `cargo run -q --release -p coolpath-tests --bin choices_table > reference/choices/choices_table.md`

fn main() {
    print!("{}", coolpath_tests::choices::page());
}
