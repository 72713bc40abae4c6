//! The guide: written by hand, kept out of the program, and put beside the page or into its one file.
//!
//! In the folder it is a document of its own. In the single file it is a template, which costs nothing
//! until it is asked for; the file's loader shows it in a dialog, where links of the same names lead.

use crate::install;
use crate::policy;
use crate::sources::Sources;

/// Name of the document.
pub const FILE_NAME: &str = "guide.html";
/// Identifier of the template in the single file.
pub const TEMPLATE_ID: &str = "guide";
/// Files of the chapters, in their order.
pub const CHAPTERS: [&str; 6] = [
    "contents.html",
    "views.html",
    "jobs.html",
    "words.html",
    "method.html",
    "cautions.html",
];

/// The guide as a document of the folder.
///
/// # Arguments
/// * `style_name` - name of the style sheet beside it
#[must_use]
pub fn document(sources: &Sources, style_name: &str) -> String {
    format!(
        "<!doctype html>\n<html lang=\"en\">\n<head>\n<meta charset=\"utf-8\">\n{policy}\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\">\n\
         <meta name=\"color-scheme\" content=\"light dark\">\n<title>Coolpath: the guide</title>\n\
         <link rel=\"icon\" href=\"{icon}\">\n{origin}\n\
         <link rel=\"stylesheet\" href=\"{style_name}\">\n</head>\n\
         <body class=\"guide-page\">\n<main class=\"guide\">\n{chapters}</main>\n</body>\n</html>\n",
        policy = policy::meta_element(&policy::of_document()),
        icon = install::ICON_NAME,
        origin = sources.origin.meta_elements(),
        chapters = sources.guide,
    )
}

/// The guide as content of the single file that no browser shows by itself.
#[must_use]
pub fn template(sources: &Sources) -> String {
    format!(
        "<template id=\"{TEMPLATE_ID}\">\n<div class=\"guide\">\n{}</div>\n</template>",
        sources.guide
    )
}
