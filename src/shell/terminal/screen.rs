//! Taking the terminal over and giving it back, whatever state it is in.
//!
//! Errors while giving it back are passed over: there is nobody left to tell,
//! and a terminal that is gone must not turn an exit into an abort.

use crossterm::cursor::Show;
use crossterm::event::{DisableBracketedPaste, EnableBracketedPaste};
use crossterm::style::force_color_output;
use crossterm::terminal::{
    BeginSynchronizedUpdate, EndSynchronizedUpdate, EnterAlternateScreen, LeaveAlternateScreen,
    disable_raw_mode, enable_raw_mode,
};
use crossterm::{execute, queue};
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use std::io::{self, Write, stdout};
use std::sync::mpsc::channel;
use std::sync::{Mutex, MutexGuard, PoisonError};
use std::time::Duration;

/// The terminal in full-screen mode.
pub struct Screen {
    terminal: Terminal<CrosstermBackend<Gate>>,
    /// What it shows may not be what was drawn last.
    is_stale: bool,
}

/// Whether the terminal is the shell's again; nothing is drawn on it then.
static GIVEN_BACK: Mutex<bool> = Mutex::new(false);

fn given_back() -> MutexGuard<'static, bool> {
    GIVEN_BACK.lock().unwrap_or_else(PoisonError::into_inner)
}

/// What is drawn on its way out: held until it is flushed, and dropped once
/// another thread has given the terminal back.
#[derive(Default)]
struct Gate {
    held: Vec<u8>,
}

impl Write for Gate {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.held.extend_from_slice(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        let given_back = given_back();
        let held = std::mem::take(&mut self.held);
        if *given_back {
            return Ok(());
        }
        let mut out = stdout();
        out.write_all(&held)?;
        out.flush()
    }
}

impl Screen {
    /// Takes the terminal over.
    ///
    /// # Errors
    /// What the system said; the terminal is given back before.
    pub fn take() -> io::Result<Self> {
        // With NO_COLOR crossterm would send a reset that also wipes reverse
        // and bold, and with them the selection; the theme leaves colours out.
        force_color_output(true);
        *given_back() = false;
        let taken = enable_raw_mode()
            .and_then(|()| execute!(stdout(), EnterAlternateScreen))
            .and_then(|()| Terminal::new(CrosstermBackend::new(Gate::default())));
        // A terminal that knows no such thing sends what is pasted as keys.
        let _ = execute!(stdout(), EnableBracketedPaste);
        match taken {
            Ok(terminal) => Ok(Self {
                terminal,
                is_stale: false,
            }),
            Err(error) => {
                give_back();
                Err(error)
            }
        }
    }

    /// Draws one frame, without tearing.
    ///
    /// # Errors
    /// What the system said; the terminal is then most likely gone.
    pub fn draw(&mut self, render: impl FnOnce(Rect, &mut Buffer)) -> io::Result<()> {
        queue!(self.terminal.backend_mut(), BeginSynchronizedUpdate)?;
        if std::mem::take(&mut self.is_stale) {
            // Not `clear`, which asks the terminal where its cursor is.
            let size = self.terminal.size()?;
            self.terminal.resize(size.into())?;
        }
        self.terminal.draw(|frame| {
            let area = frame.area();
            render(area, frame.buffer_mut());
        })?;
        execute!(self.terminal.backend_mut(), EndSynchronizedUpdate)
    }

    /// Draws the next frame whole: a window that changed its size and back
    /// again has lost cells, and the size alone does not tell.
    pub const fn size_changed(&mut self) {
        self.is_stale = true;
    }

    /// The terminal's size, columns and rows.
    pub fn size(&self) -> (u16, u16) {
        self.terminal
            .size()
            .map_or((80, 24), |size| (size.width, size.height))
    }

    /// Gives the terminal back.
    pub fn leave(self) {
        give_back();
        // Its drop would write to a terminal that may be gone, and print to
        // standard error or abort where that fails.
        std::mem::forget(self.terminal);
    }
}

/// The same where it may be stuck: whoever holds the output, or a terminal that
/// takes nothing, keeps nobody from leaving.
pub fn give_back_within(longest: Duration) {
    let (done, wait) = channel();
    std::thread::spawn(move || {
        give_back();
        let _ = done.send(());
    });
    let _ = wait.recv_timeout(longest);
}

/// Gives the terminal back from anywhere: a signal, a panic, the normal end.
pub fn give_back() {
    let mut given_back = given_back();
    *given_back = true;
    let _ = execute!(stdout(), DisableBracketedPaste);
    let _ = execute!(stdout(), EndSynchronizedUpdate, LeaveAlternateScreen, Show);
    let _ = disable_raw_mode();
}
