//! Marks by which texts are told apart.

/// A mark by which two texts are told apart: FNV-1a, 64 bit, in hexadecimal. Against mistakes, not against malice.
///
/// ```
/// assert_eq!(record::mark("a"), "af63dc4c8601ec8c"); // the published test vector of FNV-1a
/// ```
pub fn mark(text: &str) -> String {
    format!("{:016x}", fnv_1a(text))
}

/// The hash behind [`mark`].
pub fn fnv_1a(text: &str) -> u64 {
    text.bytes().fold(0xcbf2_9ce4_8422_2325, |hash, byte| (hash ^ u64::from(byte)).wrapping_mul(0x0000_0100_0000_01b3))
}
