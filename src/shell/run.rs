//! The full screen: one channel into one short loop.
//!
//! Keys, sizes and answers from the saver arrive on the channel; the loop
//! blocks on it, updates the state, carries out orders, and draws. No tick.

use crate::app::{
    effect::Effect,
    key::{Code, Key},
    keymap::key_to_message,
    message::Message,
    place::ScreenSize,
    state::{HOLD_MS, State},
    update::update,
};
use crate::shell::{
    jobs::{Answer, opening, sheets, taking},
    outside::{Exit, Folders, fault, now, say},
    saving::{LONGEST, Saver, crash, signals},
    terminal::{Input, Screen, give_back, read_all},
};
use crate::storage::keeping::{OpenFile, Seen, Watch};
use crate::ui::frame::render;
use crate::ui::theme::{Colours, Theme};
use std::collections::VecDeque;
use std::io::{IsTerminal, stdin, stdout};
use std::path::{Path, PathBuf};
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// Opens the full screen on `job`, or on the last one where there is none.
pub fn full_screen(job: Option<&Path>, folders: Folders) -> Exit {
    if !stdin().is_terminal() || !stdout().is_terminal() {
        say(
            "the full screen needs a terminal; in a pipe, use a command such as \"bendmark sheet JOB\"",
        );
        return Exit::USAGE;
    }
    let (preferences, trouble) = opening::preferences(&folders);
    let first = match (job, preferences.recent.first()) {
        (Some(job), _) => opening::open(job, &folders.rescued, None),
        (None, Some(last)) => opening::open(last, &folders.rescued, None),
        // Another start knew of jobs: the sample is not the one to show.
        (None, None) if trouble.is_some() => Answer::default(),
        (None, None) => opening::first_run(&folders),
    };
    if let (Some(_), [Message::NotOpened(why)]) = (job, first.messages.as_slice()) {
        say(why);
        return Exit::COULD_NOT;
    }
    let mut messages = vec![Message::PreferencesRead(preferences)];
    messages.extend(first.messages);
    messages.extend(trouble.map(Message::NotOpened));
    match run(folders, messages, first.file, first.watch) {
        Ok(exit) => exit,
        Err(error) => {
            give_back();
            let why = crate::storage::files::words(&error);
            say(&format!("the terminal could not be used: {why}"));
            Exit::COULD_NOT
        }
    }
}

/// What the loop works with.
struct Shell {
    folders: Folders,
    saver: Saver,
    state: State,
    /// The job's file where it may only be read.
    watch: Option<Box<Watch>>,
    colours: Colours,
}

fn run(
    folders: Folders,
    messages: Vec<Message>,
    file: Option<Box<OpenFile>>,
    watch: Option<Box<Watch>>,
) -> std::io::Result<Exit> {
    let (sender, inputs) = channel();
    let saver = Saver::start(sender.clone(), folders.rescued.clone());
    saver.swap(file);
    crash::watch(saver.clone(), folders.crashes.clone());
    let mut screen = Screen::take()?;
    // A size change between now and the first read would otherwise be lost.
    let _ = crossterm::event::poll(Duration::ZERO);
    let (columns, rows) = screen.size();
    signals::watch(&saver);
    let mut state = State::new(ScreenSize { columns, rows });
    state.hold_ms = hold_ms();
    state.home = home();
    let mut shell = Shell {
        folders,
        saver,
        colours: colours(),
        state,
        watch,
    };
    for message in messages {
        if shell.take(message).is_some() {
            break;
        }
    }
    let start = Instant::now();
    std::thread::spawn(move || read_all(&sender, start));
    let exit = shell.work(&mut screen, &inputs);
    // Else nobody was asked whether the last change may be lost.
    let is_asked = exit == Exit::DONE;
    let farewell = match is_asked {
        true => shell.saver.finish(LONGEST),
        false => shell.saver.finish_for_good(LONGEST),
    };
    shell.saver.swap(None);
    screen.leave();
    match is_asked {
        true => farewell.say_if_elsewhere(),
        false => farewell.say_if_lost(),
    }
    Ok(exit)
}

impl Shell {
    fn work(&mut self, screen: &mut Screen, inputs: &Receiver<Input>) -> Exit {
        loop {
            let theme = Theme::liked(&self.state.preferences, self.colours);
            let mut shown = self.state.size;
            let drawn = screen.draw(|area, buffer| {
                shown = ScreenSize {
                    columns: area.width,
                    rows: area.height,
                };
                render(&self.state, &theme, area, buffer);
            });
            if drawn.is_err() {
                return Exit::HUNG_UP;
            }
            // A key means what the screen showed when it was pressed: what a change
            // of size says of itself may come before or behind it.
            self.take(Message::Shown(shown));
            self.saver.frame_drawn();
            let Ok(first) = inputs.recv() else {
                return Exit::HUNG_UP;
            };
            // What has arrived meanwhile needs no frame of its own.
            for input in std::iter::once(first).chain(inputs.try_iter()) {
                let done = match input {
                    Input::Key(key) => self.key(key),
                    Input::Pasted(text) => self.take(Message::Pasted(text)),
                    Input::Resized => {
                        screen.size_changed();
                        None
                    }
                    Input::Saver(message) => self.take(message),
                    Input::Gone => return Exit::HUNG_UP,
                };
                if let Some(exit) = done {
                    return exit;
                }
            }
        }
    }

    /// A key, and before it what has become of a job that is only looked at: the
    /// key is to act on its newest state. What is said of it comes behind.
    fn key(&mut self, key: Key) -> Option<Exit> {
        // A dialog is about the job as it was when that was asked.
        let watch = self.watch.as_mut().filter(|_| self.state.dialog.is_none());
        if let Some(newer) = watch.and_then(|watch| watch.newer()) {
            let reread = Message::Reread(Box::new(newer.job));
            self.take(reread);
        }
        let freed = self.watch.as_mut().and_then(|watch| watch.freed());
        let done = self.pressed(key);
        if self.watch.is_some()
            && let Some(is_free) = freed
        {
            self.take(Message::Freed(is_free));
        }
        done
    }

    /// Does what a key means. Where another program has changed the job's file,
    /// the key means nothing: it was pressed before that was said.
    fn pressed(&mut self, key: Key) -> Option<Exit> {
        if key.code == Code::F(12) {
            fault::at("loop");
        }
        let seen = match self.state.dialog {
            None => self.saver.seen(),
            Some(_) => Seen::Same,
        };
        if seen == Seen::Changed {
            return self.take(Message::ChangedOutside);
        }
        if let Some(message) = key_to_message(&self.state, key)
            && let Some(exit) = self.take(message)
        {
            return Some(exit);
        }
        match seen {
            Seen::Gone => self.take(Message::FileGone),
            Seen::Same | Seen::Changed => None,
        }
    }

    /// Updates the state and carries out what that orders.
    fn take(&mut self, message: Message) -> Option<Exit> {
        self.state.now = now();
        let mut messages = VecDeque::from([message]);
        while let Some(message) = messages.pop_front() {
            for effect in update(&mut self.state, message) {
                match self.perform(effect) {
                    Some(answers) => messages.extend(answers),
                    None => return Some(Exit::DONE),
                }
            }
        }
        None
    }

    /// Carries out an order and says what came of it; `None` to leave.
    fn perform(&mut self, effect: Effect) -> Option<Vec<Message>> {
        match effect {
            Effect::SaveJob(order) => self.saver.save(order),
            Effect::LetGo => {
                self.watch = None;
                drop(self.saver.swap(None));
            }
            Effect::SavePreferences(preferences) => {
                opening::remember(&self.folders, &preferences);
            }
            Effect::SaveElsewhere(path, ours) => {
                self.saver.finish(LONGEST);
                let moved = opening::move_to(&path, &ours);
                if moved.file.is_some() {
                    self.saver.is_elsewhere();
                }
                return Some(self.taken(moved));
            }
            Effect::CreateJob(job) => {
                self.saver.finish(LONGEST);
                let made = opening::make(&self.folders, *job);
                return Some(self.taken(made));
            }
            Effect::OpenJob(path) => {
                self.saver.finish(LONGEST);
                return Some(self.opened(&path));
            }
            Effect::OpenOther(ours) => {
                self.saver.finish(LONGEST);
                return Some(match opening::keep_screen(&ours) {
                    Ok(kept) => {
                        self.saver.is_elsewhere();
                        let mut messages = self.opened(&ours.path);
                        messages.push(Message::OursKept(kept));
                        messages
                    }
                    Err(why) => vec![Message::NotOpened(format!("{why:#}"))],
                });
            }
            Effect::ListKept(path, job) => {
                self.saver.finish(LONGEST);
                let rescued = &self.folders.rescued;
                return Some(vec![opening::list_kept(&path, rescued, &job)]);
            }
            Effect::ReadKept(path) => return Some(vec![opening::read_kept(&path)]),
            Effect::ReadRack(path) => {
                self.saver.finish(LONGEST);
                return Some(vec![opening::read_rack(&path)]);
            }
            Effect::TakeReadings {
                path,
                job,
                same_figures,
            } => return Some(vec![taking::take(path, &job, same_figures)]),
            Effect::WriteSheet { path, job, edge } => {
                return Some(vec![sheets::write(&path, &job, edge)]);
            }
            Effect::Quit => return None,
        }
        Some(Vec::new())
    }

    /// Opens the job at `path` in the place of the one before. What was still
    /// on its way must be on the disk: it may be this very job.
    fn opened(&mut self, path: &Path) -> Vec<Message> {
        let answer = opening::open(path, &self.folders.rescued, self.saver.swap(None));
        let is_open = answer.file.is_some() || answer.watch.is_some();
        self.saver.swap(answer.file);
        // Where nothing was opened, the one of before is looked at still.
        if is_open {
            self.watch = answer.watch;
        }
        answer.messages
    }

    /// The file that was made, if any, takes the place of the one before.
    fn taken(&mut self, answer: Answer) -> Vec<Message> {
        if answer.file.is_some() {
            self.saver.swap(answer.file);
            self.watch = None;
        }
        answer.messages
    }
}

/// The home folder that `~/` stands for in a shell; Windows has no such word.
fn home() -> Option<PathBuf> {
    let home = std::env::var_os("HOME").filter(|home| cfg!(unix) && !home.is_empty());
    home.map(PathBuf::from)
}

/// Tests press keys faster than any hand; they turn the deafness off.
fn hold_ms() -> u64 {
    std::env::var("BENDMARK_HOLD_MS")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(HOLD_MS)
}

fn colours() -> Colours {
    let unwanted = std::env::var_os("NO_COLOR").is_some_and(|value| !value.is_empty());
    if unwanted {
        Colours::None
    } else {
        Colours::Set
    }
}
