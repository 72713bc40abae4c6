//! Every chart of every view, all panels opened: large enough, nothing on anything, an answer for a title,
//! read by pointer, finger and keys, its numbers behind it.

use crate::flight_test::{find_values, take_over};
use crate::next_flight::{add_flown, check_the_model, open_for_checking, planted};
use coolpath_tests::browser::{self, BrowserError, Page, Site};
use coolpath_tests::flight_log::Day;
use coolpath_tests::scratch::Scratch;

/// Texts of charts in sight that are smaller than 14 px, lie on one another, or are cut off.
const TEXT_FAULTS: &str = "const faults = [];\
    for (const chart of document.querySelectorAll('.view:not([hidden]) svg.chart')) {\
        const area = chart.getBoundingClientRect();\
        if (area.width === 0) continue;\
        const scale = area.width / chart.viewBox.baseVal.width;\
        const texts = [...chart.querySelectorAll('text')].filter((text) => text.textContent.trim());\
        const name = chart.getAttribute('aria-label');\
        for (const text of texts) {\
            const size = parseFloat(getComputedStyle(text).fontSize) * scale;\
            if (size < 13.95) faults.push(`${name}: ${text.textContent.trim()} has ${size.toFixed(1)} px`);\
        }\
        const boxes = texts.map((text) => text.getBoundingClientRect());\
        for (let a = 0; a < boxes.length; a += 1) for (let b = a + 1; b < boxes.length; b += 1) {\
            const wide = Math.min(boxes[a].right, boxes[b].right) - Math.max(boxes[a].left, boxes[b].left);\
            const tall = Math.min(boxes[a].bottom, boxes[b].bottom) - Math.max(boxes[a].top, boxes[b].top);\
            if (wide > 1 && tall > 5) faults.push(`${name}: ${texts[a].textContent.trim()} on ${texts[b].textContent.trim()}`);\
        }\
        for (const box of boxes) if (box.left < area.left - 1 || box.right > area.right + 1\
            || box.top < area.top - 1 || box.bottom > area.bottom + 1)\
            faults.push(`${name}: a text is cut off at ${Math.round(box.left - area.left)} to ${Math.round(box.right - area.left)} of ${Math.round(area.width)} px`);\
    }\
    return faults;";

/// Figures in sight without an answer for a title, without numbers, or that no key, no mouse and no finger
/// can read.
const HABIT_FAULTS: &str = "const faults = [];\
    const pause = () => new Promise((done) => setTimeout(done, 40));\
    for (const figure of document.querySelectorAll('.view:not([hidden]) figure.figure')) {\
        if (figure.getBoundingClientRect().width === 0) continue;\
        const title = figure.querySelector('figcaption h3').textContent;\
        const topic = figure.querySelector('figcaption p').textContent.split('.')[0];\
        if (title.length < 12 || title === topic) faults.push(`${topic}: its title is “${title}”`);\
        const limits = [...figure.querySelectorAll('svg.chart [stroke=\"var(--chart-limit)\"]')].length;\
        const named = [...figure.querySelectorAll('svg.chart text')]\
            .some((text) => /limit|required|outside|over/.test(text.textContent));\
        if (limits > 0 && !named) faults.push(`${topic}: a limit without a name`);\
        if (figure.querySelectorAll('details table tbody tr').length === 0) faults.push(`${topic}: no numbers`);\
        if (!figure.querySelector('.source').textContent) faults.push(`${topic}: no source`);\
        if (figure.querySelector('.handle')) continue;\
        const frame = figure.querySelector('.chart-frame');\
        const said = () => figure.querySelector('.readout')?.textContent ?? '';\
        const read = async (by, act) => {\
            act();\
            await pause();\
            if (!said() || said().startsWith('Point at')) faults.push(`${topic}: not read by ${by}`);\
            frame.dispatchEvent(new KeyboardEvent('keydown', { key: 'Escape', bubbles: true }));\
            await pause();\
            if (!said().startsWith('Point at')) faults.push(`${topic}: ${by} is not ended by Escape`);\
        };\
        if (frame.tabIndex !== 0) faults.push(`${topic}: takes no focus`);\
        const area = frame.getBoundingClientRect();\
        const there = (type, pointerType) => frame.dispatchEvent(new PointerEvent(type,\
            { bubbles: true, pointerType, clientX: area.left + 0.5 * area.width, clientY: area.top + 40 }));\
        await read('the arrow keys', () => frame.dispatchEvent(new KeyboardEvent('keydown', { key: 'ArrowRight', bubbles: true })));\
        await read('a mouse', () => there('pointermove', 'mouse'));\
        await read('a finger', () => { there('pointerdown', 'touch'); there('pointerleave', 'touch'); });\
    }\
    return faults;";

/// Every panel of a view unfolded, and charts out of sight drawn.
const OPEN: &str = "document.querySelectorAll('.view:not([hidden]) details.section')\
    .forEach((part) => { part.open = true; });\
    if (!window.isAllDrawn) for (const sheet of document.styleSheets)\
        sheet.insertRule('.figure { content-visibility: visible !important }', sheet.cssRules.length);\
    window.isAllDrawn = true;";

/// Charts that a view must have.
const COUNT: &str = "return [...document.querySelectorAll('.view:not([hidden]) figure.figure svg.chart')]\
    .filter((chart) => chart.getBoundingClientRect().width > 0).length;";

/// Unfolds the numbers of every chart of a view, which are drawn then; says whether all stand there.
const NUMBERS: &str = "const parts = [...document.querySelectorAll('.view:not([hidden]) figure.figure .chart-numbers')];\
    parts.forEach((part) => { part.open = true; });\
    return parts.every((part) => part.querySelector('table') !== null);";

/// Folds them again.
const WITHOUT_NUMBERS: &str = "document.querySelectorAll('.view:not([hidden]) figure.figure .chart-numbers')\
    .forEach((part) => { part.open = false; });";

async fn measured(page: &Page, place: &str, width_px: u32, least: u64) -> Result<(), BrowserError> {
    let count = page.script(COUNT, vec![]).await?.as_u64();
    assert!(
        count >= Some(least),
        "{place}, {width_px} px: {count:?} charts"
    );
    page.until("the numbers", NUMBERS).await?;
    for script in [TEXT_FAULTS, HABIT_FAULTS] {
        let faults = page.script(script, vec![]).await?;
        assert_eq!(
            faults.as_array().map(Vec::len),
            Some(0),
            "{place}, {width_px} px: {faults:#}"
        );
    }
    page.script(WITHOUT_NUMBERS, vec![]).await?;
    Ok(())
}

/// A flight read, fitted on, and the next one checked.
async fn flown(page: &Page, first: &Scratch, next: &Scratch) -> Result<(), BrowserError> {
    page.read_log(first.path()).await?;
    page.wait_for_text("#log", "3600 rows").await?;
    add_flown(page).await?;
    find_values(page, "Fitted on").await?;
    take_over(page).await?;
    open_for_checking(page, next).await?;
    add_flown(page).await?;
    check_the_model(page, "of a flight it had not seen").await?;
    Ok(())
}

#[test]
fn every_chart_of_results_and_decide_can_be_read_on_a_phone_and_a_desk() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        for (width_px, height_px) in [(1440, 900), (1100, 800), (375, 812)] {
            page.set_viewport(width_px, height_px).await?;
            page.visit_and_settle(&site.url()).await?;
            for (place, least) in [("results", 5), ("decide", 8)] {
                page.go(place).await?;
                page.script(OPEN, vec![]).await?;
                if place == "decide" {
                    // A view's panels are drawn one after the other, the last perhaps after the script.
                    for panel in ["#climb", "#duct", "#lip", "#flight", "#sure"] {
                        page.unfold(panel).await?;
                    }
                    page.jobs_are_drawn().await?;
                    page.until(
                        "the flight",
                        "return document.querySelector('#flight figure') !== null;",
                    )
                    .await?;
                    page.wait_for_text("#duct figure", "best ratio").await?;
                    page.press("Run 2,000 trials").await?;
                    page.wait_for_text("#sure figure", "limit").await?;
                } else {
                    page.wait_for_text(".answers .band", "…").await?;
                }
                measured(&page, place, width_px, least).await?;
            }
        }
        page.expect_no_faults().await
    });
}

#[test]
fn every_chart_of_fly_can_be_read_on_a_phone_and_a_desk() {
    let site = Site::served("/").expect("a site");
    let first = Scratch::new("flight-a.csv", planted(3, &Day::default(), 1.0).as_bytes());
    let next = Scratch::new("flight-b.csv", planted(4, &Day::OTHER, 1.0).as_bytes());
    browser::run(|page| async move {
        for (width_px, height_px) in [(1440, 900), (375, 812)] {
            page.set_viewport(width_px, height_px).await?;
            // Without the flights of the wider window.
            page.visit(&site.url()).await?;
            page.script("localStorage.clear();", vec![]).await?;
            page.visit_and_settle(&site.url()).await?;
            page.go("fly").await?;
            page.script(OPEN, vec![]).await?;
            flown(&page, &first, &next).await?;
            page.script(OPEN, vec![]).await?;
            // The log, the fit, the check.
            measured(&page, "fly", width_px, 3).await?;
            // Nor does the name of what undo would take back push the header out of the window.
            assert_eq!(page.sideways_overflow_px().await?, 0, "{width_px} px");
        }
        page.expect_no_faults().await
    });
}
