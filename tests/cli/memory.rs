//! What memory `sheet` and `import` take, of the real program: what the system
//! says while it still runs. `cargo bench` measures the same to the end, on the
//! largest jobs there are.

use super::Bench;
use bendmark::storage::readings::import;
use bendmark::storage::{job_file, readings::Imported};
use std::fmt::Write as _;
use std::io::Read;
use std::process::{Child, Stdio};

const MIB: u64 = 1 << 20;

/// The most memory that a running process has had, in bytes; 0 once it has ended.
fn peak(child: &Child) -> u64 {
    let status = std::fs::read_to_string(format!("/proc/{}/status", child.id()));
    let status = status.unwrap_or_default();
    let line = status.lines().find(|line| line.starts_with("VmHWM:"));
    let kib = line.and_then(|line| line.split_whitespace().nth(1));
    kib.map_or(0, |kib| kib.parse::<u64>().unwrap() * 1_024)
}

/// Fewer readings than pieces by far: what is worked out counts, not the file.
#[test]
fn a_sheet_in_any_format_stays_within_what_is_promised() {
    let bench = Bench::with_readings();
    let mut csv = "edge,kind,hand,course,bottom,top\n".to_owned();
    for course in 1..=900 {
        writeln!(csv, "North,hip,left,{course},3600,{}", 3_580 + course % 10).unwrap();
    }
    let job = job_file::decode(bench.read("roof.ron").as_bytes())
        .unwrap()
        .job;
    let Imported { job, .. } = import(&job, csv.as_bytes()).unwrap();
    let file = job_file::encode(&job).unwrap();
    let most = (20 * u64::try_from(file.len()).unwrap()).max(64 * MIB);
    std::fs::write(bench.0.path().join("wide.ron"), file).unwrap();
    for format in ["text", "csv", "json", "html"] {
        let mut command = bench.command(&["sheet", "wide.ron", "--format", format]);
        let mut child = command.stdout(Stdio::piped()).spawn().unwrap();
        let mut out = child.stdout.take().unwrap();
        let (mut bytes, mut had) = (vec![0; 1 << 16], 0);
        // It waits for its reader, so the last look comes just before its end.
        while out.read(&mut bytes).unwrap() > 0 {
            had = had.max(peak(&child));
        }
        assert!(child.wait().unwrap().success());
        assert!((1..=most).contains(&had), "{format}: {} MiB", had / MIB);
    }
}

#[test]
fn an_import_of_commas_stays_within_four_times_the_file() {
    let bench = Bench::with_readings();
    let commas = ",".repeat(40_000_000);
    for (name, rows) in [
        ("one row", commas.clone()),
        (
            "quoted",
            format!("\"{}", commas.replace(",,,,", "x,\"\"\n")),
        ),
    ] {
        let csv = format!("edge,kind,hand,course,bottom,top\n{rows}");
        bench.write("new.csv", &csv);
        let most = 4 * u64::try_from(csv.len()).unwrap();
        let mut command = bench.command(&["import", "roof.ron", "new.csv"]);
        let mut child = command.stderr(Stdio::piped()).spawn().unwrap();
        let mut had = 0;
        while child.try_wait().unwrap().is_none() {
            had = had.max(peak(&child));
        }
        assert!((1..=most).contains(&had), "{name}: {} MiB", had / MIB);
        let said: super::Said = child.wait_with_output().unwrap().into();
        assert_eq!(said.code, 1);
        assert!(
            said.err.contains("1 bad row, nothing was imported"),
            "{}",
            said.err
        );
    }
}
