//! What a save that was cut short leaves beside a job, `job.ron.new-1`, and
//! whether there is room beside it for what every save needs.
//!
//! A leftover goes only where nothing is lost with it: it was never finished, or
//! the job has all its changes. Whoever looks must hold the job's lock, or the
//! file may be one that is being written.

use super::copies::{beside, copies_folder};
use crate::storage::files::{Fs, MOST_BYTES, folder_of};
use crate::storage::job_file::{self, Seal};
use std::ffi::OsStr;
use std::io::{self, ErrorKind};
use std::path::Path;

/// What every leftover's name has before its number.
const END: &[u8] = b".new-";

/// How a job file begins, whatever its version.
const HEAD: &[u8] = b"(\n    version: ";

/// The most bytes that stand behind a job's file name in the names beside it: a
/// leftover of a copy of one day, with some to spare.
const LONGEST_END: usize = 48;

/// Takes away what saves of the job at `path` left, there and among its copies;
/// `content` is the job as it stands in its file, at `known` changes. What cannot
/// be taken away lies there, and is no trouble to the next save.
pub(super) fn sweep<F: Fs>(fs: &F, path: &Path, content: &[u8], known: u64) {
    let job = path.file_name().unwrap_or_default();
    for folder in [folder_of(path).to_owned(), copies_folder(path)] {
        for name in fs.names(&folder).unwrap_or_default() {
            let leftover = folder.join(&name);
            if is_named(&name, job)
                && fs
                    .read(&leftover, MOST_BYTES)
                    .is_ok_and(|bytes| bytes == content || is_spent(&bytes, known))
            {
                let _ = fs.remove(&leftover);
            }
        }
    }
}

/// Whether `name` is that of a leftover of `job`, or of a copy of it.
fn is_named(name: &OsStr, job: &OsStr) -> bool {
    let end = name.as_encoded_bytes().strip_prefix(job.as_encoded_bytes());
    let Some(end) = end else { return false };
    let at = end.len() - end.iter().rev().take_while(|b| b.is_ascii_digit()).count();
    let (lead, digits) = end.split_at(at);
    // A copy's own end lies between: `job.ron.2026-09-21.new-1`.
    !digits.is_empty() && lead.ends_with(END) && lead.starts_with(b".")
}

/// Whether there is nothing in it that the job has not, which is at `known`
/// changes: it was never finished, or it is older.
fn is_spent(bytes: &[u8], known: u64) -> bool {
    // The disk may have kept its length and not what was written.
    if bytes.iter().all(|byte| *byte == 0) {
        return true;
    }
    match job_file::decode(bytes) {
        Ok(decoded) if decoded.seal == Seal::Whole => decoded.job.changes() < known,
        // Without its last line it was cut short, wherever that was.
        _ => job_file::seal_of(bytes) == Seal::Missing && begins_like_a_job(bytes),
    }
}

fn begins_like_a_job(bytes: &[u8]) -> bool {
    bytes.starts_with(HEAD) || HEAD.starts_with(bytes)
}

/// Makes a file beside the job at `path` and takes it away again, under as long
/// a name as any of a job's copies gets.
///
/// # Errors
/// Why there can be none: the folder may only be read, the name is too long.
pub(super) fn room_beside<F: Fs>(fs: &F, path: &Path) -> io::Result<()> {
    let digits = LONGEST_END - END.len();
    let longest = beside(path, &format!(".new-{:0>digits$}", 0));
    match fs.create_new(&longest) {
        Ok(file) => drop(file),
        // One that was cut short lies there: there was room.
        Err(error) if error.kind() == ErrorKind::AlreadyExists => {}
        Err(error) => return Err(error),
    }
    fs.remove(&longest)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{cutting::Job, measure::Name, settings::Settings};
    use crate::storage::files::RealFs;

    fn bytes(name: &str, changes: u64) -> Vec<u8> {
        let mut job = Job::new(Name::or(name, "?"), Settings::default());
        job.set_changes(changes);
        job_file::encode(&job).unwrap()
    }

    #[test]
    fn a_leftover_goes_where_the_job_has_all_that_is_in_it_and_stays_otherwise() {
        let folder = tempfile::tempdir().unwrap();
        let path = folder.path().join("job.ron");
        let copies = copies_folder(&path);
        std::fs::create_dir(&copies).unwrap();
        let now = bytes("now", 7);
        let half = now.len() / 2;
        let go: [(&str, &[u8]); 6] = [
            ("job.ron.new-1", b""),
            ("job.ron.new-2", &now[..half]),
            ("job.ron.new-3", &now),
            ("job.ron.new-4", &bytes("older", 6)),
            ("job.ron.new-5", &[0; 40]),
            ("copies/job.ron.2026-09-21.new-1", &now[..4]),
        ];
        let stay: [(&str, &[u8]); 6] = [
            ("job.ron.new-7", &bytes("newer", 8)),
            ("job.ron.new-8", &bytes("another", 7)),
            ("job.ron.new-9", b"somebody's own words"),
            ("job.ron.new-x", b""),
            ("job.ron.bak", b""),
            ("other.ron.new-1", b""),
        ];
        for (name, bytes) in go.iter().chain(&stay) {
            std::fs::write(folder.path().join(name), bytes).unwrap();
        }
        sweep(&RealFs, &path, &now, 7);
        let is_there = |(name, _): &(&str, &[u8])| folder.path().join(name).exists();
        assert!(!go.iter().any(is_there));
        assert!(stay.iter().all(is_there));
    }

    #[test]
    fn there_is_room_beside_a_job_unless_its_name_is_too_long() {
        let folder = tempfile::tempdir().unwrap();
        // As a job's own path is; else Windows minds the length of the whole.
        let own = folder.path().canonicalize().unwrap();
        let named = |letters| own.join("n".repeat(letters));
        room_beside(&RealFs, &named(200)).unwrap();
        assert_eq!(RealFs.names(folder.path()).unwrap().len(), 0);
        let error = room_beside(&RealFs, &named(240)).unwrap_err();
        // Windows has other words for it.
        assert!(cfg!(windows) || error.kind() == ErrorKind::InvalidFilename);
    }
}
