//! Writes a plane down as a job, asks the job for its doubts, and judges them by
//! what is known to be wrong.

use crate::whole_roof_kinds::Slip;
use crate::whole_roof_plane::{CLEARANCE, LAP, Plane, float, length};
use crate::whole_roof_slips::{Place, Written};
use bendmark::domain::{
    cutting::{EdgeDoubt, Job, doubts_of},
    doubt::{Cause, Doubt, DoubtedReading, Fix, Suspect},
    log::{Course, CourseNumber, Edge, EdgeId, End, ReadTo, Reading, TapeEnd},
    measure::{Hand, Length, Name},
    roof::{Corner, EdgeKind, RoofLine, Slope, SlopeForm},
    settings::{RawSettings, Settings},
};

/// What of the house is in the job.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Ends {
    /// One end of the first plane.
    One,
    /// Both ends of it.
    Both,
    /// Both ends of all planes.
    House,
}

impl Ends {
    pub(crate) const ALL: [Self; 3] = [Self::One, Self::Both, Self::House];

    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::One => "one end",
            Self::Both => "both ends",
            Self::House => "house of four planes",
        }
    }
}

/// A plane and what was written of it.
pub(crate) type Read<'a> = (&'a Plane, &'a [Written; 2]);

pub(crate) fn number(course: usize) -> CourseNumber {
    CourseNumber::new(u32::try_from(course + 1).unwrap()).unwrap()
}

fn settings(plane: &Plane) -> Settings {
    use bendmark::domain::log::PanelsLie;
    let to_panel_edge = [0, 1].map(|at| plane.sides[at].to_panel_edge);
    let settings = Settings::checked(RawSettings {
        panel_width: length(plane.roof.panel),
        side_lap: length(LAP),
        exposure: length(plane.roof.exposure),
        panels_lie: match to_panel_edge {
            [true, false] if plane.roof.job_says => PanelsLie::OverLeft,
            [false, true] if plane.roof.job_says => PanelsLie::OverRight,
            _ => PanelsLie::NotSaid,
        },
        ..RawSettings::default()
    })
    .unwrap();
    for kind in EdgeKind::ALL {
        assert_eq!(settings.kind(kind).clearance, length(CLEARANCE));
    }
    settings
}

fn slope(rise_in_12: i64) -> Slope {
    Slope::new(SlopeForm::RiseIn12, rise_in_12 * 100_000).unwrap()
}

/// An end of the first plane is 1 or 2, of the next one 3 or 4.
fn id(plane: usize, at: usize) -> EdgeId {
    EdgeId(u32::try_from(2 * plane + at + 1).unwrap())
}

fn edge(of: usize, plane: &Plane, at: usize, written: &Written, slope_given: bool) -> Edge {
    let side = &plane.sides[at];
    // Looking up, the left end takes right-hand pieces.
    let (end, hand) = [("left", Hand::Right), ("right", Hand::Left)][at];
    let of_plane = ["South", "East", "North", "West"][of % 4];
    let name = Name::or(&format!("{of_plane} {end}"), "?");
    let mut edge = Edge::new(id(of, at), name, written.kind, hand);
    edge.plane = Some(Name::or(of_plane, "?"));
    if slope_given {
        let [this, other] = written.slopes;
        edge.roof = RoofLine {
            slope: Some(slope(this)),
            other: (other != this).then(|| slope(other)),
            corner: Corner::SQUARE,
        };
    }
    if side.to_panel_edge && !plane.roof.job_says {
        edge.reads_to = Some(ReadTo::PanelEdge);
    }
    edge.tape_end = side.hard.then_some(TapeEnd::Hard);
    for (course, pair) in written.courses.iter().enumerate() {
        let mut course = Course::unread(number(course));
        for (figure, end) in pair.iter().zip(End::BOTH) {
            let reading = figure.map(|figure| Reading::new(length(figure)).unwrap());
            course = course.with(end, reading);
        }
        edge.put(course);
    }
    edge
}

/// The job; of the first plane the end `at` where only one is in it.
pub(crate) fn job(house: &[Read], ends: Ends, at: usize, slope_given: bool) -> Job {
    let mut edges = Vec::new();
    for (of, (plane, written)) in house.iter().enumerate() {
        for end in [0, 1] {
            let is_in_it = match ends {
                Ends::One => (of, end) == (0, at),
                Ends::Both => of == 0,
                Ends::House => true,
            };
            if is_in_it {
                edges.push(edge(of, plane, end, &written[end], slope_given));
            }
        }
    }
    let (name, next) = (Name::or("Roof", "?"), u32::try_from(2 * house.len() + 1));
    let settings = settings(house[0].0);
    Job::from_parts(name, settings, edges, next.unwrap(), Vec::new()).unwrap()
}

/// As it should have been written.
pub(crate) fn rightly(plane: &Plane, read: &[Vec<[i64; 2]>; 2]) -> [Written; 2] {
    [0, 1].map(|at| Written {
        kind: plane.sides[at].kind,
        slopes: [plane.rise, plane.sides[at].other],
        courses: read[at].iter().map(|pair| pair.map(Some)).collect(),
    })
}

/// One slip of a plane, and all that is known of it.
pub(crate) struct Case<'a> {
    pub(crate) slip: Slip,
    pub(crate) place: Place,
    /// The end slipped at.
    pub(crate) at: usize,
    pub(crate) slipped: &'a Job,
    pub(crate) right: &'a Job,
}

/// What came of it.
#[derive(Clone, Copy, Default, Debug)]
pub(crate) struct Seen {
    pub(crate) found: bool,
    pub(crate) at_its_edge: bool,
    /// The first suspicion is about the reading that is wrong.
    pub(crate) reading: bool,
    /// ... and taking it gives what should have been written.
    pub(crate) first: bool,
    pub(crate) first_two: bool,
    pub(crate) cause: bool,
    /// Doubts about something else.
    pub(crate) elsewhere: u64,
}

impl Case<'_> {
    pub(crate) fn seen(&self) -> Seen {
        let doubts = doubts_of(self.slipped);
        let slipped_at = id(0, self.at);
        let (of_it, elsewhere): (Vec<_>, Vec<_>) =
            doubts.iter().partition(|doubt| self.points_at(doubt));
        let at_its_edge = |doubt: &&&EdgeDoubt| doubt.edge == slipped_at;
        let at_its_edge = of_it.iter().find(at_its_edge);
        let suspects: Vec<Suspect> =
            at_its_edge.map_or(Vec::new(), |doubt| doubt.doubt.suspects().take(2).collect());
        let is_right = |at: usize| {
            suspects
                .get(at)
                .is_some_and(|suspect| self.is_right(suspect))
        };
        let first_two = is_right(0) || is_right(1);
        let reading = match (self.wrong_reading(), suspects.first()) {
            (Some((_, end)), Some(first)) => first.reading == DoubtedReading::from(end),
            _ => is_right(0),
        };
        // A doubt that is said at the other end may name the cause too.
        let told = at_its_edge.or(of_it.first()).into_iter();
        let mut told = told.flat_map(|doubt| doubt.doubt.suspects().take(2));
        Seen {
            found: !of_it.is_empty(),
            at_its_edge: at_its_edge.is_some(),
            reading,
            first: is_right(0),
            first_two,
            cause: told.any(|suspect| self.slip.causes().contains(&suspect.cause.words())),
            elsewhere: u64::try_from(elsewhere.len()).unwrap(),
        }
    }

    /// The one reading that is wrong, where it is one.
    fn wrong_reading(&self) -> Option<(CourseNumber, End)> {
        let of = |job: &Job| job.edge(id(0, self.at)).map(|edge| edge.courses().to_vec());
        let (slipped, right) = (of(self.slipped)?, of(self.right)?);
        let pairs = slipped.iter().zip(&right);
        let mut wrong = pairs.flat_map(|(one, other)| {
            let differs = |end: &End| one.reading(*end) != other.reading(*end);
            let ends = End::BOTH.into_iter().filter(differs);
            ends.map(|end| (other.number, end))
        });
        let one = wrong.next();
        one.filter(|_| wrong.next().is_none() && slipped.len() == right.len())
    }

    /// Whether a doubt, at either end of the plane, is about the slip.
    fn points_at(&self, doubt: &EdgeDoubt) -> bool {
        let Doubt { course, .. } = doubt.doubt;
        if ![0, 1].map(|at| id(0, at)).contains(&doubt.edge) {
            return false;
        }
        let of_edge = course.is_none() || doubt.doubt.reading == DoubtedReading::Edge;
        let touches = |mut courses: std::ops::RangeInclusive<usize>| {
            !of_edge && courses.any(|at| doubt.doubt.touches(number(at)))
        };
        match self.place {
            Place::Courses { from, to } => touches(from..=to),
            Place::CoursesOrEdge { from, to } => of_edge || touches(from..=to),
            Place::Above(from) => of_edge || touches(from..=from + 100),
            Place::Edge => of_edge,
        }
    }

    /// Whether taking the suggestion gives what should have been written, each
    /// finished width within 1/8 in. A course or slope is put right by the job.
    fn is_right(&self, suspect: &Suspect) -> bool {
        let id = id(0, self.at);
        let (slipped, right) = (self.slipped.edge(id).unwrap(), self.right.edge(id).unwrap());
        let Some(fixed) = suspect.fix.taken(slipped) else {
            return match (self.slip, suspect.fix) {
                (Slip::SlopesExchanged, Fix::ExchangeSlopes) => true,
                (Slip::Skipped, Fix::CourseBetween { below }) => matches!(
                    self.place,
                    Place::CoursesOrEdge { from, .. } if below == number(from)
                ),
                _ => false,
            };
        };
        let width = |job: &Job, edge: &Edge, at: CourseNumber, end: End| -> Option<Length> {
            let course = edge.course(at)?;
            let added = job.settings.added_to_course(edge, course);
            Some(course.reading(end)?.length() + added)
        };
        let mut room = usize::from(self.slip == Slip::LeftOut);
        let mut is_near = |(at, end)| {
            let (Some(should), fixed) = (
                width(self.right, right, at, end),
                width(self.slipped, &fixed, at, end),
            ) else {
                return false;
            };
            let Some(fixed) = fixed else {
                // A reading left out stays out until it is read.
                room = room.wrapping_sub(1);
                return room == 0;
            };
            (fixed - should).abs() <= Length::from_64ths(8)
        };
        let places = right.courses().iter();
        let mut places = places.flat_map(|course| End::BOTH.map(|end| (course.number, end)));
        let more = fixed.courses().len() > right.courses().len();
        fixed.kind == right.kind && !more && places.all(&mut is_near)
    }
}

/// What was doubted of a plane that was read and written rightly.
#[derive(Clone, Copy, Default, Debug)]
pub(crate) struct Clean {
    pub(crate) doubts: u64,
    pub(crate) edges: u64,
    pub(crate) of_edges: u64,
    pub(crate) of_readings: u64,
    /// These offer another figure in place of a right one.
    pub(crate) replaced: u64,
    /// ... by a slip that has a name.
    pub(crate) named: u64,
}

impl Clean {
    pub(crate) fn of(job: &Job) -> Self {
        let doubts = doubts_of(job);
        let takes = |each: &EdgeDoubt| {
            let edge = job.edge(each.edge);
            edge.is_some_and(|edge| each.doubt.fix.taken(edge).is_some())
        };
        let count = |count: usize| u64::try_from(count).unwrap();
        let mut edges: Vec<EdgeId> = doubts.iter().map(|doubt| doubt.edge).collect();
        edges.dedup();
        let replaced = doubts.iter().filter(|doubt| takes(doubt));
        let named = replaced.clone();
        let named = named.filter(|doubt| doubt.doubt.cause != Cause::Unknown);
        Self {
            doubts: count(doubts.len()),
            edges: count(edges.len()),
            of_edges: count(job.edges().len()),
            of_readings: readings(job),
            replaced: count(replaced.count()),
            named: count(named.count()),
        }
    }
}

/// How many figures stand in a job.
pub(crate) fn readings(job: &Job) -> u64 {
    let courses = job.edges().iter().flat_map(|edge| edge.courses());
    let read = courses.flat_map(|course| [course.bottom, course.top]);
    u64::try_from(read.flatten().count()).unwrap()
}

/// Widths over a panel, the narrow end under it: an ordinary gap of two pieces.
pub(crate) fn gaps_of_two_pieces(plane: &Plane) -> (u64, u64) {
    let panel = float(plane.roof.panel) / float(crate::whole_roof_plane::PARTS);
    let gaps = plane.sides.iter().flat_map(|side| side.gaps.iter());
    gaps.fold((0, 0), |(two, all), [bottom, top]| {
        (two + u64::from(bottom.max(*top) > panel), all + 1)
    })
}
