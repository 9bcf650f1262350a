//! The list of what is said about an edge beside its readings.

use crate::support::{Program, job_with_hip};
use bendmark::domain::{
    log::{EdgeDetail, EdgeId, ReadTo},
    measure::{Hand, Name},
    roof::EdgeKind,
};

#[test]
fn arrows_turn_what_a_reading_goes_to_and_plain_words_name_it() {
    let mut program = Program::with(job_with_hip(1, Hand::Left));
    program.press("<f3><tab>s").press(&"<down>".repeat(5));
    let reads_to = |program: &Program| program.job().edges()[0].reads_to;
    assert!(
        program
            .screen(80, 24)
            .contains("readings go                as the job says")
    );
    program.press("<right>");
    assert!(
        program
            .screen(80, 24)
            .contains("readings go                to the side-lap line")
    );
    program.press("<right><enter><esc>");
    assert_eq!(reads_to(&program), Some(ReadTo::PanelEdge));
    program
        .press("s")
        .press(&"<down>".repeat(5))
        .press("<right><enter><esc>");
    assert_eq!(reads_to(&program), None);
    program
        .press("s")
        .press(&"<down>".repeat(5))
        .press("<left><enter><esc>");
    assert_eq!(reads_to(&program), Some(ReadTo::PanelEdge));
    program
        .press("s")
        .press(&"<down>".repeat(5))
        .press("lap line<enter><esc>");
    assert_eq!(reads_to(&program), Some(ReadTo::LapLine));
}

/// Common practice: a rake ends its roof side at the gable, where no other side's eave
/// meets its own.
#[test]
fn a_rake_is_asked_for_no_other_side_and_no_corner() {
    let mut job = job_with_hip(1, Hand::Left);
    job.add_edge(Name::or("Gable", "?"), EdgeKind::Rake, Hand::Right);
    let mut program = Program::with(job);
    let rows = ["slope of the other side", "corner between the eaves"];
    for (keys, is_asked) in [("<f3>s", true), ("<esc><down>s", false)] {
        program.press(keys);
        let screen = program.screen(80, 24);
        assert!(
            rows.iter().all(|row| screen.contains(row) == is_asked),
            "{screen}"
        );
        assert!(screen.contains("slope of this side"), "{screen}");
    }
    // Enter goes through what there is, to its end.
    program.press("7<enter>South<enter>A11<enter>panel edge<enter>hard<enter>");
    assert_eq!(program.state.dialog, None);
    let rake = &program.job().edges()[1];
    let said = EdgeDetail::ALL.map(|detail| detail.text(rake));
    let expected = [
        "7 in 12",
        "",
        "90 deg",
        "South",
        "A11",
        "panel-edge",
        "hard",
    ];
    assert_eq!(said, expected);
    program.press("s<up>");
    assert!(program.screen(80, 24).contains(">slope of this side"));
    program.press("<down><down><down><down><down>");
    assert!(program.screen(80, 24).contains(">tape end at the board"));
}

/// A gable wing after a hip: its rake is the other end of that hip's roof side. With
/// both ends of that side logged it is of another one.
#[test]
fn a_new_rake_is_of_the_last_hips_side_where_that_still_lacks_an_edge_of_its_hand() {
    let mut job = job_with_hip(1, Hand::Left);
    job.edge_mut(EdgeId(1)).unwrap().plane = Name::new("South").ok();
    let mut program = Program::with(job);
    program.press("<f3>a36");
    let plane = |program: &Program| {
        let plane = &program.job().edges().last().unwrap().plane;
        plane.as_ref().map(Name::to_string)
    };
    assert_eq!(plane(&program).as_deref(), Some("South"));
    program.press("a36");
    assert_eq!(plane(&program), None);
}

#[test]
fn every_value_in_the_details_of_an_edge_stands_in_one_column() {
    let mut job = job_with_hip(1, Hand::Left);
    let edge = job.edge_mut(EdgeId(1)).unwrap();
    for (detail, said) in [
        (EdgeDetail::Slope, "7"),
        (EdgeDetail::Plane, "South"),
        (EdgeDetail::Lot, "A11"),
    ] {
        detail.set(edge, said).unwrap();
    }
    let mut program = Program::with(job);
    program.press("<f3>s");
    for detail in EdgeDetail::ALL {
        let screen = program.screen(80, 24);
        for (label, value) in [
            ("slope of this side", "7 in 12"),
            ("roof side", "South"),
            ("readings go", "as the job says"),
        ] {
            let mut rows = screen
                .lines()
                .filter_map(|row| Some((row.find(label)?, row.find(value)?)));
            let (label, value) = rows.next().unwrap();
            assert_eq!(value - label, 27, "{detail:?}\n{screen}");
        }
        program.press("<down>");
    }
}
