//! A size tried by hand on the map of sizes.

use coolpath_tests::browser::{self, Site};
use thirtyfour::{Key, TypingData};

/// Takes the handle on the map of sizes to shares of the plot's width and height, as a pointer of a kind does.
const DRAG: &str = "const handle = document.querySelector('#size .handle');\
    const plot = document.querySelector('#size .chart-over .plot').getBoundingClientRect();\
    const from = handle.querySelector('.grasp').getBoundingClientRect();\
    const send = (type, x, y) => handle.dispatchEvent(new PointerEvent(type,\
        { bubbles: true, cancelable: true, pointerType: arguments[2], pointerId: 1, clientX: x, clientY: y }));\
    const start = [from.left + from.width / 2, from.top + from.height / 2];\
    const end = [plot.left + arguments[0] * plot.width, plot.top + arguments[1] * plot.height];\
    send('pointerdown', ...start);\
    for (let at = 1; at <= 8; at += 1) {\
        send('pointermove', start[0] + (end[0] - start[0]) * at / 8, start[1] + (end[1] - start[1]) * at / 8);\
        await new Promise((done) => setTimeout(done, 16));\
    }\
    send('pointerup', ...end);\
    send('pointermove', plot.left, plot.bottom);\
    await new Promise((done) => setTimeout(done, 60));\
    const now = handle.querySelector('.grasp').getBoundingClientRect();\
    return Math.hypot(now.left + now.width / 2 - end[0], now.top + now.height / 2 - end[1]);";

#[test]
fn a_size_is_dragged_on_the_map_says_what_it_gives_and_is_taken_over_only_where_it_holds() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        for (width_px, height_px, pointer) in [(1440, 900, "mouse"), (375, 812, "touch")] {
            page.set_viewport(width_px, height_px).await?;
            page.visit_and_settle(&site.url()).await?;
            page.go("size").await?;
            page.until(
                "the handle",
                "return document.querySelector('#size .handle') !== null;",
            )
            .await?;
            // Small openings are too hot, and say so.
            let off = page
                .script(DRAG, vec![0.12.into(), 0.85.into(), pointer.into()])
                .await?;
            assert!(off.as_f64().is_some_and(|px| px < 6.0), "{off:?} px away");
            page.wait_for_text("#size .tried-verdict.outside", "Not offered: CHT is ")
                .await?;
            page.wait_for_text("#size .tried-figures", "over limit")
                .await?;
            const OFFERED: &str = "return [...document.querySelectorAll('#size button')]\
                .filter((button) => button.textContent === 'Use the size under the handle' && !button.disabled).length;";
            assert_eq!(page.script(OFFERED, vec![]).await?.as_u64(), Some(0));
            // Large ones hold, and cost drag.
            page.script(DRAG, vec![0.9.into(), 0.1.into(), pointer.into()])
                .await?;
            page.wait_for_text(
                "#size .tried-verdict",
                "Both limits hold in every condition",
            )
            .await?;
            page.wait_for_text("#size .tried-figures", "lbf from now")
                .await?;
            page.wait_for_text("#size .tried-figures", "≈ ").await?;
            page.until(
                "an offer",
                &format!("{} === 1;", OFFERED.trim_end_matches(';')),
            )
            .await?;
            // An arrow key is one square inch.
            const NOW: &str = "return Number(document.querySelector('#size .handle').getAttribute('aria-valuenow'));";
            let before = page.script(NOW, vec![]).await?.as_f64().unwrap_or_default();
            page.script("document.querySelector('#size .handle').focus();", vec![])
                .await?;
            let handle = page.element("#size .handle").await?;
            handle.send_keys(TypingData::from(Key::Left)).await?;
            handle.send_keys(TypingData::from(Key::Down)).await?;
            page.until(
                "one square inch less",
                &format!("{} < {before} - 6", NOW.trim_end_matches(';')),
            )
            .await?;
            page.wait_for_text(
                "#size .tried-verdict",
                "Both limits hold in every condition",
            )
            .await?;
            page.press("Use the size under the handle").await?;
            page.go("inputs").await?;
            page.until(
                "larger inlets",
                "return Number(document.querySelector('#inlet-width_m-0').value) > 7;",
            )
            .await?;
            if width_px < 600 {
                page.open_menu().await?;
            }
            page.press("Undo").await?;
            page.until(
                "the inlets before",
                "return document.querySelector('#inlet-width_m-0').value === '6.25';",
            )
            .await?;
        }
        page.expect_no_faults().await
    });
}
