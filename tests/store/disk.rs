//! Saving to and loading from a real folder.

use crate::bad_fs::BadFs;
use crate::jobs::full_job;
use bendmark::domain::{
    cutting::Job,
    measure::{Hand, Name},
    roof::EdgeKind,
    settings::Settings,
};
use bendmark::storage::files::RealFs;
use bendmark::storage::job_file::{Seal, encode};
use bendmark::storage::keeping::{
    Held, OpenFile, SaveError, Source, backup_path, create, load::load, save,
};
use std::fs;
use std::path::{Path, PathBuf};
use tempfile::TempDir;

pub(crate) fn job(name: &str) -> Job {
    let mut job = Job::new(Name::or(name, "?"), Settings::default());
    job.add_edge(Name::or("East", "?"), EdgeKind::Hip, Hand::Left);
    job
}

pub(crate) fn save_job(path: &Path, job: &Job) {
    save(&RealFs, path, &encode(job).unwrap()).unwrap();
}

pub(crate) fn folder() -> (TempDir, PathBuf) {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("Cedar Lane.ron");
    (folder, path)
}

fn names(folder: &TempDir) -> Vec<String> {
    let mut names: Vec<_> = fs::read_dir(folder.path())
        .unwrap()
        .map(|entry| entry.unwrap().file_name().into_string().unwrap())
        .collect();
    names.sort();
    names
}

/// Without the folder of this one run.
fn without(folder: &TempDir, text: &str) -> String {
    let text = text.replace(&folder.path().display().to_string(), "FOLDER");
    text.replace("FOLDER\\", "FOLDER/")
}

#[test]
fn a_saved_job_is_loaded_as_it_was() {
    let (_folder, path) = folder();
    save_job(&path, &full_job());
    let loaded = load(&RealFs, &path).unwrap();
    assert_eq!(loaded.job, full_job());
    assert_eq!((loaded.seal, loaded.from), (Seal::Whole, Source::File));
}

#[test]
fn the_last_file_is_kept_and_nothing_else_is_left() {
    let (folder, path) = folder();
    for name in ["one", "two", "three"] {
        save_job(&path, &job(name));
    }
    assert_eq!(names(&folder), ["Cedar Lane.ron", "Cedar Lane.ron.bak"]);
    let kept = fs::read(backup_path(&path)).unwrap();
    assert_eq!(kept, encode(&job("two")).unwrap());
}

#[test]
fn a_truncated_file_falls_back_to_the_copy_and_outlives_the_next_save() {
    let (folder, path) = folder();
    save_job(&path, &job("one"));
    save_job(&path, &full_job());
    let text = fs::read_to_string(&path).unwrap();
    let (damaged, _) = text.split_once("(id: 3").unwrap();
    fs::write(&path, damaged).unwrap();

    let loaded = load(&RealFs, &path).unwrap();
    assert_eq!(loaded.job, job("one"));
    let Source::Copy {
        why, path: copy, ..
    } = loaded.from
    else {
        panic!("read from the damaged file");
    };
    let [copy, backup] = [copy, backup_path(&path)].map(|path| path.canonicalize().unwrap());
    assert_eq!(copy, backup);
    insta::assert_snapshot!(why, @r#"line 39, column 9: expected "(""#);
    let now = fs::read_to_string(&path).unwrap();
    assert_eq!(now, damaged, "loading changes nothing");

    save_job(&path, &job("two"));
    assert_eq!(
        names(&folder),
        [
            "Cedar Lane.ron",
            "Cedar Lane.ron.bak",
            "Cedar Lane.ron.damaged-1"
        ]
    );
    let aside = folder.path().join("Cedar Lane.ron.damaged-1");
    assert_eq!(fs::read_to_string(aside).unwrap(), damaged);
    assert_eq!(
        fs::read(backup_path(&path)).unwrap(),
        encode(&job("one")).unwrap()
    );
}

#[test]
fn a_missing_file_falls_back_to_the_copy() {
    let (_folder, path) = folder();
    save_job(&path, &job("one"));
    save_job(&path, &job("two"));
    fs::remove_file(&path).unwrap();
    let loaded = load(&RealFs, &path).unwrap();
    assert_eq!(loaded.job, job("one"));
}

/// Somebody's synchronising program puts the file back while the question about
/// its copy stands.
#[test]
fn a_file_that_comes_back_is_neither_replaced_nor_lost() {
    let (folder, path) = folder();
    save_job(&path, &job("one"));
    save_job(&path, &job("two"));
    let back = fs::read(&path).unwrap();
    fs::remove_file(&path).unwrap();
    let taken = OpenFile::take(&path, None)
        .map_err(|(error, _)| error)
        .unwrap();
    let Held::ByUs(mut file) = taken.held else {
        panic!("nobody else has it");
    };
    fs::write(&path, &back).unwrap();
    let ours = encode(&job("ours")).unwrap();
    let refused = file.save(&ours, &[], None).unwrap_err();
    assert!(matches!(refused, SaveError::Changed { .. }), "{refused}");
    assert_eq!(fs::read(&path).unwrap(), back);
    file.save_over(&ours, &[], None).unwrap();
    assert_eq!(load(&RealFs, &path).unwrap().job, job("ours"));
    drop(file);
    let kept = names(&folder)
        .into_iter()
        .filter(|name| fs::read(folder.path().join(name)).is_ok_and(|bytes| bytes == back));
    assert_eq!(kept.count(), 1, "{:?}", names(&folder));
}

#[track_caller]
fn refused(content: &[u8]) -> String {
    let (folder, path) = folder();
    save_job(&path, &job("one"));
    save_job(&path, &job("two"));
    fs::write(&path, content).unwrap();
    let error = load(&RealFs, &path).unwrap_err();
    assert_eq!(fs::read(&path).unwrap(), content, "the file is untouched");
    assert_eq!(names(&folder), ["Cedar Lane.ron", "Cedar Lane.ron.bak"]);
    without(&folder, &error.to_string())
}

#[test]
fn a_later_version_is_refused_by_name_and_not_passed_over_for_the_copy() {
    insta::assert_snapshot!(refused(b"(version: 3, hips: [])\n"), @r#""FOLDER/Cedar Lane.ron": the file has version 3, this program reads up to version 2: open it with the later program that wrote it"#);
}

#[test]
fn a_whole_file_with_an_unknown_field_is_refused_by_name() {
    let text = String::from_utf8(encode(&full_job()).unwrap()).unwrap();
    let (content, _) = text.split_once("// checksum").unwrap();
    let mut edited = content.replace("side_lap", "overlap");
    let sum = crc32fast::hash(edited.as_bytes());
    edited.push_str(&format!("// checksum {sum:08x}\n"));
    insta::assert_snapshot!(refused(edited.as_bytes()), @r#""FOLDER/Cedar Lane.ron": line 7: unknown field "overlap", expected division, panel_width, side_lap, exposure, panel_height, panels_lie, read_to, tape_end, by_kind, valley_depth, least_turn_up, ridge_turn_up, sliver, least_flat, tolerance, spare, carry_more, blade, laying, stack_turned, second_trip, shear_opens, bender_folds, bench_order, one_key, pause"#);
}

#[test]
fn without_a_copy_a_damaged_file_is_refused_and_untouched() {
    let (folder, path) = folder();
    fs::write(&path, "(version: 1, name: \"x\", colour: red)").unwrap();
    let error = load(&RealFs, &path).unwrap_err().to_string();
    insta::assert_snapshot!(without(&folder, &error), @r#""FOLDER/Cedar Lane.ron": line 1: unknown field "colour", expected version, name, settings, next_edge, numbers, edges, courses, said, events, changes, undo, redo; no readable copy of it is there, expected a job file"#);
    assert_eq!(names(&folder), ["Cedar Lane.ron"]);
}

#[test]
fn what_is_no_readable_file_is_said_to_be_so() {
    let (folder, path) = folder();
    let say = |path: &Path| without(&folder, &load(&RealFs, path).unwrap_err().to_string());
    insta::assert_snapshot!(say(&path), @r#""FOLDER/Cedar Lane.ron": there is no such file, expected a job: make one with "bendmark new""#);
    insta::assert_snapshot!(say(folder.path()), @r#""FOLDER": it is a folder, expected a file"#);
    fs::File::create(&path).unwrap().set_len(200 << 20).unwrap();
    insta::assert_snapshot!(say(&path), @r#""FOLDER/Cedar Lane.ron": the file is too large, expected at most 128 MiB"#);
}

#[test]
fn a_new_job_is_written_over_nothing() {
    let (folder, path) = folder();
    let bytes = encode(&job("one")).unwrap();
    create(&RealFs, &path, &bytes).unwrap();
    assert_eq!(names(&folder), ["Cedar Lane.ron"]);
    let say = || {
        let error = create(&RealFs, &path, &encode(&job("two")).unwrap()).unwrap_err();
        without(&folder, &error.to_string())
    };
    insta::assert_snapshot!(say(), @r#""FOLDER/Cedar Lane.ron" is already there, expected a name not yet taken: open it, or choose another"#);
    assert_eq!(fs::read(&path).unwrap(), bytes);
    fs::rename(&path, backup_path(&path)).unwrap();
    insta::assert_snapshot!(say(), @r#""FOLDER/Cedar Lane.ron.bak" is already there, expected a name not yet taken: open it, or choose another"#);
}

#[test]
fn a_folder_that_is_not_there_is_said_to_be_gone() {
    let folder = tempfile::tempdir().unwrap();
    let path = folder.path().join("gone/job.ron");
    let error = save(&RealFs, &path, b"").unwrap_err();
    insta::assert_snapshot!(without(&folder, &error.to_string()), @r#""FOLDER/gone/job.ron" could not be saved while finding its folder: the folder or the disk is gone, bring it back or choose another path"#);
}

#[cfg(unix)]
#[test]
fn a_link_stays_a_link_and_its_file_is_replaced() {
    let (folder, path) = folder();
    let far = folder.path().join("far");
    fs::create_dir(&far).unwrap();
    save_job(&far.join("real.ron"), &job("one"));
    std::os::unix::fs::symlink("far/real.ron", &path).unwrap();
    save_job(&path, &job("two"));
    assert!(fs::symlink_metadata(&path).unwrap().is_symlink());
    assert_eq!(
        load(&RealFs, &far.join("real.ron")).unwrap().job,
        job("two")
    );
    assert!(far.join("real.ron.bak").exists());
}

#[cfg(unix)]
#[test]
fn a_private_file_stays_private() {
    use std::os::unix::fs::PermissionsExt;
    let (_folder, path) = folder();
    save_job(&path, &job("one"));
    fs::set_permissions(&path, fs::Permissions::from_mode(0o600)).unwrap();
    save_job(&path, &job("two"));
    let mode = fs::metadata(&path).unwrap().permissions().mode();
    assert_eq!(mode & 0o777, 0o600);
}

#[test]
fn whichever_operation_fails_the_job_is_there_before_or_after() {
    let mut messages = Vec::new();
    for fails_at in 1.. {
        let (folder, path) = folder();
        save_job(&path, &job("zero"));
        save_job(&path, &job("one"));
        let disk = BadFs::failing_at(fails_at);
        let saved = save(&disk, &path, &encode(&job("two")).unwrap());
        if disk.operations.get() < fails_at {
            saved.unwrap();
            break;
        }
        let job = load(&RealFs, &path).unwrap().job;
        match saved {
            Ok(()) => assert_eq!(job, self::job("two")),
            Err(error) => {
                assert!(job == self::job("one") || job == self::job("two"));
                messages.push(without(&folder, &error.to_string()));
            }
        }
        assert!(names(&folder).len() <= 2, "{:?}", names(&folder));
    }
    insta::assert_snapshot!(messages.join("\n"), @r#"
    "FOLDER/Cedar Lane.ron" could not be saved while finding its folder: the disk is full, make room or save under another path
    "FOLDER/Cedar Lane.ron" could not be saved while making a new file beside it: the disk is full, make room or save under another path
    "FOLDER/Cedar Lane.ron" could not be saved while writing the new file: the disk is full, make room or save under another path
    "FOLDER/Cedar Lane.ron" could not be saved while keeping the last file: the disk is full, make room or save under another path
    "FOLDER/Cedar Lane.ron" could not be saved while keeping the last file: the disk is full, make room or save under another path
    "FOLDER/Cedar Lane.ron" could not be saved while putting the new file in its place: the disk is full, make room or save under another path
    "FOLDER/Cedar Lane.ron" could not be saved while syncing the folder: the disk is full, make room or save under another path
    "#);
}

#[test]
fn a_failed_sync_is_tried_once_more_on_another_file_and_no_more() {
    let (folder, path) = folder();
    let disk = BadFs {
        syncs: false,
        ..BadFs::failing_at(0)
    };
    let error = save(&disk, &path, b"x").unwrap_err().to_string();
    insta::assert_snapshot!(without(&folder, &error), @r#""FOLDER/Cedar Lane.ron" could not be saved while syncing the new file: input/output error"#);
    assert_eq!(disk.created.get(), 2);
    assert!(names(&folder).is_empty());
}

#[test]
fn without_hard_links_the_last_file_is_copied() {
    let (folder, path) = folder();
    let disk = BadFs {
        links: false,
        ..BadFs::failing_at(0)
    };
    create(&disk, &path, &encode(&job("one")).unwrap()).unwrap();
    save(&disk, &path, &encode(&job("two")).unwrap()).unwrap();
    save(&disk, &path, &encode(&job("three")).unwrap()).unwrap();
    assert_eq!(names(&folder), ["Cedar Lane.ron", "Cedar Lane.ron.bak"]);
    assert_eq!(
        fs::read(backup_path(&path)).unwrap(),
        encode(&job("two")).unwrap()
    );
}
