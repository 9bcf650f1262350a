//! Power is lost while work that could not be saved is put out of harm's way,
//! and while a disk that confirms no folders is written.

use super::disk::{Content, Moment, SimDisk};
use super::explore::{FILE, bytes, content, job};
use bendmark::storage::files::Confirmed;
use bendmark::storage::job_file::{Seal, decode};
use bendmark::storage::keeping::{Backup, Last, Save, give_up, load::load, rescue};
use std::path::Path;

const FOLDER: &str = "/home/data/rescued";

fn start() -> Content {
    let mut start = content(&[(FILE, bytes(0))]);
    start.folders.insert("/".into());
    start.folders.insert("/home".into());
    start
}

/// The newest change that can be read of what was rescued.
fn newest(left: &Content) -> usize {
    let in_folder = left
        .files
        .iter()
        .filter(|(path, _)| path.starts_with(FOLDER));
    let jobs = in_folder.filter_map(|(_, bytes)| decode(bytes).ok());
    let whole = jobs.filter(|read| read.seal == Seal::Whole);
    whole
        .map(|read| read.job.changes())
        .max()
        .unwrap_or(0)
        .try_into()
        .unwrap()
}

#[test]
fn power_lost_while_work_is_rescued_again_and_again_leaves_the_newest_of_it() {
    for has_links in [true, false] {
        let disk = SimDisk::with(&start(), has_links);
        let mut older = None;
        for change in 1..=3 {
            // All in one second, so that the names differ by their turn.
            let own = (Path::new(FILE), 5);
            let done = rescue(
                &disk,
                Path::new(FOLDER),
                own,
                &bytes(change),
                older.as_ref(),
            );
            older = Some(done.unwrap());
            disk.acknowledge();
        }
        let mut states = 0;
        for moment in disk.moments() {
            for left in moment.losses() {
                assert!(newest(&left) >= moment.acknowledged, "{left:?}");
                states += 1;
            }
        }
        println!("rescued, links {has_links}: {states} states");
        // One copy of it, however often; none once the job is saved.
        let there = |disk: &SimDisk| {
            let files = disk.content().files;
            let there = files.keys().filter(|path| path.starts_with(FOLDER));
            there.count()
        };
        assert_eq!(there(&disk), 1);
        assert_eq!(newest(&disk.content()), 3);
        give_up(&disk, &older.unwrap());
        assert_eq!(there(&disk), 0);
    }
}

#[test]
fn what_was_rescued_and_has_been_worked_on_since_is_not_taken_away() {
    let disk = SimDisk::with(&start(), true);
    let own = (Path::new(FILE), 5);
    let rescued = rescue(&disk, Path::new(FOLDER), own, &bytes(1), None).unwrap();
    disk.write_in_place(&rescued.path, &bytes(2));
    give_up(&disk, &rescued);
    assert_eq!(newest(&disk.content()), 2);
    rescue(&disk, Path::new(FOLDER), own, &bytes(3), Some(&rescued)).unwrap();
    let files = disk.content().files;
    assert_eq!(
        files.keys().filter(|path| path.starts_with(FOLDER)).count(),
        2
    );
}

/// The names may be there or not, in any order, for as long as that disk likes:
/// what is read is whole all the same, the last file or the one before it.
#[test]
fn power_lost_on_a_disk_that_confirms_no_folders_leaves_a_whole_file() {
    let backup = "/jobs/roof.ron.bak";
    for has_links in [true, false] {
        let start = content(&[(FILE, bytes(0)), (backup, bytes(0))]);
        let mut disk = SimDisk::with(&start, has_links);
        disk.confirms = false;
        let save = Save {
            path: Path::new(FILE),
            bytes: &bytes(1),
            last: Last::Any,
            keeps_version: false,
            now: None,
            backup: Backup::Own,
        };
        assert_eq!(save.run(&disk).unwrap().confirmed, Confirmed::No);
        for left in disk.moments().iter().flat_map(Moment::losses) {
            let read = load(&SimDisk::with(&left, true), Path::new(FILE)).unwrap();
            assert_eq!(read.seal, Seal::Whole);
            assert!(read.job == job(0) || read.job == job(1), "{left:?}");
        }
        assert_eq!(load(&disk, Path::new(FILE)).unwrap().job, job(1));
    }
}
