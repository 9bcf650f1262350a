//! Jobs that may only be read: written down at once, not at the first change.

use super::bench::{Bench, at_the_bench, make, read, stacked};
use super::disks::{ReadOnly, done, line_with};
use crate::terminal::Terminal;
use bendmark::storage::files::lock_path;
use std::process::Command;

/// Opens the job, reads why it may only be read, and sees each change refused.
fn says_at_once(bench: &Bench, why: &str) -> Terminal {
    let terminal = bench.open_in_shell("exec \"$BENDMARK\" JOB");
    terminal.wait_for("READ ONLY");
    terminal.wait_for(why);
    line_with(bench, &terminal.contents(), "reading only");
    let mut terminal = at_the_bench(terminal);
    terminal.press("<enter>");
    terminal.wait_for(why);
    assert_eq!(bench.stacked(), 0);
    let said = bench.command(&["import", "roof.ron", "-"]);
    let words = String::from_utf8(said.stderr).unwrap();
    assert_eq!(said.status.code(), Some(1), "{words}");
    assert!(
        words.contains("may only be read") && words.contains(why),
        "{words}"
    );
    terminal
}

#[test]
fn a_write_protected_job_opens_for_reading_only_and_says_so_at_once() {
    let bench = Bench::new();
    let job = bench.job.to_str().unwrap();
    assert!(done("chmod", &["444", job]));
    let mut terminal = says_at_once(&bench, "its file is write-protected");
    // Once that is put right, a key opens it for work.
    assert!(done("chmod", &["644", job]));
    terminal.press("k");
    terminal.wait_for("open for work");
    terminal.press("<enter>");
    terminal.wait_for("39 left");
    terminal.wait_saved();
    assert_eq!(bench.stacked(), 1);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_job_in_a_write_protected_folder_says_so_at_once_and_can_go_elsewhere() {
    let bench = Bench::new();
    let Some(read_only) = ReadOnly::make(bench.folder()) else {
        return;
    };
    let mut terminal = says_at_once(&bench, "its folder is write-protected");
    let other = bench.home.path().join("stick");
    std::fs::create_dir(&other).unwrap();
    terminal.press("f");
    terminal.wait_for("save in which file from now on?");
    terminal.press(&format!("{}<enter>", other.display()));
    terminal.wait_for("saved in \"");
    terminal.press("<enter>");
    terminal.wait_for("39 left");
    terminal.wait_saved();
    assert_eq!(stacked(&read(&other.join("roof.ron"))), 1);
    drop(read_only);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_lock_of_another_user_is_told_and_nothing_is_written() {
    let bench = Bench::new();
    let lock = lock_path(&bench.job);
    std::fs::write(&lock, "").unwrap();
    let name = lock.to_str().unwrap();
    assert!(done("chmod", &["000", name]));
    let opens = || std::fs::OpenOptions::new().write(true).open(&lock).is_ok();
    // The superuser is kept out by another means only.
    let _ = opens() && done("chattr", &["+i", name]);
    if opens() {
        println!("skipped: no file can be closed to this user here");
        return;
    }
    let terminal = says_at_once(&bench, "another user has this job open");
    done("chattr", &["-i", name]);
    assert_eq!(terminal.quit(), 0);
}

#[test]
fn a_file_name_without_room_for_its_copies_is_said_when_the_job_is_opened() {
    let mut bench = Bench::new();
    let long = bench.folder().join(format!("{}.ron", "n".repeat(230)));
    std::fs::rename(&bench.job, &long).unwrap();
    bench.job = long;
    let terminal = bench.open_in_shell("exec \"$BENDMARK\" JOB");
    terminal.wait_for("reading only: the file name is too long");
    println!("{}", terminal.contents());
    assert_eq!(terminal.quit(), 0);
    let name = "m".repeat(230);
    let said = bench.command(&["new", &name]);
    let words = String::from_utf8(said.stderr).unwrap();
    assert_eq!(said.status.code(), Some(1), "{words}");
    assert!(words.contains("the file name is too long"), "{words}");
    assert!(!bench.folder().join(name).exists());
}

#[test]
fn what_killed_saves_left_is_taken_away_also_a_thousand_of_them() {
    let bench = Bench::new();
    let half = std::fs::read(&bench.job).unwrap()[..300].to_vec();
    let leftover = |number: usize| bench.folder().join(format!("roof.ron.new-{number}"));
    for number in 1..=1_000 {
        std::fs::write(leftover(number), &half).unwrap();
    }
    // What is somebody else's, and work that the job has not, stay.
    std::fs::write(leftover(7), "not a job").unwrap();
    make(&leftover(8).with_extension("x"), 40);
    let mut more = read(&bench.job);
    more.set_changes(99);
    let more = bendmark::storage::job_file::encode(&more).unwrap();
    std::fs::write(leftover(9), more).unwrap();
    let mut terminal = bench.open();
    terminal.press("<enter>");
    terminal.wait_for("39 left");
    terminal.wait_saved();
    assert_eq!(terminal.quit(), 0);
    assert_eq!(bench.stacked(), 1);
    let left: Vec<usize> = (1..=1_000).filter(|n| leftover(*n).exists()).collect();
    assert_eq!(left, [7, 9]);
}

/// No disk at hand refuses it: the system call of the real program is made to.
#[test]
fn a_disk_that_confirms_no_folders_saves_and_says_so_once() {
    let bench = Bench::new();
    for error in ["EINVAL", "EOPNOTSUPP", "ENOTTY", "ENOSYS"] {
        let script = format!(
            "exec strace -f -o /dev/null -P SITE -e trace=fsync -e inject=fsync:error={error} \"$BENDMARK\" JOB"
        );
        let script = script.replace("SITE", bench.folder().to_str().unwrap());
        if !done("strace", &["-o", "/dev/null", "true"]) {
            println!("skipped: strace is not installed, or may not trace");
            return;
        }
        let before = bench.stacked();
        let mut terminal = at_the_bench(bench.open_in_shell(&script));
        terminal.press("<enter>");
        terminal.wait_for("this disk does not confirm folders");
        terminal.wait_saved();
        line_with(&bench, &terminal.contents(), "this disk does not");
        terminal.press("<enter>");
        terminal.wait_for(&format!("{} left", 38 - before));
        terminal.wait_saved();
        assert!(!terminal.contents().contains("does not confirm"));
        assert_eq!(bench.stacked(), before + 2);
        assert_eq!(terminal.quit(), 0);
    }
    for name in std::fs::read_dir(bench.folder()).unwrap() {
        let name = name.unwrap().file_name().into_string().unwrap();
        assert!(!name.contains("other") && !name.contains("new"), "{name}");
    }
}

/// `import` with one system call of it made to fail each time.
fn import_under(bench: &Bench, inject: &str) -> (Option<i32>, String) {
    let csv = "edge,kind,hand,course,bottom,top\nEast,hip,right,1,20,8 1/4\n";
    std::fs::write(bench.folder().join("more.csv"), csv).unwrap();
    let call = inject.split(':').next().unwrap();
    let mut strace = Command::new("strace");
    strace
        .args(["-f", "-o", "/dev/null", "-e"])
        .arg(format!("trace={call}"))
        .arg("-e")
        .arg(format!("inject={inject}"));
    if call == "fsync" {
        strace.arg("-P").arg(bench.folder());
    }
    let said = strace
        .arg(env!("CARGO_BIN_EXE_bendmark"))
        .args(["import", "roof.ron", "more.csv"])
        .current_dir(bench.folder())
        .output()
        .unwrap();
    (said.status.code(), String::from_utf8(said.stderr).unwrap())
}

#[test]
fn a_disk_without_locks_is_written_and_a_lock_that_fails_is_told() {
    if !done("strace", &["-o", "/dev/null", "true"]) {
        println!("skipped: strace is not installed, or may not trace");
        return;
    }
    for error in ["ENOLCK", "EOPNOTSUPP", "ENOSYS"] {
        let (code, words) = import_under(&Bench::new(), &format!("flock:error={error}"));
        assert_eq!((code, words.as_str()), (Some(0), ""), "{error}");
    }
    let (code, words) = import_under(&Bench::new(), "flock:error=EIO");
    assert_eq!(code, Some(1), "{words}");
    assert!(
        words.contains("may only be read: input/output error"),
        "{words}"
    );
    // A command says of its disk what the screen says.
    let (code, words) = import_under(&Bench::new(), "fsync:error=EINVAL");
    assert_eq!(code, Some(0), "{words}");
    assert!(
        words.contains("this disk does not confirm folders"),
        "{words}"
    );
}

/// The new file stands in its place and the folder was not synced: not saved,
/// and nobody else's file.
#[test]
fn a_folder_that_fails_to_sync_is_not_saved_for_that_reason_and_no_other() {
    let bench = Bench::new();
    if !done("strace", &["-o", "/dev/null", "true"]) {
        println!("skipped: strace is not installed, or may not trace");
        return;
    }
    let script = "exec strace -f -o /dev/null -P SITE -e trace=fsync -e inject=fsync:error=EIO \"$BENDMARK\" JOB";
    let script = script.replace("SITE", bench.folder().to_str().unwrap());
    let mut terminal = at_the_bench(bench.open_in_shell(&script));
    terminal.press("<enter>");
    terminal.wait_for("NOT SAVED (");
    terminal.wait_for("input/output error");
    line_with(&bench, &terminal.contents(), "NOT SAVED (");
    for left in ["38 left", "37 left"] {
        terminal.press("<enter>");
        terminal.wait_for(left);
        terminal.wait_for("NOT SAVED (");
        assert!(!terminal.contents().contains("another program"));
    }
    // Each stands in its place, and none was taken for somebody else's.
    terminal.send(b"\x03");
    terminal.wait_for("leave without saving?");
    terminal.send(b"y");
    assert_eq!(terminal.child.wait().unwrap().exit_code(), 0);
    assert_eq!(bench.stacked(), 3);
    assert!(!bench.folder().join("roof.ron.other-1").exists());
}

/// Nothing in it could be brought onto the disk for sure: that is said before
/// anything is written, not of each save. The superuser reads any folder, so
/// another user does it where that can be.
#[test]
fn a_folder_that_may_not_be_read_is_said_before_anything_is_written() {
    let bench = Bench::new();
    let user = ["--reuid=65534", "--regid=65534", "--clear-groups"];
    let program = env!("CARGO_BIN_EXE_bendmark");
    let home = bench.home.path().to_str().unwrap();
    let site = bench.folder().to_str().unwrap();
    done("chmod", &["755", home]);
    if !done("setpriv", &[&user[..], &[program, "--version"]].concat()) {
        println!("skipped: nobody else can be asked to do it here");
        return;
    }
    let csv = bench.home.path().join("more.csv");
    std::fs::write(
        &csv,
        "edge,kind,hand,course,bottom,top\nEast,hip,right,1,20,8 1/4\n",
    )
    .unwrap();
    for path in [site, bench.job.to_str().unwrap()] {
        assert!(done("chown", &["65534", path]));
    }
    assert!(done("chmod", &["300", site]));
    let before = std::fs::read(&bench.job).unwrap();
    let import = [program, "import", bench.job.to_str().unwrap()];
    let said = Command::new("setpriv")
        .args(user)
        .args(import)
        .arg(&csv)
        .env("HOME", home)
        .output()
        .unwrap();
    done("chmod", &["755", site]);
    let words = String::from_utf8(said.stderr).unwrap();
    println!("{}", bench.without_folder(&words));
    assert_eq!(said.status.code(), Some(1), "{words}");
    assert!(words.contains("its folder may not be read"), "{words}");
    assert_eq!(std::fs::read(&bench.job).unwrap(), before);
}
