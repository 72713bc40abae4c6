//! The guide is at hand in the folder and in the single file, and costs nothing that was typed.

use coolpath_tests::browser::{self, BrowserError, Medium, Page, SingleFile, Site, Theme};

/// Whether a place of the guide stands in the window.
async fn in_sight(page: &Page, place: &str) -> Result<(), BrowserError> {
    let script = format!(
        "const place = document.getElementById('{place}')?.getBoundingClientRect();\
         return place !== undefined && place.top >= 0 && place.top < window.innerHeight;"
    );
    page.until(place, &script).await
}

#[test]
fn the_folder_opens_the_guide_beside_the_page_and_holds_it_without_a_network() {
    browser::run(|page| async move {
        let site = Site::served("/a/")?;
        let url = site.url();
        page.visit(&url).await?;
        const LINK: &str = "const link = document.querySelector('.tools a[href=\"guide.html\"]');\
            return [link.textContent, link.target];";
        let link = page.script(LINK, vec![]).await?;
        assert_eq!(link, serde_json::json!(["Guide", "_blank"]));
        page.until(
            "the worker",
            "return navigator.serviceWorker.controller !== null;",
        )
        .await?;
        drop(site);
        let guide = format!("{url}guide.html");
        page.open(&guide).await?;
        page.wait_for_text("h1", "The Coolpath guide").await?;
        for (width_px, theme) in [(375, Theme::Light), (1440, Theme::Dark)] {
            page.set_viewport(width_px, 800).await?;
            page.show(theme, Medium::Screen).await?;
            assert_eq!(page.sideways_overflow_px().await?, 0, "{width_px}");
        }
        page.open(&format!("{guide}#guide-job-prove")).await?;
        in_sight(&page, "guide-job-prove").await?;
        page.expect_no_faults().await
    });
}

#[test]
fn the_single_file_shows_the_guide_over_the_page_and_gives_the_page_back() {
    let file = SingleFile::downloaded().expect("the file");
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&file.url()).await?;
        page.go("inputs").await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "Half typed").await?;
        const OPEN: &str = "document.querySelector('.tools a[href=\"guide.html\"]').click();";
        page.script(OPEN, vec![]).await?;
        page.wait_for_text(".guide-window h1", "The Coolpath guide")
            .await?;
        const FOLLOW: &str =
            "document.querySelector('.guide-window a[href=\"#guide-method\"]').click();";
        page.script(FOLLOW, vec![]).await?;
        in_sight(&page, "guide-method").await?;
        assert!(
            page.address().await?.ends_with("#inputs"),
            "its links are no places of the page"
        );
        // On paper it is alone, and whole: as many sheets as the document of the folder.
        let in_dialog = browser::sheets(&page.printed().await?).len();
        page.press("Close the guide").await?;
        page.until(
            "the page again",
            "return !document.querySelector('.guide-window').open;",
        )
        .await?;
        page.open_menu().await?;
        assert_eq!(page.typed("Aircraft").await?, "Half typed");
        assert!(page.address().await?.ends_with("#inputs"));
        page.expect_no_faults().await?;
        page.open(&format!("{}guide.html", site.url())).await?;
        let by_itself = browser::sheets(&page.printed().await?).len();
        assert!(by_itself > 8, "{by_itself} sheets");
        assert_eq!(in_dialog, by_itself);
        Ok(())
    });
}
