//! Which pieces of a wide course wait for a second trip to the roof, and what the
//! gap over the laid pieces makes of them.
//!
//! The cover as laid is hardly ever the cover as reckoned. Where it matters, the
//! pieces beyond the first are cut last: those before them are laid, and the gap
//! that is left over them is read like any other (common practice). A full panel
//! has nothing to mark and waits for nothing, unless somebody says so.
//!
//! ```text
//!   field |  laid  |  laid  |<- bottom, top: read on the second trip ->\ edge
//!         | piece 1| piece 2|   piece 3, from 3 on
//! ```

use crate::domain::{
    bench::Progress,
    log::{Course, End, Gap, SecondTrip, Trip},
    measure::Length,
    piece::{CourseTrouble, Marks, PieceId, PieceSpec},
    settings::{self, Settings},
    tape::{Division, print_with_unit},
};

/// On which trip a piece is laid.
#[derive(Clone, PartialEq, Eq, Hash, Debug, Default)]
pub enum OnTrip {
    /// With all others.
    #[default]
    First,
    /// On the second, and the gap over the laid pieces is not read yet.
    Waits,
    /// On the second, cut to that gap; and what is to be doubted of it. Boxed: few
    /// are.
    Read(Option<Box<OffCover>>),
}

/// The gap over the laid pieces is another than the cover lets expect.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct OffCover {
    /// Where it is off the most.
    pub end: End,
    /// As it was read; below zero where the line runs out before that end.
    pub read: Length,
    /// As it would be by the cover.
    pub cover: Length,
}

impl OffCover {
    /// `gap over the laid pieces read 12 1/2 in at the bottom, by the cover 13 in`.
    pub fn words(&self, division: Division) -> String {
        let say = |length| print_with_unit(length, division);
        let (read, end, cover) = (say(self.read), self.end.word(), say(self.cover));
        format!("the gap over the laid pieces is read {read} at the {end}, by the cover {cover}")
    }
}

/// A piece as it is asked for, and on which trip it is laid.
pub(super) type Asked = (PieceSpec, OnTrip);

/// From which piece on the course is cut for a second trip, given its pieces on
/// the cover; with the gap read over those before it, where it was.
fn second_trip(
    course: &Course,
    on_cover: &[PieceSpec],
    settings: &Settings,
    progress: &Progress,
    id: impl Fn(u32) -> PieceId,
) -> Option<SecondTrip> {
    let from = match (course.trip, settings.second_trip) {
        (Some(Trip::First), _) | (None, settings::SecondTrip::No) => return None,
        (Some(Trip::Second(second)), _) if second.is_read() => return Some(second),
        (Some(Trip::Second(second)), _) => second.from,
        (None, settings::SecondTrip::Yes) => first_to_mark(on_cover),
    };
    // What is marked already is laid on the first.
    let marked = (from..).zip(on_cover.iter().skip(place(from)));
    let marked = marked.filter(|(number, _)| progress.done(id(*number)).is_some());
    let from = marked.last().map_or(from, |(number, _)| number + 1);
    Some(SecondTrip::waiting(from))
}

/// The first piece beyond the first that is no full panel.
fn first_to_mark(on_cover: &[PieceSpec]) -> u32 {
    let is_full = |spec: &PieceSpec| {
        let marks = Marks::of(spec);
        marks.bend.is_none() && marks.cut.is_none()
    };
    let mut beyond = (2..).zip(on_cover.iter().skip(1));
    let first = beyond.find(|(_, spec)| !is_full(spec));
    first.map_or(u32::MAX, |(number, _)| number)
}

/// The place of piece `number` in its course, from 0.
fn place(number: u32) -> usize {
    usize::try_from(number.saturating_sub(1)).unwrap_or(usize::MAX)
}

/// The pieces of a course with their trips: those `on_cover` but where the gap
/// over the laid ones was read, which `of_gap` parts like the course's own; and
/// why that cannot be cut.
pub(super) fn on_trips(
    course: &Course,
    on_cover: Vec<PieceSpec>,
    settings: &Settings,
    progress: &Progress,
    id: impl Fn(u32) -> PieceId,
    of_gap: impl Fn(Gap) -> Result<Vec<PieceSpec>, CourseTrouble>,
) -> (Vec<Asked>, Option<CourseTrouble>) {
    let second = second_trip(course, &on_cover, settings, progress, id);
    // Where the course was read anew and has become narrower, nothing waits.
    let Some(second) = second.filter(|second| place(second.from) < on_cover.len()) else {
        let all = on_cover.into_iter().map(|spec| (spec, OnTrip::First));
        return (all.collect(), None);
    };
    let from = place(second.from);
    let first = on_cover.iter().take(from);
    let mut asked: Vec<Asked> = first.map(|spec| (*spec, OnTrip::First)).collect();
    if !second.is_read() {
        let waits = on_cover.into_iter().skip(from);
        asked.extend(waits.map(|spec| (spec, OnTrip::Waits)));
        return (asked, None);
    }
    let height = course.height_in(settings.exposure);
    let off = off_cover(course, &second, height, settings).map(Box::new);
    let cut = match second.gap(height) {
        Some(gap) => of_gap(gap),
        None => Err(CourseTrouble::RunsOutNowhere),
    };
    let (cut, why) = match cut {
        Ok(cut) => (cut, None),
        // The laid pieces fill the course: no more is asked for.
        Err(CourseTrouble::NothingToCut) => (Vec::new(), None),
        Err(why) => (Vec::new(), Some(why)),
    };
    asked.extend(
        cut.into_iter()
            .map(|spec| (spec, OnTrip::Read(off.clone()))),
    );
    (asked, why)
}

/// What is to be doubted of the gap read over the laid pieces: by the cover it
/// would be `b - k C`, `t - k C`, with `k` pieces laid.
fn off_cover(
    course: &Course,
    second: &SecondTrip,
    height: Length,
    settings: &Settings,
) -> Option<OffCover> {
    let (read, whole) = (second.gap(height)?, course.gap(height)?);
    let laid = i64::from(second.from.saturating_sub(1));
    let cover = Length::from_nm(settings.cover().nm().saturating_mul(laid));
    let ends = [
        (End::Bottom, read.bottom, whole.bottom - cover),
        (End::Top, read.top, whole.top - cover),
    ];
    let off = ends.map(|(end, read, cover)| OffCover { end, read, cover });
    let by = |off: &OffCover| (off.read - off.cover).abs();
    let worst = off.into_iter().max_by_key(by);
    worst.filter(|off| by(off) > settings.tolerance)
}
