//! An edge's colour lots in one line: `Slate 7; Slate 9 from 12`.

use super::course::CourseNumber;
use super::edge::{Edge, LaterLot};
use crate::domain::measure::{Name, cleaned};

/// Between one lot and the next.
const NEXT: char = ';';

/// Between a later lot and its first course.
const FROM: &str = " from ";

/// The lots of `edge`, readable by [`set`]; empty where none was named.
pub(super) fn text(edge: &Edge) -> String {
    let first = edge.lot.as_ref().map(Name::to_string);
    let later = edge.later_lots.iter();
    let later = later.map(|later| format!("{}{FROM}{}", later.lot, later.from));
    let all: Vec<String> = first.into_iter().chain(later).collect();
    all.join(&format!("{NEXT} "))
}

/// Writes the lots that `input` says into `edge`.
///
/// # Errors
/// Why they were not taken, quoting what is wrong; `edge` stays as it was.
pub(super) fn set(edge: &mut Edge, input: &str) -> Result<(), String> {
    let parts = input.split(NEXT).map(str::trim);
    let (mut first, mut later) = (None, Vec::<LaterLot>::new());
    for (at, part) in parts.filter(|part| !part.is_empty()).enumerate() {
        if let Some(why) = other_way_round(part) {
            return Err(why);
        }
        match part.rsplit_once(FROM).and_then(numbered) {
            Some((lot, from)) => {
                let lot = Name::new(lot).map_err(|error| error.to_string())?;
                if later.last().is_some_and(|before| before.from >= from) {
                    let part = cleaned(part);
                    return Err(format!("\"{part}\" is not above the lot before it"));
                }
                later.push(LaterLot { from, lot });
            }
            None if at == 0 => first = Some(Name::new(part).map_err(|error| error.to_string())?),
            None => {
                let part = cleaned(part);
                return Err(format!(
                    "\"{part}\" says no course, expected one such as Slate 9 from 12"
                ));
            }
        }
    }
    (edge.lot, edge.later_lots) = (first, later);
    Ok(())
}

/// A lot and its first course, where that is a course's number.
fn numbered<'a>((lot, from): (&'a str, &'a str)) -> Option<(&'a str, CourseNumber)> {
    let from = from.trim().parse().ok().and_then(CourseNumber::new)?;
    Some((lot, from))
}

/// `A11 from 6 B20` or `from 6 B20`: what stands behind the course is a lot that
/// was written there, and no part of a name.
fn other_way_round(part: &str) -> Option<String> {
    let (before, behind) = match part.rsplit_once(FROM) {
        Some((before, behind)) => (before.trim(), behind.trim()),
        None => ("", part.strip_prefix(FROM.trim_start())?.trim()),
    };
    let (course, lot) = behind.split_once(' ').unwrap_or((behind, ""));
    let is_number = !course.is_empty() && course.chars().all(|c| c.is_ascii_digit());
    let is_later = lot.is_empty() && !before.is_empty();
    if !is_number || is_later && numbered((before, course)).is_some() {
        return None;
    }
    let example = match (before, lot.trim()) {
        (_, "") => "Slate 7; Slate 9 from 12".to_owned(),
        ("", lot) => format!("{lot} from {course}"),
        (before, lot) => format!("{before}; {lot} from {course}"),
    };
    Some(format!(
        "\"{}\", expected a lot and then its course, such as {}",
        cleaned(part),
        cleaned(&example)
    ))
}
