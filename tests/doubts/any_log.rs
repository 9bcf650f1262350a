//! What holds for every log, however it was written.

use crate::worked::{CLEAN, beside, check_alone, edge, hip, number, the_one, unknown};
use bendmark::domain::{
    doubt::{DoubtedReading, expected_reading, expected_readings},
    log::{Course, Edge, End, Reading, SetAside},
    measure::Length,
    roof::{Corner, EdgeKind, RoofLine, Slope},
    settings::Settings,
};
use proptest::prelude::*;

fn any_reading() -> impl Strategy<Value = Option<Reading>> {
    prop_oneof![
        1 => Just(None),
        6 => (0_i64..64 * 60).prop_map(|n| Reading::new(Length::from_64ths(n)).ok()),
        1 => (0_i64..=100_000_000_000).prop_map(|n| Reading::new(Length::from_nm(n)).ok()),
    ]
}

fn any_edge() -> impl Strategy<Value = Edge> {
    let course = (
        1_u32..40,
        any_reading(),
        any_reading(),
        any_reading(),
        any_reading(),
        0..6,
    );
    let kind = proptest::sample::select(EdgeKind::ALL.to_vec());
    (kind, proptest::collection::vec(course, 0..30)).prop_map(|(kind, courses)| {
        let mut edge = edge(kind, &[]);
        for (at, bottom, top, runs_out, height, sort) in courses {
            edge.put(Course {
                number: number(at),
                bottom,
                top,
                runs_out: runs_out.filter(|_| sort == 0),
                height: height.filter(|_| sort == 1),
                to: None,
                reads_to: None,
                trip: None,
            });
        }
        edge
    })
}

fn any_roof() -> impl Strategy<Value = RoofLine> {
    let slope = || {
        proptest::option::of(1_i64..=30)
            .prop_map(|rise| rise.and_then(|rise| Slope::parse(&rise.to_string()).ok()))
    };
    (slope(), slope(), 15_i64..=165).prop_map(|(slope, other, corner)| RoofLine {
        slope,
        other,
        corner: Corner::new(corner * 100_000).unwrap(),
    })
}

proptest! {
    #[test]
    fn prop_any_log_can_be_checked_and_every_suggestion_tried(edge in any_edge(), roof in any_roof()) {
        let (edge, settings) = (beside(&edge, roof), Settings::default());
        let doubts = check_alone(&edge, &settings, &[]);
        let courses: Vec<_> = doubts.iter().map(|doubt| doubt.course).collect();
        prop_assert!(courses.is_sorted());
        for doubt in &doubts {
            for suspect in doubt.suspects() {
                let fixed = suspect.fix.taken(&edge);
                prop_assert!(fixed.is_none_or(|fixed| fixed != edge) || doubt.reading == DoubtedReading::Edge);
            }
        }
        // Where nothing was left out after all, what lies above is judged then.
        let answer = |doubt| SetAside::of(doubt, &edge);
        let mut answers: Vec<_> = doubts.iter().map(answer).collect();
        let then = check_alone(&edge, &settings, &answers);
        answers.extend(then.iter().map(answer));
        prop_assert_eq!(check_alone(&edge, &settings, &answers), []);
        for at in 1..40 {
            for end in End::BOTH {
                let _ = expected_reading(&edge, &settings, number(at), end);
            }
        }
        let _ = expected_readings(&edge, &settings, number(40), None);
    }

    #[test]
    fn prop_the_hand_cannot_be_told_from_the_readings(edge in any_edge(), roof in any_roof()) {
        let edge = beside(&edge, roof);
        let mut mirrored = edge.clone();
        mirrored.hand = edge.hand.other();
        let settings = Settings::default();
        let one = check_alone(&edge, &settings, &[]);
        prop_assert_eq!(one, check_alone(&mirrored, &settings, &[]));
    }

    #[test]
    fn prop_taking_the_right_suggestion_ends_the_doubt(
        at in 0_usize..7, end in 0_usize..2, by in prop_oneof![Just(16_i64), Just(192), Just(160)]
    ) {
        let clean = hip(&CLEAN);
        let mut wrong = clean.clone();
        let course = clean.course(number(u32::try_from(at + 1).unwrap())).unwrap();
        let end = End::BOTH[end];
        let too_long = course.reading(end).unwrap().length() + Length::from_64ths(4 * by);
        wrong.put(course.with(end, Reading::new(too_long).ok()));
        let doubt = the_one(&wrong, unknown());
        let right = doubt.suspects().take(2).find_map(|suspect| suspect.fix.taken(&wrong).filter(|fixed| *fixed == clean));
        prop_assert_eq!(right, Some(clean));
    }
}
