//! Opening a log: bytes → text → table, in steps short enough for the page to answer in between.
//!
//! The file itself is kept, not its bytes, and read piece by piece: no more of its text is held than a piece.

use crate::browser::job::{End, Run};
use crate::fly::log::memory;
use crate::kit::short_tasks::Pace;
use coolpath_core::language::tr;
use coolpath_core::prove::log::column_map;
use coolpath_core::prove::log::{
    ColumnUse, Criteria, Encoding, LOOKED_AT, Layout, LogReader, LogTable, Session, Stretch,
    encoding, guess, stretches,
};
use std::rc::Rc;
use web_sys::{TextDecodeOptions, TextDecoder};

/// Largest file that is read, bytes.
const MOST_BYTES: f64 = 64e6;
/// Bytes that are read at once.
const PIECE_BYTES: f64 = 1e6;
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
            return Err(tr!("{} is larger than 64 MB. Nothing was changed.", name));
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
        tr!("{} could not be read. Nothing was changed.", self.name)
    }

    /// Some of its bytes.
    async fn piece(&self, from: f64, to: f64) -> Result<Vec<u8>, String> {
        let piece = self.file.slice_with_f64_and_f64(from, to);
        self.bytes(&piece.map_err(|_| self.unreadable())?).await
    }
}

/// Decodes a file's bytes piece by piece: by the browser's decoder, but for UTF-8, which needs none.
struct Decoding {
    encoding: Encoding,
    decoder: Option<TextDecoder>,
    /// The beginning of a character whose end comes with the next piece.
    begun: Vec<u8>,
}

impl Decoding {
    fn new(encoding: Encoding) -> Result<Self, ()> {
        let decoder = (encoding != Encoding::Utf8)
            .then(|| TextDecoder::new_with_label(encoding.label()))
            .transpose()
            .map_err(|_| ())?;
        Ok(Self {
            encoding,
            decoder,
            begun: Vec::new(),
        })
    }

    /// The text of the next piece.
    fn text(&mut self, mut bytes: Vec<u8>, is_last: bool) -> Result<String, String> {
        if let Some(decoder) = &self.decoder {
            let options = TextDecodeOptions::new();
            options.set_stream(!is_last);
            return decoder
                .decode_with_u8_array_and_options(&bytes, &options)
                .map_err(|_| self.encoding.label().to_owned());
        }
        if !self.begun.is_empty() {
            self.begun.append(&mut bytes);
            bytes = std::mem::take(&mut self.begun);
        }
        if !is_last {
            self.begun = bytes.split_off(whole_characters(&bytes));
        }
        // What is no text is shown as such, as browsers do.
        Ok(String::from_utf8(bytes)
            .unwrap_or_else(|error| String::from_utf8_lossy(error.as_bytes()).into_owned()))
    }
}

/// Bytes before a character that is cut off by the end.
fn whole_characters(bytes: &[u8]) -> usize {
    const LONGEST: usize = 4;
    let tail = bytes.len().saturating_sub(LONGEST - 1);
    let start = (tail..bytes.len()).rev().find(|at| bytes[*at] >= 0xc0);
    match start {
        Some(at) if core::str::from_utf8(&bytes[at..]).is_err_and(|e| e.error_len().is_none()) => {
            at
        }
        _ => bytes.len(),
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
        |error: &dyn std::fmt::Display| tr!("{}: {} Nothing was changed.", picked.name, error);
    let undecoded = |label: &str| {
        tr!(
            "{} cannot be decoded as {}. Nothing was changed.",
            picked.name,
            label
        )
    };
    let mut decoding = Decoding::new(encoding).map_err(|()| undecoded(encoding.label()))?;
    let size = picked.file.size();
    let mut layout = layout;
    let mut reading: Option<LogReader> = None;
    let mut pace = Pace::begun();
    let mut from = 0.0;
    run.tell(0.0);
    loop {
        let to = (from + PIECE_BYTES).min(size);
        let bytes = picked.piece(from, to).await?;
        run.goes_on()?;
        let text = decoding
            .text(bytes, to == size)
            .map_err(|label| undecoded(&label))?;
        let layout = *layout.get_or_insert_with(|| Layout::of(&text));
        let reader = reading.get_or_insert_with(|| LogReader::new(layout));
        let given = text.len().max(1) as f64;
        reader.feed(text).map_err(|error| because(&error))?;
        if to == size {
            reader.end();
        }
        while reader.advance(RECORDS).map_err(|error| because(&error))? {
            if run.breathe(&mut pace).await? {
                let share = 1.0 - reader.unread() as f64 / given;
                run.tell((from + share * (to - from)) / size.max(1.0));
            }
        }
        if to == size {
            break;
        }
        if from == 0.0 {
            reader.make_room(to / size);
        }
        from = to;
    }
    let (Some(reader), Some(layout)) = (reading, layout) else {
        return Err(End::Abandoned);
    };
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

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_character_that_is_cut_off_comes_with_the_next_piece() {
        let text = "CHT °F, OAT −5 °C, 𝔘, é";
        for size in 1..text.len() {
            let mut decoding = Decoding::new(Encoding::Utf8).expect("no decoder");
            let pieces: Vec<&[u8]> = text.as_bytes().chunks(size).collect();
            let last = pieces.len() - 1;
            let back: String = pieces
                .iter()
                .enumerate()
                .map(|(at, piece)| decoding.text(piece.to_vec(), at == last).expect("text"))
                .collect();
            assert_eq!(back, text, "{size}");
        }
        // What is no text stays where it is.
        let mut decoding = Decoding::new(Encoding::Utf8).expect("no decoder");
        let broken = [b'a', 0xff, b'b', 0xe2];
        assert_eq!(
            decoding.text(broken.to_vec(), false).as_deref(),
            Ok("a\u{fffd}b")
        );
        assert_eq!(decoding.text(vec![b'c'], true).as_deref(), Ok("\u{fffd}c"));
    }
}
