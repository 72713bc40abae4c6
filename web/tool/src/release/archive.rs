//! Files as one archive, the same bytes for the same files.

use crate::page_build::File;
use std::io::{Cursor, Write};
use zip::result::ZipError;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, DateTime, ZipWriter};

/// An archive that holds files in a folder, without times and owners.
pub(crate) fn zipped(folder: &str, files: &[File]) -> Result<Vec<u8>, ZipError> {
    let options = SimpleFileOptions::default()
        .compression_method(CompressionMethod::Deflated)
        .compression_level(Some(9))
        .last_modified_time(DateTime::default())
        .unix_permissions(0o644);
    let mut archive = ZipWriter::new(Cursor::new(Vec::new()));
    for (name, content) in files {
        archive.start_file(format!("{folder}/{name}"), options)?;
        archive.write_all(content)?;
    }
    Ok(archive.finish()?.into_inner())
}

#[cfg(test)]
mod tests {
    use super::*;
    use std::io::Read;
    use zip::ZipArchive;

    #[test]
    fn an_archive_holds_its_files_and_no_time() {
        let files: Vec<File> = vec![
            ("a.txt".to_owned(), b"one".to_vec()),
            ("b.txt".to_owned(), vec![7; 5000]),
        ];
        let bytes = zipped("folder", &files).expect("an archive");
        assert_eq!(Some(&bytes), zipped("folder", &files).ok().as_ref());
        assert!(bytes.len() < 1000);
        let mut archive = ZipArchive::new(Cursor::new(bytes)).expect("an archive");
        assert_eq!(archive.len(), 2);
        let mut file = archive.by_name("folder/a.txt").expect("the file");
        assert_eq!(file.last_modified(), Some(DateTime::default()));
        let mut text = String::new();
        file.read_to_string(&mut text).expect("a text");
        assert_eq!(text, "one");
    }
}
