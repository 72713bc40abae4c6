//! Times on the page, in Chromium. Run one at a time: another browser beside this one would take time
//! from it.

use coolpath_core::document::example;
use coolpath_tests::browser::{self, BrowserError, Page, Site, Taken, numbers};
use coolpath_tests::flight_log;
use coolpath_tests::scratch::Scratch;

/// Longest that a task may block the page, ms.
const LONGEST_TASK_MS: f64 = 50.0;

/// Attempts. Other work of the machine takes time too; work that is slow is so each time.
const ATTEMPTS: usize = 3;

/// A piece of work that a person begins with one click or choice.
struct Work<'a, P, B> {
    what: &'a str,
    /// Longest that the whole may take, ms.
    whole_ms: f64,
    /// Brings the page to where the work can begin.
    prepare: P,
    begin: B,
    /// The element and the text in it that end the work.
    end: (&'a str, &'a str),
}

impl<P, B> Work<'_, P, B>
where
    P: AsyncFn(&Page) -> Result<(), BrowserError>,
    B: AsyncFn(&Page) -> Result<(), BrowserError>,
{
    /// Does the work, each time in a fresh browser, until it keeps the limits.
    fn is_quick(&self) {
        let mut attempts: Vec<Taken> = Vec::new();
        let kept = |taken: &Taken| {
            taken.whole_ms <= self.whole_ms && taken.longest_task_ms <= LONGEST_TASK_MS
        };
        while attempts.len() < ATTEMPTS && !attempts.iter().any(kept) {
            let site = Site::served("/").expect("a site");
            browser::run(|page| {
                let attempts = &mut attempts;
                async move {
                    page.visit_and_settle(&site.url()).await?;
                    (self.prepare)(&page).await?;
                    let (selector, part) = self.end;
                    attempts.push(page.timed(selector, part, &self.begin).await?);
                    page.expect_no_faults().await
                }
            });
        }
        println!("{}: {attempts:.0?}", self.what);
        assert!(
            attempts.iter().any(kept),
            "{}: at most {} ms and no task over {LONGEST_TASK_MS} ms; took {attempts:.0?}",
            self.what,
            self.whole_ms
        );
    }
}

#[test]
fn both_openings_are_sized() {
    Work {
        what: "sizing both openings, with the chance",
        whole_ms: 3000.0,
        prepare: async |page: &Page| page.go("results").await,
        begin: async |page: &Page| {
            const TOUCH: &str = "document.querySelector('.verdict a[href=\"#size\"]').click();";
            page.script(TOUCH, vec![]).await.map(|_| ())
        },
        end: ("#size", "Best estimate"),
    }
    .is_quick();
}

#[test]
fn an_alternative_is_compared() {
    Work {
        what: "an alternative",
        whole_ms: 3000.0,
        prepare: async |page: &Page| {
            page.go("compare").await?;
            page.wait_for_text("#compare .answer", "A plenum ").await?;
            Ok(())
        },
        begin: async |page: &Page| page.press("Worn seals").await,
        end: ("#compare .entry tbody", "°F"),
    }
    .is_quick();
}

#[test]
fn two_thousand_draws_over_all_conditions() {
    Work {
        what: "2,000 draws over six conditions",
        whole_ms: 1000.0,
        prepare: async |page: &Page| {
            page.go("decide").await?;
            page.unfold("#sure").await
        },
        begin: async |page: &Page| page.press("Run 2,000 trials").await,
        end: ("#sure table", "Take-off climb, hot day"),
    }
    .is_quick();
}

#[test]
fn four_megabytes_of_a_hundred_columns() {
    let big = Scratch::new("big.csv", wide_log(4_000_000).as_bytes());
    Work {
        what: "a log of 4 MB and 100 columns",
        whole_ms: 1000.0,
        prepare: async |page: &Page| page.go("log").await,
        begin: async |page: &Page| page.choose_file("Choose a log", big.path()).await,
        end: ("#log figure", "Heads and oil over the log"),
    }
    .is_quick();
}

#[test]
fn parameters_are_fitted_to_a_flight() {
    let flight = Scratch::new(
        "flight.csv",
        flight_log::text(&example::design(), 7).as_bytes(),
    );
    Work {
        what: "a calibration with a flight",
        whole_ms: 3000.0,
        prepare: async |page: &Page| {
            page.read_log(flight.path()).await?;
            page.add_stretches().await?;
            page.go("fly").await?;
            page.unfold("#calibrate").await
        },
        begin: async |page: &Page| page.press("Find the values").await,
        end: ("#calibrate", "Your conditions with these values"),
    }
    .is_quick();
}

#[test]
fn parameters_are_fitted_to_a_whole_flight_of_an_hour() {
    let flight = Scratch::new(
        "flight.csv",
        flight_log::text(&example::design(), 7).as_bytes(),
    );
    Work {
        what: "a calibration with a whole flight",
        whole_ms: 8000.0,
        prepare: async |page: &Page| {
            page.read_log(flight.path()).await?;
            page.press("Use the whole flight (60 min)").await?;
            page.unfold("#calibrate").await
        },
        begin: async |page: &Page| page.press("Find the values").await,
        end: ("#calibrate", "Your conditions with these values"),
    }
    .is_quick();
}

/// Longest time from a keystroke to finished answers and drawing, median of many, ms: twice the goal
/// of DEVELOPERS.md, as with the draws, since a machine may be half as fast as the one measured there.
const KEYSTROKE_MS: f64 = 32.0;

#[test]
fn a_keystroke_is_answered_with_verdict_drawing_and_conditions_before_it_is_noticed() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("design").await?;
        const MEASURE: &str = "const field = document.querySelector('#exit-gap_m-0');\
            const set = Object.getOwnPropertyDescriptor(HTMLInputElement.prototype, 'value').set;\
            window.times = []; window.measured = false;\
            (async () => { for (let at = 0; at < 25; at += 1) {\
                const start = performance.now();\
                set.call(field, (4 + at / 50).toFixed(2));\
                field.dispatchEvent(new InputEvent('input', { bubbles: true }));\
                await new Promise((done) => setTimeout(done));\
                window.times.push(performance.now() - start);\
                await new Promise((done) => setTimeout(done, 30));\
            } window.measured = true; })();";
        let mut medians = Vec::new();
        while medians.len() < ATTEMPTS && !medians.iter().any(|median| *median < KEYSTROKE_MS) {
            page.script(MEASURE, vec![]).await?;
            page.until("the measurement", "return window.measured;")
                .await?;
            let mut times = numbers(&page.script("return window.times;", vec![]).await?);
            times.sort_by(f64::total_cmp);
            assert_eq!(times.len(), 25);
            println!("a keystroke: {:.1} ms, {:.1} at most", times[12], times[24]);
            medians.push(times[12]);
        }
        assert!(
            medians.iter().any(|median| *median < KEYSTROKE_MS),
            "median of {medians:?} ms"
        );
        page.expect_no_faults().await
    });
}

/// A log of a hundred columns, most of them of no use here.
fn wide_log(bytes: usize) -> String {
    let mut text = "Time".to_owned();
    for column in 1..100 {
        text.push_str(&match column {
            1..=6 => format!(",CHT{column} (deg F)"),
            7 => ",Oil Temp (deg F)".to_owned(),
            8 => ",IAS (kt)".to_owned(),
            9 => ",Pressure Altitude (ft)".to_owned(),
            _ => format!(",Other {column}"),
        });
    }
    text.push('\n');
    let mut second = 0;
    while text.len() < bytes {
        text.push_str(&second.to_string());
        for column in 1..100 {
            let value = match column {
                1..=6 => 380 + column + second % 3,
                7 => 190,
                8 => 120,
                9 => 5000,
                _ => (second * column) % 1000,
            };
            text.push_str(&format!(",{value}.5"));
        }
        text.push('\n');
        second += 1;
    }
    text
}
