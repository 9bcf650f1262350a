//! The drawn cells as text.

use bendmark::app::place::{Glyphs, Look};
use bendmark::picture::shape::Picture;
use bendmark::ui::drawing::picture_raster;
use bendmark::ui::pen::Pen;
use bendmark::ui::theme::{Colours, Theme};
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

/// Draws into an empty area of that size; the rows taken, every cell a char.
pub(crate) fn drawn(
    columns: u16,
    rows: u16,
    glyphs: Glyphs,
    draw: impl FnOnce(&mut Pen<'_>) -> u16,
) -> Vec<Vec<char>> {
    let area = Rect::new(0, 0, columns, rows);
    let mut buffer = Buffer::empty(area);
    let theme = Theme::new(Look::Sun, Colours::Set, glyphs);
    let taken = draw(&mut Pen::new(&mut buffer, &theme, area));
    assert!(taken <= rows);
    let row = |y| {
        (0..columns)
            .map(|x| buffer[(x, y)].symbol().chars().next().unwrap())
            .collect()
    };
    let all: Vec<Vec<char>> = (0..rows).map(row).collect();
    let below = &all[usize::from(taken)..];
    assert!(
        below.iter().flatten().all(|c| *c == ' '),
        "drawn below {taken}"
    );
    all[..usize::from(taken)].to_vec()
}

/// A picture's cells.
pub(crate) fn picture(
    picture: &Picture,
    columns: u16,
    rows: u16,
    glyphs: Glyphs,
) -> Vec<Vec<char>> {
    drawn(columns, rows, glyphs, |pen| {
        picture_raster::draw(pen, picture)
    })
}

pub(crate) fn text(cells: &[Vec<char>]) -> String {
    let row = |row: &Vec<char>| row.iter().collect::<String>().trim_end().to_owned();
    cells.iter().map(row).collect::<Vec<_>>().join("\n")
}

/// Where the panel stands among the cells, found from what was drawn.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Box {
    pub(crate) left: usize,
    pub(crate) right: usize,
    pub(crate) top: usize,
    pub(crate) bottom: usize,
}

const FILLED: &str = "█▀▄";
const OUTLINE: &str = "─│┐┘┌└";
const WHOLE: char = '║';

impl Box {
    /// The box of a picture drawn in blocks. Every row of the panel has a block
    /// or a thin line, no lane has; the whole edge looks like the blade, so it
    /// counts only in those rows.
    pub(crate) fn of(cells: &[Vec<char>]) -> Self {
        let panel = |c: &char| FILLED.contains(*c) || OUTLINE.contains(*c);
        let rows: Vec<usize> = (0..cells.len())
            .filter(|y| cells[*y].iter().any(panel))
            .collect();
        let (top, bottom) = (rows[0], rows[rows.len() - 1]);
        let columns: Vec<usize> = (0..cells[0].len())
            .filter(|x| {
                (top..=bottom).any(|y| {
                    let c = cells[y][*x];
                    FILLED.contains(c) || OUTLINE.contains(c) || c == WHOLE
                })
            })
            .collect();
        Self {
            left: columns[0],
            right: columns[columns.len() - 1],
            top,
            bottom,
        }
    }

    pub(crate) fn columns(&self) -> usize {
        self.right - self.left + 1
    }

    pub(crate) fn rows(&self) -> usize {
        self.bottom - self.top + 1
    }
}

/// How much of a cell is filled.
pub(crate) fn filled(c: char) -> f64 {
    match c {
        '█' | '#' => 1.0,
        '▀' | '▄' | '"' | '_' => 0.5,
        _ => 0.0,
    }
}

/// The column in which `words` begin, and the row.
pub(crate) fn find(cells: &[Vec<char>], words: &str) -> Option<(usize, usize)> {
    let wanted: Vec<char> = words.chars().collect();
    cells.iter().enumerate().find_map(|(y, row)| {
        let at = row
            .windows(wanted.len())
            .position(|found| found == wanted)?;
        Some((at, y))
    })
}
