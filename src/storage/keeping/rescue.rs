//! Where work lies that could not be saved in its place: a copy in a folder of
//! its own, written as soon as a save fails, replaced by newer ones while that
//! lasts, and taken away once the job is saved.
//!
//! Invariant: the newer copy is on the disk before the older one goes. Each has
//! a name that nobody has used, so that no lock is needed to write it.

use super::{
    save::create,
    save_error::{SaveError, SaveStep},
};
use crate::storage::files::{Fingerprint, Fs, MOST_BYTES, confirmed, folder_of, is_held};
use std::io;
use std::path::{Path, PathBuf};

/// How many names are tried for one second.
const MOST_NAMES: u32 = 99;

/// A copy that was put out of harm's way.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Rescued {
    pub path: PathBuf,
    content: Fingerprint,
}

/// Puts `bytes`, the job that belongs into the file `own`, into `folder`, under
/// the name of its file and `seconds` since 1970; then takes `older` away.
///
/// # Errors
/// [`SaveError`]; `older` is as it was then.
pub fn rescue<F: Fs>(
    fs: &F,
    folder: &Path,
    (own, seconds): (&Path, i64),
    bytes: &[u8],
    older: Option<&Rescued>,
) -> Result<Rescued, SaveError> {
    let content = Fingerprint::of(bytes);
    // Tried again, and nothing has changed since.
    if let Some(older) = older.filter(|older| older.content == content && is_there(fs, older)) {
        return Ok(older.clone());
    }
    made(fs, folder).map_err(|source| SaveError::Failed {
        path: folder.to_owned(),
        step: SaveStep::Create,
        source,
    })?;
    let stem = own.file_stem().unwrap_or_default().to_string_lossy();
    let mut turn = 1;
    let path = loop {
        let end = match turn {
            1 => String::new(),
            turn => format!(" {turn}"),
        };
        let path = folder.join(format!("{stem} {seconds}{end}.ron"));
        match create(fs, &path, bytes) {
            Err(SaveError::Taken { .. }) if turn < MOST_NAMES => turn += 1,
            done => break done.map(|()| path)?,
        }
    };
    if let Some(older) = older {
        give_up(fs, older);
    }
    Ok(Rescued { path, content })
}

/// Takes a copy away that is not needed any more. One that somebody works on
/// stays, and so does one that is not what was put there.
pub fn give_up<F: Fs>(fs: &F, rescued: &Rescued) {
    if is_there(fs, rescued) && !is_held(&rescued.path) {
        let _ = fs.remove(&rescued.path);
    }
}

fn is_there<F: Fs>(fs: &F, rescued: &Rescued) -> bool {
    let read = fs.read(&rescued.path, MOST_BYTES);
    read.is_ok_and(|bytes| Fingerprint::of(&bytes) == rescued.content)
}

/// Makes `folder`, and has the names of all that were missing on the disk.
fn made<F: Fs>(fs: &F, folder: &Path) -> io::Result<()> {
    let missing: Vec<&Path> = folder
        .ancestors()
        .take_while(|folder| !fs.exists(folder).unwrap_or(true))
        .collect();
    fs.create_folder(folder)?;
    for folder in missing {
        confirmed(fs.sync_folder(folder_of(folder)))?;
    }
    Ok(())
}
