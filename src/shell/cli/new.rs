//! `bendmark new JOB`: an empty job, with every setting as an option.
//!
//! The options are made from the table of settings, so none can be missing.

use super::{
    args::{self, Asked, Stop, job, path, result},
    open::open,
};
use crate::domain::{
    bench::{Fact, Progress},
    cutting::Job,
    measure::Name,
    settings::{RawSettings, Setting, SettingError, Settings},
    stock::OffcutNumber,
};
use crate::storage::{files::shown, job_file, keeping::OpenFile};
use clap::{Arg, ArgMatches, Command, value_parser};
use std::path::PathBuf;

const OFFCUTS_FROM: &str = "offcuts-from";

const EXAMPLES: &str = "\
Examples:
  bendmark new cedar.ron
  bendmark new cedar.ron --name \"Cedar Lane 12\" --tape-end hard --blade left
  bendmark new cedar.ron --offcuts-from mill.ron
  bendmark new cedar.ron --units mm --panel-width 1220 --exposure 356 --turn-up 40";

const AFTER: &str = "\
A length L is read as the tape gives it: 13 5/8, 13-5/8, 13.625, 346mm, 34.6 cm; a
bare number is in the job's units. The default lengths shown are of a job in inches;
with --units mm they are round millimetres.";

pub(super) fn command() -> Command {
    args::command("new", "Make an empty job; never overwrites one", EXAMPLES)
        .after_help(AFTER)
        .defer(with_arguments)
}

fn with_arguments(command: Command) -> Command {
    let help = "What the job is called [default: as the file]";
    let name = args::option("name", "TEXT", help);
    let help = "Put what lies on that job's rack on this one's";
    let offcuts_from = args::option(OFFCUTS_FROM, "JOB", help);
    command
        .arg(job("The job file to make"))
        .arg(name)
        .arg(offcuts_from.value_parser(value_parser!(PathBuf)))
        .args(Setting::ALL.map(option))
}

/// The option for one setting. Of the two ways to give an allowance only one
/// may be used.
fn option(setting: Setting) -> Arg {
    let default = match setting.text(&RawSettings::default()) {
        none if none.is_empty() => String::new(),
        text => format!(" [default: {text}]"),
    };
    let help = format!("{}{default}", setting.label());
    let arg = args::option(setting.option(), value_name(setting), help).help_heading("Settings");
    match setting {
        Setting::Along(kind) => arg.conflicts_with(Setting::Standing(kind).option()),
        _ => arg,
    }
}

fn value_name(setting: Setting) -> String {
    match (&setting.choices()[..], setting.word_for_none()) {
        ([], Some(word)) => format!("L|{word}"),
        ([], None) => "L".to_owned(),
        (choices, _) => choices.join("|"),
    }
}

/// Writes the job; never over another.
pub(super) fn asked(matches: &ArgMatches) -> Asked {
    let path = path(matches, "JOB");
    let name = name(matches)?;
    let mut job = Job::new(name.clone(), settings(matches)?);
    let offcuts_from = matches.get_one::<PathBuf>(OFFCUTS_FROM).cloned();
    Ok(Box::new(move || {
        if let Some(path) = offcuts_from {
            let rack = Progress::of(open(&path)?.events()).rack().into_iter();
            let offcuts = rack.map(|offcut| (offcut.offcut, offcut.lot));
            job.record(Fact::found_all(offcuts, OffcutNumber(1)), None);
        }
        let bytes = job_file::encode(&job).map_err(Stop::one)?;
        OpenFile::make(&path, &bytes).map_err(Stop::one)?;
        result(&format!("\"{}\" made: {name}\n", shown(&path)))
    }))
}

fn name(matches: &ArgMatches) -> Result<Name, String> {
    if let Some(name) = matches.get_one::<String>("name") {
        return Name::new(name).map_err(|error| format!("--name: {error}"));
    }
    let path = path(matches, "JOB");
    let stem = path.file_stem().unwrap_or_default();
    Ok(Name::or(&stem.to_string_lossy(), "job"))
}

/// The settings come in the table's order, units first, whatever the order on
/// the command line: a bare number is in the job's units.
fn settings(matches: &ArgMatches) -> Result<Settings, String> {
    let mut raw = RawSettings::default();
    for setting in Setting::ALL {
        if let Some(input) = matches.get_one::<String>(setting.option()) {
            setting
                .write(&mut raw, input.trim())
                .map_err(|error| as_typed(setting, &error))?;
        }
    }
    Settings::checked(raw).map_err(|error| error.to_string())
}

/// The message with the option that was typed in the place of the setting's
/// name, which stands before the first colon.
fn as_typed(setting: Setting, error: &SettingError) -> String {
    let text = error.to_string();
    let label = setting.label();
    let what = [label, setting.option()]
        .into_iter()
        .find_map(|name| text.strip_prefix(name)?.strip_prefix(": "))
        .unwrap_or(&text);
    format!("--{}: {what}", setting.option())
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::roof::EdgeKind;

    fn parsed(args: &[&str]) -> Result<(Name, Settings), String> {
        let args = [&["new", "a.ron"], args].concat();
        let matches = command()
            .try_get_matches_from(args)
            .map_err(|error| error.to_string())?;
        Ok((name(&matches)?, settings(&matches)?))
    }

    #[test]
    fn every_setting_is_an_option() {
        let settings = Settings::default();
        for setting in Setting::ALL {
            let text = match setting.text(&settings) {
                none if none.is_empty() => "1 3/4".to_owned(),
                text => text,
            };
            let option = format!("--{}", setting.option());
            assert!(parsed(&[&option, &text]).is_ok(), "{option} {text}");
        }
    }

    #[test]
    fn both_ways_to_give_an_allowance_are_refused() {
        for kind in EdgeKind::ALL {
            let along = format!("--{}", Setting::Along(kind).option());
            let standing = format!("--{}", Setting::Standing(kind).option());
            assert!(parsed(&[&along, "2", &standing, "2"]).is_err());
        }
    }

    #[test]
    fn a_bare_number_is_in_the_units_given_after_it() {
        let (_, settings) = parsed(&["--panel-width", "1220", "--units", "mm"]).unwrap();
        assert_eq!(settings.panel_width.nm(), 1_220_000_000);
    }

    #[test]
    fn a_job_is_called_like_its_file() {
        assert_eq!(parsed(&[]).unwrap().0.as_str(), "a");
    }

    #[test]
    fn the_command_line_is_well_formed() {
        crate::shell::cli::command().debug_assert();
    }
}
