//! Job: moving among the settings, turning and typing them.

use crate::support::{Program, job_with_hip};
use bendmark::domain::{
    measure::Hand,
    roof::EdgeKind,
    settings::{Allowance, LayingOrder, Setting},
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
