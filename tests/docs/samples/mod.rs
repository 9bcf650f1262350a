//! The sample jobs: written by a generator from a roof, opened and re-saved.

mod roof;

use bendmark::domain::{
    bench::Progress,
    cutting::{CutList, Job},
    log::{Edge, ReadTo, Reading},
    measure::{Hand, Length, Name},
    piece::own_lean,
    roof::{EdgeKind, RoofLine, Slope},
    settings::{Setting, Settings},
    tape::exact,
};
use bendmark::storage::{
    files::RealFs,
    job_file::{Seal, encode},
    keeping::{Source, load, read, save},
    readings::import,
};
use roof::{Plane, Top};
use std::collections::BTreeMap;
use std::fmt::Write;
use std::path::{Path, PathBuf};

/// A sample: the job's name, its file's, its settings, the slope of all its
/// planes, and the planes with their names and those of the hips at their left
/// and right end, seen from the eave.
struct Sample {
    name: &'static str,
    file: &'static str,
    settings: &'static [(Setting, &'static str)],
    slope: &'static str,
    planes: Vec<(Plane, &'static str, [&'static str; 2])>,
}

const ENDS: [Hand; 2] = [Hand::Right, Hand::Left];

/// A house of 48 by 26 ft at 6 in 12, with a wing 20 ft wide to the south;
/// its hip ends are logged up to the peak.
fn inches() -> Sample {
    let slope = "6 in 12";
    let feet = |feet: i64| Length::from_inches(12 * feet);
    let plane = |eave, half_width: Length, bond, ridge: bool| Plane {
        eave: feet(eave),
        up: Length::rounded_from_mm(half_width.mm() * 1.25_f64.sqrt()),
        slope: Slope::parse(slope).unwrap(),
        bond: Length::from_inches(bond),
        ridge,
        peak: !ridge,
    };
    Sample {
        name: "Alder Court 9",
        file: "alder-court-inches",
        settings: &[],
        slope,
        planes: vec![
            (
                plane(48, feet(13), 5, true),
                "North slope",
                ["north-east hip", "north-west hip"],
            ),
            (
                plane(26, feet(13), -3, false),
                "West end",
                ["north-west hip", "south-west hip"],
            ),
            (
                plane(20, feet(10), 5, false),
                "Wing end",
                ["south-west hip", "south-east hip"],
            ),
        ],
    }
}

/// A house of 14.2 by 8.6 m at 58 %, with a wing 7 m wide to the east; the
/// tape held hard against the hip board, each panel over its left neighbour.
fn millimetres() -> Sample {
    let slope = "58 %";
    let mm = Length::from_mm;
    let plane = |eave, half_width: Length, bond, ridge| Plane {
        eave: mm(eave),
        up: Length::rounded_from_mm(half_width.mm() * (1.0 + 0.58 * 0.58_f64).sqrt()),
        slope: Slope::parse(slope).unwrap(),
        bond: mm(bond),
        ridge,
        peak: false,
    };
    Sample {
        name: "Brook Meadow 4",
        file: "brook-meadow-millimetres",
        settings: &[
            (Setting::Units, "mm"),
            (Setting::PanelWidth, "1300"),
            (Setting::SideLap, "75"),
            (Setting::Exposure, "360"),
            (Setting::TapeEnd, "hard"),
            (Setting::Clearance(EdgeKind::Hip), "6"),
            (Setting::Standing(EdgeKind::Hip), "45"),
            (Setting::Blade, "left"),
            (Setting::PanelsLie, "left-neighbour"),
        ],
        slope,
        planes: vec![
            (
                plane(14_200, mm(4_300), 140, true),
                "West slope",
                ["north-west hip", "south-west hip"],
            ),
            (
                plane(8_600, mm(4_300), -90, false),
                "South end",
                ["south-west hip", "south-east hip"],
            ),
            (
                plane(7_000, mm(3_500), 60, false),
                "Wing end",
                ["south hip", "north hip"],
            ),
        ],
    }
}

fn samples() -> [Sample; 2] {
    [inches(), millimetres()]
}

impl Sample {
    fn settings(&self) -> Settings {
        let start = Settings::default();
        self.settings
            .iter()
            .fold(start, |settings, (setting, text)| {
                setting.set(&settings, text).unwrap()
            })
    }

    fn csv(&self) -> String {
        let settings = self.settings();
        let peak = self.planes.iter().any(|(plane, ..)| plane.peak);
        let mut csv = "edge,kind,hand,course,bottom,top,height,slope,plane".to_owned();
        csv.push_str(if peak { ",to\n" } else { "\n" });
        let say = |reading: Reading| exact(reading.length(), settings.unit());
        for (plane, plane_name, names) in &self.planes {
            for (hand, name) in ENDS.into_iter().zip(names) {
                // Of an edge, its first row says it all.
                let mut of_edge = [self.slope, plane_name];
                for row in plane.rows(hand, &settings) {
                    let [slope, plane] = std::mem::take(&mut of_edge);
                    let top = match row.top {
                        Top::Read(top) => say(top),
                        Top::Meet(up) => format!("meet {}", say(up)),
                    };
                    write!(
                        csv,
                        "\"{plane_name}, {name}\",hip,{},{},{},{top},{},{slope},{plane}",
                        hand.word(),
                        row.number,
                        say(row.bottom),
                        row.height.map_or_else(String::new, say)
                    )
                    .unwrap();
                    if row.to_other {
                        write!(csv, ",\"{plane_name}, {}\"", names[1]).unwrap();
                    } else if peak {
                        csv.push(',');
                    }
                    csv.push('\n');
                }
            }
        }
        csv
    }

    fn empty(&self) -> Job {
        Job::new(Name::or(self.name, "?"), self.settings())
    }

    fn job(&self) -> Job {
        typed(import(&self.empty(), self.csv().as_bytes()).unwrap().job)
    }

    fn path(&self, extension: &str) -> PathBuf {
        let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-jobs");
        folder.join(self.file).with_extension(extension)
    }
}

#[track_caller]
fn check_file(path: &Path, expected: &[u8]) {
    if std::env::var_os("BENDMARK_WRITE_SAMPLES").is_some() {
        std::fs::write(path, expected).unwrap();
    }
    let same = std::fs::read(path).unwrap() == expected;
    assert!(same, "{} is not what the generator writes", path.display());
}

#[test]
fn the_samples_are_what_the_generator_writes() {
    for sample in samples() {
        check_file(&sample.path("csv"), sample.csv().as_bytes());
        check_file(&sample.path("ron"), &encode(&sample.job()).unwrap());
    }
}

#[test]
fn every_sample_opens_whole_and_is_saved_again_to_the_same_bytes() {
    for sample in samples() {
        let loaded = load(&RealFs, &sample.path("ron")).unwrap();
        assert_eq!((loaded.seal, loaded.from), (Seal::Whole, Source::File));
        let folder = tempfile::tempdir().unwrap();
        let copy = folder.path().join("copy.ron");
        save(&RealFs, &copy, &encode(&loaded.job).unwrap()).unwrap();
        let (one, other) = (std::fs::read(copy), std::fs::read(sample.path("ron")));
        assert_eq!(one.unwrap(), other.unwrap());
    }
}

/// `job` as if its readings were typed: a sample is no sheet's.
fn typed(mut job: Job) -> Job {
    let ids: Vec<_> = job.edges().iter().map(|edge| edge.id).collect();
    for id in ids {
        job.edge_mut(id).unwrap().said.clear();
    }
    job
}

#[test]
fn every_sample_csv_is_imported_into_a_new_job_and_skipped_in_its_own() {
    for sample in samples() {
        let csv = read(&RealFs, &sample.path("csv")).unwrap();
        let imported = import(&sample.empty(), &csv).unwrap();
        assert_eq!(typed(imported.job.clone()), sample.job());
        let again = import(&imported.job, &csv).unwrap();
        assert_eq!((again.added, again.skipped), (0, imported.added));
    }
}

#[test]
fn every_sample_has_hips_of_both_hands_with_six_to_fourteen_courses() {
    for sample in samples() {
        let job = sample.job();
        assert!(job.edges().len() >= 4);
        for hand in Hand::BOTH {
            assert!(job.edges().iter().any(|edge| edge.hand == hand));
        }
        for edge in job.edges() {
            let courses = edge.courses().len();
            assert!((6..=14).contains(&courses), "{} has {courses}", edge.name);
        }
    }
}

/// The lean of a hip between equal slopes at a square corner is the cosine of
/// the slope, as the rafter tables have it (tests/outside/rafter_table.rs).
#[test]
fn every_sample_hip_leans_as_its_roof_says() {
    for sample in samples() {
        let job = sample.job();
        let slope = Slope::parse(sample.slope).unwrap();
        let cos = slope.tan().atan().cos();
        let close = job.settings.division.step().mm() / job.settings.exposure.mm();
        for edge in job.edges() {
            assert_eq!(edge.roof, RoofLine::even(slope), "{}", edge.name);
            let lean = own_lean(edge, &job.settings).unwrap();
            assert!(
                (lean - cos).abs() < close,
                "{}: {lean} for {cos}",
                edge.name
            );
        }
    }
}

/// Common practice: a plane between two hips has one of each hand.
#[test]
fn every_sample_plane_has_one_edge_of_each_hand() {
    for sample in samples() {
        let job = sample.job();
        let mut planes: BTreeMap<_, Vec<Hand>> = BTreeMap::new();
        for edge in job.edges() {
            let plane = edge.plane.as_ref().unwrap();
            planes.entry(plane).or_default().push(edge.hand);
        }
        assert_eq!(planes.len(), sample.planes.len());
        for (plane, hands) in planes {
            assert_eq!(hands, ENDS, "{plane}");
        }
    }
}

#[test]
fn a_minority_of_the_gaps_in_every_sample_is_wider_than_a_panel() {
    for sample in samples() {
        let job = sample.job();
        let list = CutList::of(&job, &Progress::default());
        assert_eq!(list.empty, []);
        let wide = list.pieces.iter().filter(|piece| piece.id.number == 2);
        let (wide, all) = (wide.count(), list.pieces.len());
        assert!(wide > 0 && wide * 3 < all, "{wide} of {all}");
        assert!(list.pieces.iter().all(|piece| piece.id.number <= 2));
    }
}

#[test]
fn one_sample_has_pieces_cut_at_both_ends_and_one_has_edges_read_both_ways() {
    let [inches, millimetres] = samples().map(|sample| sample.job());
    let list = CutList::of(&inches, &Progress::default());
    let both = list.pieces.iter().map(|piece| piece.spec);
    let both: Vec<_> = both.filter(|spec| spec.near.is_some()).collect();
    assert_eq!(both.len(), 4);
    assert_eq!(both.iter().filter(|spec| spec.tip().is_some()).count(), 2);
    for edge in millimetres.edges() {
        let expected = match edge.hand {
            Hand::Left => ReadTo::LapLine,
            Hand::Right => ReadTo::PanelEdge,
        };
        assert_eq!(millimetres.settings.reads_to(edge), expected);
    }
}

/// Under a course from board to board the two gaps, what the tape was held off
/// at both, and full panels make up its bottom, with the side lap in once.
#[test]
fn under_a_course_from_board_to_board_the_side_lap_is_in_once() {
    let job = inches().job();
    let [lap, cover] = [job.settings.side_lap.mm(), job.settings.cover().mm()];
    let mut seen = 0;
    for edge in job.edges() {
        let across = edge.courses().iter().find(|course| course.to.is_some());
        let Some(across) = across else { continue };
        let other = job.edge(across.to.unwrap()).unwrap();
        let top = |edge: &Edge| {
            let below = edge.course(across.number.before()).unwrap();
            let held_off = job.settings.kind(edge.kind).clearance.mm();
            below.top.unwrap().length().mm() + held_off
        };
        let panels = (across.bottom.unwrap().length().mm() + lap - top(edge) - top(other)) / cover;
        assert!((panels - panels.round()).abs() * cover < 3.0, "{panels}");
        seen += 1;
    }
    assert_eq!(seen, 2);
}
