//! docs/speed.md: the one table of all ratios, with its day and machine.

use crate::measure::Ratio;
use bendmark::shell::outside::today;
use std::path::Path;

const HEAD: &str = "# Speed

Ratios of bendmark's work to the bare work of the same crates, measured side by side in one run; the median of 21 rounds counts (of planning the least of some runs, of memory the peak of one). The milliseconds are of this machine, only the ratios are claims. Made by `BENDMARK_WRITE_DOCS=1 cargo bench`; `cargo bench` fails where a ratio is over its bar.
";

/// Writes the page.
pub(crate) fn write(ratios: &[Ratio], large: &[(String, f64)]) {
    let cores = std::thread::available_parallelism().map_or(0, usize::from);
    let day = today().map(|day| day.to_string()).unwrap_or_default();
    let memory = memory_gib().map_or_else(String::new, |gib| format!(", {gib:.0} GiB"));
    let mut page = format!("{HEAD}\nMeasured on {day}, {cores} cores{memory}.\n\n");
    page += "| what / against what | ours, ms | bare, ms | ratio | bar |\n|---|--:|--:|--:|--:|\n";
    for ratio in ratios {
        page += &ratio.row();
        page += "\n";
    }
    page += "\n## A job of 60,000 pieces\n\nNothing is claimed of these; a job of that size is beyond any house.\n\n| what | ms |\n|---|--:|\n";
    for (what, ms) in large {
        page += &format!("| {what} | {ms:.1} |\n");
    }
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join("docs/speed.md");
    std::fs::write(path, page).unwrap();
}

/// What /proc says; nothing where there is no such thing.
fn memory_gib() -> Option<f64> {
    let text = std::fs::read_to_string("/proc/meminfo").ok()?;
    let line = text.lines().find(|line| line.starts_with("MemTotal:"))?;
    let kib: f64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kib / 1_048_576.0)
}
