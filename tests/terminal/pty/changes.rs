//! When something changes at the bench, from the Log to the sheet, on the real
//! program: a piece spoiled and cut short, its offcut measured, two colour lots, a
//! reading changed after its piece was stacked.

use crate::terminal::{Home, Terminal};

/// Adds a hip by digits alone, types its readings, and the lot of its panels.
fn log(terminal: &mut Terminal, end: &str, lot: &str, readings: &str) {
    terminal.press("a");
    terminal.wait_for("what is added?");
    terminal.press("1");
    terminal.press(end);
    terminal.wait_for("Type the bottom of course 1");
    // Down to the lot, the fifth of an edge's details.
    terminal.press("s");
    terminal.wait_for("arrows choose");
    terminal.press(&"<down>".repeat(4));
    terminal.press(lot);
    terminal.press("<enter>");
    terminal.wait_for(lot);
    terminal.press("<esc>");
    terminal.wait_for("o * runs out");
    terminal.press(readings);
}

#[test]
// Over 60 lines: one day, step by step.
fn what_changes_at_the_bench_is_told_from_the_log_to_the_sheet() {
    let home = Home::new();
    let mut terminal = Terminal::open(home.path(), &[], (80, 24));
    terminal.wait_saved();
    terminal.press("<f6>nQuarry Barn<enter>");
    terminal.wait_for("No hip yet");
    // Course 2 would come from what is left of a spoiled course 1.
    log(
        &mut terminal,
        "4",
        "Slate7",
        "30<enter>17.5<enter>18<enter>5.5<enter>",
    );
    terminal.wait_for("Type the bottom of course 3");
    log(&mut terminal, "6", "Slate9", "20<enter>7.5<enter>");
    terminal.wait_for("Type the bottom of course 2");
    terminal.press("<f2>");
    terminal.wait_for("carry Slate7: 2, Slate9: 1");
    terminal.press("<f4>");
    terminal.wait_for("before you cut");
    terminal.press("<enter>");
    terminal.wait_for(" Slate7");
    // Course 1 is marked and cut; the cut is spoiled, and what is left is 2 short.
    terminal.press("/1-1<enter>");
    terminal.wait_for("H1-1");
    terminal.press("<enter><enter>");
    terminal.wait_for(">bend");
    terminal.press("xc");
    terminal.wait_for("Spoiled by: cut.");
    terminal.press("-2<enter>");
    terminal.wait_for("to be made again");
    terminal.press("<f5>");
    terminal.wait_for("28");
    terminal.press("e");
    terminal.wait_for("how wide is this offcut?");
    terminal.press("27; 14<enter>");
    terminal.wait_for("measured");
    terminal.press("<f4>");
    for _ in 0..40 {
        if terminal.contents().contains("every piece is stacked") {
            break;
        }
        terminal.press("<enter>");
    }
    terminal.wait_saved_with("every piece is stacked");
    // Read again: what is stacked is half an inch short.
    terminal.press("<f3>");
    terminal.wait_for("H1");
    terminal.press("<home><enter>");
    terminal.wait_for("stacked");
    terminal.press("<home><down><down><down><left>");
    terminal.wait_for("Type over the bottom of course 1");
    terminal.press("30.5<enter>");
    terminal.wait_for("NO LONGER FITS");
    terminal.press("<f2>");
    terminal.wait_for("1 NO LONGER FITS: n");
    terminal.press("p");
    terminal.wait_for("write the cut sheet to which file?");
    terminal.press("~/roof.txt<enter>");
    terminal.wait_for("sheet written: ");
    terminal.press("n");
    terminal.wait_for("this piece no longer fits the log");
    terminal.press("s");
    terminal.wait_for("left as it is");
    terminal.wait_saved();
    assert_eq!(terminal.quit(), 0);
    let page = std::fs::read_to_string(home.path().join("roof.txt")).unwrap();
    let page = page.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "1 NO LONGER FITS",
        "spoiled by: cut 1",
        "of lot Slate7: 0 for what is left",
        "lot Slate9",
    ] {
        assert!(page.contains(words), "{words}: {page}");
    }
}
