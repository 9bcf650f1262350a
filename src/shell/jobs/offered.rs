//! What is said of a copy that is offered in the place of a job's file, and of a
//! file that is not as it was saved.

use crate::domain::bench::{Progress, Stage, Utc};
use crate::domain::cutting::{CutList, Job};
use crate::domain::measure::cleaned;
use crate::storage::keeping::{Loaded, Source, edited};
use std::path::Path;

/// What is unusual about how a job was read, if anything.
pub fn unusual(loaded: &Loaded, now: Option<Utc>) -> Option<String> {
    let copy = match &loaded.from {
        Source::File => None,
        Source::Copy { path, saved, why } => Some(format!(
            "{why}; its best copy is \"{}\", {}: {}",
            file_name(path),
            age(*saved, now),
            knows(&loaded.job)
        )),
    };
    let edited = Some(edited(loaded.seal).to_owned()).filter(|words| !words.is_empty());
    let words: Vec<String> = copy.into_iter().chain(edited).collect();
    (!words.is_empty()).then(|| words.join("; "))
}

fn file_name(path: &Path) -> String {
    cleaned(&path.file_name().unwrap_or_default().to_string_lossy())
}

/// `40 pieces, 23 of them stacked`.
fn knows(job: &Job) -> String {
    let list = CutList::of(job, &Progress::of(job.events()));
    let pieces = list.pieces.iter();
    let stacked = pieces.filter(|piece| piece.stage == Stage::Stacked).count();
    match list.pieces.len() {
        1 => format!("1 piece, {stacked} of them stacked"),
        count => format!("{count} pieces, {stacked} of them stacked"),
    }
}

/// How long ago it was, in the largest unit that is full.
fn age(saved: Option<Utc>, now: Option<Utc>) -> String {
    let seconds = match (saved, now) {
        (Some(saved), Some(now)) => now.0.saturating_sub(saved.0),
        _ => return "of unknown age".to_owned(),
    };
    let (count, unit) = match seconds {
        i64::MIN..0 => return "from a time the clock has not reached".to_owned(),
        0..60 => (seconds, "second"),
        60..3_600 => (seconds / 60, "minute"),
        3_600..86_400 => (seconds / 3_600, "hour"),
        _ => (seconds / 86_400, "day"),
    };
    let plural = if count == 1 { "" } else { "s" };
    format!("{count} {unit}{plural} old")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(seconds: i64, expected: &str) {
        assert_eq!(age(Some(Utc(0)), Some(Utc(seconds))), expected);
    }

    #[test]
    fn an_age_is_said_in_the_largest_unit_that_is_full() {
        check(0, "0 seconds old");
        check(1, "1 second old");
        check(119, "1 minute old");
        check(7_300, "2 hours old");
        check(86_400 * 3, "3 days old");
        check(-1, "from a time the clock has not reached");
        assert_eq!(age(None, Some(Utc(0))), "of unknown age");
    }
}
