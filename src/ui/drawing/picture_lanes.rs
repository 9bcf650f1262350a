//! What stands in the lanes beside a picture's panel: tape, table, arrow and
//! words, and the pointers on the panel.
//!
//! Words stand where they belong, or as near to it as there is room; without
//! any room they are left off. They may lie over a tape or the table, never
//! over each other, an arrow or the blade.

use super::{canvas::Glyph, picture_grid::Raster, picture_scale::count};
use crate::domain::measure::{Hand, Length, Point};
use crate::domain::piece::{At, Mark};
use crate::picture::shape::{BarRole, Grows, Lane, Shape, Toward};
use crate::ui::theme::Role;

impl Raster {
    /// Draws `shape` if it is one of those.
    pub(super) fn beside(&mut self, shape: &Shape) {
        match shape {
            Shape::Bar {
                lane,
                from,
                to,
                role,
            } => match lane.side {
                At::Nose | At::Back => {
                    let ends = (self.scale.column(*from), self.scale.column(*to));
                    self.level_bar(*lane, ends, *role);
                }
                At::HandSide | At::FarSide => {
                    let ends = (self.scale.row(*from), self.scale.row(*to));
                    self.upright_bar(*lane, ends);
                }
            },
            Shape::Arrow { mark } => self.arrow(*mark),
            Shape::Numbers { side, marks } => self.numbers(*side, marks),
            Shape::Pointer { at, text, short } => self.pointer(*at, [text, short]),
            Shape::Word {
                lane,
                at,
                grows,
                text,
                room,
            } => {
                let padded = self.padded(text, *room, *grows);
                self.word(*lane, *at, *grows, &padded);
            }
            Shape::Area { .. } | Shape::Line { .. } => {}
        }
    }

    fn level_bar(&mut self, lane: Lane, (from, to): (u16, u16), role: BarRole) {
        let Some(row) = self.scale.lane(lane) else {
            return;
        };
        let (run, at_from, at_to) = match role {
            BarRole::Tape => (Glyph::Stroke, Glyph::UprightStroke, Glyph::Stroke),
            BarRole::Table => (Glyph::Table, Glyph::Table, Glyph::Blade),
        };
        for column in from.min(to)..=from.max(to) {
            self.canvas.put(column, row, run, Role::Line);
        }
        self.canvas.put(from, row, at_from, Role::Line);
        self.canvas.put(to, row, at_to, Role::Line);
    }

    fn upright_bar(&mut self, lane: Lane, (from, to): (u16, u16)) {
        let Some(column) = self.scale.lane(lane) else {
            return;
        };
        for row in from.min(to)..=from.max(to) {
            self.canvas
                .put(column, row, Glyph::UprightStroke, Role::Line);
        }
    }

    fn arrow(&mut self, mark: Mark) {
        let Some(lane) = self.scale.lane(Lane::new(mark.at, 0)) else {
            return;
        };
        let (column, row, glyph) = match mark.at {
            At::Nose => (self.scale.column(mark.position), lane, Glyph::ToBack),
            At::Back => (self.scale.column(mark.position), lane, Glyph::ToNose),
            At::FarSide => (lane, self.scale.row(mark.position), Glyph::ToHand),
            At::HandSide => (lane, self.scale.row(mark.position), Glyph::ToFar),
        };
        self.canvas.put(column, row, glyph, Role::Strong);
    }

    /// Each number at its mark, or as near to it as the others leave room.
    fn numbers(&mut self, side: At, marks: &[(Length, u32)]) {
        let Some(lane) = self.scale.lane(Lane::new(side, 0)) else {
            return;
        };
        let lowest = self.scale.top + self.scale.rows.saturating_sub(1);
        let level = matches!(side, At::Nose | At::Back);
        let wanted = marks.iter().map(|(at, _)| {
            if level {
                self.scale.column(*at)
            } else {
                lowest.saturating_sub(self.scale.row(*at))
            }
        });
        let places = if level {
            // Two numbers side by side would be read as one.
            in_order(wanted, 2, self.canvas.columns())
        } else {
            in_order(wanted, 1, self.scale.rows)
        };
        for (place, (_, number)) in places.into_iter().zip(marks) {
            let (column, row) = if level {
                (place, lane)
            } else {
                (lane, lowest.saturating_sub(place))
            };
            let text = number.to_string();
            self.canvas.words(column, row, Role::Strong, &text);
        }
    }

    /// The pointer and the first words that have room, in the nearest free cells;
    /// beside the panel where there is no room on it.
    fn pointer(&mut self, at: Point, texts: [&str; 2]) {
        let row = self.scale.row(at.y);
        let outside = self.scale.lane(Lane::new(At::FarSide, 0));
        let near = self.first_not_full(self.scale.column(at.x), row);
        // Past a name that stands there, still nearer than outside.
        let past = near.and_then(|near| self.first_free(near, row, count(texts[0]) + 1));
        let places = [near, past, outside].into_iter().flatten();
        for (column, text) in places.flat_map(|column| texts.map(|text| (column, text))) {
            let first = column.saturating_add(1);
            // Over the panel's own edge rather than far from the cut.
            let mut cells = first..first.saturating_add(count(text));
            let has_room = cells.all(|column| {
                let edge = self.canvas.at(column, row) == Some(Glyph::Level);
                edge || self.canvas.is_free(column, row)
            });
            if has_room {
                self.leader(near.filter(|near| *near != column), column, row);
                self.canvas.words(first, row, Role::Strong, text);
                return;
            }
        }
    }

    /// What leads to a pointer's words behind `column` from what it points at: from
    /// the first free cell behind `near`, where they stand apart.
    fn leader(&mut self, near: Option<u16>, column: u16, row: u16) {
        let tip = near.and_then(|near| self.first_free(near, row, 1));
        let tip = tip.unwrap_or(column);
        for between in tip..=column {
            if self.canvas.is_free(between, row) {
                let dash = Glyph::Character('-');
                self.canvas.put(between, row, dash, Role::Strong);
            }
        }
        self.canvas.put(tip, row, Glyph::ToHand, Role::Strong);
    }

    /// The first cell from `start` on, away from the hand, that is not filled.
    fn first_not_full(&self, start: u16, row: u16) -> Option<u16> {
        (start..self.canvas.columns()).find(|column| {
            let filled = [Glyph::Full, Glyph::UpperHalf, Glyph::LowerHalf];
            !self
                .canvas
                .at(*column, row)
                .is_some_and(|glyph| filled.contains(&glyph))
        })
    }

    /// The first cell from `start` on, away from the hand, with so many free ones in all.
    fn first_free(&self, start: u16, row: u16, count: u16) -> Option<u16> {
        (start..self.canvas.columns()).find(|column| self.has_room(*column, row, count))
    }

    fn has_room(&self, first: u16, row: u16, length: u16) -> bool {
        (first..first.saturating_add(length)).all(|column| self.canvas.is_free(column, row))
    }

    fn word(&mut self, lane: Lane, at: Length, grows: Grows, text: &str) {
        let Some(place) = self.scale.lane(lane) else {
            return;
        };
        let length = count(text);
        let start = match lane.side {
            At::Nose | At::Back => {
                let anchor = self.scale.column(at);
                let first = match grows {
                    Grows::Only(Toward::Far) => anchor,
                    Grows::Only(Toward::Hand) => (anchor + 1).saturating_sub(length),
                    Grows::Both => anchor.saturating_sub(length / 2),
                };
                // Two blanks keep two phrases apart.
                let margin = length.min(2);
                let free = |first: &u16| self.takes_words(*first, place, length, margin);
                let start = nearby(first, self.canvas.columns(), true).find(free);
                start.map(|first| (first, place))
            }
            At::HandSide | At::FarSide => {
                let first = match lane.side {
                    At::HandSide => (place + 1).saturating_sub(length),
                    _ => place,
                };
                let (top, rows) = (self.scale.top, self.scale.rows);
                let free = |row: &u16| *row >= top && self.takes_words(first, *row, length, 0);
                let start = nearby(self.scale.row(at), top + rows, false).find(free);
                start.map(|row| (first, row))
            }
        };
        if let Some((first, row)) = start {
            self.canvas.words(first, row, Role::Strong, text);
        }
    }

    /// `text` with the rest of its `room` blank, on the side away from where it
    /// is anchored.
    fn padded(&self, text: &str, room: u16, grows: Grows) -> String {
        let blanks = " ".repeat(usize::from(room.saturating_sub(count(text))));
        let far_is_right = self.canvas.x_runs_to() == Hand::Right;
        let blank_is_far = grows != Grows::Only(Toward::Hand);
        if far_is_right == blank_is_far {
            format!("{text}{blanks}")
        } else {
            format!("{blanks}{text}")
        }
    }

    /// Whether words fit there with a `margin` between them and others, and a
    /// blank or a stroke between them and an arrow or the blade. Two numbers
    /// side by side would be read as one.
    fn takes_words(&self, first: u16, row: u16, length: u16, margin: u16) -> bool {
        let end = first.saturating_add(length);
        let clear = |margin: u16, taken: fn(Glyph) -> bool| {
            let around = first.saturating_sub(margin)..end.saturating_add(margin);
            let at = |column| self.canvas.at(column, row);
            around.filter_map(at).all(|glyph| !taken(glyph))
        };
        end <= self.canvas.columns()
            && clear(margin, |glyph| matches!(glyph, Glyph::Character(_)))
            && clear(margin.min(1), is_sign)
    }
}

/// `wanted` places below `count` moved apart by `gap`: on where one is in the
/// way, back where the end is. Their order stays.
fn in_order(wanted: impl Iterator<Item = u16>, gap: u16, count: u16) -> Vec<u16> {
    let mut least = 0;
    let mut places: Vec<u16> = wanted
        .map(|wanted| {
            let place = wanted.max(least);
            least = place + gap;
            place
        })
        .collect();
    let mut most = count.saturating_sub(1);
    for place in places.iter_mut().rev() {
        *place = (*place).min(most);
        most = place.saturating_sub(gap);
    }
    places
}

/// Signs that words may not hide.
const fn is_sign(glyph: Glyph) -> bool {
    matches!(
        glyph,
        Glyph::Blade | Glyph::ToHand | Glyph::ToFar | Glyph::ToBack | Glyph::ToNose
    )
}

/// `start` and what is near it below `count`, nearest first; `upward` says
/// which of two equally near comes first.
fn nearby(start: u16, count: u16, upward: bool) -> impl Iterator<Item = u16> {
    (0..count)
        .flat_map(move |apart| {
            let pair = [start.checked_add(apart), start.checked_sub(apart)];
            let [up, down] = pair;
            if upward { [up, down] } else { [down, up] }
        })
        .flatten()
        .filter(move |at| *at < count)
}
