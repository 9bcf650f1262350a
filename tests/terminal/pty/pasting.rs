//! Text that is pasted into the real terminal.

use crate::faults::bench::Bench;

#[test]
fn pasted_text_never_acts_as_keys_and_goes_into_a_field() {
    let bench = Bench::new();
    let mut terminal = bench.open();
    // As keys it would stack pieces, spoil one, and leave.
    terminal.send(b"\x1b[200~\r\r x\rqy\x1b[201~");
    terminal.wait_for("pasted text was not taken: nothing is being typed here");
    terminal.wait_for("40 left");
    println!("{}", terminal.contents());
    let stick = bench.home.path().join("stick.ron");
    terminal.press("f");
    terminal.wait_for("save in which file from now on?");
    terminal.send(format!("\x1b[200~{}\n\x1b[201~", stick.display()).as_bytes());
    terminal.wait_for("stick.ron");
    assert!(!stick.exists());
    terminal.press("<enter>");
    terminal.wait_for("saved in \"");
    terminal.wait_saved();
    assert!(stick.exists());
    assert_eq!(bench.stacked(), 0);
    assert_eq!(terminal.quit(), 0);
}
