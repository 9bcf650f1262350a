//! What the trade measures with: lengths, hands, names, polygons.
//!
//! It knows no roof and no panel.

mod length;
mod hand;
mod name;
mod polygon;

pub use hand::Hand;
pub use length::{Length, NM_PER_INCH, NM_PER_MM};
pub use name::{EmptyName, Name, cleaned, is_hidden, shown};
pub use polygon::{Area, Point, Polygon, SkewLine};
