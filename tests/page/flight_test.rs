//! From a log to a calibrated, hot-day-corrected prediction, as a builder does it.

use coolpath_core::document::example;
use coolpath_tests::browser::{self, BrowserError, Medium, Page, Site, Theme};
use coolpath_tests::flight_log;
use coolpath_tests::scratch::Scratch;

/// The invented flight of an aircraft that differs from the example in what a log can show.
fn log() -> String {
    let mut truth = example::design();
    truth.installation.exits[0].pressure_coefficient += 0.08;
    truth.installation.reference.head.value += 8.0;
    truth.installation.oil.heat_share *= 1.1;
    truth.installation.lags.heads = 130.0;
    flight_log::text(&truth, 7)
}

/// Types into the field that a screen reader calls by a name.
pub async fn fill(page: &Page, name: &str, text: &str) -> Result<(), BrowserError> {
    const FILL: &str = "const field = [...document.querySelectorAll('[aria-label]')]\
            .find((field) => field.getAttribute('aria-label') === arguments[0]);\
        if (!field) return false;\
        field.value = arguments[1];\
        field.dispatchEvent(new Event(field.tagName === 'SELECT' ? 'change' : 'input', { bubbles: true }));\
        return true;";
    page.wait_for(name, async |page: &Page| {
        let done = page.script(FILL, vec![name.into(), text.into()]).await?;
        Ok(done.as_bool().unwrap_or_default().then_some(()))
    })
    .await
}

/// Presses every button whose name begins so.
pub async fn press_all(page: &Page, begins: &str) -> Result<u64, BrowserError> {
    const PRESS: &str = "const found = [...document.querySelectorAll('button[aria-label]')]\
            .filter((button) => button.getAttribute('aria-label').startsWith(arguments[0]));\
        found.forEach((button) => button.click()); return found.length;";
    let count = page.script(PRESS, vec![begins.into()]).await?;
    Ok(count.as_u64().unwrap_or_default())
}

/// Fits the model to the readings, and waits for what it was fitted on.
pub(crate) async fn find_values(page: &Page, fitted_on: &str) -> Result<(), BrowserError> {
    page.unfold("#calibrate").await?;
    page.press("Find the values").await?;
    page.wait_for_text("#calibrate .fitted-on", fitted_on)
        .await?;
    Ok(())
}

/// Takes what was found over into the design.
pub(crate) async fn take_over(page: &Page) -> Result<(), BrowserError> {
    page.press("Take these values over").await?;
    page.wait_for_text("#calibrate", "These values stand in the design")
        .await?;
    Ok(())
}

#[test]
fn a_log_becomes_a_calibrated_prediction_corrected_to_a_hot_day() {
    let site = Site::served("/").expect("a site");
    let file = Scratch::new("flight.csv", log().as_bytes());
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        page.read_log(file.path()).await?;
        page.wait_for_text("#log", "3600 rows, 14 columns, one session")
            .await?;
        page.wait_for_text("#log .warnings", "CHT 5 is set aside")
            .await?;
        page.wait_for_text("#log .warnings", "Oil: 1 value set aside, such as")
            .await?;
        assert_eq!(press_all(&page, "Add Steady").await?, 2);
        assert_eq!(press_all(&page, "Add Climb").await?, 1);
        page.wait_for_text("#log", "3 stretches added").await?;
        page.wait_for_text("#readings summary", "(3)").await?;
        page.unfold("#calibrate").await?;
        page.press("Find the values").await?;
        page.wait_for_text("#calibrate", "Your conditions with these values")
            .await?;
        page.wait_for_text("#calibrate .warnings", "do not show the leak")
            .await?;
        take_over(&page).await?;
        page.until(
            "the origin of the calibrated value in the form",
            "location.hash = 'inputs'; document.querySelectorAll('.form details').forEach((part) => { part.open = true; });\
             return [...document.querySelectorAll('.origin')]\
                .some((origin) => origin.textContent.includes('Calibrated with your readings'));",
        )
        .await?;
        // The time constant of the flight was 130 s.
        page.until("the time constant found",
            "const rows = [...document.querySelectorAll('#calibrate td, #calibrate th')].map((cell) => cell.textContent);\
             const at = rows.indexOf('time constant of the heads');\
             const found = parseFloat(rows[at + 2]);\
             return Math.abs(found - 130 / 60) < 0.35;",
        )
        .await?;
        page.go("fly").await?;
        page.unfold("#hot-day").await?;
        page.press("Correct the readings").await?;
        page.wait_for_text("#hot-day table", "By the rule").await?;
        page.wait_for_text("#hot-day", "Why they differ").await?;
        page.wait_for_text("#hot-day table", "over limit").await?;
        page.press("Undo").await?;
        page.go("inputs").await?;
        page.until(
            "the values as they were",
            "return ![...document.querySelectorAll('.origin')]\
                .some((origin) => origin.textContent.includes('Calibrated with your readings'));",
        )
        .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn readings_are_typed_doubted_corrected_and_survive_a_reload() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        page.unfold("#readings").await?;
        page.press("Add a test point").await?;
        page.wait_for_text("#readings .warnings", "Airspeed, indicated is missing")
            .await?;
        for (name, text) in [
            ("Name of reading 1", "Level 1"),
            ("Set of Level 1", "old seals"),
            ("Pressure altitude of Level 1", "3,000"),
            ("OAT of Level 1", "60 C"),
            ("Airspeed, indicated of Level 1", "100"),
            ("Power of Level 1", "75"),
            ("CHT 1 of Level 1", "380"),
            ("CHT 2 of Level 1", "<b>hot</b>"),
        ] {
            fill(&page, name, text).await?;
        }
        page.wait_for_text("#readings .warnings", "°F or °C?")
            .await?;
        page.wait_for_text("#readings .fault", "CHT 2 must be between")
            .await?;
        fill(
            &page,
            "Unit of Δp across the baffles",
            "kt on an airspeed indicator",
        )
        .await?;
        fill(&page, "Δp across the baffles of Level 1", "120").await?;
        page.wait_for_text("#readings .warnings", "Δp is above the ram pressure")
            .await?;
        fill(&page, "Δp across the baffles of Level 1", "80").await?;
        fill(&page, "OAT of Level 1", "60").await?;
        fill(&page, "Added to CHT 1 (°F)", "-4").await?;
        page.open("about:blank").await?;
        page.open(&format!("{}#fly", site.url())).await?;
        page.wait_for_text("#readings summary", "(1)").await?;
        page.unfold("#readings").await?;
        const KEPT: &str = "const of = (name) => [...document.querySelectorAll('[aria-label]')]\
                .find((field) => field.getAttribute('aria-label') === name)?.value;\
            return of('CHT 2 of Level 1') === '<b>hot</b>' && of('Added to CHT 1 (°F)') === '-4'\
                && of('Δp across the baffles of Level 1') === '80'\
                && document.querySelector('#readings b') === null;";
        page.until("what was typed", KEPT).await?;
        page.expect_no_faults().await
    });
}

#[test]
fn a_log_that_cannot_be_read_names_line_and_cell_and_loses_nothing() {
    let site = Site::served("/").expect("a site");
    let mut open = "Time,CHT1,Note\n0,380,a\n1,381,\"open\n".to_owned();
    for second in 2..30 {
        open.push_str(&format!("{second},380,b\n"));
    }
    let quote = Scratch::new("quote.csv", open.as_bytes());
    let binary = Scratch::new("binary.csv", b"Time,CHT1\n0,\0\x01\x02");
    let empty = Scratch::new("empty.csv", b"");
    let wide: Vec<u8> = "Time\tCHT1\tOilT\n0\t380\t195\n1\t381\t195\n2\t381\t195\n"
        .encode_utf16()
        .flat_map(u16::to_le_bytes)
        .collect();
    let wide = Scratch::new("wide.txt", &wide);
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "My own").await?;
        page.unfold("#log").await?;
        for (file, said) in [
            (&quote, "Line 3, cell 3: a quotation mark opens here"),
            (&binary, "Line 2, column 3: this is no text"),
            (&empty, "The file is empty"),
        ] {
            page.choose_file("Choose a log", file.path()).await?;
            page.wait_for_text("#log [role=alert]", said).await?;
        }
        page.choose_file("Choose a log", wide.path()).await?;
        page.wait_for_text("#log", "3 rows, 3 columns").await?;
        assert_eq!(page.typed("Aircraft").await?, "My own");
        page.expect_no_faults().await
    });
}

#[test]
fn columns_and_units_are_chosen_once_and_remembered_by_name() {
    let site = Site::served("/").expect("a site");
    let plain = log().replacen("OAT (deg C)", "T out", 1);
    let plain = Scratch::new("renamed.csv", plain.as_bytes());
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        page.read_log(plain.path()).await?;
        page.unfold("#log-columns").await?;
        page.unfold("#log-unused").await?;
        fill(&page, "What T out is", "oat_k").await?;
        fill(&page, "Unit of T out", "°C").await?;
        const TAKEN: &str = "const of = (name) => [...document.querySelectorAll('[aria-label]')]\
                .find((field) => field.getAttribute('aria-label') === name)?.value;\
            return of('What T out is') === 'oat_k' && of('Unit of T out') === '°C';";
        page.until("the choice", TAKEN).await?;
        page.open("about:blank").await?;
        page.open(&format!("{}#fly", site.url())).await?;
        page.read_log(plain.path()).await?;
        page.unfold("#log-columns").await?;
        page.until("the choice again", TAKEN).await?;
        page.expect_no_faults().await
    });
}

#[test]
fn two_sessions_and_a_dropped_file_are_read() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        const DROP: &str = "const data = new DataTransfer();\
            data.items.add(new File([arguments[0]], 'two.csv', { type: 'text/csv' }));\
            document.querySelector('.page').dispatchEvent(new DragEvent('drop', { bubbles: true, cancelable: true, dataTransfer: data }));";
        let mut text = "Session Time;CHT1 (deg C);OAT (deg C)\n".to_owned();
        for session in 0..2 {
            for second in 0..200 {
                text.push_str(&format!(
                    "{second},5;{};15,0\n",
                    180 + session + second / 50
                ));
            }
        }
        page.script(DROP, vec![text.into()]).await?;
        page.wait_for_text("#log", "400 rows, 3 columns, 2 sessions")
            .await?;
        page.choose(
            "Session (parted where the clock restarts or the log pauses)",
            "2: 3.32 min",
        )
        .await?;
        const INNER: &str =
            "document.querySelectorAll('#log details').forEach((part) => { part.open = true; });";
        page.script(INNER, vec![]).await?;
        page.choose("Decimal sign", "point").await?;
        page.wait_for_text("#log", "400 rows, 3 columns").await?;
        page.expect_no_faults().await
    });
}

#[test]
fn a_change_is_judged_by_two_sets_of_readings() {
    let site = Site::served("/").expect("a site");
    let file = Scratch::new("sets.csv", log().as_bytes());
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        page.read_log(file.path()).await?;
        assert_eq!(press_all(&page, "Add Steady").await?, 2);
        page.unfold("#readings").await?;
        page.unfold("#before-after").await?;
        page.wait_for_text("#before-after", "Give the readings two sets first")
            .await?;
        const NAMES: &str = "return [...document.querySelectorAll('#readings [aria-label]')]\
            .map((field) => field.getAttribute('aria-label')).filter((name) => name.startsWith('Set of'));";
        let names = page.script(NAMES, vec![]).await?;
        for (at, set) in ["old seals", "new seals"].into_iter().enumerate() {
            let name = names[at].as_str().expect("a field").to_owned();
            fill(&page, &name, set).await?;
        }
        page.press("Compare at “Take-off climb, hot day”").await?;
        page.wait_for_text(
            "#before-after",
            "“new seals” against “old seals”, mean of the heads at “Take-off climb, hot day”",
        )
        .await?;
        // Both are of one flight of one aircraft.
        page.wait_for_text("#before-after", "Not clearly a change")
            .await?;
        page.unfold("#changes").await?;
        page.press("Add a change").await?;
        fill(&page, "Change 1", "New front seals").await?;
        page.open("about:blank").await?;
        page.open(&format!("{}#fly", site.url())).await?;
        page.unfold("#changes").await?;
        page.until(
            "the change",
            "return document.querySelector('#changes .wide input')?.value === 'New front seals';",
        )
        .await?;
        page.expect_no_faults().await
    });
}

/// Height of each card in mm and what is cut off of it in px, as it is printed.
async fn printed(page: &Page, class: &str) -> Result<Vec<(f64, f64, f64)>, BrowserError> {
    const HEIGHTS: &str = "document.body.className = arguments[0];\
        return [...document.querySelectorAll('.test-card')]\
            .map((card) => [card.offsetHeight * 25.4 / 96, card.scrollHeight - card.clientHeight,\
                card.scrollWidth - card.clientWidth]);";
    let found = page.script(HEIGHTS, vec![class.into()]).await?;
    let number = |of: &serde_json::Value| of.as_f64().unwrap_or(f64::NAN);
    let cards = found.as_array().into_iter().flatten();
    Ok(cards
        .map(|card| (number(&card[0]), number(&card[1]), number(&card[2])))
        .collect())
}

#[test]
fn test_cards_are_half_a_page_or_a6_each_and_name_the_abort_temperature() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("fly").await?;
        page.unfold("#test-cards").await?;
        page.wait_for_text("#test-cards .abort", "Abort at head 370 °F or oil 230 °F")
            .await?;
        page.type_into("Stop each test short of the limit by", "25")
            .await?;
        page.wait_for_text("#test-cards .abort", "Abort at head 360 °F")
            .await?;
        page.type_into("Minimum oil pressure, from your manual", "25 psi")
            .await?;
        page.wait_for_text("#test-cards .pressures", "oil pressure below 25 psi")
            .await?;
        page.wait_for_text("#test-cards", "leak checklist").await?;
        page.wait_for_text("#test-cards", "if the manual recommends it")
            .await?;
        page.show(Theme::Light, Medium::Print).await?;
        // A front and a back for each condition, the order, and the leak checklist.
        for (class, most_mm) in [("print-tests", 126.5), ("print-tests print-a6", 136.5)] {
            let cards = printed(&page, class).await?;
            assert_eq!(cards.len(), 14);
            for (place, (mm, cut, wide)) in cards.into_iter().enumerate() {
                // Two and their gap on the 257 mm that Letter leaves within 11 mm margins; 148 mm
                // less twice 6 mm of A6.
                assert!(mm < most_mm, "{class} {place}: {mm} mm");
                assert!(
                    cut < 1.5 && wide < 1.5,
                    "{class} {place}: {cut} and {wide} px are cut off"
                );
            }
        }
        page.expect_no_faults().await
    });
}
