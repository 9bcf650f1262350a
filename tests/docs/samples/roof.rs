//! Readings as they would be taken on a hip roof drawn up for the samples.
//!
//! Every plane has the same slope and every corner is square, so in plan each
//! hip runs at 45 degrees and moves in by `exposure * cos(slope)` a course
//! (trade practice; the rafter tables of tests/outside have the same cosine).
//!
//! ```text
//!          v = rise ______________________
//!                  /|    |    |    |    |\
//!     left hip    /___|____|____|____|____\   right hip
//!   u = v cos    /|    |    |    |    |    \   u = eave - v cos
//!               /___|____|____|____|____|___\
//!      v = 0   0 ------- u along the eave ------ eave
//! ```

use bendmark::domain::{
    log::{PanelsLie, Reading, TapeEnd},
    measure::{Hand, Length},
    roof::Slope,
    settings::Settings,
};

/// One roof plane with a hip at either end, seen from its eave looking up.
pub(crate) struct Plane {
    /// Length of the eave.
    pub(crate) eave: Length,
    /// From the eave up the slope to the ridge, or to where the hips meet.
    pub(crate) up: Length,
    /// How steep it is.
    pub(crate) slope: Slope,
    /// How far right of the middle the bond starts.
    pub(crate) bond: Length,
    /// Whether there is a ridge to cut a short course to.
    pub(crate) ridge: bool,
    /// Whether it is logged up to its peak, where no full panel lies any more:
    /// first two pieces with a side lap between them, where the bond has one,
    /// then one piece from board to board. Else it ends at the last full panel.
    pub(crate) peak: bool,
}

/// One course at one edge.
pub(crate) struct Row {
    pub(crate) number: u32,
    pub(crate) bottom: Reading,
    pub(crate) top: Top,
    /// Of a course cut down at the ridge.
    pub(crate) height: Option<Reading>,
    /// Whether its readings run to the board of the plane's other edge.
    pub(crate) to_other: bool,
}

/// What a course has for a top.
pub(crate) enum Top {
    Read(Reading),
    /// The boards meet so far up.
    Meet(Reading),
}

/// A course worth a piece of its own: lower ones go under the ridge cap.
const LEAST_SHORT: Length = Length::from_mm(75);

impl Plane {
    /// The readings at the end whose pieces have `hand`. A course that runs from
    /// board to board stands at the right-hand edge, the first of its plane.
    pub(crate) fn rows(&self, hand: Hand, settings: &Settings) -> Vec<Row> {
        (1..)
            .map_while(|number| self.row(number, hand, settings))
            .collect()
    }

    fn row(&self, number: u32, hand: Hand, settings: &Settings) -> Option<Row> {
        let exposure = settings.exposure;
        let foot = exposure.times(i64::from(number) - 1);
        let left = self.up - foot;
        let short = left < exposure;
        if short && (!(self.ridge || self.peak) || left < LEAST_SHORT) {
            return None;
        }
        let head = if short { self.up } else { foot + exposure };
        if self.peak && self.between(foot) <= settings.panel_width.mm() {
            return (hand == Hand::Right).then(|| Row {
                number,
                bottom: taped(self.between(foot), settings),
                top: if short {
                    Top::Meet(taped(left.mm(), settings))
                } else {
                    Top::Read(taped(self.between(head), settings))
                },
                height: None,
                to_other: true,
            });
        }
        let line = self.lap_line(number, head, hand, settings)?;
        let reading = |height: Length| {
            let hip = self.hip(height).mm();
            let gap = match hand {
                // The hip at the right end.
                Hand::Left => self.eave.mm() - hip - line,
                Hand::Right => line - hip,
            };
            let under = if goes_under(hand, settings) {
                settings.side_lap.mm()
            } else {
                0.0
            };
            taped(gap - under - held_off(settings), settings)
        };
        Some(Row {
            number,
            bottom: reading(foot),
            top: Top::Read(reading(head)),
            height: short.then(|| taped(left.mm(), settings)),
            to_other: false,
        })
    }

    /// From board to board at `height` up the slope, in millimetres.
    fn between(&self, height: Length) -> f64 {
        self.eave.mm() - 2.0 * self.hip(height).mm()
    }

    /// How far a hip has moved in at `height` up the slope: `v cos`.
    fn hip(&self, height: Length) -> Length {
        let pitch = self.slope.tan();
        let cos = 1.0 / (1.0 + pitch * pitch).sqrt();
        Length::rounded_from_mm(height.mm() * cos)
    }

    /// Where, along the eave in millimetres, the side-lap line of the last full
    /// panel lies. A panel is full where it stays inside both hips at the
    /// course's head. Every other course is moved by half a cover. At a peak the
    /// side lap of the bond that is nearest the middle takes its place.
    fn lap_line(&self, number: u32, head: Length, hand: Hand, settings: &Settings) -> Option<f64> {
        let (width, lap) = (settings.panel_width.mm(), settings.side_lap.mm());
        let cover = settings.cover().mm();
        let hip = self.hip(head).mm();
        let (least, most) = (hip, self.eave.mm() - hip - width);
        let half = if number.is_multiple_of(2) {
            cover / 2.0
        } else {
            0.0
        };
        let middle = self.eave.mm() / 2.0;
        let start = middle + self.bond.mm() + half;
        let struck = start + ((middle - start) / cover).round() * cover;
        match hand {
            Hand::Left => {
                let edge = start + ((most - start) / cover).floor() * cover;
                (edge >= least)
                    .then_some(edge + cover)
                    .or(self.peak.then_some(struck))
            }
            Hand::Right => {
                let edge = start + ((least - start) / cover).ceil() * cover;
                (edge <= most)
                    .then_some(edge + lap)
                    .or(self.peak.then_some(struck + lap))
            }
        }
    }
}

/// Whether the piece goes under the last panel, and so is read to its edge.
fn goes_under(hand: Hand, settings: &Settings) -> bool {
    matches!(
        (settings.panels_lie, hand),
        (PanelsLie::OverLeft, Hand::Right) | (PanelsLie::OverRight, Hand::Left)
    )
}

/// What the tape's end stays off the hip board, in millimetres.
fn held_off(settings: &Settings) -> f64 {
    match settings.tape_end {
        TapeEnd::HeldOff => settings
            .kind(bendmark::domain::roof::EdgeKind::Hip)
            .clearance
            .mm(),
        TapeEnd::Hard => 0.0,
    }
}

/// The nearest mark of the tape.
fn taped(mm: f64, settings: &Settings) -> Reading {
    let step = settings.division.step();
    #[expect(clippy::cast_possible_truncation, reason = "a few thousand marks")]
    let count = (mm / step.mm()).round() as i64;
    Reading::new(step.times(count)).unwrap()
}
