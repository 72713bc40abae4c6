//! A drawing as open DXF of release 12, in millimetres.
//!
//! Polylines and texts on a layer for each kind of line; nothing else, so that any program reads it.

use crate::workshop::cut::drawing::{Drawing, Item, Stroke};
use std::fmt::Write;

fn layer(stroke: Stroke) -> &'static str {
    match stroke {
        Stroke::Full => "FIRST_CUT",
        Stroke::Dashed => "LIKELY",
        Stroke::Dotted => "NEVER_BEYOND",
        Stroke::Rib => "RIBS",
        Stroke::Thin => "MARKS",
    }
}

/// A drawing as a DXF file.
#[must_use]
pub fn file(drawing: &Drawing) -> String {
    let mut text = String::from(
        "0\r\nSECTION\r\n2\r\nHEADER\r\n9\r\n$ACADVER\r\n1\r\nAC1009\r\n9\r\n$MEASUREMENT\r\n70\r\n1\r\n0\r\nENDSEC\r\n\
         0\r\nSECTION\r\n2\r\nENTITIES\r\n",
    );
    for item in &drawing.items {
        match item {
            Item::Path {
                points,
                closed,
                stroke,
            } => {
                let layer = layer(*stroke);
                let _ = write!(
                    text,
                    "0\r\nPOLYLINE\r\n8\r\n{layer}\r\n66\r\n1\r\n10\r\n0.0\r\n20\r\n0.0\r\n30\r\n0.0\r\n70\r\n{}\r\n",
                    i32::from(*closed)
                );
                for point in points {
                    let _ = write!(
                        text,
                        "0\r\nVERTEX\r\n8\r\n{layer}\r\n10\r\n{:.4}\r\n20\r\n{:.4}\r\n30\r\n0.0\r\n",
                        point.x, point.y
                    );
                }
                let _ = write!(text, "0\r\nSEQEND\r\n8\r\n{layer}\r\n");
            }
            Item::Text {
                at,
                size,
                text: words,
            } => {
                let _ = write!(
                    text,
                    "0\r\nTEXT\r\n8\r\nTEXT\r\n10\r\n{:.4}\r\n20\r\n{:.4}\r\n30\r\n0.0\r\n40\r\n{size:.4}\r\n1\r\n{}\r\n",
                    at.x,
                    at.y,
                    plain(words)
                );
            }
        }
    }
    text.push_str("0\r\nENDSEC\r\n0\r\nEOF\r\n");
    text
}

/// Release 12 knows no letters beyond ASCII; what it cannot write is spelt.
fn plain(text: &str) -> String {
    text.chars()
        .map(|c| match c {
            '²' => "2".to_owned(),
            '×' => "x".to_owned(),
            '°' => "%%d".to_owned(),
            '±' => "%%p".to_owned(),
            '–' | '−' => "-".to_owned(),
            '→' => "->".to_owned(),
            'Δ' => "d".to_owned(),
            '“' | '”' => "\"".to_owned(),
            c if c.is_ascii() && !c.is_control() => c.to_string(),
            _ => "?".to_owned(),
        })
        .collect()
}

#[cfg(all(test, not(target_arch = "wasm32")))]
mod tests {
    use super::*;
    use crate::workshop::cut::drawing::at;
    use ::dxf::entities::EntityType;

    #[test]
    fn a_reader_reads_lines_and_texts_back() {
        let mut drawing = Drawing::default();
        drawing.outline(
            vec![at(0.0, 0.0), at(152.4, 0.0), at(152.4, 82.55)],
            Stroke::Dashed,
        );
        drawing.text(at(1.0, 2.0), 3.5, "19.5 in² at 440 °F\n0\nEOF");
        let text = file(&drawing);
        let read = ::dxf::Drawing::load(&mut text.as_bytes()).expect("a drawing");
        let entities: Vec<_> = read.entities().collect();
        assert_eq!(entities.len(), 2);
        let EntityType::Polyline(line) = &entities[0].specific else {
            panic!("no polyline");
        };
        assert!(line.is_closed());
        let points: Vec<(f64, f64)> = line
            .vertices()
            .map(|v| (v.location.x, v.location.y))
            .collect();
        assert_eq!(points, [(0.0, 0.0), (152.4, 0.0), (152.4, 82.55)]);
        assert_eq!(entities[0].common.layer, "LIKELY");
        let EntityType::Text(words) = &entities[1].specific else {
            panic!("no text");
        };
        assert!((words.text_height - 3.5).abs() < 1e-9);
        assert!(
            words.value.starts_with("19.5 in2 at 440 "),
            "{}",
            words.value
        );
    }
}
