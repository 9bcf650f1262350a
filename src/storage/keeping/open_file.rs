//! A job's file while the job is open: locked, and known by its content, so
//! that what another program writes is noticed and never overwritten.
//!
//! It works on the machine's own files only; the steps that a crash can part
//! are [`crate::storage::keeping::save`]'s.

use super::{
    leftovers::sweep,
    load::{LoadError, Loaded, Source, load},
    save::{Backup, Last, OnDisk, Save, create},
    save_error::{SaveError, SaveStep},
    versions::{is_due, keep, versions},
    watch::{Barred, Look, Watch, look, to_write},
};
use crate::domain::bench::Utc;
use crate::storage::files::{Fingerprint, Fs, Lock, MOST_BYTES, RealFs, shown, words};
use crate::storage::job_file::{Seal, changes_in};
use std::fmt;
use std::path::{Path, PathBuf};

/// The file of the job that is open.
#[derive(Debug)]
pub struct OpenFile {
    /// The path it was asked for by, made absolute.
    asked: PathBuf,
    /// The file itself, behind links.
    path: PathBuf,
    /// Held for as long as the file is open; none where there are no locks.
    lock: Option<Lock>,
    /// What was read or saved last; `None` where the file was not there or was
    /// not what was read.
    content: Option<Fingerprint>,
    /// How the file looked then, from outside.
    look: Option<Look>,
    /// When the newest version was kept; `None` until that was looked up.
    kept: Option<Option<Utc>>,
    /// Whether the file was edited by hand and is to be kept as it was.
    edited: bool,
    backup: Backup,
}

/// What has become of an open job's file.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Seen {
    Same,
    /// Another program has written it.
    Changed,
    /// It is not there any more.
    Gone,
}

/// Whether a job that was read may be written too.
#[derive(Debug)]
pub enum Held {
    /// It may, by whoever has this.
    ByUs(Box<OpenFile>),
    /// It may not: it can be looked at, and says why.
    No(Box<Watch>),
}

/// A job that was read, and its file.
#[derive(Debug)]
pub struct TakenFile {
    pub loaded: Loaded,
    pub held: Held,
}

/// Why a new file was not made.
#[derive(Debug)]
pub enum NotMade {
    InUse {
        path: PathBuf,
    },
    /// Nothing may be written there, and why.
    Barred {
        path: PathBuf,
        why: String,
    },
    Unsaved(SaveError),
}

impl NotMade {
    /// What is wrong and what can be done, without the path.
    pub fn brief(&self) -> String {
        match self {
            Self::InUse { .. } => "that file is in use by another bendmark".to_owned(),
            Self::Barred { why, .. } => format!("{why}: choose another"),
            Self::Unsaved(error) => error.brief(),
        }
    }

    /// Whether another name may do.
    pub const fn is_taken(&self) -> bool {
        matches!(
            self,
            Self::InUse { .. } | Self::Unsaved(SaveError::Taken { .. })
        )
    }
}

impl fmt::Display for NotMade {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::InUse { path } => write!(
                f,
                "\"{}\" is in use by another bendmark, expected a name not yet taken",
                shown(path)
            ),
            Self::Barred { path, .. } => {
                write!(f, "\"{}\" was not made: {}", shown(path), self.brief())
            }
            Self::Unsaved(error) => write!(f, "{error}"),
        }
    }
}

impl std::error::Error for NotMade {}

impl OpenFile {
    /// Locks and reads the job at `path`.
    ///
    /// `before` is the file that was open until now, if any: where it is the
    /// same one, its lock is used. It is given back where nothing was read.
    ///
    /// # Errors
    /// [`LoadError`], with `before`.
    pub fn take(
        path: &Path,
        before: Option<Box<Self>>,
    ) -> Result<TakenFile, (LoadError, Option<Box<Self>>)> {
        let own = RealFs.resolve(path).unwrap_or_else(|_| path.to_owned());
        let (lock, before) = match before {
            Some(mut before) if before.path == own => (Ok(before.lock.take()), Some(before)),
            before => (to_write(&own), before),
        };
        let loaded = match load(&RealFs, path) {
            Ok(loaded) => loaded,
            Err(error) => {
                let before = before.map(|mut before| {
                    if before.path == own {
                        before.lock = lock.unwrap_or(None);
                    }
                    before
                });
                return Err((error, before));
            }
        };
        let lock = match lock {
            Ok(lock) => lock,
            Err(why) => {
                let watch = Watch::of(&own, &loaded, why);
                return Ok(TakenFile {
                    loaded,
                    held: Held::No(Box::new(watch)),
                });
            }
        };
        sweep(&RealFs, &own, &loaded.content, loaded.job.changes());
        let file = Self {
            asked: absolute(path),
            content: content_of(&own, &loaded),
            look: look(&own),
            path: own,
            lock,
            kept: None,
            edited: loaded.seal != Seal::Whole,
            backup: Backup::Unknown,
        };
        Ok(TakenFile {
            loaded,
            held: Held::ByUs(Box::new(file)),
        })
    }

    /// Makes a new file; never over another.
    ///
    /// # Errors
    /// [`NotMade`]; nothing was changed then.
    pub fn make(path: &Path, bytes: &[u8]) -> Result<Box<Self>, NotMade> {
        let named = path.to_owned();
        if RealFs.exists(path).unwrap_or(false) {
            return Err(NotMade::Unsaved(SaveError::Taken { path: named }));
        }
        let own = match RealFs.resolve(path) {
            Ok(own) => own,
            Err(source) => {
                let (path, step) = (named, SaveStep::Resolve);
                return Err(NotMade::Unsaved(SaveError::Failed { path, step, source }));
            }
        };
        let lock = match to_write(&own) {
            Ok(lock) => lock,
            Err(Barred::InUse) => return Err(NotMade::InUse { path: named }),
            Err(Barred::Because(why)) => return Err(NotMade::Barred { path: named, why }),
        };
        create(&RealFs, path, bytes).map_err(NotMade::Unsaved)?;
        Ok(Box::new(Self {
            asked: absolute(path),
            content: Some(Fingerprint::of(bytes)),
            look: look(&own),
            path: own,
            lock,
            kept: None,
            edited: false,
            backup: Backup::Unknown,
        }))
    }

    /// The path it was asked for by, made absolute.
    pub fn asked(&self) -> &Path {
        &self.asked
    }

    /// Saves `bytes` where the file is still the one that is known; `before` is
    /// kept as a version first.
    ///
    /// # Errors
    /// [`SaveError::Changed`] where it is not; else as
    /// [`crate::storage::keeping::Save::run`].
    pub fn save(
        &mut self,
        bytes: &[u8],
        before: &[Vec<u8>],
        now: Option<Utc>,
    ) -> Result<OnDisk, SaveError> {
        let last = self.content.map_or(Last::Absent, Last::Only);
        self.save_on(last, bytes, before, now)
    }

    /// Saves `bytes`; what another program has written is set aside.
    ///
    /// # Errors
    /// As [`crate::storage::keeping::Save::run`].
    pub fn save_over(
        &mut self,
        bytes: &[u8],
        before: &[Vec<u8>],
        now: Option<Utc>,
    ) -> Result<OnDisk, SaveError> {
        let last = self.content.map_or(Last::AbsentOrAside, Last::OrAside);
        self.save_on(last, bytes, before, now)
    }

    fn save_on(
        &mut self,
        last: Last,
        bytes: &[u8],
        before: &[Vec<u8>],
        now: Option<Utc>,
    ) -> Result<OnDisk, SaveError> {
        let mut no_copy = None;
        for bytes in before {
            let changes = changes_in(bytes);
            if let Err(error) = keep(&RealFs, &self.path, bytes, changes, now) {
                no_copy = Some(words(&error));
            }
        }
        let newest = *self.kept.get_or_insert_with(|| newest(&self.path));
        let keeps_version = self.edited || (before.is_empty() && is_due(newest, now));
        let save = Save {
            path: &self.path,
            bytes,
            last,
            keeps_version,
            now,
            backup: self.backup,
        };
        let mut on_disk = match save.run(&RealFs) {
            Ok(on_disk) => on_disk,
            Err(error) => {
                self.look_again(bytes);
                return Err(error);
            }
        };
        self.content = Some(on_disk.content);
        self.look = look(&self.path);
        self.backup = on_disk.backup;
        self.edited = false;
        // Once an hour is enough, also where it fails.
        if keeps_version || !before.is_empty() {
            self.kept = Some(now);
        }
        on_disk.no_copy = no_copy.or(on_disk.no_copy);
        Ok(on_disk)
    }

    /// After a save of `bytes` that failed: they may stand in their place all the
    /// same, as where the folder could not be synced. Then no other program has
    /// written them.
    fn look_again(&mut self, bytes: &[u8]) {
        let ours = Fingerprint::of(bytes);
        let there = RealFs.read(&self.path, MOST_BYTES);
        if there.is_ok_and(|there| Fingerprint::of(&there) == ours) {
            self.content = Some(ours);
            self.look = look(&self.path);
            self.backup = Backup::Unknown;
        }
    }

    /// What has become of the file since it was read or saved last. Told once;
    /// a save finds it again.
    pub fn seen(&mut self) -> Seen {
        let now = look(&self.path);
        if now == self.look {
            return Seen::Same;
        }
        self.look = now;
        if now.is_none() {
            return Seen::Gone;
        }
        match RealFs.read(&self.path, MOST_BYTES) {
            Ok(bytes) if Some(Fingerprint::of(&bytes)) != self.content => Seen::Changed,
            _ => Seen::Same,
        }
    }
}

/// `path`, no matter where the program is later; as it is where there is no
/// present folder.
pub fn absolute(path: &Path) -> PathBuf {
    std::path::absolute(path).unwrap_or_else(|_| path.to_owned())
}

/// What is known of the file: where a copy was read in its place, the content
/// it has all the same, so that only that is set aside as damaged.
fn content_of(path: &Path, loaded: &Loaded) -> Option<Fingerprint> {
    match loaded.from {
        Source::File => Some(Fingerprint::of(&loaded.content)),
        Source::Copy { .. } => RealFs
            .read(path, MOST_BYTES)
            .ok()
            .map(|bytes| Fingerprint::of(&bytes)),
    }
}

/// When the newest version of the job at `path` was kept.
fn newest(path: &Path) -> Option<Utc> {
    versions(&RealFs, path).ok()?.first()?.kept
}
