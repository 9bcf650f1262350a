//! Full disks, folders that may only be read, folders that vanish.

use super::bench::{Bench, at_the_bench, read, signal, stacked};
use bendmark::storage::{files::RealFs, keeping::load::load};
use std::path::{Path, PathBuf};
use std::process::Command;

/// The line that says what is wrong, printed for the record.
#[track_caller]
pub(super) fn line_with(bench: &Bench, screen: &str, words: &str) -> String {
    let line = screen.lines().find(|line| line.contains(words));
    let line = bench.without_folder(line.unwrap_or_else(|| panic!("no {words} in\n{screen}")));
    println!("{}", line.trim());
    line
}

pub(super) fn done(command: &str, args: &[&str]) -> bool {
    let done = Command::new(command).args(args).output();
    done.is_ok_and(|done| done.status.success())
}

/// A disk of its own, 128 KiB, unmounted in the end.
struct SmallDisk(PathBuf);

impl SmallDisk {
    fn at(folder: &Path) -> Option<Self> {
        let path = folder.to_str().unwrap();
        let mounted = done("mount", &["-t", "tmpfs", "-o", "size=128k", "tmpfs", path]);
        if !mounted {
            println!("skipped: this machine allows no mount");
        }
        mounted.then(|| Self(folder.to_owned()))
    }
}

impl Drop for SmallDisk {
    fn drop(&mut self) {
        done("umount", &["-l", self.0.to_str().unwrap()]);
    }
}

#[test]
fn a_full_disk_is_said_and_the_work_is_saved_once_there_is_room() {
    let bench = Bench::new();
    let bytes = std::fs::read(&bench.job).unwrap();
    let Some(disk) = SmallDisk::at(bench.folder()) else {
        return;
    };
    std::fs::write(&bench.job, bytes).unwrap();
    let mut terminal = bench.open();
    let filler = disk.0.join("filler");
    std::fs::write(&filler, vec![0; 200_000]).unwrap_err();
    terminal.press("<enter>");
    terminal.wait_for("NOT SAVED (");
    line_with(&bench, &terminal.contents(), "NOT SAVED (");
    // It goes on, in memory; leaving asks.
    terminal.press("<enter><enter>");
    terminal.wait_for("37 left");
    terminal.press("q");
    terminal.wait_for("leave without saving?");
    terminal.press("<esc>");
    // A key on the heels of Esc would be one with Alt.
    terminal.wait_until("the bench", |screen| {
        !screen.contains("leave without saving?")
    });
    assert_eq!(bench.stacked(), 0);
    std::fs::remove_file(filler).unwrap();
    terminal.press("k");
    terminal.wait_saved();
    assert_eq!(bench.stacked(), 3);
    assert_eq!(terminal.quit(), 0);
}

/// What lies in the folder for what could not be saved.
fn rescued(bench: &Bench) -> Vec<PathBuf> {
    let folder = bench.home.path().join(".local/share/bendmark/rescued");
    let files = std::fs::read_dir(folder).into_iter().flatten();
    let mut files: Vec<_> = files.map(|file| file.unwrap().path()).collect();
    files.sort();
    files
}

#[test]
fn work_that_is_not_saved_lies_elsewhere_at_once_until_it_is() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    std::fs::rename(bench.folder(), bench.home.path().join("away")).unwrap();
    for (key, left) in [("<enter>", 39), ("<enter>", 38), ("u", 39), ("<enter>", 38)] {
        terminal.press(key);
        terminal.wait_for(&format!("{left} left"));
        let is_told = |screen: &str| {
            let there = rescued(&bench);
            let name = there
                .first()
                .map_or("", |path| path.file_name().unwrap().to_str().unwrap());
            // A name may be parted between two rows.
            let words: String = screen.split_whitespace().collect();
            let name: String = name.split_whitespace().collect();
            there.len() == 1
                && words.contains("keptmeanwhilein")
                && words.contains(&name)
                && load(&RealFs, &there[0]).is_ok_and(|read| stacked(&read.job) == 40 - left)
        };
        terminal.wait_until("kept meanwhile", is_told);
    }
    line_with(&bench, &terminal.contents(), "NOT SAVED (");
    println!("{}", bench.without_folder(&terminal.contents()));
    // Nobody is asked, and it is there still; a kill is the same as a fault.
    terminal.press("q");
    terminal.wait_for("y leaves; the work stays in");
    println!("{}", bench.without_folder(&terminal.contents()));
    terminal.press("<esc>");
    terminal.wait_until("the bench", |screen| {
        !screen.contains("leave without saving?")
    });
    std::fs::rename(bench.home.path().join("away"), bench.folder()).unwrap();
    terminal.press("k");
    terminal.wait_saved();
    assert_eq!(bench.stacked(), 2);
    assert_eq!(rescued(&bench), [] as [PathBuf; 0]);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn work_that_is_not_saved_is_there_after_a_kill_and_after_leaving_without_saving() {
    let bench = Bench::new();
    for end in ["kill", "leave"] {
        let mut terminal = bench.open();
        std::fs::rename(bench.folder(), bench.home.path().join("away")).unwrap();
        terminal.press("<enter>");
        terminal.wait_for("kept meanwhile in");
        if end == "kill" {
            signal("KILL", terminal.process());
            terminal.child.wait().unwrap();
        } else {
            terminal.press("q");
            terminal.wait_for("y leaves; the work stays in");
            terminal.send(b"y");
            assert_eq!(terminal.child.wait().unwrap().exit_code(), 0);
            let words = terminal.last_words();
            assert!(words.contains("the job as it was last is in"), "{words}");
        }
        let there = rescued(&bench);
        assert_eq!(there.len(), 1);
        assert_eq!(stacked(&read(&there[0])), 1);
        std::fs::remove_file(&there[0]).unwrap();
        std::fs::rename(bench.home.path().join("away"), bench.folder()).unwrap();
        assert_eq!(bench.stacked(), 0);
    }
}

#[test]
fn work_that_went_into_another_file_is_not_kept_among_the_rescued() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    std::fs::remove_dir_all(bench.folder()).unwrap();
    terminal.press("<enter>");
    terminal.wait_for("kept meanwhile in");
    let other = bench.home.path().join("other.ron");
    terminal.press("f");
    terminal.wait_for("save in which file from now on?");
    terminal.press(&format!("{}<enter>", other.display()));
    terminal.wait_saved();
    assert_eq!(stacked(&read(&other)), 1);
    assert_eq!(rescued(&bench), [] as [PathBuf; 0]);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_file_that_may_not_grow_is_said() {
    let bench = Bench::new();
    // 4 blocks: smaller than the job, larger than the preferences.
    let script = "trap '' XFSZ; ulimit -f 4; exec \"$BENDMARK\" JOB";
    let mut terminal = at_the_bench(bench.open_in_shell(script));
    terminal.press("<enter>");
    terminal.wait_for("NOT SAVED (");
    line_with(&bench, &terminal.contents(), "NOT SAVED (");
    assert_eq!(bench.stacked(), 0);
    terminal.send(b"\x03");
    terminal.wait_for("leave without saving?");
    terminal.send(b"y");
    assert_eq!(terminal.child.wait().unwrap().exit_code(), 0);
}

/// Makes a folder read-only, also for the superuser; `None` where that cannot
/// be done here.
pub(super) struct ReadOnly(PathBuf);

impl ReadOnly {
    pub(super) fn make(folder: &Path) -> Option<Self> {
        let path = folder.to_str().unwrap();
        done("chmod", &["555", path]);
        let probe = folder.join("probe");
        if std::fs::write(&probe, "").is_err() {
            return Some(Self(folder.to_owned()));
        }
        std::fs::remove_file(probe).unwrap();
        if done("chattr", &["+i", path]) {
            return Some(Self(folder.to_owned()));
        }
        println!("skipped: no folder can be made read-only here");
        None
    }
}

impl Drop for ReadOnly {
    fn drop(&mut self) {
        let path = self.0.to_str().unwrap();
        done("chattr", &["-i", path]);
        done("chmod", &["755", path]);
    }
}

#[test]
fn a_read_only_folder_is_said_and_the_job_can_go_elsewhere() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    let Some(read_only) = ReadOnly::make(bench.folder()) else {
        return;
    };
    terminal.press("<enter>");
    terminal.wait_for("NOT SAVED (");
    line_with(&bench, &terminal.contents(), "NOT SAVED (");
    terminal.press("f");
    terminal.wait_for("save in which file from now on?");
    // The path at hand does not do.
    terminal.press("<enter>");
    terminal.wait_for("there already");
    line_with(&bench, &terminal.contents(), "there already");
    let other = bench.home.path().join("stick");
    std::fs::create_dir(&other).unwrap();
    terminal.send(b"\x15");
    terminal.press(&format!("{}<enter>", other.display()));
    terminal.wait_for("from now on");
    line_with(&bench, &terminal.contents(), "from now on");
    terminal.wait_saved();
    assert_eq!(stacked(&read(&other.join("roof.ron"))), 1);
    terminal.press("<enter>");
    terminal.wait_for("38 left");
    terminal.wait_saved();
    assert_eq!(stacked(&read(&other.join("roof.ron"))), 2);
    assert_eq!(bench.stacked(), 0);
    drop(read_only);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_folder_removed_while_its_job_is_open_is_said_and_may_come_back() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    std::fs::remove_dir_all(bench.folder()).unwrap();
    terminal.press("<enter>");
    terminal.wait_for("NOT SAVED (");
    line_with(&bench, &terminal.contents(), "NOT SAVED (");
    std::fs::create_dir(bench.folder()).unwrap();
    // The next change tries again by itself.
    terminal.press("<enter>");
    terminal.wait_saved();
    assert_eq!(bench.stacked(), 2);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn commands_say_what_is_wrong_with_a_folder() {
    let bench = Bench::new();
    let said = bench.command(&["new", "gone/roof.ron"]);
    let words = bench.without_folder(&String::from_utf8(said.stderr).unwrap());
    println!("{words}");
    assert_eq!(said.status.code(), Some(1));
    let Some(read_only) = ReadOnly::make(bench.folder()) else {
        return;
    };
    let said = bench.command(&["new", "other.ron"]);
    drop(read_only);
    println!("{}", String::from_utf8(said.stderr).unwrap());
    assert_eq!(said.status.code(), Some(1));
}
