//! A panel that left the pile, and an offcut that came to the rack.

use crate::domain::log::EdgeId;
use crate::domain::measure::Name;
use crate::domain::stock::Offcut;

/// A new panel that was opened.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct OpenedPanel {
    /// For a piece of which edge.
    pub edge: EdgeId,
    /// Its colour lot, where that was named.
    pub lot: Option<Name>,
}

/// An offcut that was ever laid on the rack.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Laid {
    pub offcut: Offcut,
    pub lot: Option<Name>,
    /// The panel it came from; none for one found on site.
    pub panel: Option<u32>,
}
