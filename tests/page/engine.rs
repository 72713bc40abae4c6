//! Long work in workers: the same answers with them, without them, and where they stop.

use coolpath_tests::browser::{self, BrowserError, Page, SingleFile, Site};

/// Counts the workers that the page starts, and questions that they are asked, under `window.hands`.
const COUNTED: &str = "window.hands = { started: 0, asked: 0 };\
    const Plain = window.Worker;\
    window.Worker = class extends Plain {\
        constructor(...all) { super(...all); window.hands.started += 1; }\
        postMessage(...all) { if (Array.isArray(all[0])) window.hands.asked += 1; super.postMessage(...all); }\
    };";

/// A browser without workers.
const REFUSED: &str = "window.hands = { started: 0, asked: 0 };\
    window.Worker = class { constructor() { throw new Error('refused'); } };";

/// Workers that are ended when they are asked for the third time.
const DYING: &str = "window.hands = { started: 0, asked: 0 };\
    const Plain = window.Worker;\
    window.Worker = class extends Plain {\
        constructor(...all) { super(...all); window.hands.started += 1; }\
        postMessage(...all) {\
            if (!Array.isArray(all[0])) return super.postMessage(...all);\
            window.hands.asked += 1;\
            if (window.hands.asked < 3) return super.postMessage(...all);\
            this.terminate();\
            setTimeout(() => this.dispatchEvent(new ErrorEvent('error')), 20);\
        }\
    };";

/// What workers did.
struct Hands {
    started: u64,
    asked: u64,
}

async fn hands(page: &Page) -> Result<Hands, BrowserError> {
    let found = page
        .script("return [window.hands.started, window.hands.asked];", vec![])
        .await?;
    let number = |at: usize| found[at].as_u64().unwrap_or_default();
    Ok(Hands {
        started: number(0),
        asked: number(1),
    })
}

/// The odds, the size and the ducts of the example, as the page says them, and what workers did for it.
fn told(url: &str, begin: &str) -> (Vec<String>, Hands) {
    let mut found = (
        Vec::new(),
        Hands {
            started: 0,
            asked: 0,
        },
    );
    let into = &mut found;
    browser::run(|page| async move {
        page.begin_documents_with(begin).await?;
        page.visit_and_settle(url).await?;
        page.go("size").await?;
        page.wait_for_text("#size", "Best estimate").await?;
        page.wait_for_text("#size", "What would fix it").await?;
        page.unfold("#sure").await?;
        page.press("Run 2,000 trials").await?;
        page.wait_for_text("#measure-next table", "°F").await?;
        page.unfold("#duct").await?;
        page.wait_for_text("#duct table", "in²").await?;
        for place in ["#size", "#sure", "#measure-next table", "#duct table"] {
            into.0.push(page.text(place).await?);
        }
        into.1 = hands(&page).await?;
        page.expect_no_faults().await
    });
    found
}

#[test]
fn workers_say_what_the_page_says_by_itself_and_so_does_a_page_whose_workers_stop() {
    let site = Site::served("/").expect("a site");
    let (without, none) = told(&site.url(), REFUSED);
    assert_eq!((none.started, none.asked), (0, 0));
    let (with, all) = told(&site.url(), COUNTED);
    assert!((1..=4).contains(&all.started), "{}", all.started);
    // Forty questions for the draws, as many for the readings, and each step of the courses.
    assert!(all.asked > 100, "{}", all.asked);
    assert_eq!(with, without);
    let (after, some) = told(&site.url(), DYING);
    assert!(some.asked >= 3 && some.asked < 20, "{}", some.asked);
    assert_eq!(after, without);
}

#[test]
fn the_single_file_has_workers_too() {
    let file = SingleFile::downloaded().expect("the file");
    let (with, all) = told(&file.url(), COUNTED);
    assert!(all.started >= 1 && all.asked > 100, "{}", all.asked);
    assert!(with[0].contains("Best estimate"));
}
