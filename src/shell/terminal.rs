//! Taking the terminal over and giving it back, whatever state it is in.
//!
//! Errors while giving it back are passed over: there is nobody left to tell,
//! and a terminal that is gone must not turn an exit into an abort.

use crossterm::cursor::Show;
use crossterm::execute;
use crossterm::style::force_color_output;
use crossterm::terminal::{
    BeginSynchronizedUpdate, EndSynchronizedUpdate, EnterAlternateScreen, LeaveAlternateScreen,
    disable_raw_mode, enable_raw_mode,
};
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;
use std::io::{self, Stdout, stdout};
use std::sync::mpsc::channel;
use std::time::Duration;

/// The terminal in full-screen mode.
pub struct Screen {
    terminal: Terminal<CrosstermBackend<Stdout>>,
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
        let taken = enable_raw_mode()
            .and_then(|()| execute!(stdout(), EnterAlternateScreen))
            .and_then(|()| Terminal::new(CrosstermBackend::new(stdout())));
        match taken {
            Ok(terminal) => Ok(Self { terminal }),
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
        execute!(stdout(), BeginSynchronizedUpdate)?;
        self.terminal.draw(|frame| {
            let area = frame.area();
            render(area, frame.buffer_mut());
        })?;
        execute!(stdout(), EndSynchronizedUpdate)
    }

    /// The terminal's size, columns and rows.
    #[must_use]
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
    let _ = execute!(stdout(), LeaveAlternateScreen, Show);
    let _ = disable_raw_mode();
}
