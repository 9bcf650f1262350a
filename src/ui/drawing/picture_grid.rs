//! The cells a picture is drawn into, with its scale.

use super::{canvas::Canvas, picture_scale::Scale};
use crate::app::place::Glyphs;

/// The grid with its scale.
pub(super) struct Raster {
    pub(super) canvas: Canvas,
    pub(super) scale: Scale,
    pub(super) glyphs: Glyphs,
}
