//! Where in a job something was changed.

use crate::domain::{
    log::{CourseNumber, EdgeId, End},
    piece::PieceId,
    settings::Setting,
};

/// A reading: the bottom or top of a course of an edge.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct ReadingAt {
    pub edge: EdgeId,
    pub course: CourseNumber,
    pub end: End,
}

/// Where a change was made, so that undo can show it.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Spot {
    Reading(ReadingAt),
    Edge(EdgeId),
    Piece(PieceId),
    Rack,
    Setting(Setting),
}
