//! Whether a marked piece still fits what the log asks for, and what can be done
//! where it does not.
//!
//! Two honest readings differ by a quarter inch often. A piece fits while it is
//! at most the edge's clearance, or 1/8 in, too long, and at most the job's
//! tolerance too short where a cap covers its end; the metal of a valley and the
//! two ends of a piece from board to board show, so there the clearance holds both
//! ways (common practice).

use crate::domain::bench::{Asked, Done};
use crate::domain::measure::{Length, SkewLine};
use crate::domain::piece::{Marks, PieceSpec, standing};
use crate::domain::roof::EdgeKind;
use crate::domain::settings::Settings;
use crate::domain::stock::Offcut;
use crate::domain::tape::{Division, print_with_unit};

/// By how much a piece is longer than the log asks for, along nose and back; below
/// zero it is too short.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Off {
    pub nose: Length,
    pub back: Length,
}

/// How a piece fits what the log asks for.
#[derive(Clone, PartialEq, Eq, Hash, Debug)]
pub enum Fit {
    /// It is not marked yet, or it is as asked.
    AsAsked,
    /// It is off by so much, and fits.
    StillFits(Off),
    /// It does not fit, and somebody said that it stays as it is.
    Stays,
    /// It does not fit, and nobody has answered that yet. Boxed: every piece of a
    /// job has a fit, and few do not.
    Not(Box<Misfit>),
}

/// A piece that no longer fits.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub struct Misfit {
    /// By how much; `None` where the log asks for another piece altogether: of
    /// another hand or kind, of another height, or for none.
    pub off: Option<Off>,
    pub remedy: Remedy,
    /// What the log asks for, for an answer that holds for it.
    pub asked: Asked,
}

/// What can be done with a piece that no longer fits.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Remedy {
    /// It is only marked: cross the marks out and mark again.
    MarkAgain,
    /// It is cut and not bent, and the piece that is asked for lies within it.
    FromItself,
    /// It is cut and not bent: the bend line moves so far out along nose and back,
    /// and the leg that is left is this long along the edge at its least.
    BendAnew {
        bend: SkewLine,
        nose: Length,
        back: Length,
        leg: Length,
    },
    /// It is bent, or too small: make it again.
    MakeAgain,
}

/// Under this a tape shows no difference: 1/32 in.
const NOTHING: Length = Length::from_64ths(2);

/// The least that a piece may be too long: 1/8 in.
const LEAST_LONG: Length = Length::from_64ths(8);

impl Fit {
    /// How the piece of `done` fits `planned`, which the log asks for now; the
    /// corrections said `since` it was marked are no misfit.
    pub(super) fn of(
        done: &Done,
        planned: Option<&PieceSpec>,
        since: Length,
        settings: &Settings,
    ) -> Self {
        let spec = &done.spec;
        if planned == Some(spec) && since == Length::ZERO {
            return Self::AsAsked;
        }
        let alike = planned.filter(|planned| is_of_its_sort(planned, spec, settings));
        let Some(planned) = alike else {
            return Self::answered(done, None, planned, settings);
        };
        // What was marked before a correction is held against the log without it.
        let asked = PieceSpec {
            bend: planned.bend.moved(-since),
            ..*planned
        };
        if has_no_line(spec) && has_no_line(&asked) {
            return Self::AsAsked;
        }
        let off = Off::of(spec, &asked);
        if off.most().abs() < NOTHING && off.least().abs() < NOTHING {
            Self::AsAsked
        } else if off.still_fits(spec, settings) {
            Self::StillFits(off)
        } else {
            Self::answered(done, Some(off), Some(&asked), settings)
        }
    }

    fn answered(
        done: &Done,
        off: Option<Off>,
        planned: Option<&PieceSpec>,
        settings: &Settings,
    ) -> Self {
        let lines = off.and(planned).map(|planned| Asked::Lines {
            bend: planned.bend,
            near: planned.near.map(|near| near.bend),
        });
        let asked = lines.unwrap_or(Asked::Otherwise);
        if done.stays == Some(asked) {
            return Self::Stays;
        }
        Self::Not(Box::new(Misfit {
            off,
            remedy: Remedy::of(done, planned.filter(|_| off.is_some()), settings),
            asked,
        }))
    }

    /// The misfit, while nobody has answered it.
    pub fn misfit(&self) -> Option<&Misfit> {
        match self {
            Self::Not(misfit) => Some(misfit),
            _ => None,
        }
    }
}

/// Whether they differ by their lines alone.
fn is_of_its_sort(planned: &PieceSpec, spec: &PieceSpec, settings: &Settings) -> bool {
    let edges = |spec: &PieceSpec| spec.near.map(|near| near.edges);
    let is_cut_across = planned.across.is_some() || spec.across.is_some();
    let higher = (planned.bend.rise - spec.bend.rise).abs();
    planned.hand == spec.hand
        && planned.kind == spec.kind
        && edges(planned) == edges(spec)
        && !(is_cut_across && higher > settings.tolerance)
}

/// A full panel: how far beyond it the edge runs is nothing to it.
fn has_no_line(spec: &PieceSpec) -> bool {
    let marks = Marks::of(spec);
    spec.near.is_none() && marks.bend.is_none() && marks.cut.is_none()
}

impl Off {
    fn of(spec: &PieceSpec, asked: &PieceSpec) -> Self {
        let back = spec.panel.height;
        let at = |y: Length| {
            let far = spec.bend.x(y) - asked.bend.x(y);
            let near = match (spec.near, asked.near) {
                (Some(then), Some(now)) => now.bend.x(y) - then.bend.x(y),
                _ => Length::ZERO,
            };
            // Each end stands at its own board.
            if near.abs() > far.abs() { near } else { far }
        };
        Self {
            nose: at(Length::ZERO),
            back: at(back),
        }
    }

    fn most(&self) -> Length {
        self.nose.max(self.back)
    }

    fn least(&self) -> Length {
        self.nose.min(self.back)
    }

    fn still_fits(&self, spec: &PieceSpec, settings: &Settings) -> bool {
        let long = settings.kind(spec.kind).clearance.max(LEAST_LONG);
        let is_capped = spec.kind != EdgeKind::Valley && spec.near.is_none();
        let short = if is_capped {
            settings.tolerance.max(long)
        } else {
            long
        };
        self.most() <= long && self.least() >= -short
    }

    /// `1/2 in short at the back`, `1/4 in long at the nose, 1/2 in at the back`.
    pub fn words(&self, division: Division) -> String {
        self.said(["long", "short"], division)
    }

    /// What has become of the gap: `gap 1/2 in wider at the back`.
    pub fn gap_words(&self, division: Division) -> String {
        format!("gap {}", self.said(["narrower", "wider"], division))
    }

    /// The same with a word for a piece that is too long and one for too short.
    fn said(&self, [long, short]: [&str; 2], division: Division) -> String {
        let say = |off: Length| print_with_unit(off.abs(), division);
        let sense = |off: Length| if off > Length::ZERO { long } else { short };
        let (nose, back) = (self.nose, self.back);
        let is_off = |off: Length| off.abs() >= NOTHING;
        match (is_off(nose), is_off(back)) {
            (true, false) => format!("{} {} at the nose", say(nose), sense(nose)),
            (false, true) => format!("{} {} at the back", say(back), sense(back)),
            _ if say(nose) == say(back) && sense(nose) == sense(back) => {
                format!("{} {}", say(nose), sense(nose))
            }
            _ if sense(nose) == sense(back) => format!(
                "{} {} at the nose, {} at the back",
                say(nose),
                sense(nose),
                say(back)
            ),
            _ => format!(
                "{} {} at the nose, {} {} at the back",
                say(nose),
                sense(nose),
                say(back),
                sense(back)
            ),
        }
    }
}

impl Remedy {
    fn of(done: &Done, planned: Option<&PieceSpec>, settings: &Settings) -> Self {
        let spec = &done.spec;
        if done.bent || done.stacked || (done.first_cut && !done.cut) {
            return Self::MakeAgain;
        }
        if !done.cut {
            return Self::MarkAgain;
        }
        let Some(planned) = planned.filter(|_| spec.near.is_none()) else {
            return Self::MakeAgain;
        };
        let own = Offcut::own_part(spec, spec.cut());
        if own.serves(planned, settings.spare) {
            return Self::FromItself;
        }
        let room = [Length::ZERO, spec.panel.height].map(|y| spec.cut().x(y) - planned.bend.x(y));
        let [nose, back] = room;
        let leg = nose.min(back);
        let stands = standing(leg, planned.bend.lean());
        if leg > Length::ZERO && stands >= settings.least_turn_up {
            let farther = |y| planned.bend.x(y) - spec.bend.x(y);
            Self::BendAnew {
                bend: planned.bend,
                nose: farther(Length::ZERO),
                back: farther(spec.panel.height),
                leg,
            }
        } else {
            Self::MakeAgain
        }
    }

    /// What it comes to, for a key.
    pub const fn word(&self) -> &'static str {
        match self {
            Self::MarkAgain | Self::FromItself => "mark again",
            Self::BendAnew { .. } => "strike the bend line anew",
            Self::MakeAgain => "make it again",
        }
    }

    /// In words.
    pub fn words(&self, division: Division) -> String {
        let say = |length: &Length| print_with_unit(length.abs(), division);
        match self {
            Self::MarkAgain => "cross the marks out, mark again".to_owned(),
            Self::FromItself => "it can be cut from itself: mark again".to_owned(),
            Self::BendAnew {
                nose, back, leg, ..
            } => {
                let moved = |by: &Length| {
                    let way = if *by < Length::ZERO { "in" } else { "out" };
                    format!("{} farther {way}", say(by))
                };
                let (at_nose, at_back) = (moved(nose), moved(back));
                let by = if at_nose == at_back {
                    at_nose
                } else {
                    format!("{at_nose} at the nose, {at_back} at the back")
                };
                let leg = say(leg);
                format!("strike the bend line anew, {by}; the leg is {leg} along the edge then")
            }
            Self::MakeAgain => "make it again".to_owned(),
        }
    }
}

impl Misfit {
    /// `1/2 in short at the back: make it again`.
    pub fn words(&self, division: Division) -> String {
        let remedy = self.remedy.words(division);
        match self.off {
            Some(off) => format!("piece {}: {remedy}", off.words(division)),
            None => format!("the log asks for another piece, or none: {remedy}"),
        }
    }
}
