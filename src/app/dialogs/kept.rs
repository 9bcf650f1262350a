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
    });
}

/// One was chosen.
pub fn chosen(state: &mut State, states: Vec<KeptState>, row: usize, behind: Option<Question>) {
    let chosen = states.get(row);
    let readable = chosen.filter(|state| state.is_readable);
    match readable.map(|state| state.path.clone()) {
        Some(path) => state.order(Effect::ReadKept(path)),
        None => state.complain("that one cannot be read, choose another"),
    }
    // Until it was read; it is closed where that went well.
    state.dialog = Some(Dialog::Kept {
        states,
        row,
        behind,
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
