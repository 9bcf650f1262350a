//! A disk that can lose power: what was not synced may be there or not.
//!
//! Two things are kept apart, as file systems do. A file's **content** is on the
//! disk once it was synced; before that, any of it may be missing, cut short or
//! zeroed. A folder's **names** are on the disk once the folder was synced;
//! before that, each operation on a name may have reached the disk or not, in
//! any order. One operation on names is never parted: a rename happens or does
//! not. That is what journalling file systems promise, and no more is relied on.
//!
//! Over 400 lines: one disk with every operation that saving uses.

use bendmark::storage::files::Fs;
use std::cell::RefCell;
use std::collections::{BTreeMap, BTreeSet};
use std::ffi::OsString;
use std::io::{self, ErrorKind};
use std::path::{Path, PathBuf};

/// Which file, whatever its names.
type Number = usize;

/// What is on a disk: folders, names, contents.
#[derive(Clone, PartialEq, Eq, PartialOrd, Ord, Default, Debug)]
pub(crate) struct Content {
    pub(crate) folders: BTreeSet<PathBuf>,
    pub(crate) files: BTreeMap<PathBuf, Vec<u8>>,
}

/// An operation on names.
#[derive(Clone, Debug)]
enum Naming {
    Folder(PathBuf),
    Put(PathBuf, Number),
    Take(PathBuf),
    Move(PathBuf, PathBuf, Number),
}

impl Naming {
    fn folder(&self) -> &Path {
        match self {
            Self::Folder(path) | Self::Put(path, _) | Self::Take(path) | Self::Move(path, ..) => {
                path.parent().unwrap()
            }
        }
    }
}

#[derive(Clone, Default)]
struct Names {
    folders: BTreeSet<PathBuf>,
    files: BTreeMap<PathBuf, Number>,
}

impl Names {
    fn apply(&mut self, naming: &Naming) {
        match naming {
            Naming::Folder(path) => {
                self.folders.insert(path.clone());
            }
            Naming::Put(path, number) => {
                self.files.insert(path.clone(), *number);
            }
            Naming::Take(path) => {
                self.files.remove(path);
            }
            Naming::Move(from, to, number) => {
                self.files.remove(from);
                self.files.insert(to.clone(), *number);
            }
        }
    }
}

#[derive(Clone)]
struct File {
    now: Vec<u8>,
    synced: Vec<u8>,
    is_synced: bool,
}

/// The disk at one moment, with all that a loss of power may do to it.
#[derive(Clone)]
pub(crate) struct Moment {
    /// How many changes had been acknowledged.
    pub(crate) acknowledged: usize,
    durable: Names,
    now: Names,
    pending: Vec<Naming>,
    files: Vec<File>,
}

/// The simulated disk.
pub(crate) struct SimDisk {
    state: RefCell<Moment>,
    moments: RefCell<Vec<Moment>>,
    pub(crate) has_links: bool,
    /// Whether it knows what syncing a folder is.
    pub(crate) confirms: bool,
}

impl SimDisk {
    /// A disk on which all of `content` is safe.
    pub(crate) fn with(content: &Content, has_links: bool) -> Self {
        let mut names = Names {
            folders: content.folders.clone(),
            files: BTreeMap::new(),
        };
        let mut files = Vec::new();
        for (path, bytes) in &content.files {
            names.files.insert(path.clone(), files.len());
            files.push(File {
                now: bytes.clone(),
                synced: bytes.clone(),
                is_synced: true,
            });
        }
        let state = Moment {
            acknowledged: 0,
            durable: names.clone(),
            now: names,
            pending: Vec::new(),
            files,
        };
        Self {
            moments: RefCell::new(vec![state.clone()]),
            state: RefCell::new(state),
            has_links,
            confirms: true,
        }
    }

    /// One more change was said to be saved.
    pub(crate) fn acknowledge(&self) {
        self.step(|state| {
            state.acknowledged += 1;
            Ok(())
        })
        .unwrap();
    }

    /// So many changes were saved before the first moment.
    pub(crate) fn begin_at(&self, acknowledged: usize) {
        self.state.borrow_mut().acknowledged = acknowledged;
        for moment in self.moments.borrow_mut().iter_mut() {
            moment.acknowledged = acknowledged;
        }
    }

    /// Every moment there was, each after one operation.
    pub(crate) fn moments(&self) -> Vec<Moment> {
        self.moments.borrow().clone()
    }

    /// Without a loss of power.
    pub(crate) fn content(&self) -> Content {
        let state = self.state.borrow();
        state.content(&state.now, &|file| file.now.clone())
    }

    /// Writes over a file where it stands, as a plain write does. Not part of
    /// [`Fs`]: no code of the program can.
    pub(crate) fn write_in_place(&self, path: &Path, bytes: &[u8]) {
        for part in [0, bytes.len() / 2, bytes.len()] {
            self.step(|state| {
                let number = state.number(path)?;
                state.files[number].now = bytes[..part].to_vec();
                state.files[number].is_synced = false;
                Ok(())
            })
            .unwrap();
        }
    }

    /// The file of that name as [`Fs::sync_all`] takes it.
    pub(crate) fn open(&self, path: &Path) -> Number {
        self.state.borrow().number(path).unwrap()
    }

    fn step<T>(&self, change: impl FnOnce(&mut Moment) -> io::Result<T>) -> io::Result<T> {
        let done = change(&mut self.state.borrow_mut())?;
        self.moments.borrow_mut().push(self.state.borrow().clone());
        Ok(done)
    }

    fn name(&self, naming: Naming) -> io::Result<()> {
        self.step(|state| {
            state.now.apply(&naming);
            state.pending.push(naming);
            Ok(())
        })
    }
}

impl Moment {
    fn number(&self, path: &Path) -> io::Result<Number> {
        self.now
            .files
            .get(path)
            .copied()
            .ok_or(ErrorKind::NotFound.into())
    }

    fn content(&self, names: &Names, read: &dyn Fn(&File) -> Vec<u8>) -> Content {
        let files = names
            .files
            .iter()
            .filter(|(path, _)| names.folders.contains(path.parent().unwrap()))
            .map(|(path, number)| (path.clone(), read(&self.files[*number])))
            .collect();
        Content {
            folders: names.folders.clone(),
            files,
        }
    }

    /// Every state the disk may be in if power is lost now.
    pub(crate) fn losses(&self) -> BTreeSet<Content> {
        let mut losses = BTreeSet::new();
        for order in orders(&self.pending) {
            let mut names = self.durable.clone();
            for naming in order {
                names.apply(naming);
            }
            for damage in DAMAGES {
                losses.insert(self.content(&names, &|file| damage.of(file)));
            }
        }
        losses
    }
}

/// What becomes of content that was not synced.
#[derive(Clone, Copy)]
enum Damage {
    None,
    AsBefore,
    CutShort,
    LastByteGone,
    Zeroed,
    EndZeroed,
    StartAsBefore,
    EndAsBefore,
}

const DAMAGES: [Damage; 8] = [
    Damage::None,
    Damage::AsBefore,
    Damage::CutShort,
    Damage::LastByteGone,
    Damage::Zeroed,
    Damage::EndZeroed,
    Damage::StartAsBefore,
    Damage::EndAsBefore,
];

impl Damage {
    fn of(self, file: &File) -> Vec<u8> {
        let (now, before) = (&file.now, &file.synced);
        if file.is_synced {
            return now.clone();
        }
        let half = now.len() / 2;
        let old_half = half.min(before.len());
        match self {
            Self::None => now.clone(),
            Self::AsBefore => before.clone(),
            Self::CutShort => now[..half].to_vec(),
            Self::LastByteGone => now[..now.len().saturating_sub(1)].to_vec(),
            Self::Zeroed => vec![0; now.len()],
            Self::EndZeroed => [&now[..half], &vec![0; now.len() - half]].concat(),
            Self::StartAsBefore => [&before[..old_half], &now[half..]].concat(),
            Self::EndAsBefore => [&now[..half], &before[old_half..]].concat(),
        }
    }
}

/// Every choice of the operations in every order, while they are few; else
/// every choice in the order they were given, and in the other.
fn orders(pending: &[Naming]) -> Vec<Vec<&Naming>> {
    let mut orders = Vec::new();
    for choice in 0_u32..1 << pending.len() {
        let chosen: Vec<&Naming> = pending
            .iter()
            .enumerate()
            .filter(|(at, _)| choice & (1 << at) != 0)
            .map(|(_, naming)| naming)
            .collect();
        if chosen.len() <= 5 {
            permutations(chosen, Vec::new(), &mut orders);
        } else {
            orders.push(chosen.iter().rev().copied().collect());
            orders.push(chosen);
        }
    }
    orders
}

fn permutations<'a>(
    left: Vec<&'a Naming>,
    order: Vec<&'a Naming>,
    into: &mut Vec<Vec<&'a Naming>>,
) {
    if left.is_empty() {
        into.push(order);
        return;
    }
    for at in 0..left.len() {
        let mut left = left.clone();
        let mut order = order.clone();
        order.push(left.remove(at));
        permutations(left, order, into);
    }
}

impl Fs for SimDisk {
    type File = Number;

    fn read(&self, path: &Path, _: u64) -> io::Result<Vec<u8>> {
        let state = self.state.borrow();
        state
            .number(path)
            .map(|number| state.files[number].now.clone())
    }

    fn create_new(&self, path: &Path) -> io::Result<Number> {
        if self.exists(path)? {
            return Err(ErrorKind::AlreadyExists.into());
        }
        if !self.exists(path.parent().unwrap())? {
            return Err(ErrorKind::NotFound.into());
        }
        let number = self.state.borrow().files.len();
        self.state.borrow_mut().files.push(File {
            now: Vec::new(),
            synced: Vec::new(),
            is_synced: true,
        });
        self.name(Naming::Put(path.to_owned(), number))?;
        Ok(number)
    }

    fn write_all(&self, file: &mut Number, bytes: &[u8]) -> io::Result<()> {
        self.step(|state| {
            let file = &mut state.files[*file];
            file.now.extend(bytes);
            file.is_synced = false;
            Ok(())
        })
    }

    fn sync_all(&self, file: &mut Number) -> io::Result<()> {
        self.step(|state| {
            let file = &mut state.files[*file];
            file.synced = file.now.clone();
            file.is_synced = true;
            Ok(())
        })
    }

    fn match_permissions(&self, _: &Path, _: &Path) -> io::Result<()> {
        Ok(())
    }

    fn hard_link(&self, from: &Path, to: &Path) -> io::Result<()> {
        if !self.has_links {
            return Err(ErrorKind::Unsupported.into());
        }
        if self.exists(to)? {
            return Err(ErrorKind::AlreadyExists.into());
        }
        let number = self.state.borrow().number(from)?;
        self.name(Naming::Put(to.to_owned(), number))
    }

    fn rename(&self, from: &Path, to: &Path) -> io::Result<()> {
        let number = self.state.borrow().number(from)?;
        self.name(Naming::Move(from.to_owned(), to.to_owned(), number))
    }

    fn remove(&self, path: &Path) -> io::Result<()> {
        self.state.borrow().number(path)?;
        self.name(Naming::Take(path.to_owned()))
    }

    fn sync_folder(&self, folder: &Path) -> io::Result<()> {
        if !self.confirms {
            return Err(ErrorKind::InvalidInput.into());
        }
        self.step(|state| {
            let (safe, pending) = state
                .pending
                .drain(..)
                .partition(|naming| naming.folder() == folder);
            state.pending = pending;
            let safe: Vec<Naming> = safe;
            for naming in &safe {
                state.durable.apply(naming);
            }
            Ok(())
        })
    }

    fn create_folder(&self, folder: &Path) -> io::Result<()> {
        self.name(Naming::Folder(folder.to_owned()))
    }

    fn resolve(&self, path: &Path) -> io::Result<PathBuf> {
        Ok(path.to_owned())
    }

    fn exists(&self, path: &Path) -> io::Result<bool> {
        let state = self.state.borrow();
        Ok(state.now.files.contains_key(path) || state.now.folders.contains(path))
    }

    fn names(&self, folder: &Path) -> io::Result<Vec<OsString>> {
        let state = self.state.borrow();
        if !state.now.folders.contains(folder) {
            return Err(ErrorKind::NotFound.into());
        }
        let inside = state.now.files.keys();
        Ok(inside
            .filter(|path| path.parent() == Some(folder))
            .map(|path| path.file_name().unwrap().to_owned())
            .collect())
    }

    fn modified(&self, path: &Path) -> io::Result<Option<i64>> {
        let number = self.state.borrow().number(path)?;
        Ok(i64::try_from(number).ok())
    }
}
