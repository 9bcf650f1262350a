//! Whether the legs of one edge stand as the code of practice asks.
//!
//! A published code of practice for pressed metal tiles asks 40 mm of
//! a leg bent up (the job's least, a setting) and that a tile's edge bent down in a
//! valley end at least 5 mm off the valley floor. It is a reminder about the
//! edge as a whole, said once; it never refuses anything.

use super::{
    allowance::allowance_of,
    lean::lean_of,
    spec::{along, standing},
};
use crate::domain::{
    log::Edge,
    measure::Length,
    roof::Bend,
    settings::Settings,
    tape::{Division, print_with_unit},
};

/// How far off the valley floor a leg bent down must end: 5 mm (code of practice,
/// "valley installation").
pub(super) const OFF_THE_FLOOR: Length = Length::from_mm(5);

/// Rounding to the nanometre and back must not make a leg too low.
const SLACK: Length = Length::from_um(1);

/// A leg that stands lower or deeper than asked.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum LegTrouble {
    /// Bent up, under the job's least.
    Low {
        /// How high it stands.
        stands: Length,
        /// What the job asks.
        least: Length,
        /// The allowance along the edge that reaches it, exactly.
        along: Length,
    },
    /// Bent down, it ends less than 5 mm off the valley floor.
    NearFloor {
        /// How far down it reaches.
        stands: Length,
        /// The valley's depth.
        depth: Length,
        /// The allowance along the edge that stays clear, exactly.
        along: Length,
    },
}

/// What is wrong with the legs of `edge`; `None` where nothing is, or where its
/// lean is not known yet.
pub fn leg_trouble(edge: &Edge, settings: &Settings) -> Option<LegTrouble> {
    let lean = lean_of(edge, settings)?;
    let stands = standing(allowance_of(edge, settings), lean);
    match (edge.kind.bend(), settings.valley_depth) {
        (Bend::Up, _) => {
            let least = settings.least_turn_up;
            (stands + SLACK < least).then(|| LegTrouble::Low {
                stands,
                least,
                along: along(least, lean),
            })
        }
        (Bend::Down, Some(depth)) => {
            let most = (depth - OFF_THE_FLOOR).max(Length::ZERO);
            (stands > most + SLACK).then(|| LegTrouble::NearFloor {
                stands,
                depth,
                along: along(most, lean),
            })
        }
        (Bend::Down, None) => None,
    }
}

impl LegTrouble {
    /// In words, lengths on the tape `division`; the allowance to set instead
    /// is rounded to the safe side.
    pub fn words(&self, division: Division) -> String {
        let say = |length| print_with_unit(length, division);
        match self {
            Self::Low {
                stands,
                least,
                along,
            } => format!(
                "the leg stands {}, less than this job's least of {}: {} along the nose would reach it",
                say(*stands),
                say(*least),
                say(to_division(*along, division, Side::Above))
            ),
            Self::NearFloor {
                stands,
                depth,
                along,
            } => format!(
                "the leg reaches {} down, less than {} off the floor of a valley {} deep: {} along the nose would stay clear",
                say(*stands),
                say(OFF_THE_FLOOR),
                say(*depth),
                say(to_division(*along, division, Side::Below))
            ),
        }
    }
}

enum Side {
    Above,
    Below,
}

fn to_division(length: Length, division: Division, side: Side) -> Length {
    let step = division.step();
    let below = length - length.modulo(step);
    match side {
        Side::Above if below < length => below + step,
        _ => below,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        log::{Course, CourseNumber, EdgeId, Reading},
        measure::{Hand, Name},
        roof::EdgeKind,
        settings::Setting,
    };

    fn edge(kind: EdgeKind, bottom: i64, top: i64) -> Edge {
        let mut edge = Edge::new(EdgeId(1), Name::or("A", "A"), kind, Hand::Left);
        let mut course = Course::unread(CourseNumber::FIRST);
        course.bottom = Reading::new(Length::from_64ths(bottom)).ok();
        course.top = Reading::new(Length::from_64ths(top)).ok();
        edge.put(course);
        edge
    }

    #[track_caller]
    fn check(edge: &Edge, settings: &Settings, expected: Option<&str>) {
        let words = leg_trouble(edge, settings).map(|t| t.words(settings.division));
        assert_eq!(words.as_deref(), expected);
    }

    #[test]
    fn a_low_leg_is_said_with_the_allowance_that_reaches() {
        // 6 in 12: lean cos 26.565 = 0.8944, over 14 in 12.52 in, read 12 1/2:
        // 2 in stand 1.4918 in; 40 mm ask 1.5748 * 1.3406 = 2.1112 in.
        check(
            &edge(EdgeKind::Hip, 24 * 64, 24 * 64 - 800),
            &Settings::default(),
            Some(
                "the leg stands 1 1/2 in, less than this job's least of 1 9/16 in: 2 1/8 in along the nose would reach it",
            ),
        );
    }

    #[test]
    fn a_square_rake_stands_as_high_as_it_is_cut() {
        check(&edge(EdgeKind::Rake, 640, 640), &Settings::default(), None);
    }

    #[test]
    fn a_leg_asked_for_as_it_stands_reaches_it() {
        let settings = Setting::Standing(EdgeKind::Hip)
            .set(&Settings::default(), "40 mm")
            .unwrap();
        check(&edge(EdgeKind::Hip, 1600, 801), &settings, None);
    }

    #[test]
    fn a_turn_down_near_the_floor_is_said_where_the_depth_is_known() {
        let valley = edge(EdgeKind::Valley, 640, 640 + 14 * 64);
        check(&valley, &Settings::default(), None);
        // Lean 1: 2 in stand 1.4142 in, and 38 - 5 = 33 mm = 1.2992 in ask
        // 1.8374 in along the edge at most.
        let settings = Setting::ValleyDepth
            .set(&Settings::default(), "38 mm")
            .unwrap();
        check(
            &valley,
            &settings,
            Some(
                "the leg reaches 1 7/16- in down, less than 3/16 in off the floor of a valley 1 1/2 in deep: 1 13/16 in along the nose would stay clear",
            ),
        );
    }
}
