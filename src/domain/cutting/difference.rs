//! What one state of a job has otherwise than another, in words.

use super::job::Job;
use crate::domain::bench::{Done, Progress};
use crate::domain::log::{Course, CourseNumber, Edge, EdgeDetail, EdgeId, End, Reading};
use crate::domain::settings::Setting;
use crate::domain::tape::{Unit, exact_with_unit};

/// What `other` has otherwise than `now`, a line each: steel, settings, edges,
/// readings, steps at the bench. Nothing where they are the same.
pub fn differences(now: &Job, other: &Job) -> Vec<String> {
    let mut lines = steel(now, other);
    if other.name != now.name {
        lines.push(format!("job: {}, here {}", other.name, now.name));
    }
    let one_way = |setting: &Setting| !matches!(setting, Setting::Standing(_));
    for setting in Setting::ALL.into_iter().filter(one_way) {
        let said = |job: &Job| setting.said_with_unit(&job.settings);
        let (there, here) = (said(other), said(now));
        if there != here {
            lines.push(format!("{}: {there}, here {here}", setting.name()));
        }
    }
    let unit = now.settings.unit();
    for edge in other.edges() {
        match now.edge(edge.id) {
            Some(here) => lines.extend(in_edge(now, here, edge, unit)),
            None => lines.push(format!("{}: {}, not here", edge.name, read(edge))),
        }
    }
    let gone = now.edges().iter();
    let gone = gone.filter(|edge| other.edge(edge.id).is_none());
    lines.extend(gone.map(|edge| format!("{}: not in it, here {}", edge.name, read(edge))));
    let order = |job: &Job, of: &Job| {
        let ids = job.edges().iter().map(|edge| edge.id);
        ids.filter(|id| of.edge(*id).is_some()).collect::<Vec<_>>()
    };
    if order(now, other) != order(other, now) {
        lines.push("the hips are in another order".to_owned());
    }
    if other.events() != now.events() {
        let (there, here) = (other.steps(), now.steps());
        lines.push(match there == here {
            true => format!("other steps at the bench, {there} as here"),
            false => format!("{there} steps at the bench, here {here}"),
        });
    }
    lines
}

/// How many pieces lie there further than the other one knows of. It stands before
/// the readings: a piece that is done and forgotten would be made twice.
fn steel(now: &Job, other: &Job) -> Vec<String> {
    let [now, other] = [now, other].map(|job| Progress::of(job.events()));
    let ahead = |one: &Progress, than: &Progress| {
        let (mut stacked, mut begun, mut further) = (0, 0, 0);
        for (piece, done) in one.marked() {
            match than.done(piece) {
                None if done.stacked => stacked += 1,
                None => begun += 1,
                Some(less) if is_further(done, less) => further += 1,
                Some(_) => {}
            }
        }
        let marked = match (stacked, begun) {
            (0, 0) => None,
            (0, begun) => Some(format!("{begun} begun")),
            (stacked, 0) => Some(format!("{stacked} stacked")),
            (stacked, begun) => Some(format!("{stacked} stacked and {begun} begun")),
        };
        (marked, further)
    };
    let ((here, further_here), (there, further_there)) = (ahead(&now, &other), ahead(&other, &now));
    let count = |count: usize, words: &str| match count {
        0 => None,
        1 => Some(format!("steel: 1 piece is {words}")),
        count => Some(format!("steel: {count} pieces are {words}")),
    };
    let lines = [
        here.map(|pieces| format!("steel: {pieces} here, not marked in it: to mark again")),
        count(further_here, "less far in it than here"),
        there.map(|pieces| format!("steel: {pieces} in it, not marked here")),
        count(further_there, "further in it than here"),
    ];
    lines.into_iter().flatten().collect()
}

/// Whether more was done with a piece than with the same one elsewhere.
fn is_further(done: &Done, less: &Done) -> bool {
    let steps = |done: &Done| [done.first_cut, done.cut, done.bent, done.stacked];
    let mut pairs = steps(done).into_iter().zip(steps(less));
    pairs.any(|(here, there)| here && !there)
}

/// `12 readings`.
fn read(edge: &Edge) -> String {
    match edge.readings() {
        1 => "1 reading".to_owned(),
        count => format!("{count} readings"),
    }
}

fn in_edge(job: &Job, now: &Edge, other: &Edge, unit: Unit) -> Vec<String> {
    let mut lines = Vec::new();
    let name = &other.name;
    if *name != now.name {
        lines.push(format!("{name}: here called {}", now.name));
    }
    if other.hand != now.hand {
        let (there, here) = (other.hand.word(), now.hand.word());
        lines.push(format!("{name}: {there} hand, here {here}"));
    }
    if other.kind != now.kind {
        let (there, here) = (other.kind.word(), now.kind.word());
        lines.push(format!("{name}: a {there}, here a {here}"));
    }
    for detail in EdgeDetail::ALL {
        let said = |edge: &Edge| match detail.said(edge) {
            said if said.is_empty() => "not said".to_owned(),
            said => said,
        };
        let (there, here) = (said(other), said(now));
        if there != here {
            lines.push(format!("{name}: {} {there}, here {here}", detail.label()));
        }
    }
    let numbers = |edge: &Edge| edge.courses().iter().map(|course| course.number).collect();
    let mut all: Vec<CourseNumber> = numbers(other);
    let here: Vec<CourseNumber> = numbers(now);
    all.extend(
        here.iter()
            .filter(|number| other.course(**number).is_none()),
    );
    all.sort();
    for number in all {
        let unread = Course::unread(number);
        let there = other.course(number).unwrap_or(&unread);
        let here = now.course(number).unwrap_or(&unread);
        lines.extend(in_course(job, name.as_str(), there, here, unit));
    }
    if lines.is_empty() && *other != *now {
        let what = match other.said == now.said {
            true => "doubts were answered otherwise",
            false => "a sheet said other figures, or a choice of two readings is not made",
        };
        lines.push(format!("{name}: {what}"));
    }
    lines
}

fn in_course(job: &Job, edge: &str, there: &Course, here: &Course, unit: Unit) -> Vec<String> {
    let number = there.number;
    let said = |reading: Option<Reading>| {
        let written = |reading: Reading| exact_with_unit(reading.length(), unit);
        reading.map_or_else(|| "not read".to_owned(), written)
    };
    let runs_to = |to: Option<EdgeId>| {
        let to = to.and_then(|to| job.edge(to));
        to.map_or("nowhere", |to| to.name.as_str()).to_owned()
    };
    let figures = |course: &Course| {
        [
            (End::Bottom.word(), said(course.bottom)),
            (End::Top.word(), said(course.top)),
            ("runs out", said(course.runs_out)),
            ("height", said(course.height)),
            ("runs to", runs_to(course.to)),
        ]
    };
    let pairs = figures(there).into_iter().zip(figures(here));
    let mut lines: Vec<String> = pairs
        .filter(|((_, other), (_, now))| other != now)
        .map(|((what, other), (_, now))| {
            format!("{edge}: course {number} {what} {other}, here {now}")
        })
        .collect();
    if lines.is_empty() && there != here {
        lines.push(format!(
            "{edge}: course {number} otherwise in a struck line or a second trip"
        ));
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::bench::Fact;
    use crate::domain::log::SetAside;
    use crate::domain::measure::{Hand, Length, Name};
    use crate::domain::piece::PieceId;
    use crate::domain::roof::EdgeKind;
    use crate::domain::settings::Settings;

    fn job() -> Job {
        let mut job = Job::new(Name::or("Beech Row", "?"), Settings::default());
        for name in ["East hip", "West hip"] {
            let id = job.add_edge(Name::or(name, "?"), EdgeKind::Hip, Hand::Left);
            let reading = |mm| Reading::new(Length::from_mm(mm)).ok();
            let course = |number| Course::unread(CourseNumber::new(number).unwrap());
            let courses = [1, 2].map(|number| {
                course(number)
                    .with(End::Bottom, reading(254))
                    .with(End::Top, reading(127))
            });
            job.edge_mut(id).unwrap().put_all(courses);
        }
        job
    }

    #[test]
    fn a_job_is_not_otherwise_than_itself() {
        assert_eq!(differences(&job(), &job()), [""; 0]);
    }

    #[test]
    fn what_else_is_said_of_an_edge_or_a_course_is_named_with_both_sides() {
        let now = job();
        let mut other = job();
        let [east, west] = [0, 1].map(|at| now.edges()[at].id);
        let edge = other.edge_mut(east).unwrap();
        edge.lot = Name::new("A11").ok();
        let second = CourseNumber::new(2).unwrap();
        let mut course = *edge.course(second).unwrap();
        course.height = Reading::new(Length::from_mm(254)).ok();
        course.to = Some(west);
        edge.put(course);
        assert_eq!(
            differences(&now, &other),
            [
                "East hip: colour lot A11, here not said",
                "East hip: course 2 height 10 in, here not read",
                "East hip: course 2 runs to West hip, here nowhere",
            ]
        );
        let mut answered = job();
        let edge = answered.edge_mut(east).unwrap();
        let stands = SetAside::of_course(edge, second);
        edge.set_aside.push(stands);
        assert_eq!(
            differences(&now, &answered),
            ["East hip: doubts were answered otherwise"]
        );
    }

    #[test]
    fn both_figures_of_a_reading_are_told() {
        let mut now = job();
        let id = now.edges()[0].id;
        let first = CourseNumber::FIRST;
        let course = *now.edges()[0].course(first).unwrap();
        let other = Reading::new(Length::from_mm(508)).ok();
        now.edge_mut(id).unwrap().put(course.with(End::Top, other));
        assert_eq!(
            differences(&now, &job()),
            ["East hip: course 1 top 5 in, here 20 in"]
        );
        now.edge_mut(id).unwrap().remove(first);
        assert_eq!(
            differences(&now, &job()),
            [
                "East hip: course 1 bottom 10 in, here not read",
                "East hip: course 1 top 5 in, here not read"
            ]
        );
    }

    #[test]
    fn edges_order_steps_and_names_are_told() {
        let mut now = job();
        let first = now.edges()[0].id;
        let piece = PieceId {
            edge: first,
            course: CourseNumber::FIRST,
            number: 1,
        };
        now.record(vec![Fact::Stacked(piece)], None);
        now.name = Name::or("Beech Row 2", "?");
        assert_eq!(
            differences(&now, &job()),
            [
                "job: Beech Row, here Beech Row 2",
                "0 steps at the bench, here 1"
            ]
        );
        let mut now = job();
        now.remove_edge(first);
        assert_eq!(
            differences(&now, &job()),
            ["East hip: 4 readings, not here"]
        );
        assert_eq!(
            differences(&job(), &now),
            ["East hip: not in it, here 4 readings"]
        );
    }
}
