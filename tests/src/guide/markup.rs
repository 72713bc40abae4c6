//! A reader of the guide's files: tags in their order, and what stands between them.
//!
//! The files are written by hand, so that they need not hold every freedom that HTML gives: every
//! element is closed, attributes stand in double quotes.

/// Elements that have no end.
const VOID: [&str; 6] = ["br", "hr", "img", "link", "meta", "col"];

/// An element as it stands in a file.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Element {
    /// Its name.
    pub name: String,
    /// Its attributes in their order.
    pub attributes: Vec<(String, String)>,
    /// Its text and that of all inside it, blanks drawn together.
    pub text: String,
    /// What follows it, up to the next tag.
    pub behind: String,
    /// Line of the file, from 1.
    pub line: usize,
}

impl Element {
    /// An attribute's value.
    #[must_use]
    pub fn attribute(&self, name: &str) -> Option<&str> {
        self.attributes
            .iter()
            .find(|(own, _)| own == name)
            .map(|(_, value)| value.as_str())
    }
}

/// All elements of a text.
///
/// # Errors
/// A sentence with the line where the text is not in order.
pub fn elements(text: &str) -> Result<Vec<Element>, String> {
    let mut found: Vec<Element> = Vec::new();
    let mut open: Vec<usize> = Vec::new();
    let mut closed: Option<usize> = None;
    let mut rest = text;
    while !rest.is_empty() {
        let line = 1 + text[..text.len() - rest.len()].matches('\n').count();
        if let Some(comment) = rest.strip_prefix("<!--") {
            rest = comment
                .split_once("-->")
                .ok_or(format!("line {line}: a comment without an end"))?
                .1;
        } else if let Some(tag) = rest.strip_prefix("</") {
            let (name, after) = tag
                .split_once('>')
                .ok_or(format!("line {line}: a tag without an end"))?;
            let at = open
                .pop()
                .ok_or(format!("line {line}: </{name}> closes nothing"))?;
            if found[at].name != name {
                return Err(format!(
                    "line {line}: </{name}> closes <{}> of line {}",
                    found[at].name, found[at].line
                ));
            }
            closed = Some(at);
            rest = after;
        } else if let Some(tag) = rest.strip_prefix('<') {
            let (inside, after) = tag
                .split_once('>')
                .ok_or(format!("line {line}: a tag without an end"))?;
            let element = opened(inside, line)?;
            let at = found.len();
            closed = VOID.contains(&element.name.as_str()).then_some(at);
            if closed.is_none() {
                open.push(at);
            }
            found.push(element);
            rest = after;
        } else {
            let end = rest.find('<').unwrap_or(rest.len());
            let piece = decoded(&rest[..end]);
            for &at in &open {
                found[at].text.push_str(&piece);
            }
            if let Some(at) = closed.take() {
                found[at].behind.push_str(&piece);
            }
            rest = &rest[end..];
        }
    }
    if let Some(&at) = open.last() {
        return Err(format!(
            "<{}> of line {} is not closed",
            found[at].name, found[at].line
        ));
    }
    for element in &mut found {
        let words: Vec<&str> = element.text.split_ascii_whitespace().collect();
        element.text = words.join(" ");
    }
    Ok(found)
}

fn opened(inside: &str, line: usize) -> Result<Element, String> {
    let (name, mut rest) = inside
        .split_once(|c: char| c.is_ascii_whitespace())
        .unwrap_or((inside, ""));
    let mut attributes = Vec::new();
    loop {
        rest = rest.trim_start();
        if rest.is_empty() {
            break;
        }
        let (key, value) = rest
            .split_once("=\"")
            .ok_or(format!("line {line}: <{inside}> holds no attribute here"))?;
        let (value, after) = value
            .split_once('"')
            .ok_or(format!("line {line}: <{inside}> lacks a quotation mark"))?;
        attributes.push((key.to_owned(), decoded(value)));
        rest = after;
    }
    Ok(Element {
        name: name.to_owned(),
        attributes,
        text: String::new(),
        behind: String::new(),
        line,
    })
}

fn decoded(text: &str) -> String {
    text.replace("&lt;", "<")
        .replace("&gt;", ">")
        .replace("&nbsp;", "\u{a0}")
        .replace("&amp;", "&")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn elements_have_their_text_their_attributes_and_what_follows_them() {
        let text = "<p id=\"a\">One <b class=\"x y\">two</b> °F,\n<br> three</p>";
        let found = elements(text).expect("in order");
        assert_eq!(found.len(), 3);
        assert_eq!(found[0].text, "One two °F, three");
        assert_eq!(found[1].attribute("class"), Some("x y"));
        assert_eq!(found[1].behind, " °F,\n");
        assert_eq!(found[2].line, 2);
    }

    #[test]
    fn what_is_not_closed_or_closed_twice_is_named_with_its_line() {
        for (text, said) in [
            ("<p>\n<b>x</p>", "line 2: </p> closes <b> of line 2"),
            ("<p>", "<p> of line 1 is not closed"),
            ("</p>", "line 1: </p> closes nothing"),
            (
                "<a href=x>y</a>",
                "line 1: <a href=x> holds no attribute here",
            ),
        ] {
            assert_eq!(elements(text), Err(said.to_owned()), "{text}");
        }
    }
}
