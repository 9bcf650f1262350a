use crate::domain::{cutting::Job, measure::Name, settings::Settings};
use crate::shell::saving::saver::*;
use crate::storage::files::{Fs, RealFs};
use crate::storage::keeping::{load, save};
use std::path::Path;
use tempfile::TempDir;

const PATIENCE: Duration = Duration::from_secs(10);

/// A job's file in a folder of its own, and a saver that has it open.
struct Site {
    folder: TempDir,
    saver: Saver,
    answers: Receiver<Input>,
    path: PathBuf,
}

fn job(name: &str) -> Job {
    Job::new(Name::or(name, "?"), Settings::default())
}

impl Site {
    fn new() -> Self {
        let folder = tempfile::tempdir().unwrap();
        let (sender, answers) = channel();
        let saver = Saver::start(sender, folder.path().join("rescued"));
        let path = folder.path().join("roof.ron");
        let bytes = encode(&job("As made")).unwrap();
        saver.swap(Some(OpenFile::make(&path, &bytes).unwrap()));
        Self {
            folder,
            saver,
            answers,
            path,
        }
    }

    fn order(&self, name: &str, change: u64) -> ToSave {
        ToSave {
            path: self.path.clone(),
            job: Arc::new(job(name)),
            change,
            before: None,
            other: OtherFile::Stays,
        }
    }

    /// Another program writes the file, and what is saved here fails on it.
    fn fail_on_another(&self) {
        save(&RealFs, &self.path, &encode(&job("Other")).unwrap()).unwrap();
        self.saver.save(self.order("Screen", 1));
        self.saver.finish(PATIENCE);
        assert!(matches!(
            self.answers.try_iter().next(),
            Some(Input::Saver(Message::NotSaved(1, _)))
        ));
    }

    fn rescued(&self) -> usize {
        let folder = self.folder.path().join("rescued");
        RealFs.names(&folder).map_or(0, |names| names.len())
    }
}

fn name_in(path: &Path) -> String {
    load(&RealFs, path).unwrap().job.name.to_string()
}

#[test]
fn what_failed_is_never_put_over_the_file_that_was_opened_instead() {
    let site = Site::new();
    site.fail_on_another();
    let taken = OpenFile::take(&site.path, site.saver.swap(None)).unwrap();
    let crate::storage::keeping::Held::ByUs(theirs) = taken.held else {
        panic!("it is ours");
    };
    site.saver.swap(Some(theirs));
    assert_eq!(site.saver.finish_for_good(PATIENCE), Farewell::Saved);
    assert_eq!(name_in(&site.path), "Other");
}

#[test]
fn what_was_saved_elsewhere_is_not_rescued_as_well() {
    let site = Site::new();
    site.fail_on_another();
    let other = site.folder.path().join("other.ron");
    let bytes = encode(&job("Screen")).unwrap();
    assert_eq!(site.rescued(), 1);
    site.saver.is_elsewhere();
    site.saver
        .swap(Some(OpenFile::make(&other, &bytes).unwrap()));
    assert_eq!(site.saver.finish_for_good(PATIENCE), Farewell::Saved);
    assert_eq!(site.rescued(), 0);
}

#[test]
fn what_was_rescued_is_told_again_and_not_rescued_twice() {
    let site = Site::new();
    site.fail_on_another();
    let first = site.saver.finish_for_good(PATIENCE);
    assert!(matches!(first, Farewell::Rescued(..)), "{first}");
    assert_eq!(site.saver.finish_for_good(PATIENCE), first);
    assert_eq!(site.rescued(), 1);
    assert_eq!(name_in(&site.path), "Other");
}

/// A worker by itself, so that tasks can be given to it together.
fn worker(site: &Site) -> (Worker, Receiver<Input>) {
    let (answers, said) = channel();
    let worker = Worker {
        desk: Arc::clone(&site.saver.desk),
        answers,
        rescued: site.folder.path().join("rescued"),
    };
    (worker, said)
}

#[test]
fn a_finish_waits_for_what_was_ordered_before_it() {
    let site = Site::new();
    let (worker, said) = worker(&site);
    let (done, wait) = channel();
    worker.carry_out_all(&[
        Task::Save(site.order("First", 1)),
        Task::Finish(done, Ending::Yes),
        Task::Save(site.order("Second", 2)),
    ]);
    assert_eq!(wait.recv(), Ok(Farewell::Saved));
    assert!(matches!(
        said.try_iter().next(),
        Some(Input::Saver(Message::Saved(1)))
    ));
    // Beside each other the newer one is enough.
    worker.carry_out_all(&[
        Task::Save(site.order("Third", 3)),
        Task::Save(site.order("Fourth", 4)),
        Task::FrameDrawn,
    ]);
    let saved: Vec<_> = said.try_iter().map(|input| format!("{input:?}")).collect();
    assert_eq!(saved, ["Saver(Saved(2))", "Saver(Saved(4))"]);
}

#[test]
fn another_file_can_be_opened_while_the_disk_hangs() {
    let site = Site::new();
    let hanging = held(&site.saver.desk).file.clone().unwrap();
    let hanging = hanging.lock().unwrap();
    site.saver.save(site.order("Screen", 1));
    site.saver.frame_drawn();
    site.saver.finish(Duration::from_millis(50));
    let other = site.folder.path().join("other.ron");
    let bytes = encode(&job("Screen")).unwrap();
    let before = site
        .saver
        .swap(Some(OpenFile::make(&other, &bytes).unwrap()));
    assert!(before.is_none());
    drop(hanging);
    // What became of the one before is no matter any more.
    assert_eq!(site.saver.finish_for_good(PATIENCE), Farewell::Saved);
    assert_eq!(site.answers.try_iter().count(), 0);
}
