//! Checking the log of a job of 400 pieces, and of 5,000, against drawing one full
//! frame.

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
    job(25, false)
}

/// So many hips of 16 courses, two and two the ends of a plane where that is said.
fn job(hips: usize, with_planes: bool) -> Job {
    let mut job = Job::new(Name::or("speed", "?"), Settings::default());
    for hip in 0..hips {
        let hand = Hand::BOTH[hip % 2];
        let name = Name::or(&format!("Hip {hip}"), "?");
        let edge = job.add_edge(name, EdgeKind::Hip, hand);
        if with_planes {
            job.edge_mut(edge).unwrap().plane = Name::new(&format!("Side {}", hip / 2)).ok();
        }
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

pub(crate) fn ratios() -> Vec<Ratio> {
    let (small, large) = (job_of_400(), job(312, true));
    assert_eq!(doubts_of(&small).len(), 25);
    let check = |name, bar, job: Job| {
        let check = move || {
            black_box(doubts_of(&job));
        };
        Ratio::of(name, bar, check, crate::plan::full_frame())
    };
    vec![
        check(
            "check the log of a 400-piece job / frame of 120x40",
            1.0,
            small,
        ),
        check(
            "check the log of 5,000 pieces, planes named / frame of 120x40",
            12.0,
            large,
        ),
    ]
}
