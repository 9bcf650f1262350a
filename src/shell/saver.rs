//! The thread that saves: the newest state of each job wins, and "saved" is
//! said only when it is on the disk.

use super::clock::{now, today};
use super::fault;
use super::input::Input;
use crate::domain::job::Job;
use crate::storage::fs::{Fs, RealFs};
use crate::storage::job_file::encode;
use crate::storage::open_file::OpenFile;
use crate::storage::save::{OnDisk, SaveError, create};
use std::fmt;
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, TryLockError};
use std::time::Duration;

/// The thread's name, by which a panic on it is known.
pub const THREAD: &str = "saver";

/// The longest that an order waits for its frame, however long that takes.
const HEAD_START: Duration = Duration::from_millis(20);

/// A state of a job to be put on the disk.
#[derive(Clone, Debug)]
pub struct Order {
    /// The open job's path.
    pub path: PathBuf,
    /// The state.
    pub job: Arc<Job>,
    /// Which change it is.
    pub change: u64,
    /// What becomes of a file that another program has changed.
    pub other: Other,
}

/// What becomes of a file that another program has changed.
#[derive(Clone, Copy, PartialEq, Eq, Debug)]
pub enum Other {
    /// It stays, and nothing is saved.
    Stays,
    /// It is set aside.
    GoesAside,
}

/// What there is to do.
enum Task {
    Save(Order),
    /// What was ordered before this may be carried out.
    FrameDrawn,
    /// Say when everything before this is on the disk, or cannot be.
    Finish(Sender<Farewell>, Ending),
}

/// Whether the program ends here.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Ending {
    /// It goes on.
    No,
    /// It ends and nobody can be asked any more: what could not be saved is
    /// tried once more, then put elsewhere.
    Yes,
}

/// What became of the last change at the program's end.
#[derive(Clone, PartialEq, Eq, Debug)]
pub enum Farewell {
    /// It is on the disk.
    Saved,
    /// It is in another file, and why.
    Rescued(PathBuf, String),
    /// It is lost, and why.
    Lost(String),
}

impl Farewell {
    /// Whether it is where it belongs.
    #[must_use]
    pub const fn is_saved(&self) -> bool {
        matches!(self, Self::Saved)
    }
}

impl fmt::Display for Farewell {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Saved => f.write_str("the job is saved"),
            Self::Rescued(path, why) => {
                let path = path.display();
                write!(f, "{why}; the job as it was last is in \"{path}\"")
            }
            Self::Lost(why) => write!(f, "the last change is not saved: {why}"),
        }
    }
}

/// The open job's file, shared by the thread that saves and those that look.
type Shared = Arc<Mutex<Option<Box<OpenFile>>>>;

/// A handle to the saver thread; any thread may hold one.
#[derive(Clone)]
pub struct Saver {
    tasks: Sender<Task>,
    file: Shared,
}

impl Saver {
    /// Starts the thread; it answers into `answers`. What cannot be saved at
    /// the program's end goes to the folder `rescued`.
    #[must_use]
    pub fn start(answers: Sender<Input>, rescued: PathBuf) -> Self {
        let (tasks, inbox) = channel();
        let file = Shared::default();
        let worker = Worker {
            file: Arc::clone(&file),
            answers,
            rescued,
            failed: None,
        };
        // Without a thread no order is ever answered: "saving" stays on the
        // screen, and leaving asks.
        let _ = std::thread::Builder::new()
            .name(THREAD.to_owned())
            .spawn(move || worker.work(&inbox));
        Self { tasks, file }
    }

    /// Orders a state of a job to be saved. An order that cannot be given
    /// shows as one that is never answered: "saving" stays on the screen.
    pub fn save(&self, order: Order) {
        let _ = self.tasks.send(Task::Save(order));
    }

    /// Says that the frame after an order is drawn: the order may be carried out.
    /// Writing a job down beside the drawing holds the frame up.
    pub fn frame_drawn(&self) {
        let _ = self.tasks.send(Task::FrameDrawn);
    }

    /// Waits until all orders are carried out, at most `longest`.
    pub fn finish(&self, longest: Duration) {
        self.wait(Ending::No, longest);
    }

    /// The same at the program's end, when nobody can be asked any more.
    pub fn finish_for_good(&self, longest: Duration) -> Farewell {
        self.wait(Ending::Yes, longest)
    }

    fn wait(&self, ending: Ending, longest: Duration) -> Farewell {
        let (done, wait) = channel();
        let _ = self.tasks.send(Task::Finish(done, ending));
        wait.recv_timeout(longest)
            .unwrap_or_else(|_| Farewell::Lost("the disk does not answer".to_owned()))
    }

    /// Takes the open job's file away, or puts another one there; the one of
    /// before is let go with its lock where it is dropped.
    pub fn swap(&self, file: Option<Box<OpenFile>>) -> Option<Box<OpenFile>> {
        std::mem::replace(&mut *held(&self.file), file)
    }

    /// Whether another program has changed the open job's file. While a save
    /// is under way that is left to the save.
    #[must_use]
    pub fn is_changed(&self) -> bool {
        let mut file = match self.file.try_lock() {
            Ok(file) => file,
            Err(TryLockError::Poisoned(poisoned)) => poisoned.into_inner(),
            Err(TryLockError::WouldBlock) => return false,
        };
        file.as_mut().is_some_and(|file| file.is_changed())
    }
}

/// A panic while saving leaves the file as it is known, or known too little;
/// the next save finds out.
fn held(file: &Shared) -> MutexGuard<'_, Option<Box<OpenFile>>> {
    file.lock().unwrap_or_else(PoisonError::into_inner)
}

struct Worker {
    file: Shared,
    answers: Sender<Input>,
    rescued: PathBuf,
    /// The last order, where it failed, and why.
    failed: Option<(Order, String)>,
}

impl Worker {
    fn work(mut self, inbox: &Receiver<Task>) {
        while let Ok(first) = inbox.recv() {
            let mut tasks = vec![first];
            tasks.extend(inbox.try_iter());
            while tasks.iter().all(|task| matches!(task, Task::Save(_))) {
                let Ok(next) = inbox.recv_timeout(HEAD_START) else {
                    break;
                };
                tasks.push(next);
            }
            for (at, task) in tasks.iter().enumerate() {
                let later = tasks.get(at + 1..).unwrap_or_default();
                match task {
                    Task::Save(order) if !overtaken(order, later) => self.carry_out(order),
                    Task::Save(_) | Task::FrameDrawn => {}
                    Task::Finish(done, ending) => {
                        let _ = done.send(self.farewell(*ending));
                    }
                }
            }
        }
    }

    fn carry_out(&mut self, order: &Order) {
        self.failed = None;
        let inputs = match self.put_on_disk(order) {
            Ok(on_disk) => {
                let no_copy = on_disk.no_copy.map(Input::NoCopy);
                vec![Some(Input::Saved(order.change)), no_copy]
            }
            Err(trouble) => {
                let changed = trouble.is_changed.then_some(Input::ChangedOutside);
                self.failed = Some((order.clone(), trouble.words.clone()));
                vec![Some(Input::NotSaved(order.change, trouble.words)), changed]
            }
        };
        for input in inputs.into_iter().flatten() {
            let _ = self.answers.send(input);
        }
    }

    fn put_on_disk(&self, order: &Order) -> Result<OnDisk, Trouble> {
        // A fault of the program while saving: the job is in memory still.
        catch_unwind(AssertUnwindSafe(|| {
            fault::at("saver");
            let bytes = encode(&order.job).map_err(Trouble::of)?;
            let mut file = held(&self.file);
            let file = file
                .as_mut()
                .filter(|file| file.asked() == order.path)
                .ok_or_else(|| Trouble::of("another job has been opened"))?;
            match order.other {
                Other::Stays => file.save(&bytes, today()),
                Other::GoesAside => file.save_over(&bytes, today()),
            }
            .map_err(|error| Trouble {
                is_changed: matches!(error, SaveError::Changed { .. }),
                words: error.brief(),
            })
        }))
        .unwrap_or_else(|_| Err(Trouble::of("a fault of the program kept it from saving")))
    }

    fn farewell(&mut self, ending: Ending) -> Farewell {
        let Some((order, why)) = self.failed.clone() else {
            return Farewell::Saved;
        };
        if ending == Ending::No {
            return Farewell::Lost(why);
        }
        self.carry_out(&order);
        if self.failed.is_none() {
            return Farewell::Saved;
        }
        match rescue(&self.rescued, &order) {
            Some(path) => Farewell::Rescued(path, why),
            None => Farewell::Lost(why),
        }
    }
}

fn overtaken(order: &Order, later: &[Task]) -> bool {
    later
        .iter()
        .any(|task| matches!(task, Task::Save(other) if other.path == order.path))
}

struct Trouble {
    words: String,
    is_changed: bool,
}

impl Trouble {
    fn of(words: impl ToString) -> Self {
        Self {
            words: words.to_string(),
            is_changed: false,
        }
    }
}

/// Puts the job into the folder for such, under its file's name and the time.
fn rescue(folder: &Path, order: &Order) -> Option<PathBuf> {
    let bytes = encode(&order.job).ok()?;
    let stem = order.path.file_stem().unwrap_or_default().to_string_lossy();
    let at = now().map_or(0, |now| now.0);
    let path = folder.join(format!("{stem} {at}.ron"));
    RealFs.create_folder(folder).ok()?;
    create(&RealFs, &path, &bytes).ok()?;
    Some(path)
}
