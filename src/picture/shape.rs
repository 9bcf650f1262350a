//! The few shapes that pictures of a panel are made of.
//!
//! # Frame
//!
//! All shapes stand in the **piece's** own frame, in whole nanometres: `x`
//! from the whole end on the piece's hand, `y` up from the nose, the panel
//! face up. How that frame lies on the page is said once, in [`Frame`]: a
//! right-hand piece for marking is the same picture with `x` running to the
//! left, a panel turned end for end has both axes turned. No shape is ever
//! mirrored by hand, so left and right cannot differ in anything but that.
//!
//! ```text
//!                  Back, lane 1
//!                  Back, lane 0
//!             +--------------------+  y = height
//!    HandSide |                    | FarSide
//!     lane 0  |      the panel     |  lane 0
//!             +--------------------+  y = 0
//!            x = 0   Nose, lane 0  x = width
//!                    Nose, lane 1
//! ```
//!
//! What stands beside the panel (tape, table, words) is placed in **lanes**
//! along one of its sides, counted outward. A lane is one line of text high,
//! whatever a line of text is where the picture is drawn. Where room is short,
//! the outermost lanes are left off first.

use crate::domain::measure::{Hand, Length, Point, Polygon};
use crate::domain::piece::{At, Mark, Panel, PieceSpec};
use crate::domain::stock::Offcut;

/// Shapes in a frame.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Picture {
    /// The panel's size and how it lies on the page.
    pub frame: Frame,
    /// The shapes; later ones are drawn over earlier ones.
    pub shapes: Vec<Shape>,
}

/// The panel's size and how its axes run on the page.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Frame {
    /// The panel.
    pub panel: Panel,
    /// The side of the page that `x` runs to; the whole end is on the other.
    pub x_runs_to: Hand,
    /// The side of the page on which the nose lies.
    pub nose_at: PageEnd,
}

/// The lower or the upper end of the page; the person stands at the lower one.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum PageEnd {
    /// Toward the person.
    Bottom,
    /// Away from the person.
    Top,
}

/// One shape.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Shape {
    /// A part of the panel.
    Area {
        /// Its outline.
        outline: Polygon,
        /// Whether it is drawn full or hollow.
        fill: Fill,
        /// What stands in it, where there is room.
        name: &'static str,
    },
    /// A straight line on the panel.
    Line {
        /// One end.
        from: Point,
        /// The other.
        to: Point,
        /// What it is.
        role: LineRole,
    },
    /// A bar in a lane. Beside nose and back `from` and `to` are `x`, else `y`.
    Bar {
        /// The side and lane.
        lane: Lane,
        /// Where it begins.
        from: Length,
        /// Where it ends; a tape's reading is taken here, the blade stands
        /// here.
        to: Length,
        /// What it is.
        role: BarRole,
    },
    /// An arrow in lane 0 that points square to the edge at `mark`.
    Arrow {
        /// Where it points.
        mark: Mark,
    },
    /// A pointer on the panel, on the far side of `at`, that points at it.
    Pointer {
        /// What it points at.
        at: Point,
        /// Its words.
        text: String,
        /// Fewer words, where there is less room.
        short: String,
    },
    /// The numbers of the marks on one side, in lane 0, nearest to where the tape
    /// begins first. They keep that order wherever they find room.
    Numbers {
        /// The side.
        side: At,
        /// Where each stands, as in a word, and its number.
        marks: Vec<(Length, u32)>,
    },
    /// Words in a lane.
    Word {
        /// The side and lane.
        lane: Lane,
        /// Where they stand: `x` beside nose and back, else `y`.
        at: Length,
        /// To which side of that they grow.
        grows: Grows,
        /// The words.
        text: String,
        /// How many characters they are given: as many for `LEFT` as for
        /// `RIGHT`, so that both hands' pictures are laid out alike.
        room: u16,
    },
}

/// How a part is filled: the piece always is, the offcut never. Not told by colour.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Fill {
    /// The piece.
    Full,
    /// The piece, so that a line drawn on it is seen.
    Shaded,
    /// The offcut.
    Hollow,
}

/// What a line is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum LineRole {
    /// The stock's outline.
    Outline,
    /// The edge that stays whole, from which the tape is pulled.
    WholeEnd,
    /// The bend line: solid, the strongest line of the picture.
    Bend,
    /// A short stroke of the cut line, at one of its ends.
    CutEnd,
    /// The cut line, where one part ends and the other begins.
    Cut,
    /// Where the panel is cut across before anything else.
    Across,
}

/// What a bar is.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum BarRole {
    /// The tape, from the side it is pulled from.
    Tape,
    /// The table, up to the blade at its end.
    Table,
}

/// A side of the panel and how far out, counted from 0.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Lane {
    /// The side.
    pub side: At,
    /// 0 is right beside the panel.
    pub number: u16,
}

/// One of the two sides in the direction of `x`.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Toward {
    /// Toward the whole end.
    Hand,
    /// Away from it.
    Far,
}

/// To which side of their anchor words grow.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Grows {
    /// To one side: the anchor is their other end.
    Only(Toward),
    /// To both: the anchor is their middle.
    Both,
}

impl Picture {
    /// How many lanes it has on that side of the panel.
    pub fn lanes(&self, side: At) -> u16 {
        let used = |shape: &Shape| match shape {
            Shape::Bar { lane, .. } | Shape::Word { lane, .. } if lane.side == side => {
                lane.number + 1
            }
            Shape::Arrow { mark } if mark.at == side => 1,
            Shape::Numbers { side: at, .. } if *at == side => 1,
            _ => 0,
        };
        self.shapes.iter().map(used).max().unwrap_or(0)
    }
}

impl Lane {
    /// The lane `number` out from `side`.
    pub const fn new(side: At, number: u16) -> Self {
        Self { side, number }
    }
}

impl Toward {
    /// The other side.
    pub const fn other(self) -> Self {
        match self {
            Self::Hand => Self::Far,
            Self::Far => Self::Hand,
        }
    }
}

/// The outline of what `spec` is cut from: the offcut, or a whole panel.
pub fn stock_outline(spec: &PieceSpec, offcut: Option<&Offcut>) -> Polygon {
    let whole = || spec.panel.outline();
    offcut.map_or_else(whole, |offcut| offcut.outline_for(spec))
}

/// The lines round `stock`, the whole end last, so that it is drawn over the
/// corners.
pub fn outline_of(stock: &Polygon) -> Vec<Shape> {
    let next = stock.corners().iter().cycle().skip(1);
    let whole = |(from, to): &(&Point, &Point)| from.x == Length::ZERO && to.x == Length::ZERO;
    let mut sides: Vec<_> = stock.corners().iter().zip(next).collect();
    sides.sort_by_key(whole);
    let line = |side: (&Point, &Point)| Shape::Line {
        from: *side.0,
        to: *side.1,
        role: if whole(&side) {
            LineRole::WholeEnd
        } else {
            LineRole::Outline
        },
    };
    sides.into_iter().map(line).collect()
}

/// Words in a lane.
pub fn word(lane: Lane, at: Length, grows: Grows, text: &str) -> Shape {
    Shape::Word {
        lane,
        at,
        grows,
        text: text.to_owned(),
        room: room_of(text),
    }
}

/// How much room words are given, whichever hand they name.
fn room_of(text: &str) -> u16 {
    let alike = text.replace("LEFT", "RIGHT");
    u16::try_from(alike.chars().count()).unwrap_or(u16::MAX)
}

/// The point `over` / `under` of the way from `from` to `to`.
pub fn part_way(from: Point, to: Point, over: i64, under: i64) -> Point {
    let (over, under) = (Length::from_nm(over), Length::from_nm(under));
    Point {
        x: from.x + (to.x - from.x).scaled(over, under),
        y: from.y + (to.y - from.y).scaled(over, under),
    }
}
