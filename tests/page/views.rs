//! The five views: how they are reached, that nothing is missing, and how few touches each
//! decision takes from the first load.

use coolpath_tests::browser::{self, BrowserError, Page, Site};

const VIEWS: [&str; 5] = ["design", "decide", "fly", "workshop", "report"];
/// Both windows that a builder holds or sits before, CSS pixels.
const WINDOWS: [(u32, u32); 2] = [(1440, 900), (375, 812)];

/// The view that is shown, when it is the only one.
async fn shown(page: &Page) -> Result<Option<String>, BrowserError> {
    const SHOWN: &str = "const shown = [...document.querySelectorAll('div.view')]\
        .filter((view) => view.checkVisibility()).map((view) => view.id);\
        return shown.length === 1 ? shown[0] : null;";
    let found = page.script(SHOWN, vec![]).await?;
    Ok(found.as_str().map(str::to_owned))
}

async fn until_shown(page: &Page, view: &str) -> Result<(), BrowserError> {
    page.wait_for(view, async |page: &Page| {
        Ok((shown(page).await?.as_deref() == Some(view)).then_some(()))
    })
    .await
}

/// Touches the control that reads so, where a person can see it: one touch.
async fn touch(page: &Page, words: &str) -> Result<(), BrowserError> {
    const TOUCH: &str = "const found = [...document.querySelectorAll('a, button, summary')]\
            .filter((one) => one.checkVisibility() && one.textContent.trim() === arguments[0]);\
        if (found.length > 0) { found[0].scrollIntoView({ block: 'nearest' }); found[0].click(); }\
        return found.length > 0;";
    page.wait_for(words, async |page: &Page| {
        let done = page.script(TOUCH, vec![words.into()]).await?;
        Ok(done.as_bool().unwrap_or_default().then_some(()))
    })
    .await
}

/// Whether an element stands within one window's height of where the page is scrolled to.
async fn within_one_screen(page: &Page, selector: &str) -> Result<bool, BrowserError> {
    const WITHIN: &str = "const area = document.querySelector(arguments[0]).getBoundingClientRect();\
        return area.top >= 0 && area.top < 2 * innerHeight;";
    let found = page.script(WITHIN, vec![selector.into()]).await?;
    Ok(found.as_bool().unwrap_or_default())
}

#[test]
fn each_view_has_its_fragment_and_back_and_forward_lead_through_them() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        until_shown(&page, "design").await?;
        for name in ["Decide", "Fly", "Workshop", "Report"] {
            touch(&page, name).await?;
            until_shown(&page, &name.to_lowercase()).await?;
            let address = page.address().await?;
            assert!(
                address.ends_with(&format!("#{}", name.to_lowercase())),
                "{address}"
            );
        }
        page.script("history.back();", vec![]).await?;
        until_shown(&page, "workshop").await?;
        page.script("history.back();", vec![]).await?;
        until_shown(&page, "fly").await?;
        page.script("history.forward();", vec![]).await?;
        until_shown(&page, "workshop").await?;
        page.reload().await?;
        until_shown(&page, "workshop").await?;
        page.expect_no_faults().await
    });
}

#[test]
fn every_panel_there_ever_was_is_found_at_its_old_address() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        for (place, view) in [
            ("answers", "design"),
            ("one-condition", "design"),
            ("practice", "design"),
            ("section-inlets", "design"),
            ("section-decks", "design"),
            ("section-exit", "design"),
            ("section-oil", "design"),
            ("section-engine", "design"),
            ("section-aircraft", "design"),
            ("size", "decide"),
            ("compare", "decide"),
            ("card", "decide"),
            ("climb", "decide"),
            ("duct", "decide"),
            ("flight", "decide"),
            ("sure", "decide"),
            ("flight-test", "fly"),
            ("test-cards", "fly"),
            ("readings", "fly"),
            ("log", "fly"),
            ("calibrate", "fly"),
            ("hot-day", "fly"),
            ("before-after", "fly"),
            ("changes", "fly"),
            ("paper", "workshop"),
            ("cut", "workshop"),
            ("photo", "workshop"),
            ("area-helper", "workshop"),
            ("gauges", "workshop"),
            ("report", "report"),
        ] {
            page.go(place).await?;
            until_shown(&page, view).await?;
        }
        page.go("results").await?;
        for selector in [".why", "#share", ".shelf", "#design-name", "#units"] {
            assert_eq!(page.elements(selector).await?.len(), 1, "{selector}");
        }
        page.go("design").await?;
        assert_eq!(page.elements(".cautions").await?.len(), 1);
        page.expect_no_faults().await
    });
}

#[test]
fn a_link_arrives_although_what_stands_above_its_place_grows_later() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        for (width_px, height_px) in WINDOWS {
            page.set_viewport(width_px, height_px).await?;
            for place in ["flight", "sure"] {
                page.visit_and_settle(&site.url()).await?;
                page.go(place).await?;
                page.jobs_are_drawn().await?;
                let heading = format!("#{place} > summary");
                let is_here =
                    async |page: &Page| Ok(within_one_screen(page, &heading).await?.then_some(()));
                page.wait_for(&format!("{place} at {width_px} px"), is_here)
                    .await?;
            }
        }
        page.expect_no_faults().await
    });
}

/// Each decision from the first load: its touches, and the sentence that answers it.
async fn decided(
    page: &Page,
    url: &str,
    words: &str,
    most_touches: usize,
    answer: &str,
    part: &str,
) -> Result<(), BrowserError> {
    page.script("localStorage.clear();", vec![]).await.ok();
    page.open("about:blank").await?;
    page.open(url).await?;
    let mut touches = 0;
    for control in ["Try the example", words] {
        touch(page, control).await?;
        touches += 1;
    }
    page.wait_for_text(answer, part).await?;
    assert!(touches <= most_touches, "{words}: {touches} touches");
    assert!(
        within_one_screen(page, answer).await?,
        "{words}: its answer is out of sight"
    );
    println!("{words}: {touches} touches");
    Ok(())
}

#[test]
fn each_decision_is_one_touch_behind_the_first_screen() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        for (width_px, height_px) in WINDOWS {
            page.set_viewport(width_px, height_px).await?;
            page.open(&site.url()).await?;
            for (words, most, answer, part) in [
                ("Size the openings", 3, "#size .answer", "ut each inlet"),
                ("Plenum or seals?", 2, "#compare .answer", "A plenum "),
                ("Shutter today", 2, "#card .answer", "in the climb, "),
            ] {
                decided(&page, &site.url(), words, most, answer, part).await?;
            }
        }
        page.expect_no_faults().await
    });
}

#[test]
fn the_first_screen_shows_verdict_drawing_part_and_conditions_without_scrolling() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.set_viewport(1440, 900).await?;
        page.visit(&site.url()).await?;
        const ENDS: &str = "return ['.top', '.verdict', '#drawing', '#part', '#strip'].map((one) => {\
            const area = document.querySelector(one).getBoundingClientRect();\
            return [area.top, area.bottom, area.right]; });";
        let ends = page.script(ENDS, vec![]).await?;
        for (at, end) in ends.as_array().into_iter().flatten().enumerate() {
            let of = |place: usize| end[place].as_f64().unwrap_or(f64::INFINITY);
            assert!(
                of(0) >= 0.0 && of(1) <= 900.5 && of(2) <= 1440.5,
                "{at}: {end}"
            );
        }
        page.set_viewport(375, 812).await?;
        page.go("design").await?;
        const PHONE: &str = "return ['.verdict', '#drawing', '#strip'].map((one) =>\
            document.querySelector(one).getBoundingClientRect().top);";
        let tops = page.script(PHONE, vec![]).await?;
        for top in tops.as_array().into_iter().flatten() {
            assert!(
                top.as_f64().is_some_and(|top| (0.0..756.0).contains(&top)),
                "{tops}"
            );
        }
        page.expect_no_faults().await
    });
}

#[test]
fn a_part_is_chosen_on_a_phone_by_touch_and_its_sheet_closes_again() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.set_viewport(375, 812).await?;
        page.visit(&site.url()).await?;
        const OPEN: &str = "return document.querySelector('#part').checkVisibility();";
        assert_eq!(page.script(OPEN, vec![]).await?, false);
        const TAP: &str = "document.querySelector('#drawing svg .part').dispatchEvent(\
            new MouseEvent('click', { bubbles: true }));";
        page.script(TAP, vec![]).await?;
        page.until("the sheet", OPEN).await?;
        const ROOM: &str = "return document.querySelector('#part').getBoundingClientRect().top;";
        let top = page.script(ROOM, vec![]).await?.as_f64().unwrap_or(0.0);
        assert!(
            top >= 250.0,
            "the sheet begins at {top} px and hides the drawing"
        );
        touch(&page, "Done").await?;
        page.until(
            "no sheet",
            "return !document.querySelector('#part').checkVisibility();",
        )
        .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn what_is_begun_in_a_view_is_still_there_after_a_look_at_another() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("card").await?;
        page.type_into("Notches of the shutter's lever", "9")
            .await?;
        for view in VIEWS {
            page.go(view).await?;
        }
        page.go("card").await?;
        assert_eq!(page.typed("Notches of the shutter's lever").await?, "9");
        page.expect_no_faults().await
    });
}

#[test]
fn everything_that_is_touched_is_large_enough_on_a_phone() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.set_viewport(375, 812).await?;
        page.visit(&site.url()).await?;
        for view in VIEWS {
            page.go(view).await?;
            const SMALL: &str = "return [...document.querySelectorAll('button, summary, select, nav a, a.button')]\
                .filter((one) => one.checkVisibility() && !one.closest('.visually-hidden'))\
                .map((one) => [one.textContent.trim().slice(0, 30), one.getBoundingClientRect()])\
                .filter(([, area]) => area.width > 0 && (area.height < 43.5))\
                .map(([words, area]) => words + ' ' + area.height);";
            let small = page.script(SMALL, vec![]).await?;
            assert_eq!(small, serde_json::json!([]), "{view}");
        }
        page.expect_no_faults().await
    });
}
