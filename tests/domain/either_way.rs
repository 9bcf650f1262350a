//! To what each edge is read, and what that makes of its readings.

use crate::support::Program;
use bendmark::domain::{
    bench::Progress,
    cutting::{CutList, Job},
    log::{Course, CourseNumber, EdgeDetail, EdgeId, End, PanelsLie, ReadTo, Reading, TapeEnd},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::{Setting, Settings},
};
use bendmark::{
    sheet::{form::Form, form_text::form_text, json::json, rows::Rows, text},
    storage::readings::import,
};

/// A course of 24 and 12 in at an edge of each hand; side lap 2 in, clearance
/// 1/4 in.
fn job(lie: &str) -> Job {
    let settings = Setting::PanelsLie.set(&Settings::default(), lie).unwrap();
    let mut job = Job::new(Name::or("Gable Row", "?"), settings);
    for hand in Hand::BOTH {
        let id = job.add_edge(Name::or(hand.word(), "?"), EdgeKind::Hip, hand);
        let read = |inches| Reading::new(Length::from_inches(inches)).ok();
        let course = Course::unread(CourseNumber::FIRST)
            .with(End::Bottom, read(24))
            .with(End::Top, read(12));
        job.edge_mut(id).unwrap().put(course);
    }
    job
}

/// The finished bottom of the left-hand and of the right-hand edge, in 64ths.
fn bottoms(job: &Job) -> [i64; 2] {
    let list = CutList::of(job, &Progress::default());
    [1, 2].map(|edge| {
        let mut pieces = list.pieces.iter();
        let piece = pieces.find(|piece| piece.id.edge == EdgeId(edge)).unwrap();
        piece.spec.bend.at_nose.nm() / Length::from_64ths(1).nm()
    })
}

const LAP_LINE: i64 = 24 * 64;
const PANEL_EDGE: i64 = 26 * 64;

#[test]
fn not_said_every_edge_is_read_as_the_job_says() {
    let mut job = job("not-said");
    assert_eq!(bottoms(&job), [LAP_LINE, LAP_LINE]);
    job.settings = Setting::ReadTo.set(&job.settings, "panel-edge").unwrap();
    assert_eq!(bottoms(&job), [PANEL_EDGE, PANEL_EDGE]);
}

/// Left-hand pieces stand at the right end of their courses: over the left
/// neighbour they lie on top.
#[test]
fn over_its_left_neighbour_left_hand_edges_go_to_the_lap_line_and_right_hand_ones_to_the_edge() {
    assert_eq!(bottoms(&job("left-neighbour")), [LAP_LINE, PANEL_EDGE]);
}

#[test]
fn over_its_right_neighbour_it_is_the_other_way_round() {
    assert_eq!(bottoms(&job("right-neighbour")), [PANEL_EDGE, LAP_LINE]);
    for hand in Hand::BOTH {
        let [left, right] =
            [PanelsLie::OverLeft, PanelsLie::OverRight].map(|lie| lie.reads_to(hand));
        assert_ne!(left, right);
    }
}

#[test]
fn an_edges_own_way_is_an_exception_to_both() {
    let mut job = job("left-neighbour");
    let edge = job.edge_mut(EdgeId(2)).unwrap();
    edge.reads_to = Some(ReadTo::LapLine);
    edge.tape_end = Some(TapeEnd::Hard);
    assert_eq!(bottoms(&job), [LAP_LINE, LAP_LINE - 16]);
    job.edge_mut(EdgeId(1)).unwrap().reads_to = Some(ReadTo::PanelEdge);
    assert_eq!(bottoms(&job), [PANEL_EDGE, LAP_LINE - 16]);
}

#[test]
fn log_form_sheet_and_json_say_to_what_each_edge_is_read() {
    let mut job = job("left-neighbour");
    job.edge_mut(EdgeId(1)).unwrap().tape_end = Some(TapeEnd::Hard);
    let mut program = Program::with(job.clone());
    program.press("<f3>");
    let screen = program.screen(120, 40);
    let words = "to the side-lap line, the tape's end hard against the board";
    assert!(screen.contains(words), "{screen}");
    program.press("<down>");
    let screen = program.screen(120, 40);
    let words = "to the last panel's edge, the tape's end held off the board";
    assert!(screen.contains(words), "{screen}");

    let form = form_text(&Form::of(&job, &[], None), 80);
    assert_eq!(
        form.matches("Read to the side-lap line").count(),
        1,
        "{form}"
    );
    assert_eq!(
        form.matches("Read to the edge of the last full panel")
            .count(),
        1,
        "{form}"
    );
    assert!(form.contains("lies over its left neighbour"), "{form}");
    assert!(form.contains("hard against the board here"), "{form}");

    let rows = Rows::of(&job);
    let sheet = text::text(&rows, 200);
    let words = "looking up, each panel lies over its left neighbour: left-hand edges to the side-lap line, right-hand edges to the edge of the last panel";
    assert!(sheet.contains(words), "{sheet}");
    assert!(
        sheet.contains(
            "read tape end hard against the board, so the clearance is taken off (1/4 in)"
        ),
        "{sheet}"
    );

    let sheet: serde_json::Value = serde_json::from_str(&json(&rows)).unwrap();
    let edges = sheet["edges"].as_array().unwrap();
    let said = |at: usize| (edges[at]["reads_to"].clone(), edges[at]["tape_end"].clone());
    assert_eq!(said(0), ("lap-line".into(), "hard".into()));
    assert_eq!(said(1), ("panel-edge".into(), "held-off".into()));
}

/// The job's own line does not say how far, where the whole job is read hard.
#[test]
fn the_form_says_how_far_the_tape_is_held_off_where_that_is_an_exception() {
    let mut job = job("not-said");
    job.settings = Setting::TapeEnd.set(&job.settings, "hard").unwrap();
    job.edge_mut(EdgeId(2)).unwrap().tape_end = Some(TapeEnd::HeldOff);
    let form = form_text(&Form::of(&job, &[], None), 80);
    let words = "Hold the tape's end off the board here (1/4 in).";
    assert_eq!(form.matches(words).count(), 1, "{form}");
}

#[test]
fn the_job_screen_draws_which_panel_lies_over_which() {
    let mut program = Program::with(job("not-said"));
    let at = Setting::ALL
        .iter()
        .position(|setting| *setting == Setting::PanelsLie);
    program.press(&format!("<f6>{}<enter>", "<down>".repeat(at.unwrap())));
    let screen = program.screen(80, 24);
    assert!(screen.contains("|   1   [   2   [   3   |"), "{screen}");
    assert!(
        screen
            .contains("left end (right-hand): last panel's edge; right end (left-hand): lap line"),
        "{screen}"
    );
    program.press("<enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("|   1   ]   2   ]   3   |"), "{screen}");
    assert!(
        screen
            .contains("left end (right-hand): lap line; right end (left-hand): last panel's edge"),
        "{screen}"
    );
}

#[test]
fn an_edges_first_row_says_how_it_is_read() {
    let header = "edge,kind,hand,course,bottom,top,reads_to,tape_end\n";
    let rows = "N,hip,left,1,13,9,panel-edge,hard\nN,hip,left,2,23,19,,\nS,hip,left,1,13,9,,\n";
    let job = import(&job("not-said"), [header, rows].concat().as_bytes())
        .unwrap()
        .job;
    let named = |name: &str| {
        let mut edges = job.edges().iter();
        edges.find(|edge| edge.name.as_str() == name).unwrap()
    };
    let said = |name| {
        let edge = named(name);
        [EdgeDetail::ReadsTo, EdgeDetail::TapeEnd].map(|detail| detail.text(edge))
    };
    assert_eq!(said("N"), ["panel-edge", "hard"]);
    assert_eq!(said("S"), ["", ""]);
    let settings = &job.settings;
    let added = settings.added_to_reading(named("N"));
    assert_eq!(added, Length::from_64ths(2 * 64 - 16));
    assert_eq!(settings.added_to_reading(named("S")), Length::ZERO);
}

#[test]
fn what_is_no_way_to_read_is_quoted_with_what_was_wanted() {
    let csv = "edge,kind,hand,course,bottom,top,reads_to,tape_end\nN,hip,left,1,13,9,lap,\nN,hip,left,2,13,9,,loose\n";
    let error = import(&job("not-said"), csv.as_bytes())
        .unwrap_err()
        .to_string();
    for words in [
        "\"lap\", expected lap-line or panel-edge",
        "\"loose\", expected held-off or hard",
    ] {
        assert!(error.contains(words), "{error}");
    }
}
