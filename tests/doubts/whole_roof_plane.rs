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
//!
//! Over 400 lines: one roof, from its slopes to what a tape shows of it.

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

/// How true the rows lie: how much more or less than its cover each panel shows,
/// up to 1/32 in.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub(crate) enum Laid {
    /// Not at all.
    True,
    /// All panels of the plane alike.
    Alike,
    /// All of a row alike, each row anew.
    RowByRow,
    /// All alike, and a dormer stands in two courses or more, beyond which their
    /// rows begin anew.
    Broken,
}

impl Laid {
    pub(crate) const ALL: [Self; 4] = [Self::True, Self::Alike, Self::RowByRow, Self::Broken];

    pub(crate) fn word(self) -> &'static str {
        match self {
            Self::True => "true",
            Self::Alike => "creep alike",
            Self::RowByRow => "creep row by row",
            Self::Broken => "broken",
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

/// What all planes of a roof have in common.
#[derive(Clone, Copy, Debug)]
pub(crate) struct Roof {
    pub(crate) exposure: i64,
    pub(crate) panel: i64,
    /// Which end is read to the panel's edge, since each panel lies over its left
    /// or over its right neighbour; none where nobody looked.
    under: Option<usize>,
    /// To what the ends are read follows from how the panels lie, which the job
    /// says; else each edge says it.
    pub(crate) job_says: bool,
}

impl Roof {
    fn any(chance: &mut Chance) -> Self {
        let under = usize::try_from(chance.whole(0, 2)).ok();
        Self {
            exposure: 12 * PARTS + PARTS / 4 * chance.whole(0, 16),
            panel: PARTS * chance.whole(40, 54),
            under: under.filter(|end| *end < 2),
            job_says: chance.coin(),
        }
    }
}

/// A plane as it stands: its left end first.
#[derive(Clone, Debug)]
pub(crate) struct Plane {
    pub(crate) roof: Roof,
    pub(crate) rise: i64,
    pub(crate) sides: [Side; 2],
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

/// How one row lies, in inches.
struct Row {
    start: f64,
    creep: f64,
    /// How much further on its far part begins anew.
    beyond: f64,
}

impl Field {
    /// The gaps near and far of course `at`, and its full panels; none where not
    /// one full panel is left between both.
    fn gaps(&self, at: i64, row: &Row) -> Option<([[f64; 2]; 2], i64)> {
        let lap = inches(LAP);
        let shows = self.cover + row.creep;
        let near = [at, at + 1].map(|line| self.steps[0] * float(line));
        let far = [at, at + 1].map(|line| self.eave - self.steps[1] * float(line));
        let (inner, outer) = (near[0].max(near[1]), far[0].min(far[1]));
        let first = row.start + ((inner - row.start) / shows).ceil() * shows;
        // The last full panel reaches a side lap past its lap line.
        let panels = ((outer - lap - first - row.beyond) / shows).floor();
        if panels < 1.0 {
            return None;
        }
        let lap_line = first + row.beyond + panels * shows;
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
    leaning(kind, [rise, other], exposure, chance.whole(0, 3) == 0)
}

/// With this side's rise in 12 and the neighbour's.
fn leaning(kind: EdgeKind, [rise, other]: [i64; 2], exposure: i64, hard: bool) -> Side {
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
        hard,
        gaps: Vec::new(),
    }
}

/// Two hips, or a hip and a valley or rake.
fn ends(rise: i64, roof: &Roof, chance: &mut Chance) -> [Side; 2] {
    let mut kinds = match chance.whole(0, 3) {
        0 | 1 => [EdgeKind::Hip, EdgeKind::Hip],
        2 => [EdgeKind::Hip, EdgeKind::Valley],
        _ => [EdgeKind::Hip, EdgeKind::Rake],
    };
    if chance.coin() {
        kinds.reverse();
    }
    let mut sides = kinds.map(|kind| side(kind, rise, roof.exposure, chance));
    if let Some(under) = roof.under {
        sides[under].to_panel_edge = true;
    }
    sides
}

/// The rows going up, without end.
struct Laying<'a> {
    rows: Rows,
    laid: Laid,
    cover: f64,
    by: f64,
    start: f64,
    creep: f64,
    /// The courses beside a dormer.
    dormer: std::ops::Range<i64>,
    beyond: f64,
    chance: &'a mut Chance,
}

impl<'a> Laying<'a> {
    fn begun(rows: Rows, laid: Laid, cover: f64, courses: i64, chance: &'a mut Chance) -> Self {
        let by = shift(rows, cover, chance);
        let start = chance.even(0.0, cover);
        let creep = chance.even(-1.0, 1.0) / 32.0;
        let high = chance.whole(2, (courses / 3).max(2));
        let foot = chance.whole(0, courses - high);
        let beyond = chance.even(0.0, cover);
        Self {
            rows,
            laid,
            cover,
            by,
            start,
            creep,
            dormer: foot..foot + high,
            beyond,
            chance,
        }
    }

    fn row(&mut self, at: i64) -> Row {
        let anew = self.chance.even(-1.0, 1.0) / 32.0;
        let beyond = match self.rows {
            Rows::Random => self.chance.even(0.0, self.cover),
            _ => self.beyond,
        };
        let broken = self.laid == Laid::Broken && self.dormer.contains(&at);
        let row = Row {
            // No row begins dead true, and none is laid dead tight.
            start: self.start + self.chance.even(-0.125, 0.125),
            creep: match self.laid {
                Laid::True => 0.0,
                Laid::Alike | Laid::Broken => self.creep,
                Laid::RowByRow => anew,
            },
            beyond: if broken { beyond } else { 0.0 },
        };
        self.start = match self.rows {
            Rows::Random => self.chance.even(0.0, self.cover),
            Rows::Alternating if at % 2 == 1 => self.start - self.by,
            _ => self.start + self.by,
        };
        row
    }
}

impl Plane {
    /// The planes of a house, each of 5 to 20 courses.
    pub(crate) fn house<const PLANES: usize>(
        rows: Rows,
        laid: Laid,
        chance: &mut Chance,
    ) -> [Self; PLANES] {
        let roof = Roof::any(chance);
        std::array::from_fn(|_| {
            loop {
                let plane = Self::any(roof, rows, laid, chance);
                if plane.full.len() >= 5 {
                    return plane;
                }
            }
        })
    }

    fn any(roof: Roof, rows: Rows, laid: Laid, chance: &mut Chance) -> Self {
        let rise = chance.whole(3, 12);
        let sides = ends(rise, &roof, chance);
        let from_right = chance.coin();
        let eave = chance.even(180.0, 600.0);
        let courses = chance.whole(5, 20);
        Self::stands(
            roof,
            (rise, sides, from_right),
            (eave, courses),
            (rows, laid),
            chance,
        )
    }

    /// One side of a hipped roof, in feet along the eave, as high as its hips let whole
    /// rows lie.
    pub(crate) fn between_hips(rise: i64, eave: i64, rows: Rows, chance: &mut Chance) -> Self {
        let roof = Roof {
            exposure: 14 * PARTS,
            panel: 52 * PARTS,
            under: None,
            job_says: false,
        };
        let hip = || leaning(EdgeKind::Hip, [rise, rise], roof.exposure, false);
        let sides = (rise, [hip(), hip()], false);
        Self::stands(
            roof,
            sides,
            (12.0 * float(eave), 11),
            (rows, Laid::True),
            chance,
        )
    }

    fn stands(
        roof: Roof,
        (rise, mut sides, from_right): (i64, [Side; 2], bool),
        (eave, courses): (f64, i64),
        (rows, laid): (Rows, Laid),
        chance: &mut Chance,
    ) -> Self {
        let mut steps = [sides[0].step, sides[1].step];
        if from_right {
            steps.reverse();
        }
        let field = Field {
            cover: inches(roof.panel - LAP),
            eave,
            steps,
        };
        let mut laying = Laying::begun(rows, laid, field.cover, courses, chance);
        let rows = (0..courses).map_while(|at| field.gaps(at, &laying.row(at)));
        let mut full = Vec::new();
        for (mut gaps, panels) in rows {
            if from_right {
                gaps.reverse();
            }
            for (side, gaps) in sides.iter_mut().zip(gaps) {
                side.gaps.push(gaps);
            }
            full.push(panels);
        }
        Self {
            roof,
            rise,
            sides,
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
