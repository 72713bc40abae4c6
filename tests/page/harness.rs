//! The steps that page tests are made of do what their names say.

use std::time::Duration;

use coolpath_tests::browser::{self, BrowserError, Medium, Page, Theme};

const FORM: &str = "data:text/html,<!doctype html>\
    <label for=width>Inlet width\n (in)</label><input id=width value=3.5>\
    <label for=chord>Chord</label><input id=chord>\
    <label for=chord2>Chord</label><input id=chord2>\
    <label for=seal>Seals</label>\
    <select id=seal><option value=n>new<option value=w>builder's worn ones</select>\
    <button onclick=\"document.querySelector('output').textContent='pressed'\"> Press it </button>\
    <label for=file>Log</label><input id=file type=file>\
    <output></output>";

async fn form(page: &Page) -> Result<(), BrowserError> {
    page.open(&FORM.replace('\n', "%0A")).await
}

#[test]
fn a_field_is_found_by_its_words_and_typing_replaces_its_text() {
    browser::run(|page| async move {
        form(&page).await?;
        assert_eq!(page.typed("Inlet width (in)").await?, "3.5");
        page.type_into("Inlet width", "4,25").await?;
        assert_eq!(page.typed("Inlet width (in)").await?, "4,25");
        page.type_into("Inlet width", "").await?;
        assert_eq!(page.typed("Inlet width").await?, "");
        Ok(())
    });
}

#[test]
fn a_label_that_is_missing_or_doubled_is_refused_with_those_present() {
    browser::run(|page| async move {
        form(&page).await?;
        let missing = page.typed("Exit width").await.unwrap_err().to_string();
        assert!(
            missing.starts_with("0 labels read `Exit width`"),
            "{missing}"
        );
        assert!(missing.contains("Inlet width (in) | Chord"), "{missing}");
        let doubled = page.typed("Chord").await.unwrap_err().to_string();
        assert!(doubled.starts_with("2 labels read `Chord`"), "{doubled}");
        Ok(())
    });
}

#[test]
fn options_buttons_and_files_are_reached_by_their_words() {
    browser::run(|page| async move {
        form(&page).await?;
        page.choose("Seals", "builder's worn ones").await?;
        assert_eq!(page.typed("Seals").await?, "w");
        page.press("Press it").await?;
        assert_eq!(page.wait_for_text("output", "pressed").await?, "pressed");

        let file = std::env::temp_dir().join(format!("coolpath-log-{}.csv", std::process::id()));
        std::fs::write(&file, "a,b").expect("a temporary file");
        page.choose_file("Log", &file).await?;
        assert!(page.typed("Log").await?.ends_with(".csv"));
        std::fs::remove_file(&file).expect("it was there");
        Ok(())
    });
}

#[test]
fn console_errors_are_noticed_once_and_remarks_are_not() {
    browser::run(|page| async move {
        form(&page).await?;
        page.script("console.info('fine'); console.warn('odd');", vec![])
            .await?;
        page.expect_no_faults().await?;
        page.script("console.error('bad fin');", vec![]).await?;
        let faults = page.expect_no_faults().await.unwrap_err().to_string();
        assert!(
            faults.contains("bad fin") && !faults.contains("odd"),
            "{faults}"
        );
        page.expect_no_faults().await
    });
}

#[test]
fn width_theme_and_medium_are_what_the_page_sees() {
    browser::run(|page| async move {
        form(&page).await?;
        const SEEN: &str = "return [innerWidth, matchMedia('(prefers-color-scheme: dark)').matches,\
            matchMedia('print').matches];";
        for (width_px, theme, medium) in [
            (375, Theme::Dark, Medium::Screen),
            (1440, Theme::Light, Medium::Print),
            (800, Theme::Dark, Medium::Print),
        ] {
            // A narrow page without this element is laid out as if it were wide.
            const NARROW: &str = "document.head.innerHTML =\
                '<meta name=viewport content=width=device-width>';";
            page.script(NARROW, vec![]).await?;
            page.set_viewport(width_px, 700).await?;
            page.show(theme, medium).await?;
            let expected =
                serde_json::json!([width_px, theme == Theme::Dark, medium == Medium::Print]);
            assert_eq!(page.script(SEEN, vec![]).await?, expected);
        }
        Ok(())
    });
}

#[test]
fn a_picture_shows_all_of_the_page_and_an_overflow_is_measured() {
    browser::run(|page| async move {
        form(&page).await?;
        page.set_viewport(1000, 400).await?;
        assert_eq!(page.sideways_overflow_px().await?, 0);
        const GROW: &str = "document.body.style.margin = 0;\
            document.body.innerHTML = '<div id=block></div>';\
            document.querySelector('#block').style.cssText = arguments[0];";
        page.script(GROW, vec!["width: 1100px; height: 300px".into()])
            .await?;
        assert_eq!(page.sideways_overflow_px().await?, 100);

        page.script(GROW, vec!["width: 1100px; height: 900px".into()])
            .await?;
        let file = std::env::temp_dir().join(format!("coolpath-{}.png", std::process::id()));
        page.screenshot(&file).await?;
        let picture = std::fs::read(&file).expect("the picture was written");
        std::fs::remove_file(&file).expect("it was there");
        // A PNG states its width and height at the bytes 16 to 23.
        let number = |at: usize| u32::from_be_bytes(picture[at..at + 4].try_into().unwrap());
        assert!(number(20) >= 900, "{} px high", number(20));
        Ok(())
    });
}

#[test]
fn waiting_in_vain_ends_with_what_was_waited_for() {
    browser::run(|page| async move {
        form(&page).await?;
        let error = page
            .with_patience(Duration::from_millis(200))
            .wait_for::<()>("rain", async |_: &Page| Ok(None))
            .await
            .unwrap_err();
        assert!(
            error.to_string() == "waited 200ms in vain for rain",
            "{error}"
        );
        Ok(())
    });
}
