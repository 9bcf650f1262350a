//! A piece cut at both ends: near a peak, or in a strip between two edges, no
//! full panel lies in the course, and the one piece runs from board to board.
//!
//! Near is the edge at the tape's end of the panel, far the other one. Both are
//! marked from the tape's side, `x` from there, `y` up from the nose:
//!
//! ```text
//!             x0+d1            x0+wb-d2
//!   back  +-----*---------------*------+      * bend lines
//!         |    / near       far  \     |      cut lines: a1 nearer, a2 farther
//!   tape  |   /                   \    |
//!         |  /                     \   |
//!   nose  +-*-----------------------*--+
//!           x0                      x0+wb
//! ```
//!
//! Two readings give the widths `wb` and `wt`, not which end leans how much:
//! that is known of each edge (`L1`, `L2`), and what the readings say otherwise
//! is shared, half to each end: `e = (wb - wt) - (L1 + L2) h`,
//! `d1 = L1 h + e / 2`, `d2 = L2 h + e / 2`. So both readings hold. A square end
//! of which nothing else is known takes no share.

use super::spec::{CourseHeight, CourseTrouble, NearEnd, PieceSpec, course_height};
use crate::domain::{
    log::{EdgeId, Gap},
    measure::{Hand, Length, SkewLine},
    roof::EdgeKind,
    settings::Settings,
};

/// A near cut that takes off no more than this is not made.
const LEAST_CUT: Length = Length::from_64ths(8);

/// How far an end leans over the course's height.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum EndLean {
    /// So much is known: above zero where the course narrows at this end.
    Known(Length),
    /// Square, as a rake is of which no more is known.
    Square,
}

impl EndLean {
    /// The same over a course `height` high, of what is known over the `exposure`.
    pub fn over(self, height: Length, exposure: Length) -> Self {
        match self {
            Self::Known(run) => Self::Known(run.scaled(height, exposure)),
            Self::Square => Self::Square,
        }
    }

    /// How far that is.
    pub const fn over_the_course(self) -> Length {
        match self {
            Self::Known(run) => run,
            Self::Square => Length::ZERO,
        }
    }
}

/// One of the two ends.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct PieceEnd {
    /// The edge it is cut to.
    pub edge: EdgeId,
    pub kind: EdgeKind,
    pub lean: EndLean,
    /// How far beyond its bend line it is cut, along the panel's edge.
    pub allowance: Length,
}

/// The piece that fills `gap` (finished widths, board to board), with the tape
/// pulled from the side `tape`; `short` is the height of a course cut down at
/// the ridge.
///
/// # Errors
/// [`CourseTrouble`] where the course's height does not fit the panel, the
/// bend lines do not fit on one panel, or there is no width at the bottom.
pub fn piece_of_both_ends(
    gap: Gap,
    [near, far]: [PieceEnd; 2],
    tape: Hand,
    short: Option<Length>,
    settings: &Settings,
) -> Result<PieceSpec, CourseTrouble> {
    let CourseHeight {
        rise,
        panel,
        across,
    } = course_height(short, settings)?;
    if gap.bottom <= Length::ZERO {
        return Err(CourseTrouble::NoWidthBelow);
    }
    if gap.bottom > Length::LONGEST || gap.top.abs() > Length::LONGEST {
        return Err(CourseTrouble::TooFlat);
    }
    let top = across.unwrap_or(panel.height);
    let run = gap.bottom - gap.top;
    let near_run = share(run, near.lean, far.lean);
    let line = |at_nose: Length, run: Length| SkewLine {
        at_nose,
        at_rise: at_nose + run,
        rise,
    };
    let range = |line: &SkewLine| {
        let (at_nose, at_top) = (line.at_nose, line.x(top));
        (at_nose.min(at_top), at_nose.max(at_top))
    };
    let from_zero = line(Length::ZERO, near_run);
    let near_bend = from_zero.moved(near.allowance - range(&from_zero).0);
    let far_bend = line(near_bend.at_nose + gap.bottom, near_run - run);
    let (least, most) = (range(&near_bend).0, range(&far_bend).1);
    let beyond = (most + far.allowance - panel.width).max(Length::ZERO);
    let needed = (most - panel.width).max(Length::ZERO);
    if needed > least {
        return Err(CourseTrouble::TooWide {
            needs: most - least,
        });
    }
    let shift = beyond.half().clamp(needed, least);
    Ok(PieceSpec {
        kind: far.kind,
        hand: tape,
        bend: far_bend.moved(-shift),
        allowance: far.allowance,
        panel,
        across,
        near: Some(NearEnd {
            edges: [near.edge, far.edge],
            kind: near.kind,
            bend: near_bend.moved(-shift),
            allowance: near.allowance,
        }),
    })
}

/// How far the near line runs from the tape's side over the course, of the
/// `run` that both ends have together.
fn share(run: Length, near: EndLean, far: EndLean) -> Length {
    let known = near.over_the_course();
    let over = run - known - far.over_the_course();
    match (near, far) {
        (EndLean::Square, EndLean::Known(_)) => known,
        (EndLean::Known(_), EndLean::Square) => known + over,
        _ => known + over.half(),
    }
}

impl PieceSpec {
    /// How wide it is from the near bend line to the far one, `up` from the nose;
    /// below zero where they cross under that.
    pub fn bend_to_bend(&self, up: Length) -> Length {
        let near = self.near.map_or(Length::ZERO, |near| near.bend.x(up));
        self.bend.x(up) - near
    }

    /// The kind of the edge at which its course stands, and the edge at its other
    /// end with its kind, where it is cut at both.
    pub fn kind_and_other(&self, stands_at: EdgeId) -> (EdgeKind, Option<(EdgeId, EdgeKind)>) {
        match self.near {
            None => (self.kind, None),
            Some(near) => {
                let [near_edge, far_edge] = near.edges;
                if near_edge == stands_at {
                    (near.kind, Some((far_edge, self.kind)))
                } else {
                    (self.kind, Some((near_edge, near.kind)))
                }
            }
        }
    }

    /// Its near end as a piece of its own, looked at from the far side: the bend
    /// line runs beside the kept part as everywhere else then.
    pub fn from_far_side(&self) -> Option<Self> {
        let near = self.near?;
        Some(Self {
            kind: near.kind,
            hand: self.hand.other(),
            bend: near.bend.mirrored(self.panel.width),
            allowance: near.allowance,
            near: None,
            ..*self
        })
    }

    /// The near cut line, of a piece cut at both ends; `None` where it would
    /// take off next to nothing and is not made.
    pub fn near_cut(&self) -> Option<SkewLine> {
        let cut = self.near?.cut();
        let most = cut.at_nose.max(cut.x(self.top()));
        (most > LEAST_CUT).then_some(cut)
    }

    /// How far up the two bend lines meet, where that is within the piece: its
    /// tip is nipped off there.
    pub fn tip(&self) -> Option<Length> {
        let near = self.near?.bend;
        let below = self.bend.at_nose - near.at_nose;
        let above = self.bend.at_rise - near.at_rise;
        let tip = below.scaled(self.bend.rise, below - above);
        (above < below && tip < self.top()).then_some(tip)
    }
}
