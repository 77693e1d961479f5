//! Reads rows of comma-separated cells with the line each begins on, in bounded memory whatever the file holds.

use std::io::{self, BufRead, BufReader, Read};

use csv_core::{ReadRecordResult, Reader};

/// The longest row that is read \[bytes\]; the choice is ours, far above any real one.
const LONGEST_ROW: usize = 1 << 20;

/// The most cells that a row may have; the choice is ours.
const MOST_CELLS: usize = 512;

/// Why no further row can be read.
#[derive(Debug)]
pub(super) enum RowError {
    /// A row does not end, or is longer than any real one.
    TooLong {
        /// Where it begins.
        line: usize,
    },
    /// Bytes that are not UTF-8, or a zero byte: not a text file.
    NotText {
        /// Where the row begins.
        line: usize,
    },
    /// The system cannot read it.
    Io(io::Error),
}

/// Rows of a file.
pub(super) struct RowReader<R> {
    input: BufReader<R>,
    parser: Reader,
    /// Line breaks passed so far.
    breaks: usize,
    cells: Vec<u8>,
    ends: Vec<usize>,
}

/// One row.
#[derive(Clone, Copy)]
pub(super) struct Row<'a> {
    /// The line it begins on, counted from 1.
    pub(super) line: usize,
    cells: &'a str,
    ends: &'a [usize],
}

impl<'a> Row<'a> {
    /// How many cells it has.
    pub(super) fn len(self) -> usize {
        self.ends.len()
    }

    /// A cell without the blanks around it; empty where there is none.
    pub(super) fn cell(self, index: usize) -> &'a str {
        let Some(&end) = self.ends.get(index) else {
            return "";
        };
        let start = if index == 0 { 0 } else { self.ends[index - 1] };
        let cell = &self.cells[start..end];
        match cell.as_bytes() {
            // The usual cell: visible characters at both ends.
            [b'!'..=b'~', .., b'!'..=b'~'] | [b'!'..=b'~'] => cell,
            _ => cell.trim(),
        }
    }

    /// Every cell.
    pub(super) fn cells(self) -> impl Iterator<Item = &'a str> {
        (0..self.len()).map(move |index| self.cell(index))
    }
}

impl<R: Read> RowReader<R> {
    /// Reads rows from the beginning of a file.
    pub(super) fn new(input: R) -> Self {
        Self {
            input: BufReader::with_capacity(1 << 17, input),
            parser: Reader::new(),
            breaks: 0,
            cells: vec![0; LONGEST_ROW],
            ends: vec![0; MOST_CELLS],
        }
    }

    /// The next row with anything in it; `None` at the end of the file.
    pub(super) fn next(&mut self) -> Result<Option<Row<'_>>, RowError> {
        loop {
            self.skip_breaks().map_err(RowError::Io)?;
            let line = self.breaks + 1;
            let Some((length, count)) = self.read_row(line)? else {
                return Ok(None);
            };
            let text = std::str::from_utf8(&self.cells[..length])
                .ok()
                .filter(|text| !text.contains('\0'))
                .filter(|text| {
                    self.ends[..count]
                        .iter()
                        .all(|&end| text.is_char_boundary(end))
                });
            let Some(text) = text else {
                return Err(RowError::NotText { line });
            };
            if !text.trim().is_empty() {
                // Read again from the buffer: the borrow of this round must end before another may begin.
                break Ok(Some(Row {
                    line,
                    cells: std::str::from_utf8(&self.cells[..length])
                        .map_err(|_| RowError::NotText { line })?,
                    ends: &self.ends[..count],
                }));
            }
        }
    }

    /// Passes over empty lines, and over the second half of a line break of two characters.
    fn skip_breaks(&mut self) -> io::Result<()> {
        loop {
            let buffer = self.input.fill_buf()?;
            let blank = buffer
                .iter()
                .take_while(|byte| matches!(byte, b'\n' | b'\r'))
                .count();
            self.breaks += breaks(&buffer[..blank]);
            let all = blank == buffer.len() && blank > 0;
            self.input.consume(blank);
            if !all {
                return Ok(());
            }
        }
    }

    /// Reads one row into the buffers: the bytes and cells it has.
    fn read_row(&mut self, line: usize) -> Result<Option<(usize, usize)>, RowError> {
        let (mut length, mut count) = (0, 0);
        loop {
            let buffer = self.input.fill_buf().map_err(RowError::Io)?;
            let (result, read, written, ended) =
                self.parser
                    .read_record(buffer, &mut self.cells[length..], &mut self.ends[count..]);
            self.breaks += breaks(&buffer[..read]);
            self.input.consume(read);
            length += written;
            count += ended;
            match result {
                ReadRecordResult::InputEmpty => {}
                ReadRecordResult::Record => return Ok(Some((length, count))),
                ReadRecordResult::End => return Ok(None),
                ReadRecordResult::OutputFull | ReadRecordResult::OutputEndsFull => {
                    return Err(RowError::TooLong { line });
                }
            }
        }
    }
}

fn breaks(bytes: &[u8]) -> usize {
    bytes.iter().filter(|&&byte| byte == b'\n').count()
}

#[cfg(test)]
mod tests {
    use super::*;

    fn rows(text: &[u8]) -> Vec<(usize, Vec<String>)> {
        let mut reader = RowReader::new(text);
        let mut rows = Vec::new();
        while let Some(row) = reader.next().unwrap() {
            rows.push((row.line, row.cells().map(str::to_owned).collect()));
        }
        rows
    }

    #[test]
    fn every_row_knows_the_line_it_begins_on() {
        let expected = [
            (1, vec!["a".to_owned(), "b".to_owned()]),
            (4, vec!["1".to_owned(), "two, quoted".to_owned()]),
            (5, vec!["over\ntwo lines".to_owned(), "2".to_owned()]),
            (8, vec!["3".to_owned(), String::new()]),
        ];
        let unix = "\u{feff}a,b\n\n\n 1 ,\"two, quoted\"\n\"over\ntwo lines\",2\n,\n3,\n\n";
        assert_eq!(rows(unix.as_bytes()), expected);
        let windows = unix.replace('\n', "\r\n");
        let read = rows(windows.as_bytes());
        assert_eq!(
            read.iter().map(|row| row.0).collect::<Vec<_>>(),
            [1, 4, 5, 8]
        );
        assert_eq!(read[3], expected[3]);
    }

    #[test]
    fn a_line_without_end_is_refused_in_bounded_memory() {
        let endless = b"a,b\n1,".chain(io::repeat(b'9').take(200 << 20));
        let mut reader = RowReader::new(endless);
        assert!(reader.next().unwrap().is_some());
        assert!(matches!(reader.next(), Err(RowError::TooLong { line: 2 })));
        assert!(reader.cells.capacity() <= LONGEST_ROW);
        let commas = vec![b','; 1000];
        assert!(matches!(
            RowReader::new(commas.as_slice()).next(),
            Err(RowError::TooLong { line: 1 })
        ));
    }

    #[test]
    fn bytes_that_are_no_text_are_refused() {
        for bytes in [
            &b"a,b\n\xff\xfe,2\n"[..],
            b"a,b\n1,\x00\n",
            b"a,b\n\xc3,\xa4\n",
        ] {
            let mut reader = RowReader::new(bytes);
            assert!(reader.next().unwrap().is_some());
            assert!(
                matches!(reader.next(), Err(RowError::NotText { line: 2 })),
                "{bytes:?}"
            );
        }
    }
}
