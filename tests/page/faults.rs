//! Faults that other pages had, each tried on this one.
//!
//! | fault | where it is tried |
//! |---|---|
//! | decimal comma | `main_job::a_wider_inlet_cools_the_heads_at_once`, `decide` |
//! | "10." or "-" clears the field | `main_job::rubbish_keeps_its_text_and_the_last_valid_answers` |
//! | focus lost on a keystroke | `main_job::a_wider_inlet_cools_the_heads_at_once` |
//! | no minus on a phone's keypad | here |
//! | the wheel edits a number | here |
//! | units drift | `main_job::a_typed_unit_and_two_switches_of_units_keep_the_value`, `tests/units.rs` |
//! | +32 on a difference | `format` and `comparison` of the page, natively |
//! | link too long or one edit behind | `sharing` |
//! | chart in a hidden container | here |
//! | print cut or only one page | here |
//! | served under a sub-path, MIME type | `loading::the_folder_works_under_any_path` |
//! | a panic without a message | `loading::a_fault_after_the_start_is_said_and_keeps_the_page` |
//! | old or broken state | `main_job::a_stored_state_that_cannot_be_read_is_set_aside_and_said` |
//! | logs | `flight_test`, `tests/log.rs` |

use coolpath_tests::browser::{self, Medium, Page, Site, Theme};
use coolpath_tests::scratch::Scratch;

#[test]
fn a_keypad_that_offers_no_minus_stands_only_where_none_is_possible() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        const MODES: &str = "return [...document.querySelectorAll('.form input[type=text]')]\
            .filter((field) => field.closest('.field').querySelector('.unit, .origin') !== null || field.inputMode !== '')\
            .map((field) => [field.id, field.inputMode, field.type]);";
        let fields = page.script(MODES, vec![]).await?;
        let fields = fields.as_array().cloned().unwrap_or_default();
        assert!(fields.len() > 40);
        let below_zero = [
            "condition-oat_k",
            "condition-isa_offset_k",
            "exit-pressure_coefficient",
            "decks-overboard_pressure_coefficient",
            "condition-altitude_m",
        ];
        let mut seen = 0;
        for field in &fields {
            let id = field[0].as_str().unwrap_or_default();
            if below_zero.iter().any(|name| id.starts_with(name)) {
                seen += 1;
                assert!(
                    matches!(field[1].as_str(), Some("" | "text")),
                    "{id} has a keypad without a minus"
                );
            }
        }
        assert!(seen >= 4, "{seen} fields that may be below zero");
        // An OAT of −10, typed with either sign.
        for text in ["-10", "−10"] {
            page.script(
                "const field = document.querySelector('#condition-oat_k-3');\
                 field.closest('details').open = true; field.focus(); field.select();",
                vec![],
            )
            .await?;
            page.element("#condition-oat_k-3")
                .await?
                .send_keys(text)
                .await?;
            page.wait_for("no fault", async |page: &Page| {
                let fault = page
                    .script(
                        "return document.querySelector('#condition-oat_k-3-fault')?.textContent ?? '';",
                        vec![],
                    )
                    .await?;
                Ok((fault.as_str() == Some("")).then_some(()))
            })
            .await?;
        }
        page.expect_no_faults().await
    });
}

#[test]
fn the_wheel_over_a_focused_number_changes_nothing() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        const WHEEL: &str = "const field = document.querySelector('#inlet-width_m-0');\
            field.focus(); field.dispatchEvent(new WheelEvent('wheel', { deltaY: 120, bubbles: true }));\
            return field.value + ' ' + field.type;";
        let value = page.script(WHEEL, vec![]).await?;
        assert_eq!(value.as_str(), Some("6.25 text"));
        page.expect_no_faults().await
    });
}

#[test]
fn charts_drawn_while_hidden_or_without_width_hold_no_nonsense() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("results").await?;
        page.script(
            "document.querySelector('#results').style.display = 'none';",
            vec![],
        )
        .await?;
        page.set_viewport(1, 600).await?;
        // Drawn anew while it has no room: with other units.
        page.script(
            "const list = document.querySelector('#units'); list.value = 'metric';\
             list.dispatchEvent(new Event('change', { bubbles: true }));",
            vec![],
        )
        .await?;
        page.set_viewport(1440, 900).await?;
        page.script(
            "document.querySelector('#results').style.display = '';",
            vec![],
        )
        .await?;
        page.wait_for("whole charts", async |page: &Page| {
            const WHOLE: &str = "const charts = [...document.querySelectorAll('svg.chart')];\
                return charts.length > 4 && charts.every((chart) =>\
                    !/NaN|Infinity/.test(chart.outerHTML) && chart.getBoundingClientRect().width > 100);";
            let whole = page.script(WHOLE, vec![]).await?;
            Ok(whole.as_bool().unwrap_or_default().then_some(()))
        })
        .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn print_has_light_colours_and_nothing_sticks_out_of_the_sheet() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.show(Theme::Dark, Medium::Print).await?;
        // A4 less margins, at 96 pixels an inch.
        page.set_viewport(700, 1000).await?;
        page.visit(&site.url()).await?;
        for place in [
            "design", "inputs", "results", "decide", "fly", "workshop", "report",
        ] {
            page.go(place).await?;
            assert_eq!(page.sideways_overflow_px().await?, 0, "{place}");
        }
        page.go("design").await?;
        const PAPER: &str = "const style = getComputedStyle(document.body);\
            const part = getComputedStyle(document.querySelector('.panel'));\
            return [style.backgroundColor, part.position, part.overflowY, part.maxHeight];";
        let paper = page.script(PAPER, vec![]).await?;
        assert_eq!(paper[0].as_str(), Some("rgb(255, 255, 255)"));
        assert_eq!(paper[1].as_str(), Some("static"));
        assert_eq!(
            paper[3].as_str(),
            Some("none"),
            "nothing is cut after a page"
        );
        page.expect_no_faults().await
    });
}

#[test]
fn blocked_storage_is_said_and_the_page_goes_on() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.open_menu().await?;
        const BLOCK: &str = "Object.defineProperty(window, 'localStorage',\
            { get() { throw new DOMException('denied', 'SecurityError'); } });";
        page.script(BLOCK, vec![]).await?;
        page.type_into("Aircraft", "Typed without storage").await?;
        page.wait_for_text(".message", "This browser blocks storage")
            .await?;
        page.type_into("Cowl exit width", "15").await?;
        assert_eq!(page.typed("Aircraft").await?, "Typed without storage");
        assert_eq!(page.typed("Cowl exit width").await?, "15");
        page.expect_no_faults().await
    });
}

#[test]
fn two_windows_are_told_of_each_other_and_keep_what_is_typed() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "First window").await?;
        const SECOND: &str = "const other = document.createElement('iframe'); other.src = location.href;\
            other.id = 'second'; document.body.append(other);";
        page.script(SECOND, vec![]).await?;
        const TYPE: &str = "const field = document.querySelector('#second').contentDocument?.querySelector('#design-name');\
            if (!field) return false;\
            field.value = 'Second window'; field.dispatchEvent(new Event('input', { bubbles: true })); return true;";
        page.until("the second window", TYPE).await?;
        // The later window is offered both; the first one goes on.
        const OFFER: &str = "const offer = document.querySelector('#second').contentDocument?.querySelector('#two-windows');\
            return offer !== null && offer !== undefined && offer.textContent.includes('has this design open too');";
        page.until("the offer", OFFER).await?;
        assert_eq!(page.typed("Aircraft").await?, "First window");
        page.type_into("Cowl exit width", "15").await?;
        assert_eq!(page.typed("Cowl exit width").await?, "15");
        page.expect_no_faults().await
    });
}

#[test]
fn inputs_survive_a_fault_of_the_page_itself() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "Before the fault").await?;
        // The page cannot draw any more, and stops.
        const BREAK: &str = "Node.prototype.insertBefore = () => { throw new Error('forced'); };\
            Node.prototype.appendChild = () => { throw new Error('forced'); };";
        page.script(BREAK, vec![]).await?;
        page.type_into("Cowl exit width", "wide").await.ok();
        page.wait_for_text("#failure", "has stopped").await?;
        let _ = page.console_faults().await?;
        page.open("about:blank").await?;
        page.open(&format!("{}#inputs", site.url())).await?;
        page.wait_for_text("#strip", "Take-off climb, hot day")
            .await?;
        assert_eq!(page.typed("Aircraft").await?, "Before the fault");
        assert!("wide".starts_with(&page.typed("Cowl exit width").await?));
        assert!(!page.typed("Cowl exit width").await?.is_empty());
        page.expect_no_faults().await
    });
}

#[test]
fn a_design_file_that_was_cut_off_changes_nothing() {
    let site = Site::served("/").expect("a site");
    let text =
        serde_json::to_string_pretty(&coolpath_core::document::example::design()).expect("a file");
    let file = Scratch::new("cut.json", &text.as_bytes()[..text.len() / 2]);
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "Mine").await?;
        page.choose_file("Open a file", file.path()).await?;
        page.wait_for_text(".message", "Nothing was changed")
            .await?;
        assert_eq!(page.typed("Aircraft").await?, "Mine");
        page.expect_no_faults().await
    });
}
