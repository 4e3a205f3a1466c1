//! Texts within a link, by letters, digits and `-_.` alone. A space is `_`; a `-` begins what stands for something else.
//! A text that comes out shorter so is written in base64url.

use table::is_unseen;

/// What stands for something else behind a `-`: the ends that figures often have, and signs.
const SHORT: [(char, &str); 14] = [
    ('m', " (measured)"),
    ('f', " L/min"),
    ('h', "-"),
    ('s', "/"),
    ('o', "("),
    ('c', ")"),
    ('p', "±"),
    ('r', "%"),
    ('k', ","),
    ('d', ":"),
    ('n', "+"),
    ('q', "\""),
    ('t', "½"),
    ('v', "_"),
];
/// Behind a `-`: the number of any other character, in hexadecimal, up to a point.
const NUMBER: char = 'u';
/// At the beginning: the rest is base64url.
const BASE64: &str = "-b";
const DIGITS: &[u8; 64] = b"ABCDEFGHIJKLMNOPQRSTUVWXYZabcdefghijklmnopqrstuvwxyz0123456789-_";

/// A text as it stands in a link.
pub(super) fn written(text: &str) -> String {
    let mut out = String::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        if let Some((letter, long)) = SHORT.iter().find(|(_, long)| rest.starts_with(long)) {
            out.extend(['-', *letter]);
            rest = &rest[long.len()..];
            continue;
        }
        match c {
            ' ' => out.push('_'),
            c if c.is_ascii_alphanumeric() || c == '.' => out.push(c),
            c => out.extend(['-', NUMBER].into_iter().chain(format!("{:x}.", u32::from(c)).chars())),
        }
        rest = &rest[c.len_utf8()..];
    }
    let shorter = BASE64.len() + (text.len() * 4).div_ceil(3) < out.len();
    if shorter { format!("{BASE64}{}", to_base64(text.as_bytes())) } else { out }
}

/// Reads what [`written`] wrote; none when it did not.
pub(super) fn read(written: &str) -> Option<String> {
    if let Some(digits) = written.strip_prefix(BASE64) {
        return String::from_utf8(from_base64(digits)?).ok();
    }
    let mut out = String::new();
    let mut signs = written.chars();
    while let Some(c) = signs.next() {
        match c {
            '_' => out.push(' '),
            '-' => match signs.next()? {
                NUMBER => {
                    let (digits, rest) = signs.as_str().split_once('.')?;
                    out.push(char::from_u32(u32::from_str_radix(digits, 16).ok()?)?);
                    signs = rest.chars();
                }
                letter => out.push_str(SHORT.iter().find(|(short, _)| *short == letter)?.1),
            },
            c if c.is_ascii_alphanumeric() || c == '.' => out.push(c),
            _ => return None,
        }
    }
    Some(out)
}

/// A text without characters that show nothing or turn the direction of others, and without outer spaces, cut to a length in
/// characters.
pub(super) fn clean(text: &str, longest: usize) -> String {
    let kept: String = text.chars().filter(|c| !is_unseen(*c)).collect();
    let cut: String = kept.trim().chars().take(longest).collect();
    cut.trim_end().to_owned()
}

/// A link without the escapes (`%7E`) that messengers put into it, also those of escapes; none when it holds what no link
/// holds.
pub(crate) fn unescaped(path: &str) -> Option<String> {
    let mut path = path.to_owned();
    while path.contains('%') {
        let mut pieces = path.split('%');
        let mut out = pieces.next()?.to_owned();
        for piece in pieces {
            let (digits, rest) = piece.split_at_checked(2)?;
            let digits = Some(digits).filter(|digits| digits.bytes().all(|b| b.is_ascii_hexdigit()))?;
            out.push(char::from(u8::from_str_radix(digits, 16).ok()?));
            out.push_str(rest);
        }
        path = out;
    }
    path.bytes().all(|b| b.is_ascii_alphanumeric() || b"-_.~/".contains(&b)).then_some(path)
}

fn to_base64(bytes: &[u8]) -> String {
    let mut out = String::new();
    for three in bytes.chunks(3) {
        let bits = three.iter().fold(0_u32, |bits, byte| bits << 8 | u32::from(*byte)) << (8 * (3 - three.len()));
        for place in 0..=three.len() {
            out.push(char::from(DIGITS[(bits >> (18 - 6 * place) & 63) as usize]));
        }
    }
    out
}

fn from_base64(digits: &str) -> Option<Vec<u8>> {
    let mut out = Vec::new();
    for four in digits.as_bytes().chunks(4) {
        let mut bits = 0_u32;
        for digit in four {
            bits = bits << 6 | u32::try_from(DIGITS.iter().position(|known| known == digit)?).ok()?;
        }
        bits <<= 6 * (4 - four.len());
        out.extend(&bits.to_be_bytes()[1..four.len()]);
    }
    Some(out)
}
