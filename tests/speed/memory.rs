//! The most memory that `sheet` and `import` take, against what is promised of
//! them: of a sheet 20 times the job file or 64 MiB, of an import 4 times the CSV
//! or 64 MiB, whichever is more. Each command runs in a process of its own, this
//! very bench started once more, which says at its end what /proc says of it.

use crate::bare;
use crate::measure::Ratio;
use std::fmt::Write as _;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Stdio};

/// What any command may take.
const FLOOR: u64 = 64 << 20;

/// No ratios where the system does not say what a process has taken.
pub(crate) fn ratios() -> Vec<Ratio> {
    let folder = tempfile::tempdir().unwrap();
    let folder = folder.path();
    let mut all = Vec::new();
    // As many pieces as a job may have: one a course, and many.
    let [long, wide] = [log(2_000, 49, [30, 20]), log(12, 100, [3_600, 3_580])];
    for (name, log) in [("98,000 courses", long), ("1,200 wide courses", wide)] {
        all.extend(import(folder, name, log.as_bytes()));
        for format in ["text", "csv", "json", "html"] {
            all.extend(sheet(folder, name, format));
        }
    }
    let commas = [HEADER.as_bytes(), &vec![b','; 100_000_000]].concat();
    all.extend(import(folder, "100 MB of commas", &commas));
    let bad = format!("{HEADER}{}", "a,b,c,d,e,f\n".repeat(1_500_000));
    all.extend(import(folder, "1,500,000 bad rows", bad.as_bytes()));
    let wide: Vec<u8> = std::iter::once(0xFEFF)
        .chain(bad.encode_utf16())
        .flat_map(u16::to_le_bytes)
        .collect();
    all.extend(import(folder, "the same as UTF-16", &wide));
    all
}

const HEADER: &str = "edge,kind,hand,course,bottom,top\n";

/// A log of so many edges, each of so many courses about as wide as `inches`.
fn log(edges: u32, courses: u32, inches: [u32; 2]) -> String {
    let mut text = HEADER.to_owned();
    for edge in 0..edges {
        for course in 1..=courses {
            let [bottom, top] = inches.map(|inches| inches + (edge * 3 + course) % 10);
            writeln!(text, "Hip {edge},hip,left,{course},{bottom},{top}").unwrap();
        }
    }
    text
}

fn job(folder: &Path, name: &str) -> String {
    let path = folder.join(name).with_extension("ron");
    path.to_str().unwrap().to_owned()
}

fn sheet(folder: &Path, name: &str, format: &str) -> Option<Ratio> {
    let job = job(folder, name);
    let most = FLOOR.max(20 * std::fs::metadata(&job).unwrap().len());
    let peak = peak(&["sheet", &job, "--format", format])?;
    Some(ratio(&format!("sheet {format}, {name}"), peak, most))
}

fn import(folder: &Path, name: &str, rows: &[u8]) -> Option<Ratio> {
    let job = job(folder, name);
    let csv = folder.join("readings.csv");
    let mut file = std::fs::File::create(&csv).unwrap();
    file.write_all(rows).unwrap();
    peak(&["new", &job])?;
    let csv = csv.to_str().unwrap();
    let peak = peak(&["import", &job, csv, "--same-figures"])?;
    let most = FLOOR.max(4 * u64::try_from(rows.len()).unwrap());
    Some(ratio(&format!("import of {name}"), peak, most))
}

fn ratio(what: &str, peak: u64, most: u64) -> Ratio {
    let name = format!("memory, {what} ({} / {} MiB)", peak >> 20, most >> 20);
    Ratio::known(name, peak as f64 / most as f64, 1.0)
}

/// The most that a command had of the memory, in bytes.
fn peak(args: &[&str]) -> Option<u64> {
    let output = Command::new(std::env::current_exe().unwrap())
        .args(args)
        .env(bare::ROLE, bare::COMMAND)
        .stdin(Stdio::null())
        .stdout(Stdio::null())
        .output()
        .unwrap();
    let said = String::from_utf8(output.stderr).unwrap();
    said.lines().last()?.strip_prefix("peak ")?.parse().ok()
}
