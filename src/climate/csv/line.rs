//! Lines one at a time, split into cells.

use std::borrow::Cow;
use std::io::{BufRead, BufReader, Read};
use std::ops::Range;

use csv_core::{ReadRecordResult, Reader, ReaderBuilder};

use super::MOST_BYTES;
use crate::error::{Problem, Span};

/// The longest line that is read, in bytes.
const MOST_LINE_BYTES: usize = 1 << 16;

/// Why no more lines can be read.
pub(super) enum Broken {
    Reading(std::io::Error),
    TooLarge,
    /// A zero byte in that line.
    Binary(usize),
    LongLine(usize),
}

/// A source's lines; one is held at a time.
pub(super) struct Lines<R> {
    source: BufReader<R>,
    line: Vec<u8>,
    number: usize,
    bytes: u64,
    stays: bool,
    delimiter: u8,
    reader: Reader,
    cells: Vec<u8>,
    ends: Vec<usize>,
    count: usize,
}

impl<R: Read> Lines<R> {
    pub(super) fn new(source: R) -> Self {
        Self {
            source: BufReader::with_capacity(1 << 16, source),
            line: Vec::new(),
            number: 0,
            bytes: 0,
            stays: false,
            delimiter: b',',
            reader: Reader::new(),
            cells: Vec::new(),
            ends: Vec::new(),
            count: 0,
        }
    }

    /// Goes on to the next line that isn't blank or a comment; `false` at the end.
    pub(super) fn advance(&mut self) -> Result<bool, Broken> {
        if std::mem::take(&mut self.stays) {
            return Ok(!self.line.is_empty());
        }
        loop {
            self.line.clear();
            let limit = MOST_LINE_BYTES as u64 + 1;
            let mut source = Read::take(&mut self.source, limit);
            let read = source.read_until(b'\n', &mut self.line);
            let read = read.map_err(Broken::Reading)?;
            if read == 0 {
                self.count = 0;
                return Ok(false);
            }
            self.number += 1;
            self.bytes += read as u64;
            if self.line.contains(&0) {
                return Err(Broken::Binary(self.number));
            }
            if self.line.len() > MOST_LINE_BYTES {
                return Err(Broken::LongLine(self.number));
            }
            if self.bytes > MOST_BYTES {
                return Err(Broken::TooLarge);
            }
            if self.number == 1 && self.line.starts_with(b"\xEF\xBB\xBF") {
                self.line.drain(..3);
            }
            let content = self.line.trim_ascii();
            let is_blank = content.iter().all(|b| b",;\t \"".contains(b));
            if !is_blank && !content.starts_with(b"#") {
                self.split();
                return Ok(true);
            }
        }
    }

    /// Lets the next [`Self::advance`] give the same line again.
    pub(super) fn stay(&mut self) {
        self.stays = true;
    }

    /// Splits this line and those after it at another delimiter.
    pub(super) fn split_at(&mut self, delimiter: u8) {
        if self.delimiter != delimiter {
            self.delimiter = delimiter;
            self.reader = ReaderBuilder::new().delimiter(delimiter).build();
            self.split();
        }
    }

    fn split(&mut self) {
        let most = self.line.len() + 2;
        if self.cells.len() < most {
            self.cells.resize(most, 0);
            self.ends.resize(most, 0);
        }
        self.reader.reset();
        let (mut input, mut written, mut ended) = (&self.line[..], 0, 0);
        // The second round, with nothing left, ends a line that has no line break.
        loop {
            let (cells, ends) = (&mut self.cells[written..], &mut self.ends[ended..]);
            let (result, read, wrote, cells_ended) = self.reader.read_record(input, cells, ends);
            written += wrote;
            ended += cells_ended;
            if result != ReadRecordResult::InputEmpty {
                break;
            }
            input = &input[read..];
        }
        self.count = ended;
    }

    /// The number of the line, from 1.
    pub(super) fn number(&self) -> usize {
        self.number
    }

    /// Bytes read so far.
    pub(super) fn bytes(&self) -> u64 {
        self.bytes
    }

    /// How many cells the line has.
    pub(super) fn count(&self) -> usize {
        self.count
    }

    /// A cell without the blanks around it; nothing where the line is shorter.
    pub(super) fn cell(&self, index: usize) -> Cow<'_, str> {
        if index >= self.count {
            return Cow::Borrowed("");
        }
        let start = match index {
            0 => 0,
            _ => self.ends[index - 1],
        };
        match String::from_utf8_lossy(&self.cells[start..self.ends[index]]) {
            Cow::Borrowed(text) => Cow::Borrowed(text.trim()),
            Cow::Owned(text) => Cow::Owned(text.trim().to_owned()),
        }
    }

    /// Whether numbers may have a decimal comma: only where commas don't part the cells.
    pub(super) fn may_have_decimal_commas(&self) -> bool {
        self.delimiter != b','
    }

    /// The line as it stands, without its line break.
    pub(super) fn text(&self) -> Cow<'_, str> {
        String::from_utf8_lossy(self.line.trim_ascii_end())
    }

    /// Whether the line is what a YAML file begins with: `key:`, `key: value`, `- item`, `---`.
    pub(super) fn looks_like_yaml(&self) -> bool {
        let text = self.text();
        let line = text.trim();
        let key = line.split(": ").next().unwrap_or_default();
        let is_key = |key: &str| {
            let is_part = |c: char| c.is_alphanumeric() || matches!(c, ' ' | '-' | '_');
            !key.is_empty() && key.chars().all(is_part)
        };
        line.starts_with("---")
            || line.starts_with("- ")
            || line.strip_suffix(':').is_some_and(is_key)
            || (line.contains(": ") && is_key(key))
    }

    /// A problem with one cell of this line.
    pub(super) fn problem(&self, index: usize, message: String) -> Problem {
        let text = self.text().into_owned();
        let range = cell_range(&text, self.delimiter, index);
        let span = Span {
            column: text[..range.start].chars().count() + 1,
            start: range.start,
            end: range.end,
            line: self.number,
        };
        Problem::at(span, message).excerpt(text)
    }
}

/// A span over a whole line.
pub(super) fn whole_line(line: usize, text: &str) -> Span {
    Span {
        start: 0,
        end: text.len(),
        line,
        column: 1,
    }
}

/// Where a cell stands in its line; the end of the line where there is no such cell.
fn cell_range(text: &str, delimiter: u8, index: usize) -> Range<usize> {
    let (mut cell, mut start, mut is_quoted) = (0, 0, false);
    for (at, byte) in text.bytes().enumerate() {
        match byte {
            b'"' => is_quoted = !is_quoted,
            _ if byte == delimiter && !is_quoted => {
                if cell == index {
                    return start..at;
                }
                (cell, start) = (cell + 1, at + 1);
            }
            _ => {}
        }
    }
    match cell == index {
        true => start..text.len(),
        false => text.len()..text.len(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn cells(text: &str, delimiter: u8) -> Vec<Vec<String>> {
        let mut lines = Lines::new(text.as_bytes());
        lines.split_at(delimiter);
        let mut all = Vec::new();
        while lines.advance().ok().unwrap() {
            all.push(
                (0..lines.count())
                    .map(|n| lines.cell(n).into_owned())
                    .collect(),
            );
        }
        all
    }

    #[test]
    fn lines_end_in_any_way_and_the_last_in_none() {
        let split = cells("a, b\r\n\"c,d\",e\n\n# note\n,,\nf,", b',');
        assert_eq!(split, [vec!["a", "b"], vec!["c,d", "e"], vec!["f", ""]]);
        assert_eq!(cells("a;b,c", b';'), [vec!["a", "b,c"]]);
        assert_eq!(cells("\u{feff}a\tb", b'\t'), [vec!["a", "b"]]);
        // An open quote takes the rest of its line, not of the file.
        assert_eq!(cells("\"a,b\nc,d", b',').len(), 2);
    }

    #[test]
    fn cells_are_found_in_their_line() {
        let text = "\"a,b\",cd,é";
        let found = |index| &text[cell_range(text, b',', index)];
        assert_eq!(
            [found(0), found(1), found(2), found(3)],
            ["\"a,b\"", "cd", "é", ""]
        );
    }

    #[test]
    fn line_numbers_count_what_is_passed_over() {
        let mut lines = Lines::new("# note\r\n\r\na,b".as_bytes());
        assert!(lines.advance().ok().unwrap());
        assert_eq!((lines.number(), lines.bytes()), (3, 13));
        let problem = lines.problem(1, "no".into());
        let span = problem.span.unwrap();
        assert_eq!((span.line, span.column, span.start, span.end), (3, 3, 2, 3));
    }
}
