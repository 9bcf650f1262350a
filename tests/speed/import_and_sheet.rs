//! `bendmark import` and then `bendmark sheet --format json` on 10,000 rows,
//! against the file work alone in it: CSV read, RON written and read, JSON
//! written by the same crates on the same content, sync included on both sides.

use crate::measure::Ratio;
use bendmark::domain::{cutting::Job, measure::Name, settings::Settings};
use bendmark::sheet::{json::json, rows::Rows};
use bendmark::storage::{
    files::RealFs,
    job_file,
    keeping::{load, save},
    readings,
};
use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};
use std::fmt::Write as _;
use std::fs::File;
use std::hint::black_box;
use std::io::Write as _;
use std::path::{Path, PathBuf};

const EDGES: usize = 500;
const COURSES: usize = 20;

pub(crate) fn ratio() -> Ratio {
    let folder = Path::new(env!("CARGO_TARGET_TMPDIR")).join("speed");
    std::fs::create_dir_all(&folder).unwrap();
    let csv = folder.join("readings.csv");
    std::fs::write(&csv, rows()).unwrap();
    let empty = empty_job();
    let job = folder.join("job.ron");
    let content = Content::of(&csv);
    let bare = folder.join("bare.ron");
    Ratio::of(
        "import, then sheet --format json, 10,000 rows / file work",
        2.6,
        || {
            std::fs::write(&job, &empty).unwrap();
            import(&job, &csv);
            black_box(sheet(&job));
        },
        || {
            // The same bytes put there by both sides, as the first step.
            std::fs::write(&bare, &empty).unwrap();
            black_box(content.file_work(&csv, &bare));
        },
    )
}

/// Twenty courses each of five hundred hips, narrowing by a foot a course and
/// starting anew at each wide one, to a sixteenth.
fn rows() -> String {
    let mut text = "edge,kind,hand,course,bottom,top\n".to_owned();
    for edge in 0..EDGES {
        let hand = ["left", "right"][edge % 2];
        for course in 1..=COURSES {
            let start = 40 + (edge + course) % 8;
            let over = (edge * 7 + course * 3) % 16;
            writeln!(
                text,
                "Hip {edge},hip,{hand},{course},{start} {over}/16,{} {over}/16",
                start - 12
            )
            .unwrap();
        }
    }
    text
}

fn empty_job() -> Vec<u8> {
    let job = Job::new(Name::or("Speed", "?"), Settings::default());
    job_file::encode(&job).unwrap()
}

/// What the command does between its arguments and its exit code.
fn import(job: &Path, csv: &Path) {
    let loaded = load::load(&RealFs, job).unwrap();
    let csv = load::read(&RealFs, csv).unwrap();
    let imported = readings::import(&loaded.job, &csv).unwrap();
    assert_eq!(imported.added, EDGES * COURSES);
    let bytes = job_file::encode(&imported.job).unwrap();
    save::save(&RealFs, job, &bytes).unwrap();
}

fn sheet(job: &Path) -> String {
    let loaded = load::load(&RealFs, job).unwrap();
    json(&Rows::of(&loaded.job))
}

#[derive(Serialize, Deserialize)]
struct PlainJob {
    version: u32,
    name: String,
    next_edge: u32,
    edges: Vec<PlainEdge>,
    courses: Vec<PlainCourse>,
}

#[derive(Serialize, Deserialize)]
struct PlainEdge {
    id: usize,
    name: String,
    kind: String,
    hand: String,
}

#[derive(Serialize, Deserialize)]
struct PlainCourse {
    edge: usize,
    course: usize,
    bottom: i64,
    top: i64,
}

#[derive(Serialize, Deserialize)]
struct PlainSheet {
    job: String,
    blade: String,
    panels: PlainPanels,
    pieces: Vec<PlainPiece>,
    doubtful: Vec<String>,
}

#[derive(Serialize, Deserialize)]
struct PlainPanels {
    pieces: usize,
    new: usize,
    from_offcuts: usize,
    spoiled: usize,
}

#[derive(Serialize, Deserialize)]
struct PlainPiece {
    edge: String,
    kind: String,
    hand: String,
    course: u32,
    piece: u32,
    height_mm: f64,
    bend: Vec<PlainMark>,
    cut: Vec<PlainMark>,
    skew_deg: f64,
    bend_line_mm: f64,
    cut_line_mm: f64,
    turn_up_mm: f64,
    kept_mm2: f64,
    offcut_mm2: f64,
    on_table: String,
    nose: String,
    panel: u32,
    stock: String,
    stage: String,
    lot: Option<String>,
    bend_deg: Option<f64>,
}

#[derive(Serialize, Deserialize)]
struct PlainMark {
    at: String,
    mm: f64,
    tape: String,
}

/// What the files of our side hold, as plain structs.
struct Content {
    job: PlainJob,
    sheet: PlainSheet,
    layout: PrettyConfig,
}

impl Content {
    fn of(csv: &Path) -> Self {
        let imported = {
            let job = Job::new(Name::or("Speed", "?"), Settings::default());
            let csv = std::fs::read(csv).unwrap();
            readings::import(&job, &csv).unwrap().job
        };
        let edge = |at: usize| &imported.edges()[at];
        let edges = (0..EDGES).map(|at| PlainEdge {
            id: at + 1,
            name: edge(at).name.to_string(),
            kind: "Hip".to_owned(),
            hand: edge(at).hand.word().to_owned(),
        });
        let courses = (0..EDGES).flat_map(|at| {
            let courses = edge(at).courses().iter();
            courses.map(move |course| PlainCourse {
                edge: at + 1,
                course: course.number.get() as usize,
                bottom: course.bottom.unwrap().length().nm(),
                top: course.top.unwrap().length().nm(),
            })
        });
        Self {
            job: PlainJob {
                version: 1,
                name: "Speed".to_owned(),
                next_edge: imported.next_edge(),
                edges: edges.collect(),
                courses: courses.collect(),
            },
            sheet: serde_json::from_str(&json(&Rows::of(&imported))).unwrap(),
            layout: PrettyConfig::new().depth_limit(2).new_line("\n"),
        }
    }

    fn file_work(&self, csv: &Path, ron: &PathBuf) -> usize {
        let mut reader = csv::Reader::from_path(csv).unwrap();
        let rows: Vec<csv::StringRecord> = reader.records().collect::<Result<_, _>>().unwrap();

        let text = ron::ser::to_string_pretty(&self.job, self.layout.clone()).unwrap();
        let mut file = File::create(ron).unwrap();
        file.write_all(text.as_bytes()).unwrap();
        file.sync_all().unwrap();
        drop(file);

        let text = std::fs::read_to_string(ron).unwrap();
        let job: PlainJob = ron::from_str(&text).unwrap();
        let sheet = serde_json::to_string(&self.sheet).unwrap();
        black_box(rows).len() + job.courses.len() + black_box(sheet).len()
    }
}
