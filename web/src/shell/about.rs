//! "About": which version this is, whose it is, and what to send when something is wrong.

use crate::browser::copying::Copied;
use crate::browser::{copying, language, window};
use crate::kit::controls::option_field;
use crate::kit::page::{use_notify, use_page};
use crate::kit::refused::use_refused;
use crate::share::code::code;
use coolpath_core::document::design::Design;
use coolpath_core::language::{tr, tr_later};
use yew::platform::spawn_local;
use yew::prelude::*;

/// Where faults are to be reported: an address of the web or of mail. Whoever publishes this page
/// puts it here; while it is empty, the page says that there is none.
const REPORT_TO: &str = "";

/// Browsers that have what the style sheet needs (`light-dark`), by their makers' notes, from
/// memory; the page is tried in the first two.
const BROWSERS: &str = tr_later(
    "Chromium-based browsers from 123, Firefox from 120, Safari from 17.5. Tested in Chromium and Firefox.",
);

/// Where the page comes from, by what its head says.
#[derive(Debug, Clone, PartialEq)]
struct Origin {
    version: String,
    commit: Option<String>,
    date: Option<String>,
    notices: Option<String>,
}

impl Origin {
    fn of_page() -> Self {
        let said = |name: &str| window::meta(&format!("coolpath-{name}"));
        Self {
            version: said("version").unwrap_or_else(|| env!("CARGO_PKG_VERSION").to_owned()),
            commit: said("commit"),
            date: said("date"),
            notices: said("notices"),
        }
    }

    fn words(&self) -> String {
        let commit = self.commit.as_deref().unwrap_or(tr("not known"));
        let date = self.date.as_deref().unwrap_or(tr("not known"));
        tr!("{}, commit {} of {}", self.version, commit, date)
    }
}

/// What is sent with a fault.
fn report(origin: &Origin, design: &Design, refused: Option<&str>, browser: &str) -> String {
    let code = code(design).unwrap_or_else(|error| tr!("none: {}", error));
    let refused = refused.unwrap_or(tr("none"));
    tr!(
        "What I did:\n\nWhat I expected:\n\nWhat happened:\n\n\
         Coolpath {}\nBrowser: {}\nTyped texts not used: {}\nDesign: {}\n",
        origin.words(),
        browser,
        refused,
        code
    )
}

/// What stands in the dialog.
#[function_component]
pub fn About() -> Html {
    let design = use_page(|page| page.design.clone());
    let refused = use_refused();
    let origin = Origin::of_page();
    let copied = use_state(|| None::<Copied>);
    let copy = {
        let (copied, origin) = (copied.clone(), origin.clone());
        Callback::from(move |_: MouseEvent| {
            let text = report(&origin, &design, refused.as_deref(), &window::browser());
            let copied = copied.clone();
            spawn_local(async move {
                let then = tr("Copied. Say at its top what you did and what happened.");
                copied.set(Some(copying::copied(text, then).await));
            });
        })
    };
    html! {
        <>
            <p>{ tr("Sizes the cooling air of aircraft with air-cooled flat engines. An estimate: your engine’s manual sets the limits, and flight test decides.") }</p>
            <dl class="numbers about">
                <div><dt>{ tr("Version") }</dt><dd>{ &origin.version }</dd></div>
                <div><dt>{ tr("Commit") }</dt><dd>{ origin.commit.as_deref().unwrap_or(tr("not known")) }</dd></div>
                <div><dt>{ tr("Day of the commit") }</dt><dd>{ origin.date.as_deref().unwrap_or(tr("not known")) }</dd></div>
                <div><dt>{ tr("Licence") }</dt><dd>{ env!("CARGO_PKG_LICENSE").replace("OR", "or") }{ tr(", without any warranty") }
                    if let Some(file) = &origin.notices {
                        { "; " }<a href={file.clone()}>{ tr("licences of the packages inside") }</a>
                    }</dd></div>
                <div><dt>{ tr("Browsers") }</dt><dd>{ tr(BROWSERS) }</dd></div>
                <Languages />
                <div><dt>{ tr("Report a fault") }</dt><dd>{ report_to(REPORT_TO) }</dd></div>
            </dl>
            <div class="buttons"><button type="button" onclick={copy}>{ tr("Copy a fault report") }</button></div>
            <p class="hint">{ tr("The report holds your design’s code, this version and your browser’s name. Nothing is sent: you paste it where you want.") }</p>
            <div aria-live="polite">
                if let Some(copied) = &*copied { { copied.view(tr("Fault report").to_owned()) } }
            </div>
        </>
    }
}

/// The languages, where the page came with any beside English.
#[function_component]
fn Languages() -> Html {
    let notify = use_notify();
    let offered = language::offered();
    if offered.is_empty() {
        return html! {};
    }
    let chosen = language::chosen();
    let at = chosen.and_then(|chosen| offered.iter().position(|one| *one == chosen));
    let names: Vec<String> = std::iter::once("English".to_owned())
        .chain(offered.iter().map(|one| one.name.clone()))
        .collect();
    let choose = move |at: usize| {
        let code = at.checked_sub(1).and_then(|at| offered.get(at));
        if let Err(sentence) = language::choose(code.map(|one| one.code.as_str())) {
            notify.emit(sentence);
        }
    };
    html! {
        <div><dt>{ tr("Language") }</dt><dd>
            { option_field("language", tr("Language of the page"), names, at.map_or(0, |at| at + 1), choose) }
            if let Some(why) = language::missed() {
                <p class="notice">{ tr!("The language could not be brought: {}", why) }</p>
            }
        </dd></div>
    }
}

/// Where to report, as a link where it is one.
fn report_to(address: &'static str) -> Html {
    if address.is_empty() {
        return html! { tr("To whoever gave you this page: it names no address for reports.") };
    }
    let href = if address.contains("://") {
        address.to_owned()
    } else {
        format!("mailto:{address}")
    };
    html! { <a {href} rel="noreferrer">{ address }</a> }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::share::code::design_of_code;
    use coolpath_core::document::example;

    #[test]
    fn a_report_tells_version_browser_refused_texts_and_a_design_that_opens() {
        let origin = Origin {
            version: "1.2.3".to_owned(),
            commit: Some("abcdef".to_owned()),
            date: None,
            notices: None,
        };
        let design = example::design();
        let text = report(&origin, &design, Some("“x” was not used"), "Browser 1");
        for part in [
            "1.2.3, commit abcdef of not known",
            "Browser 1",
            "“x” was not used",
        ] {
            assert!(text.contains(part), "{part} in {text}");
        }
        let code = text.split("Design: ").nth(1).expect("a code").trim();
        let opened = design_of_code(code).expect("a design");
        assert_eq!(opened.name, design.name);
    }
}
