//! Takes pictures of the built page, narrow and wide, light and dark.
//!
//! `cargo run -p coolpath-tests --features page-tests --bin shots -- FOLDER [PART OF A NAME]...`
//!
//! With parts of names only the pictures are taken whose names hold one of them. The two of the README
//! are made by `reference/pictures readme`.

use std::env;
use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;
use std::time::Duration;

use coolpath_tests::browser::{self, BrowserError, Medium, Page, Program, Site, Theme};
use coolpath_tool::guide;

/// Windows that pictures are taken in, CSS pixels.
const WINDOWS_PX: [(u32, u32); 3] = [(375, 812), (1024, 768), (1440, 900)];
/// A4 less its margins at 96 pixels an inch.
const PAPER_PX: (u32, u32) = (718, 1046);
/// Places of the page, by their fragments.
const PLACES: [&str; 7] = [
    "design", "inputs", "results", "decide", "fly", "workshop", "report",
];
/// Screens of questions on the first visit.
const SCREENS: usize = 6;
/// The document beside the page.
const GUIDE: &str = "guide";

/// Bands, sizes and comparisons are there after this.
const SETTLING: Duration = Duration::from_secs(5);

fn main() -> ExitCode {
    let Some(folder) = env::args_os().nth(1).map(PathBuf::from) else {
        eprintln!("shots: name the folder for the pictures");
        return ExitCode::from(2);
    };
    let wanted: Vec<String> = env::args().skip(2).collect();
    match pictures(&folder, &wanted) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("shots: {error}");
            ExitCode::FAILURE
        }
    }
}

fn pictures(folder: &Path, wanted: &[String]) -> Result<(), Box<dyn Error>> {
    fs::create_dir_all(folder)?;
    let is_wanted =
        |name: &str| wanted.is_empty() || wanted.iter().any(|part| name.contains(part.as_str()));
    browser::session(Program::Chromium, |page| async move {
        let site = Site::served("/")?;
        // The first visit, before anything is stored.
        page.set_viewport(1440, 900).await?;
        const FIRST: &str = "first-1440-light.png";
        if is_wanted(FIRST) {
            picture(&page, &site.url(), &folder.join(FIRST)).await?;
        }
        for (width_px, height_px) in WINDOWS_PX {
            page.set_viewport(width_px, height_px).await?;
            for theme in [Theme::Light, Theme::Dark] {
                let names: Vec<String> = (1..=SCREENS)
                    .map(|screen| format!("screen{screen}-{width_px}-{}.png", theme.name()))
                    .collect();
                if !names.iter().any(|name| is_wanted(name)) {
                    continue;
                }
                page.show(theme, Medium::Screen).await?;
                page.open("about:blank").await?;
                page.open(&site.url()).await?;
                page.wait_for_text(".first-use", "Try the example").await?;
                page.press("Enter my aircraft").await?;
                for (at, name) in names.iter().enumerate() {
                    let count = format!("{} of {SCREENS}", at + 1);
                    page.wait_for_text(".question-count", &count).await?;
                    whole(&page, &folder.join(name)).await?;
                    if at + 1 < SCREENS {
                        page.press("Next").await?;
                    }
                }
            }
        }
        page.visit(&site.url()).await?;
        for (width_px, height_px) in WINDOWS_PX {
            page.set_viewport(width_px, height_px).await?;
            for theme in [Theme::Light, Theme::Dark] {
                page.show(theme, Medium::Screen).await?;
                for place in PLACES {
                    let name = format!("{place}-{width_px}-{}.png", theme.name());
                    let url = format!("{}#{place}", site.url());
                    if !is_wanted(&name) {
                        continue;
                    }
                    picture(&page, &url, &folder.join(name)).await?;
                }
                let name = format!("{GUIDE}-{width_px}-{}.png", theme.name());
                if is_wanted(&name) {
                    page.open(&format!("{}{}", site.url(), guide::FILE_NAME))
                        .await?;
                    whole(&page, &folder.join(name)).await?;
                }
            }
        }
        // On paper.
        page.hide_scrollbars().await?;
        page.set_viewport(PAPER_PX.0, PAPER_PX.1).await?;
        page.show(Theme::Light, Medium::Print).await?;
        for place in PLACES {
            let name = format!("{place}-print.png");
            if is_wanted(&name) {
                let url = format!("{}#{place}", site.url());
                picture(&page, &url, &folder.join(name)).await?;
            }
        }
        page.show(Theme::Light, Medium::Screen).await?;
        // The README's: the first window of the design.
        page.set_viewport(1440, 900).await?;
        for theme in [Theme::Light, Theme::Dark] {
            let name = format!("readme-{}.webp", theme.name());
            if is_wanted(&name) {
                page.show(theme, Medium::Screen).await?;
                let file = folder.join(name);
                opened(&page, &site.url()).await?;
                page.window_picture(&file).await?;
                println!("{}", file.display());
            }
        }
        Ok(())
    })?;
    Ok(())
}

async fn picture(page: &Page, url: &str, file: &Path) -> Result<(), BrowserError> {
    opened(page, url).await?;
    // A picture of the whole page shows what is far below its window, too.
    const ALL: &str = "for (const sheet of document.styleSheets)\
        sheet.insertRule('.figure { content-visibility: visible !important }', sheet.cssRules.length);";
    page.script(ALL, vec![]).await?;
    whole(page, file).await
}

/// Opens the page anew, so that what is drawn once at the start fits the width.
async fn opened(page: &Page, url: &str) -> Result<(), BrowserError> {
    page.open("about:blank").await?;
    page.open(url).await?;
    page.wait_for_text(".page", "").await?;
    tokio::time::sleep(SETTLING).await;
    Ok(())
}

async fn whole(page: &Page, file: &Path) -> Result<(), BrowserError> {
    page.screenshot(file).await?;
    println!("{}", file.display());
    let overflow_px = page.sideways_overflow_px().await?;
    if overflow_px > 0 {
        println!("  scrolls sideways by {overflow_px} px");
    }
    Ok(())
}
