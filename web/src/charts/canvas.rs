//! Drawing surface: plotters' SVG with the page's colours instead of fixed ones.
//!
//! plotters writes fixed colours. Each role here has a marker colour that is replaced by a CSS
//! variable, so that a chart follows the theme and prints well. Charts are drawn at four times
//! their size, since plotters rounds to whole pixels, and keep only their view box.

use super::figure::Size;
use crate::markup::escaped;
use coolpath_core::units::rounded_text;
use plotters::coord::types::RangedCoordf64;
use plotters::prelude::*;
use plotters::style::FontFamily;

/// Times that a chart is drawn larger than it is shown.
pub const SCALE: u32 = 4;

/// What a line or an area stands for.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Text and axes.
    Ink,
    /// Grid.
    Grid,
    /// First series.
    First,
    /// Second series.
    Second,
    /// Third series.
    Third,
    /// Uncertainty of the first series.
    Band,
    /// A limit.
    Limit,
}

const ROLES: [(Role, RGBColor, &str); 7] = [
    (Role::Ink, RGBColor(1, 2, 3), "var(--chart-ink)"),
    (Role::Grid, RGBColor(2, 3, 4), "var(--chart-grid)"),
    (Role::First, RGBColor(3, 4, 5), "var(--chart-first)"),
    (Role::Second, RGBColor(4, 5, 6), "var(--chart-second)"),
    (Role::Third, RGBColor(5, 6, 7), "var(--chart-third)"),
    (Role::Band, RGBColor(6, 7, 8), "var(--chart-band)"),
    (Role::Limit, RGBColor(7, 8, 9), "var(--chart-limit)"),
];

impl Role {
    /// The marker colour.
    #[must_use]
    pub fn colour(self) -> RGBColor {
        ROLES
            .iter()
            .find(|(role, _, _)| *role == self)
            .map_or(BLACK, |(_, colour, _)| *colour)
    }
}

/// Text of a chart, in CSS pixels.
#[must_use]
pub fn font(pixels: u32) -> TextStyle<'static> {
    FontDesc::new(
        FontFamily::SansSerif,
        f64::from(pixels * SCALE),
        FontStyle::Normal,
    )
    .color(&Role::Ink.colour())
}

/// Pixels of the drawing for CSS pixels.
#[must_use]
pub fn px(pixels: u32) -> u32 {
    pixels * SCALE
}

/// Coordinates of a line chart.
type Lines = Cartesian2d<RangedCoordf64, RangedCoordf64>;

/// Draws grid, axes and labels of a line chart; numbers get so many significant digits.
///
/// # Errors
/// What plotters says.
pub fn axes(
    chart: &mut ChartContext<'_, SVGBackend<'_>, Lines>,
    along: &str,
    up: &str,
    digits: i32,
) -> Result<(), Box<dyn std::error::Error>> {
    chart
        .configure_mesh()
        .light_line_style(TRANSPARENT)
        .bold_line_style(Role::Grid.colour().stroke_width(px(1)))
        .axis_style(Role::Ink.colour().stroke_width(px(1)))
        .label_style(font(11))
        .axis_desc_style(font(11))
        .x_labels(8)
        .y_labels(6)
        .x_desc(along)
        .y_desc(up)
        .x_label_formatter(&|x| rounded_text(*x, digits))
        .y_label_formatter(&|y| rounded_text(*y, digits))
        .draw()?;
    Ok(())
}

/// Draws a chart and returns its markup, or nothing if plotters refuses it.
pub fn drawn<F>(size: Size, label: &str, draw: F) -> String
where
    F: FnOnce(
        &DrawingArea<SVGBackend<'_>, plotters::coord::Shift>,
    ) -> Result<(), Box<dyn std::error::Error>>,
{
    let size = size.drawable();
    let mut markup = String::new();
    {
        let area = SVGBackend::with_string(&mut markup, (px(size.width), px(size.height)))
            .into_drawing_area();
        if draw(&area)
            .and_then(|()| area.present().map_err(Into::into))
            .is_err()
        {
            return String::new();
        }
    }
    themed(&markup, size, label)
}

/// Puts the page's colours in, drops the fixed size and names the picture.
fn themed(markup: &str, size: Size, label: &str) -> String {
    let mut text = markup.to_owned();
    for (_, RGBColor(r, g, b), variable) in ROLES {
        text = text.replace(&format!("#{r:02X}{g:02X}{b:02X}"), variable);
    }
    let fixed = format!(
        "width=\"{}\" height=\"{}\"",
        px(size.width),
        px(size.height)
    );
    let named = format!(
        "class=\"chart\" role=\"img\" aria-label=\"{}\"",
        escaped(label)
    );
    text.replacen(&fixed, &named, 1)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn marker_colours_become_the_pages_colours_and_the_size_goes() {
        let size = Size {
            width: 320,
            height: 200,
        };
        let markup = drawn(size, "a < b \"c\"", |area| {
            area.draw(&Rectangle::new(
                [(0, 0), (40, 40)],
                Role::First.colour().filled(),
            ))?;
            Ok(())
        });
        assert!(markup.contains("fill=\"var(--chart-first)\""), "{markup}");
        assert!(markup.contains("viewBox=\"0 0 1280 800\""), "{markup}");
        assert!(!markup.contains("width=\"1280\""), "{markup}");
        assert!(
            markup.contains("aria-label=\"a &lt; b &quot;c&quot;\""),
            "{markup}"
        );
    }

    #[test]
    fn a_window_without_size_still_gives_a_chart() {
        let markup = drawn(
            Size {
                width: 0,
                height: 0,
            },
            "empty",
            |area| {
                area.draw(&Circle::new((10, 10), 5, Role::Ink.colour()))?;
                Ok(())
            },
        );
        assert!(markup.contains("viewBox=\"0 0 1280 640\""), "{markup}");
    }
}
