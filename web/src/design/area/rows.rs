//! Rows of the area helper: typed texts, and the pieces that they make. Pure.

use crate::kit::format;
use crate::state::panel_texts::{MOST_PIECES, length_key};
use crate::state::{FieldKey, State, panel_texts};
use coolpath_core::language::{tr, tr_later};
use coolpath_core::units::typed;
use coolpath_core::units::typed::{Dimension, UnitSystem};
use coolpath_core::workshop::area::{Piece, Shape, Step};

/// Kind of a piece.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Kind {
    /// Rectangle with rounded corners.
    Rectangle,
    /// Circle, or a round pipe cut across.
    Circle,
    /// Ellipse.
    Ellipse,
    /// Slot with half-round ends.
    Slot,
    /// Triangle.
    Triangle,
}

impl Kind {
    /// All kinds.
    pub const ALL: [Self; 5] = [
        Self::Rectangle,
        Self::Circle,
        Self::Ellipse,
        Self::Slot,
        Self::Triangle,
    ];

    /// Its name, by which it is kept.
    #[must_use]
    pub const fn name(self) -> &'static str {
        match self {
            Self::Rectangle => tr_later("Rectangle"),
            Self::Circle => tr_later("Circle or round pipe"),
            Self::Ellipse => tr_later("Ellipse"),
            Self::Slot => tr_later("Slot with half-round ends"),
            Self::Triangle => tr_later("Triangle"),
        }
    }

    /// What it is called.
    #[must_use]
    pub fn phrase(self) -> &'static str {
        tr(self.name())
    }

    /// The kind of that name.
    #[must_use]
    pub fn named(name: &str) -> Option<Self> {
        Self::ALL.into_iter().find(|kind| kind.name() == name)
    }

    /// Names of its lengths.
    #[must_use]
    pub fn lengths(self) -> Vec<&'static str> {
        match self {
            Self::Rectangle => vec![tr("Width"), tr("Height"), tr("Corner radius")],
            Self::Circle => vec![tr("Diameter")],
            Self::Ellipse => vec![tr("Width"), tr("Height")],
            Self::Slot => vec![tr("Length"), tr("Width")],
            Self::Triangle => vec![tr("Base"), tr("Height")],
        }
    }
}

/// One row.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Row {
    /// Kind.
    pub kind: Kind,
    /// Whether it is taken away.
    pub blocks: bool,
    /// Texts of its lengths; all three are kept when the kind changes.
    pub texts: [String; 3],
}

impl Default for Row {
    fn default() -> Self {
        Self {
            kind: Kind::Rectangle,
            blocks: false,
            texts: [String::new(), String::new(), "0".to_owned()],
        }
    }
}

/// Texts that say of each piece what it is, and whether it is taken away.
const KIND: &str = "area-kind";
const BLOCKS: &str = "area-blocks";

/// Texts of the panel, each with its key; without a text where it goes.
pub type Notes = Vec<(FieldKey, Option<String>)>;

/// What stands in a length's field before anything was typed.
#[must_use]
pub fn usual(which: usize) -> String {
    let [first, second, third] = Row::default().texts;
    match which {
        0 => first,
        1 => second,
        _ => third,
    }
}

/// The pieces as they were typed; at least one.
#[must_use]
pub fn typed(state: &State) -> Vec<Row> {
    let is_said = |at: &usize| {
        let kind = FieldKey::new(KIND, *at);
        panel_texts::typed(state, &kind).is_some()
    };
    let count = (1..MOST_PIECES).take_while(is_said).count() + 1;
    (0..count).map(|at| Row::at(state, at)).collect()
}

/// What is to be noted so that these pieces stand in place of so many others.
#[must_use]
pub fn notes(rows: &[Row], before: usize) -> Notes {
    (0..rows.len().max(before))
        .flat_map(|at| Row::notes(rows.get(at), at))
        .collect()
}

impl Row {
    fn at(state: &State, at: usize) -> Self {
        let typed = |key: FieldKey| panel_texts::typed(state, &key);
        let mut row = Self::default();
        let kind = typed(FieldKey::new(KIND, at));
        if let Some(kind) = kind.and_then(|kind| Kind::named(&kind)) {
            row.kind = kind;
        }
        row.blocks = typed(FieldKey::new(BLOCKS, at)).as_deref() == Some("true");
        for (which, text) in row.texts.iter_mut().enumerate() {
            if let Some(typed) = typed(length_key(at, which)) {
                *text = typed;
            }
        }
        row
    }

    /// What is to be noted so that a row, or none, stands at a place.
    fn notes(row: Option<&Self>, at: usize) -> Notes {
        let usual = Self::default();
        let mut notes = vec![
            (
                FieldKey::new(KIND, at),
                row.map(|row| row.kind.name().to_owned()),
            ),
            (
                FieldKey::new(BLOCKS, at),
                row.filter(|row| row.blocks).map(|_| "true".to_owned()),
            ),
        ];
        for (which, usual) in usual.texts.iter().enumerate() {
            let text = row.map(|row| row.texts[which].clone());
            notes.push((length_key(at, which), text.filter(|text| text != usual)));
        }
        notes
    }

    /// The piece of this row.
    ///
    /// # Errors
    /// A sentence that names the length.
    pub fn piece(&self, place: usize, system: UnitSystem) -> Result<Piece, String> {
        let length = |at: usize| {
            typed::parse(&self.texts[at], Dimension::Length, system).map_err(|_| {
                tr!(
                    "Piece {}: {} must be a length, such as 3.5 or 90 mm",
                    place + 1,
                    self.kind.lengths()[at].to_lowercase()
                )
            })
        };
        let shape = match self.kind {
            Kind::Rectangle => Shape::Rectangle {
                width: length(0)?,
                height: length(1)?,
                // A corner that nobody gave is sharp.
                radius: if self.texts[2].trim().is_empty() {
                    0.0
                } else {
                    length(2)?
                },
            },
            Kind::Circle => Shape::Circle {
                diameter: length(0)?,
            },
            Kind::Ellipse => Shape::Ellipse {
                width: length(0)?,
                height: length(1)?,
            },
            Kind::Slot => Shape::Slot {
                length: length(0)?,
                width: length(1)?,
            },
            Kind::Triangle => Shape::Triangle {
                base: length(0)?,
                height: length(1)?,
            },
        };
        Ok(Piece {
            shape,
            blocks: self.blocks,
        })
    }
}

/// A step of the sum in words, its formula with the values put in.
#[must_use]
pub fn step_words(step: &Step, system: UnitSystem) -> String {
    let length = |m: f64| format::quantity(m, Dimension::Length, system, 4);
    let area = |m2: f64| format::quantity(m2, Dimension::Area, system, 4);
    let formula = match step.piece.shape {
        Shape::Rectangle {
            width,
            height,
            radius,
        } if radius > 0.0 => tr!(
            "rectangle {} × {} − 0.858 × ({})²",
            length(width),
            length(height),
            length(radius)
        ),
        Shape::Rectangle { width, height, .. } => {
            tr!("rectangle {} × {}", length(width), length(height))
        }
        Shape::Circle { diameter } => tr!("circle 0.785 × ({})²", length(diameter)),
        Shape::Ellipse { width, height } => {
            tr!("ellipse 0.785 × {} × {}", length(width), length(height))
        }
        Shape::Slot { length: l, width } => tr!(
            "slot ({} − {}) × {} + 0.785 × ({})²",
            length(l),
            length(width),
            length(width),
            length(width)
        ),
        Shape::Triangle { base, height } => {
            tr!("triangle ½ × {} × {}", length(base), length(height))
        }
    };
    let sign = if step.piece.blocks {
        tr("less")
    } else {
        tr("plus")
    };
    tr!(
        "{} {} = {}; so far {}",
        sign,
        formula,
        area(step.area_m2),
        area(step.sum_m2)
    )
}

/// What a string round the first added piece would have given, in words.
#[must_use]
pub fn string_words(step: &Step, system: UnitSystem) -> String {
    let area = |m2: f64| format::quantity(m2, Dimension::Area, system, 3);
    let shape = &step.piece.shape;
    let (own, string) = (shape.area_m2(), shape.string_area_m2());
    tr!(
        "A string round the first piece is {} long; divided by four and squared it would score {} \
         instead of {}, {:+.0} %. The rule takes every opening for a square and is right for a \
         square alone.",
        format::quantity(shape.perimeter_m(), Dimension::Length, system, 3),
        area(string),
        area(own),
        100.0 * (string / own - 1.0)
    )
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::state::Action;
    use crate::state::reduce::reduce;

    #[test]
    fn pieces_are_kept_in_the_state_and_close_up_when_one_goes() {
        let piece = |kind, text: &str| Row {
            kind,
            blocks: kind == Kind::Circle,
            texts: [text.to_owned(), String::new(), "0".to_owned()],
        };
        let rows = [
            piece(Kind::Slot, "8"),
            piece(Kind::Circle, "2"),
            piece(Kind::Triangle, "3"),
        ];
        let state = State::default();
        assert_eq!(typed(&state), [Row::default()]);
        let state = reduce(&state, Action::Note(notes(&rows, 1)));
        assert_eq!(typed(&state), rows);
        let fewer = [rows[0].clone(), rows[2].clone()];
        let state = reduce(&state, Action::Note(notes(&fewer, 3)));
        assert_eq!(typed(&state), fewer);
        assert_eq!(typed(&reduce(&state, Action::Undo)), rows);
    }
    use coolpath_core::workshop::area;

    fn row(kind: Kind, texts: [&str; 3]) -> Row {
        Row {
            kind,
            blocks: false,
            texts: texts.map(str::to_owned),
        }
    }

    #[test]
    fn typed_pieces_with_commas_and_units_add_up_and_show_their_steps() {
        let rows = [
            row(Kind::Rectangle, ["8", "76,2 mm", "0"]),
            row(Kind::Circle, ["4", "", ""]),
        ];
        let pieces: Vec<Piece> = rows
            .iter()
            .enumerate()
            .map(|(at, row)| row.piece(at, UnitSystem::Customary).expect("a piece"))
            .collect();
        let sum = area::sum(&pieces).expect("a sum");
        assert_eq!(
            step_words(&sum.steps[0], UnitSystem::Customary),
            "plus rectangle 8 in × 3 in = 24 in²; so far 24 in²"
        );
        let string = string_words(&sum.steps[0], UnitSystem::Customary);
        assert!(
            string.contains("30.2 in² instead of 24 in², +26 %"),
            "{string}"
        );
    }

    #[test]
    fn a_text_that_is_no_length_is_named() {
        let fault = row(Kind::Slot, ["wide", "2", ""])
            .piece(1, UnitSystem::Metric)
            .expect_err("told");
        assert!(
            fault.starts_with("Piece 2: length must be a length"),
            "{fault}"
        );
    }
}
