//! A job as plain structs, for the bare side: what ron reads and writes of it.

use ron::ser::PrettyConfig;
use serde::{Deserialize, Serialize};
use std::fs::File;
use std::hint::black_box;
use std::io::Write;
use std::path::Path;

#[derive(Serialize, Deserialize)]
pub(crate) struct PlainJob {
    version: u32,
    name: String,
    settings: PlainSettings,
    next_edge: u32,
    edges: Vec<PlainEdge>,
    courses: Vec<PlainCourse>,
    events: Vec<PlainEvent>,
}

#[derive(Serialize, Deserialize)]
enum Word {
    SixteenthInch,
    LapLine,
    HeldOff,
    RidgeDown,
    No,
    CutFirst,
    Step,
    Hip,
    Left,
    Right,
}

#[derive(Serialize, Deserialize)]
struct PlainSettings {
    division: Word,
    panel_width: i64,
    side_lap: i64,
    exposure: i64,
    read_to: Word,
    tape_end: Word,
    least_turn_up: i64,
    ridge_turn_up: i64,
    tolerance: i64,
    blade: Word,
    laying: Word,
    stack_turned: Word,
    bench_order: Word,
    one_key: Word,
    pause: u32,
}

#[derive(Serialize, Deserialize)]
struct PlainEdge {
    id: u32,
    name: String,
    kind: Word,
    hand: Word,
}

#[derive(Serialize, Deserialize)]
struct PlainCourse {
    edge: u32,
    course: u32,
    bottom: i64,
    top: i64,
}

#[derive(Serialize, Deserialize)]
struct PlainEvent {
    #[serde(default)]
    at: i64,
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    joined: bool,
    fact: PlainFact,
}

#[derive(Serialize, Deserialize, Clone, Copy)]
struct PlainPiece {
    edge: u32,
    course: u32,
    piece: u32,
}

#[derive(Serialize, Deserialize)]
enum PlainStock {
    New { panel: u32 },
    Offcut { offcut: u32, panel: u32 },
}

#[derive(Serialize, Deserialize)]
enum PlainRest {
    Kept { offcut: u32, promised: PlainPiece },
    Waste,
}

#[derive(Serialize, Deserialize)]
enum PlainFact {
    Marked {
        edge: u32,
        course: u32,
        piece: u32,
        kind: Word,
        hand: Word,
        at_nose: i64,
        at_rise: i64,
        rise: i64,
        allowance: i64,
        panel_width: i64,
        panel_height: i64,
        stock: PlainStock,
    },
    Cut {
        edge: u32,
        course: u32,
        piece: u32,
        rest: PlainRest,
    },
    Bent {
        edge: u32,
        course: u32,
        piece: u32,
    },
    Stacked {
        edge: u32,
        course: u32,
        piece: u32,
    },
    Promised {
        offcut: u32,
        piece: PlainPiece,
    },
}

impl PlainJob {
    pub(crate) fn of(file: &[u8]) -> Self {
        let plain: Self = ron::from_str(std::str::from_utf8(file).unwrap()).unwrap();
        // As much of it as matters: within a fiftieth of the file's size.
        let missing = file.len() - plain.text().len();
        assert!(missing < file.len() / 50, "{missing} bytes less");
        plain
    }

    fn text(&self) -> String {
        let layout = PrettyConfig::new().depth_limit(2).new_line("\n");
        ron::ser::to_string_pretty(self, layout).unwrap()
    }

    /// A new file, synced; the last one linked as a copy; renamed; the folder
    /// synced.
    pub(crate) fn bare_recipe(&self, path: &Path) {
        let text = black_box(self.text());
        let temp = path.with_extension("new");
        let backup = path.with_extension("bak");
        let mut file = File::create_new(&temp).unwrap();
        file.write_all(text.as_bytes()).unwrap();
        file.sync_all().unwrap();
        let _ = std::fs::remove_file(&backup);
        std::fs::hard_link(path, &backup).unwrap();
        std::fs::rename(&temp, path).unwrap();
        File::open(path.parent().unwrap())
            .unwrap()
            .sync_all()
            .unwrap();
    }
}
