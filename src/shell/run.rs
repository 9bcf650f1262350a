//! The full screen: one channel into one short loop.
//!
//! Keys, sizes and answers from the saver arrive on the channel; the loop
//! blocks on it, updates the state, carries out orders, and draws. No tick.

use super::exit::Exit;
use super::folders::Folders;
use super::input::{Input, read_all};
use super::jobs;
use super::saver::Saver;
use super::say::say;
#[cfg(unix)]
use super::signals;
use super::terminal::{Screen, give_back};
use crate::app::effect::Effect;
use crate::app::keymap::key_to_message;
use crate::app::message::Message;
use crate::app::state::{HOLD_MS, ScreenSize, State};
use crate::app::update::update;
use crate::domain::event::Utc;
use crate::ui::frame::render;
use crate::ui::theme::{Colours, Glyphs, Theme};
use std::io::{IsTerminal, stdin, stdout};
use std::path::Path;
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant, SystemTime, UNIX_EPOCH};

/// Opens the full screen on `job`, or on the last one where there is none.
#[must_use]
pub fn full_screen(job: Option<&Path>, folders: Folders) -> Exit {
    if !stdin().is_terminal() || !stdout().is_terminal() {
        say(
            "the full screen needs a terminal; in a pipe, use a command such as \"bendmark sheet JOB\"",
        );
        return Exit::USAGE;
    }
    let (preferences, trouble) = jobs::preferences(&folders);
    let first = match (job, preferences.recent.first()) {
        (Some(job), _) => jobs::open(job),
        (None, Some(last)) => jobs::open(last),
        (None, None) => jobs::first_run(&folders),
    };
    if let (Some(_), Message::NotOpened(why)) = (job, &first) {
        say(why);
        return Exit::COULD_NOT;
    }
    let mut messages = vec![Message::PreferencesKnown(preferences), first];
    messages.extend(trouble.map(Message::NotOpened));
    match run(folders, messages) {
        Ok(exit) => exit,
        Err(error) => {
            give_back();
            say(&format!("the terminal could not be used: {error}"));
            Exit::COULD_NOT
        }
    }
}

/// What the loop works with.
struct Shell {
    folders: Folders,
    saver: Saver,
    state: State,
    theme: Theme,
}

fn run(folders: Folders, messages: Vec<Message>) -> std::io::Result<Exit> {
    restore_on_panic();
    let mut screen = Screen::take()?;
    // A size change between now and the first read would otherwise be lost.
    let _ = crossterm::event::poll(Duration::ZERO);
    let (columns, rows) = screen.size();
    let (sender, inputs) = channel();
    let saver = Saver::start(sender.clone());
    #[cfg(unix)]
    signals::watch(saver.clone());
    let mut state = State::new(ScreenSize { columns, rows });
    state.hold_ms = hold_ms();
    let mut shell = Shell {
        folders,
        saver,
        theme: theme(),
        state,
    };
    for message in messages {
        if shell.take(message).is_some() {
            break;
        }
    }
    let start = Instant::now();
    std::thread::spawn(move || read_all(&sender, start));
    let exit = shell.work(&mut screen, &inputs);
    shell.saver.finish(Duration::from_secs(10));
    screen.leave();
    Ok(exit)
}

impl Shell {
    fn work(&mut self, screen: &mut Screen, inputs: &Receiver<Input>) -> Exit {
        loop {
            let theme = self.theme.with_look(self.state.preferences.look);
            let state = &self.state;
            if screen
                .draw(|area, buffer| render(state, &theme, area, buffer))
                .is_err()
            {
                return Exit::COULD_NOT;
            }
            let Ok(first) = inputs.recv() else {
                return Exit::COULD_NOT;
            };
            // What has arrived meanwhile needs no frame of its own.
            for input in std::iter::once(first).chain(inputs.try_iter()) {
                let message = match input {
                    Input::Key(key) => key_to_message(&self.state, key),
                    Input::Resized(size) => Some(Message::Resized(size)),
                    Input::Saved(change) => Some(Message::Saved(change)),
                    Input::NotSaved(change, why) => Some(Message::NotSaved(change, why)),
                    Input::Gone => return Exit::COULD_NOT,
                };
                if let Some(exit) = message.and_then(|message| self.take(message)) {
                    return exit;
                }
            }
        }
    }

    /// Updates the state and carries out what that orders.
    fn take(&mut self, message: Message) -> Option<Exit> {
        self.state.now = now();
        let mut messages = vec![message];
        while let Some(message) = messages.pop() {
            for effect in update(&mut self.state, message) {
                match self.perform(effect) {
                    Done::Answered(answer) => messages.push(*answer),
                    Done::Silent => {}
                    Done::Leave => return Some(Exit::DONE),
                }
            }
        }
        None
    }

    fn perform(&self, effect: Effect) -> Done {
        match effect {
            Effect::SaveJob { path, job, change } => {
                self.saver.save(path, job, change);
                Done::Silent
            }
            Effect::OpenJob(path) => {
                // What is still on its way belongs to the disk first: it may
                // be the very job that is opened.
                self.saver.finish(Duration::from_secs(10));
                Done::Answered(Box::new(jobs::open(&path)))
            }
            Effect::ReadRack(path) => {
                self.saver.finish(Duration::from_secs(10));
                Done::Answered(Box::new(jobs::read_rack(&path)))
            }
            Effect::CreateJob { name, path, job } => {
                Done::Answered(Box::new(jobs::make(&self.folders, &name, path, *job)))
            }
            Effect::SavePreferences(preferences) => {
                jobs::remember(&self.folders, &preferences);
                Done::Silent
            }
            Effect::Quit => Done::Leave,
        }
    }
}

/// What carrying out an order came to.
enum Done {
    Silent,
    Answered(Box<Message>),
    Leave,
}

fn now() -> Option<Utc> {
    let since = SystemTime::now().duration_since(UNIX_EPOCH).ok()?;
    i64::try_from(since.as_secs()).ok().map(Utc)
}

/// Tests press keys faster than any hand; they turn the deafness off.
fn hold_ms() -> u64 {
    std::env::var("BENDMARK_HOLD_MS")
        .ok()
        .and_then(|text| text.parse().ok())
        .unwrap_or(HOLD_MS)
}

fn theme() -> Theme {
    let is_set = |name| std::env::var_os(name).is_some_and(|value| !value.is_empty());
    let colours = if is_set("NO_COLOR") {
        Colours::None
    } else {
        Colours::Set
    };
    let glyphs = if is_set("BENDMARK_ASCII") {
        Glyphs::Ascii
    } else {
        Glyphs::Blocks
    };
    Theme::new(crate::app::state::Look::default(), colours, glyphs)
}

/// A panic gives the terminal back before it says anything.
fn restore_on_panic() {
    let usual = std::panic::take_hook();
    std::panic::set_hook(Box::new(move |info| {
        give_back();
        usual(info);
    }));
}
