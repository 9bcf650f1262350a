//! What is said of a copy that is offered in the place of a job's file, and of a
//! file that is not as it was saved.

use crate::domain::bench::{Progress, Stage, Utc};
use crate::domain::cutting::{CutList, Job};
use crate::domain::measure::cleaned;
use crate::storage::files::{Fs, RealFs};
use crate::storage::job_file::Seal;
use crate::storage::keeping::{Loaded, Place, Source, Trouble, edited, found};
use std::path::Path;

/// What is unusual about how the job at `path` was read, if anything.
pub fn unusual(path: &Path, loaded: &Loaded, now: Option<Utc>) -> Option<String> {
    let copy = match &loaded.from {
        Source::File if loaded.seal == Seal::Whole => None,
        Source::File => otherwise(path, &loaded.job),
        Source::Copy {
            path,
            saved,
            why,
            rivals,
        } => Some(format!(
            "{}; its best copy is \"{}\", {}: {}{}",
            match why {
                Trouble::Missing => why.to_string(),
                why => format!("it cannot be read: {why}"),
            },
            file_name(path),
            age(*saved, now),
            knows(&loaded.job),
            as_good(*rivals)
        )),
    };
    let edited = Some(edited(loaded.seal).to_owned()).filter(|words| !words.is_empty());
    let words = match loaded.from {
        Source::File => edited.into_iter().chain(copy),
        Source::Copy { .. } => copy.into_iter().chain(edited),
    };
    let words: Vec<String> = words.collect();
    (!words.is_empty()).then(|| words.join("; "))
}

/// The most differences from a copy that are told.
const MOST_TOLD: usize = 3;

/// What the best copy that is as it was saved has otherwise than `job`, which
/// was edited: both figures, so that one can be seen to be wrong.
fn otherwise(path: &Path, job: &Job) -> Option<String> {
    let own = RealFs.resolve(path).unwrap_or_else(|_| path.to_owned());
    let all = found(&RealFs, &own, None, Some(job)).into_iter();
    let mut copies = all.filter(|found| found.place != Place::File);
    let (name, holds) = copies.find_map(|copy| {
        let holds = copy.holds.ok().filter(|holds| holds.seal == Seal::Whole)?;
        Some((file_name(&copy.path), holds))
    })?;
    if holds.differs.is_empty() {
        return Some(format!("its copy \"{name}\" says the same"));
    }
    let mut told: Vec<String> = holds.differs.iter().take(MOST_TOLD).cloned().collect();
    match holds.differs.len().saturating_sub(MOST_TOLD) {
        0 => {}
        more => told.push(format!("{more} more")),
    }
    let told = told.join("; ");
    Some(format!("its copy \"{name}\" has {told}"))
}

/// That there are others with as much in them.
fn as_good(rivals: usize) -> String {
    match rivals {
        0 => String::new(),
        1 => "; another copy has as many changes and is not the same".to_owned(),
        count => format!("; {count} other copies have as many changes and are not the same"),
    }
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

/// How long ago it was, in the two largest units that are full: what was kept in
/// the same minutes is told apart.
pub fn age(saved: Option<Utc>, now: Option<Utc>) -> String {
    let seconds = match (saved, now) {
        (Some(saved), Some(now)) => now.0.saturating_sub(saved.0),
        _ => return "of unknown age".to_owned(),
    };
    let (minutes, hours, days) = (seconds / 60, seconds / 3_600, seconds / 86_400);
    match seconds {
        i64::MIN..0 => "from a time the clock has not reached".to_owned(),
        0..60 => format!("{seconds} s old"),
        60..3_600 => format!("{minutes} min {} s old", seconds % 60),
        3_600..86_400 => format!("{hours} h {} min old", minutes % 60),
        86_400..172_800 => format!("1 day {} h old", hours % 24),
        _ => format!("{days} days {} h old", hours % 24),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[track_caller]
    fn check(seconds: i64, expected: &str) {
        assert_eq!(age(Some(Utc(0)), Some(Utc(seconds))), expected);
    }

    #[test]
    fn an_age_is_said_in_the_two_largest_units_that_are_full() {
        check(0, "0 s old");
        check(119, "1 min 59 s old");
        check(7 * 60 + 5, "7 min 5 s old");
        check(7 * 60 + 44, "7 min 44 s old");
        check(7_300, "2 h 1 min old");
        check(86_400 + 7_200, "1 day 2 h old");
        check(86_400 * 3, "3 days 0 h old");
        check(-1, "from a time the clock has not reached");
        assert_eq!(age(None, Some(Utc(0))), "of unknown age");
    }
}
