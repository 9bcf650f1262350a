//! How far each piece has come, derived from the bench's facts.
//!
//! It remembers nothing of its own: the same facts always give the same
//! progress. Pieces nobody has touched are not in it.

use super::{
    corrections::Corrections,
    event::{Asked, BenchEvent, CutRest, Fact, MarkedStock, SavedOffcut, SpoiledBy},
    opened::{Laid, OpenedPanel},
    stage::{Stage, stages},
    written::WrittenCourse,
};
use crate::domain::{
    log::{CourseNumber, EdgeId},
    measure::{Length, Name, SkewLine},
    piece::{PieceId, PieceSpec},
    settings::BenchOrder,
    stock::{Offcut, OffcutNumber, Promise, RackOffcut},
};
use foldhash::HashMap;
use std::collections::BTreeMap;

/// What has been done with one piece.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Done {
    pub spec: PieceSpec,
    pub stock: MarkedStock,
    pub lot: Option<Name>,
    /// The course as its label says it, where that is not its number.
    pub written: Option<WrittenCourse>,
    /// The correction it was marked with.
    pub corrected: Length,
    /// All that was said of its edge when it was marked, or when its course was
    /// read again and freed of that; what is said later is no slip of its marks.
    pub corrections_then: Length,
    /// The first of its two lines is cut, of a piece cut at both ends.
    pub first_cut: bool,
    pub cut: bool,
    /// What became of the rest, once it was cut.
    pub rest: Option<CutRest>,
    pub bent: bool,
    pub stacked: bool,
    /// What the log asked for when it was said that it stays as it is.
    pub stays: Option<Asked>,
}

impl Done {
    /// What is to be done next, where `order` says whether cutting or bending
    /// comes first. What a piece does not need (a full panel is neither cut
    /// nor bent) is passed over.
    pub fn stage(&self, order: BenchOrder) -> Stage {
        if self.stacked {
            return Stage::Stacked;
        }
        let is_open = |stage: &Stage| match stage {
            Stage::ToMark => false,
            Stage::ToCut => !self.cut,
            Stage::ToBend => !self.bent,
            Stage::ToStack | Stage::Stacked => true,
        };
        let mut stages = stages(&self.spec, order).into_iter();
        stages.find(is_open).unwrap_or(Stage::ToStack)
    }

    /// The last that was done with it, in a word.
    pub const fn word(&self) -> &'static str {
        if self.stacked {
            "stacked"
        } else if self.bent {
            "bent"
        } else if self.cut {
            "cut"
        } else {
            "marked"
        }
    }

    /// An offcut of its stock, on the rack.
    fn laid(&self, offcut: Offcut) -> Laid {
        Laid {
            offcut,
            lot: self.lot.clone(),
            panel: self.stock.panel(),
        }
    }
}

/// A piece whose bend line was struck anew where it was cut already: its leg is
/// what is left up to the cut line, where that is least.
pub fn with_bend_struck(spec: &PieceSpec, bend: SkewLine) -> PieceSpec {
    let cut = spec.cut();
    let room = [Length::ZERO, spec.panel.height].map(|y| cut.x(y) - bend.x(y));
    let [nose, back] = room;
    PieceSpec {
        bend,
        allowance: nose.min(back).max(Length::ZERO),
        ..*spec
    }
}

/// Everything that follows from the bench's facts.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Progress {
    done: HashMap<PieceId, Done>,
    corrections: Corrections,
    /// The edge each panel was opened for.
    panels: BTreeMap<u32, OpenedPanel>,
    spoiled: usize,
    spoiled_by: BTreeMap<SpoiledBy, usize>,
    laid: BTreeMap<OffcutNumber, Laid>,
    on_rack: BTreeMap<OffcutNumber, Option<Promise>>,
    promises: u32,
}

impl Progress {
    /// What `events` amount to. A fact about a piece that was never marked
    /// says nothing and is passed over.
    pub fn of(events: &[BenchEvent]) -> Self {
        let mut progress = Self::default();
        progress.go_on(events.iter().map(|event| &event.fact));
        progress
    }

    /// What it amounts to once these facts are written down, too.
    pub fn go_on<'a>(&mut self, facts: impl IntoIterator<Item = &'a Fact>) {
        for fact in facts {
            self.take(fact);
        }
    }

    fn take(&mut self, fact: &Fact) {
        match fact {
            Fact::Marked {
                piece,
                spec,
                stock,
                lot,
                written,
            } => self.mark(*piece, spec, *stock, lot.clone(), *written),
            Fact::FirstCut(piece) => self.change(*piece, |done| done.first_cut = true),
            Fact::Cut { piece, rest } => self.cut(*piece, *rest),
            Fact::Bent(piece) => self.change(*piece, |done| done.bent = true),
            Fact::Stacked(piece) => self.change(*piece, |done| done.stacked = true),
            Fact::Spoiled { piece, saved, why } => self.spoil(*piece, saved, *why),
            Fact::Measured {
                offcut,
                at_nose,
                at_back,
                lot,
            } => self.measure(*offcut, [*at_nose, *at_back], lot.as_ref()),
            Fact::TakenBack { piece, kept } => self.take_back(*piece, kept.as_ref()),
            Fact::BendStruck { piece, bend } => self.change(*piece, |done| {
                done.spec = with_bend_struck(&done.spec, *bend);
            }),
            Fact::Stays { piece, asked } => {
                self.change(*piece, |done| done.stays = Some(*asked));
            }
            Fact::Found {
                number,
                offcut,
                lot,
            } => {
                let laid = Laid {
                    offcut: *offcut,
                    lot: lot.clone(),
                    panel: None,
                };
                self.lay_down(*number, laid, None);
            }
            Fact::Gone { offcut, .. } => {
                self.on_rack.remove(offcut);
            }
            Fact::Promised { offcut, piece } => {
                let promise = piece.map(|piece| self.promise(piece));
                if let Some(known) = self.on_rack.get_mut(offcut) {
                    *known = promise;
                }
            }
            Fact::Paused => {}
            Fact::Corrected { edge, by } => self.corrections.say(*edge, *by),
            Fact::ReadAgain {
                edge,
                course,
                corrected,
            } => self.read_again(*edge, *course, *corrected),
        }
    }

    fn mark(
        &mut self,
        piece: PieceId,
        spec: &PieceSpec,
        stock: MarkedStock,
        lot: Option<Name>,
        written: Option<WrittenCourse>,
    ) {
        match stock {
            MarkedStock::New { panel } => {
                let lot = lot.clone();
                let opened = OpenedPanel {
                    edge: piece.edge,
                    lot,
                };
                self.panels.insert(panel, opened);
            }
            MarkedStock::Offcut { offcut, .. } => {
                self.on_rack.remove(&offcut);
            }
        }
        let corrected = self.correction(piece.edge, piece.course);
        let corrections_then = self.corrections.said_of(piece.edge);
        self.done.insert(
            piece,
            Done {
                spec: *spec,
                stock,
                lot,
                written,
                corrected,
                corrections_then,
                first_cut: false,
                cut: false,
                rest: None,
                bent: false,
                stacked: false,
                stays: None,
            },
        );
    }

    fn cut(&mut self, piece: PieceId, rest: CutRest) {
        let Some(done) = self.done.get_mut(&piece) else {
            return;
        };
        done.cut = true;
        done.rest = Some(rest);
        let left = Offcut::left_by(&done.spec).map(|offcut| done.laid(offcut));
        if let (CutRest::Kept { offcut, promised }, Some(laid)) = (rest, left) {
            self.lay_down(offcut, laid, Some(promised));
        }
    }

    fn measure(&mut self, number: OffcutNumber, widths: [Length; 2], lot: Option<&Name>) {
        if let Some(laid) = self.laid.get_mut(&number) {
            let Offcut { whole, panel, .. } = laid.offcut;
            let [at_nose, at_back] = widths;
            laid.offcut = Offcut::found(whole, panel, at_nose, at_back);
            laid.lot = lot.cloned().or_else(|| laid.lot.take());
        }
    }

    fn spoil(&mut self, piece: PieceId, saved: &[SavedOffcut], why: Option<SpoiledBy>) {
        let Some(done) = self.done.remove(&piece) else {
            return;
        };
        self.spoiled += 1;
        if let Some(why) = why {
            *self.spoiled_by.entry(why).or_default() += 1;
        }
        for saved in saved {
            // As high as the piece was cut across; it was once written down as high
            // as its marks only.
            let offcut = Offcut {
                panel: done.spec.blank(),
                ..saved.offcut
            };
            let laid = done.laid(offcut);
            self.lay_down(saved.number, laid, Some(saved.promised));
        }
    }

    fn take_back(&mut self, piece: PieceId, kept: Option<&SavedOffcut>) {
        let Some(done) = self.done.remove(&piece) else {
            return;
        };
        match (kept, done.stock) {
            (Some(kept), _) => {
                let laid = done.laid(kept.offcut);
                self.lay_down(kept.number, laid, Some(kept.promised));
            }
            (None, MarkedStock::New { panel }) => {
                self.panels.remove(&panel);
            }
            (None, MarkedStock::Offcut { offcut, .. }) => {
                let promise = self.promise(piece);
                if self.laid.contains_key(&offcut) {
                    self.on_rack.insert(offcut, Some(promise));
                }
            }
        }
    }

    fn lay_down(&mut self, number: OffcutNumber, laid: Laid, promised: Option<PieceId>) {
        let promise = promised.map(|piece| self.promise(piece));
        self.laid.insert(number, laid);
        self.on_rack.insert(number, promise);
    }

    fn promise(&mut self, piece: PieceId) -> Promise {
        self.promises += 1;
        Promise {
            piece,
            since: self.promises,
        }
    }

    fn change(&mut self, piece: PieceId, change: impl FnOnce(&mut Done)) {
        if let Some(done) = self.done.get_mut(&piece) {
            change(done);
        }
    }

    /// What has been done with `piece`; `None` while it is still to mark.
    pub fn done(&self, piece: PieceId) -> Option<&Done> {
        self.done.get(&piece)
    }

    /// Every piece that has been marked, in no particular order.
    pub fn marked(&self) -> impl Iterator<Item = (PieceId, &Done)> {
        self.done.iter().map(|(piece, done)| (*piece, done))
    }

    /// How much longer the pieces of a course become by what was said of its edge.
    pub fn correction(&self, edge: EdgeId, course: CourseNumber) -> Length {
        self.corrections.of_course(edge, course)
    }

    /// How much longer in all the pieces of an edge become, but for courses read
    /// again since.
    pub fn corrections(&self, edge: EdgeId) -> Length {
        self.corrections.said_of(edge)
    }

    /// Whether that holds for what is read again, once somebody was asked.
    pub fn correction_holds(&self, edge: EdgeId) -> Option<bool> {
        self.corrections.holds(edge)
    }

    fn read_again(&mut self, edge: EdgeId, course: CourseNumber, corrected: bool) {
        self.corrections.read_again(edge, course, corrected);
        let said = self.corrections.said_of(edge);
        let of_course = |id: &PieceId| id.edge == edge && id.course == course;
        let marked = self.done.iter_mut().filter(|(id, _)| of_course(id));
        for (_, done) in marked.filter(|_| !corrected) {
            done.corrections_then = said;
        }
    }

    /// The panels opened so far, by number.
    pub const fn panels(&self) -> &BTreeMap<u32, OpenedPanel> {
        &self.panels
    }

    /// How many pieces were spoiled.
    pub const fn spoiled(&self) -> usize {
        self.spoiled
    }

    /// How many of them by what, where that was said.
    pub const fn spoiled_by(&self) -> &BTreeMap<SpoiledBy, usize> {
        &self.spoiled_by
    }

    /// The offcuts that lie on the rack, by number.
    pub fn rack(&self) -> Vec<RackOffcut> {
        self.on_rack
            .iter()
            .filter_map(|(number, promise)| {
                let laid = self.laid.get(number)?;
                Some(RackOffcut {
                    number: *number,
                    offcut: laid.offcut,
                    lot: laid.lot.clone(),
                    promise: *promise,
                })
            })
            .collect()
    }

    /// The offcuts that lie on the rack, each with the piece it is promised to.
    pub fn promises(&self) -> impl Iterator<Item = (OffcutNumber, Option<PieceId>)> {
        let promised = |promise: &Option<Promise>| promise.map(|promise| promise.piece);
        let on_rack = self.on_rack.iter();
        on_rack.map(move |(number, promise)| (*number, promised(promise)))
    }

    /// An offcut that was ever laid on the rack.
    pub fn laid(&self, number: OffcutNumber) -> Option<&Laid> {
        self.laid.get(&number)
    }

    /// What the next offcut is numbered.
    pub fn next_offcut(&self) -> OffcutNumber {
        let last = self.laid.last_key_value().map_or(0, |(number, _)| number.0);
        OffcutNumber(last.saturating_add(1))
    }
}
