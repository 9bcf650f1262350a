//! The real program from the command line: results, messages, exit codes.
//!
//! Over 400 lines: one claim a test, a command each.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    reason = "a failing test may panic"
)]

mod here;
mod kills;
mod output;

use bendmark::domain::bench::{Fact, MarkedStock, Progress};
use bendmark::domain::cutting::CutList;
use bendmark::domain::log::{EdgeDetail, End, Reading, SecondTrip, Trip};
#[cfg(target_os = "linux")]
mod memory;
mod messages;

use bendmark::domain::roof::EdgeKind;
use bendmark::domain::settings::{RawSettings, Setting, Settings};
use bendmark::domain::tape::Unit;
use bendmark::storage::job_file;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output, Stdio};
use tempfile::TempDir;

/// A folder of its own in which the program is run.
struct Bench(TempDir);

/// What the program said and how it ended.
#[derive(Debug)]
struct Said {
    code: i32,
    out: String,
    err: String,
}

impl From<Output> for Said {
    fn from(output: Output) -> Self {
        Self {
            code: output.status.code().expect("ended by itself"),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }
}

const READINGS: &str = "\
edge,kind,hand,course,bottom,top
North hip,hip,left,1,23 5/8,11 7/8
North hip,hip,left,2,11 7/8,1/8
South hip,hip,right,1,40,28 1/4
";

const MORE: &str = "edge,kind,hand,course,bottom,top\nEast,hip,left,1,20,8 1/4\n";

impl Bench {
    fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    /// One with a job `roof.ron` and [`READINGS`] in it.
    fn with_readings() -> Self {
        let bench = Self::new();
        bench.done(&["new", "roof.ron"]);
        bench.write("readings.csv", READINGS);
        bench.done(&["import", "roof.ron", "readings.csv"]);
        bench
    }

    fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_bendmark"));
        command
            .args(args)
            .current_dir(self.0.path())
            .env_clear()
            .env("HOME", self.0.path())
            .stdin(Stdio::null());
        command
    }

    fn run(&self, args: &[&str]) -> Said {
        self.command(args).output().unwrap().into()
    }

    #[track_caller]
    fn done(&self, args: &[&str]) -> String {
        let said = self.run(args);
        assert_eq!((said.code, said.err.as_str()), (0, ""), "{args:?}");
        said.out
    }

    /// The message of a run that ends with `code`, and says no more.
    #[track_caller]
    fn refused(&self, code: i32, args: &[&str]) -> String {
        let said = self.run(args);
        assert_eq!((said.code, said.out.as_str()), (code, ""), "{args:?}");
        assert!(said.err.starts_with("bendmark: "), "{}", said.err);
        said.err
    }

    fn write(&self, name: &str, text: &str) {
        std::fs::write(self.0.path().join(name), text).unwrap();
    }

    fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.0.path().join(name)).unwrap()
    }

    fn has(&self, name: &str) -> bool {
        self.0.path().join(name).exists()
    }

    /// Changes the job file as an editor would, leaving its checksum line.
    fn edit(&self, name: &str) {
        let text = self.read(name).replace("\"North hip\"", "\"North Hip\"");
        self.write(name, &text);
    }
}

#[test]
fn a_job_is_made_filled_and_written_out() {
    let bench = Bench::new();
    let mut said = bench.done(&["new", "roof.ron", "--name", "Heron Lane"]);
    bench.write("readings.csv", READINGS);
    said += &bench.done(&["import", "roof.ron", "readings.csv"]);
    said += &bench.done(&["sheet", "roof.ron", "--format", "json"]);
    said += &bench.done(&["sheet", "roof.ron", "--format", "csv"]);
    insta::assert_snapshot!(said);
}

#[test]
fn the_sheet_is_text_where_no_format_is_given() {
    let bench = Bench::with_readings();
    // The minute may turn between the two.
    let undated = |args: &[&str]| {
        let text = bench.done(args);
        let rows = text.lines().filter(|row| !row.starts_with("printed "));
        rows.map(|row| format!("{row}\n")).collect::<String>()
    };
    let text = undated(&["sheet", "roof.ron"]);
    assert_eq!(text, undated(&["sheet", "roof.ron", "--format", "text"]));
    assert!(text.starts_with("CUT SHEET  roof\n"));
}

#[test]
fn every_setting_can_be_given_and_is_written_down() {
    let bench = Bench::new();
    let mut args = vec!["new".to_owned(), "roof.ron".to_owned()];
    let mut expected = RawSettings::default();
    for setting in Setting::ALL {
        let input = match setting {
            Setting::Along(_) => continue,
            Setting::Division => "0.5",
            Setting::PanelWidth => "1230",
            Setting::CarryMore => "15",
            Setting::Pause => "45",
            // Within every other setting's range.
            _ => setting.choices().last().copied().unwrap_or("90.5"),
        };
        setting.write(&mut expected, input).unwrap();
        args.push(format!("--{}", setting.option()));
        args.push(input.to_owned());
    }
    bench.done(&args.iter().map(String::as_str).collect::<Vec<_>>());
    let decoded = job_file::decode(bench.read("roof.ron").as_bytes()).unwrap();
    assert_eq!(decoded.job.settings, Settings::checked(expected).unwrap());
}

#[test]
fn a_job_that_is_there_is_never_overwritten() {
    let bench = Bench::with_readings();
    let before = bench.read("roof.ron");
    insta::assert_snapshot!(bench.refused(1, &["new", "roof.ron"]), @r#"bendmark: "roof.ron" is already there, expected a name not yet taken: open it, or choose another"#);
    assert_eq!(bench.read("roof.ron"), before);
}

#[test]
fn every_bad_row_is_reported_and_nothing_is_changed() {
    let bench = Bench::with_readings();
    let before = bench.read("roof.ron");
    let rows = "\
North hip,hip,left,3,12,1/2
North hip,hip,left,1,24,11 7/8
North hip,hip,right,4,12,1
North hip,hip,left,0,12,1
East,hipp,left,1,12,5/7
East,hip,up,1,-3,1
East,hip,left,2,120 m,
";
    bench.write(
        "bad.csv",
        &format!("edge,kind,hand,course,bottom,top\n{rows}"),
    );
    insta::assert_snapshot!(bench.refused(1, &["import", "roof.ron", "bad.csv"]));
    assert_eq!(bench.read("roof.ron"), before);
}

#[test]
fn readings_logged_already_are_skipped() {
    let bench = Bench::with_readings();
    let before = bench.read("roof.ron");
    insta::assert_snapshot!(bench.done(&["import", "roof.ron", "readings.csv"]), @r#""roof.ron": courses added: 0, logged already: 3, new edges: 0"#);
    assert_eq!(bench.read("roof.ron"), before);
}

#[test]
fn an_import_says_two_readings_and_doubts_as_a_dry_run_does() {
    let bench = Bench::with_readings();
    bench.write("first.csv", &READINGS.replace("28 1/4", "29 1/4"));
    // The log was never said by this sheet's row: typed otherwise since.
    let file = bench.read("roof.ron");
    let mut lines = file.lines();
    let line = lines.find(|line| line.contains("top: 717550000"));
    let line = line.unwrap().trim();
    let said = line.replace(", as_said: true", "");
    let logged = said.replace("717550000", "730250000");
    let said = format!("    said: [{said}],\n    events:");
    let typed = file.replace(line, &logged).replace("    events:", &said);
    bench.write("roof.ron", &typed);
    let args = ["import", "roof.ron", "first.csv", "--accept-edited"];
    let dry = bench
        .run(&["import", "roof.ron", "first.csv", "--dry-run"])
        .out;
    insta::assert_snapshot!(dry, @r#"
    "roof.ron": courses to add: 0, logged already: 2, new edges: 0
    South hip: two readings of course 1 top: the log has 28 3/4 in, the sheet 29 1/4 in
    nothing was written: this was a dry run
    "#);
    let done = bench.run(&args).out;
    insta::assert_snapshot!(done, @r#"
    "roof.ron": courses added: 0, logged already: 2, new edges: 0
    South hip: two readings of course 1 top: the log has 28 3/4 in, the sheet 29 1/4 in
    "#);
    let after = bench.read("roof.ron");
    assert_eq!(bench.done(&args[..3]).lines().count(), 2);
    assert_eq!(bench.read("roof.ron"), after);
    let said = bench.run(&["check", "roof.ron"]);
    assert_eq!(said.code, 1);
    assert!(
        said.out
            .starts_with("South hip: two readings of course 1 top"),
        "{}",
        said.out
    );
    let sheet = bench.done(&["sheet", "roof.ron"]);
    assert!(
        sheet.contains("HELD, choose one in the Log first"),
        "{sheet}"
    );
}

#[test]
fn doubts_that_come_and_go_are_said_after_an_import() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    let rows = |slip: i32| -> String {
        let row = |course| {
            let bottom = 14 + (100 - 12 * course) % 46;
            let read = bottom + if course == 5 { slip } else { 0 };
            format!("North,hip,left,{course},{read},{}\n", bottom - 12)
        };
        let head = "edge,kind,hand,course,bottom,top\n".to_owned();
        (1..=7).fold(head, |text, course| text + &row(course))
    };
    bench.write("roof.csv", &rows(1));
    insta::assert_snapshot!(bench.done(&["import", "roof.ron", "roof.csv"]), @r#"
    "roof.ron": courses added: 7, logged already: 0, new edges: 1
    doubtful now: North: course 5 bottom likely 54 in (an inch too much)
    "#);
    bench.write("roof.csv", &rows(0));
    insta::assert_snapshot!(bench.done(&["import", "roof.ron", "roof.csv"]), @r#"
    "roof.ron": courses added: 0, logged already: 6, new edges: 0, changed: 1
    no longer doubtful: North: course 5 bottom likely 54 in (an inch too much)
    "#);
}

#[test]
fn check_says_a_hole_in_the_log() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    let rows = [1, 2, 4, 7].map(|course| {
        let bottom = 14 + (100 - 12 * course) % 46;
        format!("North,hip,left,{course},{bottom},{}\n", bottom - 12)
    });
    let rows = format!("edge,kind,hand,course,bottom,top\n{}", rows.concat());
    bench.write("roof.csv", &rows);
    bench.done(&["import", "roof.ron", "roof.csv"]);
    insta::assert_snapshot!(bench.run(&["check", "roof.ron"]).out, @r"
    North: course 3 not read yet
    North: courses 5 to 6 not read yet
    note: North: fewer than five courses and no slope said: all that is checked is which end is the wider one
    ");
}

#[test]
fn check_says_a_gap_over_laid_pieces_that_is_off_the_cover() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron", "--second-trip", "yes"]);
    let rows = "edge,kind,hand,course,bottom,top\nNorth,hip,left,1,70,58\n";
    bench.write("roof.csv", rows);
    bench.done(&["import", "roof.ron", "roof.csv"]);
    let path = bench.0.path().join("roof.ron");
    let mut job = job_file::decode(&std::fs::read(&path).unwrap())
        .unwrap()
        .job;
    let id = job.edges()[0].id;
    let edge = job.edge_mut(id).unwrap();
    let mut course = edge.courses()[0];
    let read = |text| Reading::parse(text, Unit::Inch).ok();
    course.trip = Some(Trip::Second(SecondTrip {
        bottom: read("23 1/2"),
        top: read("11"),
        ..SecondTrip::waiting(2)
    }));
    edge.put(course);
    std::fs::write(&path, job_file::encode(&job).unwrap()).unwrap();
    let checked = bench.run(&["check", "roof.ron"]);
    let words =
        "H1-1.2 L: the gap over the laid pieces is read 11 in at the top, by the cover 12 in";
    assert!(checked.out.contains(words), "{}", checked.out);
    assert_eq!(checked.code, 1);
}

#[test]
fn millimetres_imported_into_an_inch_job_are_one_doubt_about_the_edge() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    let rows = (1..=6).map(|course| {
        let bottom = 2_300 - 311 * course;
        format!("North,hip,left,{course},{bottom},{}\n", bottom - 311)
    });
    let rows = format!(
        "edge,kind,hand,course,bottom,top\n{}",
        rows.collect::<String>()
    );
    bench.write("roof.csv", &rows);
    insta::assert_snapshot!(bench.done(&["import", "roof.ron", "roof.csv"]), @r#"
    "roof.ron": courses added: 6, logged already: 0, new edges: 1
    doubtful now: North: all of the edge likely millimetres, written as inches
    "#);
}

#[test]
fn the_same_figures_as_another_edges_are_taken_only_when_that_is_said() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    let rows: String = (1..5)
        .flat_map(|course| {
            ["A", "B"].map(|edge| {
                format!(
                    "{edge},hip,left,{course},{},{}\n",
                    50 - 4 * course,
                    46 - 4 * course
                )
            })
        })
        .collect();
    bench.write(
        "roof.csv",
        &format!("edge,kind,hand,course,bottom,top\n{rows}"),
    );
    let before = bench.read("roof.ron");
    insta::assert_snapshot!(bench.refused(1, &["import", "roof.ron", "roof.csv"]), @r#"
    bendmark: "roof.csv": "B": same figures as "A": another name?
    bendmark: "roof.csv": nothing was imported: --same-figures takes it where they are two edges
    "#);
    assert_eq!(bench.read("roof.ron"), before);
    let args = ["import", "roof.ron", "roof.csv", "--same-figures"];
    insta::assert_snapshot!(bench.done(&args), @r#""roof.ron": courses added: 8, logged already: 0, new edges: 2"#);
}

#[test]
fn what_is_said_of_an_edge_is_filled_in_and_saved() {
    let bench = Bench::with_readings();
    bench.write(
        "roof.csv",
        "edge,kind,hand,course,bottom,top,slope,plane\n\
        North hip,hip,left,1,23 5/8,11 7/8,6 in 12,North slope\n",
    );
    let args = ["import", "roof.ron", "roof.csv"];
    insta::assert_snapshot!(bench.done(&args), @r#"
    "roof.ron": courses added: 0, logged already: 1, new edges: 0, edges filled in: 1
    doubtful now: North hip: all of the edge narrows 12 1/2+ in a course by the slope, not as read (cause not clear)
    no longer doubtful: North hip: course 2, both readings likely 2 in too short (read to the panel's edge)
    "#);
    assert!(
        bench
            .read("roof.ron")
            .contains("slope: RiseIn12(600000), plane: \"North slope\"")
    );
    insta::assert_snapshot!(bench.done(&args), @r#""roof.ron": courses added: 0, logged already: 1, new edges: 0"#);
}

#[test]
fn a_bad_row_names_the_slope_it_does_not_go_with() {
    let bench = Bench::with_readings();
    let before = bench.read("roof.ron");
    bench.write(
        "bad.csv",
        "edge,kind,hand,course,bottom,top,slope\n\
        East,hip,left,1,12,1/2,6 in 12\n\
        East,hip,left,2,12,1/2,50 %\n",
    );
    insta::assert_snapshot!(bench.refused(1, &["import", "roof.ron", "bad.csv"]), @r#"
    bendmark: "bad.csv": 1 bad row, nothing was imported
    bendmark: "bad.csv": line 3: slope of "East" is "6 in 12" on line 2 already, the row says "50 %"
    "#);
    assert_eq!(bench.read("roof.ron"), before);
}

#[test]
fn readings_come_through_a_pipe_too() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    let mut child = bench
        .command(&["import", "roof.ron", "-"])
        .stdin(Stdio::piped())
        .stdout(Stdio::piped())
        .spawn()
        .unwrap();
    child
        .stdin
        .take()
        .unwrap()
        .write_all(READINGS.as_bytes())
        .unwrap();
    let said = Said::from(child.wait_with_output().unwrap());
    assert_eq!(said.code, 0, "{said:?}");
    assert!(bench.read("roof.ron").contains("North hip"));
}

#[test]
fn what_could_not_be_done_ends_with_1_and_says_why() {
    let bench = Bench::with_readings();
    bench.write("empty.csv", "");
    bench.write("unknown.csv", "edge,kind,hand,course,bottom,top,colour\n");
    bench.write("short.csv", "edge,kind,hand\n");
    bench.write("other.ron", "(version: 9)\n");
    bench.write("notes.txt", "buy gloves\n");
    let mut said = String::new();
    for args in [
        &["sheet", "missing.ron"][..],
        &["sheet", "."],
        &["sheet", "other.ron"],
        &["sheet", "notes.txt"],
        &["import", "missing.ron", "readings.csv"],
        &["import", "roof.ron", "missing.csv"],
        &["import", "roof.ron", "empty.csv"],
        &["import", "roof.ron", "unknown.csv"],
        &["import", "roof.ron", "short.csv"],
        &["new", "no-such-folder/roof.ron"],
    ] {
        let _ = writeln!(said, "$ bendmark {}", args.join(" "));
        said += &bench.refused(1, args);
    }
    insta::assert_snapshot!(said);
}

#[test]
fn wrong_usage_ends_with_2_and_says_what_was_expected() {
    let bench = Bench::with_readings();
    let mut said = String::new();
    for args in [
        &["new"][..],
        &["new", "a.ron", "--panel-width", "13 5/7"],
        &["new", "a.ron", "--panel-width", "4.8"],
        &["new", "a.ron", "--turn-up", "abc"],
        &["new", "a.ron", "--allowance", "2", "--turn-up", "2"],
        &["new", "a.ron", "--blade", "middle"],
        &["new", "a.ron", "--units", "mm", "--division", "1/16"],
        &["new", "a.ron", "--name", " "],
        &["new", "a.ron", "--panel-wide", "48"],
        &["import", "roof.ron"],
        &["sheet", "roof.ron", "--format", "xml"],
        &["roof.ron", "sheet"],
        &["roof.ron", "sheet", "other.ron"],
        &["roof.ron", "other.ron"],
        &["roof.ron", "nwe"],
        &["--fast"],
    ] {
        let _ = writeln!(said, "$ bendmark {}", args.join(" "));
        said += &bench.refused(2, args);
    }
    assert!(!bench.has("a.ron"));
    insta::assert_snapshot!(said);
}

#[test]
fn without_a_terminal_one_line_says_so_and_it_ends_with_2() {
    let bench = Bench::with_readings();
    for args in [&[][..], &["roof.ron"], &["./new"]] {
        let message = bench.refused(2, args);
        assert_eq!(message.lines().count(), 1);
        assert!(message.contains("needs a terminal"), "{message}");
    }
}

#[test]
fn help_starts_with_examples() {
    let bench = Bench::new();
    for args in [
        &["--help"][..],
        &["new", "--help"],
        &["import", "-h"],
        &["sheet", "-h"],
    ] {
        assert!(bench.done(args).starts_with("Examples:\n"), "{args:?}");
    }
    assert_eq!(
        bench.done(&["--version"]),
        format!(
            "bendmark {} ({}, {})\n",
            env!("CARGO_PKG_VERSION"),
            env!("BENDMARK_COMMIT"),
            env!("BENDMARK_TARGET")
        )
    );
}

#[test]
fn both_ways_to_give_an_allowance_are_options() {
    let help = Bench::new().done(&["new", "--help"]);
    for kind in EdgeKind::ALL {
        for setting in [Setting::Along(kind), Setting::Standing(kind)] {
            assert!(help.contains(&format!("--{} ", setting.option())));
        }
    }
}

#[test]
fn every_column_of_a_sheet_is_named_in_the_help_of_import() {
    let help = Bench::new().done(&["import", "--help"]);
    let of_edges = EdgeDetail::ALL.map(EdgeDetail::column);
    let of_courses = ["edge", "kind", "hand", "course", "bottom", "top"];
    let columns = of_courses.into_iter().chain(["height", "runs_out", "to"]);
    for column in columns.chain(of_edges) {
        let named = |part: &str| part.trim() == column;
        let is_there = help.split([',', ' ', '.', '\n', ':']).any(named);
        assert!(is_there, "{column}");
    }
}

#[test]
fn a_job_path_is_used_exactly_as_written() {
    let bench = Bench::new();
    for path in [
        "plain",
        "with blank.txt",
        "./new",
        "grün.ron",
        "a.ron.bak.1",
    ] {
        bench.done(&["new", path]);
        assert!(bench.has(path), "{path}");
        bench.done(&["sheet", path]);
    }
    bench.done(&["new", "--", "-dash"]);
    assert!(Path::new(&bench.0.path().join("-dash")).exists());
}

#[test]
fn a_job_edited_by_hand_is_read_with_a_warning() {
    let bench = Bench::with_readings();
    bench.edit("roof.ron");
    let said = bench.run(&["sheet", "roof.ron", "--format", "csv"]);
    assert_eq!(said.code, 0);
    assert!(said.out.contains("\nNorth Hip,hip,left,1,"));
    insta::assert_snapshot!(said.err, @r#"bendmark: "roof.ron": it does not match its checksum line: edited by hand or damaged; its copy "roof.ron.bak" has North Hip: not in it, here 4 readings; South hip: not in it, here 2 readings"#);
}

#[test]
fn a_job_edited_by_hand_is_written_only_where_that_is_accepted() {
    let bench = Bench::with_readings();
    bench.edit("roof.ron");
    bench.write("more.csv", MORE);
    let before = bench.read("roof.ron");
    let args = ["import", "roof.ron", "more.csv"];
    insta::assert_snapshot!(bench.refused(1, &args), @r#"bendmark: "roof.ron": it does not match its checksum line: edited by hand or damaged; its copy "roof.ron.bak" has North Hip: not in it, here 4 readings; South hip: not in it, here 2 readings; nothing was changed: look it over with "bendmark sheet", then go on with --accept-edited"#);
    assert_eq!(bench.read("roof.ron"), before);
    let said = bench.run(&["import", "roof.ron", "more.csv", "--accept-edited"]);
    assert_eq!(said.code, 0, "{said:?}");
    // From now on it is as it was saved.
    assert!(bench.done(&["sheet", "roof.ron"]).contains("East"));
}

/// Each form says on the page that it was not made from the file as it was saved.
#[track_caller]
fn is_said_on_each_page(bench: &Bench, words: &str) {
    for format in ["text", "csv", "json", "html"] {
        let said = bench.run(&["sheet", "roof.ron", "--format", format]);
        assert_eq!(said.code, 0);
        let page = said.out.replace('\n', " ").replace("&quot;", "\"");
        assert!(page.contains(words), "{format}: {page}");
    }
}

#[test]
fn a_sheet_from_an_edited_file_or_a_copy_says_so_on_the_page_in_every_form() {
    let bench = Bench::with_readings();
    bench.edit("roof.ron");
    is_said_on_each_page(&bench, "edited by hand or damaged");
    let bench = Bench::with_readings();
    bench.write("more.csv", MORE);
    bench.done(&["import", "roof.ron", "more.csv"]);
    bench.write("roof.ron", "(version: 2");
    is_said_on_each_page(&bench, "it cannot be read");
    let bench = Bench::with_readings();
    let said = bench.done(&["sheet", "roof.ron", "--format", "csv"]);
    assert!(!said.contains(",file"), "{said}");
}

#[test]
fn check_ends_with_2_where_only_a_copy_can_be_read_and_says_what_is_in_each() {
    let bench = Bench::with_readings();
    bench.write("more.csv", MORE);
    bench.done(&["import", "roof.ron", "more.csv"]);
    bench.write("roof.ron", "(version: 2");
    let said = bench.run(&["check", "roof.ron"]);
    assert_eq!(said.code, 2, "{said:?}");
    let copy = "copy \"roof.ron.bak\": whole, 1 changes, 0 of 3 stacked, 0 steps, 6 readings";
    assert!(said.err.contains(copy), "{}", said.err);
    std::fs::write(bench.0.path().join("roof.ron.bak"), "(").unwrap();
    let said = bench.run(&["check", "roof.ron"]);
    assert!(
        said.err.contains("copy \"roof.ron.bak\": cannot be read"),
        "{}",
        said.err
    );
}

#[test]
fn check_ends_with_1_for_a_hole_in_the_log_and_for_an_edited_file() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    bench.write(
        "readings.csv",
        "edge,kind,hand,course,bottom,top\nEast,hip,left,1,20,8 1/4\nEast,hip,left,3,40,28 1/4\n",
    );
    bench.done(&["import", "roof.ron", "readings.csv"]);
    let said = bench.run(&["check", "roof.ron"]);
    assert_eq!(said.code, 1);
    assert!(
        said.out.contains("East: course 2 not read yet"),
        "{}",
        said.out
    );
    let bench = Bench::with_readings();
    bench.edit("roof.ron");
    assert_eq!(bench.run(&["check", "roof.ron"]).code, 1);
}

#[test]
fn a_course_that_owes_a_piece_says_why_in_every_form_and_in_check() {
    let bench = Bench::new();
    bench.done(&["new", "roof.ron"]);
    bench.write(
        "readings.csv",
        "edge,kind,hand,course,bottom,top,height\nEast,hip,left,1,40,28 1/4,\nEast,hip,left,2,28 1/4,,\nEast,hip,left,3,20,8 1/4,30\n",
    );
    bench.done(&["import", "roof.ron", "readings.csv"]);
    let mut pages = vec![bench.run(&["check", "roof.ron"]).out];
    for format in ["text", "csv", "json", "html"] {
        pages.push(bench.done(&["sheet", "roof.ron", "--format", format]));
    }
    for page in pages {
        let page = page.replace('\n', " ").replace("&#39;", "'");
        for words in [
            "top not read yet",
            "course height 30 in is over the panel's 14 in",
        ] {
            assert!(page.contains(words), "{words}: {page}");
        }
    }
}

#[test]
fn check_ends_with_1_for_a_marked_piece_that_no_longer_fits() {
    let bench = Bench::with_readings();
    let path = bench.0.path().join("roof.ron");
    let mut job = job_file::decode(&std::fs::read(&path).unwrap())
        .unwrap()
        .job;
    let list = CutList::of(&job, &Progress::of(job.events()));
    let marked = Fact::Marked {
        piece: list.pieces[0].id,
        spec: Box::new(list.pieces[0].spec),
        stock: MarkedStock::New { panel: 1 },
        lot: None,
        written: None,
    };
    job.record(vec![marked], None);
    let edge = list.pieces[0].id.edge;
    let course = *job
        .edge(edge)
        .unwrap()
        .course(list.pieces[0].id.course)
        .unwrap();
    let longer = Reading::parse("21 5/8", Unit::Inch).ok();
    job.edge_mut(edge)
        .unwrap()
        .put(course.with(End::Bottom, longer));
    std::fs::write(&path, job_file::encode(&job).unwrap()).unwrap();
    let said = bench.run(&["check", "roof.ron"]);
    assert_eq!(said.code, 1);
    assert!(
        said.out
            .contains("H1-1 L no longer fits: piece 2 in long at the nose"),
        "{}",
        said.out
    );
}

#[test]
fn versions_are_listed_with_what_differs_from_now() {
    let bench = Bench::with_readings();
    bench.write("more.csv", MORE);
    bench.done(&["import", "roof.ron", "more.csv"]);
    let said = bench.done(&["versions", "roof.ron"]);
    assert!(
        said.contains("0 of 3 stacked, 0 steps, 6 readings"),
        "{said}"
    );
    assert!(
        said.contains("    East: not in it, here 2 readings"),
        "{said}"
    );
}

#[test]
fn a_lost_job_is_read_from_its_last_copy_and_not_written_over() {
    let bench = Bench::with_readings();
    bench.write("more.csv", MORE);
    bench.done(&["import", "roof.ron", "more.csv"]);
    std::fs::remove_file(bench.0.path().join("roof.ron")).unwrap();
    let said = bench.run(&["sheet", "roof.ron", "--format", "csv"]);
    assert_eq!(said.code, 0, "{said:?}");
    let words = "\"roof.ron\": there is no such file; its best copy is \"roof.ron.bak\", ";
    let (_, age) = said.err.split_once(words).expect(&said.err);
    let (seconds, what) = age.split_once(' ').unwrap();
    assert!(seconds.parse::<u8>().unwrap() < 60, "{age}");
    assert!(what.starts_with("s old"), "{age}");
    assert_eq!(bench.run(&["import", "roof.ron", "more.csv"]).code, 1);
    assert!(!bench.has("roof.ron"));
}

#[test]
fn a_closed_pipe_ends_the_program_quietly() {
    let bench = Bench::with_readings();
    for args in [&["sheet", "roof.ron"][..], &["--help"]] {
        let (reader, writer) = std::io::pipe().unwrap();
        drop(reader);
        let said = Said::from(bench.command(args).stdout(writer).output().unwrap());
        assert_eq!((said.code, said.err.as_str()), (0, ""));
    }
}

#[cfg(target_os = "linux")]
#[test]
fn output_that_cannot_be_written_ends_with_1() {
    let bench = Bench::with_readings();
    let full = std::fs::File::create("/dev/full").unwrap();
    let mut command = bench.command(&["sheet", "roof.ron"]);
    let said = Said::from(command.stdout(full).output().unwrap());
    assert_eq!(said.code, 1);
    assert!(
        said.err
            .starts_with("bendmark: the output could not be written: ")
    );
}
