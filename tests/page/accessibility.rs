//! No violation that axe-core knows, in either theme, narrow and wide, with everything unfolded.

use coolpath_core::document::example;
use coolpath_tests::browser::{self, BrowserError, Medium, Page, SingleFile, Site, Theme};
use coolpath_tests::flight_log;
use coolpath_tests::scratch::Scratch;
use std::{env, fs};

/// The checker's own text; `tests/run` fetches it and says where it lies.
fn checker() -> String {
    let path = env::var("COOLPATH_AXE").expect("COOLPATH_AXE: run this by tests/run page");
    fs::read_to_string(path).expect("the checker's text")
}

async fn violations(page: &Page, checker: &str) -> Result<Vec<String>, BrowserError> {
    const BEGIN: &str = "window.axeFound = null; window.axe.run().then((found) => {\
        window.axeFound = found.violations.map((violation) => violation.id + ': '\
            + violation.nodes.slice(0, 4).map((node) => node.target.join(' ')).join(', ')); });";
    page.script(&format!("{checker};{BEGIN}"), vec![]).await?;
    let found = page
        .wait_for("the checker", async |page: &Page| {
            let found = page.script("return window.axeFound;", vec![]).await?;
            Ok((!found.is_null()).then_some(found))
        })
        .await?;
    Ok(found
        .as_array()
        .into_iter()
        .flatten()
        .filter_map(|text| text.as_str().map(str::to_owned))
        .collect())
}

/// Presses a button wherever it stands, even under the line at the bottom of a phone's window.
async fn press(page: &Page, button: &str) -> Result<(), BrowserError> {
    const PRESS: &str = "[...document.querySelectorAll('button')]\
        .find((button) => button.textContent.trim() === arguments[0]).click();";
    page.script(PRESS, vec![button.into()]).await?;
    Ok(())
}

/// Opens a dialog by its button at the foot, or by the list of units.
async fn open_dialog(page: &Page, name: &str) -> Result<(), BrowserError> {
    if name == "Units" {
        page.open_menu().await?;
        const LAST: &str = "const list = document.querySelector('#units');\
            list.selectedIndex = list.options.length - 1;\
            list.dispatchEvent(new Event('change', { bubbles: true }));";
        page.script(LAST, vec![]).await?;
    } else {
        press(page, name).await?;
    }
    page.wait_for_text("dialog[open]", "Close").await?;
    Ok(())
}

#[test]
fn the_checker_finds_no_violation_with_everything_unfolded() {
    let site = Site::served("/").expect("a site");
    let checker = checker();
    let log = Scratch::new(
        "axe.csv",
        flight_log::text(&example::design(), 1).as_bytes(),
    );
    browser::run(|page| async move {
        for (width_px, theme) in [
            (375, Theme::Light),
            (375, Theme::Dark),
            (1440, Theme::Light),
            (1440, Theme::Dark),
        ] {
            page.set_viewport(width_px, 900).await?;
            page.show(theme, Medium::Screen).await?;
            page.visit(&site.url()).await?;
            const UNFOLD: &str = "document.querySelectorAll('.view:not([hidden]) details')\
                .forEach((part) => { part.open = true; });";
            for place in [
                "design", "inputs", "results", "decide", "fly", "workshop", "report",
            ] {
                page.go(place).await?;
                match place {
                    "results" => {
                        page.wait_for_text(".answers .band", "…").await?;
                    }
                    "decide" => {
                        const ADD: &str = "for (const button of document.querySelectorAll('#compare .phrases button'))\
                            if (/Hard plenum/.test(button.textContent)\
                                && !document.querySelector('#alternative-0')) button.click();";
                        page.script(ADD, vec![]).await?;
                        page.wait_for_text("#card td", "of 6").await?;
                        page.wait_for_text("#size figure", "CHT, oil and drag over")
                            .await?;
                        page.wait_for_text("#compare figure", "Hottest CHT, exit")
                            .await?;
                    }
                    "fly" => {
                        // Panels are drawn one after another; this is the last.
                        page.wait_for_text(".view:not([hidden])", "Change log")
                            .await?;
                        page.script(UNFOLD, vec![]).await?;
                        page.choose_file("Choose a log", log.path()).await?;
                        page.wait_for_text("#log figure", "Heads and oil").await?;
                        page.add_stretches().await?;
                        press(&page, "Find the values").await?;
                        page.wait_for_text("#calibrate figure", "Predicted against")
                            .await?;
                        press(&page, "Correct the readings").await?;
                        page.wait_for_text("#hot-day table", "By the rule").await?;
                        press(&page, "Add a change").await?;
                    }
                    "report" => {
                        page.wait_for_text("#report .report", "Numbers put in")
                            .await?;
                    }
                    _ => {}
                }
                page.script(UNFOLD, vec![]).await?;
                let found = violations(&page, &checker).await?;
                assert!(
                    found.is_empty(),
                    "{place}, {width_px} px, {}: {found:#?}",
                    theme.name()
                );
            }
            for dialog in ["Keyboard shortcuts", "About", "Units"] {
                open_dialog(&page, dialog).await?;
                let found = violations(&page, &checker).await?;
                assert!(
                    found.is_empty(),
                    "{dialog}, {width_px} px, {}: {found:#?}",
                    theme.name()
                );
                page.script("document.querySelector('dialog').close();", vec![])
                    .await?;
                page.until(
                    "no dialog",
                    "return document.querySelector('dialog') === null;",
                )
                .await?;
            }
        }
        Ok(())
    });
}

#[test]
fn the_checker_finds_no_violation_on_the_first_visit() {
    let site = Site::served("/").expect("a site");
    let checker = checker();
    browser::run(|page| async move {
        for width_px in [375, 1440] {
            page.set_viewport(width_px, 900).await?;
            page.open(&site.url()).await?;
            page.wait_for_text(".first-use", "Try the example").await?;
            let found = violations(&page, &checker).await?;
            assert!(found.is_empty(), "{width_px} px: {found:#?}");
        }
        page.press("Enter my aircraft").await?;
        let found = violations(&page, &checker).await?;
        assert!(found.is_empty(), "questions: {found:#?}");
        Ok(())
    });
}

#[test]
fn the_checker_finds_no_violation_in_the_guide() {
    let site = Site::served("/").expect("a site");
    let file = SingleFile::downloaded().expect("the file");
    let checker = checker();
    browser::run(|page| async move {
        page.open(&format!("{}guide.html", site.url())).await?;
        for (width_px, theme) in [(375, Theme::Light), (1440, Theme::Dark)] {
            page.set_viewport(width_px, 900).await?;
            page.show(theme, Medium::Screen).await?;
            assert_eq!(violations(&page, &checker).await?, Vec::<String>::new());
        }
        page.visit(&file.url()).await?;
        const OPEN: &str = "document.querySelector('.tools a[href=\"guide.html\"]').click();";
        page.script(OPEN, vec![]).await?;
        page.wait_for_text(".guide-window h1", "The Coolpath guide")
            .await?;
        assert_eq!(violations(&page, &checker).await?, Vec::<String>::new());
        page.expect_no_faults().await
    });
}
