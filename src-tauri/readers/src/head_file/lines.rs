//! Line ends made alike, so that the line of a row can be counted.

use std::io::{self, Read};

/// Bytes that one row may take before the rest of the file is given up: far more
/// than any row that is used, so that a quote left open fills no memory.
const LONGEST: usize = 1024 * 1024;

/// Reads CRLF and CR as LF, and gives the last line its end if it lacks one.
pub(crate) struct Lines<R> {
    source: R,
    buffer: Box<[u8]>,
    from: usize,
    to: usize,
    last: u8,
    ended: bool,
    /// Bytes that may still be read for the row at hand.
    left: usize,
}

/// The next row of a file, read within bounds.
pub(crate) fn next_row<R: Read>(
    rows: &mut csv::Reader<Lines<R>>,
    record: &mut csv::ByteRecord,
) -> csv::Result<bool> {
    rows.get_mut().left = LONGEST;
    rows.read_byte_record(record)
}

/// Line on which the record just read begins. The reader stands on the line after
/// it; blank lines before it make its own count useless.
pub(crate) fn first_line<R: Read>(rows: &csv::Reader<Lines<R>>, record: &[u8]) -> u64 {
    let breaks = record.iter().filter(|byte| **byte == b'\n').count() as u64;
    rows.position().line().saturating_sub(1 + breaks)
}

impl<R: Read> Lines<R> {
    pub(crate) fn new(source: R) -> Lines<R> {
        Lines {
            source,
            buffer: vec![0; 64 * 1024].into_boxed_slice(),
            from: 0,
            to: 0,
            last: b'\n',
            ended: false,
            left: LONGEST,
        }
    }
}

impl<R: Read> Read for Lines<R> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        let mut written = 0;
        while written < out.len() && !self.ended {
            if self.from == self.to {
                if written > 0 {
                    break;
                }
                self.to = match self.source.read(&mut self.buffer) {
                    Ok(count) => count,
                    Err(error) if error.kind() == io::ErrorKind::Interrupted => continue,
                    Err(error) => return Err(error),
                };
                self.from = 0;
                if self.to == 0 {
                    self.ended = true;
                    if self.last != b'\n' && self.last != b'\r' {
                        out[written] = b'\n';
                        written += 1;
                    }
                    break;
                }
            }
            if self.left == 0 {
                self.ended = true;
                break;
            }
            self.left -= 1;
            let byte = self.buffer[self.from];
            self.from += 1;
            let second_half = byte == b'\n' && self.last == b'\r';
            self.last = byte;
            if !second_half {
                out[written] = if byte == b'\r' { b'\n' } else { byte };
                written += 1;
            }
        }
        Ok(written)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_quote_left_open_in_an_endless_file_fills_no_memory() {
        let source = b"a,b\n1,\"2".chain(io::repeat(b'x'));
        let mut rows = csv::ReaderBuilder::new()
            .has_headers(false)
            .flexible(true)
            .from_reader(Lines::new(source));
        let mut record = csv::ByteRecord::new();
        assert!(next_row(&mut rows, &mut record).unwrap());
        assert!(next_row(&mut rows, &mut record).unwrap());
        assert!(record.as_slice().len() < 2 * LONGEST);
        assert!(!next_row(&mut rows, &mut record).unwrap());
    }

    #[test]
    fn every_line_end_becomes_one_line_feed() {
        let read = |text: &str| {
            let mut out = String::new();
            Lines::new(text.as_bytes())
                .read_to_string(&mut out)
                .unwrap();
            out
        };
        assert_eq!(read("a\r\nb\rc\nd"), "a\nb\nc\nd\n");
        assert_eq!(read("a\r\n\r\nb\r\n"), "a\n\nb\n");
        assert_eq!(read(""), "");
        // However the pieces fall.
        struct ByOne<'a>(&'a [u8]);
        impl Read for ByOne<'_> {
            fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
                let count = out.len().min(1);
                self.0.read(&mut out[..count])
            }
        }
        let mut out = String::new();
        Lines::new(ByOne(b"a\r\nb"))
            .read_to_string(&mut out)
            .unwrap();
        assert_eq!(out, "a\nb\n");
    }
}
