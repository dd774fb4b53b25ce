//! Line ends made alike, so that the line of a row can be counted.

use std::io::{self, Read};

/// Reads CRLF and CR as LF, and gives the last line its end if it lacks one.
pub(super) struct Lines<R> {
    source: R,
    buffer: Box<[u8]>,
    from: usize,
    to: usize,
    last: u8,
    ended: bool,
}

impl<R: Read> Lines<R> {
    pub(super) fn new(source: R) -> Lines<R> {
        Lines {
            source,
            buffer: vec![0; 64 * 1024].into_boxed_slice(),
            from: 0,
            to: 0,
            last: b'\n',
            ended: false,
        }
    }
}

impl<R: Read> Read for Lines<R> {
    fn read(&mut self, out: &mut [u8]) -> io::Result<usize> {
        let mut written = 0;
        while written < out.len() {
            if self.from == self.to {
                if written > 0 || self.ended {
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
