//! No violation that axe-core knows, in either theme, narrow and wide, with everything unfolded.

use coolpath_core::document::example;
use coolpath_tests::browser::{
    self, BrowserError, DIALOGS, Medium, PLACES, Page, SingleFile, Site, Theme,
};
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
            for place in PLACES {
                page.go_and_unfold(place, log.path()).await?;
                let found = violations(&page, &checker).await?;
                assert!(
                    found.is_empty(),
                    "{place}, {width_px} px, {}: {found:#?}",
                    theme.name()
                );
            }
            for dialog in DIALOGS {
                page.open_dialog(dialog).await?;
                let found = violations(&page, &checker).await?;
                assert!(
                    found.is_empty(),
                    "{dialog}, {width_px} px, {}: {found:#?}",
                    theme.name()
                );
                page.close_dialog().await?;
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
