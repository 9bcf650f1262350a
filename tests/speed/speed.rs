//! How long the program takes, as ratios to the bare work of the same crates.
//!
//! Run with `cargo bench`; ends with 1 where a ratio is over its
//! bar. Milliseconds are of this machine; only the ratios are claims.
//! `BENDMARK_ROUNDS` sets how often each side runs; the median counts.
//! `BENDMARK_WRITE_DOCS` writes docs/speed.md.
#![allow(
    clippy::unwrap_used,
    clippy::expect_used,
    clippy::panic,
    clippy::indexing_slicing,
    clippy::print_stdout,
    clippy::print_stderr,
    clippy::cast_precision_loss,
    reason = "a failing measurement may panic, and figures are printed"
)]

#[cfg(unix)]
mod at_a_terminal;
#[cfg(unix)]
mod bare;
mod measure;
#[cfg(unix)]
mod memory;
mod doubts;
mod import_and_sheet;
mod key_to_saved;
mod bench_keys;
mod page;
mod plain_job;
mod plan;
mod screens;

use measure::Ratio;
use std::process::ExitCode;

/// Every measurement; a new one is one more line here.
const RATIOS: [fn() -> Vec<Ratio>; 8] = [
    || vec![import_and_sheet::ratio()],
    doubts::ratios,
    plan_ratios,
    screens::ratios,
    || vec![key_to_saved::ratio()],
    bench_keys::ratios,
    terminal_ratios,
    memory_ratios,
];

fn plan_ratios() -> Vec<Ratio> {
    plan::ratios()
        .into_iter()
        .map(|(name, ratio, bar)| Ratio::known(name, ratio, bar))
        .collect()
}

#[cfg(unix)]
fn terminal_ratios() -> Vec<Ratio> {
    at_a_terminal::ratios()
}

#[cfg(not(unix))]
fn terminal_ratios() -> Vec<Ratio> {
    Vec::new()
}

#[cfg(unix)]
fn memory_ratios() -> Vec<Ratio> {
    memory::ratios()
}

#[cfg(not(unix))]
fn memory_ratios() -> Vec<Ratio> {
    Vec::new()
}

fn main() -> ExitCode {
    #[cfg(unix)]
    if let Ok(role) = std::env::var(bare::ROLE) {
        bare::run(&role);
        return ExitCode::SUCCESS;
    }
    println!(
        "{:<58} {:>9} {:>9} {:>6} {:>5}",
        "", "ours ms", "bare ms", "ratio", "bar"
    );
    let mut all = Vec::new();
    for ratio in RATIOS.iter().flat_map(|ratios| ratios()) {
        println!("{ratio}");
        all.push(ratio);
    }
    let mut large = key_to_saved::large_job();
    large.extend(bench_keys::slowest());
    for (what, ms) in &large {
        println!("60,000 pieces: {what:<43} {ms:>9.2}");
    }
    if std::env::var_os("BENDMARK_WRITE_DOCS").is_some() {
        page::write(&all, &large);
    }
    if all.iter().any(Ratio::is_over) {
        ExitCode::FAILURE
    } else {
        ExitCode::SUCCESS
    }
}
