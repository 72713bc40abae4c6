//! A flight that never settles is taken as one reading, fitted, kept, undone and checked on.

use crate::flight_test::{fill, take_over};
use crate::next_flight::check_the_model;
use coolpath_core::document::example;
use coolpath_tests::browser::{self, Site};
use coolpath_tests::restless_flight::{Structure, session, text};
use coolpath_tests::scratch::Scratch;

/// Half an hour of an aircraft that differs from the example in what a flight can show.
fn log(seed: u64) -> String {
    let mut truth = example::design();
    truth.installation.reference.head.value += 8.0;
    truth.installation.oil.heat_share *= 1.1;
    truth.installation.lags.heads = 130.0;
    let mut random = fastrand::Rng::with_seed(seed);
    text(&session(&truth, &Structure::default(), 1800, &mut random))
}

#[test]
fn a_flight_without_a_steady_window_is_used_whole_and_kept_over_a_reload() {
    let site = Site::served("/").expect("a site");
    let first = Scratch::new("restless-a.csv", log(7).as_bytes());
    let next = Scratch::new("restless-b.csv", log(8).as_bytes());
    const STATE: &str = ".step:nth-child(2) .step-state";
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.read_log(first.path()).await?;
        page.wait_for_text("#log", "1800 rows").await?;
        page.until(
            "no steady stretch",
            "return ![...document.querySelectorAll('#log th[scope=row]')]\
                .some((cell) => cell.textContent.startsWith('Steady'));",
        )
        .await?;
        page.press("Use the whole flight (30 min)").await?;
        page.wait_for_text("#log-whole", "The whole flight is among the readings")
            .await?;
        page.wait_for_text(STATE, "1 whole flight of 30 min")
            .await?;
        page.press("Undo").await?;
        page.wait_for_text(STATE, "none yet").await?;
        page.press("Use the whole flight (30 min)").await?;
        page.wait_for_text(STATE, "1 whole flight of 30 min")
            .await?;
        page.open("about:blank").await?;
        page.open(&format!("{}#fly", site.url())).await?;
        page.wait_for_text(STATE, "1 whole flight of 30 min")
            .await?;
        page.unfold("#calibrate").await?;
        page.press("Find the values").await?;
        // In one script: a fit may be done before a second command comes.
        const STOP: &str = "const stop = [...document.querySelectorAll('#calibrate button')]\
                .find((button) => button.textContent === 'Stop');\
            if (stop) stop.click();\
            return stop !== undefined;";
        page.until("its stop", STOP).await?;
        page.wait_for_text("#calibrate", "Stopped. Nothing was changed.")
            .await?;
        page.press("Find the values").await?;
        page.wait_for_text("#calibrate .fitted-on", "Fitted on the whole flight of ")
            .await?;
        page.wait_for_text("#calibrate .over-flights", "119 moments over 30 min")
            .await?;
        page.wait_for_text(
            "#calibrate .over-flights",
            "a minute later, so that they count as",
        )
        .await?;
        // The time constant of the flight was 130 s, and is told in minutes.
        page.until(
            "the time constant found",
            "const rows = [...document.querySelectorAll('#calibrate td, #calibrate th')].map((cell) => cell.textContent);\
             const at = rows.indexOf('time constant of the heads');\
             const [low, high] = rows[at + 3].split(' to ').map(parseFloat);\
             return low < 130 / 60 && 130 / 60 < high;",
        )
        .await?;
        take_over(&page).await?;
        // The next flight is checked on as a whole.
        page.read_log(next.path()).await?;
        page.wait_for_text("#log", "restless-b").await?;
        page.press("Use the whole flight (30 min)").await?;
        page.wait_for_text(
            STATE,
            "2 whole flights of 59 min in all, 1 for checking only",
        )
        .await?;
        check_the_model(&page, "of a flight it had not seen; ").await?;
        let name = next.path().file_name().unwrap_or_default();
        let choice = format!("Use all of {} for", name.to_string_lossy());
        fill(&page, &choice, "none").await?;
        page.wait_for_text(STATE, "1 whole flight of 30 min")
            .await?;
        page.expect_no_faults().await
    });
}
