//! Each operation of a save fails with each error there is: never a false
//! "saved", the true reason each time, and the job before or after it in the
//! file.

use crate::bad_fs::BadFs;
use bendmark::domain::{cutting::Job, measure::Name, settings::Settings};
use bendmark::storage::files::{Confirmed, RealFs, words};
use bendmark::storage::job_file::encode;
use bendmark::storage::keeping::{
    Backup, Last, Rescued, Save, SaveError, load::load, rescue, save,
};
use std::fs;
use std::io::{Error, ErrorKind};
use std::path::Path;

/// By kind, and by number where the system has no kind for it.
const ERRORS: [(ErrorKind, Option<i32>); 9] = [
    (ErrorKind::StorageFull, None),
    (ErrorKind::QuotaExceeded, None),
    (ErrorKind::PermissionDenied, None),
    (ErrorKind::ReadOnlyFilesystem, None),
    (ErrorKind::NotFound, None),
    (ErrorKind::InvalidInput, None),
    (ErrorKind::Unsupported, None),
    (ErrorKind::Other, Some(5)),
    (ErrorKind::Other, Some(25)),
];

fn job(name: &str) -> Job {
    Job::new(Name::or(name, "?"), Settings::default())
}

fn bytes(name: &str) -> Vec<u8> {
    encode(&job(name)).unwrap()
}

/// What is said of that error.
fn said((kind, number): (ErrorKind, Option<i32>)) -> String {
    words(&number.map_or_else(|| kind.into(), Error::from_raw_os_error))
}

fn disk(fails_at: usize, (error, number): (ErrorKind, Option<i32>)) -> BadFs {
    BadFs {
        error,
        number,
        ..BadFs::failing_at(fails_at)
    }
}

/// Whether a disk says by it that it knows no syncing of folders.
fn is_unknown(error: (ErrorKind, Option<i32>)) -> bool {
    matches!(error.0, ErrorKind::InvalidInput | ErrorKind::Unsupported)
        || cfg!(unix) && error.1 == Some(25)
}

#[test]
fn whichever_operation_of_a_save_fails_with_whichever_error_it_is_told_truly() {
    let (mut failed, mut unconfirmed) = (0, 0);
    for error in ERRORS {
        for fails_at in 1.. {
            let folder = tempfile::tempdir().unwrap();
            let path = folder.path().join("roof.ron");
            save(&RealFs, &path, &bytes("zero")).unwrap();
            save(&RealFs, &path, &bytes("one")).unwrap();
            let disk = disk(fails_at, error);
            let save = Save {
                path: &path,
                bytes: &bytes("two"),
                last: Last::Any,
                keeps_version: true,
                now: None,
                backup: Backup::Own,
            };
            let done = save.run(&disk);
            let now = load(&RealFs, &path).unwrap().job;
            let is_hit = disk.operations.get() >= fails_at;
            match done {
                Ok(on_disk) => {
                    assert_eq!(now, job("two"), "{error:?} {fails_at}");
                    // Only a disk that knows no such thing is taken at its word.
                    let is_no = on_disk.confirmed == Confirmed::No;
                    assert!(!is_no || is_unknown(error) && disk.at_folder.get());
                    unconfirmed += usize::from(is_no);
                }
                Err(SaveError::Failed { source, .. }) => {
                    assert!(
                        now == job("one") || now == job("two"),
                        "{error:?} {fails_at}"
                    );
                    assert_eq!(words(&source), said(error));
                    assert!(!(is_unknown(error) && disk.at_folder.get()));
                    failed += 1;
                }
                // A file that is gone in the midst of it was there before.
                Err(other) => panic!("{error:?} {fails_at}: {other}"),
            }
            if !is_hit {
                break;
            }
        }
    }
    println!("{failed} saves failed and were told so, {unconfirmed} are on disks without a word");
    // One of them says so by a number that only Unix has.
    assert!(failed > 40 && unconfirmed == 2 + usize::from(cfg!(unix)));
}

#[test]
fn whichever_operation_of_a_rescue_fails_the_older_copy_or_the_newer_is_there() {
    for error in ERRORS {
        for fails_at in 1.. {
            let folder = tempfile::tempdir().unwrap();
            let rescued = folder.path().join("data/rescued");
            let own = (Path::new("roof.ron"), 5);
            let put = |name: &str, older: Option<&Rescued>| {
                rescue(&RealFs, &rescued, own, &bytes(name), older).unwrap()
            };
            let older = put("one", None);
            let disk = disk(fails_at, error);
            let done = rescue(&disk, &rescued, own, &bytes("two"), Some(&older));
            let files = fs::read_dir(&rescued).unwrap();
            let there: Vec<Job> = files
                .filter_map(|file| load(&RealFs, &file.unwrap().path()).ok())
                .map(|loaded| loaded.job)
                .collect();
            match done {
                Ok(newer) => {
                    assert_eq!(load(&RealFs, &newer.path).unwrap().job, job("two"));
                }
                Err(_) => assert!(there.contains(&job("one")), "{error:?} {fails_at}"),
            }
            if disk.operations.get() < fails_at {
                assert_eq!(there, [job("two")]);
                break;
            }
        }
    }
}
