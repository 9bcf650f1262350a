//! A program that is carried about with its jobs: beside a file `bendmark-here`
//! it keeps all in its own folder.

use super::{Bench, Said};
use std::process::{Command, Stdio};

fn paths(bench: &Bench, more: &[&str]) -> String {
    let name = format!("bendmark{}", std::env::consts::EXE_SUFFIX);
    let program = bench.0.path().join(&name);
    if !bench.has(&name) {
        std::fs::copy(env!("CARGO_BIN_EXE_bendmark"), &program).unwrap();
    }
    let output = Command::new(program)
        .args(more)
        .arg("paths")
        .env("HOME", bench.0.path().join("home"))
        .stdin(Stdio::null())
        .output();
    let said = Said::from(output.unwrap());
    assert_eq!((said.code, said.err.as_str()), (0, ""));
    said.out
}

#[test]
fn beside_a_file_bendmark_here_all_is_kept_in_the_programs_own_folder() {
    let bench = Bench::new();
    let own = bench.0.path().canonicalize().unwrap();
    let jobs = format!(
        "jobs      {}",
        bendmark::storage::files::shown(&own.join("jobs"))
    );
    assert!(!paths(&bench, &[]).contains(&jobs));
    bench.write("bendmark-here", "");
    assert!(paths(&bench, &[]).contains(&jobs));
    let other = own.join("other");
    let other = ["--data-dir", other.to_str().unwrap()];
    assert!(!paths(&bench, &other).contains(&jobs));
}
