//! What `--output` never writes over, by what is in a file as much as by its
//! name.

use crate::{Bench, Said};
use bendmark::storage::files::Lock;
use std::collections::BTreeMap;
use std::path::PathBuf;

/// Every file below the folder and what is in it.
fn files(bench: &Bench) -> BTreeMap<PathBuf, Vec<u8>> {
    let mut files = BTreeMap::new();
    for folder in ["", "copies"] {
        let Ok(entries) = std::fs::read_dir(bench.0.path().join(folder)) else {
            continue;
        };
        for path in entries.map(|entry| entry.unwrap().path()) {
            if path.is_file() {
                files.insert(path.clone(), std::fs::read(path).unwrap());
            }
        }
    }
    files
}

/// The sheet to `path`, refused with and without `--force`; nothing has changed
/// then. What was said.
#[track_caller]
fn refused(bench: &Bench, path: &str) -> String {
    let before = files(bench);
    let args = ["sheet", "roof.ron", "--output", path];
    let said = bench.refused(1, &args);
    assert_eq!(bench.refused(1, &[&args[..], &["--force"]].concat()), said);
    let form = ["form", "roof.ron", "--output", path, "--force"];
    assert_eq!(bench.refused(1, &form), said);
    assert_eq!(files(bench), before, "{path}");
    said
}

#[test]
fn output_never_writes_over_a_job_its_lock_or_its_copies_force_or_not() {
    let bench = Bench::with_readings();
    bench.done(&["new", "other job.ron"]);
    let folder = bench.0.path();
    let version = "copies/roof.ron.change-1.2026-09-21.080512";
    std::fs::create_dir(folder.join("copies")).unwrap();
    std::fs::copy(folder.join("roof.ron"), folder.join(version)).unwrap();
    std::fs::copy(folder.join("roof.ron"), folder.join("roof.html")).unwrap();
    std::fs::hard_link(folder.join("roof.ron"), folder.join("linked.txt")).unwrap();
    #[cfg(unix)]
    for (to, name) in [("roof.ron", "to-job.txt"), ("roof.ron.bak", "to-bak.txt")] {
        std::os::unix::fs::symlink(to, folder.join(name)).unwrap();
    }
    let lock = Lock::take(&folder.join("roof.ron")).unwrap();
    for (path, why) in [
        ("roof.ron", "is a job and is never written over"),
        ("other job.ron", "is a job and is never written over"),
        ("./copies/../roof.ron", "is a job and is never written over"),
        ("roof.html", "is a job and is never written over"),
        ("linked.txt", "is a job and is never written over"),
        ("to-job.txt", "is a job and is never written over"),
        ("roof.ron.bak", "is a name for a job's copies and locks"),
        ("to-bak.txt", "is a name for a job's copies and locks"),
        ("roof.ron.lock", "is a name for a job's copies and locks"),
        ("roof.ron.new-1", "is a name for a job's copies and locks"),
        (
            "other job.ron.lock",
            "is a name for a job's copies and locks",
        ),
        (
            "copies/roof.ron.change-9",
            "is a name for a job's copies and locks",
        ),
        (version, "is a name for a job's copies and locks"),
    ] {
        // Links are made on Unix only.
        if !cfg!(unix) && path.starts_with("to-") {
            continue;
        }
        let said = refused(&bench, path);
        assert!(said.contains(why) && said.contains(path), "{said}");
        assert!(said.contains("choose another"), "{said}");
    }
    drop(lock);
    // Its place, while only its copy is there.
    std::fs::remove_file(folder.join("roof.ron")).unwrap();
    let said = bench.run(&["sheet", "roof.ron", "--output", "roof.ron", "--force"]);
    assert_eq!((said.code, bench.has("roof.ron")), (1, false), "{said:?}");
    assert!(said.err.contains("is the place of a job"), "{said:?}");
}

#[test]
fn output_writes_over_sheets_forms_and_empty_files_and_over_nothing_else() {
    let bench = Bench::with_readings();
    let others = [
        ("notes.txt", "buy gloves\n"),
        ("readings.csv", super::READINGS),
        ("page.html", "<!DOCTYPE html>\n<title>x</title>\n"),
        ("data.json", "{\"job\": \"x\"}\n"),
    ];
    for (name, content) in others {
        bench.write(name, content);
        let said = refused(&bench, name);
        assert!(said.contains("does not begin as a sheet or form"), "{said}");
        assert!(
            said.contains(name) && said.contains("choose another"),
            "{said}"
        );
    }
    std::fs::create_dir(bench.0.path().join("folder")).unwrap();
    let said = refused(&bench, "folder");
    assert!(said.contains("it is a folder"), "{said}");
    // A job beside it could keep no versions.
    let said = refused(&bench, "copies");
    assert!(said.contains("is a name for a job's copies"), "{said}");
    // Every page there is gives way to any other.
    let over = |args: &[&str]| {
        let said: Said = bench.run(&[args, &["--output", "page", "--force"]].concat());
        assert_eq!((said.code, said.err.as_str()), (0, ""), "{args:?}");
    };
    bench.write("page", "");
    for _ in 0..2 {
        for format in ["text", "csv", "json", "html"] {
            over(&["sheet", "roof.ron", "--format", format]);
        }
        over(&["sheet", "roof.ron", "--width", "42"]);
        over(&["form", "roof.ron"]);
        over(&["form", "roof.ron", "--width", "42"]);
        over(&["form", "roof.ron", "--format", "html"]);
    }
    // Without the word it stays.
    let args = ["sheet", "roof.ron", "--output", "page"];
    insta::assert_snapshot!(bench.refused(1, &args), @r#"bendmark: "page" is already there, expected a name not yet taken: choose another, or overwrite it with --force"#);
}

#[cfg(unix)]
#[test]
fn output_does_not_put_a_file_in_the_place_of_a_pipe() {
    let bench = Bench::with_readings();
    let pipe = bench.0.path().join("pipe");
    let made = std::process::Command::new("mkfifo").arg(&pipe).status();
    assert!(made.unwrap().success());
    let said = refused(&bench, "pipe");
    assert!(said.contains("it is a pipe or a device"), "{said}");
}
