//! A spoiled piece: one question, and the rack has the figures that were confirmed.

use crate::support::{Program, put};
use bendmark::domain::bench::SpoiledBy;
use bendmark::domain::cutting::Job;
use bendmark::domain::measure::{Hand, Length, Name};
use bendmark::domain::roof::EdgeKind;
use bendmark::domain::settings::Settings;
use bendmark::sheet::{html::html, layout::Layout, rows::Rows, text::text};

/// A piece whose own part would serve the next one, cut and in hand.
fn cut() -> Program {
    let mut job = Job::new(Name::or("Mill Lane", "?"), Settings::default());
    let edge = job.add_edge(Name::or("A", "?"), EdgeKind::Hip, Hand::Left);
    put(&mut job, edge, 1, "30", "17 1/2");
    put(&mut job, edge, 2, "18", "5 1/2");
    let mut program = Program::with(job);
    program.press("<f4><enter><enter><enter>");
    program
}

fn rack(program: &Program) -> Vec<[Length; 2]> {
    let rack = program.state.open.as_ref().unwrap().progress.rack();
    rack.iter().map(|offcut| offcut.offcut.widths()).collect()
}

fn spoiled(program: &Program) -> usize {
    program.state.open.as_ref().unwrap().progress.spoiled()
}

#[test]
fn what_is_usable_is_asked_with_its_figures_and_enter_keeps_it_so() {
    let mut program = cut();
    program.press("x");
    assert_eq!(
        spoiled(&program),
        0,
        "nothing is written before it is answered"
    );
    let screen = program.screen(80, 24);
    assert!(
        screen.contains("spoiled: what of it is usable?"),
        "{screen}"
    );
    assert!(
        screen.contains("the piece itself as offcut 1 for"),
        "{screen}"
    );
    program.press("<esc>");
    assert_eq!(spoiled(&program), 0);
    program.press("x<enter>");
    assert_eq!(spoiled(&program), 1);
    let inches = crate::support::inches;
    assert_eq!(rack(&program), [[inches("30"), inches("17 1/2")]]);
}

#[test]
fn what_was_cut_short_is_kept_so_much_shorter_or_not_at_all() {
    let mut program = cut();
    program.press("x-").press("2<enter>");
    let inches = crate::support::inches;
    assert_eq!(rack(&program), [[inches("28"), inches("15 1/2")]]);
    // So short that it serves nothing, it is not kept.
    let mut program = cut();
    program.press("x-").press("20<enter>");
    assert_eq!((spoiled(&program), rack(&program).len()), (1, 0));
    let mut program = cut();
    program.press("x0");
    assert_eq!((spoiled(&program), rack(&program).len()), (1, 0));
    let mut program = cut();
    program.press("x-").press("two<enter>");
    assert_eq!(spoiled(&program), 0);
    let screen = program.screen(80, 24);
    assert!(screen.contains("two"), "{screen}");
}

#[test]
fn by_what_it_was_spoiled_is_said_by_a_key_never_asked_and_counted_on_the_sheet() {
    let mut program = cut();
    program.press("xc<enter>");
    let progress = &program.state.open.as_ref().unwrap().progress;
    let by: Vec<_> = progress.spoiled_by().clone().into_iter().collect();
    assert_eq!(by, [(SpoiledBy::Cut, 1)]);
    let rows = Rows::of(program.job());
    for page in [text(&rows, 80), html(&rows, &Layout::default())] {
        assert!(page.contains("spoiled by: cut 1"), "{page}");
    }
}

#[test]
fn an_offcut_on_the_rack_takes_the_size_that_is_measured() {
    let mut program = cut();
    program.press("x<enter><f5>e");
    let screen = program.screen(80, 24);
    assert!(screen.contains("30; 17 1/2"), "{screen}");
    program.press(&"<backspace>".repeat(10));
    program.press("26; 13<enter>");
    let inches = crate::support::inches;
    assert_eq!(rack(&program), [[inches("26"), inches("13")]]);
    program.press("u");
    assert_eq!(rack(&program), [[inches("30"), inches("17 1/2")]]);
    // One that came without a lot is given one, and keeps it when its size is
    // measured again.
    let lot = |program: &Program| {
        let rack = program.state.open.as_ref().unwrap().progress.rack();
        rack.first().and_then(|offcut| offcut.lot.clone())
    };
    assert_eq!(lot(&program), None);
    program.press("e30; 17 1/2; Slate 7<enter>");
    assert_eq!(lot(&program).as_ref().map(Name::as_str), Some("Slate 7"));
    assert_eq!(rack(&program), [[inches("30"), inches("17 1/2")]]);
    program.press("e").press(&"<backspace>".repeat(40));
    program.press("26; 13<enter>");
    assert_eq!(lot(&program).as_ref().map(Name::as_str), Some("Slate 7"));
    program.press("e");
    let screen = program.screen(80, 24);
    assert!(screen.contains("26; 13; Slate 7"), "{screen}");
    program.press("<esc>uu");
    program.press("e").press(&"<backspace>".repeat(10));
    program.press("1<enter>");
    let screen = program.screen(80, 24);
    assert!(screen.contains("back"), "{screen}");
}
