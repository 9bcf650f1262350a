//! A true roof plane, its rows of panels, and the gaps at both of its ends.
//!
//! ```text
//!            near                         far        line k + 1
//!   --------/-|-------|-------|-------|-----\------
//!          /  first          panels  lap line \      course k
//!   ------/---|-------|-------|-------|--------\---  line k
//! ```
//!
//! Made in floating point from the plan: at a square corner a hip lies where
//! both sides are equally high, so for a run `y` of this side it stands
//! `y * m1 / m2` in from the eaves' corner; a valley as much out. A row starts at
//! one end; each of its panels may show a little more or less than its cover. Shares `Length` and the job's types with the program and
//! none of its formulas.

use crate::maker::Chance;
use bendmark::domain::measure::Length;
use bendmark::domain::roof::EdgeKind;

/// So many parts of an inch a figure is counted in: sixteenths and tenths are
/// whole in it.
pub(crate) const PARTS: i64 = 80;
pub(crate) const LAP: i64 = 2 * PARTS;
/// Held hard, a reading is as much longer (the program's own usual clearance is
/// set to this in the job).
pub(crate) const CLEARANCE: i64 = PARTS / 4;

pub(crate) fn length(parts: i64) -> Length {
    Length::from_nm(parts * (25_400_000 / PARTS))
}

#[expect(clippy::cast_precision_loss, reason = "figures of one roof")]
pub(crate) fn float(whole: i64) -> f64 {
    whole as f64
}

pub(crate) fn inches(parts: i64) -> f64 {
    float(parts) / float(PARTS)
}

/// How the rows are laid against each other.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Rows {
    /// Joint over joint.
    Straight,
    /// Each row moved on by the same amount.
    Running,
    /// Moved on and back in turn.
    Alternating,
    Random,
}

impl Rows {
    pub(crate) const ALL: [Self; 4] = [
        Self::Straight,
        Self::Running,
        Self::Alternating,
        Self::Random,
    ];

    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::Straight => "straight",
            Self::Running => "running",
            Self::Alternating => "alternating",
            Self::Random => "random",
        }
    }
}

/// How much more or less than its cover each panel shows, up to 1/32 in.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Creep {
    None,
    /// All panels of the plane alike.
    OfPlane,
    /// All of a row alike, each row anew.
    OfRow,
}

impl Creep {
    pub(crate) const ALL: [Self; 3] = [Self::None, Self::OfPlane, Self::OfRow];

    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::None => "none",
            Self::OfPlane => "all alike",
            Self::OfRow => "row by row",
        }
    }
}

/// One end of the plane. Gaps are finished widths in inches.
#[derive(Clone, Debug)]
pub(crate) struct Side {
    pub(crate) kind: EdgeKind,
    /// The neighbour's rise in 12.
    pub(crate) other: i64,
    /// In towards the middle from one course line to the next.
    pub(crate) step: f64,
    /// Read to the panel's edge, so each reading is a side lap less.
    pub(crate) to_panel_edge: bool,
    /// The tape is held hard against the board.
    pub(crate) hard: bool,
    /// Bottom and top of each course, from the eave.
    pub(crate) gaps: Vec<[f64; 2]>,
}

/// A plane as it stands: its left end first.
#[derive(Clone, Debug)]
pub(crate) struct Plane {
    pub(crate) rise: i64,
    pub(crate) exposure: i64,
    pub(crate) panel: i64,
    pub(crate) sides: [Side; 2],
    /// To what the ends are read follows from how the panels lie, which the job
    /// says; else each edge says it.
    pub(crate) job_says: bool,
    /// Full panels of each row.
    pub(crate) full: Vec<i64>,
}

/// In inches along the eave, from where the rows start.
struct Field {
    cover: f64,
    eave: f64,
    /// Near and far.
    steps: [f64; 2],
}

impl Field {
    /// The gaps near and far of course `at`, and its full panels; none where not
    /// one full panel is left between both.
    fn gaps(&self, at: i64, start: f64, creep: f64) -> Option<([[f64; 2]; 2], i64)> {
        let lap = inches(LAP);
        let shows = self.cover + creep;
        let near = [at, at + 1].map(|line| self.steps[0] * float(line));
        let far = [at, at + 1].map(|line| self.eave - self.steps[1] * float(line));
        let (inner, outer) = (near[0].max(near[1]), far[0].min(far[1]));
        let first = start + ((inner - start) / shows).ceil() * shows;
        // The last full panel reaches a side lap past its lap line.
        let panels = ((outer - lap - first) / shows).floor();
        if panels < 1.0 {
            return None;
        }
        let lap_line = first + panels * shows;
        #[expect(clippy::cast_possible_truncation, reason = "panels of one row")]
        let full = panels as i64;
        let gaps = [
            near.map(|board| first + lap - board),
            far.map(|board| board - lap_line),
        ];
        Some((gaps, full))
    }
}

/// How far the next row is moved on, in inches.
fn shift(rows: Rows, cover: f64, chance: &mut Chance) -> f64 {
    match (rows, chance.whole(0, 3)) {
        (Rows::Straight | Rows::Random, _) => 0.0,
        (Rows::Alternating, 0 | 1) => cover / 2.0,
        (_, 0..=2) => cover / 3.0,
        _ => chance.even(0.1, 0.9) * cover,
    }
}

fn side(kind: EdgeKind, rise: i64, exposure: i64, chance: &mut Chance) -> Side {
    let other = if kind == EdgeKind::Rake || chance.coin() {
        rise
    } else {
        chance.whole((rise - 4).max(3), (rise + 4).min(12))
    };
    let run = inches(exposure) * 12.0 / float(rise).hypot(12.0);
    let in_plan = run * float(rise) / float(other);
    let step = match kind {
        EdgeKind::Hip => in_plan,
        EdgeKind::Valley => -in_plan,
        EdgeKind::Rake => 0.0,
    };
    Side {
        kind,
        other,
        step,
        to_panel_edge: false,
        hard: chance.whole(0, 3) == 0,
        gaps: Vec::new(),
    }
}

/// Two hips, or a hip and a valley or rake; how they are read follows from how
/// the panels lie.
fn ends(rise: i64, exposure: i64, chance: &mut Chance) -> [Side; 2] {
    let mut kinds = match chance.whole(0, 3) {
        0 | 1 => [EdgeKind::Hip, EdgeKind::Hip],
        2 => [EdgeKind::Hip, EdgeKind::Valley],
        _ => [EdgeKind::Hip, EdgeKind::Rake],
    };
    if chance.coin() {
        kinds.reverse();
    }
    let mut sides = kinds.map(|kind| side(kind, rise, exposure, chance));
    // Not said, or each panel over its left or over its right neighbour.
    match chance.whole(0, 2) {
        0 => {}
        lies => sides[usize::from(lies == 2)].to_panel_edge = true,
    }
    sides
}

impl Plane {
    /// One of 5 to 20 courses.
    pub(crate) fn made(rows: Rows, creep: Creep, chance: &mut Chance) -> Self {
        loop {
            let plane = Self::any(rows, creep, chance);
            if plane.full.len() >= 5 {
                return plane;
            }
        }
    }

    fn any(rows: Rows, creep: Creep, chance: &mut Chance) -> Self {
        let rise = chance.whole(3, 12);
        let exposure = 12 * PARTS + PARTS / 4 * chance.whole(0, 16);
        let panel = PARTS * chance.whole(40, 54);
        let mut sides = ends(rise, exposure, chance);
        let job_says = chance.coin();
        let from_right = chance.coin();
        let mut steps = [sides[0].step, sides[1].step];
        if from_right {
            steps.reverse();
        }
        let field = Field {
            cover: inches(panel - LAP),
            eave: chance.even(180.0, 600.0),
            steps,
        };
        let courses = chance.whole(5, 20);
        let by = shift(rows, field.cover, chance);
        let mut start = chance.even(0.0, field.cover);
        let mut full = Vec::new();
        let mut shows = chance.even(-1.0, 1.0) / 32.0;
        for at in 0..courses {
            // No row begins dead true, and none is laid dead tight.
            let begins = start + chance.even(-0.125, 0.125);
            let anew = chance.even(-1.0, 1.0) / 32.0;
            shows = match creep {
                Creep::None => 0.0,
                Creep::OfPlane => shows,
                Creep::OfRow => anew,
            };
            let Some((mut gaps, panels)) = field.gaps(at, begins, shows) else {
                break;
            };
            if from_right {
                gaps.reverse();
            }
            for (side, gaps) in sides.iter_mut().zip(gaps) {
                side.gaps.push(gaps);
            }
            full.push(panels);
            start = match rows {
                Rows::Random => chance.even(0.0, field.cover),
                Rows::Alternating if at % 2 == 1 => start - by,
                _ => start + by,
            };
        }
        Self {
            rise,
            exposure,
            panel,
            sides,
            job_says,
            full,
        }
    }

    /// What a tape with this standard deviation, in inches, shows: to the nearest
    /// sixteenth, in parts.
    pub(crate) fn read(&self, deviation: f64, chance: &mut Chance) -> [Vec<[i64; 2]>; 2] {
        [0, 1].map(|at| {
            let side = &self.sides[at];
            let lap = if side.to_panel_edge { LAP } else { 0 };
            let hard = if side.hard { CLEARANCE } else { 0 };
            let raw = inches(hard - lap);
            let mut read = |gap: f64| taped(gap + raw + deviation * normal(chance));
            let pairs = side.gaps.iter().map(|gaps| gaps.map(&mut read));
            pairs.collect()
        })
    }
}

#[expect(clippy::cast_possible_truncation, reason = "sixteenths on a roof")]
fn taped(inches: f64) -> i64 {
    ((inches * 16.0).round() as i64).max(0) * (PARTS / 16)
}

/// Box and Muller's way from two even chances to a normal one.
fn normal(chance: &mut Chance) -> f64 {
    let radius = (-2.0 * (1.0 - chance.even(0.0, 1.0)).ln()).sqrt();
    radius * (std::f64::consts::TAU * chance.even(0.0, 1.0)).cos()
}
