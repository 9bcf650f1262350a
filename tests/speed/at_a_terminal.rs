//! From a key to the frame, from the start to the first frame, and the memory
//! it takes, of the real program in a terminal, against the bare programs in
//! the same kind of terminal.

use crate::bare;
use crate::measure::Ratio;
use crate::screens::half_cut;
use bendmark::storage::job_file::encode;
use portable_pty::{Child, CommandBuilder, MasterPty, PtySize, native_pty_system};
use std::io::{Read, Write};
use std::path::Path;
use std::sync::mpsc::{Receiver, channel};
use std::time::{Duration, Instant};

/// The end of a synchronised update: a frame is whole.
const FRAME: &[u8] = b"\x1b[?2026l";
const LONGEST: Duration = Duration::from_secs(10);
/// Nothing comes for so long: whatever was under way is done.
const QUIET: Duration = Duration::from_millis(100);

const F2: &[u8] = b"\x1bOQ";
const F3: &[u8] = b"\x1bOR";
const F4: &[u8] = b"\x1bOS";
const ENTER: &[u8] = b"\r";

pub(crate) fn ratios() -> Vec<Ratio> {
    let home = tempfile::tempdir().unwrap();
    let job = home.path().join("half-cut.ron");
    std::fs::write(&job, encode(&half_cut()).unwrap()).unwrap();
    let mut all = vec![
        place_to_frame(home.path(), &job),
        done_to_frame(home.path(), &job),
        first_frame(home.path(), &job),
    ];
    all.extend(peak_memory(home.path(), &job));
    all
}

/// Every cell of the place below the header changes.
fn place_to_frame(home: &Path, job: &Path) -> Ratio {
    let mut ours = Running::ours(home, job);
    let mut bare = Running::bare(home, bare::CELLS, job);
    let mut places = [F2, F3].into_iter().cycle();
    let name = "F2, F3 to the frame, 400 pieces / every cell at a key";
    Ratio::measured(
        name.to_owned(),
        2.0,
        || ours.key_to_frame(places.next().unwrap()),
        || bare.key_to_frame(F2),
    )
}

/// The key of the Bench, which also plans anew.
fn done_to_frame(home: &Path, job: &Path) -> Ratio {
    let copy = home.join("copy.ron");
    std::fs::copy(job, &copy).unwrap();
    let mut ours = Running::ours(home, &copy);
    ours.key_to_frame(F4);
    // Reads the cautions away.
    ours.key_to_frame(ENTER);
    let mut bare = Running::bare(home, bare::CELLS, job);
    let name = "Enter at the Bench to the frame / every cell at a key";
    Ratio::measured(
        name.to_owned(),
        2.0,
        || ours.key_to_frame(ENTER),
        || bare.key_to_frame(ENTER),
    )
}

fn first_frame(home: &Path, job: &Path) -> Ratio {
    let name = "first frame, 400 pieces / ron reads the file, one line";
    Ratio::measured(
        name.to_owned(),
        1.8,
        || Running::ours(home, job).took,
        || Running::bare(home, bare::LINE, job).took,
    )
}

/// What /proc says was the most; nothing where there is no such thing.
fn peak_memory(home: &Path, job: &Path) -> Option<Ratio> {
    let mut ours = Running::ours(home, job);
    for place in [F2, F3, F4, ENTER] {
        ours.key_to_frame(place);
    }
    let bare = Running::bare(home, bare::LINE, job);
    let [ours, bare] = [&ours, &bare].map(Running::peak_kib);
    let (ours, bare) = (ours?, bare?);
    let name = format!("peak memory, 400 pieces ({ours} / {bare} KiB)");
    Some(Ratio::known(name, f64::from(ours) / f64::from(bare), 2.0))
}

/// A program in a terminal of 120x40 of its own, its first frame drawn.
struct Running {
    child: Box<dyn Child + Send + Sync>,
    writer: Box<dyn Write + Send>,
    chunks: Receiver<Vec<u8>>,
    /// From the start of the program to its first frame.
    took: Duration,
    _master: Box<dyn MasterPty + Send>,
}

impl Running {
    fn ours(home: &Path, job: &Path) -> Self {
        let program = Path::new(env!("CARGO_BIN_EXE_bendmark"));
        Self::start(home, program, job, None)
    }

    fn bare(home: &Path, role: &str, job: &Path) -> Self {
        let program = std::env::current_exe().unwrap();
        Self::start(home, &program, job, Some(role))
    }

    /// A shell waits in the terminal for a line and then becomes the program, so
    /// that what it takes to open a terminal is not measured.
    fn start(home: &Path, program: &Path, job: &Path, role: Option<&str>) -> Self {
        let mut command = CommandBuilder::new("/bin/sh");
        command.args(["-c", "echo ready; read line; exec \"$0\" \"$1\""]);
        command.args([program, job]);
        if let Some(role) = role {
            command.env(bare::ROLE, role);
        }
        let size = PtySize {
            rows: 40,
            cols: 120,
            ..PtySize::default()
        };
        let pty = native_pty_system().openpty(size).unwrap();
        command.env("HOME", home);
        command.env("TERM", "xterm-256color");
        command.env("BENDMARK_HOLD_MS", "0");
        command.cwd(home);
        let child = pty.slave.spawn_command(command).unwrap();
        drop(pty.slave);
        let mut reader = pty.master.try_clone_reader().unwrap();
        let (sender, chunks) = channel();
        std::thread::spawn(move || {
            let mut bytes = vec![0; 1 << 16];
            while let Ok(count @ 1..) = reader.read(&mut bytes) {
                if sender.send(bytes[..count].to_vec()).is_err() {
                    return;
                }
            }
        });
        let writer = pty.master.take_writer().unwrap();
        let mut running = Self {
            child,
            writer,
            chunks,
            took: Duration::ZERO,
            _master: pty.master,
        };
        running.wait_for(b"ready");
        running.took = running.key_to_frame(b"\n");
        running
    }

    /// From a key sent to the end of the frame it leads to; waits after it until
    /// nothing more comes.
    fn key_to_frame(&mut self, key: &[u8]) -> Duration {
        while self.chunks.recv_timeout(QUIET).is_ok() {}
        let start = Instant::now();
        self.writer.write_all(key).unwrap();
        self.writer.flush().unwrap();
        self.wait_for(FRAME);
        start.elapsed()
    }

    fn wait_for(&self, wanted: &[u8]) {
        let mut seen = Vec::new();
        while !seen.windows(wanted.len()).any(|bytes| bytes == wanted) {
            seen.extend(self.chunks.recv_timeout(LONGEST).expect("a frame"));
        }
    }

    fn peak_kib(&self) -> Option<u32> {
        let id = self.child.process_id()?;
        let status = std::fs::read_to_string(format!("/proc/{id}/status")).ok()?;
        let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
        line.split_whitespace().nth(1)?.parse().ok()
    }
}

impl Drop for Running {
    fn drop(&mut self) {
        let _ = self.child.kill();
        let _ = self.child.wait();
    }
}
