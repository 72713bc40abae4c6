//! Text in markup that the page writes itself. Pure.

/// Text that can stand in markup.
#[must_use]
pub fn escaped(text: &str) -> String {
    text.chars()
        .filter(|c| !c.is_control())
        .map(|c| match c {
            '&' => "&amp;".to_owned(),
            '<' => "&lt;".to_owned(),
            '>' => "&gt;".to_owned(),
            '"' => "&quot;".to_owned(),
            '\'' => "&#39;".to_owned(),
            c => c.to_string(),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn nothing_of_a_text_is_markup() {
        assert_eq!(
            escaped("<b a=\"1\" c='2'>&\u{7}"),
            "&lt;b a=&quot;1&quot; c=&#39;2&#39;&gt;&amp;"
        );
    }
}
