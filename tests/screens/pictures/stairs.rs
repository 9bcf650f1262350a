//! The staircase of a hip, read back from its cells.

use super::cells::{drawn, text};
use bendmark::app::place::Glyphs;
use bendmark::domain::{
    bench::{CutRest, Fact, MarkedStock, Progress, Stage},
    cutting::{CutList, Job},
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Length, Name},
    piece::PieceId,
    roof::EdgeKind,
    settings::Settings,
};
use bendmark::picture::staircase::{Span, StairPiece, Staircase, letter};
use bendmark::ui::drawing::staircase;

/// A hip of courses that narrow by 12 in, each read as the bond leaves it.
fn job(hand: Hand, courses: u32) -> Job {
    let mut job = Job::new(Name::or("Linden Row", "job"), Settings::default());
    let id = job.add_edge(Name::or("north hip", "?"), EdgeKind::Hip, hand);
    let read = |inches: i64| Reading::new(Length::from_inches(inches)).ok();
    for number in 1..=courses {
        let bottom = 18 + i64::from(number * 17 % 46);
        let course = Course::unread(CourseNumber::new(number).unwrap())
            .with(End::Bottom, read(bottom))
            .with(End::Top, read(bottom - 12));
        job.edge_mut(id).unwrap().put(course);
    }
    job
}

fn stairs(job: &Job) -> (Staircase, CutList) {
    let list = CutList::of(job, &Progress::of(job.events()));
    let stairs = Staircase::of(&job.edges()[0], &list.pieces, &job.settings);
    (stairs, list)
}

fn first(course: u32) -> PieceId {
    PieceId {
        edge: EdgeId(1),
        course: CourseNumber::new(course).unwrap(),
        number: 1,
    }
}

/// The first piece of course 1 stacked, of course 2 cut, of course 3 marked.
fn begun(hand: Hand, courses: u32) -> Job {
    let mut job = job(hand, courses);
    let (_, list) = stairs(&job);
    for course in 1..=3 {
        let piece = list.piece(first(course)).unwrap();
        let marked = Fact::Marked {
            written: None,
            piece: piece.id,
            spec: std::boxed::Box::new(piece.spec),
            stock: MarkedStock::New {
                panel: piece.stock.panel().unwrap(),
            },
            lot: None,
        };
        job.record(vec![marked], None);
    }
    let (one, two) = (first(1), first(2));
    let cut = |piece| Fact::Cut {
        piece,
        rest: CutRest::Waste,
    };
    job.record(
        vec![cut(two), cut(one), Fact::Bent(one), Fact::Stacked(one)],
        None,
    );
    job
}

fn rows(
    job: &Job,
    columns: u16,
    rows: u16,
    glyphs: Glyphs,
    now: Option<PieceId>,
) -> Vec<Vec<char>> {
    let (stairs, _) = stairs(job);
    drawn(columns, rows, glyphs, |pen| {
        staircase::draw(pen, &stairs, now)
    })
}

#[test]
fn a_hip_as_a_staircase() {
    let mut album = String::new();
    for (hand, columns, high, glyphs) in [
        (Hand::Left, 34, 9, Glyphs::Blocks),
        (Hand::Right, 60, 20, Glyphs::Ascii),
    ] {
        let cells = rows(&begun(hand, 9), columns, high, glyphs, Some(first(3)));
        album.push_str(&format!("{}\n{}\n\n", hand.word(), text(&cells)));
    }
    insta::assert_snapshot!(album);
}

#[test]
fn every_piece_of_a_course_that_is_shown_has_its_letter() {
    for hand in Hand::BOTH {
        let job = begun(hand, 12);
        let (_, list) = stairs(&job);
        for (columns, high) in [(34, 8), (34, 20), (80, 20)] {
            let cells = rows(&job, columns, high, Glyphs::Ascii, Some(first(2)));
            for row in &cells[..cells.len() - 2] {
                let row: String = row.iter().collect::<String>().replace("more above", "");
                let Some(number) = row
                    .split_whitespace()
                    .find_map(|word| word.parse::<u32>().ok())
                else {
                    panic!("no number in {row}");
                };
                let here = list
                    .pieces
                    .iter()
                    .filter(|piece| piece.id.course.get() == number);
                for stage in [Stage::ToMark, Stage::ToCut, Stage::ToBend, Stage::ToStack] {
                    let wanted = here.clone().filter(|piece| piece.stage == stage).count();
                    let shown = row.chars().filter(|c| *c == letter(stage)).count();
                    assert_eq!(shown, wanted, "{stage:?} in {row}");
                }
                let done = here.clone().any(|piece| piece.stage == Stage::Stacked);
                assert_eq!(row.contains('#'), done, "{row}");
            }
        }
    }
}

#[test]
fn the_eave_is_at_the_bottom_and_the_hip_leans_over_the_field() {
    let cells = rows(&job(Hand::Left, 9), 60, 20, Glyphs::Ascii, None);
    let ends: Vec<usize> = cells[..9]
        .iter()
        .map(|row| row.iter().rposition(|c| *c == '\\').unwrap())
        .collect();
    assert!(ends.windows(2).all(|pair| pair[0] < pair[1]), "{ends:?}");
    assert!(
        cells[8]
            .iter()
            .collect::<String>()
            .trim_start()
            .starts_with('1')
    );
    assert!(cells[9].iter().collect::<String>().contains("eave"));
}

#[test]
fn the_hips_line_is_one_straight_line_through_all_courses() {
    let (stairs, _) = stairs(&job(Hand::Left, 9));
    let reached = |course: usize, span: fn(&StairPiece) -> Span| {
        let spans = stairs.courses[course].pieces.iter().map(span);
        spans
            .filter(|span| span.from < span.to)
            .map(|span| span.to)
            .max()
            .unwrap()
    };
    for course in 1..stairs.courses.len() {
        assert_eq!(
            reached(course - 1, |piece| piece.head),
            reached(course, |piece| piece.foot)
        );
    }
    assert_eq!(stairs.reach, reached(0, |piece| piece.foot));
}

#[test]
fn a_right_hand_staircase_is_the_mirror_of_the_left_hand_one() {
    let [left, right] = Hand::BOTH.map(|hand| rows(&begun(hand, 9), 60, 20, Glyphs::Ascii, None));
    for (one, other) in left[..9].iter().zip(&right[..9]) {
        let turned: String = one
            .iter()
            .rev()
            .map(|c| match c {
                '/' => '\\',
                '\\' => '/',
                c => *c,
            })
            .collect();
        assert_eq!(turned, other.iter().collect::<String>());
    }
}

#[test]
fn courses_that_do_not_fit_are_counted() {
    let cells = rows(&job(Hand::Left, 20), 40, 8, Glyphs::Ascii, Some(first(10)));
    assert!(
        text(&cells).contains("6 more below, 8 above"),
        "{}",
        text(&cells)
    );
    let numbers: Vec<String> = cells[..6]
        .iter()
        .map(|row| row[..2].iter().collect())
        .collect();
    assert_eq!(numbers, ["12", "11", "10", " 9", " 8", " 7"]);
}

#[test]
fn no_size_leads_to_a_panic() {
    let job = begun(Hand::Right, 30);
    for columns in 1..60 {
        for high in 1..20 {
            rows(&job, columns, high, Glyphs::Blocks, Some(first(30)));
        }
    }
}
