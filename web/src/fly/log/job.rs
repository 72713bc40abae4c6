//! Opening a log: bytes → text → table, in steps short enough for the page to answer in between.

use crate::fly::log::memory;
use coolpath_core::prove::log::column_map;
use coolpath_core::prove::log::{
    ColumnUse, Criteria, Encoding, Layout, LogReader, LogTable, Session, Stretch, guess, stretches,
};
use std::rc::Rc;
use std::time::Duration;
use web_sys::TextDecoder;
use yew::platform::time::sleep;

/// Largest file that is read, bytes.
const MOST_BYTES: f64 = 64e6;
/// Records in one step.
const RECORDS: usize = 150;

/// The bytes of a file that was picked.
#[derive(Clone)]
pub struct Picked {
    /// Its name.
    pub name: String,
    /// Its bytes.
    pub bytes: Rc<Vec<u8>>,
}

/// A log that was read.
#[derive(Clone)]
pub struct Opened {
    /// The file.
    pub picked: Picked,
    /// How its bytes were decoded.
    pub encoding: Encoding,
    /// How its text was cut.
    pub layout: Layout,
    /// Its columns.
    pub table: Rc<LogTable>,
    /// What they are used for.
    pub uses: Vec<ColumnUse>,
    /// Time from row to row without a clock, s.
    pub row_s: f64,
    /// Its sessions.
    pub sessions: Rc<Vec<Session>>,
    /// Stretches of each session.
    pub stretches: Rc<Vec<Vec<Stretch>>>,
}

/// Bytes of a file.
///
/// # Errors
/// A sentence for the builder.
pub async fn picked(file: web_sys::File) -> Result<Picked, String> {
    let name = file.name();
    if file.size() > MOST_BYTES {
        return Err(format!("{name} is larger than 64 MB. Nothing was changed."));
    }
    let buffer = wasm_bindgen_futures::JsFuture::from(file.array_buffer())
        .await
        .map_err(|_| format!("{name} could not be read. Nothing was changed."))?;
    Ok(Picked {
        name,
        bytes: Rc::new(js_sys::Uint8Array::new(&buffer).to_vec()),
    })
}

/// Text of a file's bytes: the browser's decoder, but for plain UTF-8, which needs none.
///
/// # Errors
/// A sentence for the builder.
pub fn decoded(picked: &Picked, encoding: Encoding) -> Result<String, String> {
    if encoding == Encoding::Utf8
        && let Ok(text) = std::str::from_utf8(&picked.bytes)
    {
        return Ok(text.to_owned());
    }
    TextDecoder::new_with_label(encoding.label())
        .and_then(|decoder| decoder.decode_with_u8_array(&picked.bytes))
        .map_err(|_| {
            format!(
                "{} cannot be decoded as {}. Nothing was changed.",
                picked.name,
                encoding.label()
            )
        })
}

/// Reads a text in steps; `told` hears how far it is, and stops the reading by saying no.
///
/// # Errors
/// A sentence for the builder, with line and cell; nothing has been changed.
pub async fn read(
    picked: Picked,
    encoding: Encoding,
    layout: Option<Layout>,
    told: impl Fn(f64) -> bool,
) -> Result<Option<Opened>, String> {
    let because =
        |error: &dyn std::fmt::Display| format!("{}: {error} Nothing was changed.", picked.name);
    let text = decoded(&picked, encoding)?;
    sleep(Duration::ZERO).await;
    let layout = layout.unwrap_or_else(|| Layout::of(&text));
    let mut reader = LogReader::new(&text, layout).map_err(|error| because(&error))?;
    drop(text);
    loop {
        if !told(reader.progress()) {
            return Ok(None);
        }
        sleep(Duration::ZERO).await;
        let more = reader.advance(RECORDS).map_err(|error| because(&error))?;
        if !more {
            break;
        }
    }
    sleep(Duration::ZERO).await;
    let table = reader.finish().map_err(|error| because(&error))?;
    sleep(Duration::ZERO).await;
    let mut uses = guess(&table);
    column_map::recall(&memory::kept(), &table, &mut uses);
    let mut opened = Opened {
        picked,
        encoding,
        layout,
        table: Rc::new(table),
        uses,
        row_s: 1.0,
        sessions: Rc::new(Vec::new()),
        stretches: Rc::new(Vec::new()),
    };
    sleep(Duration::ZERO).await;
    opened.cut().await;
    Ok(Some(opened))
}

impl Opened {
    /// Cuts the table into sessions and stretches, after its columns changed.
    pub async fn cut(&mut self) {
        let mut sessions = Session::bare(&self.table, &self.uses, self.row_s);
        for session in &mut sessions {
            for at in 0..self.uses.len() {
                if self.uses[at] != ColumnUse::Nothing {
                    sleep(Duration::ZERO).await;
                    session.add_column(&self.table, &self.uses, at);
                }
            }
            session.judge();
        }
        self.sessions = Rc::new(sessions);
        let criteria = Criteria::default();
        let mut found = Vec::with_capacity(self.sessions.len());
        for session in self.sessions.iter() {
            sleep(Duration::ZERO).await;
            found.push(stretches(session, &criteria));
        }
        self.stretches = Rc::new(found);
    }
}
