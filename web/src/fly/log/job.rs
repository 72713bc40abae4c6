//! Opening a log: bytes → text → table, in steps short enough for the page to answer in between.
//!
//! The file itself is kept, not its bytes: each time it is read its text is held once, and given up for
//! the table.

use crate::browser::job::{End, Run};
use crate::browser::short_tasks::Pace;
use crate::fly::log::memory;
use coolpath_core::prove::log::column_map;
use coolpath_core::prove::log::{
    ColumnUse, Criteria, Encoding, LOOKED_AT, Layout, LogReader, LogTable, Session, Stretch,
    encoding, guess, stretches,
};
use std::rc::Rc;
use web_sys::TextDecoder;

/// Largest file that is read, bytes.
const MOST_BYTES: f64 = 64e6;
/// Records in one step.
const RECORDS: usize = 150;

/// A file that was picked.
#[derive(Clone)]
pub struct Picked {
    /// Its name.
    pub name: String,
    file: web_sys::File,
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

impl Picked {
    /// A file, unless it is too large.
    ///
    /// # Errors
    /// A sentence for the builder.
    pub fn of(file: web_sys::File) -> Result<Self, String> {
        let name = file.name();
        if file.size() > MOST_BYTES {
            return Err(format!("{name} is larger than 64 MB. Nothing was changed."));
        }
        Ok(Self { name, file })
    }

    /// Its encoding, guessed from its beginning.
    ///
    /// # Errors
    /// A sentence for the builder.
    pub async fn guessed(&self) -> Result<Encoding, String> {
        // One byte more tells whether the beginning is cut off.
        let end = LOOKED_AT as f64 + 1.0;
        let start = self.file.slice_with_f64_and_f64(0.0, end);
        let start = start.map_err(|_| self.unreadable())?;
        Ok(encoding(&self.bytes(&start).await?))
    }

    async fn bytes(&self, blob: &web_sys::Blob) -> Result<Vec<u8>, String> {
        let buffer = wasm_bindgen_futures::JsFuture::from(blob.array_buffer())
            .await
            .map_err(|_| self.unreadable())?;
        Ok(js_sys::Uint8Array::new(&buffer).to_vec())
    }

    fn unreadable(&self) -> String {
        format!("{} could not be read. Nothing was changed.", self.name)
    }

    /// Its text: by the browser's decoder, but for plain UTF-8, which needs none.
    async fn text(&self, encoding: Encoding) -> Result<String, String> {
        let bytes = self.bytes(&self.file).await?;
        let bytes = match String::from_utf8(bytes) {
            Ok(text) if encoding == Encoding::Utf8 => return Ok(text),
            Ok(text) => text.into_bytes(),
            Err(error) => error.into_bytes(),
        };
        TextDecoder::new_with_label(encoding.label())
            .and_then(|decoder| decoder.decode_with_u8_array(&bytes))
            .map_err(|_| {
                format!(
                    "{} cannot be decoded as {}. Nothing was changed.",
                    self.name,
                    encoding.label()
                )
            })
    }
}

/// Reads a text in steps, and tells how far it is.
///
/// # Errors
/// A sentence for the builder, with line and cell, or that the reading was abandoned; nothing has
/// been changed.
pub async fn read<D: 'static>(
    picked: Picked,
    encoding: Encoding,
    layout: Option<Layout>,
    run: &Run<f64, D>,
) -> Result<Opened, End> {
    let because =
        |error: &dyn std::fmt::Display| format!("{}: {error} Nothing was changed.", picked.name);
    let text = picked.text(encoding).await?;
    run.rest().await?;
    let layout = layout.unwrap_or_else(|| Layout::of(&text));
    let mut reader = LogReader::new(text, layout).map_err(|error| because(&error))?;
    run.tell(0.0);
    run.rest().await?;
    let mut pace = Pace::begun();
    while reader.advance(RECORDS).map_err(|error| because(&error))? {
        if run.breathe(&mut pace).await? {
            run.tell(reader.progress());
        }
    }
    run.rest().await?;
    let table = reader.finish().map_err(|error| because(&error))?;
    run.rest().await?;
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
    run.rest().await?;
    opened.cut(run).await?;
    Ok(opened)
}

impl Opened {
    /// Cuts the table into sessions and stretches, after its columns changed.
    ///
    /// # Errors
    /// It was abandoned.
    pub async fn cut<D: 'static>(&mut self, run: &Run<f64, D>) -> Result<(), End> {
        let mut sessions = Session::bare(&self.table, &self.uses, self.row_s);
        for session in &mut sessions {
            for at in 0..self.uses.len() {
                if self.uses[at] != ColumnUse::Nothing {
                    run.rest().await?;
                    session.add_column(&self.table, &self.uses, at);
                }
            }
            session.judge();
        }
        self.sessions = Rc::new(sessions);
        let criteria = Criteria::default();
        let mut found = Vec::with_capacity(self.sessions.len());
        for session in self.sessions.iter() {
            run.rest().await?;
            found.push(stretches(session, &criteria));
        }
        self.stretches = Rc::new(found);
        Ok(())
    }
}
