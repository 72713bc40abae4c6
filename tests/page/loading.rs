//! The page comes up wherever it is opened from, and says so where it cannot.

use coolpath_tests::browser::{self, BrowserError, Page, SingleFile, Site};

/// Opens the page and waits for it to have replaced the loading line.
async fn opened(page: &Page, url: &str) -> Result<(), BrowserError> {
    page.open(url).await?;
    page.wait_for_text("h1", "Coolpath").await?;
    assert!(
        page.elements("#loading").await?.is_empty(),
        "the loading line is gone"
    );
    assert_eq!(page.text("#failure").await?, "");
    page.expect_no_faults().await
}

#[test]
fn the_folder_works_at_the_root_of_a_site() {
    browser::run(|page| async move {
        let site = Site::served("/")?;
        opened(&page, &site.url()).await
    });
}

#[test]
fn the_folder_works_under_any_path() {
    browser::run(|page| async move {
        let site = Site::served("/a/b/")?;
        opened(&page, &site.url()).await?;
        assert!(page.address().await?.ends_with("/a/b/"));
        // A server adds the slash that a person leaves out.
        opened(&page, site.url().trim_end_matches('/')).await
    });
}

#[test]
fn the_single_file_works_from_a_disk_and_fetches_nothing() {
    browser::run(|page| async move {
        let file = SingleFile::downloaded()?;
        opened(&page, &file.url()).await?;
        assert!(page.address().await?.starts_with("file:///"));
        const FETCHED: &str = "return performance.getEntriesByType('resource')\
            .map((entry) => entry.name).filter((name) => !name.startsWith('data:'));";
        let fetched = page.script(FETCHED, vec![]).await?;
        assert_eq!(fetched, serde_json::json!([]));
        Ok(())
    });
}

#[test]
fn a_missing_program_is_said_on_the_page() {
    browser::run(|page| async move {
        let site = Site::without_program()?;
        page.open(&site.url()).await?;
        let message = page
            .wait_for_text("#failure", "Coolpath could not start")
            .await?;
        assert!(
            message.contains("coolpath_web_bg.wasm: 404"),
            "the reason is given: {message}"
        );
        assert!(page.elements("#loading").await?.is_empty());
        assert!(
            !page.console_faults().await?.is_empty(),
            "the browser reports the missing file"
        );
        Ok(())
    });
}

#[test]
fn a_fault_after_the_start_is_said_and_keeps_the_page() {
    browser::run(|page| async move {
        let site = Site::served("/")?;
        opened(&page, &site.url()).await?;
        // A script that a driver injects throws as a stranger does, so the event is made here.
        const FAULT: &str = "const error = new Error('broken rib');\
            window.dispatchEvent(new ErrorEvent('error', { error }));";
        page.script(FAULT, vec![]).await?;
        let message = page.wait_for_text("#failure", "has stopped").await?;
        assert!(message.contains("broken rib"), "{message}");
        assert!(page.text("h1").await?.contains("Coolpath"));
        Ok(())
    });
}

#[test]
fn no_foreign_script_runs_and_a_violation_is_noticed() {
    browser::run(|page| async move {
        let site = Site::served("/")?;
        let file = SingleFile::downloaded()?;
        for url in [site.url(), file.url()] {
            opened(&page, &url).await?;
            const FOREIGN: &str = "\
                const script = document.createElement('script');\
                script.textContent = 'window.foreign = true';\
                document.body.append(script);\
                return window.foreign === true;";
            assert_eq!(page.script(FOREIGN, vec![]).await?, false, "{url}");
            let faults = page.console_faults().await?;
            assert!(
                faults
                    .iter()
                    .any(|fault| fault.contains("Content Security Policy")),
                "{url}: {faults:?}"
            );
        }
        Ok(())
    });
}
