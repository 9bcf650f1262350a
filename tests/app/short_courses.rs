//! A short course's piece from a full course's offcut, by keys and on the sheet.

use crate::support::{Program, put};
use bendmark::domain::{
    bench::{BenchEvent, Fact, MarkedStock, Progress, SavedOffcut},
    cutting::{CutList, Job, PieceStock},
    log::{EdgeId, Reading},
    measure::{Hand, Length, Name},
    piece::Panel,
    roof::EdgeKind,
    settings::{Setting, Settings},
    stock::{Offcut, OffcutNumber},
};
use bendmark::sheet::{rows::Rows, text};

fn inches(count: i64) -> Length {
    Length::from_inches(count)
}

/// A full piece and a short one beside it, then two short ones; 7 high, with an
/// inch for the ridge.
fn job() -> Job {
    let ridge = Setting::RidgeTurnUp.set(&Settings::default(), "1");
    let mut job = Job::new(Name::or("Ridge", "?"), ridge.unwrap());
    let rows = [
        (Hand::Left, "36 3/4", "24 1/4", None),
        (Hand::Right, "6", "1", Some(7)),
        (Hand::Left, "12", "6", Some(7)),
        (Hand::Right, "20", "14", Some(7)),
    ];
    for (hand, bottom, top, height) in rows {
        let edge = job.add_edge(Name::or("Hip", "?"), EdgeKind::Hip, hand);
        put(&mut job, edge, 1, bottom, top);
        let edge = job.edge_mut(edge).unwrap();
        let mut course = edge.courses()[0];
        course.height = height.and_then(|height| Reading::new(inches(height)).ok());
        edge.put(course);
    }
    job
}

#[track_caller]
fn shows(program: &mut Program, words: &[&str]) {
    let screen = program.screen(160, 50);
    let screen = screen.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in words {
        assert!(screen.contains(words), "{words:?} is not in {screen}");
    }
}

#[test]
fn the_offcut_of_a_full_piece_is_cut_across_when_the_short_ones_turn_comes() {
    let mut program = Program::with(job());
    // The cautions; then the full piece: mark, cut, bend, stack.
    program.press("<f4><enter><enter><enter>");
    shows(&mut program, &["write 1 on it, keep it for H2-1 R"]);
    program.press("<enter><enter>");
    let across = "cut the offcut across first, 8 in up from the nose; the back marks stand 7 in up, where the ridge leg bends";
    let picture = "cut across first";
    let from = "FROM offcut 1 from the rack, right end whole";
    // A page for the cut across, then the marks.
    let first = "CUT THE OFFCUT ACROSS FIRST";
    shows(&mut program, &["H2-1 R", first, across, from]);
    program.press("<enter>");
    shows(&mut program, &["H2-1 R", "AT 7 UP", picture]);
    program.press("<enter><enter>");
    assert!(program.state.open.as_ref().unwrap().rack().is_empty());
    program.press("<enter><enter>");
    shows(
        &mut program,
        &["H3-1 L", "cut the panel across first, 8 in up"],
    );
    program.press("<enter><enter><enter><enter><enter>");
    let already =
        "the offcut is cut across already, 8 in up from the nose; the back marks stand 7 in up";
    shows(
        &mut program,
        &["H4-1 R", already, "FROM offcut 2 from the rack"],
    );
    let screen = program.screen(120, 40);
    assert!(!screen.contains(picture), "{screen}");
    assert!(!screen.contains("ACROSS FIRST"), "{screen}");
    let open = program.state.open.as_ref().unwrap();
    assert_eq!(open.panels_to_carry().whole_job, 2);
}

#[test]
fn the_sheet_says_which_offcut_is_cut_across() {
    let job = job();
    let sheet = text::text(&Rows::of(&job), text::WIDTH);
    let sheet = sheet.split_whitespace().collect::<Vec<_>>().join(" ");
    for words in [
        "from offcut of H1-1 L; its offcut: waste ? doubtful reading: see above ! cut the offcut across first, 8 in up from the nose",
        "from offcut of H3-1 L; its offcut: waste ! the offcut is cut across already, 8 in up",
        "its offcut: write H2-1 R",
    ] {
        assert!(sheet.contains(words), "{words:?} is not in {sheet}");
    }
}

/// An older program wrote such an offcut down as high as the course.
#[test]
fn what_a_spoiled_short_piece_leaves_is_as_high_as_it_was_cut_across() {
    let job = job();
    let list = CutList::of(&job, &Progress::default());
    let short = &list.pieces[2];
    assert_eq!(
        (short.id.edge, short.spec.across),
        (EdgeId(3), Some(inches(8)))
    );
    let own = Offcut::own_part(&short.spec, short.spec.bend);
    assert_eq!(own.panel.height, inches(8));
    let panel = Panel {
        height: inches(7),
        ..own.panel
    };
    let facts = [
        Fact::Marked {
            piece: short.id,
            spec: Box::new(short.spec),
            stock: MarkedStock::New { panel: 1 },
            lot: None,
            written: None,
        },
        Fact::Spoiled {
            piece: short.id,
            saved: vec![SavedOffcut {
                number: OffcutNumber(1),
                offcut: Offcut { panel, ..own },
                promised: short.id,
            }],
            why: None,
        },
    ];
    let event = |fact| BenchEvent {
        at: None,
        joined: false,
        fact,
    };
    let progress = Progress::of(&facts.map(event));
    assert_eq!(progress.rack()[0].offcut, own);
}

/// The full piece is not cut yet: the short one waits for its offcut.
#[test]
fn a_short_piece_taken_out_of_its_turn_opens_a_panel_of_its_own() {
    let mut program = Program::with(job());
    program.press("<f4><enter><right>");
    let open = program.state.open.as_ref().unwrap();
    let piece = open.piece(program.state.bench.piece.unwrap()).unwrap();
    assert_eq!(piece.id.edge, EdgeId(2));
    assert!(matches!(piece.stock, PieceStock::New { .. }));
    // Cut across first, its offcut is too low for the full piece.
    assert_eq!(open.panels_to_carry().whole_job, 3);
}
