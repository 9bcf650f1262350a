//! What was done at the bench in an earlier session, in words: the facts stand
//! in the job, the words of the key press do not.

use crate::domain::{
    bench::{BenchEvent, Fact},
    cutting::{Labels, NamedChange, Spot},
};

/// A key press of an earlier session, named by its facts.
pub(super) fn named_by_facts(events: &[BenchEvent], labels: &Labels) -> NamedChange {
    // Promises follow from what was done; they do not name it.
    let is_done = |fact: &&Fact| !matches!(fact, Fact::Promised { .. });
    let last = events.iter().rev().map(|event| &event.fact).find(is_done);
    let (words, spot) = match last {
        None => (String::new(), Spot::Rack),
        Some(Fact::Corrected { edge, .. }) => {
            let words = format!("{} corrected", labels.edge(*edge));
            (words, Spot::Edge(*edge))
        }
        Some(Fact::Found { number, .. }) => (format!("offcut {number} found"), Spot::Rack),
        Some(Fact::Gone { offcut, .. }) => (format!("offcut {offcut} gone"), Spot::Rack),
        Some(fact) => match fact.piece() {
            Some(piece) => {
                let words = format!("{} {}", labels.piece(piece), fact.word());
                (words, Spot::Piece(piece))
            }
            None => (fact.word().to_owned(), Spot::Rack),
        },
    };
    NamedChange { words, spot }
}
