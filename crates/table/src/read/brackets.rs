//! Which bracket was left open, when a text is no JSON: the parser only says where it stumbled, often far behind.

/// The line, from 1, of a bracket that seems not to be closed, looking at the whole text.
///
/// A hand-written text is indented: a closing bracket that begins its line stands below the line of its opening one. The
/// first that does not has closed for another, so the bracket that it really met was left open. At the end of the text,
/// the innermost open bracket is the one.
pub fn left_open(text: &str) -> Option<usize> {
    let mut open: Vec<Open> = Vec::new();
    let mut place = Open { bracket: b' ', line: 1, indent: 0 };
    let (mut begins_line, mut in_text, mut escaped) = (true, false, false);
    for byte in text.as_bytes() {
        match byte {
            b'\n' => {
                place = Open { bracket: b' ', line: place.line + 1, indent: 0 };
                // No text goes over the end of a line: a quote is missing, which is another matter.
                (begins_line, in_text, escaped) = (true, false, false);
                continue;
            }
            _ if in_text => {
                in_text = escaped || *byte != b'"';
                escaped = !escaped && *byte == b'\\';
            }
            b'"' => in_text = true,
            b' ' | b'\t' if begins_line => {
                place.indent += 1;
                continue;
            }
            b'{' | b'[' => open.push(Open { bracket: *byte, ..place }),
            b'}' | b']' => {
                let met = open.pop()?;
                let fits = met.bracket == if *byte == b'}' { b'{' } else { b'[' };
                let below = !begins_line || met.line == place.line || met.indent == place.indent;
                if !fits || !below {
                    return Some(met.line);
                }
            }
            _ => {}
        }
        begins_line = false;
    }
    open.last().map(|open| open.line)
}

#[derive(Clone, Copy)]
struct Open {
    bracket: u8,
    line: usize,
    indent: usize,
}

#[cfg(test)]
mod tests {
    use super::left_open;

    #[test]
    fn the_bracket_that_was_left_open_is_found_by_the_indent() {
        let text = "{\n  \"a\": [\n    {\n      \"engine\": {\n        \"power\": 1,\n      \"pumps\": []\n    },\n    {}\n  ]\n}\n";
        assert_eq!(left_open(text), Some(4));
        let list = "{\n  \"a\": [\n    1,\n  \"b\": 2\n}\n";
        assert_eq!(left_open(list), Some(2));
        let sound = "{\n  \"a\": [{\"b\": \"}]\\\"\"}],\n  \"c\": {\n  }\n}\n";
        assert_eq!(left_open(sound), None);
        assert_eq!(left_open("{\"a\": [1, 2"), Some(1));
        assert_eq!(left_open("]"), None);
    }
}
