//! The thread that saves: the newest state of each job wins, and "saved" is
//! said only when it is on the disk.
//!
//! An order waits for the frame that shows its change, and for what is ordered
//! meanwhile; at most 20 ms, counted from the first of them.

use super::farewell::Farewell;
use crate::app::effect::{OtherFile, ToSave};
use crate::app::message::Message;
use crate::domain::cutting::Job;
use crate::shell::outside::{fault, now};
use crate::shell::terminal::{Input, give_back_within};
use crate::storage::files::{Confirmed, RealFs};
use crate::storage::job_file::encode;
use crate::storage::keeping::{OnDisk, OpenFile, Rescued, SaveError, Seen, give_up, rescue};
use std::panic::{AssertUnwindSafe, catch_unwind};
use std::path::PathBuf;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::sync::{Arc, Mutex, MutexGuard, PoisonError, TryLockError};
use std::time::{Duration, Instant};

/// The thread's name, by which a panic on it is known.
pub(super) const THREAD: &str = "saver";

/// How long the last save may take before the program goes on without it.
pub const LONGEST: Duration = Duration::from_secs(10);

/// How long the terminal may take; one that is stuck is left as it is.
const TERMINAL: Duration = Duration::from_secs(1);

/// The longest that orders wait for their frame, however long that takes and
/// however many follow.
const HEAD_START: Duration = Duration::from_millis(20);

/// What there is to do.
enum Task {
    Save(ToSave),
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

/// An open job's file. The thread that saves holds it for as long as the disk
/// takes.
type File = Arc<Mutex<Box<OpenFile>>>;

/// What is open, shared by the thread that saves and those that look. Held for
/// a moment only: a disk that hangs keeps nobody from going elsewhere.
#[derive(Default)]
struct Desk {
    file: Option<File>,
    /// The last order for it, where that failed. It goes with the file: it must
    /// never be carried out on another, nor on what another program wrote.
    failed: Option<Failed>,
    /// Whether it was said that its disk knows no syncing of folders.
    is_told: bool,
}

type Shared = Arc<Mutex<Desk>>;

/// An order that could not be carried out.
#[derive(Clone)]
struct Failed {
    order: ToSave,
    why: String,
    /// Where it, or one before it, was put meanwhile.
    rescued: Option<Rescued>,
}

/// A handle to the saver thread; any thread may hold one.
#[derive(Clone)]
pub struct Saver {
    tasks: Sender<Task>,
    desk: Shared,
}

impl Saver {
    /// Starts the thread; it answers into `answers`. What cannot be saved goes to
    /// the folder `rescued` meanwhile.
    pub fn start(answers: Sender<Input>, rescued: PathBuf) -> Self {
        let (tasks, inbox) = channel();
        let desk = Shared::default();
        let worker = Worker {
            desk: Arc::clone(&desk),
            answers,
            rescued,
        };
        // Without a thread no order is ever answered: "saving" stays on the
        // screen, and leaving asks.
        let _ = std::thread::Builder::new()
            .name(THREAD.to_owned())
            .spawn(move || worker.work(&inbox));
        Self { tasks, desk }
    }

    /// Orders a state of a job to be saved. An order that cannot be given
    /// shows as one that is never answered: "saving" stays on the screen.
    pub fn save(&self, order: ToSave) {
        let _ = self.tasks.send(Task::Save(order));
    }

    /// Says that the frame after an order is drawn: the order may be carried out.
    /// Writing a job down beside the drawing holds the frame up.
    pub fn frame_drawn(&self) {
        let _ = self.tasks.send(Task::FrameDrawn);
    }

    /// Waits until all orders are carried out, at most `longest`.
    pub fn finish(&self, longest: Duration) -> Farewell {
        self.wait(Ending::No, longest)
    }

    /// What could not be saved lies in a file of its own by now: what was
    /// rescued of it is not needed any more.
    pub fn is_elsewhere(&self) {
        let failed = held(&self.desk).failed.take();
        if let Some(rescued) = failed.and_then(|failed| failed.rescued) {
            give_up(&RealFs, &rescued);
        }
    }

    /// The same at the program's end, when nobody can be asked any more.
    pub fn finish_for_good(&self, longest: Duration) -> Farewell {
        self.wait(Ending::Yes, longest)
    }

    /// The same where the program ends by surprise; gives the terminal back, too.
    pub(super) fn finish_and_leave(&self) -> Farewell {
        let farewell = self.finish_for_good(LONGEST);
        give_back_within(TERMINAL);
        farewell
    }

    fn wait(&self, ending: Ending, longest: Duration) -> Farewell {
        let (done, wait) = channel();
        let _ = self.tasks.send(Task::Finish(done, ending));
        wait.recv_timeout(longest)
            .unwrap_or_else(|_| Farewell::Lost("the disk does not answer".to_owned()))
    }

    /// Takes the open job's file away, or puts another one there; the one of
    /// before is let go with its lock where it is dropped. One that is being
    /// written at this moment does not come back: it goes when that ends.
    pub fn swap(&self, file: Option<Box<OpenFile>>) -> Option<Box<OpenFile>> {
        let desk = Desk {
            file: file.map(|file| Arc::new(Mutex::new(file))),
            ..Desk::default()
        };
        let before = std::mem::replace(&mut *held(&self.desk), desk);
        let file = before.file.and_then(Arc::into_inner)?;
        Some(file.into_inner().unwrap_or_else(PoisonError::into_inner))
    }

    /// What has become of the open job's file. While a save is under way that is
    /// left to the save.
    pub fn seen(&self) -> Seen {
        let Some(file) = held(&self.desk).file.clone() else {
            return Seen::Same;
        };
        match file.try_lock() {
            Ok(mut file) => file.seen(),
            Err(TryLockError::Poisoned(poisoned)) => poisoned.into_inner().seen(),
            Err(TryLockError::WouldBlock) => Seen::Same,
        }
    }
}

/// A panic while saving leaves the file as it is known, or known too little;
/// the next save finds out.
fn held<T>(shared: &Mutex<T>) -> MutexGuard<'_, T> {
    shared.lock().unwrap_or_else(PoisonError::into_inner)
}

struct Worker {
    desk: Shared,
    answers: Sender<Input>,
    rescued: PathBuf,
}

impl Worker {
    fn work(self, inbox: &Receiver<Task>) {
        while let Ok(first) = inbox.recv() {
            let mut tasks = vec![first];
            tasks.extend(inbox.try_iter());
            let until = Instant::now() + HEAD_START;
            while tasks.iter().all(|task| matches!(task, Task::Save(_))) {
                let left = until.saturating_duration_since(Instant::now());
                let Ok(next) = inbox.recv_timeout(left) else {
                    break;
                };
                tasks.push(next);
            }
            self.carry_out_all(&tasks);
        }
    }

    fn carry_out_all(&self, tasks: &[Task]) {
        // What is to be kept of those that are overtaken is kept all the same.
        let mut before = Vec::new();
        for (at, task) in tasks.iter().enumerate() {
            let later = tasks.get(at + 1..).unwrap_or_default();
            match task {
                Task::Save(order) => {
                    before.extend(order.before.clone());
                    if !overtaken(order, later) {
                        self.carry_out(order, &std::mem::take(&mut before));
                    }
                }
                Task::FrameDrawn => {}
                Task::Finish(done, ending) => {
                    let _ = done.send(self.farewell(*ending));
                }
            }
        }
    }

    /// Says what became of it, and keeps it where it failed: in the folder for
    /// such, until it is saved.
    fn carry_out(&self, order: &ToSave, before: &[Arc<Job>]) {
        let file = held(&self.desk).file.clone();
        let is_for = |file: &File| held(file).asked() == order.path;
        // Ordered before another file was opened, which took its job along.
        if !file.as_ref().is_none_or(is_for) {
            return;
        }
        let done = put_on_disk(file.as_ref(), order, before);
        let older = held(&self.desk).failed.clone();
        let older = older.and_then(|failed| failed.rescued);
        let now_in = match &done {
            Ok(_) => {
                older.iter().for_each(|older| give_up(&RealFs, older));
                None
            }
            Err(_) => self.rescued(order, older.as_ref()),
        };
        let mut desk = held(&self.desk);
        // Another file has been opened while the disk hung.
        if desk.file.as_ref().map(Arc::as_ptr) != file.as_ref().map(Arc::as_ptr) {
            return;
        }
        let (answer, more) = match done {
            Ok(on_disk) => {
                desk.failed = None;
                let no_copy = on_disk.no_copy.map(Message::NoCopy);
                let is_new = on_disk.confirmed == Confirmed::No && !desk.is_told;
                desk.is_told |= is_new;
                let unconfirmed = is_new.then_some(Message::Unconfirmed);
                (Message::Saved(order.change), [no_copy, unconfirmed])
            }
            Err(trouble) => {
                let changed = trouble.is_changed.then_some(Message::ChangedOutside);
                let there = now_in.as_ref().map(|rescued| rescued.path.clone());
                desk.failed = Some(Failed {
                    order: order.clone(),
                    why: trouble.words.clone(),
                    rescued: now_in.or(older),
                });
                let there = there.map(|path| Message::Rescued(order.change, path));
                (
                    Message::NotSaved(order.change, trouble.words),
                    [there, changed],
                )
            }
        };
        drop(desk);
        for message in std::iter::once(answer).chain(more.into_iter().flatten()) {
            let _ = self.answers.send(Input::Saver(message));
        }
    }

    fn farewell(&self, ending: Ending) -> Farewell {
        let failed = || held(&self.desk).failed.clone();
        let Some(before) = failed() else {
            return Farewell::Saved;
        };
        if ending == Ending::Yes {
            self.carry_out(&before.order, &[]);
        }
        let Some(still) = failed() else {
            return Farewell::Saved;
        };
        // The newest state, or one before it where no other could be put there.
        let Some(rescued) = self.rescued(&still.order, still.rescued.as_ref()) else {
            return Farewell::Lost(still.why);
        };
        if let Some(failed) = held(&self.desk).failed.as_mut() {
            failed.rescued = Some(rescued.clone());
        }
        Farewell::Rescued(rescued.path, still.why)
    }

    /// Puts the order's job into the folder for such, in the place of `older`.
    fn rescued(&self, order: &ToSave, older: Option<&Rescued>) -> Option<Rescued> {
        // Without the job's bytes there is nothing to put there either.
        catch_unwind(AssertUnwindSafe(|| {
            let bytes = encode(&order.job).ok()?;
            let seconds = now().map_or(0, |now| now.0);
            let own = (order.path.as_path(), seconds);
            rescue(&RealFs, &self.rescued, own, &bytes, older).ok()
        }))
        .unwrap_or(None)
    }
}

fn put_on_disk(
    file: Option<&File>,
    order: &ToSave,
    before: &[Arc<Job>],
) -> Result<OnDisk, Trouble> {
    // A fault of the program while saving: the job is in memory still.
    catch_unwind(AssertUnwindSafe(|| {
        fault::at("saver");
        let bytes = encode(&order.job).map_err(Trouble::of)?;
        let before = before.iter().map(|job| encode(job).map_err(Trouble::of));
        let before: Vec<Vec<u8>> = before.collect::<Result<_, _>>()?;
        let file = file.ok_or_else(|| Trouble::of("its file is not open any more"))?;
        let mut file = held(file);
        match order.other {
            OtherFile::Stays => file.save(&bytes, &before, now()),
            OtherFile::GoesAside => file.save_over(&bytes, &before, now()),
        }
        .map_err(|error| Trouble {
            is_changed: matches!(error, SaveError::Changed { .. }),
            words: error.brief(),
        })
    }))
    .unwrap_or_else(|_| Err(Trouble::of("a fault of the program kept it from saving")))
}

/// Whether a newer state makes this one needless. Whoever waits for a finish is
/// told of what was ordered before it, and may end the program then.
fn overtaken(order: &ToSave, later: &[Task]) -> bool {
    later
        .iter()
        .take_while(|task| !matches!(task, Task::Finish(..)))
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

#[cfg(test)]
mod tests;
