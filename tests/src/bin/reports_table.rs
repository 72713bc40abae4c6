//! Reports of builders and owners beside what the model says, as a page of text.
//!
//! `cargo run -q --release -p coolpath-tests --bin reports_table > reference/reports/reports_table.md`

use coolpath_tests::reports::judged::Outcome;
use coolpath_tests::reports::page::page;

fn main() {
    print!("{}", page(&Outcome::of_all()));
}
