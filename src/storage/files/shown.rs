//! A path as it is said to a person.

use std::path::Path;

/// The path with a sign in the place of line ends and whatever else must not reach
/// a terminal or a page.
pub fn shown(path: &Path) -> String {
    crate::domain::measure::shown(&path.to_string_lossy())
}
