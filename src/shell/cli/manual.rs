//! `bendmark completions SHELL` and `bendmark man`: made from the command line
//! itself, so that they cannot go stale.

use super::args::{self, Asked, Stop, result};
use clap::builder::EnumValueParser;
use clap::{Arg, ArgMatches, Command};
use clap_complete::Shell;

const COMPLETION_EXAMPLES: &str = "\
Examples:
  bendmark completions bash > ~/.local/share/bash-completion/completions/bendmark
  bendmark completions fish > ~/.config/fish/completions/bendmark.fish";

const MAN_EXAMPLES: &str = "\
Examples:
  bendmark man > bendmark.1 && man ./bendmark.1";

pub(super) fn completions_command() -> Command {
    let shell = Arg::new("SHELL")
        .required(true)
        .value_parser(EnumValueParser::<Shell>::new())
        .help("The shell they are for");
    let about = "Write completions for a shell";
    args::command("completions", about, COMPLETION_EXAMPLES).arg(shell)
}

pub(super) fn man_command() -> Command {
    args::command("man", "Write the manual page", MAN_EXAMPLES)
}

/// The completions of the `whole` command line.
pub(super) fn completions(matches: &ArgMatches, mut whole: Command) -> Asked {
    let shell = matches.get_one("SHELL").copied().unwrap_or(Shell::Bash);
    Ok(Box::new(move || {
        let mut bytes = Vec::new();
        clap_complete::generate(shell, &mut whole, "bendmark", &mut bytes);
        result(&String::from_utf8_lossy(&bytes))
    }))
}

/// The manual page of the `whole` command line, the commands' pages behind the
/// first.
pub(super) fn man(mut whole: Command) -> Asked {
    Ok(Box::new(move || {
        whole.build();
        let mut bytes = Vec::new();
        let commands: Vec<Command> = whole.get_subcommands().cloned().collect();
        for page in std::iter::once(whole).chain(commands) {
            let page = clap_mangen::Man::new(page);
            page.render(&mut bytes).map_err(Stop::one)?;
        }
        result(&String::from_utf8_lossy(&bytes))
    }))
}
