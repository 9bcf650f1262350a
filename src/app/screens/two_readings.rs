//! Two readings of one figure, the log's and a sheet's: going to them, and
//! choosing one.

use crate::app::go;
use crate::app::record::edit_edge;
use crate::app::state::{Choice, OpenJob, ReadingAt, Spot, State};
use crate::domain::log::{CourseNumber, EdgeId, TwoReadings};

/// Asks which of the two stands at the selected course; goes to the next such
/// course where there are none.
pub fn pressed(state: &mut State) {
    let course = state.log.course;
    let here = state.edge_in_log().map(|edge| edge.id);
    let Some(open) = &state.open else { return };
    match here.and_then(|edge| Some((edge, open.two_at(edge, course)?))) {
        Some((edge, _)) => state.ask_choice(Choice::TwoReadings { edge, course }, None),
        None => go_to_next(state, here),
    }
}

fn go_to_next(state: &mut State, here: Option<EdgeId>) {
    let Some(open) = &state.open else { return };
    let at = |edge, course| (open.job().place_of(edge), course);
    let here = here.map(|edge| at(edge, state.log.course));
    let beyond = |(edge, two): &&(EdgeId, TwoReadings)| Some(at(*edge, two.course)) > here;
    let next = open.two.iter().find(beyond).or(open.two.first());
    match next.map(|(edge, two)| spot(*edge, two)) {
        Some(spot) => go::to(state, spot),
        None => state.say("no reading of this job is two readings"),
    }
}

fn spot(edge: EdgeId, two: &TwoReadings) -> Spot {
    Spot::Reading(ReadingAt {
        edge,
        course: two.course,
        end: two.figure.end(),
    })
}

/// Row 0 is the log's, row 1 the sheet's.
pub fn chosen(state: &mut State, edge: EdgeId, course: CourseNumber, row: usize) {
    let found = |open: &OpenJob| open.two_at(edge, course).copied();
    let Some((open, two)) = state
        .open
        .as_ref()
        .and_then(|open| Some((open, found(open)?)))
    else {
        return;
    };
    let whose = if row == 0 { "the log's" } else { "the sheet's" };
    let figure = two.figure.word();
    let name = open.edge_name(edge);
    let words = format!("{name} course {course} {figure}: {whose} reading chosen");
    edit_edge(state, edge, words.clone(), spot(edge, &two), |edge| {
        edge.choose(&two, row != 0);
    });
    state.say(words);
}
