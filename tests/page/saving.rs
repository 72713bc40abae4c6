//! Figures and tables leave the page, keys, the list of keys, what this program is, lengths as they
//! are measured.

use coolpath_core::units::feet_inches;
use coolpath_tests::browser::{self, BrowserError, Page, Site};
use std::path::{Path, PathBuf};

/// A folder of a test's own.
fn scratch(name: &str) -> PathBuf {
    let folder = std::env::temp_dir().join(format!("coolpath-{name}-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    folder
}

/// Content of a file as soon as it is there whole.
async fn saved(page: &Page, file: &Path) -> Result<Vec<u8>, BrowserError> {
    page.wait_for("the saved file", async |_: &Page| {
        let bytes = std::fs::read(file).unwrap_or_default();
        Ok((!bytes.is_empty()).then_some(bytes))
    })
    .await
}

/// Opens the menu whose name begins so.
async fn open_save(page: &Page, of: &str) -> Result<(), BrowserError> {
    let script = format!(
        "const summary = [...document.querySelectorAll('.view:not([hidden]) .save > summary')]\
         .find((summary) => summary.getAttribute('aria-label').startsWith('Save: {of}'));\
         if (!summary) return false; summary.scrollIntoView({{ block: 'center' }});\
         summary.parentElement.open = true; return true;"
    );
    page.until(of, &script).await?;
    page.until(
        "an open menu",
        "return document.querySelector('.save[open] .save-body button') !== null;",
    )
    .await
}

/// Retypes the text of a field.
const WIDTH: &str = "#inlet-width_m-0";
const STEM: &str = "example-two-seat-tourer-flat-four-150-hp";

#[test]
fn the_answers_leave_as_numbers_and_what_was_refused_stands_on_their_face() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        let folder = scratch("answers");
        page.save_downloads_in(&folder).await?;
        page.visit_and_settle(&site.url()).await?;
        open_save(&page, "Answers").await?;
        page.press("Table as a file (CSV)").await?;
        page.wait_for_text(".save-body", "Saved as").await?;
        let file = folder.join(format!("{STEM}-answers.csv"));
        let text = String::from_utf8(saved(&page, &file).await?).expect("UTF-8");
        let lines: Vec<&str> = text.trim_start_matches('\u{feff}').lines().collect();
        assert!(
            text.starts_with('\u{feff}') && lines[0].starts_with("Condition,"),
            "{text}"
        );
        assert!(lines[0].contains("\"Hottest CHT, °F\""), "{text}");
        let shown = page.elements(".results .answers tbody tr").await?.len();
        assert_eq!(lines.len(), 1 + shown, "{text}");
        let hottest = lines[1]
            .split(',')
            .find_map(|cell| cell.parse::<f64>().ok());
        assert!(hottest.is_some_and(|kelvin| kelvin > 100.0), "{text}");
        std::fs::remove_file(&file).expect("it was there");

        page.go("inputs").await?;
        page.retype(WIDTH, "wide").await?;
        page.go("results").await?;
        open_save(&page, "Answers").await?;
        page.press("Table as a file (CSV)").await?;
        let text = String::from_utf8(saved(&page, &file).await?).expect("UTF-8");
        let first = text
            .trim_start_matches('\u{feff}')
            .lines()
            .next()
            .unwrap_or_default();
        assert!(
            first.contains("Not what was typed") && first.contains("wide"),
            "{first}"
        );
        std::fs::remove_dir_all(&folder).expect("removed");
        page.expect_no_faults().await
    });
}

#[test]
fn a_chart_leaves_as_a_drawing_and_as_a_picture_that_stand_alone() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        let folder = scratch("charts");
        page.save_downloads_in(&folder).await?;
        page.visit_and_settle(&site.url()).await?;
        const FIRST: &str = "return document.querySelector('#one-condition .figure figcaption p, .results .figure figcaption p').textContent;";
        let title = page.script(FIRST, vec![]).await?;
        let title = title.as_str().expect("a title").to_owned();
        open_save(&page, title.get(..12).unwrap_or(&title)).await?;
        page.press("Chart as a drawing (SVG)").await?;
        page.press("Chart as a picture (PNG)").await?;
        let of = async |ending: &str| {
            page.wait_for("a file", async |_: &Page| {
                let mut files = std::fs::read_dir(&folder).into_iter().flatten().flatten();
                Ok(files.find_map(|file| {
                    let path = file.path();
                    let fits = path.extension().is_some_and(|end| end == ending);
                    fits.then_some(path)
                }))
            })
            .await
        };
        let svg = String::from_utf8(saved(&page, &of("svg").await?).await?).expect("UTF-8");
        assert!(
            !svg.contains("var(") && !svg.contains("light-dark"),
            "{svg}"
        );
        assert!(svg.contains("fill=\"#fbfaf5\""), "the ground is filled");
        assert!(svg.contains("#14232b"), "the ink is that of paper");
        let side = |name: &str| -> f64 {
            let value = svg.split(&format!("{name}=\"")).nth(1).expect("a side");
            value
                .split('"')
                .next()
                .expect("its end")
                .parse()
                .expect("a number")
        };
        let png = saved(&page, &of("png").await?).await?;
        assert!(png.starts_with(b"\x89PNG"), "{:?}", png.get(..8));
        let number = |at: usize| u32::from_be_bytes(png[at..at + 4].try_into().expect("four"));
        assert_eq!(f64::from(number(16)), 2.0 * side("width"));
        assert_eq!(f64::from(number(20)), 2.0 * side("height"));
        std::fs::remove_dir_all(&folder).expect("removed");
        page.expect_no_faults().await
    });
}

#[test]
fn a_table_is_copied_and_where_the_clipboard_is_shut_its_text_is_offered() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        const CATCH: &str = "window.caught = null; navigator.clipboard.writeText =\
            (text) => { window.caught = text; return Promise.resolve(); };";
        page.script(CATCH, vec![]).await?;
        open_save(&page, "Answers").await?;
        page.press("Copy the table").await?;
        page.wait_for_text(".save-body", "Copied").await?;
        let caught = page.script("return window.caught;", vec![]).await?;
        let text = caught.as_str().expect("a text").to_owned();
        assert!(text.starts_with("Condition\tHottest CHT, °F\t"), "{text}");
        const SHUT: &str =
            "navigator.clipboard.writeText = () => Promise.reject(new Error('shut'));";
        page.script(SHUT, vec![]).await?;
        page.press("Copy the table").await?;
        page.wait_for_text(".save-body", "will not open the clipboard")
            .await?;
        let offered = page.value(".save-body textarea").await?;
        assert_eq!(offered.replace('\n', "\r\n").replace("\r\r", "\r"), text);
        page.expect_no_faults().await
    });
}

#[test]
fn keys_open_their_list_and_save_and_never_act_while_one_types() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        let folder = scratch("keys");
        page.save_downloads_in(&folder).await?;
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        const KEY: &str = "(document.activeElement || document.body).dispatchEvent(new KeyboardEvent('keydown',\
            { key: arguments[0], ctrlKey: arguments[1], shiftKey: arguments[2], bubbles: true, cancelable: true }));";
        let key = async |name: &str, ctrl: bool, shift: bool| {
            page.script(KEY, vec![name.into(), ctrl.into(), shift.into()])
                .await
        };
        page.script(
            "document.querySelector('#inlet-width_m-0').focus();",
            vec![],
        )
        .await?;
        key("?", false, true).await?;
        assert!(page.elements("dialog").await?.is_empty(), "one types");
        key("s", true, false).await?;
        page.wait_for_text(".message", "Saved as").await?;
        saved(&page, &folder.join(format!("{STEM}.coolpath.json"))).await?;
        page.script("document.activeElement.blur();", vec![])
            .await?;
        key("?", false, true).await?;
        page.wait_for_text("dialog[open]", "Undo").await?;
        page.click(".dialog-head button").await?;
        page.until(
            "no dialog",
            "return document.querySelector('dialog') === null;",
        )
        .await?;
        page.retype(WIDTH, "7").await?;
        key("z", true, false).await?;
        page.until(
            "the width before",
            "return document.querySelector('#inlet-width_m-0').value === '6.25';",
        )
        .await?;
        key("Z", true, true).await?;
        page.until(
            "the width again",
            "return document.querySelector('#inlet-width_m-0').value === '7';",
        )
        .await?;
        std::fs::remove_dir_all(&folder).expect("removed");
        page.expect_no_faults().await
    });
}

#[test]
fn the_page_says_which_version_it_is_and_a_report_holds_the_design() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.press("About").await?;
        const HEAD: &str = "return document.querySelector('meta[name=coolpath-version]').content;";
        let version = page.script(HEAD, vec![]).await?;
        let version = version.as_str().expect("a version").to_owned();
        page.wait_for_text("dialog[open]", &version).await?;
        page.wait_for_text("dialog[open]", "MIT or Apache-2.0")
            .await?;
        const SHUT: &str =
            "navigator.clipboard.writeText = () => Promise.reject(new Error('shut'));";
        page.script(SHUT, vec![]).await?;
        page.press("Copy a fault report").await?;
        page.wait_for_text("dialog[open]", "Copy the text below")
            .await?;
        let report = page.value("dialog textarea").await?;
        for part in [version.as_str(), "Browser: ", "Design: coolpath1."] {
            assert!(report.contains(part), "{part} in {report}");
        }
        page.click(".dialog-head button").await?;
        page.until(
            "no dialog",
            "return document.querySelector('dialog') === null;",
        )
        .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn a_length_is_typed_as_it_is_measured_and_a_size_is_one_that_a_rule_shows() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.retype(WIDTH, "2*3 + 3/16").await?;
        assert_eq!(page.value(WIDTH).await?, "2*3 + 3/16", "as it was typed");
        assert!(page.elements(".field-fault").await?.is_empty());
        const KEPT: &str = "const key = Object.keys(localStorage).find((key) =>\
            (localStorage.getItem(key) || '').includes('2*3 + 3/16'));\
            return key ? JSON.parse(localStorage.getItem(key)).design.inlets?.[0]?.width_m\
            ?? JSON.parse(localStorage.getItem(key)).design.installation.inlets[0].width_m : null;";
        let metres = page
            .wait_for("the stored width", async |page: &Page| {
                Ok(page.script(KEPT, vec![]).await?.as_f64())
            })
            .await?;
        assert!((metres - 6.1875 * 0.0254).abs() < 1e-9, "{metres}");
        page.go("decide").await?;
        let said = page.wait_for_text("#size .answer", " in").await?;
        let is_on_a_rule = |number: &str| {
            let (inches, _) = feet_inches::inches(number)
                .unwrap_or_else(|| (number.parse().expect("a whole number"), false));
            (16.0 * inches).fract() == 0.0
        };
        let numbers: Vec<&str> = said
            .split([' ', '×'])
            .filter(|word| word.starts_with(|c: char| c.is_ascii_digit()))
            .collect();
        assert!(!numbers.is_empty(), "{said}");
        assert!(numbers.iter().all(|number| is_on_a_rule(number)), "{said}");
        assert!(!said.contains('.'), "{said}");
        page.expect_no_faults().await
    });
}

#[test]
fn units_are_chosen_each_by_itself_and_stay_over_a_reload() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.go("inputs").await?;
        page.choose("Units", "Choose each unit …").await?;
        page.wait_for_text("dialog[open]", "Airspeed").await?;
        page.click("dialog .units-sets button:last-child").await?;
        page.until(
            "knots with degrees Celsius",
            "const text = document.querySelector('main').textContent;\
             return text.includes('(kt)') && text.includes('(°C)') && text.includes('(mm)');",
        )
        .await?;
        page.choose("Airspeed", "mph").await?;
        page.until(
            "miles an hour",
            "const text = document.querySelector('main').textContent;\
             return text.includes('(mph)') && text.includes('(°C)');",
        )
        .await?;
        page.click(".dialog-head button").await?;
        page.reload().await?;
        page.until(
            "the units after a reload",
            "const text = document.querySelector('main')?.textContent ?? '';\
             return text.includes('(mph)') && text.includes('(°C)')\
                && document.querySelector('#units').selectedOptions[0].textContent === 'Own choice';",
        )
        .await?;
        page.choose("Units", "in, °F, kt, inH₂O").await?;
        page.until(
            "the width in inches again",
            "return document.querySelector('#inlet-width_m-0').value === '6.25';",
        )
        .await?;
        page.expect_no_faults().await
    });
}
