//! Drawing any screen of a 400-piece job against drawing a full 120x40 of text.

use crate::doubts::job_of_400;
use crate::measure::Ratio;
use bendmark::app::{
    message::{Message, Opened},
    place::{Glyphs, Look, Place, ScreenSize},
    state::State,
    update::update,
};
use bendmark::domain::bench::{CutRest, Fact, MarkedStock, Progress};
use bendmark::domain::cutting::{CutList, CutPiece, Job};
use bendmark::ui::frame::render;
use bendmark::ui::theme::{Colours, Theme};
use ratatui::Terminal;
use ratatui::TerminalOptions;
use ratatui::Viewport;
use ratatui::backend::CrosstermBackend;
use ratatui::layout::Rect;
use std::path::PathBuf;

/// A piece from the mark to the stack, from a panel of its own.
pub(crate) fn stacked(piece: &CutPiece, panel: u32) -> Vec<Fact> {
    vec![
        Fact::Marked {
            written: None,
            piece: piece.id,
            spec: Box::new(piece.spec),
            stock: MarkedStock::New { panel },
            lot: None,
        },
        Fact::Cut {
            piece: piece.id,
            rest: CutRest::Waste,
        },
        Fact::Bent(piece.id),
        Fact::Stacked(piece.id),
    ]
}

/// 400 pieces, half of them stacked.
pub(crate) fn half_cut() -> Job {
    let mut job = job_of_400();
    let list = CutList::of(&job, &Progress::default());
    for (panel, piece) in (1..).zip(list.pieces.iter().take(200)) {
        job.record(stacked(piece, panel), None);
    }
    job
}

pub(crate) fn ratios() -> Vec<Ratio> {
    Place::ALL
        .into_iter()
        .map(|place| {
            let name = format!("draw {} of a 400-piece job / frame of 120x40", place.word());
            Ratio::of_named(name, 2.0, draw(place), crate::plan::full_frame())
        })
        .collect()
}

/// Draws the place and, by turns, another one, so that every cell changes.
fn draw(place: Place) -> impl FnMut() {
    let area = Rect::new(0, 0, 120, 40);
    let mut state = State::new(ScreenSize {
        columns: 120,
        rows: 40,
    });
    let opened = Opened {
        path: PathBuf::from("speed.ron"),
        job: half_cut(),
        odd: None,
        later: None,
        read_only: None,
    };
    let _ = update(&mut state, Message::Opened(Box::new(opened)));
    state.place = place;
    let viewport = Viewport::Fixed(area);
    let backend = CrosstermBackend::new(std::io::sink());
    let mut terminal = Terminal::with_options(backend, TerminalOptions { viewport }).unwrap();
    let mut drawn = 0_usize;
    move || {
        drawn += 1;
        // The other look changes every cell.
        let look = if drawn.is_multiple_of(2) {
            Look::Sun
        } else {
            Look::Dark
        };
        let theme = Theme::new(look, Colours::Set, Glyphs::Blocks);
        terminal
            .draw(|frame| render(&state, &theme, area, frame.buffer_mut()))
            .unwrap();
    }
}
