//! Random gaps on random panels, and the pieces the core finds for them.
//!
//! Half of them lie anywhere; half stand on whole inches of one panel, so that
//! lines run through corners and along sides far more often than chance allows.

use bendmark::domain::{
    log::Gap,
    measure::{Hand, Length},
    piece::{CourseFrame, CourseTrouble, PieceSpec, pieces_of_gap},
    roof::EdgeKind,
    settings::{RawSettings, Settings},
};
use proptest::prelude::*;
use proptest::sample::select;

/// A gap of finished widths, the panel it is filled with, and what fills it.
#[derive(Clone, Debug)]
pub(crate) struct Filled {
    pub(crate) settings: Settings,
    pub(crate) frame: CourseFrame,
    pub(crate) gap: Gap,
    pub(crate) pieces: Vec<PieceSpec>,
}

impl Filled {
    fn new(settings: Settings, frame: CourseFrame, gap: Gap) -> Self {
        let pieces = match pieces_of_gap(gap, &frame, &settings) {
            Ok(pieces) => pieces,
            Err(CourseTrouble::NothingToCut) => Vec::new(),
            Err(trouble) => panic!("{trouble:?} for {gap:?}"),
        };
        Self {
            settings,
            frame,
            gap,
            pieces,
        }
    }
}

/// How many cases a property takes: `BENDMARK_CASES`, else `default`.
pub(crate) fn cases(default: u32) -> ProptestConfig {
    let cases = std::env::var("BENDMARK_CASES")
        .ok()
        .and_then(|count| count.parse().ok())
        .unwrap_or(default);
    ProptestConfig {
        cases,
        failure_persistence: None,
        ..ProptestConfig::default()
    }
}

/// Any gap, up to four panels wide, leaning up to two to one either way.
pub(crate) fn any_filled() -> impl Strategy<Value = Filled> {
    prop_oneof![anywhere(), on_whole_inches()]
}

fn anywhere() -> impl Strategy<Value = Filled> {
    let um = |range: std::ops::RangeInclusive<i64>| range.prop_map(Length::from_um);
    let panel = (
        um(300_000..=1_500_000),
        um(0..=150_000),
        um(150_000..=500_000),
        proptest::option::of(0_i64..=120_000),
    );
    let course = (
        select(EdgeKind::ALL.to_vec()),
        select(Hand::BOTH.to_vec()),
        proptest::option::of(0.05_f64..1.0),
        um(0..=120_000),
    );
    let gap = (
        -0.2_f64..4.0,
        prop_oneof![1 => Just(0.0), 5 => 0.001_f64..2.0, 4 => -2.0_f64..-0.001],
    );
    (panel, course, gap).prop_map(|(panel, course, gap)| {
        let (width, lap, exposure, higher) = panel;
        let (kind, hand, short, allowance) = course;
        let (panels, lean) = gap;
        let settings = settings(width, lap, exposure, higher.map(Length::from_um));
        let full = settings.panel_height();
        let short = short.map(|part| Length::rounded_from_mm(full.mm() * part));
        let bottom = Length::rounded_from_mm(width.mm() * panels);
        let run = Length::rounded_from_mm(lean * short.unwrap_or(exposure).mm());
        let frame = CourseFrame {
            kind,
            hand,
            short,
            allowance,
        };
        let top = bottom - run;
        Filled::new(settings, frame, Gap { bottom, top })
    })
}

/// Widths in inches at which something changes on a panel 48 wide that covers
/// 46: no bend line, no cut line, a line along a side, one panel more.
const TELLING: [i64; 12] = [-2, -1, 0, 2, 44, 46, 47, 48, 49, 92, 94, 95];

fn on_whole_inches() -> impl Strategy<Value = Filled> {
    let course = (
        select(EdgeKind::ALL.to_vec()),
        select(Hand::BOTH.to_vec()),
        select(vec![None, Some(7), Some(14)]),
        0_i64..=2,
    );
    (
        course,
        select(vec![None, Some(1), Some(7)]),
        prop_oneof![-4_i64..=110, select(TELLING.to_vec())],
        prop_oneof![1 => Just(0), 3 => -28_i64..=28],
    )
        .prop_map(|((kind, hand, short, allowance), higher, bottom, run)| {
            let inches = Length::from_inches;
            let settings = settings(inches(48), inches(2), inches(14), higher.map(inches));
            let frame = CourseFrame {
                kind,
                hand,
                short: short.map(inches),
                allowance: inches(allowance),
            };
            let gap = Gap {
                bottom: inches(bottom),
                top: inches(bottom - run),
            };
            Filled::new(settings, frame, gap)
        })
}

fn settings(
    panel_width: Length,
    side_lap: Length,
    exposure: Length,
    higher: Option<Length>,
) -> Settings {
    let raw = RawSettings {
        panel_width,
        side_lap,
        exposure,
        panel_height: higher.map(|higher| exposure + higher),
        ..RawSettings::default()
    };
    Settings::checked(raw).expect("in range")
}
