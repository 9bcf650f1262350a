//! `bendmark check JOB`: what is doubtful in the log, one line per doubt.

use super::args::{Stop, job_arg, path};
use super::open::open;
use crate::domain::cutting::{Job, doubt_words, doubts_of, is_let_stand, not_judged, odd_planes};
use crate::domain::log::Edge;
use crate::shell::outside::{Exit, put, say};
use crate::storage::files::RealFs;
use crate::storage::keeping::{Whole, load};
use clap::{ArgMatches, Command};
use std::path::PathBuf;

/// The subcommand's name.
pub const NAME: &str = "check";

const EXAMPLES: &str = "\
Examples:
  bendmark check cedar.ron";

const AFTER: &str = "\
Exit codes: 0 nothing is doubtful, 1 something is, 2 unreadable or wrong usage.
What cannot be seen: the same slip in both readings of one course where the bond
is not regular, and a wrong hand.";

/// The subcommand.
pub fn command() -> Command {
    Command::new(NAME)
        .about("Say which readings are doubtful, and why")
        .before_help(EXAMPLES)
        .after_help(AFTER)
        .arg(job_arg().required(true).help("The job file to check"))
}

/// The courses whose doubt was answered "it stands".
fn let_stand(job: &Job) -> Vec<String> {
    let courses = |edge: &Edge| {
        let stand = edge.courses().iter().map(|course| course.number);
        stand
            .filter(|number| is_let_stand(edge, *number))
            .map(|number| {
                format!(
                    "{}: course {number} was doubtful and was let stand",
                    edge.name
                )
            })
            .collect::<Vec<_>>()
    };
    job.edges().iter().flat_map(|edge| courses(edge)).collect()
}

/// A job to be checked.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Check {
    path: PathBuf,
}

impl Check {
    /// What `matches` ask for.
    pub fn of(matches: &ArgMatches) -> Self {
        Self {
            path: path(matches, "JOB"),
        }
    }

    /// Writes the doubts, and says by the exit code whether there are any.
    ///
    /// # Errors
    /// [`Stop`] where the job is not read, or nobody listens.
    pub fn run(&self) -> Result<Exit, Stop> {
        let whole = Whole::of(&RealFs, &self.path, &load(&RealFs, &self.path));
        // What is wrong with a file is said as it is opened.
        if whole.is_whole {
            say(&format!("\"{}\": {}", self.path.display(), whole.file));
        }
        let job = open(&self.path)?;
        let division = job.settings.division;
        let mut lines = String::new();
        for found in doubts_of(&job) {
            let name = job.edge(found.edge).map_or("", |edge| edge.name.as_str());
            let words = doubt_words(&found.doubt, division);
            lines.push_str(&format!("{name}: {words}\n"));
        }
        let exit = if lines.is_empty() {
            Exit::DONE
        } else {
            Exit::DOUBTFUL
        };
        // Worth a look, but no reading: it does not change the exit code.
        for words in let_stand(&job)
            .into_iter()
            .chain(not_judged(&job))
            .chain(odd_planes(&job))
        {
            lines.push_str(&format!("note: {words}\n"));
        }
        put(&lines)?;
        Ok(exit)
    }
}
