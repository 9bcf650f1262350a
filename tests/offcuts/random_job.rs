//! Random jobs on a coarse grid, so that parts either touch or overlap by much
//! more than any rounding outside the project.

use crate::split_mix::SplitMix;
use bendmark::domain::{
    log::{CourseNumber, EdgeId},
    measure::{Hand, Length, Name, SkewLine},
    piece::{Panel, PieceId, PieceSpec},
    roof::EdgeKind,
    stock::{LeftToCut, Offcut, OffcutNumber, RackOffcut},
};

/// A small seeded generator, so that every run is the same.
pub(crate) struct Random(SplitMix);

impl Random {
    pub(crate) fn new(seed: u64) -> Self {
        Self(SplitMix::at(seed.wrapping_mul(0x9E37_79B9_7F4A_7C15)))
    }

    /// In `from..to`.
    pub(crate) fn within(&mut self, from: i64, to: i64) -> i64 {
        let span = u64::try_from(to - from).unwrap();
        from + i64::try_from(self.0.next() % span).unwrap()
    }

    pub(crate) fn below(&mut self, count: usize) -> usize {
        usize::try_from(self.0.next() % u64::try_from(count).unwrap()).unwrap()
    }

    pub(crate) fn one_in(&mut self, count: usize) -> bool {
        self.below(count) == 0
    }

    pub(crate) fn hand(&mut self) -> Hand {
        Hand::BOTH[self.below(2)]
    }
}

/// A quarter of an inch, the grid all figures lie on.
pub(crate) fn quarters(count: i64) -> Length {
    Length::from_64ths(16 * count)
}

#[derive(Clone)]
pub(crate) struct RandomJob {
    pub(crate) left: Vec<LeftToCut>,
    pub(crate) rack: Vec<RackOffcut>,
    pub(crate) spare: Length,
    /// What the job is cut from, in quarters.
    pub(crate) frame: Frame,
}

/// Panel and course, in quarters.
#[derive(Clone, Copy)]
pub(crate) struct Frame {
    pub(crate) width: i64,
    pub(crate) cover: i64,
    pub(crate) exposure: i64,
    pub(crate) height: i64,
    /// What a short course keeps beyond its height.
    pub(crate) ridge: i64,
}

impl Frame {
    fn random(random: &mut Random) -> Self {
        let width = [176, 192, 200][random.below(3)];
        let exposure = [48, 56, 60][random.below(3)];
        Self {
            width,
            cover: width - 8,
            exposure,
            height: exposure + [0, 0, 0, 4, 6][random.below(5)],
            ridge: [0, 4, 8, 12][random.below(4)],
        }
    }

    /// How high the panel of a course `short` high is marked, and where it is cut
    /// across, if it is.
    fn of_short(&self, short: i64) -> (i64, Option<i64>) {
        match short + self.ridge {
            across if across < self.height => (short, Some(across)),
            _ => (self.height, None),
        }
    }

    pub(crate) fn panel(&self) -> Panel {
        Panel {
            width: quarters(self.width),
            height: quarters(self.height),
        }
    }
}

/// One edge of a random roof.
struct RandomEdge {
    id: u32,
    kind: EdgeKind,
    hand: Hand,
    lot: Option<Name>,
    /// How much narrower a full course is at its top, in quarters.
    step: i64,
    courses: usize,
}

impl RandomEdge {
    fn random(id: u32, frame: &Frame, random: &mut Random) -> Self {
        let kind = [
            EdgeKind::Hip,
            EdgeKind::Hip,
            EdgeKind::Hip,
            EdgeKind::Valley,
            EdgeKind::Rake,
        ][random.below(5)];
        // Leans of hips between roofs of 3 in 12 and 18 in 12, unequal slopes
        // and corners of 135 degrees among them; a valley widens going up.
        let step = match kind {
            EdgeKind::Hip => random.within(-frame.exposure / 4, frame.exposure * 3 / 2),
            EdgeKind::Valley => -random.within(frame.exposure / 3, frame.exposure * 5 / 4),
            EdgeKind::Rake => 0,
        };
        Self {
            id,
            kind,
            hand: random.hand(),
            lot: [None, None, None, Name::new("A").ok(), Name::new("B").ok()][random.below(5)]
                .clone(),
            step,
            courses: 3 + random.below(26),
        }
    }

    /// The pieces of all courses, from the eave up, by the rule for wide gaps.
    fn pieces(&self, frame: &Frame, random: &mut Random) -> Vec<LeftToCut> {
        let mut pieces = Vec::new();
        for course in 1..=self.courses {
            // At the ridge, or under something that ends the rows.
            let short = random.one_in(if course == self.courses { 3 } else { 15 });
            let rise = if short {
                [24, 32, 40, frame.exposure - 4][random.below(4)]
            } else {
                frame.exposure
            };
            let wide = if random.one_in(4) { frame.cover } else { 0 };
            let step = self.step * rise / frame.exposure + random.within(-1, 2);
            let bottom = random.within(4, frame.width) + wide - step.min(0) / 2;
            let cut_down = if short {
                frame.of_short(rise)
            } else {
                (frame.height, None)
            };
            let number = u32::try_from(course).unwrap();
            self.course(
                number,
                (bottom, bottom - step),
                (rise, cut_down),
                frame,
                &mut pieces,
            );
        }
        pieces
    }

    fn course(
        &self,
        course: u32,
        (mut bottom, mut top): (i64, i64),
        (rise, (height, across)): (i64, (i64, Option<i64>)),
        frame: &Frame,
        pieces: &mut Vec<LeftToCut>,
    ) {
        for number in 1.. {
            let last = bottom.max(top) <= frame.width;
            let spec = PieceSpec {
                kind: self.kind,
                hand: self.hand,
                bend: SkewLine {
                    at_nose: quarters(bottom),
                    at_rise: quarters(top),
                    rise: quarters(rise),
                },
                allowance: quarters(8),
                panel: Panel {
                    width: quarters(frame.width),
                    height: quarters(height),
                },
                across: across.map(quarters),
                near: None,
            };
            let cut = spec.cut();
            if cut.at_nose.max(cut.x(spec.panel.height)) > Length::ZERO {
                let id = PieceId {
                    edge: EdgeId(self.id),
                    course: CourseNumber::new(course).unwrap(),
                    number,
                };
                pieces.push(LeftToCut {
                    id,
                    spec,
                    lot: self.lot.clone(),
                });
            }
            if last {
                return;
            }
            bottom -= frame.cover;
            top -= frame.cover;
        }
    }
}

/// What a piece takes of a panel's height: that of a short course is cut across.
pub(crate) fn blank(spec: &PieceSpec) -> Panel {
    Panel {
        height: spec.across.unwrap_or(spec.panel.height),
        ..spec.panel
    }
}

/// A roof of hips, valleys and rakes with at most `most` pieces.
pub(crate) fn random_job(seed: u64, most: usize) -> RandomJob {
    let mut random = Random::new(seed);
    let edges = 4 + random.below(12);
    random_roof(random, edges, most)
}

/// A roof of so many edges.
pub(crate) fn random_roof(mut random: Random, edges: usize, most: usize) -> RandomJob {
    let frame = Frame::random(&mut random);
    let mut left = Vec::new();
    for id in 0..edges {
        let edge = RandomEdge::random(u32::try_from(id).unwrap(), &frame, &mut random);
        let mut pieces = edge.pieces(&frame, &mut random);
        pieces.reverse();
        left.extend(pieces);
    }
    left.truncate(most);
    let count = if random.one_in(2) {
        0
    } else {
        random.below(1 + left.len() / 6)
    };
    let rack = (1..)
        .zip(0..count)
        .map(|(number, _)| rack_offcut(number, &left, &frame, &mut random));
    RandomJob {
        rack: rack.collect(),
        spare: quarters([0, 0, 0, 1, 2][random.below(5)]),
        left,
        frame,
    }
}

/// What some piece left, a spoiled piece's own part, or one found on site.
pub(crate) fn rack_offcut(
    number: u32,
    like: &[LeftToCut],
    frame: &Frame,
    random: &mut Random,
) -> RackOffcut {
    let piece = &like[random.below(like.len())];
    let narrower = quarters(random.within(0, 60));
    let offcut = match random.below(3) {
        0 => Offcut::left_by(&piece.spec),
        1 => Some(Offcut::own_part(
            &piece.spec,
            piece.spec.bend.moved(-narrower),
        )),
        _ => None,
    };
    let found = |random: &mut Random| {
        let width = random.within(10, frame.width);
        let skew = random.within(-40, 41);
        let panel = match random.below(6) {
            0 | 1 => frame.panel(),
            // Of a panel that no full course here is made of.
            2 => Panel {
                height: quarters(frame.height + 4),
                ..frame.panel()
            },
            _ => blank(&piece.spec),
        };
        Offcut::found(
            random.hand(),
            panel,
            quarters(width),
            quarters((width + skew).clamp(0, frame.width)),
        )
    };
    RackOffcut {
        number: OffcutNumber(number),
        offcut: offcut.unwrap_or_else(|| found(random)),
        lot: piece.lot.clone(),
        promise: None,
    }
}
