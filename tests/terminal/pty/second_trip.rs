//! A wide gap from Log to sheet, its last piece held for a second trip.

use super::made;
use crate::terminal::Home;

#[test]
fn a_wide_gap_goes_from_log_to_sheet_over_two_trips() {
    let home = Home::new();
    let csv = "edge,kind,hand,course,bottom,top\nNorth,hip,left,1,30,18\n";
    let mut terminal = made(&home, &["--second-trip", "yes"], csv);
    terminal.wait_for("1 of 1 pieces left");
    // The wide course is read in the Log.
    terminal.press("<f3><enter><up>70<enter>58<enter>");
    terminal.wait_for("2 pieces");
    terminal.press("<f4><enter>");
    terminal.wait_for("H1-1 L");
    for stage in [">cut", ">bend up", ">label"] {
        terminal.press("<enter>");
        terminal.wait_for(stage);
    }
    terminal.press("<enter>");
    terminal.wait_for("FULL PANEL");
    // It is neither cut nor bent.
    terminal.press("<enter>");
    terminal.wait_for(">label");
    terminal.press("<enter>");
    terminal.wait_for("HELD for the second trip");
    terminal.press("<enter>");
    terminal.wait_for("the gap over the laid pieces?");
    // By the cover 24 and 12.
    terminal.press("24 1/8<enter>");
    terminal.wait_for("now its top");
    terminal.press("12 1/8<enter>");
    terminal.wait_for("gap over the laid pieces 24 1/8; 12 1/8");
    for stage in [">cut", ">bend up", ">label"] {
        terminal.press("<enter>");
        terminal.wait_for(stage);
    }
    terminal.press("<enter>");
    terminal.wait_saved_with("every piece is stacked");
    assert_eq!(terminal.quit(), 0);
    let output = std::process::Command::new(env!("CARGO_BIN_EXE_bendmark"))
        .env("HOME", home.path())
        .current_dir(home.path())
        .args(["sheet", "roof.ron"])
        .output()
        .unwrap();
    let sheet = String::from_utf8(output.stdout).unwrap();
    let words = "second trip: cut to the gap as read over the laid pieces";
    assert!(sheet.contains(words), "{sheet}");
    assert!(sheet.contains("24 1/8"), "{sheet}");
}
