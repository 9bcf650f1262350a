//! A drawn screen as SVG: one cell is 8 by 16, text in a fixed-width font,
//! every run of one style a rectangle and a text.

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};
use std::fmt::Write;

const CELL: (u16, u16) = (8, 16);

pub fn svg_of(buffer: &Buffer) -> String {
    let (columns, rows) = (buffer.area.width, buffer.area.height);
    let (width, height) = (columns * CELL.0, rows * CELL.1);
    let mut svg = format!(
        "<svg xmlns=\"http://www.w3.org/2000/svg\" viewBox=\"0 0 {width} {height}\" width=\"{width}\" height=\"{height}\" font-family=\"monospace\" font-size=\"13\">\n"
    );
    for y in 0..rows {
        let mut x = 0;
        while x < columns {
            let start = x;
            let style = look(&buffer[(x, y)]);
            let mut text = String::new();
            while x < columns && look(&buffer[(x, y)]) == style {
                text.push_str(buffer[(x, y)].symbol());
                x += 1;
            }
            run(&mut svg, start, y, x - start, &text, style);
        }
    }
    svg.push_str("</svg>\n");
    svg
}

/// Ink, paper, and whether it is bold.
fn look(cell: &Cell) -> (&'static str, &'static str, bool) {
    let colour = |colour: Color| match colour {
        Color::White => "#ffffff",
        _ => "#000000",
    };
    (
        colour(cell.fg),
        colour(cell.bg),
        cell.modifier.contains(Modifier::BOLD),
    )
}

fn run(
    svg: &mut String,
    x: u16,
    y: u16,
    cells: u16,
    text: &str,
    (ink, paper, bold): (&str, &str, bool),
) {
    let (left, top) = (x * CELL.0, y * CELL.1);
    let width = cells * CELL.0;
    writeln!(
        svg,
        "<rect x=\"{left}\" y=\"{top}\" width=\"{width}\" height=\"{}\" fill=\"{paper}\"/>",
        CELL.1
    )
    .unwrap();
    if text.trim().is_empty() {
        return;
    }
    let escaped = text
        .replace('&', "&amp;")
        .replace('<', "&lt;")
        .replace('>', "&gt;");
    let weight = if bold { " font-weight=\"bold\"" } else { "" };
    writeln!(
        svg,
        "<text x=\"{left}\" y=\"{}\" textLength=\"{width}\" lengthAdjust=\"spacingAndGlyphs\" xml:space=\"preserve\" fill=\"{ink}\"{weight}>{escaped}</text>",
        top + 12
    )
    .unwrap();
}
