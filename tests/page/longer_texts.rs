//! In a made-up language, whose texts are longer and accented, every view still fits, narrow and wide, with
//! everything unfolded, and no text is left in English.
//!
//! Whether texts of drawings and charts fit is not looked at: they are placed by their measured width when they
//! are drawn.

use crate::flight_test::fill;
use coolpath_core::document::example;
use coolpath_tests::browser::{self, BrowserError, DIALOGS, PLACES, Page, Site};
use coolpath_tests::flight_log;
use coolpath_tests::scratch::Scratch;
use coolpath_tests::texts::{Texts, made_up};
use std::fs;

/// What finds a text that is left in English.
const PLAIN: &str = include_str!("longer_texts/plain.js");
/// What finds a text that does not fit.
const UNFIT: &str = include_str!("longer_texts/unfit.js");
/// Name of the flight log.
const LOG: &str = "longer.csv";

/// A site that has the made-up language.
fn site() -> Site {
    let (site, folder) = Site::of_own("/").expect("a site");
    let file = |name: &str| folder.join(name);
    let language = made_up::language(&Texts::of_project());
    let name = language["name"].as_str().expect("a name");
    let written = format!("texts-{}.json", made_up::CODE);
    fs::write(file(&written), language.to_string()).expect("a language");
    let head = format!(
        "<meta name=\"coolpath-languages\" content=\"{} {name}\">\n</head>",
        made_up::CODE
    );
    let page = fs::read_to_string(file("index.html")).expect("a page");
    fs::write(file("index.html"), page.replacen("</head>", &head, 1)).expect("a page");
    for packed in ["index.html.br", "index.html.gz"] {
        fs::remove_file(file(packed)).expect("a packed copy");
    }
    site
}

/// Texts that do not fit, or are left in English.
#[derive(Default)]
struct Faults(Vec<String>);

impl Faults {
    /// Looks at the page as it stands.
    async fn look(&mut self, page: &Page, place: &str) -> Result<(), BrowserError> {
        // In one script, before the page draws anything anew.
        const LOOK: &str = "const { sheet } = document.querySelector('style, link[rel=stylesheet]');\
            const far = sheet.insertRule('.figure { content-visibility: visible !important }',\
                sheet.cssRules.length);\
            const unfit = findUnfit();\
            sheet.deleteRule(far);\
            return [unfit, findPlain(arguments[0]), findTranslatedMarkup()];";
        let script = format!("{PLAIN}\n{UNFIT}\n{LOOK}");
        let seen = page.script(&script, vec![names().into()]).await?;
        let found: [Vec<String>; 3] = serde_json::from_value(seen.clone())
            .map_err(|_| BrowserError::Script(seen.to_string()))?;
        for (what, texts) in ["does not fit", "left in English", "is no text"]
            .iter()
            .zip(found)
        {
            let told = texts
                .into_iter()
                .map(|text| format!("{place}, {what}: {text}"));
            self.0.extend(told);
        }
        Ok(())
    }

    /// Fails if there is any.
    fn expect_none(&self) {
        assert!(self.0.is_empty(), "{} faults: {:#?}", self.0.len(), self.0);
    }
}

/// What is the same in every language: names that a visitor gave, the log's own, names of keys, languages and
/// licences.
fn names() -> Vec<String> {
    let design = example::design();
    let places = &design.installation;
    let conditions = design.conditions.iter().map(|one| one.name.clone());
    let inlets = places.inlets.iter().map(|one| one.name.clone());
    let exits = places.exits.iter().map(|one| one.name.clone());
    let log = flight_log::text(&design, 1);
    let columns = log.lines().next().unwrap_or_default().split(',');
    let fixed = [
        LOG,
        "English",
        "MIT or Apache-2.0",
        "windows-1252",
        "utf-",
        "mmH₂O",
    ];
    let more = columns.chain(fixed).map(str::to_owned);
    let own = conditions.chain(inlets).chain(exits).chain(more);
    std::iter::once(design.name.clone()).chain(own).collect()
}

#[test]
fn every_view_has_room_for_longer_texts() {
    let site = site();
    let log = Scratch::new(LOG, flight_log::text(&example::design(), 1).as_bytes());
    browser::run(|page| async move {
        let mut faults = Faults::default();
        page.visit(&site.url()).await?;
        let page = page.in_made_up().await?;
        for width_px in [375, 1024, 1440] {
            page.set_viewport(width_px, 900).await?;
            page.visit(&site.url()).await?;
            for place in PLACES {
                page.go_and_unfold(place, log.path()).await?;
                faults
                    .look(&page, &format!("{place}, {width_px} px"))
                    .await?;
            }
            for dialog in DIALOGS {
                page.open_dialog(dialog).await?;
                faults
                    .look(&page, &format!("{dialog}, {width_px} px"))
                    .await?;
                page.close_dialog().await?;
            }
        }
        faults.expect_none();
        page.expect_no_faults().await
    });
}

#[test]
fn menus_and_the_sheet_of_a_part_have_room_for_longer_texts() {
    let site = site();
    browser::run(|page| async move {
        let mut faults = Faults::default();
        page.visit(&site.url()).await?;
        let page = page.in_made_up().await?;
        for width_px in [375, 1440] {
            page.set_viewport(width_px, 900).await?;
            page.visit(&site.url()).await?;
            // What can be undone stands in the header.
            const STEP: &str =
                "document.querySelector('#part .stepper button:last-child').click();";
            page.script(STEP, vec![]).await?;
            page.until(
                "something to undo",
                "return document.querySelector('.undo').dataset.what !== undefined;",
            )
            .await?;
            page.unfold(".share").await?;
            faults.look(&page, &format!("share, {width_px} px")).await?;
            page.script("document.querySelector('.share').open = false;", vec![])
                .await?;
            page.open_menu().await?;
            faults.look(&page, &format!("menu, {width_px} px")).await?;
            page.script("document.querySelector('.aircraft').open = false;", vec![])
                .await?;
            const PARTS: &str =
                "return document.querySelector('.part-list select').options.length;";
            let parts = page.script(PARTS, vec![]).await?.as_u64().unwrap_or(0);
            assert!(parts > 5, "{parts} parts");
            for part in 0..parts {
                // As the drawing would: the list of parts stands in the sheet itself.
                const CHOOSE: &str = "const list = document.querySelector('.part-list select');\
                    list.selectedIndex = arguments[0];\
                    list.dispatchEvent(new Event('change', { bubbles: true }));";
                page.script(CHOOSE, vec![part.into()]).await?;
                page.until(
                    "the sheet",
                    "document.querySelectorAll('#part details').forEach((one) => { one.open = true; });\
                     return document.querySelector('#part').checkVisibility();",
                )
                .await?;
                faults
                    .look(&page, &format!("part {part}, {width_px} px"))
                    .await?;
            }
        }
        faults.expect_none();
        page.expect_no_faults().await
    });
}

#[test]
fn the_first_visit_has_room_for_longer_texts() {
    let site = site();
    browser::run(|page| async move {
        let mut faults = Faults::default();
        page.open(&site.url()).await?;
        let page = page.in_made_up().await?;
        for width_px in [375, 1440] {
            page.set_viewport(width_px, 900).await?;
            page.open("about:blank").await?;
            page.open(&site.url()).await?;
            page.wait_for_text(".first-use", "Try the example").await?;
            faults
                .look(&page, &format!("welcome, {width_px} px"))
                .await?;
            page.press("Enter my aircraft").await?;
            for screen in 1..=6 {
                page.wait_for_text(".question-count", &format!("{screen} of 6"))
                    .await?;
                faults
                    .look(&page, &format!("question {screen}, {width_px} px"))
                    .await?;
                if screen < 6 {
                    page.press("Next").await?;
                }
            }
            // What is half answered would be asked further.
            page.script("sessionStorage.clear();", vec![]).await?;
        }
        faults.expect_none();
        page.expect_no_faults().await
    });
}

/// What the page has stored of this window's design, texts, units and columns.
async fn stored(page: &Page) -> Result<serde_json::Value, BrowserError> {
    const STORED: &str = "const mark = sessionStorage.getItem('coolpath:mark');\
        return JSON.parse(localStorage.getItem(`coolpath:tab:${mark}`));";
    page.script(STORED, vec![]).await
}

#[test]
fn what_is_kept_is_the_same_in_every_language() {
    let site = site();
    let log = Scratch::new(LOG, flight_log::text(&example::design(), 1).as_bytes());
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.read_log(log.path()).await?;
        page.press("Use the whole flight (60 min)").await?;
        page.unfold("#readings").await?;
        let indicator = "kt on an airspeed indicator";
        fill(&page, "Unit of Δp across the baffles", indicator).await?;
        let before = stored(&page).await?;
        assert!(before.to_string().contains(indicator), "{before}");
        let page = page.in_made_up().await?;
        page.read_log(log.path()).await?;
        page.wait_for_text("#log-whole", "The whole flight is among the readings")
            .await?;
        const UNIT: &str = "return document.querySelector('#readings select[aria-label]') !== null\
            && [...document.querySelectorAll('#readings select')].some((list) => list.value === 'kt on an airspeed indicator');";
        page.unfold("#readings").await?;
        page.until("the unit", UNIT).await?;
        assert_eq!(stored(&page).await?, before);
        page.expect_no_faults().await
    });
}
