//! The main flows in Firefox.

use coolpath_core::document::example;
use coolpath_tests::browser::{self, BrowserError, Page, SingleFile, Site};
use coolpath_tests::flight_log;
use coolpath_tests::scratch::Scratch;

/// Presses a button wherever it stands.
async fn press(page: &Page, button: &str) -> Result<(), BrowserError> {
    const PRESS: &str = "const found = [...document.querySelectorAll('button')]\
            .find((button) => button.textContent.trim() === arguments[0]);\
        if (found) found.click(); return found !== undefined;";
    page.wait_for(button, async |page: &Page| {
        let done = page.script(PRESS, vec![button.into()]).await?;
        Ok(done.as_bool().unwrap_or_default().then_some(()))
    })
    .await
}

/// Types into the field with an id, as the page hears it.
async fn fill(page: &Page, id: &str, text: &str) -> Result<(), BrowserError> {
    const FILL: &str = "const field = document.getElementById(arguments[0]);\
        field.value = arguments[1]; field.dispatchEvent(new Event('input', { bubbles: true }));";
    page.script(FILL, vec![id.into(), text.into()]).await?;
    Ok(())
}

/// Waits until the page says what the inlet's width must be.
async fn told(page: &Page, when: &str) -> Result<(), BrowserError> {
    const TOLD: &str = "return [...document.querySelectorAll('.fault')]\
        .some((fault) => fault.textContent.includes('Inlet width must be between'));";
    page.until(when, TOLD).await
}

#[test]
fn sizes_are_typed_kept_and_taken_back() {
    let site = Site::served("/").expect("a site");
    browser::run_in_firefox(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("inputs").await?;
        let before = page.text("#strip").await?;
        fill(&page, "inlet-width_m-0", "9,5").await?;
        page.wait_for("other answers", async |page: &Page| {
            Ok((page.text("#strip").await? != before).then_some(()))
        })
        .await?;
        fill(&page, "inlet-width_m-0", "wide").await?;
        told(&page, "the message under the field").await?;
        page.reload().await?;
        told(&page, "the message after a reload").await?;
        press(&page, "Back to the example").await?;
        press(&page, "Replace them").await?;
        page.wait_for("the example's answers", async |page: &Page| {
            let faults = page.elements(".form .fault").await?;
            Ok(faults.is_empty().then_some(()))
        })
        .await
    });
}

#[test]
fn the_single_file_works_from_a_disk_and_shares_a_code() {
    let file = SingleFile::downloaded().expect("the single file");
    browser::run_in_firefox(|page| async move {
        page.visit_and_settle(&file.url()).await?;
        page.unfold("#share").await?;
        page.until("the code", "return document.querySelector('#share-code')?.value.startsWith('coolpath1.') ?? false;")
        .await
    });
}

#[test]
fn a_log_is_read_calibrated_and_corrected() {
    let site = Site::served("/").expect("a site");
    let file = Scratch::new(
        "firefox.csv",
        flight_log::text(&example::design(), 7).as_bytes(),
    );
    browser::run_in_firefox(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.read_log(file.path()).await?;
        page.add_stretches().await?;
        page.go("fly").await?;
        page.unfold("#calibrate").await?;
        press(&page, "Find the values").await?;
        page.wait_for_text("#calibrate", "Your conditions with these values")
            .await?;
        page.unfold("#hot-day").await?;
        press(&page, "Correct the readings").await?;
        page.wait_for_text("#hot-day table", "By the rule").await?;
        page.go("cut").await?;
        press(&page, "Draw the templates").await?;
        page.wait_for_text("#cut", "Print on one sheet").await?;
        page.go("report").await?;
        page.wait_for_text("#report .report", "Numbers put in")
            .await?;
        Ok(())
    });
}
