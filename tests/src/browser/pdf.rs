//! The page as a PDF, and the lengths of what is drawn in it.

use base64::Engine;
use base64::engine::general_purpose::STANDARD;
use lopdf::content::Content;
use lopdf::{Document, Object};

use super::{BrowserError, Page};

/// Millimetres per point.
const MM: f64 = 25.4 / 72.0;

/// A straight line on a sheet, mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Segment {
    /// Along the sheet's width.
    pub x: (f64, f64),
    /// Up the sheet.
    pub y: (f64, f64),
}

impl Segment {
    /// Its length, mm.
    pub fn length(&self) -> f64 {
        (self.x.1 - self.x.0).hypot(self.y.1 - self.y.0)
    }

    /// Whether it is level.
    pub fn is_level(&self) -> bool {
        (self.y.1 - self.y.0).abs() < 0.01
    }
}

/// One sheet of a PDF.
#[derive(Debug, Clone)]
pub struct Sheet {
    /// Width and height, mm.
    pub size: (f64, f64),
    /// The straight lines that are drawn on it.
    pub segments: Vec<Segment>,
}

impl Page {
    /// Prints the page with the paper that its style sheet asks for.
    ///
    /// # Errors
    /// [`BrowserError`] if the browser refuses.
    pub async fn printed(&self) -> Result<Vec<u8>, BrowserError> {
        let options = serde_json::json!({ "preferCSSPageSize": true, "printBackground": false });
        let answer = self
            .driver
            .cdp()
            .send_raw("Page.printToPDF", options)
            .await?;
        let text = answer["data"].as_str().unwrap_or_default();
        Ok(STANDARD.decode(text).unwrap_or_default())
    }
}

/// Numbers of an operator.
fn numbers(operands: &[Object]) -> Vec<f64> {
    operands
        .iter()
        .filter_map(|operand| operand.as_float().ok().map(f64::from))
        .collect()
}

type Matrix = [f64; 6];

fn times(a: Matrix, b: Matrix) -> Matrix {
    [
        a[0] * b[0] + a[1] * b[2],
        a[0] * b[1] + a[1] * b[3],
        a[2] * b[0] + a[3] * b[2],
        a[2] * b[1] + a[3] * b[3],
        a[4] * b[0] + a[5] * b[2] + b[4],
        a[4] * b[1] + a[5] * b[3] + b[5],
    ]
}

/// The sheets of a PDF with their straight lines.
///
/// # Panics
/// If the bytes are no PDF.
pub fn sheets(bytes: &[u8]) -> Vec<Sheet> {
    let document = Document::load_mem(bytes).expect("a PDF");
    document
        .get_pages()
        .into_values()
        .map(|page| {
            let dictionary = document.get_dictionary(page).expect("a page");
            let media = dictionary
                .get(b"MediaBox")
                .and_then(Object::as_array)
                .map(|media| numbers(media))
                .expect("a size");
            let content = document.get_page_content(page);
            let content = Content::decode(&content).expect("operators");
            Sheet {
                size: (media[2] * MM, media[3] * MM),
                segments: segments(&content),
            }
        })
        .collect()
}

fn segments(content: &Content) -> Vec<Segment> {
    let mut found = Vec::new();
    let mut matrix: Matrix = [1.0, 0.0, 0.0, 1.0, 0.0, 0.0];
    let mut kept = Vec::new();
    let (mut begin, mut last) = ((0.0, 0.0), (0.0, 0.0));
    for operation in &content.operations {
        let values = numbers(&operation.operands);
        let place = |x: f64, y: f64| {
            let [a, b, c, d, e, f] = matrix;
            ((a * x + c * y + e) * MM, (b * x + d * y + f) * MM)
        };
        let mut line = |from: (f64, f64), to: (f64, f64)| {
            found.push(Segment {
                x: (from.0, to.0),
                y: (from.1, to.1),
            });
        };
        match (operation.operator.as_str(), values.as_slice()) {
            ("q", _) => kept.push(matrix),
            ("Q", _) => matrix = kept.pop().unwrap_or(matrix),
            ("cm", &[a, b, c, d, e, f]) => matrix = times([a, b, c, d, e, f], matrix),
            ("m", &[x, y]) => {
                begin = place(x, y);
                last = begin;
            }
            ("l", &[x, y]) => {
                line(last, place(x, y));
                last = place(x, y);
            }
            ("h", _) => {
                line(last, begin);
                last = begin;
            }
            ("re", &[x, y, w, h]) => {
                let corners = [
                    place(x, y),
                    place(x + w, y),
                    place(x + w, y + h),
                    place(x, y + h),
                ];
                for at in 0..4 {
                    line(corners[at], corners[(at + 1) % 4]);
                }
            }
            _ => {}
        }
    }
    found
}
