//! The names that are kept for what lies beside jobs: copies, locks, files set
//! aside. Nothing else is written under them.

use super::{
    copies::backup_path,
    versions::{Version, versions},
};
use crate::storage::files::{Fs, is_held};
use std::path::Path;

/// The ends without a number.
const PLAIN: [&str; 2] = [".bak", ".lock"];

/// The ends that a number follows.
const NUMBERED: [&str; 6] = [
    ".new-",
    ".damaged-",
    ".other-",
    ".on-screen-",
    // As version 0.1.0 called that.
    ".ours-",
    ".version-",
];

/// Whether a file of the name of `path` is, or could become, one of those beside
/// a job, whichever job that is.
pub fn is_beside_a_job(path: &Path) -> bool {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let name = name.to_lowercase();
    let stem = name.trim_end_matches(|c: char| c.is_ascii_digit());
    let numbered = stem.len() < name.len() && NUMBERED.iter().any(|end| stem.ends_with(end));
    let folder = path.parent().and_then(Path::file_name);
    let in_copies = folder.is_some_and(|folder| folder.eq_ignore_ascii_case("copies"));
    let is_version = in_copies && Version::at(path).is_some();
    let plain = name == "copies" || PLAIN.iter().any(|end| name.ends_with(end));
    plain || numbered || is_version
}

/// Whether `path` is the place of a job whose own file is not there just now:
/// its copies are, or a program has it open.
pub fn is_place_of_a_job<F: Fs>(fs: &F, path: &Path) -> bool {
    fs.exists(&backup_path(path)).unwrap_or(true)
        || versions(fs, path).is_ok_and(|versions| !versions.is_empty())
        || is_held(path)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_names_of_what_lies_beside_jobs_are_known() {
        for name in [
            "roof.ron.bak",
            "a/Roof.RON.Lock",
            "roof.ron.new-1",
            "roof.ron.damaged-12",
            "roof.ron.other-1",
            "roof.ron.on-screen-3",
            "roof.ron.ours-3",
            "roof.ron.version-1",
            "a/copies",
            "copies/roof.ron.2026-09-21",
            "copies/roof.ron.change-12",
            "copies/roof.ron.change-12-2.2026-11-26.080512",
            "copies/roof.ron.2026-09-21.new-1",
        ] {
            assert!(is_beside_a_job(Path::new(name)), "{name}");
        }
        for name in [
            "roof.html",
            "roof.ron.bak.txt",
            "roof 2026-09-21.txt",
            "roof.2026-09-21.txt",
            "copies/roof.txt",
            "new-1",
            "roof.new-",
        ] {
            assert!(!is_beside_a_job(Path::new(name)), "{name}");
        }
    }
}
