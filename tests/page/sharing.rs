//! Links, codes and what a reader's own work is safe from.

use coolpath_tests::browser::{self, BrowserError, Page, SingleFile, Site};

async fn shared(page: &Page) -> Result<String, BrowserError> {
    const UNFOLD: &str = "document.querySelector('#share').open = true;";
    page.script(UNFOLD, vec![]).await?;
    page.wait_for("the code", async |page: &Page| {
        const CODE: &str = "return document.querySelector('#share-code')?.value ?? '';";
        let code = page.script(CODE, vec![]).await?;
        let code = code.as_str().unwrap_or_default().to_owned();
        Ok((!code.is_empty()).then_some(code))
    })
    .await
}

#[test]
fn a_link_asks_before_it_replaces_anything() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "Shared <b>one</b>").await?;
        let link = shared(&page).await?;
        assert!(link.starts_with(&site.url()), "{link}");
        assert!(link.len() < 4000, "{} letters", link.len());
        const DRAWN: &str = "return document.querySelector('#share .qr path') !== null;";
        page.until("the QR code", DRAWN).await?;
        // A change takes the old one away at once, and its own follows.
        const CHANGE: &str = "const field = document.querySelector('#design-name');\
            field.value = 'Another'; field.dispatchEvent(new Event('input', { bubbles: true }));\
            setTimeout(() => { window.stale = document.querySelector('#share .qr path') !== null; });";
        page.script(CHANGE, vec![]).await?;
        page.until(
            "no code of the text before",
            "return window.stale === false;",
        )
        .await?;
        page.until("the QR code of the change", DRAWN).await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "My own work").await?;
        page.open("about:blank").await?;
        page.open(&link).await?;
        page.wait_for_text("#arrived", "carries the design “Shared <b>one</b>”")
            .await?;
        assert_eq!(page.typed("Aircraft").await?, "My own work");
        page.press("Keep mine").await?;
        assert_eq!(page.typed("Aircraft").await?, "My own work");
        assert!(!page.address().await?.contains('#'));
        page.open("about:blank").await?;
        page.open(&link).await?;
        page.wait_for_text("#arrived", "carries the design").await?;
        page.press("Open it").await?;
        page.wait_for_text("body", "Undo").await?;
        assert_eq!(page.typed("Aircraft").await?, "Shared <b>one</b>");
        assert!(page.elements("b").await?.is_empty(), "a name is no markup");
        page.press("Undo").await?;
        assert_eq!(page.typed("Aircraft").await?, "My own work");
        page.expect_no_faults().await
    });
}

#[test]
fn a_code_goes_from_a_disk_to_another_page_and_a_broken_one_changes_nothing() {
    let file = SingleFile::downloaded().expect("the single file");
    browser::run(|page| async move {
        page.visit(&file.url()).await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "From a disk").await?;
        let code = shared(&page).await?;
        assert!(code.starts_with("coolpath1."), "{code}");
        assert!(code.len() < 2953, "{} letters", code.len());
        page.open_menu().await?;
        page.type_into("Aircraft", "Another").await?;
        for (text, said) in [
            ("hello", "no code of this program"),
            (&code[..code.len() - 40], "incomplete"),
            ("coolpath9.abc", "later version"),
        ] {
            shared(&page).await?;
            page.type_into("Open a code or a link", text).await?;
            page.press("Open the code").await?;
            page.wait_for_text("#share [role=alert]", said).await?;
            page.open_menu().await?;
            assert_eq!(page.typed("Aircraft").await?, "Another");
        }
        shared(&page).await?;
        page.type_into("Open a code or a link", &code).await?;
        page.press("Open the code").await?;
        page.wait_for_text(".message", "“From a disk” is open")
            .await?;
        page.open_menu().await?;
        assert_eq!(page.typed("Aircraft").await?, "From a disk");
        let link = format!(
            "{}#{}",
            file.url(),
            code.replacen("coolpath1.", "coolpath1.AA", 1)
        );
        page.open("about:blank").await?;
        page.open(&link).await?;
        page.wait_for_text("#arrived", "cannot be opened. This code is incomplete")
            .await?;
        assert_eq!(page.typed("Aircraft").await?, "From a disk");
        page.expect_no_faults().await
    });
}

#[test]
fn a_link_opens_at_once_where_nothing_is_stored() {
    let (site, elsewhere) = (
        Site::served("/").expect("a site"),
        Site::served("/").expect("another origin"),
    );
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.open_menu().await?;
        page.type_into("Aircraft", "From a friend").await?;
        let link = shared(&page).await?;
        let link = link.replace(&site.url(), &elsewhere.url());
        page.open("about:blank").await?;
        page.open(&link).await?;
        page.wait_for_text(".message", "“From a friend” came with the link")
            .await?;
        page.open_menu().await?;
        assert_eq!(page.typed("Aircraft").await?, "From a friend");
        assert!(page.elements("#arrived").await?.is_empty());
        assert!(!page.address().await?.contains('#'));
        // Something is stored now: the same link asks.
        page.open("about:blank").await?;
        page.open(&link).await?;
        page.wait_for_text("#arrived", "carries the design “From a friend”")
            .await?;
        page.expect_no_faults().await
    });
}

/// Puts a browser's own way of sending into the page, which notes what it is given, or refuses it by a name.
async fn sends(page: &Page, refused: Option<&str>) -> Result<(), BrowserError> {
    const STUB: &str = "const refused = arguments[0];\
        Object.defineProperty(navigator, 'share', { configurable: true, value: (what) => {\
            window.sent = what;\
            return refused ? Promise.reject(new DOMException('no', refused)) : Promise.resolve();\
        } });\
        Object.defineProperty(navigator, 'canShare', { configurable: true, value: () => true });";
    page.script(STUB, vec![serde_json::json!(refused)]).await?;
    Ok(())
}

#[test]
fn a_link_is_copied_and_sent_and_a_refusal_says_what_to_do_instead() {
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        sends(&page, None).await?;
        const CLIPBOARD: &str = "Object.defineProperty(navigator, 'clipboard', { configurable: true,\
            value: { writeText: (text) => { window.copied = text; return Promise.resolve(); } } });";
        page.script(CLIPBOARD, vec![]).await?;
        let link = shared(&page).await?;
        page.press("Copy").await?;
        page.wait_for_text("#share", "Copied: paste it into a message.")
            .await?;
        let copied = page.script("return window.copied;", vec![]).await?;
        assert_eq!(copied.as_str(), Some(link.as_str()));
        page.press("Send…").await?;
        page.until(
            "the link",
            "return window.sent?.url?.includes('#coolpath');",
        )
        .await?;
        // Whoever thinks better of it hears nothing; a refusal is told.
        sends(&page, Some("AbortError")).await?;
        page.press("Send…").await?;
        sends(&page, Some("NotAllowedError")).await?;
        page.press("Send…").await?;
        page.wait_for_text(".message", "The system does not take it")
            .await?;
        page.expect_no_faults().await
    });
}

#[test]
fn what_is_shared_and_the_menu_close_by_escape_and_when_the_page_is_touched() {
    const OPEN: &str = "return [...document.querySelectorAll('.top details[open]')].map((one) => one.className).join();";
    let site = Site::served("/").expect("a site");
    browser::run(|page| async move {
        page.visit(&site.url()).await?;
        page.open_menu().await?;
        page.script(
            "document.querySelector('.verdict').dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));",
            vec![],
        )
        .await?;
        assert_eq!(page.script(OPEN, vec![]).await?, "");
        shared(&page).await?;
        page.script(
            "document.querySelector('#share-code').dispatchEvent(new PointerEvent('pointerdown', { bubbles: true }));",
            vec![],
        )
        .await?;
        assert_eq!(page.script(OPEN, vec![]).await?, "share");
        page.script(
            "document.dispatchEvent(new KeyboardEvent('keydown', { key: 'Escape', bubbles: true }));",
            vec![],
        )
        .await?;
        assert_eq!(page.script(OPEN, vec![]).await?, "");
        let focused = page
            .script("return document.activeElement.textContent;", vec![])
            .await?;
        assert_eq!(focused.as_str(), Some("Share"));
        page.expect_no_faults().await
    });
}
