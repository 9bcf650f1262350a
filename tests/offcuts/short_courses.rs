//! Pieces of short courses on shared panels, worked by hand. The panel is 48 in
//! wide and 14 high, the allowance 2 along the edge.

use bendmark::domain::{
    bench::Progress,
    cutting::{CutList, Job, PieceStock},
    log::{Course, CourseNumber, Reading},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::{Setting, Settings},
    stock::{LeftToCut, Plan, PlannedStock, share_a_panel},
};

/// A course of one edge: hand, bottom, top and, if it is short, its height.
type Row = (Hand, i64, i64, Option<i64>);

/// Valleys with one course each, cut in this order.
fn job(ridge: i64, rows: &[Row]) -> Job {
    let ridge = Setting::RidgeTurnUp.set(&Settings::default(), &ridge.to_string());
    let mut job = Job::new(Name::or("Ridge", "?"), ridge.unwrap());
    let read = |inches| Reading::new(Length::from_inches(inches)).ok();
    for (hand, bottom, top, height) in rows {
        let edge = job.add_edge(Name::or("V", "?"), EdgeKind::Valley, *hand);
        let mut course = Course::unread(CourseNumber::FIRST);
        (course.bottom, course.top) = (read(*bottom), read(*top));
        course.height = height.and_then(read);
        job.edge_mut(edge).unwrap().put(course);
    }
    job
}

#[track_caller]
fn check(ridge: i64, rows: &[Row], panels: usize) {
    let list = CutList::of(&job(ridge, rows), &Progress::default());
    assert_eq!(list.pieces.len(), rows.len());
    assert_eq!(list.plan.new_panels(), panels);
}

/// They are cut 10 and 24 wide at the nose, 17 and 31 at 7 up, and go on to
/// widen an inch an inch: 48 together at 7, but 50 at 8 and 52 at 9.
#[test]
fn two_short_pieces_that_lean_toward_each_other_need_room_for_both_turn_ups() {
    let rows = [(Hand::Left, 8, 15, Some(7)), (Hand::Right, 22, 29, Some(7))];
    check(2, &rows, 2);
    check(1, &rows, 2);
    check(0, &rows, 1);
    // Two inches narrower each: 48 at 9.
    let rows = [(Hand::Left, 6, 13, Some(7)), (Hand::Right, 20, 27, Some(7))];
    check(2, &rows, 1);
}

/// The full piece is cut 10 wide at the nose and 24 at 14 up, the short one 24
/// and 31 at 7 up: 50 together at 8 up, 48 at 7.
#[test]
fn a_short_piece_comes_from_the_offcut_of_a_full_one_but_not_the_other_way_round() {
    let (full, short) = ((Hand::Left, 8, 22, None), (Hand::Right, 22, 29, Some(7)));
    check(0, &[full, short], 1);
    check(1, &[full, short], 2);
    // Cut across at 7, the panel is too low for the full one.
    check(0, &[short, full], 2);
    // Above the short one the full one may be as wide as it likes.
    let full = (Hand::Left, 8, 44, None);
    check(0, &[full, (Hand::Right, 10, 17, Some(7))], 1);
    // Of two short ones the lower comes from the higher.
    let (high, low) = ((Hand::Left, 8, 16, Some(8)), (Hand::Right, 8, 15, Some(7)));
    check(2, &[high, low], 1);
    check(2, &[low, high], 2);
    // Not cut across, for nothing is left to cut off: it needs the whole panel.
    let high = (Hand::Right, 8, 20, Some(12));
    check(2, &[low, high], 2);
    check(2, &[(Hand::Left, 8, 22, None), high], 1);
}

#[test]
fn an_offcut_is_as_high_as_its_panel_was_cut_across() {
    let rows = [(Hand::Left, 8, 15, Some(7)), (Hand::Right, 8, 15, Some(7))];
    let list = CutList::of(&job(2, &rows), &Progress::default());
    let offcut = list.pieces[1].stock.offcut().copied().unwrap();
    let inches = Length::from_inches;
    assert_eq!(offcut.panel.height, inches(9));
    // 48 less 10 and 48 less 19, where a tape finds it.
    assert_eq!(offcut.widths(), [inches(38), inches(29)]);
    // What of it is marked and left goes to 7: 38 less 10, 31 less 17.
    let left = offcut.left_after(&list.pieces[1].spec).area().mm2();
    let expected = f64::from(28 + 14) / 2.0 * 7.0 * 25.4 * 25.4;
    assert!((left - expected).abs() < 1e-6, "{left}");
}

/// Of a full piece's offcut nothing but the short piece and waste is made.
#[test]
fn the_rest_of_a_full_offcut_is_waste_once_a_short_piece_is_cut_from_it() {
    let rows = [
        (Hand::Left, 8, 22, None),
        (Hand::Right, 4, 5, Some(7)),
        (Hand::Right, 4, 5, Some(4)),
    ];
    let list = CutList::of(&job(1, &rows), &Progress::default());
    assert_eq!(list.plan.new_panels(), 2);
    let from_full = |stock: &PieceStock| matches!(stock, PieceStock::LeftBy { .. });
    let shared: Vec<_> = list.pieces.iter().map(|p| from_full(&p.stock)).collect();
    assert_eq!(shared.iter().filter(|shared| **shared).count(), 1);
}

/// The planner's own pair test says of each order what the plan does.
#[test]
fn which_of_two_is_cut_first_is_asked_of_the_pair() {
    let rows = [(Hand::Left, 8, 22, None), (Hand::Right, 8, 15, Some(7))];
    let list = CutList::of(&job(1, &rows), &Progress::default());
    let [full, short] = [0, 1].map(|at| list.pieces[at].spec);
    assert!(share_a_panel(&full, &short, Length::ZERO));
    assert!(!share_a_panel(&short, &full, Length::ZERO));
    let left: Vec<LeftToCut> = [1, 0]
        .map(|at| LeftToCut {
            id: list.pieces[at].id,
            spec: list.pieces[at].spec,
            lot: None,
        })
        .into();
    let plan = Plan::of(&left, &[], Length::ZERO);
    let mut stocks = plan.pieces.iter().map(|piece| piece.stock);
    assert!(stocks.all(|stock| stock == PlannedStock::New));
}
