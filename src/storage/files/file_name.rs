//! A job's file name, made from its name.
//!
//! Fit for every system a job may be carried to on a stick; it does not look
//! whether such a file is there.

use crate::domain::measure::Name;

/// The end of every job file's name.
pub(super) const EXTENSION: &str = ".ron";

/// The most bytes before the extension: systems take 255 for a name, and copies
/// have more behind the extension.
const MOST_BYTES: usize = 120;

/// Names that mean a device to Windows, whatever their extension.
const DEVICES: [&str; 6] = ["con", "prn", "aux", "nul", "conin", "conout"];

/// The file name for a job called `name`: `Cedar Lane.ron`.
///
/// Letters, digits, blanks, `_` and `-` stay; anything else becomes `_`.
pub fn file_name(name: &Name) -> String {
    let mut stem = String::new();
    for letter in name.as_str().chars() {
        let kept = if letter.is_alphanumeric() || matches!(letter, ' ' | '_' | '-') {
            letter
        } else {
            '_'
        };
        if stem.len() + kept.len_utf8() > MOST_BYTES {
            break;
        }
        stem.push(kept);
    }
    let stem = stem.trim_matches(' ');
    let stem = if stem.contains(char::is_alphanumeric) {
        stem
    } else {
        "job"
    };
    let end = if is_device(stem) { "_" } else { "" };
    format!("{stem}{end}{EXTENSION}")
}

fn is_device(stem: &str) -> bool {
    let stem = stem.to_lowercase();
    let port = stem
        .strip_prefix("com")
        .or_else(|| stem.strip_prefix("lpt"))
        .is_some_and(|number| {
            let mut digits = number.chars();
            // Superscript digits count as well, there.
            digits.next().is_some_and(char::is_numeric) && digits.next().is_none()
        });
    port || DEVICES.contains(&stem.as_str())
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn check(name: &str, expected: &str) {
        assert_eq!(file_name(&Name::or(name, "?")), expected);
    }

    #[test]
    fn a_name_keeps_what_every_system_takes() {
        check("Cedar Lane 12", "Cedar Lane 12.ron");
        check("North/South: east_wing-2", "North_South_ east_wing-2.ron");
        check("Grüner Weg", "Grüner Weg.ron");
        check("../../etc/passwd", "______etc_passwd.ron");
        check(".hidden", "_hidden.ron");
        check("???", "job.ron");
        check("nul", "nul_.ron");
        check("COM1", "COM1_.ron");
        check("COM10", "COM10.ron");
        check("Consul", "Consul.ron");
    }

    proptest! {
        #[test]
        fn prop_no_name_makes_a_path_or_a_long_file_name(text in "\\PC{0,80}") {
            let file = file_name(&Name::or(&text, "job"));
            prop_assert!(!file.contains(['/', '\\', ':', '\0']) && !file.starts_with('.'));
            prop_assert!(file.len() > EXTENSION.len() && file.len() <= 130);
        }
    }
}
