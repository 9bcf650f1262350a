//! The states of the job that are kept: listing them, and going back to one
//! without losing what is there now.

use crate::app::effect::Effect;
use crate::app::message::KeptState;
use crate::app::record::save_over;
use crate::app::state::{Dialog, Question, State};
use crate::domain::cutting::Job;

/// The list was made.
pub fn listed(state: &mut State, states: Vec<KeptState>) {
    let behind = match state.dialog.take() {
        Some(Dialog::Question(question)) => Some(question),
        _ => None,
    };
    if states.is_empty() {
        state.dialog = behind.map(Dialog::Question);
        state.say("no other state of this job is kept yet");
        return;
    }
    state.dialog = Some(Dialog::Kept {
        states,
        row: 0,
        behind,
        is_asked: false,
    });
}

/// One was chosen: what it has otherwise is asked about once, as u does not lead
/// back over it. Where it is asked already which state to work on, nobody has
/// worked on the one that is opened.
pub fn chosen(state: &mut State, states: Vec<KeptState>, row: usize, behind: Option<Question>) {
    let readable = states.get(row).filter(|state| state.is_readable);
    let is_readable = readable.is_some();
    let is_new = readable.is_some_and(|state| !state.differs.is_empty());
    let is_asked = is_new && behind.is_none();
    match (is_readable, is_asked) {
        (true, true) => {}
        (true, false) => return read_it(state, states, row, behind),
        (false, _) => state.complain("that one cannot be read, choose another"),
    }
    state.dialog = Some(Dialog::Kept {
        states,
        row,
        behind,
        is_asked,
    });
}

/// Orders the chosen one to be read; it stays listed until that went well.
pub fn read_it(state: &mut State, states: Vec<KeptState>, row: usize, behind: Option<Question>) {
    let path = states.get(row).map(|state| state.path.clone());
    state.orders.extend(path.map(Effect::ReadKept));
    state.dialog = Some(Dialog::Kept {
        states,
        row,
        behind,
        is_asked: false,
    });
}

/// It was read: it takes the place of what is on the screen, which is kept as a
/// version first.
pub fn read(state: &mut State, job: Job) {
    state.dialog = None;
    state.field = None;
    let Some(open) = &mut state.open else { return };
    if let Some(why) = open.read_only.clone() {
        state.complain(why);
        return;
    }
    let before = open.to_save().job;
    open.go_back_to(job);
    state.say("gone back; what was here before is kept, v at Job lists it");
    save_over(state, Some(before));
}

/// Whether it is still asked whether to work on a file that is not as it was
/// saved: no place is gone to until that is answered.
pub const fn is_odd(dialog: Option<&Dialog>) -> bool {
    matches!(
        dialog,
        Some(
            Dialog::Question(Question::OpenedOdd { .. })
                | Dialog::Kept {
                    behind: Some(Question::OpenedOdd { .. }),
                    ..
                }
        )
    )
}
