//! The programs that ours is measured against: as little as ratatui needs. They
//! are this very bench, started once more with [`ROLE`] set.

use crate::plain_job::PlainJob;
use bendmark::shell::cli;
use crossterm::event::{Event, read};
use crossterm::execute;
use crossterm::terminal::{EndSynchronizedUpdate, EnterAlternateScreen, enable_raw_mode};
use ratatui::Terminal;
use ratatui::backend::CrosstermBackend;
use ratatui::widgets::Paragraph;
use std::hint::black_box;
use std::io::{BufWriter, stdout};

/// Says which of the programs to be.
pub(crate) const ROLE: &str = "BENDMARK_BARE";

/// Changes every cell at each key.
pub(crate) const CELLS: &str = "cells";

/// Reads the job file named as its argument with ron, then shows one line.
pub(crate) const LINE: &str = "line";

/// Does what its arguments ask of bendmark, then says what memory that took.
pub(crate) const COMMAND: &str = "command";

/// Is that program, until its terminal is gone.
pub(crate) fn run(role: &str) {
    match role {
        CELLS => draw_at_each_key(|drawn| {
            let letter = if drawn.is_multiple_of(2) { "x" } else { "o" };
            let row = letter.repeat(120);
            vec![row; 40].join("\n")
        }),
        LINE => {
            let path = std::env::args().nth(1).expect("a job file");
            let text = std::fs::read_to_string(path).unwrap();
            let job: PlainJob = ron::from_str(&text).unwrap();
            draw_at_each_key(|_| "one line".to_owned());
            // Kept until here, as ours keeps its job.
            black_box(job);
        }
        COMMAND => {
            let args = std::env::args_os().skip(1);
            let exit = cli::run(std::iter::once("bendmark".into()).chain(args));
            black_box(exit);
            if let Some(bytes) = peak_memory() {
                eprintln!("peak {bytes}");
            }
        }
        other => panic!("no such program: {other}"),
    }
}

/// What /proc says; nothing where there is no such thing.
fn peak_memory() -> Option<u64> {
    let status = std::fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    let kib: u64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kib * 1_024)
}

fn draw_at_each_key(text: impl Fn(usize) -> String) {
    enable_raw_mode().unwrap();
    execute!(stdout(), EnterAlternateScreen).unwrap();
    let backend = CrosstermBackend::new(BufWriter::with_capacity(1 << 16, stdout()));
    let mut terminal = Terminal::new(backend).unwrap();
    for drawn in 0.. {
        terminal
            .draw(|frame| frame.render_widget(Paragraph::new(text(drawn)), frame.area()))
            .unwrap();
        // By this both programs tell that a frame is whole.
        execute!(terminal.backend_mut(), EndSynchronizedUpdate).unwrap();
        while !matches!(read(), Ok(Event::Key(_))) {}
    }
}
