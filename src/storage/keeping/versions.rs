//! Versions of a job: states of it that are kept beside it to go back to.
//!
//! One is kept of what was there before the first change after an hour, and
//! before a change that takes much away; nothing ticks. Its name says how many
//! changes are in it and when it was kept (UTC):
//! `copies/job.ron.change-123.2026-11-26.080512`. They are ordered by their
//! changes, for clocks are set wrong; only where the times rise with the changes
//! do the times say which go.
//!
//! Invariant: the version with most changes never goes.

use super::copies::{beside, copies_folder, new_temp};
use crate::domain::bench::Utc;
use crate::storage::files::{Day, Fs, MOST_BYTES, confirmed, folder_of};
use crate::storage::job_file::decode;
use std::collections::BTreeSet;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// A state of a job that was kept.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Version {
    pub path: PathBuf,
    /// How many changes its name says are in it; `None` for a copy of a day, as
    /// the program kept them before it counted.
    pub changes: Option<u64>,
    /// When it was kept; `None` where the clock was centuries out.
    pub kept: Option<Utc>,
    /// Which one with that many changes, 1 upward.
    turn: u32,
}

impl Version {
    /// The version whose file is at `path`, where its name says so. The job's own
    /// name may have any dots in it.
    pub fn at(path: &Path) -> Option<Self> {
        let name = path.file_name()?.to_str()?;
        let mut dots = name.match_indices('.').map(|(at, _)| at);
        let (changes, turn, kept) = dots.find_map(|dot| read(name.get(dot..)?))?;
        Some(Self {
            path: path.to_owned(),
            changes,
            kept,
            turn,
        })
    }
}

/// After how many seconds of work the next one is kept.
const AN_HOUR: u64 = 3_600;

/// Whether a version is to be kept, the newest being of `last`. Where a clock is
/// missing nobody knows how long ago that was.
pub(super) fn is_due(last: Option<Utc>, now: Option<Utc>) -> bool {
    match (last, now) {
        // Also where the clock was set back.
        (Some(last), Some(now)) => last.0.abs_diff(now.0) >= AN_HOUR,
        _ => true,
    }
}

/// The versions of the job at `path`, the one with most changes first.
///
/// # Errors
/// What the system says; no folder of copies is no error.
pub fn versions<F: Fs>(fs: &F, path: &Path) -> io::Result<Vec<Version>> {
    let folder = copies_folder(path);
    let names = match fs.names(&folder) {
        Err(error) if error.kind() == ErrorKind::NotFound => return Ok(Vec::new()),
        names => names?,
    };
    let job = path.file_name().unwrap_or_default().as_encoded_bytes();
    let mut found: Vec<Version> = names
        .into_iter()
        .filter_map(|name| {
            let end = name.as_encoded_bytes().strip_prefix(job)?;
            let (changes, turn, kept) = read(std::str::from_utf8(end).ok()?)?;
            let path = folder.join(name);
            Some(Version {
                path,
                changes,
                kept,
                turn,
            })
        })
        .collect();
    found.sort_by_key(|version| std::cmp::Reverse((version.changes, version.turn, version.kept)));
    Ok(found)
}

/// Keeps `content`, a state of the job at `path` with so many changes, as of
/// `now`; what is kept already is not kept twice, nor is a job without an edge
/// kept at all. Of too many the older go.
///
/// # Errors
/// What the system says; the versions of before are as they were then.
pub fn keep<F: Fs>(
    fs: &F,
    path: &Path,
    content: &[u8],
    changes: u64,
    now: Option<Utc>,
) -> io::Result<()> {
    if decode(content).is_ok_and(|read| read.job.edges().is_empty()) {
        return Ok(());
    }
    let before = versions(fs, path)?;
    let alike = before.iter().filter(|kept| kept.changes == Some(changes));
    let mut turn = 1;
    for kept in alike {
        if fs
            .read(&kept.path, MOST_BYTES)
            .is_ok_and(|bytes| bytes == content)
        {
            return Ok(());
        }
        turn = turn.max(kept.turn + 1);
    }
    let folder = copies_folder(path);
    if !fs.exists(&folder)? {
        fs.create_folder(&folder)?;
        confirmed(fs.sync_folder(folder_of(path)))?;
    }
    let name = beside(path, &written(changes, turn, now));
    let copy = folder.join(name.file_name().unwrap_or_default());
    // On blocks of its own, not a second name for the same ones.
    let (mut file, temp) = new_temp(fs, &copy)?;
    let done = fs
        .write_all(&mut file, content)
        .and_then(|()| fs.sync_all(&mut file));
    drop(file);
    let kept = done
        .and_then(|()| fs.match_permissions(path, &temp).or(Ok(())))
        .and_then(|()| fs.rename(&temp, &copy))
        .and_then(|()| confirmed(fs.sync_folder(&folder)));
    if let Err(error) = kept {
        let _ = fs.remove(&temp);
        return Err(error);
    }
    for old in too_many(&versions(fs, path)?, now) {
        // The one just kept stays, whatever its number.
        if old.path != copy {
            fs.remove(&old.path)?;
        }
    }
    Ok(())
}

/// How many of one day stay, and how many where the times say nothing.
const MOST_OF_A_DAY: usize = 24;
const MOST_UNDATED: usize = 20;

/// How many days have a version each, and of how many weeks one stays.
const MOST_DAYS: usize = 7;
const MOST_WEEKS: usize = 8;

/// Those that go, of `newest_first`: of today the last twenty-four stay, of
/// seven days before it and of eight weeks before those the last one each.
fn too_many(newest_first: &[Version], now: Option<Utc>) -> Vec<&Version> {
    let Some(days) = rising_days(newest_first, now) else {
        return newest_first.iter().skip(MOST_UNDATED).collect();
    };
    let today = days.first().copied();
    let (mut of_today, mut before, mut weeks) = (0, BTreeSet::new(), BTreeSet::new());
    let mut stays = |day: Day| {
        if Some(day) == today {
            of_today += 1;
            return of_today <= MOST_OF_A_DAY;
        }
        if before.len() < MOST_DAYS || before.contains(&day) {
            return before.insert(day);
        }
        let week = day.week();
        (weeks.len() < MOST_WEEKS || weeks.contains(&week)) && weeks.insert(week)
    };
    let of_day = newest_first.iter().zip(days);
    of_day
        .filter_map(|(version, day)| (!stays(day)).then_some(version))
        .collect()
}

/// The day of each, where the times rise with the changes and none is still to
/// come.
fn rising_days(newest_first: &[Version], now: Option<Utc>) -> Option<Vec<Day>> {
    let mut last = now?;
    let mut day_of = |version: &Version| {
        let kept = version.kept.filter(|kept| *kept <= last)?;
        last = kept;
        Day::of(kept)
    };
    newest_first.iter().map(&mut day_of).collect()
}

/// The end of a version's name.
fn written(changes: u64, turn: u32, now: Option<Utc>) -> String {
    let again = match turn {
        1 => String::new(),
        turn => format!("-{turn}"),
    };
    let time = now.and_then(|now| Some((Day::of(now)?, Day::seconds(now))));
    let time = time.map_or_else(String::new, |(day, seconds)| {
        let (minutes, seconds) = (seconds / 60, seconds % 60);
        format!(".{day}.{:02}{:02}{seconds:02}", minutes / 60, minutes % 60)
    });
    format!(".change-{changes}{again}{time}")
}

/// What the end of a name says, where it is a version's: its changes, which of
/// those it is, and when it was kept. A copy of a day, `.2026-09-21`, is of that
/// day's begin.
fn read(end: &str) -> Option<(Option<u64>, u32, Option<Utc>)> {
    let end = end.strip_prefix('.')?;
    if let Some(day) = Day::named(end) {
        return Some((None, 1, Some(day.begin())));
    }
    let (count, time) = match end.strip_prefix("change-")?.split_once('.') {
        Some((count, time)) => (count, Some(time)),
        None => (end.strip_prefix("change-")?, None),
    };
    let (changes, turn) = match count.split_once('-') {
        Some((changes, turn)) => (number(changes)?, u32::try_from(number(turn)?).ok()?),
        None => (number(count)?, 1),
    };
    let kept = match time {
        Some(time) => Some(moment(time)?),
        None => None,
    };
    Some((Some(changes), turn, kept))
}

/// `2026-11-26.080512`.
fn moment(time: &str) -> Option<Utc> {
    let (day, clock) = time.split_once('.')?;
    let (hour, rest) = clock.split_at_checked(2)?;
    let (minute, second) = rest.split_at_checked(2)?;
    (clock.len() == 6).then_some(())?;
    let seconds = (number(hour)? * 60 + number(minute)?) * 60 + number(second)?;
    Some(Utc(
        Day::named(day)?.begin().0 + i64::try_from(seconds).ok()?
    ))
}

/// Digits alone, as they are written here.
fn number(text: &str) -> Option<u64> {
    let digits = text.bytes().all(|byte| byte.is_ascii_digit());
    text.parse().ok().filter(|_| digits)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::storage::files::RealFs;

    const HOUR: i64 = 3_600;
    const DAY: i64 = 24 * HOUR;
    /// 2026-11-26, 08:05:12.
    const NOW: i64 = 1_795_680_312;

    struct Shelf(tempfile::TempDir);

    impl Shelf {
        fn new() -> Self {
            Self(tempfile::tempdir().unwrap())
        }

        fn path(&self) -> PathBuf {
            self.0.path().join("job.ron")
        }

        fn keep(&self, changes: u64, now: i64) {
            let content = format!("{changes}");
            keep(
                &RealFs,
                &self.path(),
                content.as_bytes(),
                changes,
                Some(Utc(now)),
            )
            .unwrap();
        }

        /// The changes of those that are there, most first.
        fn kept(&self) -> Vec<u64> {
            let versions = versions(&RealFs, &self.path()).unwrap();
            versions
                .iter()
                .filter_map(|version| version.changes)
                .collect()
        }
    }

    #[test]
    fn a_name_says_how_many_changes_and_when() {
        let shelf = Shelf::new();
        shelf.keep(123, NOW);
        let copies = std::fs::read_dir(copies_folder(&shelf.path())).unwrap();
        let names: Vec<_> = copies.map(|entry| entry.unwrap().file_name()).collect();
        assert_eq!(names, ["job.ron.change-123.2026-11-26.080512"]);
        let versions = versions(&RealFs, &shelf.path()).unwrap();
        assert_eq!(versions[0].changes, Some(123));
        assert_eq!(versions[0].kept, Some(Utc(NOW)));
    }

    #[test]
    fn what_is_kept_already_is_not_kept_twice_and_another_content_has_its_own_name() {
        let shelf = Shelf::new();
        for content in ["a", "b", "a"] {
            keep(&RealFs, &shelf.path(), content.as_bytes(), 5, None).unwrap();
        }
        assert_eq!(shelf.kept(), [5, 5]);
    }

    #[test]
    fn copies_of_days_stand_behind_those_that_are_counted_and_other_files_are_none() {
        let shelf = Shelf::new();
        shelf.keep(2, NOW);
        let folder = copies_folder(&shelf.path());
        for other in [
            "job.ron.2026-09-21",
            "job.ron.2026-09-21-x",
            "other.ron.2026-09-21",
            "job.ron.change-x",
            "job.ron.change-2.2026-11-26.0805",
            "job.ron.2026-13-40",
        ] {
            std::fs::write(folder.join(other), "x").unwrap();
        }
        let versions = versions(&RealFs, &shelf.path()).unwrap();
        let changes: Vec<_> = versions.iter().map(|version| version.changes).collect();
        assert_eq!(changes, [Some(2), None]);
    }

    #[test]
    fn hours_of_today_a_version_a_day_and_a_version_a_week_stay() {
        let shelf = Shelf::new();
        let mut changes = 0;
        for day in (0..120).rev() {
            for hour in (0..8).rev() {
                changes += 1;
                shelf.keep(changes, NOW - day * DAY - hour * HOUR);
            }
        }
        // 8 of today, the last of 7 days and of 8 weeks.
        let kept = shelf.kept();
        assert_eq!(kept.len(), 8 + 7 + 8, "{kept:?}");
        assert_eq!(
            kept[..10],
            [960, 959, 958, 957, 956, 955, 954, 953, 952, 944]
        );
        for hour in 0..30 {
            changes += 1;
            shelf.keep(changes, NOW + hour * 60);
        }
        assert_eq!(shelf.kept().len(), 24 + 7 + 8);
    }

    /// Found by an attack: with copies dated 2035, or the clock back in 2000,
    /// each new one was made and deleted at once.
    #[test]
    fn with_a_clock_that_was_wrong_the_newest_twenty_stay() {
        let shelf = Shelf::new();
        for changes in 1..=30 {
            let minute = i64::try_from(changes).unwrap() * 60;
            shelf.keep(changes, 2_051_222_400 + minute);
        }
        shelf.keep(31, NOW);
        assert_eq!(shelf.kept().len(), 20);
        for changes in 32..=40 {
            shelf.keep(changes, 946_684_800);
        }
        assert_eq!(shelf.kept(), (21..=40).rev().collect::<Vec<_>>());
    }

    #[test]
    fn one_is_due_after_an_hour_of_either_sign() {
        let due = |last, now| is_due(Some(Utc(last)), Some(Utc(now)));
        assert!(!due(NOW, NOW + HOUR - 1) && due(NOW, NOW + HOUR));
        assert!(due(NOW, 946_684_800));
        assert!(is_due(None, Some(Utc(NOW))) && is_due(Some(Utc(NOW)), None));
    }
}
