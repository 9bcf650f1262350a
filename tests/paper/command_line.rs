//! The options that say what goes on paper and where it is put.

use crate::bench::{Bench, SAMPLES};

const JOB: &str = "alder-court-inches.ron";

#[test]
fn a_sheet_goes_to_a_file_and_never_over_another_unasked() {
    let bench = Bench::new();
    let args = [
        "sheet",
        JOB,
        "--format",
        "html",
        "--output",
        "a.html",
        "--printed-at",
        "2026-11-26 14:05",
    ];
    insta::assert_snapshot!(bench.done(&args), @r#""a.html" written"#);
    let written = bench.read("a.html");
    let again = bench.done(&[
        "sheet",
        JOB,
        "--format",
        "html",
        "--printed-at",
        "2026-11-26 14:05",
    ]);
    assert_eq!(written, again);
    bench.write("a.html", "my own notes");
    insta::assert_snapshot!(bench.refused(1, &args), @r#"bendmark: "a.html" does not begin as a sheet or form of bendmark's and is never written over: choose another name, or move it away"#);
    // Not by any word: nobody else has a copy of it.
    bench.refused(1, &[&args[..], &["--force"]].concat());
    assert_eq!(bench.read("a.html"), "my own notes");
    bench.write("a.html", "CUT SHEET  of yesterday\n");
    insta::assert_snapshot!(bench.refused(1, &args), @r#"bendmark: "a.html" is already there, expected a name not yet taken: choose another, or overwrite it with --force"#);
    bench.done(&[&args[..], &["--force"]].concat());
    assert_eq!(bench.read("a.html"), written);
}

#[test]
fn a_sheet_is_kept_to_edges_by_name_or_short_name() {
    let bench = Bench::new();
    let by_short = bench.done(&["sheet", JOB, "--edge", "h2", "--format", "csv"]);
    let by_name = bench.done(&[
        "sheet",
        JOB,
        "--edge",
        "North slope, north-west hip",
        "--format",
        "csv",
    ]);
    assert_eq!(by_short, by_name);
    assert!(
        by_short
            .lines()
            .skip(1)
            .all(|line| line.contains("north-west"))
    );
    let message = bench.refused(1, &["sheet", JOB, "--edge", "H9"]);
    assert!(
        message.contains("\"H9\" is no edge of this job, expected one of H1 ("),
        "{message}"
    );
}

#[test]
fn a_width_goes_with_text_only_and_has_bounds() {
    let bench = Bench::new();
    for line in bench.done(&["sheet", JOB, "--width", "42"]).lines() {
        assert!(line.chars().count() <= 42, "{line}");
    }
    for args in [
        &["sheet", JOB, "--width", "41"][..],
        &["sheet", JOB, "--width", "42", "--format", "csv"],
        &["form", JOB, "--width", "80", "--format", "html"],
        &["form", JOB, "--courses", "0"],
        &["sheet", JOB, "--force"],
        &["sheet", JOB, "--pictures"],
        &["sheet", JOB, "--boxes", "--format", "json"],
        &["sheet", JOB, "--format", "html", "--boxes", "--pictures"],
        &["sheet", JOB, "--printed-at", "noon"],
        &["form", JOB, "--from", "left"],
        &["form", JOB, "--fill", "--format", "text"],
    ] {
        assert!(bench.refused(2, args).contains("--"), "{args:?}");
    }
}

#[test]
fn the_day_and_time_asked_for_are_printed_and_others_are_refused_by_name() {
    let bench = Bench::new();
    let at = ["--printed-at", "2026-11-26 14:05"];
    for format in ["text", "html"] {
        let args = [&["sheet", JOB, "--format", format], &at[..]].concat();
        assert!(bench.done(&args).contains("printed 2026-11-26 14:05"));
        // Else the clock's, and whose it is.
        let now = bench.done(&["sheet", JOB, "--format", format]);
        assert!(now.contains(" UTC"), "{now}");
    }
    for wrong in [
        "2026-02-30 14:05",
        "2026-11-26 24:00",
        "26.11.2026",
        "2026-11-26 1:5",
    ] {
        let message = bench.refused(2, &["sheet", JOB, "--printed-at", wrong]);
        let words = format!("\"{wrong}\" is no day and time, expected one such as");
        assert!(message.contains(&words), "{message}");
    }
}

#[test]
fn a_form_gives_an_edge_not_yet_logged_the_courses_asked_for() {
    let bench = Bench::new();
    bench.done(&["new", "new.ron"]);
    let form = bench.done(&["form", "new.ron", "--courses", "9"]);
    assert!(form.contains("top 9 ") && !form.contains("top 10 "));
    // The eave is at the bottom of the page, unless it is asked for at its head.
    let above = |form: &str| form.find("top 9 ") < form.find("top 1 ");
    assert!(above(&form));
    let eave = ["form", "new.ron", "--courses", "9", "--from", "eave"];
    assert!(!above(&bench.done(&eave)));
    // An edge that is logged keeps its own.
    assert_eq!(
        bench.done(&["form", JOB, "--courses", "3"]),
        bench.done(&["form", JOB])
    );
}

#[cfg(windows)]
#[test]
fn paths_are_those_that_the_system_names_and_follow_the_option() {
    let bench = Bench::new();
    let said = bench.done(&["paths"]);
    for usual in [
        r"\AppData\Roaming\bendmark\data\jobs",
        r"\AppData\Local\bendmark\",
    ] {
        assert!(said.contains(usual), "{said}");
    }
    let said = bench.done(&["--data-dir", r"E:\stick", "paths"]);
    assert!(said.contains(r"jobs      E:\stick\jobs"), "{said}");
}

#[test]
fn a_form_to_fill_in_is_a_page_and_no_text() {
    let bench = Bench::new();
    let said = bench.refused(2, &["form", JOB, "--fill"]);
    let words = "--fill with --format text, expected --format html";
    assert!(said.contains(words), "{said}");
    let asked = [
        "form", JOB, "--format", "html", "--fill", "--output", "a.html",
    ];
    bench.done(&asked);
    // It is known as a form of the program's own.
    bench.done(&[&asked[..], &["--force"]].concat());
}

#[cfg(unix)]
#[test]
fn paths_follow_the_environment_and_the_option() {
    let bench = Bench::new();
    let home = bench.path("");
    let home = home.display().to_string();
    let said = bench
        .done(&["paths"])
        .replace(home.trim_end_matches('/'), "~");
    insta::assert_snapshot!(said);
    let mut command = bench.command(&["paths"]);
    command
        .env("XDG_DATA_HOME", "/srv/data")
        .env("XDG_CONFIG_HOME", "/srv/config")
        .env("XDG_STATE_HOME", "/srv/state");
    let output = command.output().unwrap();
    insta::assert_snapshot!(String::from_utf8(output.stdout).unwrap());
    insta::assert_snapshot!(bench.done(&["--data-dir", "/mnt/stick", "paths"]));
    assert_eq!(
        bench.done(&["--data-dir", "/mnt/stick", "paths"]),
        bench.done(&["paths", "--data-dir", "/mnt/stick"])
    );
}

#[test]
fn completions_and_the_manual_page_name_every_command() {
    let bench = Bench::new();
    for shell in ["bash", "zsh", "fish"] {
        let script = bench.done(&["completions", shell]);
        for word in ["sheet", "form", "import", "paths", "--dry-run", "dry-run"] {
            assert!(
                script.contains(word.trim_start_matches('-')),
                "{shell}: {word}"
            );
        }
    }
    let page = bench.done(&["man"]);
    assert!(
        page.starts_with(".ie") || page.contains(".TH bendmark"),
        "{page}"
    );
    for command in [
        "new",
        "import",
        "check",
        "sheet",
        "form",
        "paths",
        "completions",
        "man",
    ] {
        let help = bench.done(&[command, "--help"]);
        assert!(help.starts_with("Examples:\n"), "{command}");
        assert!(page.contains(command), "{command}");
    }
}

#[test]
fn nothing_is_left_of_a_sheet_whose_file_cannot_be_made() {
    let bench = Bench::new();
    for name in SAMPLES {
        let job = format!("{name}.ron");
        let message = bench.refused(1, &["sheet", &job, "--output", "no-such/a.txt"]);
        assert!(message.contains("\"no-such/a.txt\""), "{message}");
    }
}
