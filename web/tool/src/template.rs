//! The page's template with its placeholders filled.

/// Places in the template that each build fills in its own way.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// The content security policy.
    Policy,
    /// Where the page comes from.
    Origin,
    /// The style sheet.
    Style,
    /// What a first visit sees before the program is there.
    Early,
    /// The script that starts the page.
    Script,
}

impl Place {
    /// The comment that stands at this place in the template.
    pub fn placeholder(self) -> &'static str {
        match self {
            Self::Policy => "<!-- coolpath:policy -->",
            Self::Origin => "<!-- coolpath:origin -->",
            Self::Style => "<!-- coolpath:style -->",
            Self::Early => "<!-- coolpath:early -->",
            Self::Script => "<!-- coolpath:script -->",
        }
    }
}

/// Why the template cannot be used.
#[derive(Debug, Clone, PartialEq, Eq, thiserror::Error)]
#[non_exhaustive]
pub enum TemplateError {
    /// A placeholder is missing or stands there more than once.
    #[error("index.html must hold `{placeholder}` once, not {count} times")]
    Placeholder {
        /// The placeholder.
        placeholder: &'static str,
        /// How often it stands there.
        count: usize,
    },
    /// The policy would come after something that it must already govern.
    #[error("index.html must state the policy before the style sheet and the script")]
    PolicyLate,
}

/// What fills the places.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Contents<'a> {
    /// The content security policy.
    pub policy: &'a str,
    /// Where the page comes from.
    pub origin: &'a str,
    /// The style sheet.
    pub style: &'a str,
    /// What a first visit sees before the program is there.
    pub early: &'a str,
    /// The script that starts the page.
    pub script: &'a str,
}

/// The template's text with every place filled.
///
/// # Errors
/// [`TemplateError`] if a placeholder is missing, stands there twice, or the policy comes late.
pub fn filled(template: &str, contents: Contents<'_>) -> Result<String, TemplateError> {
    // A browser hashes what it parsed, and parsing turns these line ends into plain ones.
    let template = template.replace("\r\n", "\n");
    let mut places = Vec::new();
    for (place, content) in [
        (Place::Policy, contents.policy),
        (Place::Origin, contents.origin),
        (Place::Style, contents.style),
        (Place::Early, contents.early),
        (Place::Script, contents.script),
    ] {
        places.push((position(&template, place)?, place, content));
    }
    if places[1..].iter().any(|(at, ..)| *at < places[0].0) {
        return Err(TemplateError::PolicyLate);
    }
    places.sort_by_key(|(at, ..)| *at);

    // Cut by position: contents may hold anything, placeholders included.
    let mut page = String::new();
    let mut done = 0;
    for (at, place, content) in places {
        page.push_str(&template[done..at]);
        page.push_str(content);
        done = at + place.placeholder().len();
    }
    page.push_str(&template[done..]);
    Ok(page)
}

fn position(template: &str, place: Place) -> Result<usize, TemplateError> {
    let placeholder = place.placeholder();
    let found: Vec<usize> = template
        .match_indices(placeholder)
        .map(|(at, _)| at)
        .collect();
    match found[..] {
        [at] => Ok(at),
        _ => Err(TemplateError::Placeholder {
            placeholder,
            count: found.len(),
        }),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEMPLATE: &str = "a<!-- coolpath:policy -->b<!-- coolpath:origin -->c\
                            <!-- coolpath:style -->d<!-- coolpath:early -->e<!-- coolpath:script -->f";

    fn filled_with(template: &str, each: [&str; 5]) -> Result<String, TemplateError> {
        let [policy, origin, style, early, script] = each;
        let contents = Contents {
            policy,
            origin,
            style,
            early,
            script,
        };
        filled(template, contents)
    }

    #[test]
    fn every_place_is_filled() {
        assert_eq!(
            filled_with(TEMPLATE, ["1", "2", "3", "4", "5"]).as_deref(),
            Ok("a1b2c3d4e5f"),
            "each content at its own place"
        );
    }

    #[test]
    fn a_content_that_looks_like_a_placeholder_stays_as_it_is() {
        let page = filled_with(TEMPLATE, ["1", "2", "<!-- coolpath:script -->", "4", "5"]);
        assert_eq!(page.as_deref(), Ok("a1b2c<!-- coolpath:script -->d4e5f"));
    }

    #[test]
    fn a_missing_or_doubled_placeholder_is_refused() {
        let missing = TEMPLATE.replace("<!-- coolpath:style -->", "");
        let doubled = TEMPLATE.repeat(2);
        let error = |placeholder, count| Err(TemplateError::Placeholder { placeholder, count });
        assert_eq!(
            filled_with(&missing, [""; 5]),
            error("<!-- coolpath:style -->", 0)
        );
        assert_eq!(
            filled_with(&doubled, [""; 5]),
            error("<!-- coolpath:policy -->", 2)
        );
    }

    #[test]
    fn a_policy_behind_what_it_governs_is_refused() {
        let late = "<!-- coolpath:style --><!-- coolpath:origin --><!-- coolpath:policy -->\
                    <!-- coolpath:early --><!-- coolpath:script -->";
        assert_eq!(filled_with(late, [""; 5]), Err(TemplateError::PolicyLate));
    }

    #[test]
    fn the_committed_template_can_be_filled() {
        let page = filled_with(
            include_str!("../../../index.html"),
            ["P!", "O!", "S!", "E!", "J!"],
        )
        .unwrap();
        let order: Vec<_> = ["P!", "viewport", "O!", "S!", "<noscript>", "E!", "J!"]
            .map(|part| page.find(part).unwrap_or_else(|| panic!("{part} is there")))
            .to_vec();
        assert!(order.is_sorted(), "{order:?}");
        assert!(!page.contains(" style="), "no style attribute of our own");
    }
}
