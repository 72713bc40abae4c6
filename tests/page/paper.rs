//! What leaves the page on paper: measured in the PDF itself.

use coolpath_core::document::example;
use coolpath_tests::browser::{self, BrowserError, Medium, Page, Sheet, Site, Theme, sheets};
use coolpath_tests::scratch::Scratch;

/// Prints with the class that the page's own button sets.
async fn printed(page: &Page, class: &str) -> Result<Vec<Sheet>, BrowserError> {
    let set = |class: &str| format!("document.body.className = '{class}';");
    page.script(&set(class), vec![]).await?;
    let found = sheets(&page.printed().await?);
    page.script(&set(""), vec![]).await?;
    Ok(found)
}

/// Lengths of the level lines of a sheet, mm.
fn levels(sheet: &Sheet) -> Vec<f64> {
    sheet
        .segments
        .iter()
        .filter(|segment| segment.is_level())
        .map(|segment| segment.length())
        .collect()
}

fn has(lengths: &[f64], wanted: f64) -> bool {
    lengths
        .iter()
        .any(|length| (length / wanted - 1.0).abs() < 0.005)
}

#[test]
fn a_twenty_inch_exit_is_printed_in_tiles_at_full_size_on_both_papers() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("inputs").await?;
        page.type_into("Cowl exit width", "20").await?;
        page.go("cut").await?;
        page.press("Draw the templates").await?;
        page.wait_for_text("#cut", "Print on").await?;
        page.choose("Template of", "Cowl exit: lip").await?;
        for (paper, size, frame) in [
            ("A4", (210.0, 297.0), (190.0, 265.0)),
            ("US Letter", (215.9, 279.4), (195.0, 247.0)),
        ] {
            page.choose("Paper", paper).await?;
            page.wait_for_text("#cut", "Print on 3 sheets").await?;
            let found = printed(&page, "print-cut").await?;
            assert_eq!(found.len(), 3, "{paper}");
            let mut reached = 0.0;
            for (at, sheet) in found.iter().enumerate() {
                assert!((sheet.size.0 - size.0).abs() < 0.5, "{:?}", sheet.size);
                assert!((sheet.size.1 - size.1).abs() < 0.5, "{:?}", sheet.size);
                let lengths = levels(sheet);
                assert!(
                    has(&lengths, frame.0),
                    "{paper} {at}: no frame in {lengths:?}"
                );
                let upright = sheet
                    .segments
                    .iter()
                    .any(|line| !line.is_level() && (line.length() / frame.1 - 1.0).abs() < 0.005);
                assert!(upright, "{paper} {at}: no frame {} mm tall", frame.1);
                // The firewall's edge goes through all tiles, 20 in in all.
                assert!(
                    has(&lengths, 508.0),
                    "{paper} {at}: no 508 mm in {lengths:?}"
                );
                // Stations stand an inch apart on every tile.
                let mut stations: Vec<f64> = sheet
                    .segments
                    .iter()
                    .filter(|line| (line.x.1 - line.x.0).abs() < 0.01 && line.length() > 60.0)
                    .filter(|line| (line.length() / frame.1 - 1.0).abs() > 0.005)
                    .map(|line| line.x.0)
                    .collect();
                stations.sort_by(f64::total_cmp);
                let inches = stations
                    .windows(2)
                    .filter(|pair| (pair[1] - pair[0] - 25.4).abs() < 0.127)
                    .count();
                // A viewer drops what lies outside a tile.
                assert!(inches >= 5, "{paper} {at}: {stations:?}");
                reached += frame.0 - if at == 0 { 0.0 } else { 10.0 };
            }
            assert!(reached >= 508.0);
            let first = levels(&found[0]);
            assert!(
                has(&first, 25.4) && has(&first, 20.0),
                "{paper}: no check scales"
            );
        }
        page.expect_no_faults().await
    });
}

#[test]
fn an_inlet_template_is_flipped_saved_and_survives_a_hostile_name() {
    let site = Site::served("/").expect("a site");
    let folder = std::env::temp_dir().join(format!("coolpath-cut-{}", std::process::id()));
    std::fs::create_dir_all(&folder).expect("a folder");
    let kept = folder.clone();
    browser::run(|page| async move {
        page.save_downloads_in(&folder).await?;
        page.visit_and_settle(&site.url()).await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "<img src=x onerror=alert(1)>")
            .await?;
        page.go("cut").await?;
        page.press("Draw the templates").await?;
        page.wait_for_text("#cut", "Print on one sheet").await?;
        page.choose("Side", "right (mirrored)").await?;
        page.wait_for_text(".cut-preview", "right side").await?;
        assert!(
            page.elements(".cut-preview img, .cut-sheets img")
                .await?
                .is_empty()
        );
        // Not even the widest line of the example may be flown.
        page.wait_for_text(".cut-lines", "head limit").await?;
        page.wait_for_text(".cut-lines", "ground run only").await?;
        page.press("Save as SVG").await?;
        page.press("Save as DXF").await?;
        let saved = |ending: &str| {
            folder.join(format!(
                "img-src-x-onerror-alert-1-left-inlet-right.{ending}"
            ))
        };
        let (svg, dxf) = (saved("svg"), saved("dxf"));
        page.wait_for("both files", async |_: &Page| {
            Ok((svg.exists() && dxf.exists()).then_some(()))
        })
        .await?;
        let svg = std::fs::read_to_string(&svg).expect("a file");
        assert!(svg.contains("mm\"") && !svg.contains("<img"), "{svg}");
        let dxf = std::fs::read_to_string(&dxf).expect("a file");
        assert!(dxf.contains("AC1009"));
        for file in [&svg, &dxf] {
            // At the first, smallest cut even the ground run is over.
            assert_eq!(file.matches("ground run only").count(), 2, "{file}");
            assert_eq!(file.matches("do not run it").count(), 1, "{file}");
            assert!(!file.contains("fly"), "{file}");
        }
        let found = printed(&page, "print-cut").await?;
        assert_eq!(found.len(), 1);
        // The likely outline: its straight lower edge is the width less both corners.
        let inlet = &example::design().installation.inlets[0];
        let straight = 1000.0 * (inlet.width.value - 2.0 * inlet.corner_radius.value);
        assert!(has(&levels(&found[0]), straight), "no {straight} mm");
        page.expect_no_faults().await
    });
    std::fs::remove_dir_all(&kept).expect("it was there");
}

#[test]
fn the_ribs_of_a_widening_duct_are_printed_at_full_size_with_their_stations() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("duct").await?;
        page.unfold("#duct").await?;
        page.wait_for_text("#duct table", "in").await?;
        page.press("Use this duct").await?;
        page.wait_for_text("#duct", "Your design has this duct.")
            .await?;
        page.go("cut").await?;
        page.press("Draw the templates").await?;
        page.wait_for_text("#cut", "Print on").await?;
        page.choose("Template of", "Left inlet: widening duct")
            .await?;
        page.wait_for_text("#cut .table-view table", "From the opening")
            .await?;
        page.wait_for_text(".cut-preview", "Station 6").await?;
        const ROWS: &str = "return document.querySelectorAll('#cut .table-view tbody tr').length;";
        assert_eq!(page.script(ROWS, vec![]).await?.as_u64(), Some(6));
        // The first station is the opening: its straight lower edge is the width less both corners.
        let inlet = &example::design().installation.inlets[0];
        let straight = 1000.0 * (inlet.width.value - 2.0 * inlet.corner_radius.value);
        let found = printed(&page, "print-cut").await?;
        assert!(found.len() > 1, "{} sheets", found.len());
        let all: Vec<f64> = found.iter().flat_map(levels).collect();
        assert!(has(&all, straight), "no {straight} mm");
        page.expect_no_faults().await
    });
}

#[test]
fn an_exit_cut_in_steps_is_planned_and_printed_with_its_lip() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("cut").await?;
        // The example is too hot at any exit near its own.
        page.press("Plan the steps").await?;
        page.wait_for_text("#cut-steps", "No plan is offered")
            .await?;
        page.go("inputs").await?;
        page.type_into("Head temperature limit (°F)", "470").await?;
        page.type_into("Oil temperature limit (°F)", "275").await?;
        page.go("cut").await?;
        page.wait_for_text("#cut-steps .stale", "plan the steps again")
            .await?;
        page.press("Plan the steps").await?;
        page.wait_for_text("#cut-steps ol", "Cut the exit to a gap of")
            .await?;
        page.wait_for_text("#cut-steps ol", "Chance to end here")
            .await?;
        page.wait_for_text("#cut-steps", "Expected regret").await?;
        page.press("Draw the templates").await?;
        page.wait_for_text("#cut", "Print on one sheet").await?;
        page.choose("Template of", "Cowl exit: lip").await?;
        // Fourteen inches of lip take two sheets, the plan one more.
        page.wait_for_text("#cut", "Print on 3 sheets").await?;
        assert_eq!(printed(&page, "print-cut").await?.len(), 3);
        // An inlet's template goes without it.
        page.choose("Template of", "Left inlet").await?;
        page.wait_for_text("#cut", "Print on one sheet").await?;
        assert_eq!(printed(&page, "print-cut").await?.len(), 1);
        page.type_into("Hours for a new lip", "many").await?;
        page.wait_for_text(
            "#cut-steps [role=alert]",
            "Hours for a new lip must be between 0 and 1000.",
        )
        .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn the_report_holds_inputs_answers_equations_and_page_numbers_on_both_papers() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("inputs").await?;
        page.type_into("Manual page for these limits", "4-7")
            .await?;
        page.go("report").await?;
        for said in [
            "page 4-7",
            "The worst condition: Take-off climb",
            "Numbers put in",
            "our estimate",
            "The working",
            "Inspector, date",
        ] {
            page.wait_for_text("#report .report", said).await?;
        }
        let marks = page
            .script(
                "return document.querySelector('#report .report').textContent.match(/design ([0-9a-f]{16})/)[1];",
                vec![],
            )
            .await?;
        for (paper, width) in [("A4", 210.0), ("US Letter", 215.9)] {
            page.choose("Paper of the report", paper).await?;
            page.show(Theme::Dark, Medium::Print).await?;
            let found = printed(&page, "print-report").await?;
            assert!(found.len() > 8, "{paper}: {} sheets", found.len());
            for sheet in &found {
                assert!((sheet.size.0 - width).abs() < 0.5, "{:?}", sheet.size);
                // Nothing is drawn past the edge of the paper.
                let past = sheet
                    .segments
                    .iter()
                    .filter(|line| line.x.0.max(line.x.1) > width + 1.0)
                    .count();
                assert_eq!(past, 0, "{paper}");
            }
        }
        page.show(Theme::Light, Medium::Screen).await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "Another").await?;
        page.wait_for_text("#report .report", "Cooling report: Another")
            .await?;
        let other = page
            .script(
                "return document.querySelector('#report .report').textContent.match(/design ([0-9a-f]{16})/)[1];",
                vec![],
            )
            .await?;
        assert_ne!(marks, other, "the fingerprint follows the design");
        page.expect_no_faults().await
    });
}

#[test]
fn an_opening_is_traced_on_a_photograph_and_taken_over() {
    let site = Site::served("/").expect("a site");
    // A camera that looks at the plane from a slant: plane, m → picture, pixels.
    let camera = |x: f64, y: f64| {
        let depth = 1.0 + 0.9 * x + 0.5 * y;
        (
            120.0 + (1500.0 * x + 220.0 * y) / depth,
            80.0 + (-60.0 * x + 1350.0 * y) / depth,
        )
    };
    let points = |list: &[(f64, f64)]| -> Vec<(f64, f64)> {
        list.iter().map(|(x, y)| camera(*x, *y)).collect()
    };
    let sheet = points(&[(0.0, 0.0), (0.210, 0.0), (0.210, 0.297), (0.0, 0.297)]);
    let slot = points(&[(0.25, 0.05), (0.45, 0.05), (0.45, 0.13), (0.25, 0.13)]);
    let shape = |list: &[(f64, f64)], fill: &str| {
        let text: Vec<String> = list.iter().map(|(x, y)| format!("{x:.2},{y:.2}")).collect();
        format!("<polygon points=\"{}\" fill=\"{fill}\"/>", text.join(" "))
    };
    let picture = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"800\" height=\"600\"><rect width=\"800\" height=\"600\" fill=\"#889\"/>{}{}</svg>",
        shape(&sheet, "#fff"),
        shape(&slot, "#222")
    );
    let file = Scratch::new("photo.svg", picture.as_bytes());
    browser::run(|page| async move {
        page.visit_and_settle(&site.url()).await?;
        page.go("photo").await?;
        page.choose_file("Choose a photograph", file.path()).await?;
        page.until(
            "the picture",
            "return document.querySelector('.photo-frame svg') !== null;",
        )
        .await?;
        const CLICK: &str = "const frame = document.querySelector('.photo-frame');\
            const area = frame.getBoundingClientRect();\
            frame.dispatchEvent(new MouseEvent('click', { bubbles: true,\
                clientX: Math.round(area.left + arguments[0] * area.width / 800),\
                clientY: Math.round(area.top + arguments[1] * area.height / 600) }));";
        // Clicks fall on whole pixels of the screen; enlarged, these are finer than the picture's.
        page.press("4 × size").await?;
        for (x, y) in sheet.iter().chain(&slot) {
            page.script(CLICK, vec![(*x).into(), (*y).into()]).await?;
        }
        page.wait_for_text("#photo", "4 of 4 corners, 4 points of the edge")
            .await?;
        let said = page.wait_for_text("#photo .headline", "Area").await?;
        // 0.2 × 0.08 m = 24.8 in².
        let number: f64 = said
            .split_whitespace()
            .nth(1)
            .and_then(|text| text.parse().ok())
            .expect("an area");
        assert!((number / 24.8 - 1.0).abs() < 0.01, "{said}");
        page.press("Take the outline over").await?;
        page.go("inputs").await?;
        page.until("the traced area", "return document.querySelector('#inlet-shape-0').value === 'traced'\
                        && Math.abs(Number(document.querySelector('#inlet-traced_area_m2-0').value) / 24.8 - 1) < 0.01;")
        .await?;
        page.go("cut").await?;
        page.press("Draw the templates").await?;
        page.wait_for_text(".cut-preview", "as traced").await?;
        page.expect_no_faults().await
    });
}
