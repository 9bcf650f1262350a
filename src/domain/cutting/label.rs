//! The short label written on a piece: `H2-5 L`.
//!
//! The letter is the kind of edge, the first number which of its kind it is, given when
//! it was added and never used again, the second the course, the last letter
//! the hand; a piece beyond the first of its course has its number behind the
//! course: `H2-5.2 L`. One cut at both ends has both edges and no hand:
//! `H1+H2-9`, the edge at which its course stands first. Neither another cutting
//! order nor a deleted edge nor a course put in below changes what is already
//! written on steel: while steel of another course bears a 5, the fifth course
//! is written `H2-5b L`.

use super::{
    cut_list::CutList,
    cut_piece::{CutPiece, PieceStock},
    job::Job,
};
use crate::domain::{
    bench::{Done, Progress, WrittenCourse},
    log::{CourseNumber, EdgeId},
    measure::Hand,
    piece::PieceId,
    roof::EdgeKind,
    stock::Rest,
};
use foldhash::HashMap;
use std::collections::BTreeSet;

/// The short names of a job's edges and pieces.
#[derive(Clone, PartialEq, Eq, Debug, Default)]
pub struct Labels {
    edges: HashMap<EdgeId, (EdgeKind, Hand)>,
    /// Of edges that have one of their own as that kind.
    numbers: HashMap<(EdgeId, EdgeKind), u32>,
    /// What is written on a piece stays, whatever is said of its edge later.
    marked: HashMap<PieceId, (EdgeKind, Hand, WrittenCourse)>,
    /// The edge at its other end, of a piece cut at both.
    to: HashMap<PieceId, (EdgeId, EdgeKind)>,
    /// The courses of the steel that bears another number than its course's.
    elsewhere: HashMap<(EdgeId, WrittenCourse), BTreeSet<CourseNumber>>,
}

impl Labels {
    /// The labels for `job`, given what its facts amount to.
    pub fn of(job: &Job, progress: &Progress) -> Self {
        let numbers = job.numbers().rows().iter();
        let numbers = numbers.map(|row| ((row.edge, row.kind), row.number));
        let mut labels = Self {
            numbers: numbers.collect(),
            ..Self::default()
        };
        for edge in job.edges() {
            labels.edges.insert(edge.id, (edge.kind, edge.hand));
            for course in edge.courses() {
                let other = course.to.and_then(|to| job.edge(to));
                if let Some(other) = other {
                    let piece = PieceId {
                        edge: edge.id,
                        course: course.number,
                        number: 1,
                    };
                    labels.to.insert(piece, (other.id, other.kind));
                }
            }
        }
        for (piece, done) in progress.marked() {
            labels.mark(piece, done);
        }
        labels
    }

    /// The same once the piece of `done` is marked, too.
    pub fn mark(&mut self, piece: PieceId, done: &Done) {
        let (kind, to) = done.spec.kind_and_other(piece.edge);
        let bears = done.written.unwrap_or(WrittenCourse::plain(piece.course));
        self.marked.insert(piece, (kind, done.spec.hand, bears));
        match to {
            Some(to) => self.to.insert(piece, to),
            None => self.to.remove(&piece),
        };
        if done.written.is_some() {
            let courses = self.elsewhere.entry((piece.edge, bears)).or_default();
            courses.insert(piece.course);
        }
    }

    /// The short name of an edge: `H2`; `?` for one no longer in the job.
    pub fn edge(&self, edge: EdgeId) -> String {
        let known = self.edges.get(&edge);
        known.map_or("?".to_owned(), |(kind, _)| self.edge_as(edge, *kind))
    }

    /// What an edge is called as one of that kind.
    fn edge_as(&self, edge: EdgeId, kind: EdgeKind) -> String {
        let number = self.numbers.get(&(edge, kind)).unwrap_or(&edge.0);
        format!("{}{number}", kind.letter())
    }

    /// The label of a piece: `H2-5 L`, as it was marked if it was.
    pub fn piece(&self, piece: PieceId) -> String {
        let marked = self.marked.get(&piece).map(|(kind, hand, _)| (kind, hand));
        let edge = self.edges.get(&piece.edge);
        let known = marked.or(edge.map(|(kind, hand)| (kind, hand)));
        let unknown = || (format!("?{}", piece.edge.0), "?");
        let (edge, hand) = known.map_or_else(unknown, |(kind, hand)| {
            (self.edge_as(piece.edge, *kind), hand.letter())
        });
        let course = self.course(piece);
        if let Some((to, kind)) = self.to.get(&piece) {
            format!("{edge}+{}-{course}", self.edge_as(*to, *kind))
        } else if piece.number > 1 {
            format!("{edge}-{course}.{} {hand}", piece.number)
        } else {
            format!("{edge}-{course} {hand}")
        }
    }

    /// A piece's course as its label says it.
    fn course(&self, piece: PieceId) -> WrittenCourse {
        if let Some((.., bears)) = self.marked.get(&piece) {
            return *bears;
        }
        let mut course = WrittenCourse::plain(piece.course);
        let is_elsewhere = |course: WrittenCourse| {
            let courses = self.elsewhere.get(&(piece.edge, course));
            courses.is_some_and(|courses| courses.iter().any(|other| *other != piece.course))
        };
        while is_elsewhere(course) && course.after() != course {
            course = course.after();
        }
        course
    }

    /// How a piece's label says its course, where not by its number.
    pub fn written(&self, piece: PieceId) -> Option<WrittenCourse> {
        let course = self.course(piece);
        (course != WrittenCourse::plain(piece.course)).then_some(course)
    }

    /// The piece that `text` asks for: a label with or without its hand
    /// (`H2-5`), the edge's number and the course (`2-5`) where no other kind
    /// of edge has them, or a part of an edge's name, which gives the first of
    /// its pieces that is not stacked.
    pub fn find(&self, job: &Job, list: &CutList, text: &str) -> Option<PieceId> {
        let plain = |text: &str| text.replace(' ', "").to_uppercase();
        let wanted = plain(text);
        if wanted.is_empty() {
            return None;
        }
        // Of one cut at both ends either edge is enough.
        let shorts = |piece: &CutPiece| -> Vec<String> {
            let label = plain(&self.piece(piece.id));
            let (edges, course) = label.split_once('-').unwrap_or((&label, ""));
            let course = course.trim_end_matches(['L', 'R']);
            let of_edge = |edge| format!("{edge}-{course}");
            edges.split('+').map(of_edge).collect()
        };
        let is_label = |piece: &&CutPiece| {
            plain(&self.piece(piece.id)) == wanted || shorts(piece).contains(&wanted)
        };
        let are_digits = |piece: &&CutPiece| {
            let shorts = shorts(piece);
            let mut digits = shorts
                .iter()
                .map(|short| short.trim_start_matches(char::is_alphabetic));
            digits.any(|digits| digits == wanted)
        };
        // `2-5` says nothing where a hip and a valley have it.
        let mut by_digits = list.pieces.iter().filter(are_digits);
        let by_digits = by_digits.next().filter(|_| by_digits.next().is_none());
        let by_label = list.pieces.iter().find(is_label).or(by_digits);
        let named = |piece: &&CutPiece| {
            job.edge(piece.id.edge)
                .is_some_and(|edge| plain(edge.name.as_str()).contains(&wanted))
        };
        by_label
            .or_else(|| list.pieces.iter().filter(|p| p.is_open()).find(named))
            .or_else(|| list.pieces.iter().find(named))
            .map(|piece| piece.id)
    }

    /// What a piece is cut from: `new panel 5`, `offcut 7 from the rack, left
    /// end whole`.
    pub fn stock(&self, stock: &PieceStock) -> String {
        let (which, offcut) = match stock {
            PieceStock::New { panel } => return format!("new panel {panel}"),
            PieceStock::Rack { number, offcut, .. } => {
                (format!("offcut {number} from the rack"), offcut)
            }
            PieceStock::LeftBy { piece, offcut, .. } => {
                (format!("the offcut of {}", self.piece(*piece)), offcut)
            }
        };
        format!("{which}, {} end whole", offcut.whole.word())
    }

    /// What becomes of the rest: `write 8 on it, keep it for H2-5 R`, `waste`; nothing
    /// where nothing is left.
    pub fn rest(&self, rest: &Rest) -> Option<String> {
        match *rest {
            Rest::KeptFor { piece, number } => {
                let piece = self.piece(piece);
                let new = || format!("keep it for {piece}");
                Some(number.map_or_else(new, |n| format!("write {n} on it, keep it for {piece}")))
            }
            Rest::Waste => Some("waste".to_owned()),
            Rest::Nothing => None,
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        log::{Course, CourseNumber, End, Reading},
        measure::{Length, Name},
        settings::Settings,
    };

    fn job() -> Job {
        let mut job = Job::new(Name::or("A", "A"), Settings::default());
        let edges = [
            ("North", EdgeKind::Hip, Hand::Left),
            ("South", EdgeKind::Hip, Hand::Right),
            ("Yard", EdgeKind::Valley, Hand::Right),
        ];
        for (name, kind, hand) in edges {
            let edge = job.add_edge(Name::or(name, "?"), kind, hand);
            for number in 1..=12 {
                let read = |inches| Reading::new(Length::from_inches(inches)).ok();
                let course = Course::unread(CourseNumber::new(number).unwrap())
                    .with(End::Bottom, read(60))
                    .with(End::Top, read(50));
                job.edge_mut(edge).unwrap().put(course);
            }
        }
        job
    }

    #[track_caller]
    fn check(text: &str, expected: Option<&str>) {
        let job = job();
        let labels = Labels::of(&job, &Progress::default());
        let list = CutList::of(&job, &Progress::default());
        let found = labels.find(&job, &list, text);
        assert_eq!(found.map(|piece| labels.piece(piece)).as_deref(), expected);
    }

    #[test]
    fn a_piece_is_found_by_label_course_or_name() {
        check("h2-5", Some("H2-5 R"));
        check("H2-5 R", Some("H2-5 R"));
        check("2-5", Some("H2-5 R"));
        check("2-11.2", Some("H2-11.2 R"));
        check("1-5", None);
        check("south", Some("H2-1.2 R"));
        check("H3-1", None);
        check("", None);
    }
}
