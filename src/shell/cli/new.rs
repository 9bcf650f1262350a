//! `bendmark new JOB`: an empty job, with every setting as an option.
//!
//! The options are made from the table of settings, so none can be missing.

use super::args::{Stop, job_arg, path};
use super::open::open;
use crate::domain::{
    bench::{Fact, Progress},
    cutting::Job,
    measure::Name,
    settings::{RawSettings, Setting, SettingError, Settings},
    stock::OffcutNumber,
};
use crate::shell::outside::put;
use crate::storage::{job_file, keeping::OpenFile};
use clap::{Arg, ArgMatches, Command};
use std::path::{Path, PathBuf};

/// The subcommand's name.
pub const NAME: &str = "new";

const OFFCUTS_FROM: &str = "offcuts-from";

const EXAMPLES: &str = "\
Examples:
  bendmark new cedar.ron
  bendmark new cedar.ron --name \"Cedar Lane 12\" --tape-end hard --blade left
  bendmark new cedar.ron --offcuts-from mill.ron
  bendmark new cedar.ron --units mm --panel-width 1220 --exposure 356 --turn-up 40";

const AFTER: &str = "\
A length L is read as the tape gives it: 13 5/8, 13-5/8, 13.625, 346mm, 34.6 cm; a
bare number is in the job's units.";

/// A job to be made.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct New {
    pub path: PathBuf,
    pub name: Name,
    pub settings: Settings,
    pub offcuts_from: Option<PathBuf>,
}

/// The subcommand.
pub fn command() -> Command {
    let name = Arg::new("name")
        .long("name")
        .value_name("TEXT")
        .help("What the job is called [default: as the file]");
    let offcuts_from = Arg::new(OFFCUTS_FROM)
        .long(OFFCUTS_FROM)
        .value_name("JOB")
        .value_parser(clap::value_parser!(PathBuf))
        .help("Put what lies on that job's rack on this one's");
    Command::new(NAME)
        .about("Make an empty job; never overwrites one")
        .before_help(EXAMPLES)
        .after_help(AFTER)
        .arg(job_arg().required(true).help("The job file to make"))
        .arg(name)
        .arg(offcuts_from)
        .args(Setting::ALL.map(option))
}

/// The option for one setting. Of the two ways to give an allowance only one
/// may be used.
fn option(setting: Setting) -> Arg {
    let default = match setting.text(&RawSettings::default()) {
        none if none.is_empty() => String::new(),
        text => format!(" [default: {text}]"),
    };
    let arg = Arg::new(setting.option())
        .long(setting.option())
        .value_name(value_name(setting))
        .help_heading("Settings")
        .help(format!("{}{default}", setting.label()));
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

impl New {
    /// What `matches` ask for.
    ///
    /// # Errors
    /// A message where a name or setting is not one.
    pub fn of(matches: &ArgMatches) -> Result<Self, String> {
        let path = path(matches, "JOB");
        let name = match matches.get_one::<String>("name") {
            Some(name) => Name::new(name).map_err(|error| format!("--name: {error}"))?,
            None => Name::or(&stem(&path), "job"),
        };
        let settings = settings(matches)?;
        Ok(Self {
            path,
            name,
            settings,
            offcuts_from: matches.get_one::<PathBuf>(OFFCUTS_FROM).cloned(),
        })
    }

    /// Writes the job.
    ///
    /// # Errors
    /// [`Stop::CouldNot`] where something of that name is there, or it cannot
    /// be written.
    pub fn run(&self) -> Result<(), Stop> {
        let mut job = Job::new(self.name.clone(), self.settings);
        if let Some(path) = &self.offcuts_from {
            let old = open(path)?;
            let rack = Progress::of(old.events()).rack().into_iter();
            let offcuts = rack.map(|offcut| (offcut.offcut, offcut.lot));
            job.record(Fact::found_all(offcuts, OffcutNumber(1)), None);
        }
        let bytes = job_file::encode(&job).map_err(Stop::one)?;
        OpenFile::make(&self.path, &bytes).map_err(Stop::one)?;
        let path = self.path.display();
        put(&format!("\"{path}\" made: {}\n", self.name)).map_err(Stop::from)
    }
}

fn stem(path: &Path) -> String {
    path.file_stem()
        .map(|stem| stem.to_string_lossy().into_owned())
        .unwrap_or_default()
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

    fn parsed(args: &[&str]) -> Result<New, String> {
        let args = [&["new", "a.ron"], args].concat();
        let matches = command()
            .try_get_matches_from(args)
            .map_err(|error| error.to_string())?;
        New::of(&matches)
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
        let new = parsed(&["--panel-width", "1220", "--units", "mm"]).unwrap();
        assert_eq!(new.settings.panel_width.nm(), 1_220_000_000);
    }

    #[test]
    fn a_job_is_called_like_its_file() {
        assert_eq!(parsed(&[]).unwrap().name.as_str(), "a");
    }

    #[test]
    fn the_command_line_is_well_formed() {
        crate::shell::cli::command().debug_assert();
    }
}
