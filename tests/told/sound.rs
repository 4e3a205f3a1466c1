//! What holds of every text that a person reads.

/// On screen a carrier is a machine and a head an attachment.
#[track_caller]
pub fn sound(text: &str) {
    assert!(!text.trim().is_empty() && text.trim() == text, "“{text}”");
    for word in text.split(|c: char| !c.is_alphabetic()) {
        assert!(!["carrier", "carriers", "head", "heads", "None", "Some"].contains(&word), "“{text}”");
    }
    assert!(!text.contains("  ") && !text.contains("..") && !text.contains(" ."), "“{text}”");
}
