//! A figure as a picture that stands alone: title, sentence, chart and source on a ground of its
//! own, in colours for paper. Pure.

use crate::charts::canvas::SCALE;
use crate::charts::figure::Figure;
use crate::kit::svg_text::escaped;
use std::fmt::Write;

/// Room around the chart, and a letter's width as a share of its size in the widest usual face,
/// from memory.
const MARGIN: f64 = 16.0;
const LETTER: f64 = 0.6;

/// A picture and its size, CSS pixels.
#[derive(Debug, Clone, PartialEq)]
pub struct Picture {
    /// Markup.
    pub svg: String,
    /// Width.
    pub width: f64,
    /// Height.
    pub height: f64,
}

/// The first of the two colours of `light-dark(…)`, which is the one for paper; any other text as
/// it is.
fn for_paper(value: &str) -> &str {
    let value = value.trim();
    let pair = value.strip_prefix("light-dark(").unwrap_or(value);
    pair.split(',').next().unwrap_or(pair).trim()
}

/// A text with every `var(--name)` in it replaced by what `of` knows of the name.
fn coloured(markup: &str, of: &dyn Fn(&str) -> String) -> String {
    let mut pieces = markup.split("var(");
    let mut text = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        let (name, rest) = piece.split_once(')').unwrap_or((piece, ""));
        text.push_str(for_paper(&of(name)));
        text.push_str(rest);
    }
    text
}

/// Lines of a text that are no wider than so many pixels.
fn lines(text: &str, size: f64, width: f64) -> Vec<String> {
    let most = (width / (LETTER * size)) as usize;
    let mut found: Vec<String> = Vec::new();
    for word in text.split_whitespace() {
        match found.last_mut() {
            Some(line) if line.chars().count() + 1 + word.chars().count() <= most => {
                line.push(' ');
                line.push_str(word);
            }
            _ => found.push(word.to_owned()),
        }
    }
    found
}

/// The picture.
///
/// # Arguments
/// * `refused` - the sentence on typed texts that were not used, if there is one
/// * `of` - value of a colour of the style sheet by its name
#[must_use]
pub fn picture(figure: &Figure, refused: Option<&str>, of: &dyn Fn(&str) -> String) -> Picture {
    let side = |at: usize| {
        let view = figure.svg.split("viewBox=\"").nth(1)?.split('"').next()?;
        view.split(' ').nth(at)?.parse::<f64>().ok()
    };
    let scaled = |at: usize| side(at).map_or(0.0, |side| side / f64::from(SCALE));
    let (wide, high) = (scaled(2), scaled(3));
    let width = wide + 2.0 * MARGIN;
    let mut body = String::new();
    let mut y = MARGIN;
    let mut write = |text: &str, size: f64, more: &str, y: &mut f64| {
        for line in lines(text, size, wide) {
            *y += 1.3 * size;
            let _ = write!(
                body,
                "<text x=\"{MARGIN}\" y=\"{:.1}\" font-size=\"{size}\" {more}>{}</text>",
                *y,
                escaped(&line)
            );
        }
    };
    write(
        &figure.title,
        17.0,
        "font-weight=\"600\" fill=\"var(--ink)\"",
        &mut y,
    );
    write(&figure.caption(), 13.0, "fill=\"var(--soft)\"", &mut y);
    y += MARGIN / 2.0;
    let top = y;
    y += high;
    write(&figure.source, 12.0, "fill=\"var(--soft)\"", &mut y);
    if let Some(refused) = refused {
        write(
            refused,
            13.0,
            "font-weight=\"600\" fill=\"var(--outside)\"",
            &mut y,
        );
    }
    let height = y + MARGIN;
    let place = format!("<svg x=\"{MARGIN}\" y=\"{top:.1}\" width=\"{wide}\" height=\"{high}\" ");
    let chart = figure.svg.replacen("<svg ", &place, 1);
    let svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width}\" height=\"{height:.0}\" \
         viewBox=\"0 0 {width} {height:.0}\" font-family=\"sans-serif\">\
         <rect width=\"100%\" height=\"100%\" fill=\"var(--sheet)\"/>{body}{chart}</svg>"
    );
    Picture {
        svg: coloured(&svg, of),
        width,
        height: height.round(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::charts::Size;
    use crate::charts::ladder;
    use coolpath_core::answer::evaluate::evaluate;
    use coolpath_core::document::example;
    use coolpath_core::units::typed::UnitSystem;

    fn figure() -> Figure {
        let answer = evaluate(&example::design(), 1).expect("solved");
        let size = Size {
            width: 600,
            height: 240,
        };
        ladder::figure(&answer, UnitSystem::Customary, size)
    }

    #[test]
    fn it_needs_no_style_sheet_and_says_what_it_is() {
        let figure = figure();
        let found = picture(&figure, Some("Not what was typed: <x>."), &|name| {
            assert!(name.starts_with("--"), "{name}");
            "light-dark(#123456, #654321)".to_owned()
        });
        assert!(!found.svg.contains("var("), "{}", found.svg);
        assert!(!found.svg.contains("light-dark") && !found.svg.contains("#654321"));
        for part in [
            "fill=\"#123456\"",
            "&lt;x&gt;",
            "xmlns=\"http",
            "<rect width=\"100%\"",
        ] {
            assert!(found.svg.contains(part), "{part} in {}", found.svg);
        }
        let first = figure.title.split(' ').next().unwrap_or_default();
        assert!(found.svg.contains(first), "{}", found.svg);
        assert!((found.width - 632.0).abs() < 1e-9 && found.height > 300.0);
        assert_eq!(found.svg.matches("<svg").count(), 2);
        assert_eq!(found.svg.matches("</svg>").count(), 2);
    }

    #[test]
    fn long_texts_are_cut_into_lines_and_no_word_is_lost() {
        let text = "one two three four five six";
        let found = lines(text, 10.0, 60.0);
        assert!(found.len() > 2, "{found:?}");
        assert!(found.iter().all(|line| line.len() <= 10), "{found:?}");
        assert_eq!(found.join(" "), text);
        assert_eq!(for_paper("#abc"), "#abc");
    }
}
