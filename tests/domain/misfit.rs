//! What is said of a marked piece whose readings are changed: every amount of the
//! list, of both signs, at one or both ends, at every stage.

use bendmark::domain::bench::{CutRest, Fact, MarkedStock, Progress};
use bendmark::domain::cutting::{CutList, Fit, Job, Remedy};
use bendmark::domain::log::{Course, CourseNumber, EdgeId, End, Reading};
use bendmark::domain::measure::{Hand, Length, Name};
use bendmark::domain::piece::PieceId;
use bendmark::domain::roof::EdgeKind;
use bendmark::domain::settings::{Setting, Settings};

/// How far the piece has come.
#[derive(Clone, Copy, PartialEq, Debug)]
enum Come {
    Marked,
    Cut,
    Bent,
    Stacked,
}

const SIXTEENTH: i64 = 4;

/// An edge of one course, 24 in at the bottom and 18 at the top; its piece has
/// come so far, then the gap became so much wider, in sixteenths, at the nose and
/// at the back. A leg may be as little as 20 mm high.
fn fit(kind: EdgeKind, come: Come, nose: i64, back: i64) -> Fit {
    let settings = Settings::default();
    let settings = Setting::LeastTurnUp.set(&settings, "20 mm").unwrap();
    let mut job = Job::new(Name::or("Beech Row", "?"), settings);
    let edge = job.add_edge(Name::or("East", "?"), kind, Hand::Left);
    log(&mut job, edge, 24 * 16, 18 * 16);
    let list = CutList::of(&job, &Progress::default());
    let piece = list.pieces[0].id;
    let mut facts = vec![Fact::Marked {
        piece,
        spec: Box::new(list.pieces[0].spec),
        stock: MarkedStock::New { panel: 1 },
        lot: None,
        written: None,
    }];
    let rest = CutRest::Waste;
    let further = [
        Fact::Cut { piece, rest },
        Fact::Bent(piece),
        Fact::Stacked(piece),
    ];
    let count = match come {
        Come::Marked => 0,
        Come::Cut => 1,
        Come::Bent => 2,
        Come::Stacked => 3,
    };
    facts.extend(further.into_iter().take(count));
    job.record(facts, None);
    log(&mut job, edge, 24 * 16 + nose, 18 * 16 + back);
    of(&job, piece)
}

fn log(job: &mut Job, edge: EdgeId, bottom: i64, top: i64) {
    let read = |sixteenths| Reading::new(Length::from_64ths(sixteenths * SIXTEENTH)).ok();
    let course = Course::unread(CourseNumber::FIRST)
        .with(End::Bottom, read(bottom))
        .with(End::Top, read(top));
    job.edge_mut(edge).unwrap().put(course);
}

fn of(job: &Job, piece: PieceId) -> Fit {
    let list = CutList::of(job, &Progress::of(job.events()));
    list.piece(piece).unwrap().fit.clone()
}

/// The ends at which an amount is tried, in sixteenths.
fn ends(amount: i64) -> [(i64, i64); 3] {
    [(amount, 0), (0, amount), (amount, amount)]
}

const STAGES: [Come; 4] = [Come::Marked, Come::Cut, Come::Bent, Come::Stacked];

/// The clearance is 1/4 in, the tolerance 3/8.
#[test]
fn a_piece_fits_a_clearance_too_long_and_where_a_cap_covers_it_a_tolerance_too_short() {
    for come in STAGES {
        for amount in [2, 4, 5, 16] {
            for (nose, back) in ends(amount) {
                let fits = |kind, sign: i64| {
                    matches!(fit(kind, come, sign * nose, sign * back), Fit::StillFits(_))
                };
                let place = format!("{come:?}, {amount}/16 at {nose}, {back}");
                for kind in [EdgeKind::Hip, EdgeKind::Rake] {
                    assert_eq!(fits(kind, 1), amount <= 6, "too short, {place}");
                    assert_eq!(fits(kind, -1), amount <= 4, "too long, {place}");
                }
                assert_eq!(fits(EdgeKind::Valley, 1), amount <= 4, "valley, {place}");
                assert_eq!(fits(EdgeKind::Valley, -1), amount <= 4, "valley, {place}");
            }
        }
    }
}

#[test]
fn what_can_be_done_depends_on_how_far_it_has_come() {
    let remedy = |come, nose, back| {
        let fit = fit(EdgeKind::Hip, come, nose, back);
        fit.misfit().map(|misfit| misfit.remedy)
    };
    for (nose, back) in ends(16) {
        assert_eq!(remedy(Come::Marked, nose, back), Some(Remedy::MarkAgain));
        assert_eq!(remedy(Come::Marked, -nose, -back), Some(Remedy::MarkAgain));
        assert_eq!(remedy(Come::Cut, -nose, -back), Some(Remedy::FromItself));
        // The leg was 2 in along the edge: 1 in is left of it, more than 20 mm high.
        let Some(Remedy::BendAnew {
            nose: at_nose,
            back: at_back,
            leg,
            ..
        }) = remedy(Come::Cut, nose, back)
        else {
            panic!("{nose}, {back}");
        };
        let inches = |sixteenths| Length::from_64ths(sixteenths * SIXTEENTH);
        assert_eq!([at_nose, at_back], [inches(nose), inches(back)]);
        assert_eq!(leg, inches(16));
        for come in [Come::Bent, Come::Stacked] {
            for sign in [1, -1] {
                let made = remedy(come, sign * nose, sign * back);
                assert_eq!(made, Some(Remedy::MakeAgain));
            }
        }
    }
    for (nose, back) in ends(-5) {
        assert_eq!(remedy(Come::Cut, nose, back), Some(Remedy::FromItself));
    }
    // Two inches short nothing is left to bend.
    assert_eq!(remedy(Come::Cut, 32, 32), Some(Remedy::MakeAgain));
}

#[test]
fn the_words_say_where_and_what_to_do() {
    let words = |come, nose, back| {
        let fit = fit(EdgeKind::Hip, come, nose, back);
        let division = Settings::default().division;
        fit.misfit().map(|misfit| misfit.words(division)).unwrap()
    };
    assert_eq!(
        words(Come::Marked, 8, 0),
        "piece 1/2 in short at the nose: cross the marks out, mark again"
    );
    assert_eq!(
        words(Come::Cut, -8, -8),
        "piece 1/2 in long: it can be cut from itself: mark again"
    );
    assert_eq!(
        words(Come::Cut, 8, 8),
        "piece 1/2 in short: strike the bend line anew, 1/2 in farther out; the leg is 1 1/2 in along the edge then"
    );
    assert_eq!(
        words(Come::Stacked, 0, 8),
        "piece 1/2 in short at the back: make it again"
    );
}

/// An answer holds for what the log asked for then.
#[test]
fn left_as_it_is_silences_only_the_figures_it_was_said_of() {
    let mut job = Job::new(Name::or("Beech Row", "?"), Settings::default());
    let edge = job.add_edge(Name::or("East", "?"), EdgeKind::Hip, Hand::Left);
    log(&mut job, edge, 24 * 16, 18 * 16);
    let list = CutList::of(&job, &Progress::default());
    let piece = list.pieces[0].id;
    let marked = Fact::Marked {
        piece,
        spec: Box::new(list.pieces[0].spec),
        stock: MarkedStock::New { panel: 1 },
        lot: None,
        written: None,
    };
    job.record(vec![marked], None);
    log(&mut job, edge, 25 * 16, 18 * 16);
    let asked = of(&job, piece).misfit().unwrap().asked;
    job.record(vec![Fact::Stays { piece, asked }], None);
    assert_eq!(of(&job, piece), Fit::Stays);
    log(&mut job, edge, 26 * 16, 18 * 16);
    assert!(of(&job, piece).misfit().is_some());
    log(&mut job, edge, 25 * 16, 18 * 16);
    assert_eq!(of(&job, piece), Fit::Stays);
    log(&mut job, edge, 24 * 16, 18 * 16);
    assert_eq!(of(&job, piece), Fit::AsAsked);
    // Another hand is another piece altogether.
    job.edge_mut(edge).unwrap().hand = Hand::Right;
    let misfit = *of(&job, piece).misfit().unwrap();
    assert_eq!((misfit.off, misfit.remedy), (None, Remedy::MarkAgain));
    let asked = misfit.asked;
    job.record(vec![Fact::Stays { piece, asked }], None);
    assert_eq!(of(&job, piece), Fit::Stays);
}

/// How far a gap runs beyond a full panel is nothing to that panel.
#[test]
fn a_full_panel_fits_whatever_comes_behind_it() {
    let mut job = Job::new(Name::or("Beech Row", "?"), Settings::default());
    let edge = job.add_edge(Name::or("East", "?"), EdgeKind::Hip, Hand::Left);
    log(&mut job, edge, 90 * 16, 84 * 16);
    let list = CutList::of(&job, &Progress::default());
    let full = list
        .pieces
        .iter()
        .find(|piece| piece.id.number == 1)
        .unwrap();
    let marked = Fact::Marked {
        piece: full.id,
        spec: Box::new(full.spec),
        stock: MarkedStock::New { panel: 1 },
        lot: None,
        written: None,
    };
    job.record(vec![marked], None);
    log(&mut job, edge, 91 * 16, 85 * 16);
    assert_eq!(of(&job, full.id), Fit::AsAsked);
}

/// A piece that was marked and is taken back leaves everything as if it had never
/// been marked, whatever it was marked on.
#[test]
fn taken_back_before_the_cut_it_is_as_if_it_was_never_marked() {
    let mut job = Job::new(Name::or("Beech Row", "?"), Settings::default());
    let edge = job.add_edge(Name::or("East", "?"), EdgeKind::Hip, Hand::Left);
    log(&mut job, edge, 24 * 16, 18 * 16);
    let before = Progress::of(job.events());
    let list = CutList::of(&job, &before);
    let piece = list.pieces[0].id;
    let marked = Fact::Marked {
        piece,
        spec: Box::new(list.pieces[0].spec),
        stock: MarkedStock::New { panel: 1 },
        lot: None,
        written: None,
    };
    job.record(vec![marked], None);
    job.record(vec![Fact::TakenBack { piece, kept: None }], None);
    let after = Progress::of(job.events());
    assert_eq!(after, before);
    assert_eq!(CutList::of(&job, &after), list);
}
