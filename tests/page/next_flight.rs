//! From a flight that is fitted to the next, which is checked on; and what an import says of a sick one.

use crate::flight_test::{fill, find_values, press_all, take_over};
use coolpath_core::document::example;
use coolpath_tests::blocked_log;
use coolpath_tests::browser::{self, BrowserError, Page, Site};
use coolpath_tests::faulty_log;
use coolpath_tests::flight_log;
use coolpath_tests::flight_log::Day;
use coolpath_tests::scratch::Scratch;

/// A flight of an aircraft that differs from the example in what the fit can learn.
pub fn planted(seed: u64, day: &Day, oil_share_by: f64) -> String {
    let mut truth = example::design();
    truth.installation.exits[0].pressure_coefficient += 0.05;
    truth.installation.reference.head.value += 8.0;
    truth.installation.oil.heat_share *= 1.1 * oil_share_by;
    flight_log::text_on(&truth, seed, day)
}

/// Adds every stretch of a log that is flown.
pub async fn add_flown(page: &Page) -> Result<u64, BrowserError> {
    let mut count = 0;
    for begins in ["Add Steady", "Add Climb", "Add Descent"] {
        count += press_all(page, begins).await?;
    }
    Ok(count)
}

/// The red note stands before whatever else is said of a log.
const RED_FIRST: &str = "const all = [...document.querySelectorAll('#log .grave, #log .warnings, #log figure')];\
    return all[0].className === 'grave';";

/// Reads the log of the next flight, which is there to check what was fitted.
pub(crate) async fn open_for_checking(page: &Page, log: &Scratch) -> Result<(), BrowserError> {
    page.read_log(log.path()).await?;
    page.wait_for_text("#log", "flight-b").await?;
    page.until(
        "what is added is for checking only",
        "return document.querySelector('#log-use')?.selectedIndex === 1;",
    )
    .await
}

/// Checks the model on what it has not seen, and waits for the answer.
pub(crate) async fn check_the_model(page: &Page, said: &str) -> Result<(), BrowserError> {
    page.unfold("#next-flight").await?;
    page.press("Check the model").await?;
    page.wait_for_text("#next-flight figcaption h3", said)
        .await?;
    Ok(())
}

#[test]
fn a_flight_is_fitted_the_next_is_checked_on_and_the_sentence_says_whether_it_held() {
    let site = Site::served("/").expect("a site");
    let first = Scratch::new("flight-a.csv", planted(3, &Day::default(), 1.0).as_bytes());
    let same = Scratch::new("flight-b.csv", planted(4, &Day::OTHER, 1.0).as_bytes());
    let other = Scratch::new("flight-c.csv", planted(5, &Day::OTHER, 1.25).as_bytes());
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        page.wait_for_text(".step:nth-child(3) .step-state", "needs readings")
            .await?;
        page.read_log(first.path()).await?;
        page.wait_for_text("#log", "3600 rows").await?;
        assert_eq!(add_flown(&page).await?, 4);
        page.wait_for_text(".step:nth-child(2) .step-state", "2 readings, 2 stretches")
            .await?;
        find_values(
            &page,
            "Fitted on 2 steady stretches and 2 stretches read all along",
        )
        .await?;
        take_over(&page).await?;
        // The next flight is there to check what was fitted.
        open_for_checking(&page, &same).await?;
        assert_eq!(add_flown(&page).await?, 4);
        page.wait_for_text(".step:nth-child(2) .step-state", "4 for checking only")
            .await?;
        check_the_model(&page, "of a flight it had not seen; ").await?;
        const TOLD: &str = "const title = document.querySelector('#next-flight figcaption h3').textContent;\
            const rows = [...document.querySelector('#next-flight .table-view').querySelectorAll('tbody tr')]\
                .map((row) => [...row.children].map((cell) => cell.textContent));\
            return [title, rows];";
        let told = page.script(TOLD, vec![]).await?;
        let title = told[0].as_str().unwrap_or_default().to_owned();
        let (held, all) = counts(&title);
        assert!(title.starts_with("Held on "), "{title}");
        assert!(all > 8 && 10 * held >= 9 * all, "{title}");
        let rows: Vec<&str> = told[1]
            .as_array()
            .into_iter()
            .flatten()
            .filter_map(|row| row[0].as_str())
            .collect();
        assert_eq!(
            rows[..4],
            ["mean head", "hottest head", "oil", "Δp across the baffles"]
        );
        assert!(rows.contains(&"head 4"), "{rows:?}");
        page.wait_for_text(".step:nth-child(4) .step-state", "held on ")
            .await?;
        // A whole log is marked at once; another aircraft's flight is not held.
        let log = format!("Use all of {} for", file_name(&same));
        fill(&page, &log, "none").await?;
        page.read_log(other.path()).await?;
        page.wait_for_text("#log", "flight-c").await?;
        assert_eq!(add_flown(&page).await?, 4);
        page.wait_for_text("#next-flight .stale", "have changed since")
            .await?;
        page.press("Check the model").await?;
        page.wait_for_text("#next-flight figcaption h3", "Did not hold on ")
            .await?;
        page.wait_for_text("#next-flight figcaption h3", "°F low")
            .await?;
        page.wait_for_text("#next-flight", "do not rely on it")
            .await?;
        page.expect_no_faults().await
    });
}

fn file_name(file: &Scratch) -> String {
    let name = file.path().file_name().unwrap_or_default();
    name.to_string_lossy().into_owned()
}

/// The numbers of "Held on 11 of 12 windows".
fn counts(title: &str) -> (u32, u32) {
    let mut numbers = title.split(' ').filter_map(|word| word.parse().ok());
    let next = |numbers: &mut dyn Iterator<Item = u32>| numbers.next().unwrap_or_default();
    (next(&mut numbers), next(&mut numbers))
}

#[test]
fn a_cylinder_that_does_not_fire_stands_first_in_red_and_a_low_probe_can_be_left_out() {
    let site = Site::served("/").expect("a site");
    let file = Scratch::new("faulty.csv", faulty_log::text().as_bytes());
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        page.read_log(file.path()).await?;
        page.wait_for_text("#log", "2400 rows, 16 columns, 2 sessions")
            .await?;
        page.wait_for_text("#log .grave", "Cylinder 3 may not be firing (CHT")
            .await?;
        page.wait_for_text("#log .grave", "look at its plugs")
            .await?;
        page.wait_for_text("#log .warnings", "Oil: 12 values set aside")
            .await?;
        page.until("the red note before all others", RED_FIRST)
            .await?;
        page.wait_for_text("#log figcaption", "Crosses were set aside")
            .await?;
        page.wait_for_text("#log table", "Ground run 0–").await?;
        page.wait_for_text("#log .warnings", "CHT 2 stands far from the other heads")
            .await?;
        page.press("Leave CHT 2 out of the mean").await?;
        page.until(
            "CHT 2 is not doubted any more",
            "return !document.querySelector('#log .warnings').textContent.includes('CHT 2');",
        )
        .await?;
        assert!(press_all(&page, "Add Steady").await? > 0);
        page.unfold("#readings").await?;
        page.wait_for_text("#readings .grave", "Cylinder 3 may not be firing")
            .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn a_nozzle_that_becomes_blocked_stands_first_in_red_with_what_to_look_at() {
    let site = Site::served("/").expect("a site");
    let text = blocked_log::text(&example::design(), &[false, true]);
    let file = Scratch::new("blocked.csv", text.as_bytes());
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        page.read_log(file.path()).await?;
        page.wait_for_text("#log", "2 sessions").await?;
        page.wait_for_text("#log figcaption", "steady").await?;
        const RED: &str = "return document.querySelectorAll('#log .grave').length;";
        let healthy = page.script(RED, vec![]).await?;
        assert_eq!(healthy.as_u64(), Some(0), "the first flight is healthy");
        const SECOND: &str = "const list = document.querySelector('#log-session');\
            list.selectedIndex = 1; list.dispatchEvent(new Event('change', { bubbles: true }));";
        page.script(SECOND, vec![]).await?;
        page.wait_for_text(
            "#log .grave strong",
            "The nozzle of cylinder 2 may be partly blocked",
        )
        .await?;
        page.wait_for_text("#log .grave", "take the nozzle out, clean and check it")
            .await?;
        page.until("the red note before all others", RED_FIRST)
            .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn a_nozzle_that_becomes_blocked_in_mid_flight_is_dated_in_red() {
    let site = Site::served("/").expect("a site");
    let since_s = blocked_log::length_s() / 2;
    let log = blocked_log::text_since(&example::design(), &[since_s]);
    let log = Scratch::new("half-blocked.csv", log.as_bytes());
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.read_log(log.path()).await?;
        let said = format!(
            "The nozzle of cylinder {} may be partly blocked, since about {:.0} min after lift-off",
            blocked_log::BLOCKED,
            f64::from(since_s) / 60.0
        );
        page.wait_for_text("#log .grave", &said).await?;
        page.until("red first", RED_FIRST).await?;
        page.press("Use the whole flight (26 min)").await?;
        page.wait_for_text("#log-whole", "among the readings")
            .await?;
        page.unfold("#readings").await?;
        page.wait_for_text("#readings .grave", &said).await?;
        page.expect_no_faults().await
    });
}
