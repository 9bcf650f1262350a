//! The thread that saves: the newest state of each job wins, and "saved" is
//! said only when it is on the disk.

use super::input::Input;
use crate::domain::job::Job;
use crate::storage::fs::RealFs;
use crate::storage::job_file::encode;
use crate::storage::save::save;
use std::path::{Path, PathBuf};
use std::sync::Arc;
use std::sync::mpsc::{Receiver, Sender, channel};
use std::time::Duration;

/// An order to the saver.
enum Order {
    Save {
        path: PathBuf,
        job: Arc<Job>,
        change: u64,
    },
    /// Say when everything before this is on the disk, or cannot be.
    Finish(Sender<()>),
}

/// A handle to the saver thread; any thread may hold one.
#[derive(Clone)]
pub struct Saver {
    orders: Sender<Order>,
}

impl Saver {
    /// Starts the thread; it answers into `answers`.
    #[must_use]
    pub fn start(answers: Sender<Input>) -> Self {
        let (orders, inbox) = channel();
        std::thread::spawn(move || work(&inbox, &answers));
        Self { orders }
    }

    /// Orders a state of a job to be saved. An order that cannot be given
    /// shows as one that is never answered: "saving" stays on the screen.
    pub fn save(&self, path: PathBuf, job: Arc<Job>, change: u64) {
        let _ = self.orders.send(Order::Save { path, job, change });
    }

    /// Waits until all orders are carried out, at most `longest`.
    pub fn finish(&self, longest: Duration) {
        let (done, wait) = channel();
        if self.orders.send(Order::Finish(done)).is_ok() {
            let _ = wait.recv_timeout(longest);
        }
    }
}

fn work(inbox: &Receiver<Order>, answers: &Sender<Input>) {
    while let Ok(first) = inbox.recv() {
        let mut orders = vec![first];
        orders.extend(inbox.try_iter());
        for (at, order) in orders.iter().enumerate() {
            let later = orders.get(at + 1..).unwrap_or_default();
            carry_out(order, later, answers);
        }
    }
}

fn carry_out(order: &Order, later: &[Order], answers: &Sender<Input>) {
    match order {
        Order::Save { path, job, change } => {
            let overtaken = later
                .iter()
                .any(|order| matches!(order, Order::Save { path: other, .. } if other == path));
            if overtaken {
                return;
            }
            let answer = match put_on_disk(path, job) {
                Ok(()) => Input::Saved(*change),
                Err(why) => Input::NotSaved(*change, why),
            };
            let _ = answers.send(answer);
        }
        Order::Finish(done) => {
            let _ = done.send(());
        }
    }
}

fn put_on_disk(path: &Path, job: &Job) -> Result<(), String> {
    let bytes = encode(job).map_err(|error| error.to_string())?;
    save(&RealFs, path, &bytes).map_err(|error| error.to_string())
}
