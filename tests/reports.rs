//! What builders and owners report, beside the model: goals that were set before, and a page that
//! says what the program says today.

use coolpath_tests::reports::judged::{Judged, Outcome, median};
use coolpath_tests::reports::page::{GROUPS, page};
use coolpath_tests::reports::report::{Kind, reports};
use coolpath_tests::table::text::assert_committed;
use std::sync::LazyLock;

static OUTCOME: LazyLock<Outcome> = LazyLock::new(Outcome::of_all);

/// Groups whose median ratio misses its goal: the oil with a second hose falls by 12 °F where little
/// was noticed, and leaning cools by half of what was reported.
const MISSED: [&str; 2] = ["oil cooler", "mixture"];

fn counted() -> Vec<&'static Judged> {
    OUTCOME.counted(Kind::Change, None).collect()
}

#[test]
fn every_report_has_a_prediction_or_a_reason_for_none() {
    let mut found: Vec<&str> = OUTCOME
        .judged
        .iter()
        .filter(|one| !one.is_alternative)
        .map(|one| one.report.id.as_str())
        .chain(
            OUTCOME
                .left_out
                .iter()
                .map(|(report, _)| report.id.as_str()),
        )
        .collect();
    found.sort_unstable();
    let all = reports();
    let mut expected: Vec<&str> = all.iter().map(|report| report.id.as_str()).collect();
    expected.sort_unstable();
    assert_eq!(found, expected);
    for (report, why) in &OUTCOME.left_out {
        assert!(!why.is_empty(), "{}", report.id);
    }
    for one in &OUTCOME.judged {
        // A band from few draws is none.
        assert!(one.lost < 0.2, "{}: {}", one.report.id, one.lost);
        assert!(one.band.0 <= one.predicted && one.predicted <= one.band.1);
    }
}

#[test]
fn levels_of_heads_have_a_median_bias_within_ten_degrees() {
    let own = || OUTCOME.counted(Kind::Level, Some("level"));
    assert!(own().count() >= 13);
    let bias = median(own().map(Judged::miss)).expect("levels");
    assert!(bias.abs() <= 10.0, "{bias} °F");
}

#[test]
fn every_change_has_its_sign() {
    for one in counted() {
        assert!(one.has_its_sign(), "{}: {}", one.report.id, one.predicted);
    }
}

#[test]
fn eight_changes_in_ten_lie_in_their_band() {
    let all = counted();
    assert!(all.len() >= 12, "{}", all.len());
    let inside = all.iter().filter(|one| one.is_inside()).count();
    assert!(10 * inside >= 8 * all.len(), "{inside} of {}", all.len());
}

#[test]
fn median_ratios_of_groups_lie_between_seven_and_thirteen_tenths() {
    for group in GROUPS.into_iter().filter(|group| !MISSED.contains(group)) {
        let ratios = OUTCOME
            .counted(Kind::Change, Some(group))
            .map(Judged::ratio);
        // The one report of pressure is shown apart.
        let Some(ratio) = median(ratios) else {
            assert_eq!(group, "pressure");
            continue;
        };
        assert!((0.7..=1.3).contains(&ratio), "{group}: {ratio}");
    }
}

#[test]
fn the_page_says_what_the_program_says_today() {
    assert_committed("reports/reports_table.md", &page(&OUTCOME));
}
