//! Pasted text: into what is being typed, as one line, and refused elsewhere.
//!
//! Its characters are never keys, or a line of somebody's letter would mark,
//! stack and delete.

use super::saving;
use crate::app::state::State;
use crate::domain::measure::{cleaned, is_hidden};

/// A text was pasted.
pub fn pasted(state: &mut State, text: &str) {
    let field = state.field.clone();
    let line = one_line(text);
    let is_typing = state.is_typing();
    state.notice = None;
    if line.is_empty() {
        state.complain("pasted text was not taken: there is nothing in it to type");
        return;
    }
    let done = match (&mut state.dialog, &mut state.field) {
        (Some(dialog), _) if dialog.takes_text() => dialog.put(&line),
        (None, Some(field)) if is_typing => field.put(&line),
        _ => {
            state.complain("pasted text was not taken: nothing is being typed here");
            return;
        }
    };
    if !done {
        let line = cleaned(&line);
        state.complain(format!(
            "\"{line}\" was not taken: it is too long for this field"
        ));
    }
    saving::refuse_changes(state, field.as_ref());
}

/// `text` in one line, without what is not seen.
fn one_line(text: &str) -> String {
    let blank = |c: char| if c.is_whitespace() { ' ' } else { c };
    let seen = text.chars().map(blank).filter(|c| !is_hidden(*c));
    seen.collect::<String>().trim().to_owned()
}
