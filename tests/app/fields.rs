//! What is typed and pasted into the fields of dialogs.

use crate::support::{Program, job_with_hip};
use bendmark::app::message::Message;
use bendmark::app::state::{Dialog, Notice};
use bendmark::domain::measure::Hand;

/// Readings were taken from a file once since the job was opened.
fn program() -> Program {
    let mut program = Program::with(job_with_hip(3, Hand::Left));
    let open = program.state.open.as_mut().unwrap();
    open.readings = Some("/jobs/test.csv".into());
    program
}

/// What stands in the dialog's field.
fn text(program: &Program) -> String {
    match &program.state.dialog {
        Some(Dialog::Prompt { text, .. }) => text.clone(),
        other => panic!("{other:?}"),
    }
}

fn said(program: &Program) -> String {
    match &program.state.notice {
        Some(Notice::Said(text) | Notice::Trouble(text)) => text.clone(),
        None => String::new(),
    }
}

/// The keys that ask for a path and offer one.
const ASKED: [(&str, &str); 3] = [
    ("<f2>p", "/jobs/test.html"),
    ("<f2>f", "/jobs/test.ron"),
    ("<f3>g", "/jobs/test.csv"),
];

#[test]
fn in_every_path_field_the_first_letter_replaces_what_is_offered() {
    for (keys, offered) in ASKED {
        let mut program = program();
        program.press(keys);
        assert_eq!(text(&program), offered);
        program.press("/stick");
        assert_eq!(text(&program), "/stick", "{keys}");
        program.press("<ctrl-u>");
        assert_eq!(text(&program), "", "{keys}");
        program.press("7");
        assert_eq!(text(&program), "7", "{keys}");
    }
}

#[test]
fn backspace_and_an_arrow_keep_what_is_offered_and_change_its_end() {
    for (keys, offered) in ASKED {
        let mut program = program();
        program.press(keys).press("<backspace>x");
        let (kept, _) = offered.split_at(offered.len() - 1);
        assert_eq!(text(&program), format!("{kept}x"), "{keys}");
        program.press("<esc>").press(keys).press("<right>2");
        assert_eq!(text(&program), format!("{offered}2"), "{keys}");
        program.press("<esc>").press(keys).press("<ctrl-u>");
        assert_eq!(text(&program), "", "{keys}");
    }
}

#[test]
fn a_path_that_did_not_do_is_typed_on_and_not_over() {
    let mut program = program();
    program.press("<f2>f/stick");
    program.take(Message::NotSavedElsewhere(
        "/stick".to_owned(),
        "why".to_owned(),
    ));
    program.press("s");
    assert_eq!(text(&program), "/sticks");
}

#[test]
fn the_second_width_of_an_offcut_is_typed_behind_the_first() {
    let mut program = program();
    program.press("<f5>a4<enter>30<enter>18");
    assert_eq!(text(&program), "30; 18");
}

#[test]
fn pasted_text_goes_into_the_field_in_one_clean_line() {
    let mut program = program();
    program.press("<f2>f");
    let pasted = "/media/stick\n/new\u{202e} roof.ron\r\n".to_owned();
    program.take(Message::Pasted(pasted));
    assert_eq!(text(&program), "/media/stick /new roof.ron");
    program.take(Message::Pasted("2".to_owned()));
    assert_eq!(text(&program), "/media/stick /new roof.ron2");
    program.take(Message::Pasted("x".repeat(400)));
    assert_eq!(text(&program), "/media/stick /new roof.ron2");
    assert!(said(&program).ends_with("it is too long for this field"));
    // A figure at the log.
    program.press("<esc><f3><enter><down><down><down>1");
    program.take(Message::Pasted("2 1/2\n".to_owned()));
    let field = program.state.field.as_ref().unwrap();
    assert_eq!(field.text, "12 1/2");
    program.press("<ctrl-u>");
    assert_eq!(program.state.field.as_ref().unwrap().text, "");
}

#[test]
fn pasted_text_is_refused_in_words_where_nothing_is_typed() {
    for keys in [
        "<f2>",
        "<f3><enter>",
        "<f4>",
        "<f4><enter>",
        "<f6>",
        "<f3><tab>d",
        "?",
    ] {
        let mut program = program();
        program.press(keys);
        let (job, dialog) = (program.job().clone(), program.state.dialog.clone());
        program.take(Message::Pasted("\r\r dyx\r".to_owned()));
        assert_eq!(
            (program.job(), &program.state.dialog),
            (&job, &dialog),
            "{keys}"
        );
        assert!(
            said(&program).starts_with("pasted text was not taken"),
            "{keys}"
        );
        assert_eq!(program.effects, [], "{keys}");
    }
}
