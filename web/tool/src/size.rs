//! Sizes as they are printed after a build.

use std::io::Read;

use flate2::Compression;
use flate2::read::GzEncoder;

/// Size of some content, plain and as a web server would send it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Size {
    plain_bytes: usize,
    gzipped_bytes: usize,
}

impl Size {
    /// The size of a content.
    pub fn of(content: &[u8]) -> Self {
        Self {
            plain_bytes: content.len(),
            gzipped_bytes: gzipped(content).len(),
        }
    }
}

/// Some content as gzip packs it, without name and time, so that the same content gives the same
/// bytes.
#[must_use]
pub fn gzipped(content: &[u8]) -> Vec<u8> {
    let mut packed = Vec::new();
    // Memory takes every byte.
    let _ = GzEncoder::new(content, Compression::best()).read_to_end(&mut packed);
    packed
}

/// Some content as brotli packs it: a fifth smaller than gzip.
#[must_use]
pub fn brotli(content: &[u8]) -> Vec<u8> {
    const BUFFER: usize = 1 << 16;
    const BEST: u32 = 11;
    const WINDOW: u32 = 22;
    let mut packed = Vec::new();
    // Memory takes every byte.
    let _ = brotli::CompressorReader::new(content, BUFFER, BEST, WINDOW).read_to_end(&mut packed);
    packed
}

impl std::fmt::Display for Size {
    fn fmt(&self, formatter: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        let kilobytes = |bytes: usize| bytes.div_ceil(1000);
        write!(
            formatter,
            "{} kB ({} kB gzipped)",
            kilobytes(self.plain_bytes),
            kilobytes(self.gzipped_bytes)
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_repeated_content_is_smaller_when_sent() {
        let size = Size::of(&[b'a'; 50_000]);
        assert_eq!(size.plain_bytes, 50_000);
        assert!(size.gzipped_bytes < 1_000, "{size:?}");
        assert_eq!(size.to_string(), "50 kB (1 kB gzipped)");
    }

    #[test]
    fn what_brotli_packed_is_the_content_again() {
        let content: Vec<u8> = (0..20_000u32).map(|at| (at * at / 7) as u8).collect();
        let packed = brotli(&content);
        assert!(packed.len() < content.len());
        let mut plain = Vec::new();
        let read = brotli::Decompressor::new(&packed[..], 4096).read_to_end(&mut plain);
        assert!(read.is_ok() && plain == content);
    }
}
