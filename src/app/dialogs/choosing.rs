//! Choosing in a dialog: by the arrows, or by a digit of the number pad, which
//! chooses and goes on. What the choice leads to is the answers'.

use crate::app::keymap::rows_for_help;
use crate::app::press::{Direction, moved};
use crate::app::state::{Dialog, Sense, State};
use crate::domain::{
    log::{EdgeDetail, EdgeId},
    measure::Hand,
    roof::EdgeKind,
    words::WORDS,
};

/// What a digit chose.
pub enum Choice {
    /// The dialog with its answer.
    Taken(Dialog),
    /// Which way an edge's pieces came out wrong.
    Sense(EdgeId, Sense),
}

/// What `digit` means in `dialog`: 1, 2, 3 the kinds; 4 and 6, which stand left
/// and right on the number pad, the ends of a course or an offcut's edges.
pub fn by_digit(dialog: &Dialog, digit: char) -> Option<Choice> {
    let chosen = match (dialog, digit) {
        (Dialog::ChooseKind(_), '1') => Dialog::ChooseKind(EdgeKind::Hip),
        (Dialog::ChooseKind(_), '2') => Dialog::ChooseKind(EdgeKind::Valley),
        (Dialog::ChooseKind(_), '3') => Dialog::ChooseKind(EdgeKind::Rake),
        (Dialog::FoundWhole(_), '4') => Dialog::FoundWhole(Some(Hand::Left)),
        (Dialog::FoundWhole(_), '6') => Dialog::FoundWhole(Some(Hand::Right)),
        (Dialog::ChooseHand { edge, kind, .. }, '4' | '6') => Dialog::ChooseHand {
            edge: *edge,
            kind: *kind,
            hand: Some(hand_at_end(if digit == '4' {
                Hand::Left
            } else {
                Hand::Right
            })),
        },
        (Dialog::Correct(edge), '-' | '1') => return Some(Choice::Sense(*edge, Sense::Shorter)),
        (Dialog::Correct(edge), '+' | '2') => return Some(Choice::Sense(*edge, Sense::Longer)),
        _ => return None,
    };
    Some(Choice::Taken(chosen))
}

/// The hand of the pieces along an edge at that end of its courses: the edge at
/// the left end takes right-hand pieces.
const fn hand_at_end(end: Hand) -> Hand {
    end.other()
}

/// The side an arrow points to.
const fn side(direction: Direction) -> Option<Hand> {
    match direction {
        Direction::Left => Some(Hand::Left),
        Direction::Right => Some(Hand::Right),
        _ => None,
    }
}

/// Moves the choice, or the text, of a dialog.
pub fn move_in(dialog: &mut Dialog, direction: Direction, state: &State) {
    match dialog {
        Dialog::ChooseKind(kind) => *kind = neighbour(*kind, direction),
        Dialog::FoundWhole(whole) => *whole = side(direction).or(*whole),
        Dialog::ChooseHand { hand, .. } => *hand = side(direction).map(hand_at_end).or(*hand),
        Dialog::OpenJob { choice, .. } | Dialog::BringRack { choice, .. } => {
            let count = state.preferences.recent.len();
            *choice = moved(*choice, direction, count);
        }
        // What is typed is taken by Enter first, or it would be lost.
        Dialog::Details { text: Some(_), .. } => {}
        Dialog::Details { row, .. } => *row = moved(*row, direction, EdgeDetail::ALL.len()),
        Dialog::Doubt {
            edge,
            course,
            choice,
        } => {
            let doubt = state
                .open
                .as_ref()
                .and_then(|open| open.doubt_at(*edge, *course));
            let count = doubt.map_or(0, |doubt| doubt.suspects().count());
            *choice = moved(*choice, direction, count);
        }
        Dialog::Help { scroll } => {
            // The words after the keys take two rows at most.
            let rows = rows_for_help(state).len() + 2 + 2 * WORDS.len();
            *scroll = moved(*scroll, direction, rows);
        }
        _ => {}
    }
}

fn neighbour(kind: EdgeKind, direction: Direction) -> EdgeKind {
    use EdgeKind::{Hip, Rake, Valley};
    let back = matches!(direction, Direction::Left | Direction::Up);
    match (kind, back) {
        (Hip, true) | (Valley, true) => Hip,
        (Hip, false) | (Rake, true) => Valley,
        (Valley, false) | (Rake, false) => Rake,
    }
}
