//! Why a file was not saved or made: each reason told from the others.

use crate::bad_fs::BadFs;
use bendmark::storage::keeping::{SaveError, SaveStep, create};
use std::fs;
use tempfile::TempDir;

/// The system's limit on a file is told from our own on what is read.
#[test]
fn a_file_too_large_to_write_and_one_too_large_to_read_are_told_apart() {
    let at = |step| SaveError::Failed {
        path: "/jobs/a.ron".into(),
        step,
        source: std::io::ErrorKind::FileTooLarge.into(),
    };
    for step in [SaveStep::Write, SaveStep::Sync] {
        assert_eq!(
            at(step).brief(),
            "the system allows no file of this size here, choose another path"
        );
    }
    assert_eq!(
        at(SaveStep::Keep).brief(),
        "the file is too large, expected at most 128 MiB"
    );
}

/// A new file that cannot be made says why, and one whose name was taken
/// meanwhile says that.
#[test]
fn a_new_file_that_cannot_be_made_is_told_from_one_that_is_there() {
    let folder = TempDir::new().unwrap();
    let mut full = 0;
    for fails_at in 3..20 {
        let path = folder.path().join(format!("{fails_at}.ron"));
        match create(&BadFs::failing_at(fails_at), &path, b"job") {
            Err(error) => {
                assert!(
                    error.brief().contains("the disk is full"),
                    "{fails_at}: {error}"
                );
                full += 1;
            }
            Ok(()) => assert_eq!(fs::read(&path).unwrap(), b"job"),
        }
    }
    assert!(full >= 4, "{full}");
    // The look whether it is there fails, so only the link finds it.
    let path = folder.path().join("there.ron");
    fs::write(&path, b"another").unwrap();
    let error = create(&BadFs::failing_at(1), &path, b"job").unwrap_err();
    assert!(matches!(error, SaveError::Taken { .. }), "{error}");
    assert_eq!(fs::read(&path).unwrap(), b"another");
}
