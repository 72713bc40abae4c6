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
            Some(4 + 2 * 4 + 4 + 4 + 3),
            "seals, two inlets, an exit's edge, its place and its pressure"
        );
        page.press("worn, curled away in places: about 20 in² in all")
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
