//! The lines that put the app into another page.

/// The lines to paste: one script and the element with its attributes. Values are escaped for HTML; empty ones are left out.
///
/// ```
/// use wording::snippet;
/// assert_eq!(
///     snippet("https://tools.example/app/", &[("units", "us"), ("carrier", "")], "Ask us for \"what fits\"."),
///     "<script type=\"module\" src=\"https://tools.example/app/pairwright-fit.js\"></script>\n\
///      <pairwright-fit units=\"us\">Ask us for &quot;what fits&quot;.</pairwright-fit>"
/// );
/// ```
pub fn snippet(folder: &str, attributes: &[(&str, &str)], meanwhile: &str) -> String {
    let set = attributes.iter().map(|(name, value)| (name, value.trim())).filter(|(_, value)| !value.is_empty());
    let set = set.fold(String::new(), |set, (name, value)| format!("{set} {name}=\"{}\"", escaped(value)));
    format!(
        "<script type=\"module\" src=\"{}pairwright-fit.js\"></script>\n<pairwright-fit{set}>{}</pairwright-fit>",
        escaped(folder),
        escaped(meanwhile)
    )
}

/// A text that means itself in HTML, within an attribute and outside.
fn escaped(text: &str) -> String {
    text.replace('&', "&amp;").replace('<', "&lt;").replace('>', "&gt;").replace('"', "&quot;")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_a_person_types_cannot_leave_its_attribute() {
        let lines = snippet("./", &[("table", "\"><script>alert(1)</script>&")], "<b>");
        assert!(lines.contains("table=\"&quot;&gt;&lt;script&gt;alert(1)&lt;/script&gt;&amp;\""), "{lines}");
        assert!(lines.ends_with(">&lt;b&gt;</pairwright-fit>"), "{lines}");
    }
}
