//! Power is lost at every moment of saving, copying and making a job; nothing
//! that was acknowledged is lost.
//!
//! The same simulator finds the faults of four careless writers.

mod disk;
mod explore;
mod rescued;

use bendmark::domain::bench::Utc;
use bendmark::storage::files::{Fingerprint, Fs};
use bendmark::storage::job_file::decode;
use bendmark::storage::keeping::{
    Backup, Last, Save, backup_path, create, keep, older_path, save, versions,
};
use disk::{Content, SimDisk};
use explore::{FILE, Found, Start, bytes, content, explore, work_goes_on};
use std::path::Path;

const BACKUP: &str = "/jobs/roof.ron.bak";
const CHANGES: usize = 3;

fn path() -> &'static Path {
    Path::new(FILE)
}

/// A save as the program makes it, with a version each.
fn save_change(disk: &SimDisk, change: usize, last: Last) {
    let day = i64::try_from(change).unwrap() * 86_400;
    let content = bytes(change);
    let save = Save {
        path: path(),
        bytes: &content,
        last,
        keeps_version: true,
        now: Some(Utc(day)),
        backup: Backup::Unknown,
    };
    let on_disk = save.run(disk).unwrap();
    assert_eq!(on_disk.no_copy, None);
    disk.acknowledge();
}

#[track_caller]
fn is_safe(what: &str, start: &Content, at_first: Start, writer: impl Fn(&SimDisk)) {
    for has_links in [true, false] {
        let (found, left) = explore(start, at_first, has_links, &writer);
        assert_eq!(found.troubles(), [0; 4], "{what}: {found:?}");
        let again = work_goes_on(&left, at_first);
        println!("{what}, links {has_links}: {found:?}, {again} states once more");
    }
}

#[test]
fn power_lost_while_saving_and_copying_loses_nothing_acknowledged() {
    let start = content(&[(FILE, bytes(0))]);
    is_safe("save and copy", &start, Start::There, |disk| {
        for change in 1..=CHANGES {
            let last = Last::Only(Fingerprint::of(&bytes(change - 1)));
            save_change(disk, change, last);
        }
    });
}

#[test]
fn power_lost_while_a_job_is_made_leaves_it_or_nothing() {
    is_safe("first save", &content(&[]), Start::Missing, |disk| {
        create(disk, path(), &bytes(1)).unwrap();
        disk.acknowledge();
        save_change(disk, 2, Last::Any);
    });
}

#[test]
fn power_lost_while_a_damaged_file_is_set_aside_leaves_its_copy() {
    let damaged = bytes(0)[..200].to_vec();
    let start = content(&[(FILE, damaged.clone()), (BACKUP, bytes(0))]);
    is_safe("damaged", &start, Start::There, |disk| {
        save_change(disk, 1, Last::Any);
        save_change(disk, 2, Last::Any);
        let aside = Path::new("/jobs/roof.ron.damaged-1");
        assert_eq!(disk.content().files[aside], damaged);
    });
}

#[test]
fn power_lost_while_another_programs_file_is_set_aside_loses_neither() {
    // What the other program wrote stands where change 0 stood.
    let start = content(&[(FILE, bytes(1)), (BACKUP, bytes(0))]);
    let writer = |disk: &SimDisk| {
        let last = Last::OrAside(Fingerprint::of(&bytes(0)));
        save_change(disk, 1, last);
    };
    is_safe("other", &start, Start::There, writer);
    let disk = SimDisk::with(&start, true);
    let content = bytes(2);
    let save = Save {
        path: path(),
        bytes: &content,
        last: Last::OrAside(Fingerprint::of(&bytes(0))),
        keeps_version: false,
        now: None,
        backup: Backup::Unknown,
    };
    save.run(&disk).unwrap();
    for left in disk.moments().iter().flat_map(disk::Moment::losses) {
        let theirs = left.files.values().any(|file| *file == bytes(1));
        assert!(theirs, "{left:?}");
    }
}

/// Going back: what is there is kept as a version, and the other state is saved
/// as a change of its own.
#[test]
fn power_lost_while_going_back_to_a_version_leaves_it_and_what_was_there() {
    let version = "/jobs/copies/roof.ron.change-1.2026-09-21.080512";
    let mut start = content(&[(FILE, bytes(3)), (BACKUP, bytes(2)), (version, bytes(1))]);
    start.folders.insert(Path::new("/jobs/copies").to_owned());
    let now = Some(Utc(1_790_000_000));
    let writer = |disk: &SimDisk| {
        disk.begin_at(3);
        keep(disk, path(), &bytes(3), 3, now).unwrap();
        save_change(disk, 4, Last::Only(Fingerprint::of(&bytes(3))));
        save_change(disk, 5, Last::Only(Fingerprint::of(&bytes(4))));
    };
    is_safe("going back", &start, Start::There, writer);
    let disk = SimDisk::with(&start, true);
    writer(&disk);
    for moment in disk.moments() {
        for left in moment.losses() {
            for change in [1, 3] {
                let kept = left.files.values().any(|file| *file == bytes(change));
                assert!(kept, "change {change}: {left:?}");
            }
        }
    }
}

#[test]
fn power_lost_while_the_oldest_version_goes_leaves_the_others() {
    let mut files = vec![(FILE.to_owned(), bytes(20))];
    for change in 0..20 {
        let name = format!("/jobs/copies/roof.ron.change-{change}");
        files.push((name, bytes(change)));
    }
    let files: Vec<_> = files
        .iter()
        .map(|(path, bytes)| (path.as_str(), bytes.clone()))
        .collect();
    let mut start = content(&files);
    start.folders.insert(Path::new("/jobs/copies").to_owned());
    let writer = |disk: &SimDisk| {
        disk.begin_at(20);
        save_change(disk, 21, Last::Only(Fingerprint::of(&bytes(20))));
        let kept = versions(disk, path()).unwrap();
        let changes: Vec<_> = kept.iter().filter_map(|version| version.changes).collect();
        assert_eq!(changes, (1..=20).rev().collect::<Vec<_>>());
    };
    is_safe("thinning", &start, Start::There, writer);
}

#[test]
fn a_file_that_another_program_has_written_is_not_touched() {
    let start = content(&[(FILE, bytes(7))]);
    let disk = SimDisk::with(&start, true);
    let save = Save {
        path: path(),
        bytes: &bytes(1),
        last: Last::Only(Fingerprint::of(&bytes(0))),
        keeps_version: false,
        now: None,
        backup: Backup::Unknown,
    };
    insta::assert_snapshot!(save.run(&disk).unwrap_err(), @r#""/jobs/roof.ron" was changed by another program and is left as it is: open it again, or save under another path"#);
    assert_eq!(disk.content(), start);
}

/// Change 0 as version 1 of the program wrote it.
fn of_version_1() -> Vec<u8> {
    let today = String::from_utf8(bytes(0)).unwrap();
    let (old, _) = today.rsplit_once("// checksum").unwrap();
    let start = old.find("by_kind: {").unwrap();
    let end = start + old[start..].find("}").unwrap();
    let kinds = old[start..end].replace("by_kind: {", "");
    let kinds = kinds.replace("Hip:", "hip:").replace("Valley:", "valley:");
    let kinds = kinds.replace("Rake:", "rake:");
    let old = [&old[..start], &kinds, &old[end + 1..]].concat();
    let old = old.replacen("version: 2", "version: 1", 1);
    let sum = crc32fast::hash(old.as_bytes());
    format!("{old}// checksum {sum:08x}\n").into_bytes()
}

#[test]
fn power_lost_while_moving_on_from_an_older_version_leaves_it_or_the_new_one() {
    let old = of_version_1();
    assert_eq!(decode(&old).unwrap().version, 1);
    assert_eq!(decode(&old).unwrap().job, decode(&bytes(0)).unwrap().job);
    let start = content(&[(FILE, old.clone())]);
    is_safe("older version", &start, Start::There, |disk| {
        save_change(disk, 1, Last::Only(Fingerprint::of(&old)));
        save_change(disk, 2, Last::Any);
        assert_eq!(disk.content().files[&older_path(path(), 1)], old);
    });
}

#[test]
fn an_older_versions_file_is_kept_under_its_own_name() {
    let mut old = b"(version: 0)\n".to_vec();
    let sum = crc32fast::hash(&old);
    old.extend(format!("// checksum {sum:08x}\n").bytes());
    let disk = SimDisk::with(&content(&[(FILE, old.clone())]), true);
    for change in 1..=CHANGES {
        save(&disk, path(), &bytes(change)).unwrap();
    }
    assert_eq!(disk.content().files[&older_path(path(), 0)], old);
    // A version that is not read is not opened and not touched.
    let error = decode(&old).unwrap_err();
    insta::assert_snapshot!(error, @"the file has version 0, expected 2");
}

/// How many troubles of each kind a careless writer is found to have.
fn faults_of(writer: impl Fn(&SimDisk, &[u8])) -> Found {
    let start = content(&[(FILE, bytes(0))]);
    let (found, _) = explore(&start, Start::There, true, |disk| {
        for change in 1..=CHANGES {
            writer(disk, &bytes(change));
            disk.acknowledge();
        }
    });
    found
}

#[test]
fn the_simulator_finds_a_writer_in_place() {
    let found = faults_of(|disk, bytes| {
        disk.write_in_place(path(), bytes);
        disk.sync_all(&mut disk.open(path())).unwrap();
    });
    assert!(found.unreadable > 0, "{found:?}");
    println!("in place: {found:?}");
}

fn renamed(disk: &SimDisk, bytes: &[u8], synced: bool, folder_synced: bool) {
    let temp = Path::new("/jobs/temp");
    let mut file = disk.create_new(temp).unwrap();
    disk.write_all(&mut file, bytes).unwrap();
    if synced {
        disk.sync_all(&mut file).unwrap();
    }
    disk.rename(temp, path()).unwrap();
    if folder_synced {
        disk.sync_folder(Path::new("/jobs")).unwrap();
    }
}

#[test]
fn the_simulator_finds_a_writer_that_renames_what_it_has_not_synced() {
    let found = faults_of(|disk, bytes| renamed(disk, bytes, false, true));
    assert!(found.unreadable > 0, "{found:?}");
}

#[test]
fn the_simulator_finds_a_writer_that_acknowledges_before_the_name_is_there() {
    let found = faults_of(|disk, bytes| renamed(disk, bytes, true, false));
    assert!(found.lost > 0 && found.unreadable == 0, "{found:?}");
}

#[test]
fn the_simulator_finds_a_copy_that_is_written_in_place() {
    let found = faults_of(|disk, bytes| {
        let backup = backup_path(path());
        if !disk.exists(&backup).unwrap() {
            disk.create_new(&backup).unwrap();
        }
        disk.write_in_place(&backup, bytes);
        renamed(disk, bytes, true, true);
    });
    assert!(found.bad_copies > 0, "{found:?}");
}
