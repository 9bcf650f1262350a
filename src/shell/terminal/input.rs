//! The one thread that reads the terminal's events.

use crate::app::key::{Code, Key, Millis};
use crate::app::message::Message;
use crate::shell::outside::fault;
use crossterm::event::{Event, KeyCode, KeyEvent, KeyEventKind, KeyModifiers, read};
use std::sync::mpsc::Sender;
use std::time::Instant;

/// What reaches the loop from any of the threads.
#[derive(Debug)]
pub enum Input {
    Key(Key),
    /// Text that was pasted, as the terminal marks it.
    Pasted(String),
    /// The window has another size, or had.
    Resized,
    /// What the saver says.
    Saver(Message),
    /// The terminal or what reads it.
    Gone,
}

/// Reads events until the terminal or the loop is gone.
pub fn read_all(sender: &Sender<Input>, start: Instant) {
    loop {
        let Ok(event) = read() else {
            let _ = sender.send(Input::Gone);
            return;
        };
        let input = translate(&event, start);
        if matches!(input, Some(Input::Key(key)) if key.code == Code::F(12)) {
            fault::at("input");
        }
        if input.is_some_and(|input| sender.send(input).is_err()) {
            return;
        }
    }
}

fn translate(event: &Event, start: Instant) -> Option<Input> {
    match event {
        Event::Key(key) if key.kind != KeyEventKind::Release => {
            let at = u64::try_from(start.elapsed().as_millis());
            let at = Millis(at.unwrap_or(u64::MAX));
            code(key).map(|code| Input::Key(Key { code, at }))
        }
        Event::Paste(text) => Some(Input::Pasted(text.clone())),
        Event::Resize(..) => Some(Input::Resized),
        _ => None,
    }
}

fn code(key: &KeyEvent) -> Option<Code> {
    let ctrl = is_ctrl(key.modifiers, cfg!(windows));
    Some(match key.code {
        KeyCode::Char(c) if ctrl => Code::Ctrl(c.to_ascii_lowercase()),
        KeyCode::Char(c) => Code::Char(c),
        KeyCode::Enter => Code::Enter,
        KeyCode::Esc => Code::Esc,
        KeyCode::Backspace => Code::Backspace,
        KeyCode::Delete => Code::Delete,
        KeyCode::Tab | KeyCode::BackTab => Code::Tab,
        KeyCode::Left => Code::Left,
        KeyCode::Right => Code::Right,
        KeyCode::Up => Code::Up,
        KeyCode::Down => Code::Down,
        KeyCode::Home => Code::Home,
        KeyCode::End => Code::End,
        KeyCode::PageUp => Code::PageUp,
        KeyCode::PageDown => Code::PageDown,
        KeyCode::Insert => Code::Insert,
        KeyCode::F(number) => Code::F(number),
        _ => return None,
    })
}

/// Whether Ctrl makes another key of a letter. Windows says AltGr, which only
/// chooses the letter, as both Ctrl and Alt.
const fn is_ctrl(modifiers: KeyModifiers, alt_gr_is_both: bool) -> bool {
    let is_alt_gr = alt_gr_is_both && modifiers.contains(KeyModifiers::ALT);
    modifiers.contains(KeyModifiers::CONTROL) && !is_alt_gr
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_key_counts_when_it_is_pressed_or_held_and_not_when_it_is_let_go() {
        let codes = |kind| {
            let key = KeyEvent::new_with_kind(KeyCode::Enter, KeyModifiers::NONE, kind);
            match translate(&Event::Key(key), Instant::now()) {
                Some(Input::Key(key)) => Some(key.code),
                _ => None,
            }
        };
        assert_eq!(codes(KeyEventKind::Press), Some(Code::Enter));
        assert_eq!(codes(KeyEventKind::Repeat), Some(Code::Enter));
        assert_eq!(codes(KeyEventKind::Release), None);
    }

    #[test]
    fn alt_gr_types_its_letter_where_it_is_said_as_ctrl_and_alt() {
        let both = KeyModifiers::CONTROL.union(KeyModifiers::ALT);
        assert!(!is_ctrl(both, true) && is_ctrl(both, false));
        for alt_gr_is_both in [false, true] {
            assert!(is_ctrl(KeyModifiers::CONTROL, alt_gr_is_both));
            assert!(!is_ctrl(KeyModifiers::NONE, alt_gr_is_both));
        }
    }

    #[test]
    fn a_number_pad_without_num_lock_gives_the_keys_that_stand_on_it() {
        let code = |code| super::code(&KeyEvent::new(code, KeyModifiers::NONE));
        assert_eq!(code(KeyCode::Home), Some(Code::Home));
        assert_eq!(code(KeyCode::PageUp), Some(Code::PageUp));
        assert_eq!(code(KeyCode::Insert), Some(Code::Insert));
    }
}
