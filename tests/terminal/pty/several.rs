//! A hip taken several pieces at a time, from the log to the sheet.

use super::{job_with_ten_courses, json};
use crate::terminal::{Home, Terminal};
use serde_json::Value;
use std::time::Duration;

/// The step in hand and the piece, read from the screen: `cut H1-3 L`. None once
/// the pieces are no longer taken together.
fn step(screen: &str) -> Option<String> {
    if !screen.contains("several: ") {
        return None;
    }
    let piece = screen.lines().nth(1)?.trim();
    let label = piece.split("   ").next()?;
    // At the mark step a notice may stand where the steps do.
    let steps = screen.lines().find(|line| line.contains("label, stack"));
    let now = steps.and_then(|steps| steps.split('>').nth(1)?.split([',', ' ']).next());
    let now = now.or(screen.contains("FLATTEN").then_some("mark"))?;
    Some(format!("{now} {label}"))
}

/// Takes as many pieces as can be, with Enter alone once it has begun; says the
/// steps.
fn run(terminal: &mut Terminal, count_and_lying: &str) -> Vec<String> {
    terminal.press("s");
    terminal.wait_for("mark how many");
    terminal.press(count_and_lying);
    terminal.wait_for("several: 1 of ");
    let mut steps = Vec::new();
    while let Some(now) = steady(terminal) {
        terminal.press("<enter>");
        // A frame that only says "saved" is not the answer yet.
        terminal.wait_until("the next step", |screen| {
            step(screen).as_ref() != Some(&now)
        });
        steps.push(now);
    }
    steps
}

/// The step once a whole frame has come: its rows are read as they arrive.
fn steady(terminal: &Terminal) -> Option<String> {
    loop {
        let before = step(&terminal.contents());
        std::thread::sleep(Duration::from_millis(20));
        if step(&terminal.contents()) == before {
            return before;
        }
    }
}

fn of<'a>(steps: &'a [String], kind: &str) -> Vec<&'a str> {
    let of_kind = steps.iter().filter_map(|step| step.strip_prefix(kind));
    of_kind.map(str::trim).collect()
}

#[test]
fn a_hip_is_marked_cut_and_bent_several_pieces_at_a_time_from_log_to_sheet() {
    let home = Home::new();
    let mut terminal = job_with_ten_courses(&home);
    terminal.press("<f4>");
    terminal.wait_for("before you cut");
    terminal.press("<enter>");
    let mut stacked = Vec::new();
    for round in 0..10 {
        if terminal.contents().contains("every piece is stacked") {
            break;
        }
        // A count the first time, then all of the hip; the pile and the row in turn.
        let is_pile = round % 2 == 0;
        let keys = match round {
            0 => "3<enter>1",
            _ if is_pile => "<enter>1",
            _ => "<enter>2",
        };
        let steps = run(&mut terminal, keys);
        let marked = of(&steps, "mark");
        let mut cut = of(&steps, "cut");
        if is_pile {
            cut.reverse();
        }
        assert!(round > 0 || marked.len() == 3, "{steps:?}");
        assert_eq!(cut, marked, "{steps:?}");
        assert_eq!(of(&steps, "bend"), marked, "{steps:?}");
        assert_eq!(of(&steps, "label"), marked, "{steps:?}");
        stacked.extend(marked.into_iter().map(str::to_owned));
    }
    terminal.wait_saved_with("every piece is stacked");
    terminal.press("p");
    terminal.wait_for("write the cut sheet to which file?");
    terminal.press("<enter>");
    terminal.wait_for("sheet written: ");
    assert_eq!(terminal.quit(), 0);
    let sheet: Value = serde_json::from_str(&json(&home, &home.job("Mill Lane"))).unwrap();
    let pieces = sheet["pieces"].as_array().unwrap();
    assert!(pieces.iter().all(|piece| piece["stage"] == "stacked"));
    // As the sheet lists them, so they were stacked.
    let label = |piece: &Value| match (&piece["course"], &piece["piece"]) {
        (course, number) if number == 1 => format!("H1-{course} L"),
        (course, number) => format!("H1-{course}.{number} L"),
    };
    let labels: Vec<String> = pieces.iter().map(label).collect();
    assert_eq!(stacked, labels);
}
