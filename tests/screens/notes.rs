//! What is said of a piece to mark is whole at the smallest usual size, too.

use crate::support::Program;
use bendmark::app::place::Glyphs;
use bendmark::domain::piece::{Nose, Part};
use bendmark::domain::settings::Setting;
use bendmark::storage::{files::RealFs, keeping::load};
use std::path::Path;

/// How each thing said of it begins, and how much of it has to be there, in words.
const SAID: [(&str, usize); 9] = [
    ("FROM", 3),
    ("FLATTEN", 2),
    ("leg stands", 3),
    ("small:", 6),
    ("check bend to bend:", 8),
    ("nip the tip off last,", 7),
    ("too narrow:", 3),
    ("its reading was", 8),
    ("DOUBTFUL", 4),
];

/// A screen's words, in the order in which a column beside the figures has them.
fn words(program: &mut Program, columns: u16, rows: u16) -> String {
    let screen = program.buffer(columns, rows, Glyphs::Blocks);
    let row = |cells: &[ratatui::buffer::Cell]| cells.iter().map(|cell| cell.symbol()).collect();
    let lines: Vec<String> = screen.content().chunks(columns.into()).map(row).collect();
    let hand = program.state.piece_in_hand().unwrap().spec.hand;
    let at = usize::from(columns / 2 - 12);
    let beside = lines.iter().map(|line| {
        let cells = line.chars();
        match hand {
            bendmark::domain::measure::Hand::Right => cells.skip(at + 25).collect::<String>(),
            bendmark::domain::measure::Hand::Left => cells.take(at).collect(),
        }
    });
    let all = beside.collect::<Vec<_>>().join(" ");
    all.split_whitespace().collect::<Vec<_>>().join(" ")
}

#[test]
fn what_is_said_of_a_piece_to_mark_is_whole_at_80x24() {
    for name in ["alder-court-inches", "brook-meadow-millimetres"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-jobs/{name}.ron"));
        let mut program = Program::with(load(&RealFs, &path).unwrap().job);
        program.press("<f4><enter>");
        let pieces = program.state.open.as_ref().unwrap().list.pieces.len();
        let mut seen = 0;
        for _ in 0..pieces {
            let large = words(&mut program, 160, 50);
            let small = words(&mut program, 80, 24);
            for (begins, count) in SAID {
                if let Some(at) = large.find(begins) {
                    let there = small.find(begins);
                    let whole = there.is_some_and(|at| small[at..].split(' ').count() >= count);
                    assert!(whole, "{begins}\n{}\n{small}", &large[at..]);
                    seen += 1;
                }
            }
            if large.contains("leg narrows") {
                let begins = ["leg short at the", "leg narrows"];
                let said = begins.iter().zip([6, 12]).any(|(begins, count)| {
                    let there = small.find(begins);
                    there.is_some_and(|at| small[at..].split(' ').count() >= count)
                });
                assert!(said, "{small}");
            }
            program.press("<down>");
        }
        assert!(seen > pieces, "{seen}");
    }
}

/// Where one key does the whole piece the cut's page is not seen: the marks say it.
#[test]
fn one_key_a_piece_says_turn_drop_and_what_is_kept_beside_the_marks() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-jobs/alder-court-inches.ron");
    let mut job = load(&RealFs, &path).unwrap().job;
    job.settings = Setting::OneKey.set(&job.settings, "piece").unwrap();
    let mut program = Program::with(job);
    program.press("<f4><enter>");
    let (mut turned, mut kept) = (0, 0);
    let pieces = program.state.open.as_ref().unwrap().list.pieces.len();
    for _ in 0..pieces {
        let piece = program.state.piece_in_hand().unwrap().clone();
        let said = words(&mut program, 80, 24);
        // One that is cut at both ends is done a step at a time.
        let cut = piece.cut_now().filter(|_| piece.spec.near.is_none());
        if let Some(cut) = cut {
            let lie = cut.lie(program.state.job().unwrap().settings.blade);
            let wanted = match (lie.nose, lie.on_table) {
                (Nose::Toward, Part::Kept) => "as it lies; offcut drops",
                (Nose::Toward, Part::Offcut) => "as it lies; PIECE drops",
                (Nose::Away, Part::Kept) => "TURNED, nose away; offcut drops",
                (Nose::Away, Part::Offcut) => "TURNED, nose away; PIECE drops",
            };
            // Cutting across has a page of its own before the marks.
            if !program.screen(80, 24).contains("ACROSS FIRST") {
                assert!(said.contains(wanted), "{wanted}\n{said}");
                assert!(said.contains("BEND UP to "), "{said}");
                turned += usize::from(lie.nose == Nose::Away);
            }
        }
        kept += usize::from(said.contains("OFFCUT: write "));
        program.press("<down>");
    }
    assert!(turned > 5 && kept > 5, "{turned} {kept}");
}

/// Only the row with the piece's name, and one under it, may be cut short.
#[test]
fn no_word_of_a_step_is_cut_short_at_80x24_and_a_leg_that_narrows_is_not_called_full() {
    let mut narrow = 0;
    for name in ["alder-court-inches", "brook-meadow-millimetres"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-jobs/{name}.ron"));
        let mut program = Program::with(load(&RealFs, &path).unwrap().job);
        program.press("<f4><enter>");
        for _ in 0..2_000 {
            let screen = program.screen(80, 24);
            if screen.contains("every piece is stacked") {
                break;
            }
            let cut_short: Vec<_> = screen
                .lines()
                .skip(2)
                .filter(|row| row.contains(".."))
                .collect();
            assert!(cut_short.is_empty(), "{cut_short:?}\n{screen}");
            if screen.contains(">bend") && screen.contains("! leg narrows") {
                assert!(screen.contains("line, where it is full"), "{screen}");
                assert!(!screen.contains("full length"), "{screen}");
                narrow += 1;
            }
            program.press("<enter>");
        }
        assert!(program.screen(80, 24).contains("every piece is stacked"));
    }
    assert!(narrow > 3, "{narrow}");
}

/// One of several is cut like any other: its label takes nothing of what that needs.
#[test]
fn the_cut_of_one_of_several_has_its_picture_and_its_words_whole_at_80x24() {
    for name in ["alder-court-inches", "brook-meadow-millimetres"] {
        let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(format!("sample-jobs/{name}.ron"));
        let mut program = Program::with(load(&RealFs, &path).unwrap().job);
        program.press("<f4><enter>s4<enter>1<enter><enter><enter><enter>");
        let mut seen = 0;
        for _ in 0..4 {
            let screen = program.screen(80, 24);
            if screen.contains(">cut") {
                for words in ["BLADE ", "enter", "stop", "hands and feet clear."] {
                    assert!(screen.contains(words), "{words}\n{screen}");
                }
                // Where a small piece needs the rows the picture alone says how.
                let whole = screen.contains("take the second bite.");
                assert!(whole || !screen.contains("Enter square"), "{screen}");
                seen += 1;
            }
            program.press("<enter>");
        }
        assert!(seen > 2, "{seen}");
    }
}
