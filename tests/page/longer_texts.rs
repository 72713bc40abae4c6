//! Every view still fits when a language makes its texts longer: a made-up language is laid over the page as
//! it is drawn, narrow and wide, with everything unfolded.
//!
//! Left as they are: what a visitor typed, and texts of drawings and charts, which are placed by their measured
//! width when they are drawn.

use coolpath_core::document::example;
use coolpath_tests::browser::{self, BrowserError, DIALOGS, PLACES, Page, Site};
use coolpath_tests::flight_log;
use coolpath_tests::scratch::Scratch;
use serde_json::Value;

/// The made-up language.
const LENGTHEN: &str = include_str!("longer_texts/lengthen.js");
/// What finds a text that does not fit.
const UNFIT: &str = include_str!("longer_texts/unfit.js");

/// What a script returns that has both at hand.
async fn seen(page: &Page, end: &str, arguments: Vec<Value>) -> Result<Vec<String>, BrowserError> {
    let script = format!("{LENGTHEN}\n{UNFIT}\n{end}");
    let seen = page.script(&script, arguments).await?;
    serde_json::from_value(seen.clone()).map_err(|_| BrowserError::Script(seen.to_string()))
}

/// Fails if a text does not fit when all are longer; then the picture of the failure shows them so.
async fn expect_room(page: &Page, place: &str) -> Result<(), BrowserError> {
    // In one script, before the page draws anything anew.
    const LOOK: &str = "const { sheet } = document.querySelector('style, link[rel=stylesheet]');\
        const far = sheet.insertRule('.figure { content-visibility: visible !important }',\
            sheet.cssRules.length);\
        const undo = lengthenAll();\
        const unfit = findUnfit();\
        if (unfit.length === 0) { undo(); sheet.deleteRule(far); }\
        return unfit;";
    let unfit = seen(page, LOOK, vec![]).await?;
    assert!(unfit.is_empty(), "{place}: {unfit:#?}");
    Ok(())
}

#[test]
fn every_view_has_room_for_longer_texts() {
    let site = Site::served("/").expect("a site");
    let log = Scratch::new(
        "longer.csv",
        flight_log::text(&example::design(), 1).as_bytes(),
    );
    browser::run(|page| async move {
        for width_px in [375, 1024, 1440] {
            page.set_viewport(width_px, 900).await?;
            page.visit(&site.url()).await?;
            for place in PLACES {
                page.go_and_unfold(place, log.path()).await?;
                expect_room(&page, &format!("{place}, {width_px} px")).await?;
            }
            for dialog in DIALOGS {
                page.open_dialog(dialog).await?;
                expect_room(&page, &format!("{dialog}, {width_px} px")).await?;
                page.close_dialog().await?;
            }
        }
        page.expect_no_faults().await
    });
}

#[test]
fn menus_and_the_sheet_of_a_part_have_room_for_longer_texts() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
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
            expect_room(&page, &format!("share, {width_px} px")).await?;
            page.script("document.querySelector('.share').open = false;", vec![])
                .await?;
            page.open_menu().await?;
            expect_room(&page, &format!("menu, {width_px} px")).await?;
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
                expect_room(&page, &format!("part {part}, {width_px} px")).await?;
            }
        }
        page.expect_no_faults().await
    });
}

#[test]
fn the_first_visit_has_room_for_longer_texts() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        for width_px in [375, 1440] {
            page.set_viewport(width_px, 900).await?;
            page.open("about:blank").await?;
            page.open(&site.url()).await?;
            page.wait_for_text(".first-use", "Try the example").await?;
            expect_room(&page, &format!("welcome, {width_px} px")).await?;
            page.press("Enter my aircraft").await?;
            for screen in 1..=6 {
                page.wait_for_text(".question-count", &format!("{screen} of 6"))
                    .await?;
                expect_room(&page, &format!("question {screen}, {width_px} px")).await?;
                if screen < 6 {
                    page.press("Next").await?;
                }
            }
            // What is half answered would be asked further.
            page.script("sessionStorage.clear();", vec![]).await?;
        }
        page.expect_no_faults().await
    });
}

#[test]
fn texts_grow_as_they_do_between_languages() {
    browser::run(|page| async move {
        page.open("data:text/html,<p>").await?;
        const LONGER: &str = "return arguments[0].map(longer);";
        let texts = [
            "Design",
            "Undo",
            "Workshop",
            "Exit",
            "Cautions",
            "Size the openings",
            "The design has changed: this size is for the earlier one.",
            "Nothing yet: a generic engine of this power",
        ];
        let longer = seen(&page, LONGER, vec![texts.to_vec().into()]).await?;
        for (text, longer) in texts.iter().zip(&longer) {
            let [short, long] = [*text, longer].map(|text| text.chars().count());
            let growth = long as f64 / short as f64 - 1.0;
            let usual = if short < 10 { 0.6..=1.0 } else { 0.3..=0.4 };
            assert!(usual.contains(&growth), "{text}: {longer}, {growth}");
            assert!(longer.starts_with('[') && longer.ends_with(']'), "{longer}");
        }
        // Numbers, units and abbreviations stay, but for the decimal sign.
        let kept = ["3.6 °F", "1.5 inH₂O", "CHT", " 12,000 ", "Coolpath"];
        let shown = seen(&page, LONGER, vec![kept.to_vec().into()]).await?;
        assert_eq!(
            shown,
            ["3,6 °F", "1,5 inH₂O", "CHT", " 12,000 ", "Coolpath"]
        );
        Ok(())
    });
}

/// A fragment of a page and how what is found in it begins; nothing is found in one that is sound.
const FRAGMENTS: [(&str, Option<&str>); 19] = [
    (
        "<p style='width: 9em'>A text that is whole</p><button>Press</button>",
        None,
    ),
    (
        "<div style='width: 4em; overflow: hidden; white-space: nowrap'>A text too long</div>",
        Some("cut"),
    ),
    (
        "<div style='width: 4em; overflow: clip; white-space: nowrap; text-overflow: ellipsis'>A text too long</div>",
        Some("cut"),
    ),
    (
        "<div style='width: 5em; height: 1.4em; overflow: hidden'>A text of several lines</div>",
        Some("cut"),
    ),
    (
        "<div style='width: 5em; overflow: hidden; display: -webkit-box; -webkit-box-orient: vertical; -webkit-line-clamp: 2'>A text of several lines</div>",
        Some("cut"),
    ),
    (
        "<button style='width: 3em; white-space: nowrap'>A long name</button>",
        Some("out of its box"),
    ),
    (
        "<button style='width: 5em; height: 1.6em'>A name of several lines</button>",
        Some("out of its box"),
    ),
    (
        "<div style='border: 1px solid; height: 1.4em; width: 5em'>A text of several lines</div>",
        Some("out of its box"),
    ),
    (
        "<div style='display: flex'><span style='width: 3em; white-space: nowrap'>A long text</span><span>Next</span></div>",
        Some("over one another"),
    ),
    (
        "<div style='position: relative; white-space: nowrap'>A text<b style='position: absolute; left: 1em'>another</b></div>",
        Some("over one another"),
    ),
    (
        "<div style='display: flex'><span style='width: 1em; white-space: nowrap'>A text</span><input></div>",
        Some("over one another"),
    ),
    (
        "<div style='width: 5000px'>A text</div>",
        Some("the page is"),
    ),
    (
        "<div style='margin-left: -3em'>A text</div>",
        Some("out of the page"),
    ),
    (
        "<select style='width: 6em'><option>A choice of many words</option></select>",
        Some("cut"),
    ),
    (
        "<select style='appearance: base-select; width: 6em; white-space: nowrap'><option>A choice of many words</option></select>",
        Some("cut"),
    ),
    (
        "<p>A text</p><select style='appearance: base-select; width: 6em; white-space: normal'><option>A choice of many words</option></select>",
        None,
    ),
    (
        "<input style='width: 4em' placeholder='A hint too long'>",
        Some("cut"),
    ),
    (
        "<div style='width: 4em; overflow-x: auto; white-space: nowrap'>A text too long</div>",
        Some("scrolls sideways"),
    ),
    (
        "<div class='scroll' tabindex='0' style='width: 4em; overflow-x: auto; white-space: nowrap'>A text too long</div>",
        None,
    ),
];

#[test]
fn what_does_not_fit_is_found_and_what_fits_is_not() {
    browser::run(|page| async move {
        page.open("data:text/html,<!doctype html><body>").await?;
        const LOOK: &str = "document.body.innerHTML = arguments[0]; return findUnfit();";
        for (fragment, kind) in FRAGMENTS {
            let unfit = seen(&page, LOOK, vec![fragment.into()]).await?;
            let is_right = match kind {
                Some(kind) => unfit.iter().any(|one| one.starts_with(kind)),
                None => unfit.is_empty(),
            };
            assert!(is_right, "{fragment}: {unfit:?}, not {kind:?}");
        }
        // A button that just holds its name, until that is longer.
        const GROW: &str = "document.body.innerHTML = '<button style=\"width: 6em\">Workshop</button>';\
            const before = findUnfit(); const undo = lengthenAll(); const long = findUnfit(); undo();\
            return [before, long, findUnfit()].map((found) => String(found.length > 0));";
        assert_eq!(seen(&page, GROW, vec![]).await?, ["false", "true", "false"]);
        Ok(())
    });
}
