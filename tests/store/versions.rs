//! Which states of a job are kept beside it, and which of them is the best.

use crate::disk::{folder, job, save_job};
use bendmark::domain::bench::Utc;
use bendmark::domain::cutting::Job;
use bendmark::domain::measure::{Hand, Name};
use bendmark::domain::roof::EdgeKind;
use bendmark::storage::files::RealFs;
use bendmark::storage::job_file::{Seal, encode};
use bendmark::storage::keeping::{
    Backup, Found, Held, Last, LoadError, OpenFile, Place, Save, Source, backup_path, found, later,
    load::load, versions,
};
use std::fs;
use std::path::Path;

/// A job with so many changes in it.
fn counted(name: &str, changes: u64) -> Job {
    let mut job = job(name);
    job.set_changes(changes);
    job
}

/// A save that keeps what was there before as a version, `day` days after 1970.
fn save_and_keep(path: &Path, job: &Job, day: i64) {
    let bytes = encode(job).unwrap();
    let save = Save {
        path,
        bytes: &bytes,
        last: Last::Any,
        keeps_version: true,
        now: Some(Utc(day * 86_400)),
        backup: Backup::Unknown,
    };
    assert_eq!(save.run(&RealFs).unwrap().no_copy, None);
}

/// What each state of the job is, and how many changes are in it.
fn states(path: &Path) -> Vec<(Place, Option<u64>)> {
    let all = found(&RealFs, path, None, None).into_iter();
    let holds = |found: Found| (found.place, found.holds.ok().map(|holds| holds.changes));
    all.map(holds).collect()
}

#[test]
fn every_state_of_a_job_is_found_the_one_with_most_changes_first() {
    let (folder, path) = folder();
    assert_eq!(states(&path), []);
    for changes in 1..=4 {
        save_and_keep(&path, &counted("x", changes), 20_000);
    }
    let beside = |end: &str| folder.path().join(format!("Cedar Lane.ron{end}"));
    fs::write(beside(".on-screen-1"), encode(&counted("ours", 7)).unwrap()).unwrap();
    fs::write(beside(".other-2"), encode(&counted("other", 2)).unwrap()).unwrap();
    fs::write(beside(".damaged-1"), "(").unwrap();
    fs::write(beside(".new-1"), encode(&counted("half saved", 5)).unwrap()).unwrap();
    assert_eq!(
        states(&path),
        [
            (Place::OnScreen, Some(7)),
            (Place::HalfSaved, Some(5)),
            (Place::File, Some(4)),
            (Place::Backup, Some(3)),
            (Place::Version, Some(3)),
            (Place::Version, Some(2)),
            (Place::Other, Some(2)),
            (Place::Version, Some(1)),
            (Place::Damaged, None),
        ]
    );
}

#[test]
fn the_best_copy_is_the_whole_one_with_most_changes() {
    let (_folder, path) = folder();
    for (changes, name) in (1..).zip(["one", "two", "three", "four"]) {
        save_and_keep(&path, &counted(name, changes), 20_000);
    }
    fs::write(&path, "(").unwrap();
    assert_eq!(load(&RealFs, &path).unwrap().job, job("three"));
    // Edited by hand, a copy stands behind those that were not.
    let edit = |copy: &Path| {
        let edited = fs::read_to_string(copy).unwrap().replace("three", "3");
        fs::write(copy, edited).unwrap();
    };
    edit(&backup_path(&path));
    edit(&versions(&RealFs, &path).unwrap()[0].path);
    let loaded = load(&RealFs, &path).unwrap();
    assert_eq!((loaded.job, loaded.seal), (job("two"), Seal::Whole));
    fs::remove_dir_all(path.with_file_name("copies")).unwrap();
    let loaded = load(&RealFs, &path).unwrap();
    assert_eq!((loaded.job, loaded.seal), (job("3"), Seal::Mismatch));
    fs::write(backup_path(&path), "(").unwrap();
    assert!(matches!(load(&RealFs, &path), Err(LoadError::Lost { .. })));
}

/// Clocks are set wrong, and programs that copy files set their times: the day's
/// first copy, newer by its time, has none of the work in it.
#[test]
fn the_best_copy_is_the_one_with_most_changes_whatever_its_time() {
    let (_folder, path) = folder();
    for changes in [1, 39, 39] {
        save_and_keep(&path, &counted("worked", changes), 20_000);
    }
    let old = std::time::SystemTime::UNIX_EPOCH + std::time::Duration::from_secs(946_684_800);
    for file in [&path, &backup_path(&path)] {
        let file = fs::File::options().write(true).open(file).unwrap();
        file.set_modified(old).unwrap();
    }
    let whole = fs::read(&path).unwrap();
    fs::write(&path, &whole[..whole.len() / 2]).unwrap();
    assert_eq!(load(&RealFs, &path).unwrap().job.changes(), 39);
}

#[test]
fn two_copies_with_as_many_changes_and_other_content_are_both_told() {
    let (_folder, path) = folder();
    fs::write(&path, "(").unwrap();
    fs::write(backup_path(&path), encode(&counted("one", 9)).unwrap()).unwrap();
    let other = path.with_file_name("Cedar Lane.ron.other-1");
    fs::write(other, encode(&counted("two", 9)).unwrap()).unwrap();
    let Source::Copy { rivals, .. } = load(&RealFs, &path).unwrap().from else {
        panic!("read from the damaged file");
    };
    assert_eq!(rivals, 1);
}

/// A `.bak` that holds more than the file of which it is said to be the last:
/// somebody opened an older copy in its place.
#[test]
fn a_backup_with_more_in_it_is_kept_as_a_version_before_it_gives_way() {
    let (_folder, path) = folder();
    save_job(&path, &counted("opened", 3));
    fs::write(backup_path(&path), encode(&counted("most", 39)).unwrap()).unwrap();
    let taken = OpenFile::take(&path, None).map_err(|(error, _)| error);
    let Held::ByUs(mut file) = taken.unwrap().held else {
        panic!("nobody else has it");
    };
    for changes in [4, 5] {
        let bytes = encode(&counted("on", changes)).unwrap();
        file.save(&bytes, &[], Some(Utc(86_400))).unwrap();
    }
    let kept = states(&path);
    assert!(kept.contains(&(Place::Version, Some(39))), "{kept:?}");
    assert!(kept.contains(&(Place::Backup, Some(4))), "{kept:?}");
}

#[test]
fn a_version_is_kept_at_the_first_change_after_an_hour_and_before_a_large_change() {
    let (_folder, path) = folder();
    save_job(&path, &counted("x", 1));
    let taken = OpenFile::take(&path, None).map_err(|(error, _)| error);
    let Held::ByUs(mut file) = taken.unwrap().held else {
        panic!("nobody else has it");
    };
    let mut save = |changes, minute: i64, before: &[Vec<u8>]| {
        let bytes = encode(&counted("x", changes)).unwrap();
        file.save(&bytes, before, Some(Utc(20_000 * 86_400 + minute * 60)))
            .unwrap();
        let versions = versions(&RealFs, &path).unwrap().into_iter();
        versions
            .filter_map(|version| version.changes)
            .collect::<Vec<_>>()
    };
    assert_eq!(save(2, 0, &[]), [1]);
    assert_eq!(save(3, 59, &[]), [1]);
    assert_eq!(save(4, 60, &[]), [3, 1]);
    // What is on the screen may be ahead of the file.
    let before = encode(&counted("before the delete", 6)).unwrap();
    assert_eq!(save(7, 61, &[before]), [6, 3, 1]);
    assert_eq!(save(8, 62, &[]), [6, 3, 1]);
    // The clock goes back to 2000: the next change counts as after an hour.
    assert_eq!(save(9, -10_000_000, &[]), [8, 6, 3, 1]);
}

#[test]
fn an_edited_file_is_kept_as_it_was_before_the_first_change() {
    let (_folder, path) = folder();
    save_job(&path, &counted("two", 2));
    let edited = fs::read_to_string(&path).unwrap().replace("two", "2");
    fs::write(&path, &edited).unwrap();
    let taken = OpenFile::take(&path, None).map_err(|(error, _)| error);
    let Held::ByUs(mut file) = taken.unwrap().held else {
        panic!("nobody else has it");
    };
    let bytes = encode(&counted("three", 3)).unwrap();
    file.save(&bytes, &[], Some(Utc(86_400))).unwrap();
    let version = versions(&RealFs, &path).unwrap().remove(0);
    assert_eq!(fs::read_to_string(version.path).unwrap(), edited);
}

#[test]
fn later_work_that_lies_elsewhere_is_found_and_older_is_not_offered() {
    let (folder, path) = folder();
    let rescued = folder.path().join("rescued");
    fs::create_dir(&rescued).unwrap();
    let now = counted("x", 5);
    save_job(&path, &now);
    let content = fs::read(&path).unwrap();
    let beside = |end: &str| folder.path().join(format!("Cedar Lane.ron{end}"));
    let told = || {
        let found = later(&RealFs, &path, Some(&rescued), &now, &content)?;
        Some((found.place, found.holds.ok()?.changes))
    };
    fs::write(beside(".bak"), encode(&counted("w", 4)).unwrap()).unwrap();
    fs::write(beside(".other-1"), encode(&counted("w", 3)).unwrap()).unwrap();
    fs::write(beside(".damaged-1"), "changes: 90,").unwrap();
    assert_eq!(told(), None);
    // As many changes, and others.
    fs::write(beside(".on-screen-1"), encode(&counted("w", 5)).unwrap()).unwrap();
    assert_eq!(told(), Some((Place::OnScreen, 5)));
    // Another job's work, rescued from a file of the same name.
    let rescue = |name: &str, job: &Job| fs::write(rescued.join(name), encode(job).unwrap());
    rescue("Cedar Lane 1.ron", &counted("y", 9)).unwrap();
    assert_eq!(told(), Some((Place::OnScreen, 5)));
    let mut more = counted("x", 8);
    more.add_edge(Name::or("West", "?"), EdgeKind::Hip, Hand::Left);
    rescue("Cedar Lane 2.ron", &more).unwrap();
    assert_eq!(told(), Some((Place::Rescued, 8)));
}
