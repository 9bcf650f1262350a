//! Choosing edges on the command line, by name or short name.

use super::args::{self, Stop};
use crate::domain::{
    bench::Progress,
    cutting::{Job, Labels},
    log::EdgeId,
    measure::cleaned,
};
use clap::{Arg, ArgAction, ArgMatches};

const EDGE: &str = "edge";

/// The option that chooses edges.
pub fn option() -> Arg {
    let help = "Only this edge, by its name or short name such as H2; may be given again";
    args::option(EDGE, "EDGE", help).action(ArgAction::Append)
}

/// The edges asked for, as they are written.
pub fn of(matches: &ArgMatches) -> Vec<String> {
    let edges = matches.get_many::<String>(EDGE);
    edges.into_iter().flatten().cloned().collect()
}

/// Their ids in `job`.
///
/// # Errors
/// [`Stop::CouldNot`] with the edges there are, where one is not of the job or
/// several have that name.
pub fn found(job: &Job, asked: &[String]) -> Result<Vec<EdgeId>, Stop> {
    let labels = Labels::of(job, &Progress::of(job.events()));
    let found = |asked: &String| {
        let is = |text: &str| text.eq_ignore_ascii_case(asked.trim());
        let mut edges = job.edges().iter();
        // Short names are told apart by the program, names by nobody.
        if let Some(edge) = edges.find(|edge| is(&labels.edge(edge.id))) {
            return Ok(edge.id);
        }
        let named = job.edges().iter().filter(|edge| is(edge.name.as_str()));
        let named: Vec<EdgeId> = named.map(|edge| edge.id).collect();
        match named.as_slice() {
            [] => Err(unknown(job, &labels, asked)),
            [edge] => Ok(*edge),
            several => Err(not_one(&labels, several, asked)),
        }
    };
    asked.iter().map(found).collect()
}

fn not_one(labels: &Labels, several: &[EdgeId], asked: &str) -> Stop {
    let short: Vec<String> = several.iter().map(|edge| labels.edge(*edge)).collect();
    Stop::one(format!(
        "--{EDGE}: \"{}\" is the name of {} edges, expected one of {}",
        cleaned(asked),
        several.len(),
        short.join(", ")
    ))
}

fn unknown(job: &Job, labels: &Labels, asked: &str) -> Stop {
    let edges = job.edges().iter();
    let known = edges.map(|edge| format!("{} ({})", labels.edge(edge.id), edge.name));
    let known: Vec<String> = known.collect();
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

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{
        measure::{Hand, Name},
        roof::EdgeKind,
        settings::Settings,
    };

    #[test]
    fn a_short_name_comes_before_a_name_and_a_name_of_two_is_refused() {
        let mut job = Job::new(Name::or("x", "x"), Settings::default());
        for name in ["H2", "North", "West", "west"] {
            job.add_edge(Name::or(name, "x"), EdgeKind::Hip, Hand::Left);
        }
        let found = |asked: &str| found(&job, &[asked.to_owned()]);
        assert_eq!(found("h2").ok(), Some(vec![EdgeId(2)]));
        assert_eq!(found("north").ok(), Some(vec![EdgeId(2)]));
        let Err(Stop::CouldNot(words)) = found("West") else {
            panic!("one of two was taken");
        };
        let words = format!("{words:?}");
        assert!(
            words.contains("is the name of 2 edges, expected one of H3, H4"),
            "{words}"
        );
    }
}
