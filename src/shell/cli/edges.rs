//! Choosing edges on the command line, by name or short name.

use super::Stop;
use crate::domain::edge::EdgeId;
use crate::domain::job::Job;
use crate::domain::label::Labels;
use crate::domain::name::cleaned;
use crate::domain::progress::Progress;
use clap::{Arg, ArgAction, ArgMatches};

const EDGE: &str = "edge";

/// The option that chooses edges.
#[must_use]
pub fn option() -> Arg {
    Arg::new(EDGE)
        .long(EDGE)
        .value_name("EDGE")
        .action(ArgAction::Append)
        .help("Only this edge, by its name or short name such as H2; may be given again")
}

/// The edges asked for, as they are written.
#[must_use]
pub fn of(matches: &ArgMatches) -> Vec<String> {
    let edges = matches.get_many::<String>(EDGE);
    edges.into_iter().flatten().cloned().collect()
}

/// Their ids in `job`.
///
/// # Errors
/// [`Stop::CouldNot`] with the edges there are, where one is not of the job.
pub fn found(job: &Job, asked: &[String]) -> Result<Vec<EdgeId>, Stop> {
    let labels = Labels::of(job, &Progress::of(job.events()));
    asked
        .iter()
        .map(|asked| {
            let named = |edge: &&std::sync::Arc<crate::domain::edge::Edge>| {
                edge.name.as_str().eq_ignore_ascii_case(asked.trim())
                    || labels.edge(edge.id).eq_ignore_ascii_case(asked.trim())
            };
            let edge = job.edges().iter().find(named).map(|edge| edge.id);
            edge.ok_or_else(|| unknown(job, &labels, asked))
        })
        .collect()
}

fn unknown(job: &Job, labels: &Labels, asked: &str) -> Stop {
    let known: Vec<String> = job
        .edges()
        .iter()
        .map(|edge| format!("{} ({})", labels.edge(edge.id), edge.name))
        .collect();
    let expected = if known.is_empty() {
        "the job has none yet".to_owned()
    } else {
        format!("expected one of {}", known.join(", "))
    };
    Stop::one(format!(
        "--{EDGE}: \"{}\" is no edge of this job, {expected}",
        cleaned(asked)
    ))
}
