//! The line of changes at the end of the file, so that undo and redo reach
//! across a restart: `undo` holds what can be taken back, `redo` what can be done
//! again, the latest last, one line each.
//!
//! It is text behind the job's own, put on and taken off as a whole: whatever
//! became of it, the job in front of it is read. It is taken only from a file
//! that is as it was saved, for what somebody has edited by hand no longer fits
//! it; and only as far as every change in it leads to a job that would be read.
//!
//! 500 changes to take back are kept and 500 to do again, each list to half of
//! [`MOST_LINE_BYTES`] or half of what the job itself takes, whichever is more;
//! the farthest go first.

use super::{error::DecodeError, kept_change::KeptTwin, replay::Replay};
use crate::domain::cutting::{History, Job, KeptChange};
use crate::storage::files::MOST_BYTES;
use ron::{Options, ser::PrettyConfig};
use std::borrow::Cow;

/// The most changes in either list.
pub const MOST_CHANGES: usize = 500;

/// What both lists together may always take.
pub const MOST_LINE_BYTES: usize = 256 * 1024;

const UNDO: &str = "\n    undo: [\n";
const REDO: &str = "\n    redo: [\n";
/// The end of a job's text.
const END: &str = "\n)";

/// Puts the lists in at the end of `text`, a job's own.
pub(super) fn put_on(
    text: &mut String,
    history: &History,
    options: &Options,
) -> Result<(), ron::Error> {
    // It never keeps the job itself from being saved.
    let most = usize::try_from(MOST_BYTES).unwrap_or(usize::MAX);
    let free = most.saturating_sub(text.len() + 1_000);
    let room = MOST_LINE_BYTES.max(text.len()).min(free) / 2;
    let undo = lines(history.done_on_paper().rev(), room, options)?;
    let redo = lines(history.undone().rev(), room, options)?;
    for (head, lines) in [(UNDO, undo), (REDO, redo)] {
        if lines.is_empty() {
            continue;
        }
        text.truncate(text.len() - END.len());
        text.push_str(head);
        for line in lines.iter().rev() {
            text.push_str("        ");
            text.push_str(line);
            text.push_str(",\n");
        }
        text.push_str("    ],");
        text.push_str(END);
    }
    Ok(())
}

/// The nearest of `changes`, one line each, as many as there is room for.
fn lines<'a>(
    changes: impl Iterator<Item = &'a KeptChange>,
    room: usize,
    options: &Options,
) -> Result<Vec<&'a str>, ron::Error> {
    let mut left = room;
    let mut lines = Vec::new();
    for kept in changes.take(MOST_CHANGES) {
        let line = kept.written(|| {
            let layout = PrettyConfig::new().depth_limit(0).new_line("\n");
            options.to_string_pretty(&KeptTwin::of(kept), layout)
        })?;
        match left.checked_sub(line.len() + "        ,\n".len()) {
            Some(less) => left = less,
            None => break,
        }
        lines.push(line);
    }
    Ok(lines)
}

/// The text of the job alone, and the lists that stand behind it where they do.
pub(super) fn taken_off(text: &str) -> (Cow<'_, str>, Option<&str>) {
    let Some(at) = text.find(UNDO).or_else(|| text.find(REDO)) else {
        return (Cow::Borrowed(text), None);
    };
    let (job, lists) = text.split_at(at);
    // Whatever else stands there is the job's: somebody has moved its fields.
    let ours = |line: &str| {
        line.starts_with("     ")
            || line.starts_with("//")
            || ["", ")", "    undo: [", "    redo: [", "    ],"].contains(&line)
    };
    // The last line may be cut off anywhere.
    let whole = lists.rfind('\n').and_then(|end| lists.get(..end));
    if whole.unwrap_or_default().lines().all(ours) {
        (Cow::Owned(format!("{job}{END}")), Some(lists))
    } else {
        (Cow::Borrowed(text), None)
    }
}

/// Gives `job` the line that the lists hold, as far as it fits.
pub(super) fn give(job: &mut Job, lists: &str, options: &Options) {
    let (undo, redo) = match lists.split_once(REDO) {
        Some((undo, redo)) => (undo, redo),
        None => (lists, ""),
    };
    let (undo, whole_undo) = nearest(undo, options);
    let (redo, whole_redo) = nearest(redo, options);
    let (undo, all_undo) = fitting(undo, |_| Replay::of(job, &[]), Replay::back);
    let (redo, all_redo) = fitting(redo, |redo| Replay::of(job, redo), Replay::forward);
    let is_cut = !(whole_undo && whole_redo && all_undo && all_redo);
    job.set_history(History::from_parts(undo, redo, is_cut));
}

/// The nearest changes, the nearest last, that lead to jobs which would be read;
/// and whether those are all.
fn fitting(
    mut kept: Vec<KeptChange>,
    replay: impl FnOnce(&[KeptChange]) -> Replay,
    step: fn(&mut Replay, &KeptChange) -> bool,
) -> (Vec<KeptChange>, bool) {
    if kept.is_empty() {
        return (kept, true);
    }
    let mut replay = replay(&kept);
    let fits = kept
        .iter()
        .take_while(|kept| step(&mut replay, kept))
        .count();
    let all = fits == kept.len();
    kept.truncate(fits);
    kept.reverse();
    (kept, all)
}

/// The changes of a list, the nearest first, to the first that is not
/// understood; and whether that was all.
fn nearest(list: &str, options: &Options) -> (Vec<KeptChange>, bool) {
    let mut kept = Vec::new();
    let lines = list
        .lines()
        .rev()
        .filter(|line| line.starts_with("        "));
    for line in lines {
        let line = line.trim().trim_end_matches(',');
        match change(line, options) {
            Ok(change) if kept.len() < MOST_CHANGES => kept.push(change),
            _ => return (kept, false),
        }
    }
    (kept, true)
}

fn change(line: &str, options: &Options) -> Result<KeptChange, DecodeError> {
    let twin: KeptTwin<'_> = options
        .from_str(line)
        .map_err(|error| DecodeError::of_ron(line, &error))?;
    twin.checked()
}
