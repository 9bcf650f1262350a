//! The blank roof log: what is to be read, in the order the tape gives it.
//!
//! One tape placement at a course line gives two readings: the top of the
//! course below it and the bottom of the course above it. So a form has one
//! line per placement, from the eave up. How it is written down is the matter
//! of [`crate::sheet::form_text`] and [`crate::sheet::form_html`].

use crate::domain::{
    bench::Progress,
    cutting::{Job, Labels},
    log::{CourseNumber, Edge, EdgeId, PanelsLie, ReadTo, TapeEnd},
    measure::{Hand, Name},
    roof::{Corner, EdgeKind, Slope},
    settings::Settings,
    tape::exact_with_unit,
};

/// Courses of an edge not yet logged, where nobody says how many.
pub const USUAL_COURSES: u32 = 16;

/// The most courses an edge on a form may be given.
pub const MOST_COURSES: u32 = 200;

/// Rows for pieces cut at both ends, an edge.
pub const BOARD_ROWS: usize = 3;

/// Which end of the roof stands at the head of a page.
#[derive(Clone, Copy, PartialEq, Eq, Hash, Debug, Default)]
pub enum HeadOfPage {
    /// The eave is at the bottom, so that one climbs the page as the roof.
    #[default]
    Ridge,
    /// The eave.
    Eave,
}

impl HeadOfPage {
    /// Both, the usual one first.
    pub const ALL: [Self; 2] = [Self::Ridge, Self::Eave];

    /// `ridge` or `eave`.
    pub const fn word(self) -> &'static str {
        match self {
            Self::Ridge => "ridge",
            Self::Eave => "eave",
        }
    }
}

/// A blank log.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Form<'a> {
    /// The job it is for.
    pub job: &'a Job,
    /// What stands at the head of each page.
    pub from: HeadOfPage,
    /// The edges on it; never empty.
    pub edges: Vec<FormEdge<'a>>,
}

/// One edge of a blank log.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct FormEdge<'a> {
    /// The edge; `None` where its name, kind and hand are still to be written.
    pub edge: Option<&'a Edge>,
    /// How it is read, where the whole job is not read alike.
    pub how_read: Option<String>,
    /// Its short name, such as `H2`; empty where it is still to be written.
    pub short: String,
    /// How many courses it has room for.
    pub courses: u32,
}

/// One tape placement.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub struct Placement {
    /// The course below the line, whose top is read; none at the eave.
    pub top_of: Option<u32>,
    /// The course above the line, whose bottom is read; none over the last.
    pub bottom_of: Option<u32>,
}

impl<'a> Form<'a> {
    /// The form for the edges `chosen` of `job`, all of them where none is
    /// named; `courses` of them for an edge not yet logged. A job without
    /// edges gets one blank edge, to be printed as often as it is needed.
    pub fn of(job: &'a Job, chosen: &[EdgeId], courses: Option<u32>) -> Self {
        let courses = courses.unwrap_or(USUAL_COURSES).clamp(1, MOST_COURSES);
        let labels = Labels::of(job, &Progress::of(job.events()));
        let mut edges: Vec<_> = job
            .edges()
            .iter()
            .filter(|edge| chosen.is_empty() || chosen.contains(&edge.id))
            .map(|edge| FormEdge {
                edge: Some(edge),
                how_read: how_this_is_read(edge, &job.settings),
                short: labels.edge(edge.id).to_owned(),
                courses: logged(edge).unwrap_or(courses),
            })
            .collect();
        if edges.is_empty() {
            edges.push(FormEdge {
                edge: None,
                how_read: None,
                short: String::new(),
                courses,
            });
        }
        let from = HeadOfPage::default();
        Self { job, from, edges }
    }

    /// The placements of one of its edges as they stand on the page.
    pub fn down_the_page(&self, edge: &FormEdge<'_>) -> Vec<Placement> {
        let mut placements: Vec<_> = edge.placements().collect();
        if self.from == HeadOfPage::Ridge {
            placements.reverse();
        }
        placements
    }
}

/// How far up an edge is logged; a stray number far above the rest is cut to
/// what fits on paper.
fn logged(edge: &Edge) -> Option<u32> {
    let last = edge.courses().last()?;
    Some(
        last.number
            .get()
            .clamp(CourseNumber::FIRST.get(), MOST_COURSES),
    )
}

impl FormEdge<'_> {
    /// The placements, from the eave up.
    pub fn placements(&self) -> impl Iterator<Item = Placement> {
        let last = self.courses;
        (0..=last).map(move |line| Placement {
            top_of: (line > 0).then_some(line),
            bottom_of: (line < last).then_some(line + 1),
        })
    }

    /// Its heading: `HIP H2: North slope, north-west hip`.
    pub fn heading(&self) -> String {
        match self.edge {
            Some(edge) => format!(
                "{} {}: {}",
                edge.kind.word().to_uppercase(),
                self.short,
                edge.name
            ),
            None => "EDGE".to_owned(),
        }
    }
}

impl FormEdge<'_> {
    /// What is known of the edge or is to be written down once, each word with what
    /// stands in its box.
    pub fn boxes(&self) -> [(&'static str, String); 5] {
        let edge = self.edge;
        let roof = edge.map(|edge| edge.roof);
        let name = |name: Option<&Name>| name.map_or_else(String::new, ToString::to_string);
        let slope =
            |slope: Option<Slope>| slope.map_or_else(String::new, |slope| slope.to_string());
        let corner = roof.filter(|roof| roof.corner != Corner::SQUARE);
        [
            ("plane", name(edge.and_then(|edge| edge.plane.as_ref()))),
            ("slope", slope(roof.and_then(|roof| roof.slope))),
            ("other slope", slope(roof.and_then(|roof| roof.other))),
            (
                "corner, if not square",
                corner.map_or_else(String::new, |roof| format!("{} deg", roof.corner.degrees())),
            ),
            ("lot", name(edge.and_then(|edge| edge.lot.as_ref()))),
        ]
    }
}

/// What is ticked of how an edge is read, where it is not as the job says.
pub const HOW_READ: [[&str; 2]; 2] = [
    ["read to the lap line", "to the panel's edge"],
    ["tape's end held off", "hard"],
];

impl Placement {
    /// Where the tape lies: `at the eave`, `over course 3`.
    pub fn place(self) -> String {
        match self.top_of {
            None => "at the eave".to_owned(),
            Some(course) => format!("over course {course}"),
        }
    }
}

/// To which side of an edge its panels lie, looking up, and which hand that makes.
pub fn hand_words(hand: Hand) -> String {
    format!(
        "looking up, its panels lie to its {0}: {0} hand, tape from the {0}",
        hand.word().to_uppercase()
    )
}

/// The clearance of each kind of edge, said once where all are alike.
fn clearances(settings: &Settings) -> String {
    let of = |kind| exact_with_unit(settings.kind(kind).clearance, settings.unit());
    let [first, ..] = EdgeKind::ALL;
    if EdgeKind::ALL.into_iter().all(|kind| of(kind) == of(first)) {
        return of(first);
    }
    EdgeKind::ALL
        .map(|kind| format!("{}s {}", kind.word(), of(kind)))
        .join(", ")
}

const fn read_to(to: ReadTo) -> &'static str {
    match to {
        ReadTo::LapLine => {
            "Read to the side-lap line of the last full panel, where the next panel's edge will land."
        }
        ReadTo::PanelEdge => {
            "Read to the edge of the last full panel; the side lap is added at the bench."
        }
    }
}

/// How this edge is read, where the whole job is not read alike or it is an
/// exception.
pub(super) fn how_this_is_read(edge: &Edge, settings: &Settings) -> Option<String> {
    let by_lap = settings.panels_lie != PanelsLie::NotSaid;
    let to = (by_lap || edge.reads_to.is_some()).then(|| read_to(settings.reads_to(edge)));
    let end = edge.tape_end.map(|end| match end {
        TapeEnd::HeldOff => {
            let clearance = settings.kind(edge.kind).clearance;
            format!(
                "Hold the tape's end off the board here ({}).",
                exact_with_unit(clearance, settings.unit())
            )
        }
        TapeEnd::Hard => "Hold the tape's end hard against the board here.".to_owned(),
    });
    let words: Vec<_> = to.map(str::to_owned).into_iter().chain(end).collect();
    (!words.is_empty()).then(|| words.join(" "))
}

/// How the readings of `job` are taken, step by step.
pub fn how_to_read(job: &Job) -> Vec<String> {
    let settings = &job.settings;
    let unit = settings.unit();
    let to = match settings.panels_lie {
        PanelsLie::NotSaid => read_to(settings.read_to).to_owned(),
        lie => {
            let over = if lie == PanelsLie::OverLeft {
                "left"
            } else {
                "right"
            };
            format!(
                "Looking up, each panel lies over its {over} neighbour, so every edge says to what it is read."
            )
        }
    };
    let end = match settings.tape_end {
        TapeEnd::HeldOff => format!(
            "Hold the tape's end off the board ({}); nothing is taken off later.",
            clearances(settings)
        ),
        TapeEnd::Hard => {
            "Hold the tape's end hard against the board; the clearance is taken off at the bench."
                .to_owned()
        }
    };
    vec![
        "Begin at the eave and go up. At each course line lay the tape once: it gives the top of the course below and the bottom of the course above.".to_owned(),
        to,
        end,
        format!(
            "Write what the tape shows, to {} {}.",
            settings.division.word(),
            unit.word()
        ),
        "Where the line leaves a course before the next course line, write how far up the course it runs out, and leave that reading empty.".to_owned(),
        "Write the height of a course that is cut down at the ridge.".to_owned(),
        "No full panel in the course: write the other edge's name beside it and read bottom and top from board to board, the tape's end hard, no lap; where the boards meet lower than the next course line, write how far up instead of the top. A course too wide for one panel: strike a line where the two pieces shall meet. The piece whose panel will lie on top there is read to that line as to the lap line, the piece that goes under it as to the panel's edge; write at each edge which of the two it is.".to_owned(),
        "Take all readings of an edge before the first cut.".to_owned(),
        "Where the panel maker's stagger allows it, two starts in turn, half a panel apart: the log then tells which of two readings is wrong.".to_owned(),
    ]
}
