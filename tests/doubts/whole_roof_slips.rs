//! What goes wrong when a plane is read and written down, and where it must then
//! be pointed out.
//!
//! Figures are parts of an inch as in `whole_roof_plane`.

use crate::maker::Chance;
use crate::whole_roof_kinds::Slip;
use crate::whole_roof_plane::{LAP, PARTS, Plane, Side};
use bendmark::domain::roof::EdgeKind;

/// A single reading counts as slipped from 1/2 in.
const LEAST: i64 = PARTS / 2;
const FOOT: i64 = 12 * PARTS;

/// Bottom and top of a course; none where a reading was left out.
pub(crate) type Pair = [Option<i64>; 2];

/// What was written of one end of the plane.
#[derive(Clone, Debug)]
pub(crate) struct Written {
    pub(crate) kind: EdgeKind,
    /// This side's rise in 12, and the neighbour's.
    pub(crate) slopes: [i64; 2],
    pub(crate) courses: Vec<Pair>,
}

/// Where a doubt must point. Courses from 0 at the eave.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Place {
    /// At one of these.
    Courses { from: usize, to: usize },
    /// There or anywhere above, or at the edge.
    Above(usize),
    /// At one of these, or at the edge.
    CoursesOrEdge { from: usize, to: usize },
    /// At the edge as a whole.
    Edge,
}

impl Place {
    fn course(at: usize) -> Self {
        Self::Courses { from: at, to: at }
    }
}

/// The keys beside each digit on a block of 789, 456, 123, 0.
const KEYS: [&[i64]; 10] = [
    &[1, 2],
    &[0, 2, 4],
    &[0, 1, 3, 5],
    &[2, 6],
    &[1, 5, 7],
    &[2, 4, 6, 8],
    &[3, 5, 9],
    &[4, 8],
    &[5, 7, 9],
    &[6, 8],
];

fn one_of<T: Copy>(all: &[T], chance: &mut Chance) -> T {
    let last = i64::try_from(all.len()).unwrap() - 1;
    all[usize::try_from(chance.whole(0, last)).unwrap()]
}

/// Any place in `from..to`; none where there is none.
fn any_in(from: usize, to: usize, chance: &mut Chance) -> Option<usize> {
    let all: Vec<usize> = (from..to).collect();
    (!all.is_empty()).then(|| one_of(&all, chance))
}

/// `of` made of the digits of the whole inches; the fraction stays.
fn with_digits(figure: i64, of: impl FnOnce(&mut Vec<i64>)) -> i64 {
    let (whole, part) = (figure / PARTS, figure % PARTS);
    let mut digits = if whole >= 10 {
        vec![whole / 10, whole % 10]
    } else {
        vec![whole]
    };
    of(&mut digits);
    digits.iter().fold(0, |whole, digit| whole * 10 + digit) * PARTS + part
}

impl Slip {
    /// A single reading as it is then written; none where it cannot happen.
    fn figure(self, right: i64, chance: &mut Chance) -> Option<i64> {
        let (whole, part) = (right / PARTS, right % PARTS);
        let either = if chance.coin() { 1 } else { -1 };
        let wrong = match self {
            Self::InchBurned => right + PARTS,
            Self::FootDropped => right - FOOT,
            Self::FootAdded => right + FOOT,
            Self::TenOff => right + either * 10 * PARTS,
            Self::DigitsExchanged if whole < 10 || whole % 10 == 0 => return None,
            Self::DigitsExchanged => with_digits(right, |digits| digits.reverse()),
            Self::WrongSide if part == 0 => return None,
            Self::WrongSide => whole * PARTS + PARTS - part,
            Self::AdjacentKey => with_digits(right, |digits| {
                let at = any_in(0, digits.len(), chance).unwrap();
                digits[at] = one_of(KEYS[usize::try_from(digits[at]).unwrap()], chance);
            }),
            // To a tenth of a centimetre.
            Self::Centimetres => (right * 254 + 400) / 800 * (PARTS / 10),
            Self::DigitLeftOut if whole < 10 => return None,
            Self::DigitLeftOut => with_digits(right, |digits| {
                digits.remove(any_in(0, 2, chance).unwrap());
            }),
            Self::DigitTwice => with_digits(right, |digits| {
                let at = any_in(0, digits.len(), chance).unwrap();
                digits.insert(at, digits[at]);
            }),
            Self::FractionLeftOut => whole * PARTS,
            Self::OneToPanelEdge => (right - LAP).max(0),
            _ => return None,
        };
        (wrong >= 0 && (wrong - right).abs() >= LEAST).then_some(wrong)
    }

    /// How much both readings of a course are off.
    fn both(self, plane: &Plane, chance: &mut Chance) -> Option<i64> {
        let either = if chance.coin() { 1 } else { -1 };
        Some(match self {
            Self::BothToPanelEdge | Self::BothTwoShort => -LAP,
            Self::BothFootShort => -FOOT,
            Self::BothFootLong => FOOT,
            // Read to the lap line of the last panel but one.
            Self::BothPanelLong => plane.roof.panel - LAP,
            Self::BothInchOff => either * PARTS,
            Self::BothTenOff => either * 10 * PARTS,
            _ => return None,
        })
    }

    /// Slips at the end `at` of the plane, and says where that must be pointed
    /// out; none where it cannot happen, or would change too little.
    pub(crate) fn happens(
        self,
        plane: &Plane,
        ends: &mut [Written; 2],
        at: usize,
        chance: &mut Chance,
    ) -> Option<Place> {
        let to_lap_line = !plane.sides[at].to_panel_edge;
        let leans = plane.sides[at].kind != EdgeKind::Rake;
        let may = match self {
            Self::OneToPanelEdge
            | Self::BothToPanelEdge
            | Self::PanelEdgeFrom
            | Self::PanelEdgeAll => to_lap_line,
            Self::Swapped
            | Self::ColumnsSwapped
            | Self::WrongKind
            | Self::HipForRake
            | Self::FromRidgeAll => leans,
            _ => true,
        };
        if !may {
            return None;
        }
        let count = ends[at].courses.len();
        let course = any_in(0, count, chance)?;
        if let Some(by) = self.both(plane, chance) {
            let (least, pair) = (LEAST, &mut ends[at].courses[course]);
            return moved(pair, by, least).then_some(Place::course(course));
        }
        if let Some(place) = self.of_plane(&plane.sides, ends, at, course) {
            return place;
        }
        let courses = &mut ends[at].courses;
        let place = self.of_pairs(courses, course, chance);
        if let Some(place) = place.or_else(|| self.of_later(courses, course, chance)) {
            return place;
        }
        if self.of_edge(&mut ends[at]) {
            return Some(Place::Edge);
        }
        let end = usize::from(chance.coin());
        let figure = &mut ends[at].courses[course][end];
        *figure = Some(self.figure((*figure)?, chance)?);
        Some(Place::course(course))
    }

    /// What concerns both ends, or the roof.
    fn of_plane(
        self,
        sides: &[Side; 2],
        ends: &mut [Written; 2],
        at: usize,
        course: usize,
    ) -> Option<Option<Place>> {
        let differ = (sides[0].step - sides[1].step).abs() >= 0.75;
        let [one, two] = ends;
        Some(match self {
            Self::EndsExchanged => {
                std::mem::swap(&mut one.courses[course], &mut two.courses[course]);
                let far = apart(one.courses[course], two.courses[course]);
                far.then_some(Place::course(course))
            }
            Self::SidesExchanged => {
                std::mem::swap(&mut one.courses, &mut two.courses);
                differ.then_some(Place::Edge)
            }
            Self::SlopesExchanged => {
                let slopes = &mut ends[at].slopes;
                slopes.reverse();
                let leans = sides[at].kind != EdgeKind::Rake;
                (leans && slopes[0] != slopes[1]).then_some(Place::Edge)
            }
            Self::SlopeWrong => {
                let slope = &mut ends[at].slopes[0];
                *slope += if *slope > 7 { -3 } else { 3 };
                (sides[at].kind != EdgeKind::Rake).then_some(Place::Edge)
            }
            _ => return None,
        })
    }

    /// What concerns both readings of a course, or two courses.
    fn of_pairs(
        self,
        courses: &mut [Pair],
        at: usize,
        chance: &mut Chance,
    ) -> Option<Option<Place>> {
        let count = courses.len();
        Some(match self {
            Self::Swapped => {
                courses[at].reverse();
                let [bottom, top] = courses[at];
                let far = bottom.zip(top).is_some_and(|(b, t)| (b - t).abs() >= LEAST);
                far.then_some(Place::course(at))
            }
            Self::OnePlacement | Self::OneLineUp | Self::Exchanged if at + 1 == count => None,
            Self::OneLineUp => {
                let far = apart_by(courses[at][1], courses[at + 1][1]);
                courses[at][1] = courses[at + 1][1];
                far.then_some(Place::course(at))
            }
            Self::OnePlacement => {
                let by = PARTS / 16 * chance.whole(8, 192) * if chance.coin() { 1 } else { -1 };
                let (top, bottom) = (courses[at][1]? + by, courses[at + 1][0]? + by);
                courses[at][1] = Some(top);
                courses[at + 1][0] = Some(bottom);
                let is_one = top >= 0 && bottom >= 0;
                is_one.then_some(Place::Courses {
                    from: at,
                    to: at + 1,
                })
            }
            Self::Exchanged => {
                courses.swap(at, at + 1);
                let far = apart(courses[at], courses[at + 1]);
                far.then_some(Place::Courses {
                    from: at,
                    to: at + 1,
                })
            }
            _ => return None,
        })
    }

    /// What moves all later courses or readings.
    fn of_later(
        self,
        courses: &mut Vec<Pair>,
        at: usize,
        chance: &mut Chance,
    ) -> Option<Option<Place>> {
        let count = courses.len();
        Some(match self {
            Self::Skipped if at == 0 || at + 1 == count => None,
            Self::Skipped => {
                courses.remove(at);
                let (from, to) = (at - 1, at + 1);
                Some(Place::CoursesOrEdge { from, to })
            }
            Self::CourseTwice => {
                courses.insert(at, courses[at]);
                let (from, to) = (at, at + 1);
                Some(Place::CoursesOrEdge { from, to })
            }
            Self::LeftOut | Self::WrittenTwice => {
                let mut row: Vec<Option<i64>> = courses.concat();
                // The last one moves no other.
                let at = any_in(0, row.len() - 1, chance)?;
                if self == Self::LeftOut {
                    row.remove(at);
                } else {
                    row.insert(at, row[at]);
                }
                let pairs = row
                    .chunks(2)
                    .map(|pair| [pair[0], pair.get(1).copied().flatten()]);
                *courses = pairs.collect();
                Some(Place::Above((at / 2).saturating_sub(1)))
            }
            Self::PanelEdgeFrom => {
                let from = any_in(2, count - 2, chance)?;
                for pair in &mut courses[from..] {
                    moved(pair, -LAP, 0);
                }
                Some(Place::Above(from - 1))
            }
            _ => return None,
        })
    }

    /// What is wrong with a whole edge; false for another slip.
    fn of_edge(self, end: &mut Written) -> bool {
        match self {
            Self::ColumnsSwapped => end.courses.iter_mut().for_each(|pair| pair.reverse()),
            Self::FromRidge => end.courses.reverse(),
            Self::FromRidgeAll => {
                end.courses.reverse();
                end.courses.iter_mut().for_each(|pair| pair.reverse());
            }
            Self::WrongKind if end.kind == EdgeKind::Hip => end.kind = EdgeKind::Valley,
            Self::WrongKind => end.kind = EdgeKind::Hip,
            Self::HipForRake => end.kind = EdgeKind::Rake,
            Self::OtherUnit => {
                let figures = end.courses.iter_mut().flatten().flatten();
                // Whole millimetres.
                figures.for_each(|figure| *figure = (*figure * 254 + 400) / 800 * PARTS);
            }
            Self::PanelEdgeAll => {
                for pair in &mut end.courses {
                    moved(pair, -LAP, 0);
                }
            }
            _ => return false,
        }
        true
    }
}

/// Both readings longer by as much; whether both are still readings and at
/// least `least` off. A tape shows nothing below zero.
fn moved(pair: &mut Pair, by: i64, least: i64) -> bool {
    let before = *pair;
    let may = before
        .iter()
        .flatten()
        .all(|figure| figure + by >= -PARTS / 2);
    *pair = before.map(|figure| figure.map(|figure| (figure + by).max(0)));
    may && by.abs() >= least
}

fn apart_by(one: Option<i64>, other: Option<i64>) -> bool {
    let both = one.zip(other);
    both.is_some_and(|(one, other)| (one - other).abs() >= LEAST)
}

fn apart(one: Pair, other: Pair) -> bool {
    apart_by(one[0], other[0]) || apart_by(one[1], other[1])
}
