//! Job: moving among the settings, turning and typing them.

use crate::first_day::{in_box, said};
use crate::support::{Program, job_with_hip};
use bendmark::domain::{
    cutting::Job,
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::{Allowance, LayingOrder, RawSettings, Setting, Settings},
};

fn job() -> Program {
    let mut program = Program::with(job_with_hip(2, Hand::Left));
    program.press("<f6>");
    program
}

#[test]
fn arrows_reach_every_setting_and_sideways_goes_among_the_kinds() {
    let mut program = job();
    let mut reached = vec![program.state.job_view.setting];
    for _ in 0..40 {
        program.press("<right>");
        reached.push(program.state.job_view.setting);
    }
    program.press("<home>");
    for _ in 0..40 {
        program.press("<down>");
        reached.push(program.state.job_view.setting);
        let legs = [EdgeKind::Hip, EdgeKind::Valley].map(Setting::Along);
        if legs.contains(&program.state.job_view.setting) {
            for _ in 0..2 {
                program.press("<right><down>");
                reached.push(program.state.job_view.setting);
                program.press("<up>");
            }
            program.press("<left><left>");
        }
    }
    for setting in Setting::ALL {
        let is_second_way = matches!(setting, Setting::Standing(_));
        assert!(is_second_way != reached.contains(&setting), "{setting:?}");
    }
}

#[test]
fn a_leg_is_one_setting_turned_by_enter_and_typed_with_its_way() {
    let mut program = job();
    program.press("<right><right>");
    let leg = |program: &Program| program.job().settings.kind(EdgeKind::Hip).allowance;
    let Allowance::Along(two) = leg(&program) else {
        panic!("a new job's leg is added along the nose")
    };
    program.press("<enter>");
    assert_eq!(leg(&program), Allowance::Standing(two));
    assert!(program.screen(80, 24).contains("hip leg: 2 in square"));
    program.press("2 along<enter>");
    assert_eq!(leg(&program), Allowance::Along(two));
    program.press("u");
    assert_eq!(
        program.state.job_view.setting,
        Setting::Along(EdgeKind::Hip)
    );
    program.press("1 1/2<enter>");
    assert!(matches!(leg(&program), Allowance::Standing(_)));
}

#[test]
fn a_choice_is_turned_and_said_as_people_say_it() {
    let mut program = job();
    program.press("<end><up><up><enter>");
    assert_eq!(program.job().settings.laying, LayingOrder::EaveUp);
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("pieces are laid: from the eave up"),
        "{screen}"
    );
}

#[test]
fn a_new_job_says_that_one_key_does_a_whole_piece_where_it_takes_that_over() {
    let asked = |one_key: &str| {
        let mut job = job_with_hip(2, Hand::Left);
        job.settings = Setting::OneKey.set(&job.settings, one_key).unwrap();
        let mut program = Program::with(job);
        in_box(program.press("<f6>n").screen(80, 24).as_str())
    };
    let [piece, step] = ["piece", "step"].map(asked);
    let words = "taken over from Mill Lane: inches, Enter does a whole piece, and so on. Look";
    assert!(piece.contains(words), "{piece}");
    let words = "taken over from Mill Lane: inches, and so on. Look";
    assert!(step.contains(words), "{step}");
}

/// Down the lines of Job from its first.
fn go_to(program: &mut Program, setting: Setting) {
    program.press("<home>");
    while program.state.job_view.setting != setting {
        program.press("<down>");
    }
}

#[test]
fn an_accepted_figure_goes_on_to_the_next_line_and_a_refused_one_is_told_once() {
    let mut program = job();
    program.press("<home><enter>");
    go_to(&mut program, Setting::PanelWidth);
    // As they stand on a sheet of paper, without a look at the screen.
    program.press("1220<enter>50<enter>355<enter>");
    let settings = program.job().settings;
    let figures = [settings.panel_width, settings.side_lap, settings.exposure];
    assert_eq!(figures, [1220, 50, 355].map(Length::from_mm));
    assert_eq!(program.state.job_view.setting, Setting::PanelHeight);
    assert!(program.state.field.is_none());
    // A figure that stands already goes on, too; a refused one stays.
    program.press("<up>355<enter>");
    assert_eq!(program.state.job_view.setting, Setting::PanelHeight);
    program.press("<up>35500<enter>");
    assert_eq!(program.state.job_view.setting, Setting::Exposure);
    assert!(program.state.field.is_some());
    let screen = program.screen(80, 24);
    let refusal = "exposure of 35500 mm is out of range";
    assert_eq!(screen.matches(refusal).count(), 1, "{screen}");
    // A choice stays where it is.
    program.press("<esc><down><down><enter>");
    assert_eq!(program.state.job_view.setting, Setting::PanelsLie);
}

/// Every mark moves by one key: the screen must not look as before.
#[test]
fn a_setting_that_moves_marks_says_how_many_and_whether_done_steel_still_fits() {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    let open = program.state.open.as_ref().unwrap();
    let count = open.list.pieces.len();
    program.press("<f4><enter><enter><enter><f6>");
    // A quarter of an inch is within what a marked piece may be off.
    let moved = count - 1;
    go_to(&mut program, Setting::TapeEnd);
    program.press("<enter>");
    assert_eq!(
        said(&program),
        format!(
            "tape end at the board: hard against it; {moved} pieces' marks change; u takes it back"
        )
    );
    program.press("u");
    go_to(&mut program, Setting::ReadTo);
    program.press("<enter>");
    let open = program.state.open.as_ref().unwrap();
    assert_eq!(open.list.misfits().count(), 1);
    let words = format!(
        "readings go: to the last panel's edge; {moved} pieces' marks change, 1 marked no longer fits; u takes it back"
    );
    assert_eq!(said(&program), words);
    let screen = program.screen(80, 24);
    for words in [&words[..50], "no longer fits; u takes it back"] {
        let rows = screen.replace('\n', " ");
        let rows: Vec<&str> = rows.split_whitespace().collect();
        assert!(rows.join(" ").contains(words), "{words}: {screen}");
    }
    // What moves no figure says nothing more.
    go_to(&mut program, Setting::Tolerance);
    program.press("1/2<enter>");
    assert_eq!(said(&program), "a reading is doubted beyond: 1/2 in");
}

#[test]
fn lengths_nobody_set_go_with_the_units_until_something_is_read() {
    let empty = Job::new(Name::or("Elm Road", "?"), Settings::default());
    let mut program = Program::with(empty.clone());
    program.press("<f6>");
    go_to(&mut program, Setting::SideLap);
    program.press("3<enter><home><enter>");
    let mm = program.job().settings;
    let lengths = [mm.panel_width, mm.side_lap, mm.exposure];
    let three_inches = Length::from_inches(3);
    let round = Length::from_mm;
    assert_eq!(lengths, [round(1_220), three_inches, round(356)]);
    let words = "millimetres: panel, laps, legs and other lengths that were not set are a new job's in millimetres now";
    assert!(said(&program).starts_with(words), "{}", said(&program));
    program.press("u");
    assert_eq!(program.job().settings.panel_width, Length::from_inches(48));
    // With a reading every length stays to the nanometre, either way.
    let mut program = job();
    let before = program.job().settings;
    program.press("<enter>");
    let now = program.job().settings;
    let only_the_unit = RawSettings {
        division: now.division,
        ..*before
    };
    assert_ne!(now.division, before.division);
    assert_eq!(*now, only_the_unit);
    assert!(!said(&program).contains("not set"), "{}", said(&program));
}
