//! The panel's profile at the bender: on which side its leg stands, which way it is
//! bent, and that it leans away from the panel, as the slope has it.

use crate::support::{Program, job_with_hip};
use bendmark::domain::{
    bench::Stage,
    cutting::Job,
    log::EdgeId,
    measure::Hand,
    roof::{EdgeKind, Slope},
};
use bendmark::storage::{files::RealFs, keeping::load::load};
use std::path::Path;

/// Flat from `left` to `right`, and how far the leg reaches beyond it on either side.
struct Profile {
    left: usize,
    right: usize,
    leg: Vec<(usize, usize)>,
}

fn job(kind: EdgeKind, hand: Hand) -> Job {
    let mut job = job_with_hip(2, hand);
    let edge = job.edge_mut(EdgeId(1)).unwrap();
    edge.kind = kind;
    edge.roof.slope = Slope::parse("6").ok();
    job
}

/// Where blocks stand in a row of the picture, each run's first and last column.
fn runs(row: &str) -> Vec<(usize, usize)> {
    let filled: Vec<bool> = row.chars().map(|c| c == '\u{2588}').collect();
    let mut runs: Vec<(usize, usize)> = Vec::new();
    for at in (0..filled.len()).filter(|at| filled[*at]) {
        match runs.last_mut() {
            Some(run) if run.1 + 1 == at => run.1 = at,
            _ => runs.push((at, at)),
        }
    }
    runs
}

fn profile(screen: &str, bend: &str) -> Profile {
    let rows: Vec<&str> = screen.lines().collect();
    let longest = |row: &&str| runs(row).into_iter().max_by_key(|run| run.1 - run.0);
    let flat = (0..rows.len())
        .max_by_key(|at| longest(&rows[*at]).map_or(0, |run| run.1 - run.0))
        .unwrap();
    let (left, right) = longest(&rows[flat]).unwrap();
    // The leg goes on from the flat, two columns a row.
    let next = |at: usize| match bend {
        "up" => at.checked_sub(1),
        _ => Some(at + 1),
    };
    let mut leg = Vec::new();
    let mut at = next(flat);
    while let Some(row) = at.and_then(|at| rows.get(at)) {
        let Some(run) = runs(row).into_iter().find(|run| run.1 - run.0 == 1) else {
            break;
        };
        leg.push(run);
        at = at.and_then(next);
    }
    Profile { left, right, leg }
}

#[test]
fn the_leg_stands_at_the_bent_end_and_leans_away_from_the_panel() {
    for (kind, bend) in [(EdgeKind::Hip, "up"), (EdgeKind::Valley, "down")] {
        for hand in Hand::BOTH {
            let mut program = Program::with(job(kind, hand));
            program.press("<f4><enter><enter><enter>");
            for (columns, rows) in [(120, 40), (160, 50)] {
                let screen = program.screen(columns, rows);
                let drawn = profile(&screen, bend);
                assert!(drawn.leg.len() > 1, "{screen}");
                // A left-hand piece is whole at its left: its right end is bent.
                let beyond = |near: (usize, usize), far: (usize, usize)| match hand {
                    Hand::Left => near.1 >= drawn.right && far.1 >= near.1,
                    Hand::Right => near.0 <= drawn.left && far.0 <= near.0,
                };
                let away = drawn.leg.windows(2).all(|pair| beyond(pair[0], pair[1]));
                assert!(away, "{hand:?}\n{screen}");
                // A valley's is bent as far as the valley stands: it is drawn square.
                let leans = drawn.leg.first() != drawn.leg.last();
                assert_eq!(leans, kind == EdgeKind::Hip, "{screen}");
            }
        }
    }
}

/// A piece between two edges has a leg at both its ends: each page has that of its
/// own line.
#[test]
fn of_a_piece_bent_at_both_ends_each_page_shows_the_leg_of_its_line() {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-jobs/alder-court-inches.ron");
    let mut program = Program::with(load(&RealFs, &path).unwrap().job);
    let pieces = program.state.open.as_ref().unwrap().list.pieces.clone();
    let mut seen = 0;
    for piece in pieces.iter().filter(|piece| piece.spec.near.is_some()) {
        let label = program.state.open.as_ref().unwrap().labels.piece(piece.id);
        program.press("<f4>");
        if program.state.dialog.is_some() {
            program.press("<enter>");
        }
        program.press(&format!("/{label}<enter>"));
        while program.state.piece_in_hand().unwrap().stage != Stage::ToBend {
            program.press("<enter>");
        }
        let near = profile(&program.screen(160, 50), "up");
        program.press("<enter>");
        let far = profile(&program.screen(160, 50), "up");
        assert_eq!(program.state.piece_in_hand().unwrap().stage, Stage::ToBend);
        // The near line is at the end the tape is pulled from.
        let side = |drawn: &Profile| match drawn.leg.first() {
            Some(leg) if leg.0 <= drawn.left => Hand::Left,
            _ => Hand::Right,
        };
        assert_eq!(side(&near), piece.spec.hand, "{label}");
        assert_eq!(side(&far), piece.spec.hand.other(), "{label}");
        seen += 1;
    }
    assert!(seen > 2, "{seen}");
}
