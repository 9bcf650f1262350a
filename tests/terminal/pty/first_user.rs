//! A first-time cutter's day, from an empty job to the printed sheet, in a small
//! and in a large terminal: two hips of both hands and a valley, two slips, one
//! piece spoiled, offcuts used.

use super::json;
use crate::terminal::{Home, Terminal};
use serde_json::Value;

/// Six courses of a hip at 6 in 12 that narrow by 12 1/2 in; `slip` stands in the
/// place of one reading.
fn hip_with(slip: (&str, &str)) -> String {
    let readings = "36.75 24.25 24.25 11.75 57.75 45.25 45.25 32.75 32.75 20.25 20.25 7.75";
    let (right, wrong) = slip;
    let (before, after) = readings.split_once(right).unwrap();
    format!("{before}{wrong}{after}<enter>").replace(' ', "<enter>")
}

/// Adds an edge by digits alone, gives it its slope, types its readings.
fn log(terminal: &mut Terminal, kind_and_end: &str, readings: &str) {
    terminal.press("a");
    terminal.wait_for("what is added?");
    terminal.press(kind_and_end);
    terminal.wait_for("Type the bottom of course 1");
    terminal.press("s6<enter>");
    terminal.wait_for("in 12");
    terminal.press("<esc>");
    // A digit on the heels of Esc would be one with Alt.
    terminal.wait_for("o * runs out");
    terminal.wait_for("-hand pieces, 6 in 12");
    terminal.press(readings);
}

fn day(size: (u16, u16)) {
    let home = Home::new();
    let mut terminal = Terminal::open(home.path(), &[], size);
    terminal.wait_saved();
    terminal.press("<f6>nQuarry Barn<enter>");
    terminal.wait_for("No hip yet");
    // An inch burned at one top, digits exchanged at one bottom.
    let slips = [
        ("14", ("32.75 32.75", "33.75 32.75"), "32 3/4"),
        ("16", ("57.75", "75.75"), "57 3/4"),
    ];
    for (keys, slip, likely) in slips {
        log(&mut terminal, keys, &hip_with(slip));
        terminal.press("d");
        terminal.wait_for(&format!("likely {likely}"));
        terminal.press("f");
        terminal.wait_for("as suggested");
        terminal.wait_for("Type the bottom of course 7");
    }
    log(
        &mut terminal,
        "24",
        "9.5<enter>22<enter>22<enter>34.5<enter>",
    );
    terminal.wait_saved_with("Type the bottom of course 3");
    terminal.press("<f4>");
    terminal.wait_for("before you cut");
    terminal.press("<enter><enter>");
    terminal.wait_for(">cut");
    terminal.press("x");
    terminal.wait_for("what of it is usable?");
    terminal.press("<enter>");
    terminal.wait_for("to be made again");
    for _ in 0..200 {
        if terminal.contents().contains("every piece is stacked") {
            break;
        }
        terminal.press("<enter>");
    }
    terminal.wait_saved_with("every piece is stacked");
    terminal.press("p");
    terminal.wait_for("write the cut sheet to which file?");
    terminal.press("<enter>");
    terminal.wait_for("sheet written: ");
    assert_eq!(terminal.quit(), 0);
    let sheet: Value = serde_json::from_str(&json(&home, &home.job("Quarry Barn"))).unwrap();
    let pieces = sheet["pieces"].as_array().unwrap();
    assert!(pieces.iter().all(|piece| piece["stage"] == "stacked"));
    assert!(pieces.iter().any(|piece| piece["stock"] == "offcut"));
    for hand in ["left", "right"] {
        assert!(pieces.iter().any(|piece| piece["hand"] == hand));
    }
    assert!(pieces.iter().any(|piece| piece["kind"] == "valley"));
    assert_eq!(sheet["panels"]["spoiled"], 1);
}

#[test]
fn a_first_day_in_a_terminal_of_80x24() {
    day((80, 24));
}

#[test]
fn a_first_day_in_a_terminal_of_120x40() {
    day((120, 40));
}
