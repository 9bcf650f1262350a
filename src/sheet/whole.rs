//! The whole of a page that is written part by part, where it is small.

/// The whole of what `write` writes.
pub(super) fn whole(write: impl FnOnce(&mut String) -> std::fmt::Result) -> String {
    let mut text = String::new();
    // Writing to a String cannot fail.
    let _ = write(&mut text);
    text
}
