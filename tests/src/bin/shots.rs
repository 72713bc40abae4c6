//! Takes pictures of the built page, narrow and wide, light and dark.
//!
//! `cargo run -p coolpath-tests --features page-tests --bin shots -- FOLDER`

use std::env;
use std::error::Error;
use std::fs;
use std::path::{Path, PathBuf};
use std::process::ExitCode;

use coolpath_tests::browser::{self, BrowserError, Medium, Page, Program, Site, Theme};

const WIDTHS_PX: [u32; 2] = [375, 1440];
const HEIGHT_PX: u32 = 900;

fn main() -> ExitCode {
    let Some(folder) = env::args_os().nth(1).map(PathBuf::from) else {
        eprintln!("shots: name the folder for the pictures");
        return ExitCode::from(2);
    };
    match pictures(&folder) {
        Ok(()) => ExitCode::SUCCESS,
        Err(error) => {
            eprintln!("shots: {error}");
            ExitCode::FAILURE
        }
    }
}

fn pictures(folder: &Path) -> Result<(), Box<dyn Error>> {
    fs::create_dir_all(folder)?;
    browser::session(Program::Chromium, |page| async move {
        let site = Site::served("/")?;
        for width_px in WIDTHS_PX {
            page.set_viewport(width_px, HEIGHT_PX).await?;
            for theme in [Theme::Light, Theme::Dark] {
                page.show(theme, Medium::Screen).await?;
                let name = format!("{width_px}-{}.png", theme.name());
                picture(&page, &site.url(), &folder.join(name)).await?;
            }
        }
        Ok(())
    })?;
    Ok(())
}

async fn picture(page: &Page, url: &str, file: &Path) -> Result<(), BrowserError> {
    // Opened anew, so that what is drawn once at the start fits the width.
    page.open(url).await?;
    page.wait_for_text("h1", "").await?;
    page.screenshot(file).await?;
    println!("{}", file.display());
    let overflow_px = page.sideways_overflow_px().await?;
    if overflow_px > 0 {
        println!("  scrolls sideways by {overflow_px} px");
    }
    Ok(())
}
