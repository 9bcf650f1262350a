//! A folder of its own in which the real program is run, and the sample jobs.

use bendmark::domain::cutting::Job;
use bendmark::storage::job_file;
use std::path::{Path, PathBuf};
use std::process::{Command, Stdio};
use tempfile::TempDir;

/// The sample jobs, by file name.
pub(crate) const SAMPLES: [&str; 2] = ["alder-court-inches", "brook-meadow-millimetres"];

/// A sample job.
pub(crate) fn sample(name: &str) -> Job {
    let path = sample_path(name);
    job_file::decode(&std::fs::read(path).unwrap()).unwrap().job
}

pub(crate) fn sample_path(name: &str) -> PathBuf {
    let folder = Path::new(env!("CARGO_MANIFEST_DIR")).join("sample-jobs");
    folder.join(format!("{name}.ron"))
}

/// A folder that vanishes, also the home of whoever runs the program there.
pub(crate) struct Bench(TempDir);

/// How a run ended: its exit code, output and messages.
pub(crate) struct Said {
    pub code: i32,
    pub out: String,
    pub err: String,
}

impl Bench {
    /// One with both sample jobs in it.
    pub(crate) fn new() -> Self {
        let bench = Self(tempfile::tempdir().unwrap());
        for name in SAMPLES {
            std::fs::copy(sample_path(name), bench.path(&format!("{name}.ron"))).unwrap();
        }
        bench
    }

    pub(crate) fn path(&self, name: &str) -> PathBuf {
        self.0.path().join(name)
    }

    pub(crate) fn write(&self, name: &str, text: &str) {
        std::fs::write(self.path(name), text).unwrap();
    }

    pub(crate) fn read(&self, name: &str) -> String {
        std::fs::read_to_string(self.path(name)).unwrap()
    }

    pub(crate) fn command(&self, args: &[&str]) -> Command {
        let mut command = Command::new(env!("CARGO_BIN_EXE_bendmark"));
        command
            .args(args)
            .current_dir(self.0.path())
            .env_clear()
            .env("HOME", self.0.path())
            .stdin(Stdio::null());
        command
    }

    pub(crate) fn run(&self, args: &[&str]) -> Said {
        let output = self.command(args).output().unwrap();
        Said {
            code: output.status.code().unwrap(),
            out: String::from_utf8(output.stdout).unwrap(),
            err: String::from_utf8(output.stderr).unwrap(),
        }
    }

    #[track_caller]
    pub(crate) fn done(&self, args: &[&str]) -> String {
        let said = self.run(args);
        assert_eq!((said.code, said.err.as_str()), (0, ""), "{args:?}");
        said.out
    }

    #[track_caller]
    pub(crate) fn refused(&self, code: i32, args: &[&str]) -> String {
        let said = self.run(args);
        assert_eq!((said.code, said.out.as_str()), (code, ""), "{args:?}");
        said.err
    }
}
