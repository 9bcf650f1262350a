//! The cut sheet in its three forms, for a small job of a scenario of our own:
//! the boathouse on Heron Lane.
//!
//! Over 400 lines: one job and the whole text of its sheets.

use bendmark::domain::{
    bench::{CutRest, Fact, MarkedStock, Progress, Utc},
    cutting::{CutList, Job},
    log::{Course, CourseNumber, EdgeId, Reading},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::{Setting, Settings},
    tape::Unit,
};
use bendmark::sheet::{
    csv::{columns, csv, harmless},
    html::html,
    json::json,
    layout::{Layout, Pages},
    rows::Rows,
    text::{WIDTH, text},
};
use bendmark::storage::readings::import;
use proptest::prelude::*;
use serde_json::Value;
use unicode_width::UnicodeWidthStr;

/// One course as it stands in the log: bottom, top, runs out, height; empty
/// where there is none.
type Line = (u32, &'static str, &'static str, &'static str, &'static str);

fn job(name: &str) -> Job {
    Job::new(Name::or(name, "job"), Settings::default())
}

fn add(job: &mut Job, name: &str, kind: EdgeKind, hand: Hand, lines: &[Line]) -> EdgeId {
    let unit = job.settings.unit();
    let id = job.add_edge(Name::or(name, "edge"), kind, hand);
    let read = |text: &str| (!text.is_empty()).then(|| Reading::parse(text, unit).unwrap());
    for (number, bottom, top, runs_out, height) in lines {
        job.edge_mut(id).unwrap().put(Course {
            number: CourseNumber::new(*number).unwrap(),
            bottom: read(bottom),
            top: read(top),
            runs_out: read(runs_out),
            height: read(height),
            to: None,
            reads_to: None,
            trip: None,
        });
    }
    id
}

/// The piece of issue and docs: 23 5/8 and 11 7/8 in.
fn plain(hand: Hand) -> Job {
    let mut job = job("..");
    add(
        &mut job,
        "..",
        EdgeKind::Hip,
        hand,
        &[(1, "23 5/8", "11 7/8", "", "")],
    );
    job
}

/// All kinds of piece, a few of them already under way.
fn boathouse() -> Job {
    let mut job = job("Boathouse, Heron Lane");
    let slip = add(
        &mut job,
        "Slip side, north",
        EdgeKind::Hip,
        Hand::Left,
        &[
            (1, "101 3/4", "89 1/4", "", ""),
            (2, "89 1/4", "76 3/4", "", ""),
            (3, "47", "34 1/2", "", ""),
            (4, "34 1/2", "22", "", ""),
            (5, "22", "9 1/2", "", ""),
            (6, "9 1/2", "", "10 5/8", ""),
            (7, "12", "", "", ""),
            (8, "20", "13 3/4", "", "7"),
        ],
    );
    add(
        &mut job,
        "Slip side, south",
        EdgeKind::Hip,
        Hand::Right,
        &[(1, "34 1/2", "22", "", ""), (2, "0", "0", "", "")],
    );
    add(
        &mut job,
        "Porch",
        EdgeKind::Valley,
        Hand::Left,
        &[(1, "", "9 1/2", "3 3/8", ""), (2, "35", "47 1/2", "", "")],
    );
    add(
        &mut job,
        "Gable",
        EdgeKind::Rake,
        Hand::Right,
        &[(1, "30", "30", "", ""), (2, "47", "47", "", "")],
    );
    add(&mut job, "Dormer", EdgeKind::Hip, Hand::Left, &[]);
    begin(&mut job, slip);
    job
}

/// The first piece is stacked, the second cut, the third marked; then the
/// edge is corrected.
fn begin(job: &mut Job, edge: EdgeId) {
    let list = CutList::of(job, &Progress::of(job.events()));
    let marked = list.pieces[..3].iter().map(|piece| Fact::Marked {
        written: None,
        piece: piece.id,
        spec: Box::new(piece.spec),
        stock: MarkedStock::New {
            panel: piece.stock.panel().unwrap(),
        },
        lot: None,
    });
    let ids: Vec<_> = list.pieces.iter().map(|piece| piece.id).collect();
    let mut facts: Vec<_> = marked.collect();
    let cut = |piece| Fact::Cut {
        piece,
        rest: CutRest::Waste,
    };
    facts.extend([cut(ids[0]), Fact::Bent(ids[0]), Fact::Stacked(ids[0])]);
    facts.push(cut(ids[1]));
    facts.push(Fact::Corrected {
        edge,
        by: -Length::from_64ths(8),
    });
    job.record(facts, Some(Utc(1_700_000_000)));
}

#[test]
fn the_text_of_a_job_with_every_kind_of_piece() {
    insta::assert_snapshot!(text(&Rows::of(&boathouse()), WIDTH));
}

#[test]
fn the_json_of_a_job_with_every_kind_of_piece() {
    insta::assert_snapshot!(json(&Rows::of(&boathouse())));
}

#[test]
fn the_csv_of_a_job_with_every_kind_of_piece() {
    insta::assert_snapshot!(csv(&Rows::of(&boathouse())).unwrap());
}

/// As the format's description printed it before edges were listed and marks had
/// what the tape shows, for a panel 48 in wide, courses of
/// 14 in and an allowance of 2 in; only the line breaks are the program's.
const WORKED: &str = r#"{"job": "..",
 "blade": "right",
 "panels": {"pieces": 1, "new": 1, "from_offcuts": 0, "spoiled": 0},
 "edges": [
  {"edge": "..", "kind": "hip", "hand": "left", "reads_to": "lap-line", "tape_end": "held-off"}],
 "pieces": [
  {"edge": "..", "kind": "hip", "hand": "left", "course": 1, "piece": 1, "height_mm": 355.6, "bend": [{"at": "nose", "mm": 600.075, "tape": "23 5/8"}, {"at": "back", "mm": 301.625, "tape": "11 7/8"}], "cut": [{"at": "nose", "mm": 650.875, "tape": "25 5/8"}, {"at": "back", "mm": 352.425, "tape": "13 7/8"}], "skew_deg": 40.01, "bend_line_mm": 464.2, "cut_line_mm": 464.2, "turn_up_mm": 38.9, "kept_mm2": 178386.7, "offcut_mm2": 255160.8, "on_table": "offcut", "nose": "away", "panel": 1, "stock": "new", "stage": "to mark", "lot": null, "bend_deg": null}],
 "doubtful": []}
"#;

#[test]
fn the_worked_example_of_the_format_is_written_byte_for_byte() {
    assert_eq!(json(&Rows::of(&plain(Hand::Left))), WORKED);
}

#[test]
fn a_right_hand_piece_has_the_figures_of_its_left_hand_twin() {
    let right = json(&Rows::of(&plain(Hand::Right)));
    let expected = WORKED
        .replace(r#""hand": "left""#, r#""hand": "right""#)
        .replace(r#""nose": "away""#, r#""nose": "toward""#);
    assert_eq!(right, expected);
}

#[test]
fn a_blade_at_the_other_end_turns_the_panel_and_nothing_else() {
    let mut job = plain(Hand::Left);
    job.settings = Setting::Blade.set(&job.settings, "left").unwrap();
    let expected = WORKED
        .replace(r#""blade": "right""#, r#""blade": "left""#)
        .replace(r#""nose": "away""#, r#""nose": "toward""#);
    assert_eq!(json(&Rows::of(&job)), expected);
}

#[test]
fn an_empty_job_has_a_sheet_in_every_form() {
    let job = job("Nothing yet");
    insta::assert_snapshot!(json(&Rows::of(&job)), @r#"
    {"job": "Nothing yet",
     "blade": "right",
     "panels": {"pieces": 0, "new": 0, "from_offcuts": 0, "spoiled": 0},
     "edges": [],
     "pieces": [],
     "doubtful": []}
    "#);
    assert_eq!(
        csv(&Rows::of(&job)).unwrap(),
        format!("{}\n", columns(&Rows::of(&job)).join(","))
    );
    assert!(text(&Rows::of(&job), WIDTH).starts_with("CUT SHEET  Nothing yet\n"));
}

#[test]
fn the_json_is_read_back_by_a_library_with_exact_positions() {
    let mut job = job("Exact");
    job.settings = Setting::PanelHeight.set(&job.settings, "15").unwrap();
    add(
        &mut job,
        "A",
        EdgeKind::Hip,
        Hand::Left,
        &[(1, "24", "11", "", "")],
    );
    let sheet: Value = serde_json::from_str(&json(&Rows::of(&job))).unwrap();
    // 24 - 13 * 15 / 14 = 10 1/14 in = 255.814286 mm to the nanometre.
    let back = &sheet["pieces"][0]["bend"][1];
    assert_eq!(back["at"], "back");
    assert_eq!(back["mm"].to_string(), "255.814286");
    // The height is the course's, where the upper reading holds.
    assert_eq!(sheet["pieces"][0]["height_mm"].to_string(), "355.6");
}

#[test]
fn a_full_panel_and_a_bent_corner_say_so_in_the_json() {
    let mut job = job("Wide");
    let lines = [(1, "110", "98", "", ""), (2, "49", "47", "", "")];
    add(&mut job, "A", EdgeKind::Hip, Hand::Left, &lines);
    let sheet: Value = serde_json::from_str(&json(&Rows::of(&job))).unwrap();
    let of = |course: u64, piece: u64| {
        let pieces = sheet["pieces"].as_array().unwrap();
        let found = pieces
            .iter()
            .find(|p| p["course"] == course && p["piece"] == piece);
        found.unwrap().clone()
    };
    let full = of(1, 1);
    assert_eq!(
        (&full["bend"], &full["cut"]),
        (&Value::Array(vec![]), &Value::Array(vec![]))
    );
    assert_eq!(
        (&full["on_table"], &full["nose"]),
        (&"none".into(), &"none".into())
    );
    assert_eq!(full["offcut_mm2"].to_string(), "0.0");
    let corner = of(2, 1);
    assert_eq!(corner["bend"].as_array().unwrap().len(), 2);
    assert_eq!(corner["bend"][0]["at"], "far side");
    assert_eq!(corner["cut"], Value::Array(vec![]));
    assert_eq!(corner["on_table"], "none");
    assert_eq!(sheet["panels"]["new"], 5);
}

#[test]
fn the_csv_is_read_back_to_the_same_names_and_figures() {
    let mut job = boathouse();
    let id = job.edges()[0].id;
    job.edge_mut(id).unwrap().name = Name::or("Slip, \"north\"", "?");
    let text = csv(&Rows::of(&job)).unwrap();
    let sheet: Value = serde_json::from_str(&json(&Rows::of(&job))).unwrap();
    let mut reader = csv_reader(&text);
    assert_eq!(
        reader.headers().unwrap(),
        columns(&Rows::of(&job)).as_slice()
    );
    let records = reader.records().map(Result::unwrap);
    let (unread, records): (Vec<_>, Vec<_>) = records.partition(|row| row[17].contains("not read"));
    let pieces = sheet["pieces"].as_array().unwrap();
    assert_eq!(records.len(), pieces.len());
    assert_eq!(unread.len(), sheet["unread"].as_array().unwrap().len());
    for (record, piece) in records.iter().zip(pieces) {
        assert_eq!(record[0], *piece["edge"].as_str().unwrap());
        for (columns, line) in [([5, 7], "bend"), ([9, 11], "cut")] {
            for (end, column) in columns.into_iter().enumerate() {
                let mark = &piece[line][end];
                assert_eq!(record[column], *mark["at"].as_str().unwrap_or(""));
                let mm: Option<f64> = record[column + 1].parse().ok();
                assert_eq!(mm, mark["mm"].as_f64());
            }
        }
        assert_eq!(record[17], *piece["stage"].as_str().unwrap());
    }
}

fn csv_reader(text: &str) -> ::csv::Reader<&[u8]> {
    ::csv::Reader::from_reader(text.as_bytes())
}

#[test]
fn a_name_like_a_formula_is_harmless_in_a_spreadsheet() {
    for name in ["=1+1", "+1", "-1", "@a", "\tx", "\rx"] {
        assert_eq!(harmless(name), format!("'{name}"));
    }
    // A list parted by semicolons makes a cell of each part.
    assert_eq!(harmless("a;=cmd|'/c calc'!A0;b"), "a;'=cmd|'/c calc'!A0;b");
    assert_eq!(harmless("a; \"=1;b"), "a;' \"=1;b");
    assert_eq!(harmless("a;b"), "a;b");
    let mut job = job("x");
    add(
        &mut job,
        "=SUM(A1)",
        EdgeKind::Hip,
        Hand::Left,
        &[(1, "24", "12", "", "")],
    );
    assert!(
        csv(&Rows::of(&job))
            .unwrap()
            .contains("\n'=SUM(A1),hip,left,")
    );
}

#[test]
fn the_text_never_runs_over_its_width() {
    let mut wide = boathouse();
    wide.name = Name::or(&"北".repeat(60), "?");
    let id = wide.edges()[0].id;
    wide.edge_mut(id).unwrap().name = Name::or(&"W".repeat(60), "?");
    for job in [boathouse(), wide, in_millimetres()] {
        for line in text(&Rows::of(&job), WIDTH).lines() {
            assert!(line.width() <= WIDTH, "{line}");
        }
    }
}

fn in_millimetres() -> Job {
    let mut job = job("Millimetres");
    for (setting, input) in [
        (Setting::Units, "mm"),
        (Setting::Division, "0.5"),
        (Setting::ReadTo, "panel-edge"),
        (Setting::TapeEnd, "hard"),
        (Setting::Standing(EdgeKind::Hip), "40"),
        (Setting::StackTurned, "yes"),
        (Setting::BenchOrder, "bend"),
    ] {
        job.settings = setting.set(&job.settings, input).unwrap();
    }
    assert_eq!(job.settings.unit(), Unit::Millimetre);
    let lines = [(1, "600", "302", "", ""), (2, "302", "4.5", "", "")];
    add(&mut job, "A", EdgeKind::Hip, Hand::Left, &lines);
    job
}

#[test]
fn the_text_of_a_job_in_millimetres_with_other_settings() {
    insta::assert_snapshot!(text(&Rows::of(&in_millimetres()), WIDTH));
}

fn pictures() -> Layout {
    Layout {
        pages: Pages::Pictures,
        ..Layout::default()
    }
}

/// A piece between a hip and a valley is bent up at one end, down at the other.
#[test]
fn each_line_of_a_piece_cut_at_both_ends_says_its_own_bend() {
    let readings = "edge,kind,hand,course,bottom,top,slope,to\n\
        East,hip,left,1,28,28,6 in 12,West\nWest,valley,right,2,40,52 1/2,6 in 12,\n";
    let job = import(&job("Both"), readings.as_bytes()).unwrap().job;
    let rows = Rows::of(&job);
    let page = html(&rows, &pictures());
    for (edge, bend) in job.edges().iter().zip(["bend up", "bend down"]) {
        let line = format!(">{} line, ", rows.labels.edge(edge.id));
        let (_, after) = page.split_once(&line).expect(&page);
        let (_, word) = after.split_once("<th>").unwrap();
        assert!(word.starts_with(bend), "{line}: {word}");
    }
}

#[test]
fn the_order_is_that_of_the_stack() {
    // Laid from the ridge down and not turned over: the eave is cut first.
    let mut job = plain(Hand::Left);
    let id = job.edges()[0].id;
    let second = job.edges()[0].courses()[0];
    job.edge_mut(id).unwrap().put(Course {
        number: CourseNumber::new(2).unwrap(),
        ..second
    });
    let courses = |job: &Job| {
        let sheet: Value = serde_json::from_str(&json(&Rows::of(job))).unwrap();
        [0, 1].map(|at| sheet["pieces"][at]["course"].as_u64().unwrap())
    };
    assert_eq!(courses(&job), [1, 2]);
    job.settings = Setting::StackTurned.set(&job.settings, "yes").unwrap();
    assert_eq!(courses(&job), [2, 1]);
}

prop_compose! {
    fn any_course()(
        number in 1_u32..40,
        bottom in proptest::option::of(0_i64..=6_000),
        top in proptest::option::of(0_i64..=6_000),
        runs_out in proptest::option::of(0_i64..1_500),
        height in proptest::option::of(0_i64..1_500),
    ) -> Course {
        let read = |n: i64| Reading::new(Length::from_64ths(n)).unwrap();
        Course {
            number: CourseNumber::new(number).unwrap(),
            bottom: bottom.map(read),
            top: top.map(read),
            runs_out: runs_out.map(read),
            height: height.map(read),
            to: None,
            reads_to: None,
            trip: None,
        }
    }
}

prop_compose! {
    fn any_job()(
        panel_width in 8_i64..100, side_lap in 0_i64..4, exposure in 2_i64..40,
        panel_height in proptest::option::of(2_i64..40),
        standing in 0_i64..11, kind in 0_usize..3, hand in any::<bool>(),
        lines in proptest::collection::vec(any_course(), 0..8),
    ) -> Job {
        let mut job = job("Any");
        let mut set = |setting: Setting, inches: i64| {
            job.settings = setting.set(&job.settings, &inches.to_string()).unwrap();
        };
        set(Setting::PanelWidth, panel_width);
        set(Setting::SideLap, side_lap);
        set(Setting::Exposure, exposure);
        if let Some(height) = panel_height {
            set(Setting::PanelHeight, height);
        }
        let kind = EdgeKind::ALL[kind];
        set(Setting::Standing(kind), standing);
        let hand = if hand { Hand::Left } else { Hand::Right };
        let id = job.add_edge(Name::or("A", "A"), kind, hand);
        for course in lines {
            job.edge_mut(id).unwrap().put(course);
        }
        job
    }
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(cases()))]

    #[test]
    fn prop_any_log_has_a_sheet_whose_parts_add_up(job in any_job()) {
        for line in text(&Rows::of(&job), WIDTH).lines() {
            prop_assert!(line.width() <= WIDTH, "{line}");
        }
        let rows = csv_reader(&csv(&Rows::of(&job)).unwrap()).into_records().count();
        let sheet: Value = serde_json::from_str(&json(&Rows::of(&job))).unwrap();
        let pieces = sheet["pieces"].as_array().unwrap();
        let unread = sheet["unread"].as_array().map_or(0, Vec::len);
        prop_assert_eq!(rows, pieces.len() + unread);
        let width = job.settings.panel_width.mm();
        for piece in pieces {
            let number = |key: &str| piece[key].as_f64().unwrap();
            prop_assert!(number("kept_mm2") >= 0.0 && number("offcut_mm2") >= 0.0);
            let height = (number("kept_mm2") + number("offcut_mm2")) / width;
            let full = job.settings.panel_height().mm();
            prop_assert!(height <= full + 1e-3, "{height} of {full}");
            prop_assert_eq!(piece["cut"] == Value::Array(vec![]), piece["on_table"] == "none");
        }
    }
}

fn cases() -> u32 {
    std::env::var("BENDMARK_CASES")
        .ok()
        .and_then(|cases| cases.parse().ok())
        .unwrap_or(64)
}

#[test]
fn a_panel_opened_for_a_spoiled_piece_is_told_from_those_in_pieces() {
    let mut program = crate::support::Program::with(crate::support::job_with_hip(2, Hand::Left));
    program.press("<f4><enter><enter>x<enter>");
    let sheet = text(&Rows::of(program.job()), WIDTH);
    let sheet = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    let words = "new panels: 1; 1 more was opened for what was spoiled";
    assert!(sheet.contains(words), "{sheet}");
    // The whole job's two hold it: said as one more, it would be counted twice.
    let words = "buy 2 for the whole job (no spare), 1 of them opened for what was spoiled";
    let page = html(&Rows::of(program.job()), &Layout::default());
    assert!(page.contains(words), "{page}");
}
