//! The panel's profile at the bender, looking from the nose: flat, with its leg at
//! one end.

use crate::domain::measure::Hand;
use crate::domain::roof::Bend;
use crate::ui::pen::Pen;
use crate::ui::theme::Role;

/// Rows it needs: the leg's and the panel's, and one for words.
pub const LEAST: u16 = 4;

/// The most rows a leg is drawn high.
const MOST_LEG: u16 = 7;

/// Draws it in the pen's area, the leg at the side `at`; nothing where there are
/// too few rows. The leg stands at `degrees` from flat, drawn square where that is
/// not known.
pub fn draw(pen: &mut Pen<'_>, at: Hand, bend: Bend, degrees: Option<f64>) {
    let (width, height) = (pen.width(), pen.height());
    if height < LEAST || width < 24 {
        return;
    }
    let rows = (height - 2).min(MOST_LEG);
    let (flat, words) = match bend {
        Bend::Up => (rows, rows + 1),
        Bend::Down => (1, 0),
    };
    let full = pen.theme().drawn("\u{2588}", "#");
    let margin = 4 + 2 * rows;
    let long = usize::from(width.saturating_sub(2 * margin));
    pen.text(margin, flat, Role::Mark, &full.repeat(long));
    let corner = match at {
        Hand::Left => margin,
        Hand::Right => width.saturating_sub(margin + 1),
    };
    // A cell is twice as high as wide.
    let lean = degrees.map_or(0.0, |degrees| 2.0 / degrees.to_radians().tan());
    for up in 1..=rows {
        let out = outward(lean, up).min(2 * rows);
        let x = match at {
            Hand::Left => corner.saturating_sub(out),
            Hand::Right => corner + out,
        };
        let y = match bend {
            Bend::Up => flat.saturating_sub(up),
            Bend::Down => flat + up,
        };
        pen.text(x.saturating_sub(1), y, Role::Mark, &full.repeat(2));
    }
    let leg_row = match bend {
        Bend::Up => flat.saturating_sub(rows),
        Bend::Down => flat + rows,
    };
    let leg_at = match at {
        Hand::Left => corner + 3,
        Hand::Right => corner.saturating_sub(6),
    };
    pen.text(leg_at, leg_row, Role::Strong, "LEG");
    let piece = "PIECE, face up, nose toward you";
    pen.text(margin + 2, words, Role::Strong, piece);
}

/// How many columns a leg lies outward so many rows up.
#[expect(
    clippy::cast_possible_truncation,
    clippy::cast_sign_loss,
    reason = "clamped to a few columns"
)]
fn outward(lean: f64, up: u16) -> u16 {
    (lean * f64::from(up)).round().clamp(0.0, 60.0) as u16
}
