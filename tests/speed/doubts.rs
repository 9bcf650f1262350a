//! Checking the log of a 400-piece job against drawing one full frame.

use crate::measure::Ratio;
use bendmark::domain::{
    cutting::{Job, doubts_of},
    log::{Course, CourseNumber, End, Reading},
    measure::{Hand, Length, Name},
    roof::EdgeKind,
    settings::Settings,
};
use std::hint::black_box;

/// One slip in every hip, as a hurried log has them.
pub(crate) fn job_of_400() -> Job {
    let mut job = Job::new(Name::or("speed", "?"), Settings::default());
    for hip in 0..25 {
        let hand = Hand::BOTH[hip % 2];
        let name = Name::or(&format!("Hip {hip}"), "?");
        let edge = job.add_edge(name, EdgeKind::Hip, hand);
        for number in 1..=16_u32 {
            let bottom = Length::from_64ths(64 * (16 + i64::from(number * 7 % 30)));
            let slip = Length::from_inches(i64::from(number == 5));
            let top = bottom - Length::from_64ths(64 * 25 / 2) + slip;
            let read = |length| Reading::new(length).ok();
            let course = Course::unread(CourseNumber::new(number).unwrap())
                .with(End::Bottom, read(bottom))
                .with(End::Top, read(top));
            job.edge_mut(edge).unwrap().put(course);
        }
    }
    job
}

pub(crate) fn ratio() -> Ratio {
    let job = job_of_400();
    assert_eq!(doubts_of(&job).len(), 25);
    Ratio::of(
        "check the log of a 400-piece job / frame of 120x40",
        1.0,
        || {
            black_box(doubts_of(&job));
        },
        crate::plan::full_frame(),
    )
}
