//! Courses read from board to board, in roofs made up in floating point: two
//! hips that lean each in its own way, full panels between them, and a tape with
//! a standard deviation of 1/16 in that is read to 1/16.

use crate::maker::Chance;
use bendmark::domain::{
    cutting::{Job, doubts_of},
    doubt::{Cause, Doubt, DoubtedReading},
    log::{Course, CourseNumber, EdgeId, End, Reading},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::Settings,
};

const SIXTEENTH: f64 = 1.0 / 16.0;

fn number(course: u32) -> CourseNumber {
    CourseNumber::new(course).unwrap()
}

#[expect(clippy::cast_possible_truncation, reason = "a few hundred sixteenths")]
fn taped(inches: f64) -> Reading {
    Reading::new(Length::from_64ths(4 * (inches / SIXTEENTH).round() as i64)).unwrap()
}

/// Eight courses with full panels, then two from board to board, at edge 1.
fn roof(chance: &mut Chance) -> Job {
    let mut job = Job::new(Name::or("Peak", "?"), Settings::default());
    for (name, hand) in [("East", Hand::Left), ("West", Hand::Right)] {
        job.add_edge(Name::or(name, "?"), EdgeKind::Hip, hand);
    }
    let steps = [chance.even(8.0, 13.0), chance.even(8.0, 13.0)];
    let narrows = steps[0] + steps[1];
    // Board to board at the line under course 9.
    let last = chance.even(narrows + 14.0, 45.0);
    let mut read = |inches: f64| {
        // The sum of twelve even chances, common practice for a normal one.
        let sum: f64 = (0..12).map(|_| chance.even(-0.5, 0.5)).sum();
        let error = sum * SIXTEENTH;
        taped((inches + error).max(0.0))
    };
    for course in 1..=8_u32 {
        let wide = last + narrows * f64::from(9 - course);
        let [first, second] = split(wide, steps, course);
        for (edge, bottom, step) in [(1, first, steps[0]), (2, second, steps[1])] {
            let course = Course::unread(number(course))
                .with(End::Bottom, Some(read(bottom)))
                .with(End::Top, Some(read(bottom - step)));
            job.edge_mut(EdgeId(edge)).unwrap().put(course);
        }
    }
    for (course, wide) in [(9, last), (10, last - narrows)] {
        let course = Course {
            to: Some(EdgeId(2)),
            ..Course::unread(number(course))
        }
        .with(End::Bottom, Some(read(wide)))
        .with(End::Top, Some(read((wide - narrows).max(0.0))));
        job.edge_mut(EdgeId(1)).unwrap().put(course);
    }
    job
}

/// The gaps at the foot of a course `wide` from board to board, each less the
/// clearance of 1/4 in: panels of 46 in cover between them, one side lap of 2 in
/// counted in both.
fn split(wide: f64, steps: [f64; 2], course: u32) -> [f64; 2] {
    let gaps = wide - 0.5 + 2.0;
    let least = steps[0] + steps[1] + 6.0;
    let panels = ((gaps - least) / 46.0).floor();
    let gaps = gaps - 46.0 * panels;
    let part = if course.is_multiple_of(2) { 0.4 } else { 0.6 };
    let free = gaps - steps[0] - steps[1];
    [steps[0] + free * part, steps[1] + free * (1.0 - part)]
}

/// The doubts about the two courses from board to board, where the second one
/// ends above zero.
fn doubts(job: &Job) -> Vec<Doubt> {
    let all = doubts_of(job).into_iter().map(|doubt| doubt.doubt);
    all.filter(|doubt| doubt.course.is_some_and(|course| course.get() > 8))
        .collect()
}

fn change(job: &mut Job, course: u32, end: End, by: f64) {
    let edge = job.edge_mut(EdgeId(1)).unwrap();
    let course = *edge.course(number(course)).unwrap();
    let read = course.reading(end).unwrap().length();
    let to = read
        + taped(by.abs())
            .length()
            .times(if by < 0.0 { -1 } else { 1 });
    edge.put(course.with(end, Reading::new(to).ok()));
}

/// Roofs whose second course does not run out under its top.
fn roofs(count: u64) -> impl Iterator<Item = Job> {
    let all = (0..).map(|seed| roof(&mut Chance::seeded(seed)));
    let whole = all.filter(|job| {
        let edge = job.edge(EdgeId(1)).unwrap();
        edge.reading(number(10), End::Top) > Some(Length::from_inches(1))
    });
    whole.take(usize::try_from(count).unwrap())
}

#[test]
fn clean_courses_from_board_to_board_are_not_doubted() {
    let count = 10 * crate::simulated::cases();
    let doubted: usize = roofs(count).map(|job| doubts(&job).len()).sum();
    println!(
        "{doubted} doubts in {} clean readings from board to board",
        4 * count
    );
    assert!(doubted as u64 * 10_000 <= 4 * count);
}

#[test]
fn one_reading_off_by_three_quarters_of_an_inch_or_more_is_found() {
    for (course, end) in [
        (9, End::Bottom),
        (9, End::Top),
        (10, End::Bottom),
        (10, End::Top),
    ] {
        for by in [-0.75, 0.75, 1.0, 3.0] {
            let count = crate::simulated::cases();
            let found = roofs(count).filter(|job| {
                let mut job = job.clone();
                change(&mut job, course, end, by);
                !doubts(&job).is_empty()
            });
            let found = found.count() as u64;
            assert!(
                found * 100 >= 99 * count,
                "{course} {end:?} {by}: {found} of {count}"
            );
        }
    }
}

/// `e` alone does not see it.
#[test]
fn both_readings_of_a_course_a_foot_short_are_found_by_the_course_below() {
    let count = crate::simulated::cases();
    let (mut found, mut by_its_cause) = (0, 0);
    for mut job in roofs(count) {
        change(&mut job, 9, End::Bottom, -12.0);
        change(&mut job, 9, End::Top, -12.0);
        let mut doubts = doubts(&job).into_iter();
        let doubt = doubts.find(|doubt| doubt.course == Some(number(9)));
        found += u64::from(doubt.is_some());
        let foot = |doubt: &Doubt| {
            doubt.reading == DoubtedReading::Both && doubt.cause == Cause::FootDropped
        };
        by_its_cause += u64::from(doubt.is_some_and(|doubt| foot(&doubt)));
    }
    println!("a foot short: {found} of {count}, {by_its_cause} named as that first");
    assert!(found * 100 >= 99 * count, "{found} of {count}");
    // In the rest the tape's own error lets only one of the two be blamed.
    assert!(
        by_its_cause * 100 >= 98 * count,
        "{by_its_cause} of {count}"
    );
}

/// A slip of no usual size, too: neither reading alone is called the wrong one, and
/// taking the suggestion puts both right.
#[test]
fn both_readings_of_a_peak_course_two_inches_long_are_said_to_be_both_too_long() {
    let count = crate::simulated::cases();
    let (mut both, mut one_alone) = (0, 0);
    for (job, by) in roofs(count).zip([2.0, -2.0].into_iter().cycle()) {
        let mut wrong = job.clone();
        change(&mut wrong, 9, End::Bottom, by);
        change(&mut wrong, 9, End::Top, by);
        for doubt in doubts(&wrong) {
            assert_eq!(doubt.course, Some(number(9)));
            if doubt.reading != DoubtedReading::Both {
                one_alone += 1;
                continue;
            }
            both += 1;
            assert!(doubt.others.is_empty(), "{doubt:?}");
            let edge = wrong.edge(EdgeId(1)).unwrap();
            let taken = doubt.fix.taken(edge).unwrap();
            for end in End::BOTH {
                let right = job.edge(EdgeId(1)).unwrap().reading(number(9), end);
                let taken = taken.reading(number(9), end).unwrap();
                let off = (taken - right.unwrap()).abs();
                assert!(off <= Length::from_64ths(40), "{doubt:?}");
            }
        }
    }
    println!("2 in long or short: {both} of {count} as both, {one_alone} as one");
    assert!(both * 100 >= 98 * count, "{both} of {count}");
}

/// A course below that is doubted itself tells nothing of the one above it.
#[test]
fn a_slip_in_the_course_below_is_not_asked_of_the_peak_course() {
    for job in roofs(crate::simulated::cases()) {
        for edge in [1, 2] {
            let id = EdgeId(edge);
            let course = *job.edge(id).unwrap().course(number(8)).unwrap();
            let top = course.top.unwrap().length() + Length::from_inches(3);
            let changed = course.with(End::Top, Reading::new(top).ok());
            let mut slipped = job.clone();
            slipped.edge_mut(id).unwrap().put(changed);
            let doubts = doubts(&slipped);
            assert_eq!(doubts, []);
        }
    }
}

#[test]
fn a_line_at_which_the_tape_was_held_wrong_is_one_doubt() {
    let count = crate::simulated::cases();
    let found = roofs(count).filter(|job| {
        let mut job = job.clone();
        change(&mut job, 9, End::Top, 1.0);
        change(&mut job, 10, End::Bottom, 1.0);
        let doubts = doubts(&job);
        doubts.len() == 1 && doubts[0].reading == DoubtedReading::Placement
    });
    let found = found.count() as u64;
    // In the others the tape's own error parts the two.
    assert!(found * 100 >= 97 * count, "{found} of {count}");
}

#[test]
fn what_was_measured_again_stands() {
    let mut job = roofs(1).next().unwrap();
    change(&mut job, 9, End::Bottom, 2.0);
    let doubt = doubts(&job).remove(0);
    let edge = job.edge_mut(EdgeId(1)).unwrap();
    let answer = bendmark::domain::log::SetAside::of(&doubt, edge);
    edge.set_aside.push(answer);
    let left = doubts(&job);
    assert!(
        left.iter().all(|doubt| doubt.course != Some(number(9))),
        "{left:?}"
    );
}

/// The top of a course that meets is none that was read: its bottom is judged by
/// how far up the boards meet.
#[test]
fn a_bottom_under_boards_that_meet_is_told_by_how_far_up_they_do() {
    let mut job = Job::new(Name::or("Peak", "?"), Settings::default());
    for (name, hand) in [("East", Hand::Left), ("West", Hand::Right)] {
        let id = job.add_edge(Name::or(name, "?"), EdgeKind::Hip, hand);
        for course in 1..=5 {
            let course = Course::unread(number(course))
                .with(End::Bottom, Some(taped(45.0)))
                .with(End::Top, Some(taped(33.0)));
            job.edge_mut(id).unwrap().put(course);
        }
    }
    // 24 in a course of 14: boards that meet 9 1/8 up are 15 5/8 apart below.
    let mut put = |bottom: f64, meet: f64| {
        let course = Course {
            to: Some(EdgeId(2)),
            bottom: Some(taped(bottom)),
            runs_out: Some(taped(meet)),
            ..Course::unread(number(9))
        };
        job.edge_mut(EdgeId(1)).unwrap().put(course);
        doubts(&job)
    };
    assert_eq!(put(15.625, 9.125), []);
    for (typed, cause) in [(16.625, Cause::InchTooMuch), (3.625, Cause::FootDropped)] {
        let doubt = put(typed, 9.125).remove(0);
        let off = (doubt.likely - taped(15.625).length()).abs();
        assert!(off <= Length::from_64ths(2), "{doubt:?}");
        assert_eq!(
            (doubt.reading, doubt.cause),
            (DoubtedReading::Bottom, cause)
        );
    }
}

/// The course above a wrong one is right, and not blamed.
#[test]
fn a_wrong_course_does_not_blame_the_one_above_it() {
    let count = crate::simulated::cases();
    let blamed = roofs(count).filter(|job| {
        let mut job = job.clone();
        change(&mut job, 9, End::Bottom, -12.0);
        change(&mut job, 9, End::Top, -12.0);
        let doubts = doubts(&job);
        doubts.iter().any(|doubt| doubt.course == Some(number(10)))
    });
    let blamed = blamed.count() as u64;
    assert!(blamed * 100 <= count, "{blamed} of {count}");
}
