//! What each choice of an installation does to the example, as committed.

use coolpath_tests::choices::page;
use coolpath_tests::table::text::assert_committed;

#[test]
fn the_page_of_choices_is_what_the_program_computes_today() {
    assert_committed("choices/choices_table.md", &page());
}
