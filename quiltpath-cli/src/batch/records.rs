//! Where records come from: a file, the files of a folder, or the lines of JSON Lines.
//!
//! JSON Lines are read line by line, so that memory holds no more of them than is at work. A file
//! is JSON Lines when its name ends so. A stream has no name: it is JSON Lines when its first line
//! is JSON by itself, or when lines are asked for and it is no drawing of several lines.

use std::fs::{self, File};
use std::io::{self, BufRead, BufReader, Cursor, Read};
use std::path::{Path, PathBuf};
use std::sync::Arc;

use quiltpath_core::io::drawing::{LineDrawing, ReadOptions};
use quiltpath_core::io::lines::LineFormat;
use serde::de::IgnoredAny;

use crate::drawing;
use crate::failure::Failure;
use crate::files::{is_stream, label, read_folder, read_line, read_rest, stem};
use crate::message::{self, one_line};

/// How the names of a folder's drawings end.
const ENDS: [&str; 9] = [
    "svg", "svgz", "dxf", "json", "jsonl", "ndjson", "png", "jpg", "jpeg",
];

/// One drawing before it is read.
pub(crate) enum Record {
    /// Read by the worker, or by who works on it alone; `-` is stdin.
    File(PathBuf),
    /// What a stream held.
    Whole { path: Arc<Path>, bytes: Vec<u8> },
    /// A line of JSON Lines with its row, from 1.
    Line {
        path: Arc<Path>,
        row: u64,
        bytes: Vec<u8>,
    },
}

impl Record {
    pub(crate) fn open(&self, options: &ReadOptions) -> Result<LineDrawing, Failure> {
        let read = match self {
            Self::File(path) => return drawing::open(path, options),
            Self::Whole { path, bytes } => drawing::parse(path, bytes, options, drawing::LAYER),
            Self::Line { bytes, .. } => LineDrawing::read_line(bytes, &self.name(), options),
        };
        read.map_err(|error| self.locate(error.into()))
    }

    /// The name for what it becomes where it has none: the file's, or `line-17`.
    pub(crate) fn name(&self) -> String {
        match self {
            Self::File(path) => stem(path),
            Self::Whole { path, .. } => stem(path),
            Self::Line { row, .. } => format!("line-{row}"),
        }
    }

    /// The file that it is in, as messages name it.
    pub(crate) fn file(&self) -> String {
        match self {
            Self::File(path) => label(path),
            Self::Whole { path, .. } | Self::Line { path, .. } => label(path),
        }
    }

    /// Its line, where it is one of JSON Lines.
    pub(crate) fn line(&self) -> Option<u64> {
        match self {
            Self::Line { row, .. } => Some(*row),
            _ => None,
        }
    }

    /// How messages call it.
    pub(crate) fn place(&self) -> String {
        match self.line() {
            Some(row) => format!("{}:{row}", self.file()),
            None => self.file(),
        }
    }

    /// The failure with the place of this record.
    pub(crate) fn locate(&self, failure: Failure) -> Failure {
        let Failure::Data(mut error) = failure else {
            return failure;
        };
        if let (Some(row), None) = (self.line(), error.file()) {
            let row = u32::try_from(row).unwrap_or(u32::MAX);
            error = error.below(row - 1).at(row, 1);
        }
        Failure::Data(error.in_file(self.file()))
    }

    /// What it weighs in memory before it is worked on.
    pub(super) fn bytes(&self) -> usize {
        match self {
            Self::File(_) => 0,
            Self::Whole { bytes, .. } | Self::Line { bytes, .. } => bytes.len(),
        }
    }
}

/// Records one after the other, or why there are no more.
pub(crate) type Records = Box<dyn Iterator<Item = Result<Record, Failure>> + Send>;

/// What an argument stands for.
pub(crate) enum Input {
    One(Record),
    Folder(Vec<PathBuf>),
    Lines(Records),
}

/// Whether an input may be JSON Lines, one record a line.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(crate) enum Lines {
    /// It is one drawing.
    No,
    /// Where its name or its first line says so.
    Found,
    /// The result is JSON Lines, so a stream is too unless it is plainly something else; an empty
    /// one has no records.
    Asked,
}

impl Input {
    pub(crate) fn open(path: &Path, lines: Lines) -> Result<Self, Failure> {
        let failed = |error: io::Error| Failure::file(path, "can't be read", &error);
        if is_folder(path) {
            let (files, others) = read_folder(path, &ENDS)?;
            passed_over(path, &others);
            return match files.is_empty() {
                false => Ok(Self::Folder(files)),
                true => Err(Failure::File(format!(
                    "{}: there are no drawings in this folder; give one with .svg, .svgz, .dxf, .json, .jsonl, .png or .jpg files",
                    label(path)
                ))),
            };
        }
        let one = Ok(Self::One(Record::File(path.to_owned())));
        if lines == Lines::No {
            return one;
        }
        let pipe = || fs::metadata(path).is_ok_and(|found| !found.is_file());
        if is_stream(path) {
            stream(path, BufReader::new(io::stdin()), lines).map_err(failed)
        } else if pipe() {
            let file = File::open(path).map_err(failed)?;
            stream(path, BufReader::new(file), lines).map_err(failed)
        } else if is_named_lines(path) {
            let mut reader = BufReader::new(File::open(path).map_err(failed)?);
            let mut head = Vec::new();
            match next_line(&mut reader, &mut head).map_err(failed)? {
                // Whoever reads an empty file reports it as such.
                None => one,
                Some(_) => Ok(in_lines(path, head, reader)),
            }
        } else {
            one
        }
    }

    /// All records, and how many where that is known.
    pub(crate) fn records(self) -> (Records, Option<usize>) {
        match self {
            Self::One(record) => (Box::new(std::iter::once(Ok(record))), Some(1)),
            Self::Folder(files) => {
                let count = files.len();
                let records = files.into_iter().map(|file| Ok(Record::File(file)));
                (Box::new(records), Some(count))
            }
            Self::Lines(records) => (records, None),
        }
    }
}

/// Reports the files of a folder that are no drawings by their names, the first few by name.
fn passed_over(folder: &Path, others: &[PathBuf]) {
    const NAMED: usize = 5;
    if others.is_empty() {
        return;
    }
    let names = others
        .iter()
        .take(NAMED)
        .filter_map(|path| path.file_name());
    let mut names: Vec<String> = names
        .map(|name| one_line(&name.to_string_lossy()))
        .collect();
    if others.len() > NAMED {
        names.push(format!("and {} more", others.len() - NAMED));
    }
    message::note(format_args!(
        "{}: {} of its files skipped, whose names don't end in .svg, .svgz, .dxf, .json, .jsonl, .ndjson, .png, .jpg or .jpeg: {}",
        label(folder),
        others.len(),
        names.join(", ")
    ));
}

/// True for an argument that stands for all drawings in it.
pub(crate) fn is_folder(path: &Path) -> bool {
    !is_stream(path) && path.is_dir()
}

fn is_named_lines(path: &Path) -> bool {
    let end = path.extension().and_then(|end| end.to_str());
    end.and_then(LineFormat::of_ending) == Some(LineFormat::JsonLines)
}

/// Finds out by its beginning what a stream is; what was read of it for that is read again.
fn stream(
    path: &Path,
    mut reader: impl BufRead + Send + 'static,
    lines: Lines,
) -> io::Result<Input> {
    let mut head = Vec::new();
    let is_lines = match next_line(&mut reader, &mut head)? {
        None => lines == Lines::Asked,
        Some(first) => match Beginning::of(&head[first..]) {
            Beginning::Whole => true,
            Beginning::Other => false,
            Beginning::Broken => lines == Lines::Asked,
            // The first record may be cut off; then the next one is whole and names its unit.
            Beginning::Open => {
                lines == Lines::Asked
                    && next_line(&mut reader, &mut head)?
                        .is_some_and(|next| is_record(&head[next..]))
            }
        },
    };
    if is_lines {
        return Ok(in_lines(path, head, reader));
    }
    read_rest(&mut reader, &mut head)?;
    Ok(Input::One(Record::Whole {
        path: path.into(),
        bytes: head,
    }))
}

/// Appends lines up to the next that is not blank; where that begins.
fn next_line(reader: &mut impl BufRead, head: &mut Vec<u8>) -> io::Result<Option<usize>> {
    loop {
        let start = head.len();
        if read_line(reader, head)? == 0 {
            return Ok(None);
        }
        if !is_blank(&head[start..]) {
            return Ok(Some(start));
        }
    }
}

/// How a stream begins.
#[derive(Debug, PartialEq, Eq)]
enum Beginning {
    /// A line that is JSON by itself.
    Whole,
    /// A line of JSON that goes on below, or is cut off.
    Open,
    /// A line that is no JSON.
    Broken,
    /// No JSON at all.
    Other,
}

impl Beginning {
    fn of(line: &[u8]) -> Self {
        let line = without_mark(line);
        let packed = line.starts_with(&[0x1f, 0x8b]);
        let wide = line.starts_with(&[0xff, 0xfe]) || line.starts_with(&[0xfe, 0xff]);
        if packed || wide || line.trim_ascii_start().starts_with(b"<") || is_group(line) {
            return Self::Other;
        }
        match serde_json::from_slice::<IgnoredAny>(line) {
            Ok(_) => Self::Whole,
            Err(error) if error.is_eof() => Self::Open,
            Err(_) => Self::Broken,
        }
    }
}

/// True for the first row of a DXF: the code of a section or of a comment, which are JSON by
/// themselves, or the mark of the binary form.
fn is_group(line: &[u8]) -> bool {
    matches!(line.trim_ascii(), b"0" | b"999") || line.starts_with(b"AutoCAD Binary DXF")
}

/// True for an object that names a unit, which no inner part of a point list does.
fn is_record(line: &[u8]) -> bool {
    #[derive(serde::Deserialize)]
    struct Unit {
        #[serde(rename = "unit")]
        _unit: IgnoredAny,
    }
    serde_json::from_slice::<Unit>(line).is_ok()
}

fn is_blank(line: &[u8]) -> bool {
    without_mark(line).trim_ascii().is_empty()
}

/// The line without the byte order mark that a file may begin with.
fn without_mark(line: &[u8]) -> &[u8] {
    line.strip_prefix(b"\xef\xbb\xbf").unwrap_or(line)
}

/// The records of JSON Lines of which this much is read already.
fn in_lines(path: &Path, head: Vec<u8>, rest: impl BufRead + Send + 'static) -> Input {
    let path: Arc<Path> = path.into();
    let mut reader = Cursor::new(head).chain(rest);
    let mut row = 0;
    let mut broken = false;
    Input::Lines(Box::new(std::iter::from_fn(move || {
        while !broken {
            let mut bytes = Vec::new();
            match read_line(&mut reader, &mut bytes) {
                Ok(0) => return None,
                Ok(_) => row += 1,
                Err(error) => {
                    broken = true;
                    return Some(Err(Failure::file(&path, "can't be read", &error)));
                }
            }
            if !is_blank(&bytes) {
                // A fault at the end of the line is reported on it, and not on the next one.
                bytes.truncate(bytes.trim_ascii_end().len());
                let path = Arc::clone(&path);
                return Some(Ok(Record::Line { path, row, bytes }));
            }
        }
        None
    })))
}

#[cfg(test)]
mod tests {
    use super::*;

    const LINE: &str = "{\"unit\":\"mm\",\"points\":[[0,0],[1,1]]}\n";

    /// The rows of a stream that is JSON Lines; none for one drawing.
    fn rows(text: &str, lines: Lines) -> Option<Vec<u64>> {
        let reader = Cursor::new(text.to_owned());
        match stream(Path::new("-"), reader, lines).expect("read") {
            Input::Lines(records) => {
                let row = |record: Result<Record, Failure>| record.expect("read").line();
                Some(records.filter_map(row).collect())
            }
            Input::One(Record::Whole { bytes, .. }) => {
                assert_eq!(bytes, text.as_bytes());
                None
            }
            _ => panic!("a stream is no file"),
        }
    }

    #[test]
    fn the_beginning_of_a_stream_shows_whether_it_is_lines() {
        let open = "{\"unit\":\"mm\",\"points\":[[0,0],\n";
        for (text, found, asked) in [
            (LINE.to_owned(), Some(vec![1]), Some(vec![1])),
            (
                format!("\u{feff}\n\r\n{LINE}\n{LINE}"),
                Some(vec![3, 5]),
                Some(vec![3, 5]),
            ),
            (format!("hello\n{LINE}"), None, Some(vec![1, 2])),
            (format!("{open}{LINE}"), None, Some(vec![1, 2])),
            (format!("{open}[1,1]]}}"), None, None),
            (
                "{\n\"unit\":\"mm\",\"paths\":[\n{\"points\":[[0,0],[1,1]]}\n]}".to_owned(),
                None,
                None,
            ),
            ("[\n[0,0],\n[1,1]]".to_owned(), None, None),
            (format!(" <svg>\n{LINE}"), None, None),
            ("  0\r\nSECTION\r\n".to_owned(), None, None),
            ("999\nby hand\n0\nSECTION\n".to_owned(), None, None),
            ("AutoCAD Binary DXF\r\n\u{1a}\0".to_owned(), None, None),
            (String::new(), None, Some(vec![])),
            (" \n\n".to_owned(), None, Some(vec![])),
        ] {
            assert_eq!(rows(&text, Lines::Found), found, "{text}");
            assert_eq!(rows(&text, Lines::Asked), asked, "{text}");
        }
    }

    #[test]
    fn a_reader_that_fails_is_the_last_record() {
        struct Fails;
        impl Read for Fails {
            fn read(&mut self, _: &mut [u8]) -> io::Result<usize> {
                Err(io::Error::other("unplugged"))
            }
        }
        let reader = BufReader::new(LINE.as_bytes().chain(Fails));
        let Ok(Input::Lines(mut records)) = stream(Path::new("-"), reader, Lines::Asked) else {
            panic!("lines");
        };
        assert!(matches!(records.next(), Some(Ok(_))));
        let Some(Err(failure)) = records.next() else {
            panic!("no failure");
        };
        assert_eq!(failure.to_string(), "stdin: can't be read: unplugged");
        assert!(records.next().is_none());
    }
}
