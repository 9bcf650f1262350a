//! Writing into the buffer: clipped to an area, in a role's style.

use super::theme::{Role, Theme};
use crate::domain::words::rows;
use ratatui::buffer::{Buffer, Cell};
use ratatui::layout::Rect;
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// A pen over one area of the buffer; nothing it writes leaves that area.
pub struct Pen<'a> {
    buffer: &'a mut Buffer,
    theme: &'a Theme,
    area: Rect,
}

impl<'a> Pen<'a> {
    /// A pen for `area`.
    pub fn new(buffer: &'a mut Buffer, theme: &'a Theme, area: Rect) -> Self {
        let area = area.intersection(buffer.area);
        Self {
            buffer,
            theme,
            area,
        }
    }

    /// A pen for a part of this one's area, given from its own corner.
    pub fn part(&mut self, x: u16, y: u16, width: u16, height: u16) -> Pen<'_> {
        let part = Rect {
            x: self.area.x.saturating_add(x),
            y: self.area.y.saturating_add(y),
            width,
            height,
        };
        let part = part.intersection(self.area);
        Pen {
            buffer: self.buffer,
            theme: self.theme,
            area: part,
        }
    }

    /// How many columns there are.
    pub const fn width(&self) -> u16 {
        self.area.width
    }

    /// How many rows there are.
    pub const fn height(&self) -> u16 {
        self.area.height
    }

    /// The theme in use.
    pub const fn theme(&self) -> &'a Theme {
        self.theme
    }

    /// Covers the whole area with empty cells.
    pub fn fill(&mut self, role: Role) {
        let mut empty = Cell::EMPTY;
        empty.set_style(self.theme.style(role));
        for y in self.area.top()..self.area.bottom() {
            // Half of a wide letter stays before the area otherwise, and takes the
            // area's first column with it.
            let before = self.area.left().checked_sub(1);
            if let Some(cell) = before.and_then(|x| self.buffer.cell_mut((x, y)))
                && cell.symbol().width() > 1
            {
                cell.set_symbol(" ");
            }
            for x in self.area.left()..self.area.right() {
                if let Some(cell) = self.buffer.cell_mut((x, y)) {
                    cell.clone_from(&empty);
                }
            }
        }
    }

    /// Writes `text` from column `x` of row `y` on, and says in which column
    /// it ended; what does not fit is left off, and two dots say so.
    pub fn text(&mut self, x: u16, y: u16, role: Role, text: &str) -> u16 {
        if x >= self.area.width || y >= self.area.height {
            return x;
        }
        let left = self.area.x + x;
        let most = usize::from(self.area.right().saturating_sub(left));
        let style = self.theme.style(role);
        // A figure cut short would pass for another one: 6 for 6 1/4.
        let shown = if text.trim_end().width() > most {
            clipped(text, most)
        } else {
            text.to_owned()
        };
        let (end, _) = self
            .buffer
            .set_stringn(left, self.area.y + y, &shown, most, style);
        end.saturating_sub(self.area.x)
    }

    /// Writes `text` so that it ends at the right side, less `margin`.
    pub fn text_right(&mut self, margin: u16, y: u16, role: Role, text: &str) {
        let width = columns(text);
        let x = self.area.width.saturating_sub(width + margin);
        self.text(x, y, role, text);
    }

    /// A whole row in one role, with `text` at its left.
    pub fn row(&mut self, y: u16, role: Role, text: &str) {
        if y < self.area.height {
            let width = self.area.width;
            self.part(0, y, width, 1).fill(role);
            self.text(0, y, role, text);
        }
    }

    /// A level line across the area.
    pub fn line(&mut self, y: u16) {
        let dash = self.theme.drawn("\u{2500}", "-");
        let width = usize::from(self.area.width);
        self.text(0, y, Role::Line, &dash.repeat(width));
    }

    /// An upright line down the area.
    pub fn upright(&mut self, x: u16, from: u16, to: u16) {
        let bar = self.theme.drawn("\u{2502}", "|");
        for y in from..to {
            self.text(x, y, Role::Line, bar);
        }
    }

    /// `text` broken into rows from `y` on; says on which row it ended.
    pub fn wrapped(&mut self, x: u16, y: u16, role: Role, text: &str) -> u16 {
        let width = usize::from(self.area.width.saturating_sub(x));
        let mut at = y;
        for row in broken(text, width) {
            self.text(x, at, role, &row);
            at = at.saturating_add(1);
        }
        at
    }
}

/// The first row to show of a list of `count`, so that the selected one stays
/// in the middle of `rows` as far as the list goes.
pub fn first_in_sight(selected: usize, count: usize, rows: usize) -> usize {
    let most = count.saturating_sub(rows);
    selected.saturating_sub(rows / 2).min(most)
}

/// How many columns `text` takes.
pub fn columns(text: &str) -> u16 {
    u16::try_from(text.width()).unwrap_or(u16::MAX)
}

/// `text` in rows of at most `width` columns; no row where there is no word.
pub fn broken(text: &str, width: usize) -> Vec<String> {
    if text.trim_ascii().is_empty() {
        return Vec::new();
    }
    rows("", text, 0, width)
}

/// `text` cut to `width` columns, with `..` where something is missing.
pub fn clipped(text: &str, width: usize) -> String {
    if text.width() <= width {
        return text.to_owned();
    }
    let mut kept = String::new();
    for c in text.chars() {
        let mut longer = kept.clone();
        longer.push(c);
        if longer.width() + 2 > width {
            break;
        }
        kept = longer;
    }
    kept.push_str(&"..".chars().take(width).collect::<String>());
    kept
}

/// Each of `names` cut to `columns`, with `..` in its middle where something is
/// missing: names of hips begin alike and end alike, so as much is kept of either
/// end as tells a name apart from the others. Two that differ never come out
/// alike; where the columns are too few for that, a number at the end tells them
/// apart, and below four columns nothing can.
pub fn clipped_middle(names: &[&str], columns: usize) -> Vec<String> {
    let letters = |name: &&str| name.graphemes(true).map(str::to_owned).collect();
    let whole: Vec<Vec<String>> = names.iter().map(letters).collect();
    let mut cut: Vec<String> = Vec::with_capacity(names.len());
    for (at, (name, letters)) in names.iter().zip(&whole).enumerate() {
        if name.width() <= columns {
            cut.push((*name).to_owned());
            continue;
        }
        let others = whole.iter().filter(|other| *other != letters);
        let alike: Vec<(usize, usize)> = others.map(|other| common_ends(letters, other)).collect();
        // From a cut in the middle outward, the end first: it says the corner.
        let room = columns.saturating_sub(2);
        let mut heads: Vec<usize> = (0..=room).collect();
        heads.sort_by_key(|head| (2 * head).abs_diff(room));
        let tells = |head: &&usize| {
            let tail = room - **head;
            alike
                .iter()
                .all(|(first, last)| **head > *first || tail > *last)
        };
        let head = heads.iter().find(tells).or(heads.first());
        let made = with_middle_out(letters, head.copied().unwrap_or(0), room);
        cut.push(match is_taken(&made, at, names, &cut) {
            false => made,
            true => numbered(letters, at, names, &cut, columns),
        });
    }
    cut
}

/// Whether another name is shown as `made`, or is that.
fn is_taken(made: &str, at: usize, names: &[&str], cut: &[String]) -> bool {
    let name = names.get(at);
    let shown = cut.iter().zip(names);
    let mut shown = shown.filter(|(_, other)| Some(*other) != name);
    shown.any(|(cut, _)| cut == made) || names.contains(&made)
}

/// How many letters two names have in common at their beginning and at their end.
fn common_ends(one: &[String], other: &[String]) -> (usize, usize) {
    let same = |(one, other): &(&String, &String)| one == other;
    let first = one.iter().zip(other).take_while(same).count();
    let last = one.iter().rev().zip(other.iter().rev());
    (first, last.take_while(same).count())
}

/// The first letters up to `head` columns, `..`, and the last ones up to `room`
/// columns in all.
fn with_middle_out(letters: &[String], head: usize, room: usize) -> String {
    let mut used = 0;
    let mut fits = |most: usize, letter: &&String| {
        used += letter.width();
        used <= most
    };
    let first: Vec<_> = letters.iter().take_while(|l| fits(head, l)).collect();
    let mut used = first.iter().map(|letter| letter.width()).sum::<usize>();
    let mut last: Vec<_> = letters
        .iter()
        .rev()
        .take_while(|letter| {
            used += letter.width();
            used <= room
        })
        .collect();
    last.reverse();
    let joined = |part: Vec<&String>| part.into_iter().map(String::as_str).collect::<String>();
    format!("{}..{}", joined(first), joined(last))
}

/// The first letters and the first number that nothing else is shown by.
fn numbered(
    letters: &[String],
    at: usize,
    names: &[&str],
    cut: &[String],
    columns: usize,
) -> String {
    let with = |number: usize| {
        let end = number.to_string();
        let head = columns.saturating_sub(2 + end.len());
        format!("{}{end}", with_middle_out(letters, head, head))
    };
    let mut all = (2..names.len() + 2).map(with);
    all.find(|made| !is_taken(made, at, names, cut))
        .unwrap_or_else(|| with(at + 2))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn check(names: &[&str], columns: usize, expected: &[&str]) {
        assert_eq!(clipped_middle(names, columns), expected);
    }

    #[test]
    fn names_are_cut_where_they_are_alike() {
        let north = ["North slope, north-east hip", "North slope, north-west hip"];
        check(&north, 27, &north);
        check(
            &north,
            20,
            &["North slo..-east hip", "North slo..-west hip"],
        );
        check(&north, 10, &["N..ast hip", "N..est hip"]);
        check(&["Hip 1", "Hip 1"], 4, &["H..1", "H..1"]);
    }

    proptest! {
        #[test]
        fn prop_names_that_differ_are_never_shown_alike(
            names in prop::collection::vec("(North|South) slope,? ?[ab]{0,3}(east|west)?[ab.]{0,9} hip[12]?", 1..12),
            columns in 8_usize..40,
        ) {
            let names: Vec<&str> = names.iter().map(String::as_str).collect();
            let cut = clipped_middle(&names, columns);
            for (one, (name, shown)) in names.iter().zip(&cut).enumerate() {
                prop_assert!(shown.width() <= columns, "{shown}");
                if name.width() <= columns {
                    prop_assert_eq!(name, shown);
                }
                for (other, cut) in names.iter().zip(&cut).take(one) {
                    prop_assert!(name == other || shown != cut, "{name}, {other}: {shown}");
                }
            }
        }
    }
}
