//! `bendmark import JOB FILE.csv`: readings from a spreadsheet.
//!
//! All or nothing: with one bad row in it, every bad row is said and the job's
//! file is left as it is.

use super::{
    args::{self, Asked, Stop, file, flag, job, path, result},
    import_preview::{edges, to_look_at},
    open::{ACCEPT_EDITED, Purpose, accept_edited, no_copy, open, open_to_write, tell},
};
use crate::app::dialogs::saving::UNCONFIRMED;
use crate::domain::{
    cutting::{Job, NamedChange, Spot},
    measure::cleaned,
};
use crate::shell::outside::{Exit, now};
use crate::storage::{
    files::{Confirmed, MOST_BYTES, RealFs, shown, words},
    job_file,
    keeping::load,
    readings::{self, Imported},
};
use clap::{ArgMatches, Command};
use std::io::{ErrorKind, Read, stdin};
use std::path::{Path, PathBuf};

const EXAMPLES: &str = "\
Examples:
  bendmark import cedar.ron readings.csv
  bendmark import cedar.ron readings.csv --dry-run
  cut -d, -f1-6 log.csv | bendmark import cedar.ron -";

const AFTER: &str = "\
The first line names the columns, in any order: edge,kind,hand,course,bottom,top,
and where there are any: height,runs_out,to, and of the edge slope,other_slope,corner,
plane,lot,reads_to,tape_end. kind is hip, valley or rake; hand is left or right; to is
the edge to which a course runs from board to board; a slope is one such as 6 in 12,
26.57 deg or 50 %, a corner the degrees between the eaves; reads_to is lap-line or
panel-edge, tape_end is held-off or hard. What is said of an edge needs saying in one
of its rows only. With one bad row nothing is imported.
Columns may be parted by semicolons or tabs, figures may have a decimal comma, and
the text may be UTF-8 or UTF-16. At most 20 bad rows are told, the rest counted.
The same sheet may come again, grown or corrected. A blank figure says nothing. A
figure as the sheet last said it is skipped, so what the bench corrected stands. A new
one is taken where the log has what the sheet last said, or nothing. Where the bench
changed it too, it is two readings: the log's stays in force, a line says both, and
no piece of that course is marked or worked on until one is chosen in the Log.
An edge with four courses or more, all as another edge has them, may be that edge
under another name: then nothing is imported without --same-figures.";

const CSV: &str = "FILE.csv";
const DRY_RUN: &str = "dry-run";
const SAME_FIGURES: &str = "same-figures";

/// Readings to be added to a job.
struct Import {
    path: PathBuf,
    /// The readings; `-` is standard input.
    csv: PathBuf,
    /// Whether a job edited by hand may be written.
    purpose: Purpose,
    dry_run: bool,
    /// Whether an edge may have the same figures as another one.
    same_figures: bool,
}

pub(super) fn command() -> Command {
    args::command("import", "Add readings from a CSV file to a job", EXAMPLES)
        .after_help(AFTER)
        .defer(with_arguments)
}

fn with_arguments(command: Command) -> Command {
    let help = "Say what would change and what would be doubtful; write nothing";
    command
        .arg(job("The job file"))
        .arg(file(CSV, "The readings; - for standard input").required(true))
        .arg(flag(DRY_RUN, help))
        .arg(flag(
            SAME_FIGURES,
            "Take edges with the same figures as another one",
        ))
        .arg(accept_edited())
}

pub(super) fn asked(matches: &ArgMatches) -> Asked {
    let import = Import {
        path: path(matches, "JOB"),
        csv: path(matches, CSV),
        purpose: match matches.get_flag(ACCEPT_EDITED) {
            true => Purpose::WriteAnyhow,
            false => Purpose::Write,
        },
        dry_run: matches.get_flag(DRY_RUN),
        same_figures: matches.get_flag(SAME_FIGURES),
    };
    Ok(Box::new(move || import.run()))
}

impl Import {
    /// Adds the readings and saves the job.
    ///
    /// # Errors
    /// [`Stop::CouldNot`] where job or readings are not read, a row is bad, or
    /// the job is not saved; it is as before then.
    fn run(&self) -> Result<Exit, Stop> {
        if self.dry_run {
            let job = open(&self.path)?;
            let imported = self.imported(&job)?;
            let mut lines = vec![self.report(&imported)];
            lines.extend(edges(&job, &imported.job));
            lines.extend(to_look_at(&job, &imported.job, "then"));
            lines.push("nothing was written: this was a dry run".to_owned());
            return result(&(lines.join("\n") + "\n"));
        }
        let (job, mut file) = open_to_write(&self.path, self.purpose)?;
        let mut imported = self.imported(&job)?;
        let named = self.named(&job, &imported.job);
        let changed = imported.job.keep_change(&job, named);
        if changed {
            imported.job.count_change();
        }
        if changed || self.purpose == Purpose::WriteAnyhow {
            let bytes = job_file::encode(&imported.job).map_err(Stop::one)?;
            let before = job_file::encode(&job).map_err(Stop::one)?;
            let on_disk = file.save(&bytes, &[before], now()).map_err(Stop::one)?;
            tell(&self.path, on_disk.no_copy.map(no_copy));
            let unconfirmed = on_disk.confirmed == Confirmed::No;
            tell(&self.path, unconfirmed.then(|| UNCONFIRMED.to_owned()));
        }
        let mut lines = vec![self.report(&imported)];
        lines.extend(to_look_at(&job, &imported.job, "now"));
        result(&(lines.join("\n") + "\n"))
    }

    /// What undo on the screen calls it, and where it shows it.
    fn named(&self, before: &Job, now: &Job) -> NamedChange {
        let name = self.csv.file_name().unwrap_or_default().to_string_lossy();
        let mut edges = now.edges().iter();
        let first = edges.find(|edge| before.edge(edge.id) != Some(edge));
        NamedChange {
            words: format!("readings from \"{}\"", cleaned(&name)),
            spot: first.map_or(Spot::Rack, |edge| Spot::Edge(edge.id)),
        }
    }

    fn imported(&self, job: &Job) -> Result<Imported, Stop> {
        let csv = read(&self.csv)?;
        let file = shown(&self.csv);
        let imported = readings::import(job, &csv).map_err(|error| {
            let lines = error.to_string();
            let lines = lines.lines().map(|line| format!("\"{file}\": {line}"));
            Stop::CouldNot(lines.collect())
        })?;
        if self.same_figures || imported.same_figures.is_empty() {
            return Ok(imported);
        }
        let same = imported.same_figures.iter();
        let mut lines: Vec<_> = same.map(|same| format!("\"{file}\": {same}")).collect();
        let what = "nothing was imported: --same-figures takes it where they are two edges";
        lines.push(format!("\"{file}\": {what}"));
        Err(Stop::CouldNot(lines))
    }

    fn report(&self, imported: &Imported) -> String {
        let Imported {
            job: _,
            added,
            changed,
            skipped,
            new_edges,
            filled_in,
            same_figures: _,
        } = imported;
        let mut text = format!(
            "\"{}\": courses {}: {added}, logged already: {skipped}, new edges: {new_edges}",
            shown(&self.path),
            if self.dry_run { "to add" } else { "added" }
        );
        if *filled_in > 0 {
            text.push_str(&format!(", edges filled in: {filled_in}"));
        }
        if *changed > 0 {
            text.push_str(&format!(", changed: {changed}"));
        }
        text
    }
}

fn read(path: &Path) -> Result<Vec<u8>, Stop> {
    if path != Path::new("-") {
        return load::read(&RealFs, path).map_err(Stop::one);
    }
    let mut bytes = Vec::new();
    stdin()
        .lock()
        .take(MOST_BYTES.saturating_add(1))
        .read_to_end(&mut bytes)
        .and_then(|count| {
            if u64::try_from(count).unwrap_or(u64::MAX) > MOST_BYTES {
                Err(ErrorKind::FileTooLarge.into())
            } else {
                Ok(bytes)
            }
        })
        .map_err(|error| Stop::one(format!("standard input: {}", words(&error))))
}
