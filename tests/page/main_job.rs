//! The main job: from a cowl's numbers to head, oil, shutter and drag, on awkward input too.

use coolpath_tests::browser::{self, BrowserError, Page, SingleFile, Site};
use std::fs;
use std::path::PathBuf;

const WIDTH: &str = "#inlet-width_m-0";
const OIL_FIELD: &str = "#engine-oil_limit_k-0";
const WIDTH_OF_EXIT: &str = "#exit-width_m-0";

/// Replaces a field's text key by key.
/// Hottest head of the take-off climb, °F, as its card in the strip shows it.
async fn climb_head(page: &Page) -> Result<f64, BrowserError> {
    const READ: &str = "return document.querySelectorAll('#strip .cond')[1]\
        .querySelector('.head').textContent;";
    let text = page.script(READ, vec![]).await?;
    let number: String = text
        .as_str()
        .unwrap_or_default()
        .chars()
        .filter(|c| c.is_ascii_digit() || *c == '-')
        .collect();
    Ok(number.parse().expect("a temperature"))
}

/// Waits until the take-off climb's head satisfies a test.
async fn until_head(
    page: &Page,
    what: &str,
    fits: impl Fn(f64) -> bool,
) -> Result<f64, BrowserError> {
    page.wait_for(what, async |page: &Page| {
        let head = climb_head(page).await?;
        Ok(fits(head).then_some(head))
    })
    .await
}

/// Nothing on the page is "not a number" or infinite, and the browser reports no fault.
async fn sound(page: &Page) -> Result<(), BrowserError> {
    let text = page
        .script("return document.body.innerText;", vec![])
        .await?;
    let text = text.as_str().unwrap_or_default();
    for nonsense in ["NaN", "inf ", "Infinity", "undefined"] {
        assert!(!text.contains(nonsense), "{nonsense} stands on the page");
    }
    page.expect_no_faults().await
}

fn scratch(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("coolpath-{name}-{}", std::process::id()));
    let _ = fs::remove_dir_all(&folder);
    fs::create_dir_all(&folder).expect("a folder");
    folder
}

#[test]
fn a_wider_inlet_cools_the_heads_at_once() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        let before = climb_head(&page).await?;
        page.retype(WIDTH, "9,5").await?;
        let after = until_head(&page, "cooler heads", |head| head < before).await?;
        assert!(before - after >= 5.0, "{before} to {after} °F");
        assert_eq!(page.value(WIDTH).await?, "9,5");
        // The focus stays in the field while the answers change.
        const FOCUS: &str = "return document.activeElement.id;";
        assert_eq!(
            page.script(FOCUS, vec![]).await?.as_str(),
            Some("inlet-width_m-0")
        );
        page.go("results").await?;
        page.wait_for_text(".answers .band", "…").await?;
        sound(&page).await
    });
}

#[test]
fn a_typed_unit_and_two_switches_of_units_keep_the_value() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.retype(WIDTH, "203,2 mm").await?;
        let head = climb_head(&page).await?;
        page.choose("Units", "mm, °C, km/h, Pa").await?;
        page.wait_for_text("#strip", "°C").await?;
        assert_eq!(page.value(WIDTH).await?, "203.2");
        page.choose("Units", "in, °F, kt, inH₂O").await?;
        page.wait_for_text("#strip", "°F").await?;
        assert_eq!(page.value(WIDTH).await?, "8");
        assert_eq!(climb_head(&page).await?, head);
        sound(&page).await
    });
}

#[test]
fn rubbish_keeps_its_text_and_the_last_valid_answers() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        let before = climb_head(&page).await?;
        for text in ["-", "10.", "wide", "999", ""] {
            page.retype(WIDTH, text).await?;
            assert_eq!(page.value(WIDTH).await?, text);
            if text == "10." {
                page.retype(WIDTH, "6.25").await?;
                continue;
            }
            page.wait_for_text(
                "#inlet-width_m-0-fault",
                "Inlet width must be between 0.5 and 40 in",
            )
            .await?;
            page.wait_for_text(".stale", "last valid values").await?;
            sound(&page).await?;
        }
        // "999" goes through 9, which is valid, and stops there: the text says what is wrong.
        page.retype(WIDTH, "6.25").await?;
        until_head(&page, "the first answer again", |head| head == before).await?;
        assert!(page.elements(".stale").await?.is_empty());
        sound(&page).await
    });
}

#[test]
fn inputs_survive_a_reload_right_and_wrong_ones() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.retype(WIDTH, "7.75").await?;
        page.retype(OIL_FIELD, "hot").await?;
        page.reload().await?;
        page.wait_for_text("#strip", "Take-off climb").await?;
        assert_eq!(page.value(WIDTH).await?, "7.75");
        assert_eq!(page.value(OIL_FIELD).await?, "hot");
        page.wait_for_text(".stale", "Oil temperature limit")
            .await?;
        sound(&page).await
    });
}

#[test]
fn every_awkward_text_is_still_there_after_a_reload_and_undo_leads_back() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        let first = page.value(WIDTH).await?;
        for text in ["7 1/2", "7,5", "-", "", "99999", "7 kg"] {
            page.retype(WIDTH, text).await?;
            page.reload().await?;
            page.wait_for_text("#strip", "Take-off climb").await?;
            assert_eq!(page.value(WIDTH).await?, text);
        }
        page.retype(WIDTH, "7.75").await?;
        for _ in 0..12 {
            if page.value(WIDTH).await? == first {
                break;
            }
            page.press("Undo").await?;
        }
        assert_eq!(page.value(WIDTH).await?, first);
        sound(&page).await
    });
}

#[test]
fn a_stored_state_that_cannot_be_read_is_set_aside_and_said() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "Mine").await?;
        const SPOIL: &str = "const key = 'coolpath:tab:' + sessionStorage.getItem('coolpath:mark');\
            localStorage.setItem(key, '{\"coolpath_state\":99}'); return key;";
        let key = page.script(SPOIL, vec![]).await?;
        page.reload().await?;
        page.wait_for_text(".message", "set aside").await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "Another").await?;
        const KEPT: &str = "return localStorage.getItem(arguments[0]);";
        let kept = page.script(KEPT, vec![key]).await?;
        assert_eq!(kept.as_str(), Some("{\"coolpath_state\":99}"));
        sound(&page).await
    });
}

#[test]
fn a_design_is_saved_and_opened_again_and_a_broken_file_changes_nothing() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        let folder = scratch("files");
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.save_downloads_in(&folder).await?;
        page.retype(WIDTH, "8.125").await?;
        page.open_menu().await?;
        page.press("Save to a file").await?;
        let file = folder.join("example-two-seat-tourer-flat-four-150-hp.coolpath.json");
        page.wait_for("the saved file", async |_: &Page| {
            Ok(file.exists().then_some(()))
        })
        .await?;
        page.retype(WIDTH, "5").await?;
        page.choose_file("Open a file", &file).await?;
        page.wait_for_text(".message", "is open").await?;
        assert_eq!(page.value(WIDTH).await?, "8.125");

        let broken = folder.join("broken.json");
        let text = fs::read_to_string(&file).expect("the file");
        fs::write(&broken, &text[..text.len() / 3]).expect("written");
        page.choose_file("Open a file", &broken).await?;
        page.wait_for_text(".message", "line").await?;
        assert_eq!(page.value(WIDTH).await?, "8.125");
        page.press("Undo").await?;
        page.wait_for("the width before", async |page: &Page| {
            Ok((page.value(WIDTH).await? == "5").then_some(()))
        })
        .await?;
        fs::remove_dir_all(&folder).expect("removed");
        sound(&page).await
    });
}

#[test]
fn the_single_file_does_the_main_job_from_disk() {
    let file = SingleFile::downloaded().expect("the file");
    browser::run(|page| async move {
        page.visit(&file.url()).await?;
        let before = climb_head(&page).await?;
        page.retype("#exit-gap_m-0", "6.5").await?;
        until_head(&page, "cooler heads", |head| head < before).await?;
        assert!(page.elements("#drawing svg.bay").await?.len() == 1);
        page.go("results").await?;
        assert!(page.elements("svg.chart").await?.len() >= 2);
        sound(&page).await
    });
}

#[test]
fn an_engine_that_is_not_modelled_is_refused_in_words() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.choose("Kind of engine and installation", "Turbocharged")
            .await?;
        page.wait_for_text("#strip", "Turbocharged engines are not modelled")
            .await?;
        page.press("Undo").await?;
        page.wait_for_text("#strip .head", "°F").await?;
        sound(&page).await
    });
}

#[test]
fn what_is_told_of_uneven_air_has_a_picture_a_figure_and_a_place_and_debris_a_warning() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.choose("Air between left and right", "The left side gets less")
            .await?;
        page.choose(
            "Air between front and rear",
            "The front heads get less: they sit behind the inlet ramps",
        )
        .await?;
        page.until(
            "a figure each and a picture each",
            "const shown = (id) => document.querySelector(id);\
             return shown('#engine-poorer_side_air-0')?.value === '0.92'\
                && shown('#engine-poorer_end_air-0')?.value === '0.9'\
                && shown('#engine-poorer_side-0 ~ svg.sketch') !== null\
                && shown('#engine-poorer_end-0 ~ svg.sketch') !== null;",
        )
        .await?;
        page.choose(
            "Passages between the fins",
            "Something lies on one cylinder: rag, nest, a piece of seal",
        )
        .await?;
        page.reload().await?;
        page.go("results").await?;
        page.wait_for_text("#results .warnings", "take it off before the engine runs")
            .await?;
        page.go("design").await?;
        const ENGINE: &str = "const part = [...document.querySelectorAll('#drawing svg .part')]\
            .find((part) => part.dataset.part === 'engine' && part.tabIndex === 0);\
            part.focus(); part.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));";
        page.script(ENGINE, vec![]).await?;
        page.wait_for_text(".facts", "front left head under the debris")
            .await?;
        page.press("Undo").await?;
        page.wait_for_text(".facts", "front left head, ").await?;
        sound(&page).await
    });
}

#[test]
fn an_upper_deck_in_two_halves_is_entered_drawn_and_explained() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.choose(
            "Upper deck",
            "A left and a right half, with an opening between them",
        )
        .await?;
        page.choose("Left inlet: Feeds", "The left half").await?;
        page.choose("Right inlet: Feeds", "The right half").await?;
        page.until(
            "an opening that is typed",
            "return document.querySelector('#decks-crossover_area_m2-0')?.value === '12';",
        )
        .await?;
        page.choose("The cooler's air is taken", "behind the right bank")
            .await?;
        page.reload().await?;
        page.go("design").await?;
        const SHOW: &str = "const part = [...document.querySelectorAll('#drawing svg .part')]\
            .find((part) => part.dataset.part === arguments[0] && part.tabIndex === 0);\
            part.focus(); part.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));";
        page.script(SHOW, vec!["upper-deck".into()]).await?;
        // The hose takes from the right, so air crosses from the left.
        page.wait_for_text(".facts", "Air across, left to right")
            .await?;
        page.script(SHOW, vec!["engine".into()]).await?;
        page.wait_for_text(".facts", "Mean head, right bank")
            .await?;
        sound(&page).await
    });
}

#[test]
fn a_part_of_the_drawing_leads_to_its_inputs_by_key() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        const PARTS: &str =
            "return document.querySelectorAll('#drawing svg .part[tabindex=\"0\"]').length;";
        assert_eq!(page.script(PARTS, vec![]).await?.as_u64(), Some(8));
        for (text, field) in [("inlets", "#inlet-width_m-0"), ("exit", WIDTH_OF_EXIT)] {
            const CHOOSE: &str = "const part = [...document.querySelectorAll('#drawing svg .part')]\
                .find((part) => part.dataset.part === arguments[0] && part.tabIndex === 0);\
                part.focus(); part.dispatchEvent(new KeyboardEvent('keydown', { key: 'Enter', bubbles: true }));";
            page.script(CHOOSE, vec![text.into()]).await?;
            page.wait_for(field, async |page: &Page| {
                Ok((page.elements(field).await?.len() == 1).then_some(()))
            })
            .await?;
        }
        sound(&page).await
    });
}

#[test]
fn nothing_sticks_out_sideways_on_a_phone_or_a_desk() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        for width_px in [375, 768, 1024, 1440] {
            page.set_viewport(width_px, 900).await?;
            page.visit(&site.url()).await?;
            page.go("results").await?;
            page.wait_for_text(".answers .band", "…").await?;
            for place in [
                "design", "inputs", "results", "decide", "fly", "workshop", "report",
            ] {
                page.go(place).await?;
                assert_eq!(
                    page.sideways_overflow_px().await?,
                    0,
                    "{place}, {width_px} px"
                );
            }
        }
        sound(&page).await
    });
}

#[test]
fn six_screens_make_a_design_of_ones_own_and_bad_answers_are_told() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.open(&site.url()).await?;
        page.wait_for_text(".first-use", "Try the example").await?;
        page.press("Enter my aircraft").await?;
        page.wait_for_text(".question-count", "1 of 6").await?;
        // Each option has its picture, and the aircraft stands above.
        assert_eq!(page.elements(".choice-card > svg.sketch").await?.len(), 4);
        assert_eq!(page.elements(".first-picture svg.bay").await?.len(), 1);
        page.retype("#question-6", "two hundred").await?;
        page.press("Next").await?;
        page.wait_for_text(".first-use", "Rated power must be between")
            .await?;
        page.retype("#question-6", "200").await?;
        page.press("Next").await?;
        page.wait_for_text(".question-count", "2 of 6").await?;
        page.press("Next").await?;
        page.wait_for_text(".question-count", "3 of 6").await?;
        page.retype("#question-1", "190 mm").await?;
        page.wait_for_text(".first-picture", "7.48 in").await?;
        // A reload in the middle asks on from the same screen, with what was typed.
        page.reload().await?;
        page.wait_for_text(".question-count", "3 of 6").await?;
        assert_eq!(page.value("#question-1").await?, "190 mm");
        page.press("Back").await?;
        page.press("Back").await?;
        page.wait_for_text(".question-count", "1 of 6").await?;
        assert_eq!(page.value("#question-6").await?, "200");
        page.press("Next").await?;
        page.press("Next").await?;
        page.wait_for_text(".question-count", "3 of 6").await?;
        let mut asked = 2 + 2;
        for screen in ["4 of 6", "5 of 6", "6 of 6"] {
            page.press("Next").await?;
            page.wait_for_text(".question-count", screen).await?;
            assert_eq!(page.elements(".first-picture svg.bay").await?.len(), 1);
            asked += page.elements(".first-use .field").await?.len();
        }
        assert_eq!(asked, 12, "questions with a number");
        page.wait_for_text(".question-screen", "values with a likely range")
            .await?;
        page.press("Show my results").await?;
        page.until(
            "the design",
            "return document.querySelector('#design-name')?.value === 'My design';",
        )
        .await?;
        page.go("inputs").await?;
        assert_eq!(page.value("#engine-rated_power_w-0").await?, "200");
        assert_eq!(page.value("#inlet-width_m-1").await?, "7.48");
        page.press("Undo").await?;
        page.until(
            "the example",
            "return document.querySelector('#design-name')?.value.startsWith('Example');",
        )
        .await?;
        sound(&page).await
    });
}

#[test]
fn why_shows_the_equations_with_their_values_and_origins() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("results").await?;
        assert!(page.elements(".derivation").await?.is_empty());
        page.script("document.querySelector('.why').open = true;", vec![])
            .await?;
        page.wait_for_text(".why", "T_h = (G_gas T_g + G_fin T_a + G_ho T_oil)")
            .await?;
        assert_eq!(page.elements(".derivation").await?.len(), 10);
        page.wait_for_text(".why", "our estimate").await?;
        sound(&page).await
    });
}
