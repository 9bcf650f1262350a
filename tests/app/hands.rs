//! Every way in which the cutter says left or right, and what comes of it.

use crate::support::{Program, job_with_hip};
use bendmark::app::state::{Choice, Dialog, LogFocus, Notice};
use bendmark::domain::{
    cutting::{Job, odd_planes},
    log::{EdgeId, ReadTo},
    measure::{Hand, Name},
    roof::EdgeKind,
    settings::Setting,
};

/// Keys that choose a side of the screen, and that side.
const KEYS: [(&str, Hand); 6] = [
    ("4", Hand::Left),
    ("6", Hand::Right),
    ("<left><enter>", Hand::Left),
    ("<right><enter>", Hand::Right),
    ("<left><right><left><enter>", Hand::Left),
    ("<right><left><up><right><enter>", Hand::Right),
];

/// Common practice: panels that lie to the hip's right, looking up, take right-hand
/// pieces, tape from the right.
#[test]
fn a_new_edge_has_the_hand_of_the_end_that_was_chosen() {
    for kind in ["1", "2", "3"] {
        for (keys, end) in KEYS {
            let mut program = Program::with(job_with_hip(1, Hand::Left));
            program.press(&format!("<f3>a{kind}{keys}<enter>"));
            let edge = program.job().edges().last().unwrap();
            assert_eq!(edge.hand, end, "{kind}{keys}");
            let words = format!("{}-hand pieces", end.word().to_uppercase());
            let screen = program.screen(80, 24);
            assert!(screen.contains(&words), "{keys}\n{screen}");
        }
    }
}

#[test]
fn enter_alone_chooses_no_hand() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("<f3>a1<enter><enter><up><enter>");
    assert_eq!(program.job().edges().len(), 1);
    assert!(matches!(
        program.state.dialog,
        Some(Dialog::Choice {
            what: Choice::Hand { .. },
            row: None
        })
    ));
    program.press("<esc><f5>a<enter><down><enter>");
    let (what, row) = (Choice::FoundWhole, None);
    assert_eq!(program.state.dialog, Some(Dialog::Choice { what, row }));
    assert!(program.screen(80, 24).contains("4 if its LEFT end"));
}

#[test]
fn an_edges_hand_is_changed_and_taken_back() {
    for hand in Hand::BOTH {
        for (keys, end) in KEYS {
            let before = job_with_hip(2, hand);
            let mut program = Program::with(before.clone());
            program.press("<f3><").press(keys);
            let is = program.job().edges()[0].hand;
            assert_eq!(is, end, "{keys}");
            let pieces = &program.state.open.as_ref().unwrap().list.pieces;
            assert!(pieces.iter().all(|piece| piece.spec.hand == is));
            // The same hand again is no change, and nothing to take back.
            program.press("u");
            assert_eq!(*program.job(), before, "{keys}");
            let said = program.screen(80, 24);
            assert_eq!(said.contains("nothing left to take back"), is == hand);
        }
    }
}

/// Among the readings `e` shows what is expected; Enter above the last course goes to
/// the hips, and the same key and a digit must not turn the hip round there.
#[test]
fn a_key_for_the_readings_pressed_too_late_turns_no_hip_round() {
    for hand in Hand::BOTH {
        let before = job_with_hip(2, hand);
        for digit in ["4", "6"] {
            let mut program = Program::with(before.clone());
            program.press("<f3><tab><end><enter>");
            assert_eq!(program.state.log.focus, LogFocus::Edges);
            program.press("e").press(digit);
            assert_eq!(program.state.dialog, None);
            assert_eq!(program.job().edges()[0].hand, hand);
        }
    }
}

#[test]
fn a_hip_that_is_turned_round_says_what_its_readings_go_to_now() {
    let said = |job: &Job, end: &str| {
        let mut program = Program::with(job.clone());
        program.press("<f3><").press(end);
        program.state.notice.clone()
    };
    let say = |words: &str| Some(Notice::Said(words.to_owned()));
    let mut job = job_with_hip(2, Hand::Right);
    // As long as nobody said how the panels lie, all edges are read alike.
    let turned = say("Hip 1: LEFT hand now, was right; u takes it back");
    assert_eq!(said(&job, "4"), turned);
    assert_eq!(said(&job, "6"), None);
    job.settings = Setting::PanelsLie
        .set(&job.settings, "left-neighbour")
        .unwrap();
    let also = "Hip 1: LEFT hand now, was right; its 4 readings are to the side-lap line now, were to the last panel's edge; u takes it back";
    assert_eq!(said(&job, "4"), say(also));
    // What was said of this edge alone stands.
    job.edge_mut(EdgeId(1)).unwrap().reads_to = Some(ReadTo::PanelEdge);
    assert_eq!(said(&job, "4"), turned);
}

#[test]
fn the_hand_an_edge_has_is_shown_before_it_is_changed() {
    for hand in Hand::BOTH {
        let mut program = Program::with(job_with_hip(2, hand));
        program.press("<f3><");
        let Some(Dialog::Choice {
            what: Choice::Hand { .. },
            row: Some(shown),
        }) = program.state.dialog
        else {
            panic!("{:?}", program.state.dialog);
        };
        assert_eq!(Choice::side(shown), hand);
        // Once a piece is marked, no more.
        program.press("<esc><f4><enter><enter><f3>");
        program.state.log.focus = LogFocus::Edges;
        program.press(">");
        let words = format!("marked {}-hand already", hand.word().to_uppercase());
        let screen = program.screen(120, 40);
        assert!(screen.contains(&words), "{screen}");
    }
}

/// Common practice: a plane between two hips has one of each hand.
#[test]
fn a_plane_with_two_edges_of_one_hand_says_which_hand() {
    for hand in Hand::BOTH {
        let mut job = job_with_hip(1, hand);
        let plane = Some(Name::or("south", "?"));
        let other = job.add_edge(Name::or("Hip 2", "?"), EdgeKind::Hip, hand);
        for edge in [EdgeId(1), other] {
            job.edge_mut(edge).unwrap().plane = plane.clone();
        }
        let said = odd_planes(&job);
        let words = format!(
            "roof side south has 2 {}-hand edges (Hip 1, Hip 2)",
            hand.word()
        );
        assert!(said[0].starts_with(&words), "{said:?}");
        job.edge_mut(other).unwrap().hand = hand.other();
        assert_eq!(odd_planes(&job), Vec::<String>::new());
    }
}

#[test]
fn an_offcut_found_on_site_has_the_whole_end_that_was_chosen() {
    for (keys, whole) in KEYS {
        let mut program = Program::with(job_with_hip(1, Hand::Left));
        program.press(&format!("<f5>a{keys}"));
        let words = format!("its widths, {} end whole", whole.word());
        assert!(program.screen(80, 24).contains(&words), "{keys}");
        program.press("40;40<enter>");
        let progress = &program.state.open.as_ref().unwrap().progress;
        let offcut = &progress.rack()[0].offcut;
        assert_eq!(offcut.whole, whole, "{keys}");
        // It serves the pieces of that hand alone.
        let open = program.state.open.as_ref().unwrap();
        let used = open.list.plan.rack.len();
        assert_eq!(used == 1, whole == Hand::Left, "{keys}");
        program.press("<f4><enter>");
        let from = "offcut 1 from the rack, left end whole";
        let screen = program.screen(160, 50);
        assert_eq!(screen.contains(from), whole == Hand::Left, "{screen}");
    }
}
