//! Files from someone else that mean harm, given to the real program: each is
//! refused or read with a clear message, with little work and little memory.

use super::bench::Bench;
use std::fmt::Write;
use std::path::Path;
use std::process::{Command, Output};

/// What the program takes before it has read anything, in KiB of address space.
const BASE_KIB: u64 = 96 * 1024;

/// How many times its size a file may take.
const TIMES: u64 = 20;

/// How long it may work, in seconds of its own processor time: a machine busy
/// with other things does not count. It is killed then, and has no exit code.
const CPU_SECONDS: u64 = 10;

const HEAD: &str = "(version: 1, name: \"x\", settings: (division: SixteenthInch, panel_width: 200000000, side_lap: 99000000, exposure: 355600000, read_to: LapLine, tape_end: HeldOff, hip: (allowance: Along(50800000), clearance: 0), valley: (allowance: Along(50800000), clearance: 0), rake: (allowance: Along(50800000), clearance: 0), least_turn_up: 0, ridge_turn_up: 0, tolerance: 9525000, spare: 0, carry_more: 0, blade: Right, laying: RidgeDown, stack_turned: No, bench_order: CutFirst, one_key: Step, pause: 20), next_edge: 100000, edges: [";

/// A job file of these edges, courses and events.
fn file(edges: &str, courses: &str, events: &str) -> String {
    format!("{HEAD}{edges}], courses: [{courses}], events: [{events}])\n")
}

const EDGE: &str = "(id: 1, name: \"x\", kind: Hip, hand: Left)";

fn repeated(count: usize, line: impl Fn(usize) -> String) -> String {
    (1..=count).fold(String::new(), |mut text, at| {
        writeln!(text, "{},", line(at)).unwrap();
        text
    })
}

/// Runs the program on a file with the memory it may take, and no more.
fn run(bench: &Bench, path: &Path, args: &str) -> Output {
    run_within(bench, path, args, 0)
}

/// The same where a small file may take `floor_kib` all the same.
fn run_within(bench: &Bench, path: &Path, args: &str, floor_kib: u64) -> Output {
    let bytes = std::fs::metadata(path).map_or(0, |about| about.len());
    let most = BASE_KIB + (TIMES * bytes / 1024).max(floor_kib);
    let script = format!("ulimit -v {most}; ulimit -t {CPU_SECONDS}; exec \"$BENDMARK\" {args}");
    Command::new("/bin/sh")
        .args(["-c", &script])
        .env("BENDMARK", env!("CARGO_BIN_EXE_bendmark"))
        .env("HOME", bench.home.path())
        .current_dir(bench.folder())
        .output()
        .unwrap()
}

/// The exit code and the messages of reading `text` as a job.
#[track_caller]
fn read(text: &str) -> (i32, String) {
    let bench = Bench::new();
    let path = bench.folder().join("x.ron");
    std::fs::write(&path, text).unwrap();
    let output = run(&bench, &path, "sheet x.ron --format json");
    let said = String::from_utf8(output.stderr).unwrap();
    let code = output
        .status
        .code()
        .unwrap_or_else(|| panic!("killed: {said}"));
    assert!(said.len() < 2_000, "{} bytes of message", said.len());
    assert!(
        said.lines().all(|line| line.starts_with("bendmark: ")),
        "{said}"
    );
    println!("{} bytes: {code} {}", text.len(), said.trim_end());
    (code, said)
}

#[track_caller]
fn refused(text: &str, words: &str) {
    let (code, said) = read(text);
    assert_eq!(code, 1);
    assert!(said.contains(words), "{said}");
}

#[test]
fn a_large_file_takes_at_most_twenty_times_its_size() {
    let courses = repeated(20_000, |at| {
        format!("(edge:1,course:{at},bottom:900000,top:800000)")
    });
    assert_eq!(read(&file(EDGE, &courses, "")).0, 0);
    let blank = repeated(40_000, |at| format!("(edge:1,course:{at})"));
    assert_eq!(read(&file(EDGE, &blank, "")).0, 0);
    let gone = repeated(30_000, |_| "(fact:Gone(offcut:1,by:Used))".to_owned());
    assert_eq!(read(&file(EDGE, "", &gone)).0, 0);
    let bent = repeated(30_000, |_| {
        "(fact:Bent(edge:1,course:1,piece:1))".to_owned()
    });
    assert_eq!(read(&file(EDGE, "", &bent)).0, 0);
    let edges = repeated(10_000, |at| {
        format!("(id:{at},name:\"x\",kind:Hip,hand:Left)")
    });
    assert_eq!(read(&file(&edges, "", "")).0, 0);
}

#[test]
fn a_small_file_that_makes_pieces_without_end_is_refused() {
    let courses = repeated(2_000, |at| {
        format!("(edge:1,course:{at},bottom:100000000000,top:99000000000)")
    });
    refused(
        &file(EDGE, &courses, ""),
        "the log: about 1982000 pieces, expected at most 100000",
    );
    // Also where a correction makes them.
    let courses = repeated(2_000, |at| format!("(edge:1,course:{at},bottom:0,top:0)"));
    let corrected = "(fact:Corrected(edge:1,by:90000000000))";
    refused(
        &file(EDGE, &courses, corrected),
        "pieces, expected at most 100000",
    );
}

#[test]
fn a_small_file_that_makes_as_many_pieces_as_are_allowed_takes_200_mb_at_most() {
    let bench = Bench::new();
    let courses = repeated(99, |at| {
        format!("(edge:1,course:{at},bottom:100000000000,top:99000000000)")
    });
    let path = bench.folder().join("x.ron");
    std::fs::write(&path, file(EDGE, &courses, "")).unwrap();
    let output = run_within(&bench, &path, "sheet x.ron --format json", 200 * 1024);
    assert!(output.status.success(), "{output:?}");
    assert!(output.stdout.len() > 20_000_000);
}

/// The same with a line of changes behind it and the checksum of it all.
fn with_changes(edges: &str, courses: &str, changes: &str) -> String {
    let file = file(edges, courses, "");
    let own = file.trim_end().trim_end_matches(')');
    let mut text = format!("{own},\n    undo: [\n{changes}    ],\n)\n");
    let sum = crc32fast::hash(text.as_bytes());
    writeln!(text, "// checksum {sum:08x}").unwrap();
    text
}

#[test]
fn a_line_of_changes_that_means_harm_costs_little_and_no_job() {
    let courses = repeated(5_000, |at| {
        format!("(edge:1,course:{at},bottom:900000,top:800000)")
    });
    let change =
        |count, what: &str| repeated(count, |_| format!("        (words:\"x\",at:Rack,{what})"));
    let deep = "(".repeat(100_000);
    for (count, what) in [
        (500, "next_edge:90000"),
        (500, "order:[1]"),
        (500, "courses:[(edge:1,course:1,top:5)]"),
        (10_000, "name:\"x\""),
        (10_000, "press:[(fact:Gone(offcut:1,by:Used))]"),
        (1, &deep),
    ] {
        let text = with_changes(EDGE, &courses, &change(count, what));
        assert_eq!(read(&text), (0, String::new()), "{count} {what}");
    }
}

#[test]
fn depth_length_and_noise_are_refused() {
    refused(&"(".repeat(2_000_000), "");
    refused(&format!("(version: 1, name: {}", "[".repeat(2_000_000)), "");
    refused(
        &format!("(version: 1, name: \"{}\")", "x".repeat(2_000_000)),
        "no field",
    );
    refused(
        &format!("(version: {}", "9".repeat(2_000_000)),
        "not a job file",
    );
    refused(&format!("//{}", "\n//".repeat(500_000)), "");
    refused(&"\0".repeat(1_000_000), "");
    let long = repeated(3, |_| {
        format!(
            "(id: 1, name: \"{}\", kind: Hip)",
            "\u{301}".repeat(300_000)
        )
    });
    refused(&file(&long, "", ""), "");
    refused(
        &file(
            "(id: 1, name: \"x\u{1b}]0;owned\u{7}\", kind: \u{1b}[2J)",
            "",
            "",
        ),
        "",
    );
}

/// What a terminal or a reader would be misled by.
fn is_harmless(text: &str) -> bool {
    !text.chars().any(|c| {
        (c.is_control() && c != '\n')
            || matches!(c, '\u{200B}'..='\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2066}'..='\u{2069}' | '\u{FEFF}')
    })
}

#[test]
fn names_with_escapes_come_out_harmless() {
    let name = "\\u{1b}[31mNorth\\u{202e}\\u{200b} hip\\u{7}\\u{9b}2J";
    let edge = format!("(id: 1, name: \"{name}\", kind: Hip, hand: Left, plane: \"{name}\")");
    let text = file(
        &edge,
        "(edge: 1, course: 1, bottom: 150000000, top: 100000000)",
        "",
    );
    let bench = Bench::new();
    std::fs::write(bench.folder().join("x.ron"), text).unwrap();
    for format in ["text", "csv", "json"] {
        let output = bench.command(&["sheet", "x.ron", "--format", format]);
        let text = String::from_utf8(output.stdout).unwrap();
        assert!(text.contains("North hip"), "{text}");
        assert!(is_harmless(&text), "{text:?}");
    }
}

#[test]
fn names_that_are_formulas_do_not_reach_a_spreadsheet_as_such() {
    let bench = Bench::new();
    for (at, start) in ["=", "+", "-", "@"].into_iter().enumerate() {
        let edge = format!("(id: 1, name: \"{start}cmd|'/c calc'!A0\", kind: Hip, hand: Left)");
        let text = file(
            &edge,
            "(edge: 1, course: 1, bottom: 150000000, top: 100000000)",
            "",
        );
        let name = format!("{at}.ron");
        std::fs::write(bench.folder().join(&name), text).unwrap();
        let output = bench.command(&["sheet", &name, "--format", "csv"]);
        let text = String::from_utf8(output.stdout).unwrap();
        let row = text.lines().nth(1).unwrap();
        assert!(row.trim_start_matches('"').starts_with('\''), "{row}");
    }
}

#[test]
fn pipes_devices_folders_and_circles_of_links_are_no_job() {
    let bench = Bench::new();
    let folder = bench.folder();
    assert!(
        Command::new("mkfifo")
            .arg(folder.join("pipe"))
            .status()
            .unwrap()
            .success()
    );
    let link = |to: &str, name: &str| std::os::unix::fs::symlink(to, folder.join(name)).unwrap();
    link("b", "a");
    link("a", "b");
    link("/dev/zero", "zero");
    link("nowhere", "dangling");
    let mut said = String::new();
    for name in ["pipe", "a", "zero", "dangling", "."] {
        for args in [["sheet", name].as_slice(), &["import", name, "none.csv"]] {
            let output = run(&bench, Path::new("none"), &args.join(" "));
            assert_eq!(output.status.code(), Some(1));
            said.push_str(&String::from_utf8(output.stderr).unwrap());
        }
    }
    for name in ["pipe", "zero", "."] {
        let output = run(
            &bench,
            Path::new("none"),
            &format!("import roof.ron {name}"),
        );
        assert_eq!(output.status.code(), Some(1));
        said.push_str(&String::from_utf8(output.stderr).unwrap());
    }
    // Nothing is made through a link that leads nowhere.
    let output = run(&bench, Path::new("none"), "new dangling");
    said.push_str(&String::from_utf8(output.stderr).unwrap());
    assert!(!folder.join("nowhere").exists());
    insta::assert_snapshot!(said, @r#"
    bendmark: "pipe": it is a pipe or a device, expected a file; no readable copy of it is there, expected a job file
    bendmark: "pipe": it is a pipe or a device, expected a file; no readable copy of it is there, expected a job file
    bendmark: "a": too many levels of symbolic links; no readable copy of it is there, expected a job file
    bendmark: "a": too many levels of symbolic links; no readable copy of it is there, expected a job file
    bendmark: "zero": it is a pipe or a device, expected a file; no readable copy of it is there, expected a job file
    bendmark: "zero": it is a pipe or a device, expected a file; no readable copy of it is there, expected a job file
    bendmark: "dangling": there is no such file, expected a job: make one with "bendmark new"
    bendmark: "dangling": there is no such file, expected a job: make one with "bendmark new"
    bendmark: ".": it is a folder, expected a file
    bendmark: ".": it is a folder, expected a file
    bendmark: "pipe": it is a pipe or a device, expected a file
    bendmark: "zero": it is a pipe or a device, expected a file
    bendmark: ".": it is a folder, expected a file
    bendmark: "dangling" is already there, expected a name not yet taken: open it, or choose another
    "#);
}

#[test]
fn a_pipe_in_the_place_of_what_lies_beside_a_job_keeps_nobody() {
    let bench = Bench::new();
    let more = "edge,kind,hand,course,bottom,top\nEast,hip,right,1,20,8 1/4\n";
    std::fs::write(bench.folder().join("more.csv"), more).unwrap();
    for end in ["lock", "bak", "new-1"] {
        let pipe = bench.folder().join(format!("roof.ron.{end}"));
        let made = Command::new("mkfifo").arg(pipe).status().unwrap();
        assert!(made.success());
    }
    std::fs::write(bench.folder().join("copies"), "a file").unwrap();
    // A job is written under its lock or not at all.
    let output = run(&bench, &bench.job, "import roof.ron more.csv");
    let said = String::from_utf8(output.stderr).unwrap();
    insta::assert_snapshot!(said, @r#"bendmark: "roof.ron" may only be read: something else has the name of its lock file; nothing was changed: put that right, then try again"#);
    assert_eq!(output.status.code(), Some(1));
    std::fs::remove_file(bench.folder().join("roof.ron.lock")).unwrap();
    let output = run(&bench, &bench.job, "import roof.ron more.csv");
    let said = String::from_utf8(output.stderr).unwrap();
    assert!(output.status.success(), "{said}");
    insta::assert_snapshot!(said, @r#"bendmark: "roof.ron": no version was kept of what was there before: a part of the path is a file, expected a folder"#);
    let text = std::fs::read_to_string(&bench.job).unwrap();
    assert!(text.contains("East"));
}

#[test]
fn readings_that_mean_harm_are_refused_row_by_row() {
    let bench = Bench::new();
    let head = "edge,kind,hand,course,bottom,top\n";
    let cases = [
        format!("{head}\"{}", "x".repeat(1_000_000)),
        format!("{head}{}", ",".repeat(1_000_000)),
        format!("{head}{},hip,left,1,2,1\n", "x".repeat(1_000_000)),
        format!("{head}a,hip,left,{},2,1\n", "9".repeat(1_000_000)),
        format!("{head}a,hip,left,1,{},1\n", "9".repeat(1_000_000)),
        format!("{head}a,hip,left,1,1/{},1\n", "0".repeat(1_000_000)),
        format!("{head}\u{1b}[2J,hip\u{202e},left,1,2,1\n"),
        "edge,".repeat(200_000),
        "\0".repeat(1_000_000),
    ];
    for csv in cases {
        let path = bench.folder().join("x.csv");
        std::fs::write(&path, &csv).unwrap();
        let output = run(&bench, &path, "import roof.ron x.csv");
        let said = String::from_utf8(output.stderr).unwrap();
        let code = output.status.code();
        assert!(is_harmless(&said) && said.len() < 3_000, "{said:.3000}");
        assert!(code == Some(1) || code == Some(0), "{code:?} {said}");
        println!("{} bytes: {code:?} {}", csv.len(), said.trim_end());
    }
    // Names of any length are shortened, not refused; all else is.
    assert!(std::fs::read_to_string(&bench.job).unwrap().len() < 20_000);
}
