//! Dimensions are edited where they stand in the drawing.

use coolpath_tests::browser::{self, BrowserError, Page, Site};
use thirtyfour::{Key, TypingData};

const FIGURE: &str = ".sheet-room [data-dimension='inlet.width_m']";
const FIELD: &str = ".dimension-editor input";

/// What the figure is called. The front view shows the right half from outside.
async fn until_named(page: &Page, width: &str) -> Result<(), BrowserError> {
    page.until(
        width,
        &format!(
            "return document.querySelector(\"{FIGURE}\").getAttribute('aria-label') \
             === 'Right inlet width, {width} in';"
        ),
    )
    .await
}

/// Chooses the inlets in the front view.
async fn choose_inlets(page: &Page) -> Result<(), BrowserError> {
    const CHOOSE: &str = "const views = [...document.querySelectorAll('.view-switch button')];\
        views.find((one) => one.textContent === 'Front').click();\
        const list = document.querySelector('#part-shown');\
        list.selectedIndex = 0;\
        list.dispatchEvent(new Event('change', { bubbles: true }));";
    page.until(
        "the views",
        "return document.querySelector('.view-switch button') !== null \
         && document.querySelector('#part-shown') !== null;",
    )
    .await?;
    page.script(CHOOSE, vec![]).await?;
    // On a narrow screen the part covers half of the drawing until it is closed.
    const CLOSED: &str = "const panel = document.querySelector('.panel.sheet-open');\
        if (panel) panel.querySelector('.sheet-done').click();\
        return panel !== null;";
    page.until("the part's panel", CLOSED).await?;
    page.until(
        "the inlet's width in the drawing",
        &format!("return document.querySelector(\"{FIGURE}\") !== null;"),
    )
    .await
}

/// Opens the field from the keyboard.
async fn open_by_key(page: &Page) -> Result<(), BrowserError> {
    let focus = format!("document.querySelector(\"{FIGURE}\").focus();");
    page.script(&focus, vec![]).await?;
    let figure = page.element(FIGURE).await?;
    figure.send_keys(TypingData::from(Key::Enter)).await?;
    page.until(
        "the field",
        "return !!document.activeElement.closest('.dimension-editor');",
    )
    .await
}

async fn until_closed(page: &Page) -> Result<(), BrowserError> {
    page.until(
        "no field",
        "return document.querySelector('.dimension-editor') === null;",
    )
    .await
}

async fn edits_a_width(page: &Page, site: &Site, width_px: u32) -> Result<(), BrowserError> {
    page.set_viewport(width_px, 812).await?;
    page.visit(&site.url()).await?;
    choose_inlets(page).await?;
    until_named(page, "6.25").await?;
    // Large enough for a finger or a mouse, and over the figure once it is open.
    const SIZE: &str = "const area = document.querySelector(arguments[0]).getBoundingClientRect();\
        return Math.min(area.width, area.height);";
    let size = page.script(SIZE, vec![FIGURE.into()]).await?;
    let least = if width_px < 600 { 43.0 } else { 29.0 };
    assert!(size.as_f64().unwrap_or_default() > least, "{size}");
    page.click(FIGURE).await?;
    page.until(
        "the field",
        "return !!document.activeElement.closest('.dimension-editor');",
    )
    .await?;
    assert_eq!(page.value(FIELD).await?, "6.25");
    page.element(FIELD).await?.send_keys("5.5").await?;
    until_named(page, "5.5").await?;
    assert!(!page.elements(".sheet-room .ghost").await?.is_empty());
    let keys = page.element(FIELD).await?;
    keys.send_keys(TypingData::from(Key::Enter)).await?;
    until_closed(page).await?;
    page.until(
        "the focus on the figure",
        "return document.activeElement.hasAttribute('data-dimension');",
    )
    .await?;
    // Escape brings back what stood there.
    open_by_key(page).await?;
    page.element(FIELD).await?.send_keys("4").await?;
    let keys = page.element(FIELD).await?;
    keys.send_keys(TypingData::from(Key::Escape)).await?;
    until_closed(page).await?;
    until_named(page, "5.5").await?;
    // It is kept, and undone like any other edit.
    page.reload().await?;
    choose_inlets(page).await?;
    until_named(page, "5.5").await?;
    open_by_key(page).await?;
    page.element(FIELD).await?.send_keys("6").await?;
    let blur = "document.activeElement.blur();";
    page.script(blur, vec![]).await?;
    until_closed(page).await?;
    until_named(page, "6").await?;
    page.script("document.querySelector('button.undo').click();", vec![])
        .await?;
    until_named(page, "5.5").await?;
    page.expect_no_faults().await
}

#[test]
fn an_inlets_width_is_edited_on_the_drawing_at_a_desk() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move { edits_a_width(&page, &site, 1440).await });
}

#[test]
fn an_inlets_width_is_edited_on_the_drawing_with_a_finger() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move { edits_a_width(&page, &site, 375).await });
}

/// Shows a view and chooses a part by its title.
async fn choose_part(page: &Page, view: &str, part: &str) -> Result<(), BrowserError> {
    page.until(
        "the list of parts",
        "return document.querySelector('#part-shown') !== null;",
    )
    .await?;
    const CHOOSE: &str = "[...document.querySelectorAll('.view-switch button')]\
            .find((one) => one.textContent === arguments[0]).click();\
        const list = document.querySelector('#part-shown');\
        list.selectedIndex = [...list.options].findIndex((one) => one.textContent === arguments[1]);\
        list.dispatchEvent(new Event('change', { bubbles: true }));";
    page.script(CHOOSE, vec![view.into(), part.into()]).await?;
    Ok(())
}

#[test]
fn the_hose_and_the_cooler_are_edited_on_the_drawing() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.set_viewport(1440, 900).await?;
        page.visit(&site.url()).await?;
        for (view, part, input, name, to) in [
            (
                "Side",
                "Cooler duct",
                "cooler.duct_diameter_m",
                "Duct diameter",
                "3",
            ),
            (
                "Side",
                "Oil and cooler",
                "cooler.face_height_m",
                "Core height",
                "7",
            ),
            (
                "Plan",
                "Oil and cooler",
                "cooler.face_width_m",
                "Core width",
                "8",
            ),
        ] {
            choose_part(&page, view, part).await?;
            let figure = format!(".sheet-room [data-dimension='{input}']");
            page.until(
                name,
                &format!("return document.querySelector(\"{figure}\") !== null;"),
            )
            .await?;
            page.click(&figure).await?;
            page.until(
                "the field",
                "return !!document.activeElement.closest('.dimension-editor');",
            )
            .await?;
            page.element(FIELD).await?.send_keys(to).await?;
            page.until(
                "the new size in the figure and in the part's panel",
                &format!(
                    "const id = '#{}-0';\
                     return document.querySelector(\"{figure}\").getAttribute('aria-label') === '{name}, {to} in'\
                         && document.querySelector(`.panel ${{id}}`)?.value === '{to}';",
                    input.replace('.', "-")
                ),
            )
            .await?;
            let field = page.element(FIELD).await?;
            field.send_keys(TypingData::from(Key::Enter)).await?;
            until_closed(&page).await?;
        }
        page.expect_no_faults().await
    });
}

#[test]
fn what_is_written_on_the_drawing_is_large_enough_on_a_desk_and_a_phone() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        for (width_px, height_px, least) in [(1440, 900, 13.0), (1024, 768, 12.0), (375, 812, 12.0)]
        {
            page.set_viewport(width_px, height_px).await?;
            page.visit(&site.url()).await?;
            const SMALLEST: &str = "const sizes = [...document.querySelectorAll('.sheet-room svg.bay text')]\
                    .map((text) => parseFloat(getComputedStyle(text).fontSize) * text.getScreenCTM().a);\
                return sizes.length > 8 ? Math.min(...sizes) : 0;";
            let smallest = page.script(SMALLEST, vec![]).await?.as_f64();
            assert!(
                smallest.is_some_and(|px| px >= least - 0.05),
                "{width_px} px: {smallest:?} px"
            );
        }
        page.expect_no_faults().await
    });
}

#[test]
fn names_and_odds_of_the_conditions_stand_whole_on_a_phone() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        for width_px in [375, 320] {
            page.set_viewport(width_px, 812).await?;
            page.visit_and_settle(&site.url()).await?;
            page.go("design").await?;
            const CUT: &str = "return [...document.querySelectorAll('#strip .cond')].flatMap((chip) => {\
                const room = chip.getBoundingClientRect();\
                return [...chip.querySelectorAll('.cond-name, .cond-state')].filter((text) => {\
                    const said = [...text.childNodes].filter((part) => part.nodeType === Node.TEXT_NODE).flatMap((part) => {\
                        const range = document.createRange();\
                        range.selectNodeContents(part);\
                        return [...range.getClientRects()]; });\
                    const own = text.getBoundingClientRect();\
                    return said.some((box) => box.right > room.right || box.bottom > room.bottom\
                        || box.left < room.left || box.right > own.right + 1 || box.bottom > own.bottom + 3);\
                }).map((text) => text.textContent); });";
            let cut = page.script(CUT, vec![]).await?;
            assert_eq!(
                cut.as_array().map(Vec::len),
                Some(0),
                "{width_px} px: {cut:#}"
            );
            const SHORTENED: &str = "return [...document.querySelectorAll('#strip .cond *, .verdict, .verdict *')]\
                .filter((text) => getComputedStyle(text).textOverflow === 'ellipsis' && text.scrollWidth > text.clientWidth + 1)\
                .map((text) => text.textContent);";
            let cut = page.script(SHORTENED, vec![]).await?;
            assert_eq!(
                cut.as_array().map(Vec::len),
                Some(0),
                "{width_px} px: {cut:#}"
            );
        }
        page.expect_no_faults().await
    });
}
