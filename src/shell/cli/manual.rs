//! `bendmark completions SHELL` and `bendmark man`: made from the command line
//! itself, so that they cannot go stale.

use super::args::Stop;
use crate::shell::outside::put;
use clap::builder::EnumValueParser;
use clap::{Arg, Command};
use clap_complete::Shell;

/// The subcommand that writes completions.
pub const COMPLETIONS: &str = "completions";

/// The subcommand that writes the manual page.
pub const MAN: &str = "man";

const COMPLETION_EXAMPLES: &str = "\
Examples:
  bendmark completions bash > ~/.local/share/bash-completion/completions/bendmark
  bendmark completions fish > ~/.config/fish/completions/bendmark.fish";

const MAN_EXAMPLES: &str = "\
Examples:
  bendmark man > bendmark.1 && man ./bendmark.1";

/// Both subcommands.
pub fn commands() -> [Command; 2] {
    let shell = Arg::new("SHELL")
        .required(true)
        .value_parser(EnumValueParser::<Shell>::new())
        .help("The shell they are for");
    [
        Command::new(COMPLETIONS)
            .about("Write completions for a shell")
            .before_help(COMPLETION_EXAMPLES)
            .arg(shell),
        Command::new(MAN)
            .about("Write the manual page")
            .before_help(MAN_EXAMPLES),
    ]
}

/// Writes the completions of the `whole` command line for `shell`.
///
/// # Errors
/// [`Stop`] where the output is not written.
pub fn completions(shell: Shell, mut whole: Command) -> Result<(), Stop> {
    let mut bytes = Vec::new();
    clap_complete::generate(shell, &mut whole, "bendmark", &mut bytes);
    put(&String::from_utf8_lossy(&bytes)).map_err(Stop::from)
}

/// Writes the manual page of `command`, the subcommands' pages behind the first.
///
/// # Errors
/// [`Stop`] where a page is not made, or the output is not written.
pub fn man(mut command: Command) -> Result<(), Stop> {
    command.build();
    let mut bytes = Vec::new();
    let subcommands: Vec<Command> = command.get_subcommands().cloned().collect();
    for page in std::iter::once(command).chain(subcommands) {
        clap_mangen::Man::new(page)
            .render(&mut bytes)
            .map_err(Stop::one)?;
    }
    put(&String::from_utf8_lossy(&bytes)).map_err(Stop::from)
}
