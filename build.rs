//! Stamps the program with the commit it is made from and the system it is made
//! for.
//!
//! The commit is what `BENDMARK_COMMIT` says, or in a release build what git
//! says; else it is not asked for, so that a commit makes nothing anew.

use std::process::Command;

fn main() {
    let of = |name| std::env::var(name).unwrap_or_default();
    println!("cargo::rerun-if-changed=build.rs");
    println!("cargo::rerun-if-env-changed=BENDMARK_COMMIT");
    println!("cargo::rustc-env=BENDMARK_TARGET={}", of("TARGET"));
    let commit = match of("BENDMARK_COMMIT") {
        given if !given.is_empty() => given,
        _ if of("PROFILE") == "release" => committed(),
        _ => "a build for tests".to_owned(),
    };
    println!("cargo::rustc-env=BENDMARK_COMMIT={commit}");
}

/// What git says of the tree; it may not be there, nor be the tree's.
fn committed() -> String {
    let unknown = || "commit not known".to_owned();
    let Some(log) = git(&["rev-parse", "--git-path", "logs/HEAD"]) else {
        return unknown();
    };
    println!("cargo::rerun-if-changed={log}");
    git(&["rev-parse", "--short=10", "HEAD"]).map_or_else(unknown, |head| format!("commit {head}"))
}

fn git(args: &[&str]) -> Option<String> {
    let output = Command::new("git").args(args).output().ok()?;
    let said = String::from_utf8(output.stdout).ok()?;
    let said = said.trim();
    (output.status.success() && !said.is_empty()).then(|| said.to_owned())
}
