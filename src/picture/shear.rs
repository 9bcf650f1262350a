//! The panel at the shear.
//!
//! Seen from above, face up, as it lies on the table: you stand at the bottom
//! of the page. The larger part of what is cut lies on the table, the smaller one
//! drops off beyond the blade. The piece is drawn full, the offcut hollow,
//! whichever of them drops. The panel is turned end for end where [`Lie`] says so.
//! An arrow shows where the blade enters, square to the edge nearest to you, a
//! pointer where to stop, three-quarters of the way along, to take the second bite
//! (in words: a bare `3/4` beside a panel would be read as a length).
//!
//! ```text
//!      back, away from you
//!    ####################+------------+
//!    #####################            |
//!    ######################<stop      |     blade at the right: the drop
//!    #######################          |     goes off to the right
//!    ########################---------+
//!      nose, toward you     ^ enter
//!    ==========TABLE========| BLADE RIGHT
//!    PIECE stays                  OFFCUT drops
//! ```
//!
//! The order of work and the three-quarters are common practice. Which part
//! lies where is [`Lie`]'s to say, from the parts of the stock as it is.

use super::{
    marking::points,
    shape::{
        BarRole, Fill, Frame, Grows, Lane, LineRole, PageEnd, Picture, Shape, Toward, outline_of,
        part_way, word,
    },
};
use crate::domain::cutting::CutNow;
use crate::domain::measure::{Hand, Length, Polygon};
use crate::domain::piece::{At, Ends, Lie, Marks, Nose, Part};

/// The picture for `cut` at a table whose blade stands at the `blade` end;
/// `None` where nothing is cut.
pub fn shear(cut: &CutNow, blade: Hand) -> Option<Picture> {
    let scene = Scene::of(cut, blade)?;
    let mut shapes = Vec::from(scene.parts());
    shapes.extend(outline_of(&scene.cut.stock));
    shapes.extend(scene.cut_line());
    shapes.extend(scene.table());
    shapes.extend(scene.edge_words());
    shapes.extend(scene.part_words());
    Some(Picture {
        frame: scene.frame,
        shapes,
    })
}

/// What all shapes of the picture follow from.
struct Scene<'a> {
    cut: &'a CutNow,
    lie: Lie,
    blade: Hand,
    frame: Frame,
    /// The side of the panel at which you stand, and the one across from it.
    near: At,
    away: At,
    /// Where the cut begins, at the end nearest to you, and where it ends.
    marks: Ends,
}

impl<'a> Scene<'a> {
    fn of(cut: &'a CutNow, blade: Hand) -> Option<Self> {
        let spec = &cut.spec;
        let [nose_end, back_end] = Marks::of(spec).cut?;
        if cut.kept.is_empty() || cut.left.is_empty() {
            return None;
        }
        let lie = cut.lie(blade);
        let frame = |nose_at, x_runs_to| Frame {
            panel: spec.panel,
            x_runs_to,
            nose_at,
        };
        let (frame, [near, away], marks) = match lie.nose {
            Nose::Toward => (
                frame(PageEnd::Bottom, spec.hand.other()),
                [At::Nose, At::Back],
                [nose_end, back_end],
            ),
            Nose::Away => (
                frame(PageEnd::Top, spec.hand),
                [At::Back, At::Nose],
                [back_end, nose_end],
            ),
        };
        Some(Self {
            cut,
            lie,
            blade,
            frame,
            near,
            away,
            marks,
        })
    }

    /// The side of the panel at the blade's end of the table.
    fn blade_side(&self) -> Toward {
        if self.frame.x_runs_to == self.blade {
            Toward::Far
        } else {
            Toward::Hand
        }
    }

    /// `x` at the side `toward`.
    const fn end(&self, toward: Toward) -> Length {
        match toward {
            Toward::Hand => Length::ZERO,
            Toward::Far => self.cut.spec.panel.width,
        }
    }

    fn parts(&self) -> [Shape; 2] {
        let area = |outline: &Polygon, fill, name| Shape::Area {
            outline: outline.clone(),
            fill,
            name,
        };
        [
            area(&self.cut.kept, Fill::Full, "PIECE"),
            area(&self.cut.left, Fill::Hollow, "OFFCUT"),
        ]
    }

    fn cut_line(&self) -> [Shape; 3] {
        let [from, to] = points(self.marks, self.cut.spec.panel);
        let [mark, _] = self.marks;
        [
            Shape::Line {
                from,
                to,
                role: LineRole::Cut,
            },
            Shape::Arrow { mark },
            // On the offcut, which is not filled.
            Shape::Pointer {
                at: part_way(from, to, 3, 4),
                text: "stop here".to_owned(),
                short: "stop".to_owned(),
            },
        ]
    }

    fn table(&self) -> [Shape; 3] {
        let lane = Lane::new(self.near, 1);
        let [entry, _] = points(self.marks, self.cut.spec.panel);
        let to_blade = self.blade_side();
        let from = self.end(to_blade.other());
        let blade = format!("BLADE {}", self.blade.word().to_uppercase());
        let middle = (from + entry.x).half();
        [
            Shape::Bar {
                lane,
                from,
                to: entry.x,
                role: BarRole::Table,
            },
            word(lane, entry.x, Grows::Only(to_blade), &blade),
            word(lane, middle, Grows::Both, "TABLE"),
        ]
    }

    fn edge_words(&self) -> [Shape; 3] {
        let to_blade = self.blade_side();
        let from = self.end(to_blade.other());
        let [entry, _] = points(self.marks, self.cut.spec.panel);
        let near = format!("{}, toward you", self.near.word());
        let away = format!("{}, away from you", self.away.word());
        let grows = Grows::Only(to_blade);
        [
            word(Lane::new(self.near, 0), from, grows, &near),
            word(Lane::new(self.away, 0), from, grows, &away),
            word(Lane::new(self.near, 0), entry.x, grows, "enter"),
        ]
    }

    fn part_words(&self) -> [Shape; 2] {
        let lane = Lane::new(self.near, 2);
        let to_blade = self.blade_side();
        let (stays, drops) = match self.lie.on_table {
            Part::Kept => ("PIECE stays", "OFFCUT drops"),
            Part::Offcut => ("OFFCUT stays", "PIECE drops"),
        };
        let here =
            |toward: Toward, text| word(lane, self.end(toward), Grows::Only(toward.other()), text);
        [here(to_blade.other(), stays), here(to_blade, drops)]
    }
}
