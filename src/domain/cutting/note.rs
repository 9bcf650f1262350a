//! What is out of the ordinary about one piece, for log, bench and sheet.
//!
//! A note follows from the piece's own figures, its place in the course and the
//! job's exposure and sliver; that the log gives other figures now comes from
//! the cutting list. A piece with two plain marks on nose and back has none. It
//! says nothing about whether a reading is to be doubted.
//!
//! Over 400 lines: more than half are the checks beside the rules.

use super::cut_piece::CutPiece;
use super::fit::{Fit, Misfit, Off};
use super::second_trip::{OffCover, OnTrip};
use crate::domain::{
    measure::Length,
    piece::{At, Marks, PieceSpec, Taper, room},
    roof::EdgeKind,
    settings::Settings,
    stock::Offcut,
    tape::{Division, print_with_unit},
};

/// One thing to know about a piece before it is marked.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum Note {
    /// A short course: what it is cut from is cut across first, so far up from the
    /// nose.
    Across {
        what: CutAcross,
        up: Length,
        /// The upper marks stand here, where the ridge's leg bends; lower
        /// than the edge that the first cut makes, if the ridge has a leg.
        marks_at: Length,
    },
    /// A short course whose panel is not cut across: so much of it, above the
    /// course's height, bends up at the ridge.
    WholeAtRidge(Length),
    /// Not the last piece of its course, and the bend line misses it.
    FullPanel,
    /// Not the last piece of its course; the bend line crosses it, the cut
    /// line does not: the corner is bent and nothing is cut.
    BentCorner,
    /// The last piece of its course, with nothing to cut off: the panel ends
    /// at the cut line or before it.
    NoCut {
        /// How high the leg stands at the nose, square to the bend line.
        nose: Length,
        /// How high it stands at the back.
        back: Length,
    },
    /// The last piece of its course; the cut line runs out through the far
    /// side, and the leg gets lower from there on.
    Taper(Taper),
    /// Cut at both ends; from bend line to bend line, for a check with one tape.
    BothEnds {
        nose: Length,
        /// At the upper marks; below zero where the lines cross under them.
        back: Length,
    },
    /// Cut at both ends; the bend lines meet so far up: what is above is nipped
    /// off last.
    Tip(Length),
    /// Cut at both ends; from so far up the flat between its bends is too narrow
    /// for the bender.
    BendByHand(Length),
    /// Cut at both ends; the near cut line runs out through the tape's side.
    NearTaper(Taper),
    /// The bend line misses a piece that is cut: all of it is leg.
    NoBend,
    /// Three-cornered; the cut line runs out through the hand side, so far up
    /// from the nose.
    Triangle(Length),
    /// The widest finished width, and that is narrower than the job's sliver.
    Sliver(Length),
    /// It was marked to other figures, and fits all the same.
    StillFits(Off),
    /// It no longer fits, and nobody has answered that yet.
    NoLongerFits(Misfit),
    /// It does not fit, and was left as it is.
    LeftAsItIs,
    /// It waits until the pieces before it are laid and the gap over them is read.
    SecondTrip,
    /// It is cut to the gap as it was read over the laid pieces.
    OverLaid,
    /// That gap is not what the cover lets expect.
    OffCover(OffCover),
}

/// What is cut across for a piece of a short course.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug)]
pub enum CutAcross {
    Panel,
    /// An offcut that is higher than the piece.
    Offcut,
    /// Nothing any more: the offcut's panel was cut across so low before.
    Nothing,
}

/// Everything out of the ordinary about a piece of the cutting list, and
/// whether the log still gives its figures.
pub fn notes_of(piece: &CutPiece, marks: &Marks, settings: &Settings) -> Vec<Note> {
    let mut notes = notes_with(&piece.spec, piece.stock.offcut(), marks, settings);
    let fit = match &piece.fit {
        Fit::AsAsked => None,
        Fit::StillFits(off) => Some(Note::StillFits(*off)),
        Fit::Stays => Some(Note::LeftAsItIs),
        Fit::Not(misfit) => Some(Note::NoLongerFits(**misfit)),
    };
    notes.splice(0..0, fit);
    match &piece.trip {
        OnTrip::First => {}
        OnTrip::Waits => notes.push(Note::SecondTrip),
        OnTrip::Read(off) => {
            notes.push(Note::OverLaid);
            notes.extend(off.as_deref().map(|off| Note::OffCover(*off)));
        }
    }
    notes
}

/// Everything out of the ordinary about a piece with the figures `spec`,
/// from a new panel or from `offcut`, in the order it matters at the bench.
fn notes_with(
    spec: &PieceSpec,
    offcut: Option<&Offcut>,
    marks: &Marks,
    settings: &Settings,
) -> Vec<Note> {
    let across = spec.across.map(|up| Note::Across {
        what: match offcut {
            None => CutAcross::Panel,
            Some(offcut) if offcut.is_cut_across_for(spec) => CutAcross::Offcut,
            Some(_) => CutAcross::Nothing,
        },
        up,
        marks_at: spec.panel.height,
    });
    let widest = match spec.near {
        None => widest(spec),
        Some(_) => spec
            .bend_to_bend(Length::ZERO)
            .max(spec.bend_to_bend(spec.bend.rise)),
    };
    let sliver = (widest < settings.sliver()).then_some(Note::Sliver(widest));
    let no_bend = marks.bend.is_none() && widest <= Length::ZERO;
    across
        .or_else(|| whole_at_ridge(spec, settings))
        .into_iter()
        .chain(both_ends(spec, marks, settings))
        .chain(line_note(spec, marks))
        .chain(no_bend.then_some(Note::NoBend))
        .chain(triangle(marks))
        .chain(sliver)
        .collect()
}

/// Its upper reading holds at another height than the exposure, so the course
/// is a short one; where its panel ends there, nothing bends.
fn whole_at_ridge(spec: &PieceSpec, settings: &Settings) -> Option<Note> {
    let above = spec.panel.height - spec.bend.rise;
    let short = spec.bend.rise != settings.exposure;
    (short && above > Length::ZERO).then_some(Note::WholeAtRidge(above))
}

fn widest(spec: &PieceSpec) -> Length {
    spec.bend.at_nose.max(spec.bend.at_rise)
}

/// From how far up it is narrower between its bends than the job's least flat.
fn by_hand(spec: &PieceSpec, settings: &Settings) -> Option<Length> {
    let least = settings.least_flat?;
    let (below, above) = (
        spec.bend_to_bend(Length::ZERO),
        spec.bend_to_bend(spec.bend.rise),
    );
    if below < least {
        return Some(Length::ZERO);
    }
    let up = (below - least).scaled(spec.bend.rise, below - above);
    (above < below && up < spec.tip().unwrap_or(spec.top())).then_some(up)
}

fn both_ends(spec: &PieceSpec, marks: &Marks, settings: &Settings) -> Vec<Note> {
    let Some(near) = &marks.near else {
        return Vec::new();
    };
    // The tip first: it is nowhere in the marks, and a row may be cut short.
    let mut notes = Vec::from_iter(near.tip.map(Note::Tip));
    notes.push(Note::BothEnds {
        nose: spec.bend_to_bend(Length::ZERO),
        back: spec.bend_to_bend(spec.panel.height),
    });
    notes.extend(by_hand(spec, settings).map(Note::BendByHand));
    let from_far = spec.from_far_side();
    let cut = from_far.and_then(|spec| Some((spec, Marks::of(&spec).cut?)));
    let taper = cut
        .filter(|_| near.cut.is_some())
        .and_then(|(spec, cut)| Taper::of(&spec, cut));
    notes.extend(taper.map(Note::NearTaper));
    notes
}

/// What the two lines do at the far side.
fn line_note(spec: &PieceSpec, marks: &Marks) -> Option<Note> {
    // Another piece of the same course is laid beyond this one: its bend line
    // does not stay within the panel at both course lines.
    let goes_on = spec.near.is_none() && widest(spec) > spec.panel.width;
    let leg = |up| room(spec, up).min(spec.leg());
    match (goes_on, marks.bend, marks.cut) {
        (true, None, None) => Some(Note::FullPanel),
        (true, Some(_), None) => Some(Note::BentCorner),
        (true, _, Some(_)) => None,
        (false, _, Some(cut)) => Taper::of(spec, cut).map(Note::Taper),
        (false, _, None) => Some(Note::NoCut {
            nose: leg(Length::ZERO),
            back: leg(spec.panel.height),
        }),
    }
}

fn triangle(marks: &Marks) -> Option<Note> {
    let mut cut = marks.cut?.into_iter();
    let side = cut.find(|mark| mark.at == At::HandSide)?;
    (marks.kept.corners().len() == 3).then_some(Note::Triangle(side.position))
}

impl Note {
    /// What is said first of a course.
    pub const MISFIT_SHORT: &'static str = "NO LONGER FITS";

    /// In a word or two, for a row of the log.
    pub const fn short(&self) -> &'static str {
        match self {
            Self::Across { .. } => "cut across",
            Self::WholeAtRidge(_) => "not cut across",
            Self::FullPanel => "full panel",
            Self::BentCorner => "bent corner",
            Self::NoCut { .. } => "no cut",
            Self::Taper(_) | Self::NearTaper(_) => "taper",
            Self::BothEnds { .. } => "cut at both ends",
            Self::Tip(_) => "tip off",
            Self::BendByHand(_) => "bend by hand",
            Self::NoBend => "no bend",
            Self::Triangle(_) => "triangle",
            Self::Sliver(_) => "too narrow",
            Self::StillFits(_) => "still fits",
            Self::NoLongerFits(_) => Self::MISFIT_SHORT,
            Self::LeftAsItIs => "left as it is",
            Self::SecondTrip => "waits for the second trip",
            Self::OverLaid => "second trip",
            Self::OffCover(_) => "DOUBTFUL, off the cover",
        }
    }

    /// In words for a piece cut to an edge of `kind`, lengths on the tape
    /// `division`.
    // Over 60 lines: a sentence a note.
    pub fn words(&self, kind: EdgeKind, division: Division) -> String {
        let say = |length: &Length| print_with_unit(*length, division);
        match self {
            Self::Across { what, up, marks_at } => {
                let cut = match what {
                    CutAcross::Panel => "cut the panel across first",
                    CutAcross::Offcut => "cut the offcut across first",
                    CutAcross::Nothing => "the offcut is cut across already",
                };
                let cut = format!("{cut}, {} up from the nose", say(up));
                if up == marks_at {
                    return cut;
                }
                let back = say(marks_at);
                format!("{cut}; the back marks stand {back} up, where the ridge leg bends")
            }
            Self::WholeAtRidge(above) => {
                let above = say(above);
                format!("do not cut the panel across: {above} of it bends up at the ridge")
            }
            Self::FullPanel => "full panel, no cut".to_owned(),
            Self::BentCorner => format!("no cut: bend the corner {}", kind.bend().word()),
            Self::NoCut { nose, back } => {
                let rest = format!("the leg takes the rest of the panel, {}", say(nose));
                if nose == back {
                    format!("no cut: {rest}")
                } else {
                    format!("no cut: {rest} at the nose, {} at the back", say(back))
                }
            }
            Self::Taper(taper) => taper.words(division),
            Self::BothEnds { nose, back } => {
                let (at, crossed) = (say(&back.abs()), *back < Length::ZERO);
                let back = if crossed {
                    format!("crossed by {at}")
                } else {
                    at
                };
                format!(
                    "cut at both ends: bend to bend {} at the nose, {back} at the back",
                    say(nose)
                )
            }
            Self::Tip(up) => format!("nip the tip off last, {} up from the nose", say(up)),
            Self::BendByHand(up) => format!("from {} up: bend by hand", say(up)),
            Self::NearTaper(taper) => format!("at the tape's side, {}", taper.words(division)),
            Self::NoBend => "no bend line on it: all of it is leg".to_owned(),
            Self::Triangle(up) => {
                format!("triangle: the cut line passes the whole end {} up", say(up))
            }
            Self::Sliver(width) => format!(
                "too narrow: {} at its widest; check where you read to",
                say(width)
            ),
            Self::StillFits(off) => format!(
                "{}: piece {}, still fits",
                off.gap_words(division),
                off.words(division)
            ),
            Self::NoLongerFits(misfit) => format!("NO LONGER FITS: {}", misfit.words(division)),
            Self::LeftAsItIs => {
                "left as it is, though the log asks for another piece now".to_owned()
            }
            Self::SecondTrip => {
                "held for the second trip: lay the pieces before it, then measure the gap over them"
                    .to_owned()
            }
            Self::OverLaid => "second trip: cut to the gap as read over the laid pieces".to_owned(),
            Self::OffCover(off) => format!("DOUBTFUL: {}", off.words(division)),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        log::Gap,
        measure::Hand,
        piece::{CourseFrame, pieces_of_gap},
        settings::RawSettings,
    };
    use proptest::prelude::*;

    const W: EdgeKind = EdgeKind::Hip;

    /// The notes of every piece of a gap, in words; figures in 64ths of an
    /// inch, since the panel is 48 in wide, covers 46 and is 14 in high.
    fn of_gap(kind: EdgeKind, b: i64, t: i64, short: Option<i64>) -> Vec<Vec<Note>> {
        of_gap_with(&Settings::default(), kind, (b, t), short)
    }

    fn of_gap_with(
        settings: &Settings,
        kind: EdgeKind,
        (b, t): (i64, i64),
        short: Option<i64>,
    ) -> Vec<Vec<Note>> {
        let gap = Gap {
            bottom: Length::from_64ths(b),
            top: Length::from_64ths(t),
        };
        let frame = CourseFrame {
            kind,
            hand: Hand::Left,
            short: short.map(Length::from_inches),
            allowance: Length::from_inches(2),
        };
        let pieces = pieces_of_gap(gap, &frame, settings).unwrap();
        let of = |spec| notes_with(spec, None, &Marks::of(spec), settings);
        pieces.iter().map(of).collect()
    }

    #[track_caller]
    fn check(kind: EdgeKind, inches: (i64, i64), expected: &[&[Note]]) {
        let found = of_gap(kind, inches.0 * 64, inches.1 * 64, None);
        assert_eq!(found, expected);
    }

    fn inches(n: i64) -> Length {
        Length::from_inches(n)
    }

    #[test]
    fn a_plain_piece_has_no_note() {
        check(W, (24, 12), &[&[]]);
    }

    #[test]
    fn a_corner_off_has_no_note_and_the_piece_beyond_it_is_a_triangle() {
        // 55 - 46 = 9 and 41 - 46 = -5: a lean of 1, so the cut line from 11
        // at the nose reaches the hand side 11 in up.
        let beyond = [Note::Triangle(inches(11))];
        check(W, (55, 41), &[&[], &beyond]);
    }

    #[test]
    fn a_full_panel_has_nothing_to_bend_or_cut() {
        check(W, (110, 98), &[&[Note::FullPanel], &[Note::FullPanel], &[]]);
    }

    #[test]
    fn a_corner_whose_cut_line_misses_the_panel_is_bent_only() {
        // 49 to 47 crosses 48 halfway up; 51 to 49 stays beyond 48.
        check(W, (49, 47), &[&[Note::BentCorner], &[]]);
    }

    #[test]
    fn a_cut_line_out_through_the_side_tapers_the_leg_toward_the_nose() {
        // Lean 1: the cut line from 49 reaches 48 one inch up. At the nose one
        // inch is left, which stands 1 / sqrt 2 = 0.70710678 in = 17.960512 mm.
        let taper = Taper {
            from: inches(1),
            toward: At::Nose,
            lowest: Length::from_nm(17_960_512),
        };
        check(W, (47, 33), &[&[Note::Taper(taper)]]);
    }

    #[test]
    fn in_a_valley_it_tapers_toward_the_back() {
        let taper = Taper {
            from: inches(13),
            toward: At::Back,
            lowest: Length::from_nm(17_960_512),
        };
        check(EdgeKind::Valley, (33, 47), &[&[Note::Taper(taper)]]);
    }

    #[test]
    fn a_last_piece_whose_cut_line_misses_the_panel_keeps_what_there_is() {
        // Square: the one inch that is left stands one inch high.
        let no_cut = Note::NoCut {
            nose: inches(1),
            back: inches(1),
        };
        check(EdgeKind::Rake, (47, 47), &[&[no_cut]]);
        // 48 to 47: nothing at the nose; at the back 1 in along the edge,
        // 25.4 * 14 / sqrt 197 = 25.335451 mm.
        let no_cut = Note::NoCut {
            nose: Length::ZERO,
            back: Length::from_nm(25_335_451),
        };
        check(W, (48, 47), &[&[no_cut]]);
    }

    #[test]
    fn a_cut_line_along_the_panels_own_side_cuts_nothing_off() {
        let no_cut = Note::NoCut {
            nose: inches(2),
            back: inches(2),
        };
        check(EdgeKind::Rake, (46, 46), &[&[no_cut]]);
    }

    #[test]
    fn a_bend_line_along_the_far_side_leaves_no_leg() {
        let no_cut = Note::NoCut {
            nose: Length::ZERO,
            back: Length::ZERO,
        };
        check(EdgeKind::Rake, (48, 48), &[&[no_cut]]);
    }

    #[test]
    fn a_piece_narrower_than_the_side_lap_is_a_sliver() {
        let found = of_gap(EdgeKind::Rake, 127, 127, None);
        assert_eq!(found, [[Note::Sliver(Length::from_64ths(127))]]);
        check(EdgeKind::Rake, (2, 2), &[&[]]);
    }

    #[test]
    fn a_piece_without_a_bend_line_says_so() {
        check(
            EdgeKind::Rake,
            (0, 0),
            &[&[Note::NoBend, Note::Sliver(Length::ZERO)]],
        );
        // -1/4 in is what a reading of 0 gives with the clearance off.
        let found = of_gap(EdgeKind::Rake, -16, -16, None);
        let sliver = Note::Sliver(Length::from_64ths(-16));
        assert_eq!(found, [[Note::NoBend, sliver]]);
    }

    #[test]
    fn a_short_course_is_cut_across_first() {
        let found = of_gap(W, 20 * 64, 14 * 64, Some(7));
        let across = Note::Across {
            what: CutAcross::Panel,
            up: inches(7),
            marks_at: inches(7),
        };
        assert_eq!(found, [[across]]);
        // Wide and short: across first, and then no cut to the hip at all.
        let found = of_gap(W, 60 * 64, 54 * 64, Some(7));
        let first = vec![across, Note::FullPanel];
        assert_eq!(found.first(), Some(&first));
    }

    #[test]
    fn a_short_course_whose_panel_stays_whole_says_what_the_ridge_gets() {
        let settings = Settings::checked(RawSettings {
            ridge_turn_up: Length::from_64ths(96),
            ..RawSettings::default()
        })
        .unwrap();
        let found = of_gap_with(&settings, W, (20 * 64, 14 * 64), Some(13));
        assert_eq!(found, [[Note::WholeAtRidge(inches(1))]]);
        // A panel higher than the exposure is that in every course.
        let high = Settings::checked(RawSettings {
            panel_height: Some(inches(15)),
            ..RawSettings::default()
        })
        .unwrap();
        let found = of_gap_with(&high, W, (20 * 64, 14 * 64), None);
        assert_eq!(found, [Vec::<Note>::new()]);
        says(
            Note::WholeAtRidge(inches(1)),
            W,
            "do not cut the panel across: 1 in of it bends up at the ridge",
        );
    }

    proptest! {
        #[test]
        fn prop_a_leg_is_lowest_within_its_bounds(b in -1_000_i64..20_000, t in -1_000_i64..20_000) {
            let gap = Gap { bottom: Length::from_64ths(b), top: Length::from_64ths(t) };
            let frame = CourseFrame {
                kind: EdgeKind::Hip,
                hand: Hand::Left,
                short: None,
                allowance: Length::from_inches(2),
            };
            let settings = Settings::default();
            for spec in pieces_of_gap(gap, &frame, &settings).unwrap_or_default() {
                let within = |length: Length, most: Length| Length::ZERO <= length && length <= most;
                for note in notes_with(&spec, None, &Marks::of(&spec), &settings) {
                    match note {
                        Note::Taper(taper) => {
                            prop_assert!(within(taper.from, spec.panel.height));
                            prop_assert!(within(taper.lowest, spec.leg()));
                        }
                        Note::NoCut { nose, back } => {
                            prop_assert!(within(nose.min(back), spec.leg()));
                            prop_assert!(within(nose.max(back), spec.leg()));
                        }
                        Note::Triangle(up) => prop_assert!(within(up, spec.panel.height)),
                        _ => {}
                    }
                }
            }
        }
    }

    #[track_caller]
    fn says(note: Note, kind: EdgeKind, expected: &str) {
        assert_eq!(note.words(kind, Division::SixteenthInch), expected);
    }

    #[test]
    fn notes_are_said_in_words_of_the_trade() {
        use EdgeKind::{Hip, Rake, Valley};
        let taper = Taper {
            from: inches(1),
            toward: At::Nose,
            lowest: Length::from_nm(17_960_512),
        };
        says(
            Note::Taper(taper),
            Hip,
            "leg narrows toward the nose: full from 1 in up, 11/16+ in at the nose",
        );
        says(
            Note::Taper(Taper {
                toward: At::Back,
                ..taper
            }),
            Valley,
            "leg narrows toward the back: full up to 1 in, 11/16+ in at the back",
        );
        says(Note::BentCorner, Valley, "no cut: bend the corner down");
        says(Note::FullPanel, Hip, "full panel, no cut");
        says(
            Note::NoCut {
                nose: inches(1),
                back: inches(1),
            },
            Rake,
            "no cut: the leg takes the rest of the panel, 1 in",
        );
        let across = |what, up| Note::Across {
            what,
            up: inches(up),
            marks_at: inches(7),
        };
        says(
            across(CutAcross::Panel, 7),
            Hip,
            "cut the panel across first, 7 in up from the nose",
        );
        says(
            across(CutAcross::Offcut, 8),
            Hip,
            "cut the offcut across first, 8 in up from the nose; the back marks stand 7 in up, where the ridge leg bends",
        );
        says(
            across(CutAcross::Nothing, 8),
            Hip,
            "the offcut is cut across already, 8 in up from the nose; the back marks stand 7 in up, where the ridge leg bends",
        );
    }
}
