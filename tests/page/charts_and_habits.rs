//! Bands and readout of the charts, phrases for what nobody knows, designs kept in the browser.

use coolpath_tests::browser::{self, Site};

#[test]
fn charts_get_their_bands_after_a_moment_and_read_out_under_the_pointer() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.settle().await?;
        const POINT: &str = "const frame = [...document.querySelectorAll('.figure')]\
            .find((figure) => figure.textContent.includes('Head and oil over airspeed'))\
            .querySelector('.chart-frame');\
            const area = frame.getBoundingClientRect();\
            frame.dispatchEvent(new PointerEvent('pointermove', { bubbles: true,\
                clientX: area.left + 0.6 * area.width, clientY: area.top + 50 }));";
        page.script(POINT, vec![]).await?;
        page.until(
            "the line and the words under the pointer",
            "const frame = document.querySelector('.pointer-line').closest('.figure');\
             return /airspeed.* kt \\d+.*Hottest head, °F \\d+.*Oil, °F \\d+/\
                .test(frame.querySelector('.readout').textContent);",
        )
        .await?;
        // The line stands at the next computed point: half a step of 60 from the pointer at most.
        const OFF: &str = "const line = document.querySelector('.pointer-line > line').getBoundingClientRect();\
            const frame = document.querySelector('.pointer-line').closest('.chart-frame').getBoundingClientRect();\
            return Math.abs(line.left + line.width / 2 - frame.left - 0.6 * frame.width) / frame.width;";
        let off = page.script(OFF, vec![]).await?.as_f64();
        assert!(off.is_some_and(|share| share < 0.02), "{off:?}");
        page.expect_no_faults().await
    });
}

/// Texts of charts in sight that are smaller than 14 px or lie on one another.
const CHART_FAULTS: &str = "const faults = [];\
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
        for (const box of boxes) if (box.left < area.left - 1 || box.right > area.right + 1)\
            faults.push(`${name}: a text is cut off at ${Math.round(box.left - area.left)} to ${Math.round(box.right - area.left)} of ${Math.round(area.width)} px`);\
    }\
    return faults;";

#[test]
fn no_text_of_a_chart_is_small_or_covered_on_a_phone_or_a_desk() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        for (width_px, height_px) in [(1440, 900), (1100, 800), (375, 812)] {
            page.set_viewport(width_px, height_px).await?;
            page.visit_and_settle(&site.url()).await?;
            for place in ["results", "decide"] {
                page.go(place).await?;
                const OPEN: &str = "document.querySelectorAll('.view:not([hidden]) details.section')\
                    .forEach((part) => { part.open = true; });\
                    for (const sheet of document.styleSheets)\
                        sheet.insertRule('.figure { content-visibility: visible !important }', sheet.cssRules.length);";
                page.script(OPEN, vec![]).await?;
                if place == "decide" {
                    page.wait_for_text("#compare .compare-charts", "Hottest CHT, exit as it is")
                        .await?;
                    page.wait_for_text("#card > .figure", "Oil with a jammed shutter")
                        .await?;
                    page.wait_for_text("#flight figure", "Head and oil over the flight")
                        .await?;
                    page.wait_for_text("#size figure", "you are here").await?;
                } else {
                    page.wait_for_text(".answers .band", "…").await?;
                }
                let faults = page.script(CHART_FAULTS, vec![]).await?;
                assert_eq!(
                    faults.as_array().map(Vec::len),
                    Some(0),
                    "{place}, {width_px} px: {faults:#}"
                );
            }
        }
        page.expect_no_faults().await
    });
}

#[test]
fn a_phrase_with_its_picture_stands_for_a_number_nobody_knows() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        const OPEN: &str = "document.querySelectorAll('.form .not-sure').forEach((part) => part.open = true);\
            return document.querySelectorAll('.form .not-sure svg.sketch').length;";
        let sketches = page.script(OPEN, vec![]).await?.as_u64();
        assert_eq!(
            sketches,
            Some(4 + 2 * 4 + 4 + 3),
            "seals, two inlets, an exit's edge and its pressure"
        );
        page.press("worn, curled away in places: about 20 in²")
            .await?;
        page.until(
            "the gap of worn seals",
            "return document.querySelector('#decks-seal_gap_m-0').value.startsWith('0.25');",
        )
        .await?;
        page.press("the lip stands down into the stream and shelters the exit (−0.25)")
            .await?;
        page.until(
            "the exit's pressure",
            "return document.querySelector('#exit-pressure_coefficient-0').value === '-0.25';",
        )
        .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn designs_are_kept_opened_and_forgotten_by_name() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.open_menu().await?;
        page.script("document.querySelector('.shelf').open = true;", vec![])
            .await?;
        page.type_into("Aircraft", "First try <b>").await?;
        page.press("Keep this design").await?;
        page.wait_for_text(".shelf", "First try <b>").await?;
        page.script(
            "const field = document.querySelector('#inlet-width_m-0'); field.focus(); field.select();",
            vec![],
        )
        .await?;
        page.element("#inlet-width_m-0")
            .await?
            .send_keys("9")
            .await?;
        page.type_into("Aircraft", "Second").await?;
        page.press("Keep this design").await?;
        page.wait_for_text(".shelf summary", "(2)").await?;
        page.script(
            "document.querySelector('[aria-label=\"Open kept First try <b>\"]').click();",
            vec![],
        )
        .await?;
        page.until(
            "the first design",
            "return document.querySelector('#inlet-width_m-0').value === '6.25'\
                && document.querySelector('#design-name').value === 'First try <b>';",
        )
        .await?;
        // Kept again, it asks before it replaces.
        page.press("Keep this design").await?;
        page.wait_for_text(".shelf .question", "already kept")
            .await?;
        page.press("Leave it").await?;
        page.script(
            "document.querySelector('[aria-label=\"Forget kept Second\"]').click();",
            vec![],
        )
        .await?;
        page.press("Forget it").await?;
        page.wait_for_text(".shelf summary", "(1)").await?;
        page.reload().await?;
        page.open_menu().await?;
        page.wait_for_text(".shelf summary", "(1)").await?;
        page.expect_no_faults().await
    });
}

#[test]
fn a_full_storage_is_said_and_loses_nothing() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.open_menu().await?;
        const FULL: &str = "Storage.prototype.setItem = () => { throw new DOMException('full', 'QuotaExceededError'); };\
            document.querySelector('.shelf').open = true;";
        page.script(FULL, vec![]).await?;
        page.press("Keep this design").await?;
        page.wait_for_text(".message", "storage is full or blocked")
            .await?;
        page.element("#inlet-width_m-0")
            .await?
            .send_keys("1")
            .await?;
        page.wait_for_text(".message", "not kept when the page is closed")
            .await?;
        page.until(
            "the typed text",
            "return document.querySelector('#inlet-width_m-0').value === '6.251';",
        )
        .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn nothing_moves_but_where_the_system_allows_motion() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        const RULES: &str = "const moving = [];\
            for (const sheet of document.styleSheets) for (const rule of sheet.cssRules) {\
                const inside = rule instanceof CSSMediaRule\
                    && rule.conditionText.includes('prefers-reduced-motion: no-preference');\
                if (!inside && rule.cssText.includes('animation') && !(rule instanceof CSSKeyframesRule))\
                    moving.push(rule.cssText);\
            }\
            return moving.length === 0 && document.querySelector('svg.bay') !== null\
                && document.querySelector('svg.bay animate, svg.bay animateMotion') === null;";
        page.until("no motion outside the permission", RULES)
            .await?;
        page.expect_no_faults().await
    });
}
