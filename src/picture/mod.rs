//! What is looked at while working: a panel as it lies for marking and at the
//! shear, an edge as a staircase of courses, the end of a roof plane, the roof as a
//! plan of its sides.
//!
//! Pure shapes in exact lengths, made from the domain's polygons. How they are
//! drawn (cells, SVG) is not known here. Read in this order.

pub mod shape;
pub mod marking;
pub mod shear;
pub mod staircase;
pub mod roof_end;
pub mod roof_plan;
