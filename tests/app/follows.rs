//! A step that follows the plan plans nothing anew: after each key of random runs,
//! all that is shown is held against a job opened anew from what was written down.

use crate::misfit::cases;
use crate::split_mix::SplitMix;
use crate::support::{Program, inches, put};
use bendmark::app::{message::Opened, state::OpenJob};
use bendmark::domain::{
    bench::{Fact, MarkedStock, Stage},
    cutting::{CutList, CutPiece, Job, PieceStock},
    log::{CourseNumber, Reading},
    measure::{Hand, Name},
    piece::PieceId,
    roof::EdgeKind,
    settings::{Setting, Settings},
    stock::{OffcutNumber, PlannedStock, Rest},
};
use std::collections::BTreeSet;
use std::path::PathBuf;

/// Edges of either hand and kind, of two lots, wide gaps, short courses and a piece
/// cut at both ends among them.
fn random_job(random: &mut SplitMix) -> Job {
    let mut next = |below: u64| usize::try_from(random.next() % below).unwrap();
    let one_key = ["step", "step", "piece"][next(3)];
    let settings = Setting::OneKey.set(&Settings::default(), one_key).unwrap();
    let laid = ["eave", "ridge"][next(2)];
    let settings = Setting::Laying.set(&settings, laid).unwrap();
    let mut job = Job::new(Name::or("Random", "?"), settings);
    let has_lots = next(3) == 0;
    for number in 0..2 + next(3) {
        let kind = [EdgeKind::Hip, EdgeKind::Hip, EdgeKind::Rake][next(3)];
        let hand = Hand::BOTH[next(2)];
        let edge = job.add_edge(Name::or(&format!("Edge {number}"), "?"), kind, hand);
        for course in 1..=u32::try_from(2 + next(5)).unwrap() {
            let wide = if next(6) == 0 { 48 } else { 0 };
            let bottom = wide + 14 + next(34);
            let top = if kind == EdgeKind::Rake {
                bottom
            } else {
                bottom - 12
            };
            put(
                &mut job,
                edge,
                course,
                &bottom.to_string(),
                &top.to_string(),
            );
            if next(7) == 0 {
                let number = CourseNumber::new(course).unwrap();
                let edge = job.edge_mut(edge).unwrap();
                let mut short = *edge.course(number).unwrap();
                short.height = Reading::new(inches("8")).ok();
                edge.put(short);
            }
        }
        if has_lots {
            let lot = ["A", "B"][next(2)];
            job.edge_mut(edge).unwrap().lot = Some(Name::or(lot, "?"));
        }
    }
    run_across(&mut job);
    job
}

/// The last course of the first edge runs to one of the other hand.
fn run_across(job: &mut Job) {
    let first = job.edges()[0].clone();
    let other = job.edges().iter().find(|edge| edge.hand != first.hand);
    let other = other.map(|edge| (edge.id, edge.courses().len()));
    let Some(mut course) = first.courses().last().cloned() else {
        return;
    };
    if let Some((other, _)) = other.filter(|(_, courses)| *courses < first.courses().len()) {
        course.to = Some(other);
        job.edge_mut(first.id).unwrap().put(course);
    }
}

fn open(program: &Program) -> &OpenJob {
    program.state.open.as_ref().unwrap()
}

fn opened_anew(job: &Job) -> OpenJob {
    let opened = Opened {
        path: PathBuf::from("/jobs/test.ron"),
        job: job.clone(),
        odd: None,
        later: None,
        read_only: None,
    };
    OpenJob::new(opened, 0)
}

/// What hangs on no choice between plans that are equally good.
fn figures(piece: &CutPiece) -> (PieceId, Stage, bool, bool) {
    let is_fit = piece.fit.misfit().is_none();
    (piece.id, piece.stage, piece.first_cut, is_fit)
}

/// Whether it is the same as made anew, but for the choice between equal plans.
fn check(open: &OpenJob, said: &str) {
    let anew = opened_anew(open.job());
    assert_eq!(open.progress, anew.progress, "{said}");
    assert_eq!(open.labels, anew.labels, "{said}");
    assert_eq!(open.doubts, anew.doubts, "{said}");
    assert_eq!(open.time_left(None), anew.time_left(None), "{said}");
    let (ours, theirs) = (&open.list, &anew.list);
    let all = |list: &CutList| -> Vec<_> { list.pieces.iter().map(figures).collect() };
    assert_eq!(all(ours), all(theirs), "{said}");
    assert_eq!(ours.empty, theirs.empty, "{said}");
    assert_eq!(ours.left_out, theirs.left_out, "{said}");
    assert_eq!(ours.left(), theirs.left(), "{said}");
    assert_eq!(ours.no_longer_fit(), ours.misfits().count(), "{said}");
    for edge in open.job().edges() {
        let stages = |list: &CutList| list.at_stages(Some(edge.id));
        assert_eq!(stages(ours), stages(theirs), "{said}");
        assert_eq!(
            open.time_left(Some(edge.id)),
            anew.time_left(Some(edge.id)),
            "{said}"
        );
    }
    let totals = |open: &OpenJob| {
        let plan = &open.list.plan;
        let promised = open.progress.promises();
        let kept = promised
            .filter(|(offcut, piece)| piece.is_some() && plan.rack.get(offcut).copied() == *piece);
        let panels = open.panels_to_carry();
        (
            plan.new_panels(),
            plan.from_offcuts(),
            kept.count(),
            panels.whole_job,
            plan.every_way,
        )
    };
    assert_eq!(totals(open), totals(&anew), "{said}");
    let left: Vec<_> = theirs.plan.pieces.iter().map(|piece| piece.id).collect();
    let planned: Vec<_> = ours.plan.pieces.iter().map(|piece| piece.id).collect();
    assert_eq!(planned, left, "{said}");
    valid(open, said);
}

/// Whether every piece left can be cut from what it is planned from, no panel and no
/// offcut twice.
fn valid(open: &OpenJob, said: &str) {
    let (list, progress) = (&open.list, &open.progress);
    let mut panels: BTreeSet<u32> = progress.panels().keys().copied().collect();
    let mut used: BTreeSet<OffcutNumber> = BTreeSet::new();
    let mut left_by: BTreeSet<PieceId> = BTreeSet::new();
    for planned in &list.plan.pieces {
        let piece = list.piece(planned.id).unwrap();
        if let Some(offcut) = piece.stock.offcut() {
            let spare = open.job().settings.spare;
            assert!(offcut.serves(&piece.spec, spare), "{said}: too small");
        }
        match (piece.stock, planned.stock) {
            (PieceStock::New { panel }, PlannedStock::New) => {
                assert!(panels.insert(panel), "{said}: panel {panel} twice");
            }
            (PieceStock::Rack { number, .. }, PlannedStock::Rack(planned)) => {
                assert_eq!(number, planned, "{said}");
                assert!(used.insert(number), "{said}: offcut {number} twice");
                lies_there(open, piece, number, said);
            }
            (PieceStock::LeftBy { piece: by, .. }, PlannedStock::LeftBy(planned)) => {
                assert_eq!(by, planned, "{said}");
                assert!(left_by.insert(by), "{said}: left for two");
                comes_before(open, piece, by, said);
            }
            other => panic!("{said}: {other:?}"),
        }
        if let Rest::KeptFor { piece: other, .. } = piece.rest {
            let stock = list.piece(other).unwrap().stock;
            let from = matches!(stock, PieceStock::LeftBy { piece: by, .. } if by == piece.id);
            assert!(from, "{said}");
        }
    }
    assert_eq!(list.plan.rack.len(), used.len(), "{said}");
}

/// The offcut that `piece` is to come from lies on the rack for it.
fn lies_there(open: &OpenJob, piece: &CutPiece, number: OffcutNumber, said: &str) {
    let rack = open.progress.rack();
    let lies = rack.iter().find(|lies| lies.number == number);
    let lies = lies.unwrap_or_else(|| panic!("{said}: {number} is not there"));
    let edge = open.job().edge(piece.id.edge);
    let lot = edge.and_then(|edge| edge.lot_of(piece.id.course).cloned());
    assert_eq!(Some(&lies.offcut), piece.stock.offcut(), "{said}");
    assert_eq!(lies.lot, lot, "{said}");
    let panel = open.progress.laid(number).unwrap().panel;
    assert_eq!(panel, piece.stock.panel(), "{said}");
    assert_eq!(open.list.plan.rack.get(&number), Some(&piece.id), "{said}");
}

/// The piece `by` leaves the offcut that `piece` is to come from, and is cut first.
fn comes_before(open: &OpenJob, piece: &CutPiece, by: PieceId, said: &str) {
    let before = open.list.piece(by).unwrap();
    let panel = before.stock.panel();
    assert_eq!(panel, piece.stock.panel(), "{said}");
    assert_eq!(before.rest, Rest::kept_for(piece.id), "{said}");
    match open.progress.done(by) {
        Some(done) => {
            assert!(!done.cut, "{said}");
            let stock = panel.map(|panel| MarkedStock::New { panel });
            assert_eq!(Some(done.stock), stock, "{said}");
        }
        None => {
            let place = |id| open.list.place_of(id);
            assert!(place(by) < place(piece.id), "{said}");
        }
    }
}

/// Mostly straight on, as at the bench, with everything else in between.
const KEYS: [&str; 24] = [
    "<enter>",
    "<enter>",
    "<enter>",
    "<enter>",
    "<enter>",
    "<enter>",
    "<enter>",
    "<enter>",
    "<enter>",
    "<enter>",
    "<enter>",
    "<enter>",
    "<right>",
    "<left>",
    "<pgdn>",
    "<home>",
    "x",
    "u",
    "y",
    "g",
    "n",
    "b",
    "<f5>d<f4>",
    "<f3>36<enter><f4>",
];

/// The facts that the last key wrote down, without the promises.
fn facts_from(open: &OpenJob, from: usize) -> Vec<Fact> {
    let events = open.job().events().iter().skip(from);
    let facts = events.map(|event| event.fact.clone());
    facts
        .filter(|fact| !matches!(fact, Fact::Promised { .. }))
        .collect()
}

#[test]
fn after_any_keys_it_is_as_opened_anew() {
    let (mut followed, mut entered) = (0, 0);
    // The share below is one of many runs: with a third of them it says nothing.
    for seed in 0..cases(80).max(80) {
        let mut random = SplitMix::at(seed);
        let job = random_job(&mut random);
        let mut program = Program::with(job);
        program.press("<f4><enter>");
        let mut pressed = String::new();
        // Some runs go straight on, so that whole plans are followed.
        let keys = if seed % 3 == 0 { 12 } else { 24 };
        for _ in 0..90 {
            let key = KEYS[usize::try_from(random.next() % keys).unwrap()];
            pressed.push_str(key);
            let (mut list, before) = {
                let open = open(&program);
                (open.list.clone(), open.job().events().len())
            };
            program.press(key);
            let open = open(&program);
            // One taken out of its turn is planned as if it came next.
            let in_hand = program.state.bench.piece;
            if in_hand.is_some_and(|piece| open.is_out_of_turn(piece)) {
                continue;
            }
            if key == "<enter>" && open.job().events().len() > before {
                entered += 1;
                let facts = facts_from(open, before);
                followed += usize::from(list.go_on(&facts, open.job(), &open.progress));
            }
            check(open, &format!("seed {seed}: {pressed}"));
        }
    }
    assert!(entered > 1_000, "{entered} steps");
    assert!(10 * followed > 9 * entered, "{followed} of {entered}");
}

/// A short course's piece comes from a higher offcut once there is one before it, so
/// a plan that had none may have one panel less.
#[test]
fn a_higher_piece_cut_before_its_turn_gives_a_short_one_its_panel() {
    let mut job = Job::new(Name::or("Short", "?"), Settings::default());
    let short = job.add_edge(Name::or("A", "?"), EdgeKind::Hip, Hand::Left);
    put(&mut job, short, 1, "20", "13");
    let edge = job.edge_mut(short).unwrap();
    let mut course = edge.courses()[0];
    course.height = Reading::new(inches("8")).ok();
    edge.put(course);
    let high = job.add_edge(Name::or("B", "?"), EdgeKind::Hip, Hand::Right);
    put(&mut job, high, 1, "20", "7 1/2");
    let mut program = Program::with(job);
    program.press("<f4><enter>");
    assert_eq!(open(&program).panels_to_carry().whole_job, 2);
    program.press("<right><enter>");
    assert_eq!(open(&program).panels_to_carry().whole_job, 1);
    check(open(&program), "short");
}

/// Beyond the planned horizon the next pieces come in in blocks: the plan stays one
/// that can be cut, and at the end no panel was opened that was not foreseen.
#[test]
fn the_next_pieces_come_in_in_blocks() {
    let one_key = Setting::OneKey.set(&Settings::default(), "piece").unwrap();
    let mut job = Job::new(Name::or("Town", "?"), one_key);
    for number in 0..110 {
        let hand = Hand::BOTH[number % 2];
        let edge = job.add_edge(Name::or(&format!("Hip {number}"), "?"), EdgeKind::Hip, hand);
        for course in 1..=20 {
            put(&mut job, edge, course, "20", "7 1/2");
        }
    }
    let mut program = Program::with(job);
    program.press("<f4><enter>");
    let foreseen = open(&program).panels_to_carry().whole_job;
    for count in 1..=510 {
        program.press("<enter>");
        assert_eq!(open(&program).list.plan.pieces.len(), 2_200 - count);
        if count % 100 == 0 || count > 498 && count < 503 {
            valid(open(&program), &count.to_string());
        }
    }
    // All that is left is planned by now: 2,200 pieces, two to a panel.
    assert_eq!(foreseen, 1_000 + 200);
    assert_eq!(open(&program).panels_to_carry().whole_job, 1_100);
}
