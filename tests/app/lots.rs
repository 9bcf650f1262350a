//! Colour lots at the bench and on the rack.

use crate::support::{Program, job_with_hip, put};
use bendmark::domain::measure::{Hand, Name};
use bendmark::domain::roof::EdgeKind;

/// Two hips, each of a lot.
fn program() -> Program {
    let mut job = job_with_hip(2, Hand::Left);
    let first = job.edges()[0].id;
    job.edge_mut(first).unwrap().lot = Name::new("Slate 7").ok();
    let other = job.add_edge(Name::or("Hip 2", "?"), EdgeKind::Hip, Hand::Right);
    put(&mut job, other, 1, "20", "8");
    job.edge_mut(other).unwrap().lot = Name::new("Slate 9").ok();
    Program::with(job)
}

/// The lot of the first offcut on the rack.
fn lot(program: &Program) -> Option<Name> {
    let rack = program.state.open.as_ref().unwrap().progress.rack();
    rack[0].lot.clone()
}

#[test]
fn the_lot_stands_beside_what_a_piece_is_cut_from() {
    let mut program = program();
    program.press("<f4><enter>");
    let screen = program.screen(160, 50);
    assert!(screen.contains("FROM new panel 1, lot Slate 7"), "{screen}");
}

/// The lorry brought another lot when the hip was half read.
#[test]
fn a_lot_may_change_from_a_course_on() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    program.press("<f3>s<down><down><down><down>Slate 7; Slate 9 from 2<enter>");
    let screen = program.screen(120, 40);
    assert!(screen.contains("Slate 7; Slate 9 from 2"), "{screen}");
    program.press("<esc><f2>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("carry Slate 7: 1, Slate 9: 2"), "{screen}");
    program.press("<f4><enter><right>");
    let screen = program.screen(160, 50);
    assert!(screen.contains("lot Slate 9"), "{screen}");
    program.press("<enter>");
    let open = program.state.open.as_ref().unwrap();
    let lots: Vec<_> = open.progress.panels().values().collect();
    assert_eq!(lots[0].lot, Name::new("Slate 9").ok());
    // One more course below them all: the lot goes up with its course.
    program.press("<f3><enter><home>+");
    let moved = "course 1 put in, those above move up by one; lot Slate 9 now from 3";
    let said = |program: &Program| format!("{:?}", program.state.notice);
    assert!(said(&program).contains(moved), "{}", said(&program));
    program.press("-");
    let back = "those above move down by one; lot Slate 9 now from 2";
    assert!(said(&program).contains(back), "{}", said(&program));
    program.press("u");
    let edge = &program.state.job().unwrap().edges()[0];
    assert_eq!(edge.later_lots[0].from.get(), 3);
}

#[test]
fn panels_to_carry_are_said_for_each_lot() {
    let mut program = program();
    program.press("<f2>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("carry Slate 7: 2, Slate 9: 1"), "{screen}");
}

#[test]
fn the_lot_of_a_found_offcut_is_asked_for_and_its_number_will_do() {
    let mut program = program();
    program.press("<f5>a4").press("40<enter>30<enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("1 Slate 7, 2 Slate 9"), "{screen}");
    program.press("2<enter>");
    assert_eq!(lot(&program), Name::new("Slate 9").ok());
}

/// Its lot is on its back, and only seen when it is turned over.
#[test]
fn an_offcut_found_without_a_lot_is_given_one_later() {
    let mut program = program();
    program.press("<f5>a4").press("40<enter>30<enter><enter>");
    assert_eq!(lot(&program), None);
    // Its size stands: Enter goes on to the lot.
    program.press("e<enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("1 Slate 7, 2 Slate 9"), "{screen}");
    program.press("2<enter>");
    assert_eq!(lot(&program), Name::new("Slate 9").ok());
    // Named wrong, it is typed over at the end.
    program.press("e<backspace>7<enter>");
    assert_eq!(lot(&program), Name::new("Slate 7").ok());
    program.press("u");
    assert_eq!(lot(&program), Name::new("Slate 9").ok());
}

#[test]
fn an_offcut_that_serves_in_another_lot_is_not_called_waste() {
    let mut program = program();
    // Its left edge is whole, as the pieces of the first lot need it.
    program.press("<f5>a4").press("44<enter>30<enter>2<enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("fits H1-1 L, lot Slate 7"), "{screen}");
    // One more than the first lot has a use for saves nothing, and fits all the same.
    for _ in 0..3 {
        program.press("a4").press("44<enter>30<enter>1<enter>");
    }
    let screen = program.screen(80, 24);
    assert!(screen.contains("a spare for H1-"), "{screen}");
    program.press("a4").press("3<enter>1<enter>1<enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("nothing: throw it away"), "{screen}");
}
