//! A path as it is said to a person.

use std::borrow::Cow;
use std::path::Path;

/// The path with a sign in the place of line ends and whatever else must not reach
/// a terminal or a page.
pub fn shown(path: &Path) -> String {
    let text = path.to_string_lossy();
    let text = if cfg!(windows) { plain(text) } else { text };
    crate::domain::measure::shown(&text)
}

/// A path of Windows without the mark that its system puts before one that is
/// to be taken word for word.
fn plain(text: Cow<'_, str>) -> Cow<'_, str> {
    match text.strip_prefix(r"\\?\") {
        None => text,
        Some(marked) => match marked.strip_prefix(r"UNC\") {
            Some(server) => Cow::Owned(format!(r"\\{server}")),
            None => Cow::Owned(marked.to_owned()),
        },
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_drive_and_a_server_are_said_as_they_are_typed() {
        let said = |text| plain(Cow::Borrowed(text)).into_owned();
        assert_eq!(said(r"\\?\C:\jobs\roof.ron"), r"C:\jobs\roof.ron");
        assert_eq!(said(r"\\?\UNC\hut\jobs\roof.ron"), r"\\hut\jobs\roof.ron");
        assert_eq!(said(r"D:\roof.ron"), r"D:\roof.ron");
        assert_eq!(said("/jobs/roof.ron"), "/jobs/roof.ron");
    }

    #[test]
    fn line_ends_are_not_passed_on() {
        assert!(!shown(Path::new("a\nb")).contains('\n'));
    }
}
