//! Drawing surface: plotters' SVG with the page's colours instead of fixed ones.
//!
//! plotters writes fixed colours. Each role here has a marker colour that is replaced by a CSS
//! variable, so that a chart follows the theme and prints well. Charts are drawn at four times
//! their size, since plotters rounds to whole pixels, and keep only their view box.

use crate::charts::figure::Size;
use crate::kit::format::number;
use crate::kit::svg_text::escaped;
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
    /// Uncertainty of another series, or what an alternative costs.
    OtherBand,
    /// A limit.
    Limit,
    /// What a chart stands on.
    Ground,
}

const ROLES: [(Role, RGBColor, &str); 9] = [
    (Role::Ink, RGBColor(1, 2, 3), "var(--chart-ink)"),
    (Role::Grid, RGBColor(2, 3, 4), "var(--chart-grid)"),
    (Role::First, RGBColor(3, 4, 5), "var(--chart-first)"),
    (Role::Second, RGBColor(4, 5, 6), "var(--chart-second)"),
    (Role::Third, RGBColor(5, 6, 7), "var(--chart-third)"),
    (Role::Band, RGBColor(6, 7, 8), "var(--chart-band)"),
    (Role::Limit, RGBColor(7, 8, 9), "var(--chart-limit)"),
    (Role::Ground, RGBColor(9, 10, 11), "var(--sheet)"),
    (
        Role::OtherBand,
        RGBColor(8, 9, 10),
        "var(--chart-other-band)",
    ),
];

/// What the marker colour of a dashed line has more of blue than that of a full one, and its pattern.
const DASHED: (u8, &str) = (100, "32 16");
/// The same of a dotted line.
const DOTTED: (u8, &str) = (200, "5 14");

impl Role {
    /// The marker colour.
    #[must_use]
    pub fn colour(self) -> RGBColor {
        ROLES
            .iter()
            .find(|(role, _, _)| *role == self)
            .map_or(BLACK, |(_, colour, _)| *colour)
    }

    /// The marker colour of a dashed line: one path with a pattern, where plotters' own dashes are
    /// a path each.
    #[must_use]
    pub fn dashed(self) -> RGBColor {
        self.patterned(DASHED)
    }

    /// The marker colour of a dotted line.
    #[must_use]
    pub fn dotted(self) -> RGBColor {
        self.patterned(DOTTED)
    }

    fn patterned(self, (more_blue, _): (u8, &str)) -> RGBColor {
        let RGBColor(r, g, b) = self.colour();
        RGBColor(r, g, b + more_blue)
    }
}

/// What plotters' SVG divides the size of a text by: it takes the height of a line for the size.
const LINE_OVER_SIZE: f64 = 1.24;

/// Text of a chart, in CSS pixels.
#[must_use]
pub fn font(pixels: u32) -> TextStyle<'static> {
    FontDesc::new(
        FontFamily::SansSerif,
        LINE_OVER_SIZE * f64::from(pixels * SCALE),
        FontStyle::Normal,
    )
    .color(&Role::Ink.colour())
}

/// Pixels of the drawing for CSS pixels.
#[must_use]
pub fn px(pixels: u32) -> u32 {
    pixels * SCALE
}

/// Room for a number along an axis, CSS pixels.
const LABEL_ROOM_PX: u32 = 44;

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
    // So many that their numbers stay apart.
    let wide = chart.plotting_area().dim_in_pixel().0 / px(LABEL_ROOM_PX);
    chart
        .configure_mesh()
        .light_line_style(TRANSPARENT)
        .bold_line_style(Role::Grid.colour().stroke_width(px(1)))
        .axis_style(Role::Ink.colour().stroke_width(px(1)))
        .label_style(font(14))
        .axis_desc_style(font(14))
        .x_labels((wide as usize).clamp(2, 8))
        .y_labels(6)
        .x_desc(along)
        .y_desc(up)
        .x_label_formatter(&|x| number(*x, digits))
        .y_label_formatter(&|y| number(*y, digits))
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
    let mut pieces = markup.split('#');
    let mut text = pieces.next().unwrap_or_default().to_owned();
    for piece in pieces {
        match piece.get(..6).and_then(role_of) {
            Some((variable, pattern)) => {
                text.push_str(variable);
                if let Some(pattern) = pattern {
                    // Behind the attribute that the colour stands in.
                    text.push_str("\" stroke-dasharray=\"");
                    text.push_str(pattern);
                }
                text.push_str(&piece[6..]);
            }
            None => {
                text.push('#');
                text.push_str(piece);
            }
        }
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

/// The page's colour that a marker colour stands for, six hexadecimal digits, and the pattern of its
/// line.
fn role_of(digits: &str) -> Option<(&'static str, Option<&'static str>)> {
    let value = u32::from_str_radix(digits, 16).ok()?;
    ROLES.iter().find_map(|(_, RGBColor(r, g, b), variable)| {
        let full = u32::from_be_bytes([0, *r, *g, *b]);
        match value.checked_sub(full)? {
            0 => Some((*variable, None)),
            more => [DASHED, DOTTED]
                .into_iter()
                .find(|(blue, _)| more == u32::from(*blue))
                .map(|(_, pattern)| (*variable, Some(pattern))),
        }
    })
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
    fn a_dashed_line_is_one_path_and_other_colours_and_signs_stay() {
        let size = Size {
            width: 320,
            height: 200,
        };
        let markup = drawn(size, "dashes", |area| {
            let line = vec![(0, 0), (900, 300), (1200, 700)];
            area.draw(&PathElement::new(
                line,
                Role::Second.dashed().stroke_width(4),
            ))?;
            area.draw(&Circle::new((10, 10), 5, RGBColor(200, 100, 50)))?;
            area.draw(&Text::new("no. #1, #01", (40, 40), font(11)))?;
            Ok(())
        });
        let dashed = "stroke=\"var(--chart-second)\" stroke-dasharray=\"32 16\"";
        assert_eq!(markup.matches("<polyline").count(), 1, "{markup}");
        assert_eq!(markup.matches(dashed).count(), 1, "{markup}");
        assert!(markup.contains("#C86432"), "{markup}");
        assert!(markup.contains("no. #1, #01"), "{markup}");
    }

    #[test]
    fn a_text_is_as_large_as_it_says() {
        let size = Size {
            width: 320,
            height: 200,
        };
        let markup = drawn(size, "text", |area| {
            area.draw(&Text::new("words", (40, 40), font(14)))?;
            Ok(())
        });
        let found = markup.split("font-size=\"").nth(1).expect("a size");
        let found: f64 = found
            .split('"')
            .next()
            .and_then(|size| size.parse().ok())
            .expect("a number");
        assert!((found / f64::from(SCALE) - 14.0).abs() < 0.01, "{found}");
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
