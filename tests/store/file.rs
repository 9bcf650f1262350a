//! The job file as bytes.

use crate::jobs::{any_job, cases, full_job, full_job_of_version_1};
use bendmark::domain::{cutting::Job, roof::Corner};
use bendmark::storage::job_file::{DecodeError, Seal, decode, encode, seal_of};
use proptest::prelude::*;

fn text(job: &Job) -> String {
    String::from_utf8(encode(job).unwrap()).unwrap()
}

#[test]
fn every_field_of_a_job_survives_its_file() {
    let job = full_job();
    let decoded = decode(&encode(&job).unwrap()).unwrap();
    assert_eq!(decoded.job, job);
    assert_eq!(decoded.seal, Seal::Whole);
}

#[test]
// Over 60 lines: one file.
fn the_file_is_one_line_for_each_setting_edge_course_and_event() {
    insta::assert_snapshot!(text(&full_job()), @r#"
    (
        version: 2,
        name: "Gräfenhof \"2\" \\ barn",
        settings: (
            division: HalfMillimetre,
            panel_width: 1330000000,
            side_lap: 80000000,
            exposure: 369000000,
            panel_height: 410000000,
            panels_lie: OverRight,
            read_to: PanelEdge,
            tape_end: Hard,
            by_kind: {Hip: (allowance: Standing(45000000), clearance: 6000000), Valley: (allowance: Along(60000000), clearance: 7000000), Rake: (allowance: Along(50000000), clearance: 8000000)},
            valley_depth: 55000000,
            least_turn_up: 41000000,
            ridge_turn_up: 31000000,
            sliver: 90000000,
            least_flat: 40000000,
            tolerance: 9000000,
            spare: 12000000,
            carry_more: 15,
            blade: Left,
            laying: EaveUp,
            stack_turned: Yes,
            second_trip: Yes,
            shear_opens: 260000000,
            bender_folds: UpOnly,
            bench_order: BendFirst,
            one_key: Piece,
            pause: 45,
        ),
        next_edge: 4,
        numbers: [
            (2, Hip, 2),
            (3, Valley, 1),
        ],
        edges: [
            (id: 2, name: "North hip", kind: Hip, hand: Left, slope: RiseIn12(450000), other_slope: Degrees(2657000), corner: 11250000, plane: "North slope", lot: "Slate 7", later_lots: [(5, "Slate 9")], set_aside: [Course(course: 1, bottom: 900000000), Placement(course: 1, top: 700000000, bottom: 650000000), Edge(off: -31000000)], struck: [(course: 1, end: Top, was: 725000000)]),
            (id: 3, name: "Yard valley", kind: Valley, hand: Right, slope: PerCent(5800000), reads_to: LapLine, tape_end: HeldOff),
        ],
        courses: [
            (edge: 2, course: 1, bottom: 900000000, top: 700000000),
            (edge: 2, course: 5, bottom: 100000000, runs_out: 180000000, height: 220000000),
            (edge: 3, course: 3),
            (edge: 3, course: 7, trip: First),
            (edge: 3, course: 8, reads_to: LapLine, trip: Second(from: 3, bottom: 210000000, top: 20000000, runs_out: 360000000)),
            (edge: 3, course: 9, bottom: 640000000, to: 2),
        ],
        said: [
            (edge: 2, course: 5, bottom: 100000000, top: 1000000, runs_out: 190000000, height: 220000000, two: [Top, RunsOut]),
        ],
        events: [
            (at: 1790000000, fact: Marked(edge: 2, course: 1, piece: 2, kind: Hip, hand: Left, at_nose: 900000000, at_rise: -20000000, rise: 369000000, allowance: 51000000, panel_width: 1330000000, panel_height: 410000000, across: 251000000, stock: New(panel: 7), lot: "Slate 7")),
            (at: 1790000000, joined: true, fact: Cut(edge: 2, course: 1, piece: 2, rest: Kept(offcut: 1, promised: (edge: 2, course: 5, piece: 1)))),
            (fact: Bent(edge: 2, course: 1, piece: 2)),
            (at: 1790000002, fact: Stacked(edge: 2, course: 1, piece: 2)),
            (at: 1790000003, fact: Corrected(edge: 2, by: -3000000)),
            (at: 1790000004, fact: Found(number: 2, offcut: (whole: Right, at_nose: 379000000, at_rise: 1299000000, rise: 369000000, panel_width: 1330000000, panel_height: 410000000), lot: "Slate 7")),
            (at: 1790000004, joined: true, fact: Found(number: 3, offcut: (whole: Right, at_nose: 379000000, at_rise: 1299000000, rise: 369000000, panel_width: 1330000000, panel_height: 410000000))),
            (at: 1790000005, fact: Marked(edge: 2, course: 5, piece: 1, kind: Hip, hand: Left, at_nose: 100000000, at_rise: 0, rise: 220000000, allowance: 51000000, panel_width: 1330000000, panel_height: 410000000, stock: Offcut(offcut: 2))),
            (fact: Cut(edge: 2, course: 5, piece: 1, rest: Waste)),
            (at: 1790000007, fact: Spoiled(edge: 2, course: 5, piece: 1, saved: [(number: 4, offcut: (whole: Right, at_nose: 379000000, at_rise: 1299000000, rise: 369000000, panel_width: 1330000000, panel_height: 410000000), promised: (edge: 2, course: 5, piece: 1))])),
            (at: 1790000008, fact: Promised(offcut: 1)),
            (at: 1790000009, fact: Promised(offcut: 1, piece: (edge: 2, course: 5, piece: 1))),
            (at: 1790000010, fact: Marked(edge: 2, course: 5, piece: 1, kind: Hip, hand: Left, at_nose: 100000000, at_rise: 0, rise: 220000000, allowance: 51000000, panel_width: 1330000000, panel_height: 410000000, stock: Offcut(offcut: 1, panel: 7))),
            (fact: Spoiled(edge: 2, course: 5, piece: 1)),
            (at: 1790000012, fact: Gone(offcut: 3, by: Thrown)),
            (at: 1790000013, fact: Gone(offcut: 4, by: Used)),
            (at: 1790001000, fact: Marked(edge: 3, course: 9, piece: 1, kind: Hip, hand: Left, at_nose: 700000000, at_rise: 400000000, rise: 369000000, allowance: 51000000, panel_width: 1330000000, panel_height: 410000000, near: (edge: 3, far_edge: 2, kind: Valley, at_nose: 60000000, at_rise: 380000000, allowance: 60000000), stock: New(panel: 8), written: (course: 1, before: 1))),
            (fact: FirstCut(edge: 3, course: 9, piece: 1)),
            (fact: ReadAgain(edge: 2, course: 5, corrected: false)),
            (fact: BendStruck(edge: 3, course: 9, piece: 1, bend: (at_nose: 640000000, at_rise: 340000000, rise: 369000000))),
            (fact: Stays(edge: 3, course: 9, piece: 1, asked: (at_nose: 640000000, at_rise: 340000000, rise: 369000000), near: (at_nose: 70000000, at_rise: 380000000, rise: 369000000))),
            (fact: Stays(edge: 3, course: 9, piece: 1)),
            (fact: TakenBack(edge: 3, course: 9, piece: 1, kept: (number: 9, offcut: (whole: Right, at_nose: 379000000, at_rise: 1299000000, rise: 369000000, panel_width: 1330000000, panel_height: 410000000), promised: (edge: 3, course: 9, piece: 1)))),
            (fact: TakenBack(edge: 3, course: 9, piece: 1)),
            (fact: Paused),
            (fact: Spoiled(edge: 3, course: 9, piece: 1, why: Bend)),
            (fact: Measured(offcut: 9, at_nose: 500000000, at_back: -20000000, lot: "Slate 7")),
        ],
        changes: 39,
        undo: [
            (words: "all of it", at: Rack, after: 27, name: "Before", settings: (division: SixteenthInch, panel_width: 1219200000, side_lap: 50800000, exposure: 355600000, read_to: LapLine, tape_end: HeldOff, by_kind: {Hip: (allowance: Along(50800000), clearance: 6350000), Valley: (allowance: Along(50800000), clearance: 6350000), Rake: (allowance: Along(50800000), clearance: 6350000)}, least_turn_up: 40000000, ridge_turn_up: 0, tolerance: 9525000, spare: 0, carry_more: 0, blade: Right, laying: RidgeDown, stack_turned: No, bench_order: CutFirst, one_key: Step, pause: 20), next_edge: 5, order: [2, 3, 4], numbers: (2, [(4, Rake, 2)]), edges: [(id: 2, name: "North hip", kind: Hip, hand: Left, slope: RiseIn12(450000), other_slope: Degrees(2657000), corner: 11250000, plane: "North slope", lot: "Slate 7", later_lots: [(6, "Slate 9")], set_aside: [Course(course: 2, bottom: 900000000), Placement(course: 2, top: 700000000, bottom: 650000000), Edge(off: -31000000)], struck: [(course: 2, end: Top, was: 725000000)]), (id: 4, name: "Gone again", kind: Rake, hand: Left)], courses: [(edge: 2, course: 2, bottom: 900000000, top: 700000000), (edge: 2, course: 6, bottom: 100000000, runs_out: 180000000, height: 220000000), (edge: 3, course: 77)], no_courses: [(2, 1), (2, 5)], said: [(edge: 3, course: 2, bottom: 500000000)], not_said: [(2, 5)], events: [(0, (at: 1790000000, fact: Marked(edge: 2, course: 2, piece: 2, kind: Hip, hand: Left, at_nose: 900000000, at_rise: -20000000, rise: 369000000, allowance: 51000000, panel_width: 1330000000, panel_height: 410000000, across: 251000000, stock: New(panel: 7), lot: "Slate 7", written: (course: 1)))), (1, (at: 1790000000, joined: true, fact: Cut(edge: 2, course: 2, piece: 2, rest: Kept(offcut: 1, promised: (edge: 2, course: 6, piece: 1))))), (2, (fact: Bent(edge: 2, course: 2, piece: 2))), (3, (at: 1790000002, fact: Stacked(edge: 2, course: 2, piece: 2))), (7, (at: 1790000005, fact: Marked(edge: 2, course: 6, piece: 1, kind: Hip, hand: Left, at_nose: 100000000, at_rise: 0, rise: 220000000, allowance: 51000000, panel_width: 1330000000, panel_height: 410000000, stock: Offcut(offcut: 2), written: (course: 5)))), (8, (fact: Cut(edge: 2, course: 6, piece: 1, rest: Waste))), (9, (at: 1790000007, fact: Spoiled(edge: 2, course: 6, piece: 1, saved: [(number: 4, offcut: (whole: Right, at_nose: 379000000, at_rise: 1299000000, rise: 369000000, panel_width: 1330000000, panel_height: 410000000), promised: (edge: 2, course: 6, piece: 1))]))), (11, (at: 1790000009, fact: Promised(offcut: 1, piece: (edge: 2, course: 6, piece: 1)))), (12, (at: 1790000010, fact: Marked(edge: 2, course: 6, piece: 1, kind: Hip, hand: Left, at_nose: 100000000, at_rise: 0, rise: 220000000, allowance: 51000000, panel_width: 1330000000, panel_height: 410000000, stock: Offcut(offcut: 1, panel: 7), written: (course: 5)))), (13, (fact: Spoiled(edge: 2, course: 6, piece: 1))), (18, (fact: ReadAgain(edge: 2, course: 6, corrected: false)))]),
        ],
        redo: [
            (words: "offcut 3 gone", at: Setting("blade"), after: 27, press: [(at: 1800000000, fact: Gone(offcut: 3, by: Thrown))]),
        ],
    )
    // checksum 7b6be2ca
    "#);
}

/// Version 1 as it was written. Whatever is added later, this file is read as
/// this job.
#[test]
fn the_frozen_file_of_version_1_is_read() {
    let frozen = include_bytes!("version_1.ron");
    let decoded = decode(frozen).unwrap();
    assert_eq!(decoded.job, full_job_of_version_1());
    assert_eq!((decoded.seal, decoded.version), (Seal::Whole, 1));
}

#[test]
fn what_a_sheet_said_is_refused_where_it_does_not_hold_together() {
    let two = "two: [Top, RunsOut]";
    insta::assert_snapshot!(refused(two, "two: [RunsOut, Top]"), @r#"said of course 5 of "North hip": two of [RunsOut, Top] is out of order or names a figure that is not said, expected figures that are, each once, from Bottom to Height"#);
    insta::assert_snapshot!(refused(two, "two: [Top, Top]"), @r#"said of course 5 of "North hip": two of [Top, Top] is out of order or names a figure that is not said, expected figures that are, each once, from Bottom to Height"#);
    insta::assert_snapshot!(refused(two, "two: [Left]"), @r#"line 50, column 113: "Left" is not one of the choices, expected Bottom or Top or RunsOut or Height"#);
    insta::assert_snapshot!(refused("top: 1000000, ", ""), @r#"said of course 5 of "North hip": two of [Top, RunsOut] is out of order or names a figure that is not said, expected figures that are, each once, from Bottom to Height"#);
    insta::assert_snapshot!(refused("bottom: 100000000, top", "bottom: -1, top"), @r#"course 5 of "North hip": bottom of -1 nm is out of range, expected 0 to 100000000000"#);
    insta::assert_snapshot!(refused("(edge: 2, course: 5, bottom: 100000000, top", "(edge: 9, course: 5, bottom: 100000000, top"), @"said of course 5: edge 9 is not in the file's edges");
    insta::assert_snapshot!(refused("said: [", "said: [(edge: 2, course: 5),"), @r#"edge "North hip": a course is in said twice, expected each once"#);
}

/// Each version has its own way to say what differs between kinds of edges.
#[test]
fn the_settings_of_each_kind_are_a_map_with_every_kind_in_it() {
    insta::assert_snapshot!(refused("Rake: (allowance", "Hip: (allowance"), @"line 13, column 189: by_kind: no Rake");
    insta::assert_snapshot!(refused("version: 2", "version: 1"), @r#"line 13: unknown field "by_kind", expected division, panel_width, side_lap, exposure, panel_height, panels_lie, read_to, tape_end, hip, valley, rake, valley_depth, least_turn_up, ridge_turn_up, sliver, least_flat, tolerance, spare, carry_more, blade, laying, stack_turned, second_trip, shear_opens, bender_folds, bench_order, one_key, pause"#);
    insta::assert_snapshot!(refused("Rake: (", "Eave: ("), @r#"line 13, column 139: "Eave" is not one of the choices, expected Hip or Valley or Rake"#);
    let frozen = std::str::from_utf8(include_bytes!("version_1.ron")).unwrap();
    let newer = frozen.replacen("version: 1", "version: 2", 1);
    insta::assert_snapshot!(decode(newer.as_bytes()).unwrap_err(), @r#"line 12: unknown field "hip", expected division, panel_width, side_lap, exposure, panel_height, panels_lie, read_to, tape_end, by_kind, valley_depth, least_turn_up, ridge_turn_up, sliver, least_flat, tolerance, spare, carry_more, blade, laying, stack_turned, second_trip, shear_opens, bender_folds, bench_order, one_key, pause"#);
}

#[test]
fn a_hand_edited_file_is_read_and_said_to_be_edited() {
    let edited = text(&full_job()).replace("900000000, top", "901000000, top");
    let decoded = decode(edited.as_bytes()).unwrap();
    assert_eq!(decoded.seal, Seal::Mismatch);
    assert_ne!(decoded.job, full_job());
}

#[test]
fn a_file_without_its_checksum_line_is_read_and_said_to_lack_it() {
    let text = text(&full_job());
    let (content, _) = text.split_once("// checksum").unwrap();
    assert_eq!(decode(content.as_bytes()).unwrap().seal, Seal::Missing);
}

#[test]
fn a_byte_order_mark_in_front_changes_nothing() {
    let mut bytes = b"\xEF\xBB\xBF".to_vec();
    bytes.extend(encode(&full_job()).unwrap());
    let decoded = decode(&bytes).unwrap();
    assert_eq!((decoded.job, decoded.seal), (full_job(), Seal::Whole));
}

#[test]
fn a_square_corner_may_be_written_out() {
    let text = text(&full_job());
    let square = text.replace("corner: 11250000", "corner: 9000000");
    let absent = text.replace("corner: 11250000, ", "");
    let job = |text: &str| decode(text.as_bytes()).unwrap().job;
    assert_eq!(job(&square), job(&absent));
    assert_eq!(job(&square).edges()[0].roof.corner, Corner::SQUARE);
}

/// A job file gives a corner's range in its message and the docs; the domain
/// has it in its own.
#[test]
fn a_corner_is_taken_just_within_the_range_that_is_named() {
    let with = |corner: i64| {
        let corner = format!("corner: {corner}");
        let text = text(&full_job()).replace("corner: 11250000", &corner);
        decode(text.as_bytes()).is_ok()
    };
    let taken = [1_499_999, 1_500_000, 16_500_000, 16_500_001].map(with);
    assert_eq!(taken, [false, true, true, false]);
}

#[test]
fn courses_may_stand_in_any_order() {
    let text = text(&full_job());
    let mut lines: Vec<&str> = text.lines().collect();
    let first = lines
        .iter()
        .position(|line| line.trim_start().starts_with("(edge: 2, course: 1, bottom"))
        .unwrap();
    lines.swap(first, first + 1);
    assert_eq!(decode(lines.join("\n").as_bytes()).unwrap().job, full_job());
}

#[track_caller]
fn refused(from: &str, to: &str) -> String {
    let text = text(&full_job());
    let edited = text.replacen(from, to, 1);
    assert_ne!(text, edited, "{from} is not in the file");
    decode(edited.as_bytes()).unwrap_err().to_string()
}

#[test]
fn a_later_version_is_named() {
    insta::assert_snapshot!(refused("version: 2", "version: 3"), @"the file has version 3, this program reads up to version 2: open it with the later program that wrote it");
    // Whatever else it holds.
    insta::assert_snapshot!(refused("version: 2,", "version: 40, colour: [}"), @"the file has version 40, this program reads up to version 2: open it with the later program that wrote it");
    insta::assert_snapshot!(refused("version: 2", "version: 0"), @"the file has version 0, expected 2");
    insta::assert_snapshot!(refused("version: 2", "vision: 1"), @r#"not a job file: its first field is not "version" with a whole number"#);
}

#[test]
fn an_unknown_or_doubled_or_missing_field_is_named_with_its_line() {
    insta::assert_snapshot!(refused("side_lap", "overlap"), @r#"line 7: unknown field "overlap", expected division, panel_width, side_lap, exposure, panel_height, panels_lie, read_to, tape_end, by_kind, valley_depth, least_turn_up, ridge_turn_up, sliver, least_flat, tolerance, spare, carry_more, blade, laying, stack_turned, second_trip, shear_opens, bender_folds, bench_order, one_key, pause"#);
    insta::assert_snapshot!(refused("by: -3", "bye: -3"), @r#"line 57: unknown field "bye", expected edge, by"#);
    insta::assert_snapshot!(refused("(id: 2,", "(id: 2, id: 2,"), @r#"line 38, column 19: field "id" is there twice, expected once"#);
    insta::assert_snapshot!(refused("(id: 2, ", "("), @r#"line 38, column 371: no field "id""#);
    insta::assert_snapshot!(refused("RiseIn12(450000)", "Rise(450000)"), @r#"line 38, column 70: "Rise" is not one of the choices, expected RiseIn12 or Degrees or PerCent"#);
    insta::assert_snapshot!(refused("RiseIn12(450000)", "\"4 1/2\""), @r#"line 38, column 66: expected a name at ""4 1/2", other_slope""#);
    insta::assert_snapshot!(refused("blade: Left", "blade: Middle"), @r#"line 22, column 22: "Middle" is not one of the choices, expected Left or Right"#);
}

#[test]
fn a_figure_out_of_range_is_quoted_with_its_place() {
    insta::assert_snapshot!(refused("640000000, to: 2", "640000000, to: 3"), @r#"course 9 of "Yard valley": to edge 3, expected another edge, 1 or more and below next_edge"#);
    insta::assert_snapshot!(refused("640000000, to: 2", "640000000, to: 4"), @r#"course 9 of "Yard valley": to edge 4, expected another edge, 1 or more and below next_edge"#);
    insta::assert_snapshot!(refused("far_edge: 2", "far_edge: 3"), @"event 17: near edge 3, far_edge 3: expected edge 3 and another one");
    insta::assert_snapshot!(refused("near: (edge: 3", "near: (edge: 1"), @"event 17: near edge 1, far_edge 2: expected edge 3 and another one");
    insta::assert_snapshot!(refused("bottom: 9", "bottom: -9"), @r#"edge "North hip": bottom of -900000000 nm is out of range, expected 0 to 100000000000"#);
    insta::assert_snapshot!(refused("bottom: 900", "bottom: 900000"), @r#"edge "North hip": bottom of 900000000000 nm is out of range, expected 0 to 100000000000"#);
    insta::assert_snapshot!(refused("panel_width: 1330", "panel_width: 13"), @"settings: panel width of 13 mm is out of range, expected 200 mm to 5000 mm");
    insta::assert_snapshot!(refused("course: 5", "course: 0"), @r#"edge "North hip": course 0 is out of range, expected 1 to 99999"#);
    insta::assert_snapshot!(refused("course: 5", "course: 1"), @r#"edge "North hip": a course is in the log twice, expected each once"#);
    insta::assert_snapshot!(refused("edge: 2, course: 5", "edge: 9, course: 5"), @"course 5: edge 9 is not in the file's edges");
    insta::assert_snapshot!(refused("(id: 3", "(id: 2"), @"edges: two edges have the id 2, expected each once");
    insta::assert_snapshot!(refused("next_edge: 4", "next_edge: 0"), @"next_edge: 0 is out of range, expected 1 to 4294967294");
    insta::assert_snapshot!(refused("next_edge: 4", "next_edge: 4294967295"), @"next_edge: 4294967295 is out of range, expected 1 to 4294967294");
    insta::assert_snapshot!(refused("next_edge: 4", "next_edge: 3"), @"event 17: edge 3 was never made, expected 1 or more and below next_edge");
    insta::assert_snapshot!(refused("(3, Valley, 1)", "(4, Valley, 1)"), @"numbers: edge 4, valley 1: expected both to be 1 or more and below next_edge");
    insta::assert_snapshot!(refused("(3, Valley, 1)", "(3, Valley, 0)"), @"numbers: edge 3, valley 0: expected both to be 1 or more and below next_edge");
    insta::assert_snapshot!(refused("(3, Valley, 1)", "(2, Hip, 1)"), @"numbers: edge 2, hip 1: expected each edge once a kind, and each number of a kind once");
    insta::assert_snapshot!(refused("\"North hip\"", "\" \\u{202E} \""), @"edge 2: a name needs at least one letter or digit that shows");
    insta::assert_snapshot!(refused("RiseIn12(450000)", "RiseIn12(-50000)"), @r#"edge "North hip": slope of RiseIn12(-50000) is out of range, expected more than 0 and less than 85 degrees"#);
    insta::assert_snapshot!(refused("Degrees(2657000)", "Degrees(8500000)"), @r#"edge "North hip": other_slope of Degrees(8500000) is out of range, expected more than 0 and less than 85 degrees"#);
    insta::assert_snapshot!(refused("corner: 11250000", "corner: 112"), @r#"edge "North hip": corner of 112 is out of range, expected 1500000 to 16500000 (15 to 165 degrees)"#);
    insta::assert_snapshot!(refused("\"North slope\"", "\" \""), @r#"edge "North hip": plane: a name needs at least one letter or digit that shows"#);
    insta::assert_snapshot!(refused("\"Slate 7\"", "\"\\u{200B}\""), @r#"edge "North hip": lot: a name needs at least one letter or digit that shows"#);
    insta::assert_snapshot!(refused("tolerance: 9000000", "tolerance: 0"), @"settings: tolerance of 0 mm is out of range, expected 1 mm to 100 mm");
    insta::assert_snapshot!(refused("panel: 7", "panel: 0"), @"event 1: panel 0 is out of range, expected 1 to 1000000000");
    insta::assert_snapshot!(refused("rise: 369", "rise: -369"), @"event 1: rise of -369000000 nm is out of range, expected 1 to 100000000000");
    insta::assert_snapshot!(refused("Cut(edge: 2", "Cut(edge: 4"), @"event 2: edge 4 was never made, expected 1 or more and below next_edge");
    insta::assert_snapshot!(refused("panel: 7", "panel: 1000000001"), @"event 1: panel 1000000001 is out of range, expected 1 to 1000000000");
    insta::assert_snapshot!(refused("Kept(offcut: 1", "Kept(offcut: 0"), @"event 2: offcut 0 is out of range, expected 1 to 1000000000");
    insta::assert_snapshot!(refused("promised: (edge: 2", "promised: (edge: 4"), @"event 2: edge 4 was never made, expected 1 or more and below next_edge");
    insta::assert_snapshot!(refused("promised: (edge: 2, course: 5", "promised: (edge: 2, course: 0"), @"event 2: course 0 is out of range, expected 1 to 99999");
    insta::assert_snapshot!(refused("panel_width: 1330000000, panel_height: 410000000))", "panel_width: 0, panel_height: 410000000))"), @"event 7: panel_width of 0 nm is out of range, expected 1 to 100000000000");
    insta::assert_snapshot!(refused("panel: 7), lot: \"Slate 7\"", "panel: 7), lot: \"\\u{200B}\""), @"event 1: lot: a name needs at least one letter or digit that shows");
    insta::assert_snapshot!(refused("carry_more: 15", "carry_more: 101"), @"line 21, column 24: carry_more of 101 is out of range, expected 0 to 100");
    insta::assert_snapshot!(refused("spare: 12", "spare: 312"), @"settings: spare of 312 mm is out of range, expected 0 mm to 300 mm");
    insta::assert_snapshot!(refused("by: Thrown", "by: Lost"), @r#"line 67, column 56: "Lost" is not one of the choices, expected Thrown or Used"#);
    insta::assert_snapshot!(refused("stock: New", "stock: Old"), @r#"line 53, column 249: "Old" is not one of the choices, expected New or Offcut"#);
    insta::assert_snapshot!(refused("rest: Waste", "rest: Gone"), @r#"line 61, column 60: "Gone" is not one of the choices, expected Kept or Waste"#);
    insta::assert_snapshot!(refused("piece: (edge: 2, course: 5", "piece: (edge: 0, course: 5"), @"event 12: edge 0 was never made, expected 1 or more and below next_edge");
    insta::assert_snapshot!(refused("top: 700000000", "top: 0.5"), @r#"line 38, column 278: expected a comma at ".5, bottom: 65000000""#);
    insta::assert_snapshot!(refused("top: 700000000", "top: 99999999999999999999"), @"line 38, column 297: the number is too large or too small");
}

#[test]
fn what_is_no_job_file_is_refused_with_its_place() {
    let say = |bytes: &[u8]| decode(bytes).unwrap_err().to_string();
    insta::assert_snapshot!(say(b""), @r#"line 1, column 1: expected "(""#);
    insta::assert_snapshot!(say(b"edge,kind,hand"), @r#"line 1, column 5: found "edge", expected Job or "(""#);
    insta::assert_snapshot!(say(b"(version: 1,\n\xFF)"), @"line 2: not UTF-8 text, expected a job file");
    insta::assert_snapshot!(say(b"(version: 1, name: \"x\x1b[31m\")"), @r#"line 1, column 28: no field "settings""#);
}

#[test]
fn brackets_within_brackets_without_end_are_refused() {
    let deep = format!("(version: 1, name: {}", "(".repeat(1_000_000));
    let error = decode(deep.as_bytes()).unwrap_err();
    assert!(matches!(error, DecodeError::Syntax { .. }), "{error}");
    let deep = format!("{}version: 1", "(".repeat(1_000_000));
    assert!(decode(deep.as_bytes()).is_err());
}

/// Every bit of a small file is flipped in turn; a file is taken as it was
/// saved only where its seal is whole.
#[test]
fn no_flipped_bit_passes_for_the_file_as_it_was_saved() {
    let mut bytes = encode(&full_job()).unwrap();
    for at in 0..bytes.len() {
        for bit in 0..8 {
            bytes[at] ^= 1 << bit;
            assert_ne!(seal_of(&bytes), Seal::Whole, "byte {at}, bit {bit}");
            bytes[at] ^= 1 << bit;
        }
    }
}

#[test]
fn no_cut_short_file_passes_for_the_file_as_it_was_saved() {
    let bytes = encode(&full_job()).unwrap();
    for length in 0..bytes.len() {
        let seal = seal_of(&bytes[..length]);
        assert_ne!(seal, Seal::Whole, "the first {length} bytes");
    }
}

proptest! {
    #![proptest_config(cases(256))]

    #[test]
    fn prop_a_job_comes_back_from_its_file_as_it_was(job in any_job()) {
        let bytes = encode(&job).unwrap();
        let decoded = decode(&bytes).map_err(|error| TestCaseError::fail(error.to_string()))?;
        prop_assert_eq!(decoded.seal, Seal::Whole);
        prop_assert_eq!(&decoded.job, &job);
        prop_assert_eq!(encode(&decoded.job).unwrap(), bytes);
    }

    /// What fuzzing does at length: a whole file, cut, doubled and changed here
    /// and there.
    #[test]
    fn prop_a_mangled_file_is_refused_or_a_job_like_any(
        edits in proptest::collection::vec(
            (any::<prop::sample::Index>(), 0_usize..40, any::<prop::sample::Index>(), "[0-9(),:A-Za-z\\-]{0,4}"),
            1..6,
        )
    ) {
        let whole = encode(&full_job()).unwrap();
        let mut bytes = whole.clone();
        for (at, length, from, text) in edits {
            let at = at.index(bytes.len());
            let end = (at + length).min(bytes.len());
            let from = from.index(bytes.len());
            let to = (from + length).min(bytes.len());
            let insert = [&bytes[from..to], text.as_bytes()].concat();
            bytes.splice(at..end, insert);
        }
        if let Ok(decoded) = decode(&bytes) {
            prop_assert_eq!(decoded.seal == Seal::Whole, bytes == whole);
            let again = encode(&decoded.job).unwrap();
            prop_assert_eq!(&decode(&again).unwrap().job, &decoded.job);
            let rows = bendmark::sheet::rows::Rows::of(&decoded.job);
            let _ = bendmark::sheet::text::text(&rows, bendmark::sheet::text::WIDTH);
            let _ = bendmark::sheet::json::json(&rows);
        }
    }

    #[test]
    fn prop_any_bytes_are_read_or_refused(bytes in proptest::collection::vec(any::<u8>(), 0..200)) {
        let _ = decode(&bytes);
        let text = [b"(version: 1, name: ".as_slice(), &bytes].concat();
        let _ = decode(&text);
    }
}

/// The example of docs/job-file.md, its checksum included.
#[test]
fn the_example_in_the_docs_is_a_whole_file() {
    let page = include_str!("../../docs/job-file.md");
    let (_, rest) = page.split_once("```ron\n").unwrap();
    let (example, _) = rest.split_once("```\n").unwrap();
    let decoded = decode(example.as_bytes()).unwrap();
    assert_eq!(text(&decoded.job), example);
    assert_eq!(decoded.seal, Seal::Whole);
}
