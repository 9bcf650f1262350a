//! The real program in a real terminal of its own, with a home of its own.
#![allow(dead_code, reason = "each test crate uses a part of it")]

use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::path::{Path, PathBuf};
use std::sync::{Arc, Condvar, Mutex};
use std::time::{Duration, Instant};

const LONGEST: Duration = Duration::from_secs(10);

/// What the terminal shows, kept by the thread that reads it.
struct Shown {
    parser: vt100::Parser<Frames>,
    ended: bool,
    /// Whoever reads is to stop at the next bytes.
    closing: bool,
}

/// Finished frames: each ends with the end of a synchronised update.
#[derive(Default)]
struct Frames {
    count: usize,
    /// The last one that said "saved".
    saved: String,
}

impl vt100::Callbacks for Frames {
    fn unhandled_csi(
        &mut self,
        screen: &mut vt100::Screen,
        i1: Option<u8>,
        _: Option<u8>,
        params: &[&[u16]],
        c: char,
    ) {
        if i1 == Some(b'?') && c == 'l' && params.first().is_some_and(|p| p.contains(&2026)) {
            self.count += 1;
            let shown = screen.contents();
            let header = shown.lines().next().unwrap_or_default();
            if header.trim_end().ends_with(" saved") {
                self.saved = shown;
            }
        }
    }
}

pub struct Terminal {
    pub child: Box<dyn Child + Send + Sync>,
    master: Box<dyn MasterPty + Send>,
    writer: Box<dyn Write + Send>,
    shown: Arc<(Mutex<Shown>, Condvar)>,
}

impl Terminal {
    pub fn open(home: &Path, args: &[&str], size: (u16, u16)) -> Self {
        let mut command = CommandBuilder::new(env!("CARGO_BIN_EXE_bendmark"));
        command.args(args);
        Self::run(home, command, size)
    }

    /// The same within a shell, where `$BENDMARK` is the program.
    pub fn open_in_shell(home: &Path, script: &str, size: (u16, u16)) -> Self {
        let mut command = CommandBuilder::new("/bin/sh");
        command.args(["-c", script]);
        Self::run(home, command, size)
    }

    fn run(home: &Path, mut command: CommandBuilder, size: (u16, u16)) -> Self {
        let pty = native_pty_system()
            .openpty(PtySize {
                rows: size.1,
                cols: size.0,
                pixel_width: 0,
                pixel_height: 0,
            })
            .unwrap();
        environment(&mut command, home);
        command.env("BENDMARK", env!("CARGO_BIN_EXE_bendmark"));
        command.env("TERM", "xterm-256color");
        command.env("BENDMARK_HOLD_MS", "0");
        command.cwd(home);
        let child = pty.slave.spawn_command(command).unwrap();
        drop(pty.slave);
        let shown = Arc::new((
            Mutex::new(Shown {
                parser: vt100::Parser::new_with_callbacks(
                    cells(size.1),
                    cells(size.0),
                    0,
                    Frames::default(),
                ),
                ended: false,
                closing: false,
            }),
            Condvar::new(),
        ));
        let mut reader = pty.master.try_clone_reader().unwrap();
        let feed = Arc::clone(&shown);
        std::thread::spawn(move || {
            let mut bytes = [0; 8192];
            loop {
                let count = reader.read(&mut bytes).unwrap_or(0);
                let mut shown = feed.0.lock().unwrap();
                shown.parser.process(&bytes[..count]);
                shown.ended |= count == 0 || shown.closing;
                if shown.ended {
                    // The terminal is closed when nobody has it open.
                    drop(reader);
                    feed.1.notify_all();
                    return;
                }
                feed.1.notify_all();
            }
        });
        Self {
            child,
            writer: pty.master.take_writer().unwrap(),
            master: pty.master,
            shown,
        }
    }

    /// Waits until the screen shows `text`.
    #[track_caller]
    pub fn wait_for(&self, text: &str) {
        self.wait_until(text, |screen| screen.contains(text));
    }

    /// Waits until the screen shows `text` and that all is on the disk.
    #[track_caller]
    pub fn wait_saved_with(&self, text: &str) {
        self.wait_until(text, |screen| {
            let header = screen.lines().next().unwrap_or_default().trim_end();
            screen.contains(text) && header.ends_with(" saved")
        });
    }

    #[track_caller]
    pub fn wait_until(&self, what: &str, is_there: impl Fn(&str) -> bool) {
        let end = Instant::now() + LONGEST;
        let mut shown = self.shown.0.lock().unwrap();
        loop {
            if is_there(&shown.parser.screen().contents()) {
                return;
            }
            let left = end.saturating_duration_since(Instant::now());
            assert!(
                !left.is_zero() && !shown.ended,
                "\"{what}\" did not come; the screen shows:\n{}",
                shown.parser.screen().contents()
            );
            shown = self.shown.1.wait_timeout(shown, left).unwrap().0;
        }
    }

    /// Sends keys one at a time, each seen drawn before the next.
    #[track_caller]
    pub fn press(&mut self, keys: &str) {
        for bytes in spelled(keys) {
            let before = self.frames();
            self.send(&bytes);
            self.wait_for_frame_after(before);
        }
    }

    /// Sends bytes without waiting for anything.
    pub fn send(&mut self, bytes: &[u8]) {
        self.writer.write_all(bytes).unwrap();
        self.writer.flush().unwrap();
    }

    pub fn frames(&self) -> usize {
        self.shown.0.lock().unwrap().parser.callbacks().count
    }

    #[track_caller]
    pub fn wait_for_frame_after(&self, before: usize) {
        let end = Instant::now() + LONGEST;
        let mut shown = self.shown.0.lock().unwrap();
        while shown.parser.callbacks().count <= before && !shown.ended {
            let left = end.saturating_duration_since(Instant::now());
            assert!(
                !left.is_zero(),
                "no frame came; the screen shows:\n{}",
                shown.parser.screen().contents()
            );
            shown = self.shown.1.wait_timeout(shown, left).unwrap().0;
        }
    }

    /// The last frame that said "saved", once all that was sent has arrived.
    pub fn last_saved_frame(&self) -> String {
        let shown = self.ended();
        shown.parser.callbacks().saved.clone()
    }

    /// What stands on the screen after the program's end.
    pub fn last_words(&self) -> String {
        let shown = self.ended();
        assert!(!shown.parser.screen().alternate_screen());
        assert!(!shown.parser.screen().hide_cursor());
        shown.parser.screen().contents()
    }

    fn ended(&self) -> std::sync::MutexGuard<'_, Shown> {
        let end = Instant::now() + LONGEST;
        let mut shown = self.shown.0.lock().unwrap();
        while !shown.ended {
            let left = end.saturating_duration_since(Instant::now());
            assert!(!left.is_zero(), "the terminal is still open");
            shown = self.shown.1.wait_timeout(shown, left).unwrap().0;
        }
        shown
    }

    pub fn contents(&self) -> String {
        self.shown.0.lock().unwrap().parser.screen().contents()
    }

    /// Ink and paper of a cell in the middle, which is plain text.
    pub fn colours(&self) -> [&'static str; 2] {
        let shown = self.shown.0.lock().unwrap();
        let screen = shown.parser.screen();
        let (rows, _) = screen.size();
        let cell = screen.cell(rows.get() / 2, 0).unwrap();
        [cell.fgcolor(), cell.bgcolor()].map(|colour| match colour {
            vt100::Color::Idx(0) => "black",
            vt100::Color::Idx(7 | 15) => "white",
            other => panic!("{other:?}"),
        })
    }

    pub fn process(&self) -> u32 {
        self.child.process_id().unwrap()
    }

    /// Waits until the screen's first line says "saved".
    #[track_caller]
    pub fn wait_saved(&self) {
        self.wait_until("saved", |screen| {
            let header = screen.lines().next().unwrap_or_default();
            header.trim_end().ends_with(" saved")
        });
    }

    /// Closes the terminal under the program. Help is asked for before, so
    /// that whoever reads here wakes up.
    pub fn close(mut self) {
        self.shown.0.lock().unwrap().closing = true;
        self.send(b"?");
        drop(self.ended());
        drop(self.writer);
        drop(self.master);
    }

    pub fn resize(&self, columns: u16, rows: u16) {
        self.shown
            .0
            .lock()
            .unwrap()
            .parser
            .screen_mut()
            .set_size(cells(rows), cells(columns));
        self.master
            .resize(PtySize {
                rows,
                cols: columns,
                pixel_width: 0,
                pixel_height: 0,
            })
            .unwrap();
    }

    /// Presses the key that quits, waits, and gives the exit code.
    pub fn quit(mut self) -> u32 {
        self.send(b"\x03");
        self.child.wait().unwrap().exit_code()
    }
}

/// A home of its own; the jobs made on the screen go below it.
pub struct Home(pub tempfile::TempDir);

impl Home {
    pub fn new() -> Self {
        Self(tempfile::tempdir().unwrap())
    }

    pub fn path(&self) -> &Path {
        self.0.path()
    }

    pub fn job(&self, name: &str) -> PathBuf {
        self.path()
            .join(".local/share/bendmark/jobs")
            .join(format!("{name}.ron"))
    }
}

/// Nothing of the machine's own but where its programs are.
fn environment(command: &mut CommandBuilder, home: &Path) {
    command.env_clear();
    command.env("HOME", home);
    if cfg!(unix) {
        command.env("PATH", "/usr/bin:/bin:/usr/sbin:/sbin");
        return;
    }
    for own in ["SystemRoot", "PATH"] {
        if let Some(value) = std::env::var_os(own) {
            command.env(own, value);
        }
    }
    for folder in ["USERPROFILE", "APPDATA", "LOCALAPPDATA"] {
        command.env(folder, home);
    }
}

fn cells(count: u16) -> std::num::NonZeroU16 {
    std::num::NonZeroU16::new(count).unwrap()
}

fn spelled(keys: &str) -> Vec<Vec<u8>> {
    let mut spelled = Vec::new();
    let mut rest = keys;
    while let Some(c) = rest.chars().next() {
        if let Some((name, after)) = rest.strip_prefix('<').and_then(|r| r.split_once('>')) {
            spelled.push(named(name).to_vec());
            rest = after;
        } else {
            spelled.push(c.to_string().into_bytes());
            rest = &rest[c.len_utf8()..];
        }
    }
    spelled
}

fn named(name: &str) -> &'static [u8] {
    match name {
        "enter" => b"\r",
        "esc" => b"\x1b",
        "tab" => b"\t",
        "backspace" => b"\x7f",
        "up" => b"\x1b[A",
        "down" => b"\x1b[B",
        "right" => b"\x1b[C",
        "left" => b"\x1b[D",
        "home" => b"\x1b[H",
        "end" => b"\x1b[F",
        "del" => b"\x1b[3~",
        "f1" => b"\x1bOP",
        "f2" => b"\x1bOQ",
        "f3" => b"\x1bOR",
        "f4" => b"\x1bOS",
        "f5" => b"\x1b[15~",
        "f6" => b"\x1b[17~",
        "ctrl-z" => b"\x1a",
        "ctrl-y" => b"\x19",
        other => panic!("no key <{other}>"),
    }
}
