//! Bytes as text: by the mark at their beginning, else by what they can be.

use crate::FileFault;
use encoding_rs::{UTF_8, UTF_16BE, UTF_16LE, WINDOWS_1252};

/// How the signs of a text are written.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Encoding {
    /// UTF-8, with or without a mark.
    Utf8,
    /// UTF-16, the low byte first.
    Utf16Le,
    /// UTF-16, the high byte first.
    Utf16Be,
    /// Windows-1252, which holds Latin-1.
    Windows1252,
}

/// How a text is written: by its mark; without one UTF-16 has a zero in every other byte, UTF-8 is hardly anything else by chance, and
/// what is neither is of the old one-byte kind.
fn detect(bytes: &[u8]) -> Encoding {
    match bytes {
        [0xff, 0xfe, ..] => return Encoding::Utf16Le,
        [0xfe, 0xff, ..] => return Encoding::Utf16Be,
        _ => {}
    }
    let begin = &bytes[..bytes.len().min(4096)];
    let zeros = |odd: usize| begin.iter().skip(odd).step_by(2).filter(|byte| **byte == 0).count();
    let (even, odd, most) = (zeros(0), zeros(1), begin.len() / 2 / 2);
    if odd > most && even == 0 {
        Encoding::Utf16Le
    } else if even > most && odd == 0 {
        Encoding::Utf16Be
    } else if std::str::from_utf8(bytes).is_ok() {
        Encoding::Utf8
    } else {
        Encoding::Windows1252
    }
}

/// The text, without its mark.
pub fn decode(bytes: &[u8]) -> Result<String, FileFault> {
    let (name, encoding) = match detect(bytes) {
        Encoding::Utf8 => ("UTF-8", UTF_8),
        Encoding::Utf16Le => ("UTF-16", UTF_16LE),
        Encoding::Utf16Be => ("UTF-16", UTF_16BE),
        Encoding::Windows1252 => ("Windows-1252", WINDOWS_1252),
    };
    let line_of = |text: &str, at: usize| 1 + text[..at].matches('\n').count();
    let (text, broken) = if let Some(marked) = bytes.strip_prefix(b"\xef\xbb\xbf") {
        // A mark of UTF-8 before bytes that are none is a lie that is told.
        match std::str::from_utf8(marked) {
            Ok(text) => (text.to_owned(), false),
            Err(error) => {
                let line = marked[..error.valid_up_to()].split(|byte| *byte == b'\n').count();
                return Err(FileFault::BrokenEncoding { encoding: "UTF-8", line });
            }
        }
    } else {
        let (text, broken) = encoding.decode_with_bom_removal(bytes);
        (text.into_owned(), broken)
    };
    if broken {
        let at = text.find('\u{fffd}').unwrap_or(0);
        return Err(FileFault::BrokenEncoding { encoding: name, line: line_of(&text, at) });
    }
    // Pictures and programs are full of what no text holds. Windows-1252 makes a sign of each byte, of which these five are none.
    let foreign = |c: char| (c < ' ' && !"\t\n\r\u{c}".contains(c)) || ('\u{80}'..'\u{a0}').contains(&c);
    match text.find(foreign) {
        Some(at) => Err(FileFault::NotText { line: line_of(&text, at) }),
        None => Ok(text),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const TEXT: &str = "Model;Flow\nSåg 30°;62 L/min ±5 %\n";

    fn utf_16(bytes: fn(u16) -> [u8; 2]) -> Vec<u8> {
        TEXT.encode_utf16().flat_map(bytes).collect()
    }

    #[test]
    fn one_text_is_read_in_each_encoding_with_and_without_a_mark() {
        let latin: Vec<u8> = TEXT.chars().map(|c| u8::try_from(u32::from(c)).expect("Latin-1")).collect();
        let marked = |mark: &[u8], bytes: &[u8]| [mark, bytes].concat();
        for bytes in [
            TEXT.as_bytes().to_vec(),
            marked(b"\xef\xbb\xbf", TEXT.as_bytes()),
            utf_16(u16::to_le_bytes),
            utf_16(u16::to_be_bytes),
            marked(&[0xff, 0xfe], &utf_16(u16::to_le_bytes)),
            marked(&[0xfe, 0xff], &utf_16(u16::to_be_bytes)),
            latin,
        ] {
            assert_eq!(decode(&bytes).as_deref(), Ok(TEXT), "{bytes:?}");
        }
        assert_eq!(decode(b"Price;\x80 12\n").as_deref(), Ok("Price;€ 12\n"), "Windows-1252");
    }

    #[test]
    fn what_is_no_text_is_told_with_its_line() {
        assert_eq!(decode(b"\xef\xbb\xbfa\nb\xff"), Err(FileFault::BrokenEncoding { encoding: "UTF-8", line: 2 }));
        assert_eq!(decode(b"a;b\n\x01\x02"), Err(FileFault::NotText { line: 2 }));
        assert_eq!(decode(b"a\xff\n\x81"), Err(FileFault::NotText { line: 2 }), "no sign of Windows-1252");
        let cut = [&[0xff, 0xfe][..], &utf_16(u16::to_le_bytes)[..9]].concat();
        assert_eq!(decode(&cut), Err(FileFault::BrokenEncoding { encoding: "UTF-16", line: 1 }));
    }
}
