//! The page comes up wherever it is opened from, and says so where it cannot.

use coolpath_core::document::example;
use coolpath_tests::browser::{self, BrowserError, Page, SingleFile, Site};
use coolpath_tool::remap;
use coolpath_tool::workspace::Workspace;
use std::time::Duration;

/// Opens the page and waits for it to have replaced the loading line.
async fn opened(page: &Page, url: &str) -> Result<(), BrowserError> {
    page.visit(url).await?;
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
fn the_program_names_no_folder_of_this_machine() {
    let workspace = Workspace::around_here().expect("the project");
    let names = remap::names(workspace.root());
    let built = std::fs::read_dir(workspace.dist()).expect("the built page");
    let mut programs = 0;
    for path in built.flatten().map(|entry| entry.path()) {
        if path.extension().is_some_and(|kind| kind == "wasm") {
            programs += 1;
            let program = std::fs::read(&path).expect("a program");
            let left = remap::left_in(&program, &names);
            assert!(left.is_empty(), "{}: {left:?}", path.display());
        }
    }
    assert!(programs > 4, "{programs} programs");
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
        // What this is stands there without any program.
        page.wait_for_text("#first-look", "Will the air cool this engine?")
            .await?;
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

/// Waits until the page's worker serves it.
async fn kept(page: &Page) -> Result<(), BrowserError> {
    const READY: &str = "return navigator.serviceWorker.controller !== null;";
    page.until("the worker", READY).await
}

#[test]
fn the_folder_works_without_a_network_after_its_first_visit_and_updates() {
    browser::run(|page| async move {
        let site = Site::served("/a/")?;
        let url = site.url();
        opened(&page, &url).await?;
        kept(&page).await?;
        // Its server gone, the page still opens, with a link's fragment and query too.
        drop(site);
        opened(&page, &url).await?;
        opened(&page, &format!("{url}?again#answers")).await?;
        page.wait_for_text("#answers", "Take-off climb, hot day")
            .await?;
        // A view that was never looked at too.
        page.go("fly").await?;
        page.wait_for_text("#fly", "Test cards").await?;
        const INSTALLABLE: &str = "return (async () => {\
            const manifest = await (await fetch(document.querySelector('link[rel=manifest]').href)).json();\
            const named = [...manifest.icons, ...manifest.screenshots].map((picture) => picture.src);\
            const found = await Promise.all(named.slice(0, 2).map((name) => fetch(name)));\
            return manifest.id === './' && named.length === 3 && found.every((answer) => answer.ok)\
                && manifest.start_url === './' && manifest.display === 'standalone';\
        })();";
        assert_eq!(page.script(INSTALLABLE, vec![]).await?, true);
        Ok(())
    });
}

#[test]
fn a_new_version_waits_for_the_old_one_to_be_closed_and_then_serves() {
    browser::run(|page| async move {
        let (site, folder) = Site::of_own("/")?;
        let url = site.url();
        opened(&page, &url).await?;
        const KEPT: &str = "return (async () => (await caches.keys()).sort())();";
        let count = |expected: usize| {
            let page = &page;
            async move {
                page.wait_for("the stores", async |page: &Page| {
                    let kept = page.script(KEPT, vec![]).await?;
                    Ok((kept.as_array().map(Vec::len) == Some(expected)).then_some(kept))
                })
                .await
            }
        };
        kept(&page).await?;
        let first = count(1).await?;
        let worker = folder.join("worker.js");
        let text = std::fs::read_to_string(&worker).expect("the worker");
        std::fs::write(
            &worker,
            text.replacen("const VERSION = \"", "const VERSION = \"new-", 1),
        )
        .expect("written");
        const UPDATE: &str = "return (async () => { await (await navigator.serviceWorker.ready).update(); return true; })();";
        page.script(UPDATE, vec![]).await?;
        count(2).await?;
        // Away from the page, so that no window of the old version is left; the browser takes its
        // time to notice.
        let mut second = serde_json::Value::Null;
        for _ in 0..10 {
            page.open("about:blank").await?;
            tokio::time::sleep(Duration::from_millis(500)).await;
            opened(&page, &url).await?;
            second = page.script(KEPT, vec![]).await?;
            if second.as_array().map(Vec::len) == Some(1) {
                break;
            }
        }
        assert_eq!(second.as_array().map(Vec::len), Some(1));
        assert_ne!(first, second);
        page.expect_no_faults().await
    });
}

#[test]
fn a_view_whose_part_does_not_come_says_so_and_comes_when_asked_again() {
    let (site, folder) = Site::of_own("/").expect("a site");
    let part = folder.join("split_fly.wasm");
    let away = folder.join("away");
    std::fs::rename(&part, &away).expect("a file");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "Mine").await?;
        page.go("fly").await?;
        page.wait_for_text("#fly [role=alert]", "Nothing is lost")
            .await?;
        std::fs::rename(&away, &part).expect("a file");
        page.press("Try again").await?;
        page.wait_for_text("#fly", "Test cards").await?;
        page.open_menu().await?;
        assert_eq!(page.typed("Aircraft").await?, "Mine");
        Ok(())
    });
}

/// A site whose program begins late, as on a slow line.
fn slow_site() -> Result<Site, Box<dyn std::error::Error>> {
    let (site, folder) = Site::of_own("/")?;
    let loader = folder.join("loader.js");
    let text = std::fs::read_to_string(&loader)?;
    let start = "startPage(async";
    assert_eq!(text.matches(start).count(), 1);
    let late = format!("await new Promise((go) => setTimeout(go, 3000));\n{start}");
    // The loader shows the first look when it starts the page.
    let text = text
        .replace("  showFirstLook();\n", "")
        .replace(start, &late);
    let at = text.find("async function startPage").ok_or("no start")?;
    std::fs::write(
        &loader,
        format!("{}showFirstLook();\n{}", &text[..at], &text[at..]),
    )?;
    Ok(site)
}

#[test]
fn the_examples_answer_is_there_before_the_program_and_is_the_one_that_the_program_gives() {
    let site = slow_site().expect("a site");
    browser::run(|page| async move {
        page.open(&site.url()).await?;
        page.press("Try the example").await?;
        page.wait_for_text(".early .verdict", "Too hot").await?;
        const SAID: &str = "return [document.querySelector('.verdict').innerText,\
            document.querySelector('.strip').innerText];";
        let early = page.script(SAID, vec![]).await?;
        page.until(
            "the program",
            "return document.querySelector('.page:not(.early) .verdict') !== null;",
        )
        .await?;
        page.until(
            "odds of all conditions",
            "return document.querySelector('.strip')?.innerText.includes('…') === false\
                && document.querySelector('.verdict .help').innerText !== '';",
        )
        .await?;
        assert_eq!(page.script(SAID, vec![]).await?, early);
        // The visit was begun: a reload goes on from here.
        page.reload().await?;
        page.until(
            "the page itself",
            "return document.querySelector('.page:not(.early) .verdict') !== null;",
        )
        .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn ones_own_aircraft_can_be_asked_for_before_the_program_is_there() {
    let site = slow_site().expect("a site");
    browser::run(|page| async move {
        page.open(&site.url()).await?;
        page.press("Enter my aircraft").await?;
        page.wait_for_text("#early-asked", "on their way").await?;
        page.wait_for_text(".question-screen", "Engine").await?;
        page.expect_no_faults().await
    });
}

#[test]
fn a_file_that_is_opened_with_the_installed_page_is_read_on_a_first_visit_too() {
    let site = Site::served("/").expect("a site");
    let mut design = example::design();
    design.name = "From the file manager".to_owned();
    let text = serde_json::to_string(&design).expect("a text");
    let literal = serde_json::to_string(&text).expect("a literal");
    browser::run(|page| async move {
        page.begin_documents_with(&format!(
            "const getFile = async () => new File([{literal}], 'mine.json');\
             const launchQueue = {{ setConsumer: (take) => take({{ files: [{{ getFile }}] }}) }};\
             Object.defineProperty(window, 'launchQueue', {{ value: launchQueue }});"
        ))
        .await?;
        page.open(&site.url()).await?;
        page.until(
            "the design",
            "return document.querySelector('#design-name')?.value === 'From the file manager'\
                && document.querySelector('.first-use') === null;",
        )
        .await?;
        page.expect_no_faults().await
    });
}
