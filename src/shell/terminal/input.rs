//! The one thread that reads the terminal's events.

use crate::app::key::{Code, Key, Millis};
use crate::app::message::Message;
use crate::app::place::ScreenSize;
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
    Resized(ScreenSize),
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
        &Event::Resize(columns, rows) => Some(Input::Resized(ScreenSize { columns, rows })),
        _ => None,
    }
}

fn code(key: &KeyEvent) -> Option<Code> {
    let ctrl = key.modifiers.contains(KeyModifiers::CONTROL);
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
