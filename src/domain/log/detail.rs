//! The table of what may be said about an edge beside its readings: slopes,
//! corner, plane, colour lot.
//!
//! The Log's list and the CSV columns go by it. It changes one edge and judges
//! nothing.

use super::edge::Edge;
use super::lot_words;
use super::taken::{ReadTo, TapeEnd};
use crate::domain::measure::{Name, cleaned};
use crate::domain::roof::{Corner, EdgeKind, RoofLine, Slope};

/// One thing that may be said about an edge.
#[derive(Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Debug)]
pub enum EdgeDetail {
    /// The slope of the side the readings were taken on.
    Slope,
    /// The slope of the other side.
    OtherSlope,
    /// The angle between the two eaves.
    Corner,
    /// The roof plane it bounds.
    Plane,
    /// The colour lot of its panels.
    Lot,
    /// To what it is read, where that is an exception.
    ReadsTo,
    /// How the tape's end is held at it, where that is an exception.
    TapeEnd,
}

impl EdgeDetail {
    /// Every one, in the order they are asked for.
    pub const ALL: [Self; 7] = [
        Self::Slope,
        Self::OtherSlope,
        Self::Corner,
        Self::Plane,
        Self::Lot,
        Self::ReadsTo,
        Self::TapeEnd,
    ];

    /// What may be said of an edge of `kind`: a rake ends its roof side alone, with no
    /// other side whose eave makes a corner with its own.
    pub const fn of(kind: EdgeKind) -> &'static [Self] {
        match kind {
            EdgeKind::Hip | EdgeKind::Valley => &Self::ALL,
            EdgeKind::Rake => &[
                Self::Slope,
                Self::Plane,
                Self::Lot,
                Self::ReadsTo,
                Self::TapeEnd,
            ],
        }
    }

    /// Its label in the Log.
    pub const fn label(self) -> &'static str {
        match self {
            Self::Slope => "slope of this side",
            Self::OtherSlope => "slope of the other side",
            Self::Corner => "corner between the eaves",
            Self::Plane => "roof side",
            Self::Lot => "colour lot",
            Self::ReadsTo => "readings go",
            Self::TapeEnd => "tape end at the board",
        }
    }

    /// Its column in readings as CSV.
    pub const fn column(self) -> &'static str {
        match self {
            Self::Slope => "slope",
            Self::OtherSlope => "other_slope",
            Self::Corner => "corner",
            Self::Plane => "plane",
            Self::Lot => "lot",
            Self::ReadsTo => "reads_to",
            Self::TapeEnd => "tape_end",
        }
    }

    /// What may be written.
    pub const fn example(self) -> &'static str {
        match self {
            Self::Slope => "6, 6 in 12, 26.57 deg or 50 %; empty: not known",
            Self::OtherSlope => "as above; empty: the same as this side",
            Self::Corner => "degrees in plan; a square corner is 90",
            Self::Plane => "a name, the same for all edges of one roof side",
            Self::Lot => "a name or number; where it changes: Slate 7; Slate 9 from 12",
            Self::ReadsTo => {
                "<- -> turn it: the side-lap line, the last panel's edge, as the job says"
            }
            Self::TapeEnd => "<- -> turn it: held off, hard against it, as the job says",
        }
    }

    /// What it is one of, as people say it, the first one empty: as the job says.
    /// None of its own where anything may be written.
    pub fn choices(self) -> &'static [&'static str] {
        const READS_TO: &[&str] = &["", ReadTo::LapLine.said(), ReadTo::PanelEdge.said()];
        const TAPE_END: &[&str] = &["", TapeEnd::HeldOff.said(), TapeEnd::Hard.said()];
        match self {
            Self::ReadsTo => READS_TO,
            Self::TapeEnd => TAPE_END,
            _ => &[],
        }
    }

    /// What `input` chooses, as [`EdgeDetail::set`] takes it: plain words name the one
    /// choice that is said in them all, `panel edge`.
    ///
    /// # Errors
    /// Quotes it where it names none of the choices, or two.
    pub fn chosen(self, input: &str) -> Result<String, String> {
        let typed = words_of(input);
        if self.choices().is_empty() || input.trim().is_empty() {
            return Ok(input.to_owned());
        }
        let choices = || self.choices().iter().filter(|choice| !choice.is_empty());
        let mut named = choices().filter(|choice| {
            let its = words_of(choice);
            typed.iter().all(|word| its.contains(word))
        });
        match (named.next(), named.next()) {
            (Some(choice), None) if !typed.is_empty() => Ok((*choice).to_owned()),
            _ => {
                let expected: Vec<&str> = choices().copied().collect();
                let expected = expected.join(" or ");
                Err(format!("\"{}\", expected {expected}", cleaned(input)))
            }
        }
    }

    /// [`EdgeDetail::text`] as people say it, as readable.
    pub fn said(self, edge: &Edge) -> String {
        match self {
            Self::ReadsTo => edge.reads_to.map(ReadTo::said),
            Self::TapeEnd => edge.tape_end.map(TapeEnd::said),
            _ => return self.text(edge),
        }
        .unwrap_or_default()
        .to_owned()
    }

    /// As it stands, readable by [`EdgeDetail::set`]; empty where nothing was
    /// said.
    pub fn text(self, edge: &Edge) -> String {
        let slope = |slope: Option<Slope>| slope.map(|slope| slope.to_string());
        let name = |name: &Option<Name>| name.as_ref().map(Name::to_string);
        let text = match self {
            Self::Slope => slope(edge.roof.slope),
            Self::OtherSlope => slope(edge.roof.other),
            Self::Corner => Some(edge.roof.corner.to_string()),
            Self::Plane => name(&edge.plane),
            Self::Lot => Some(lot_words::text(edge)),
            Self::ReadsTo => edge.reads_to.map(|to| to.word().to_owned()),
            Self::TapeEnd => edge.tape_end.map(|end| end.word().to_owned()),
        };
        text.unwrap_or_default()
    }

    /// Writes what `input` says into `edge`; an empty input takes it back.
    ///
    /// # Errors
    /// Why it was not taken, quoting the input.
    pub fn set(self, edge: &mut Edge, input: &str) -> Result<(), String> {
        let input = input.trim();
        let said = !input.is_empty();
        let slope = || {
            said.then(|| Slope::parse(input).map_err(|error| error.to_string()))
                .transpose()
        };
        let name = || {
            said.then(|| Name::new(input).map_err(|error| error.to_string()))
                .transpose()
        };
        match self {
            Self::Slope => edge.roof.slope = slope()?,
            Self::OtherSlope => edge.roof.other = slope()?,
            Self::Corner if said => {
                edge.roof.corner = Corner::parse(input).map_err(|error| error.to_string())?;
            }
            Self::Corner => edge.roof.corner = RoofLine::default().corner,
            Self::Plane => edge.plane = name()?,
            Self::Lot => lot_words::set(edge, input)?,
            Self::ReadsTo => {
                edge.reads_to = one_of(input, ReadTo::ALL, [ReadTo::word, ReadTo::said])?
            }
            Self::TapeEnd => {
                edge.tape_end = one_of(input, TapeEnd::ALL, [TapeEnd::word, TapeEnd::said])?
            }
        }
        Ok(())
    }
}

/// The one of two that `input` names; none where it is empty.
fn one_of<T: Copy>(
    input: &str,
    all: [T; 2],
    [word, said]: [fn(T) -> &'static str; 2],
) -> Result<Option<T>, String> {
    if input.is_empty() {
        return Ok(None);
    }
    let named = all.into_iter().find(|one| {
        [word, said]
            .iter()
            .any(|say| say(*one).eq_ignore_ascii_case(input))
    });
    let [one, other] = all.map(word);
    let why = || format!("\"{}\", expected {one} or {other}", cleaned(input));
    named.map(Some).ok_or_else(why)
}

/// The words of `text` in small letters, however they are joined.
fn words_of(text: &str) -> Vec<String> {
    let text = text.to_lowercase().replace("'s", "");
    let words = text.split(|c: char| !c.is_alphanumeric());
    let words = words.filter(|word| !word.is_empty());
    words.map(str::to_owned).collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::domain::{log::EdgeId, measure::Hand};

    fn edge() -> Edge {
        Edge::new(EdgeId(1), Name::or("A", "A"), EdgeKind::Hip, Hand::Left)
    }

    #[track_caller]
    fn check(detail: EdgeDetail, input: &str, expected: &str) {
        let mut edge = edge();
        detail.set(&mut edge, input).unwrap();
        assert_eq!(detail.text(&edge), expected);
        let said = detail.said(&edge);
        detail.set(&mut edge, &said).unwrap();
        assert_eq!(detail.text(&edge), expected);
        let again = detail.text(&edge);
        detail.set(&mut edge, &again).unwrap();
        assert_eq!(detail.text(&edge), expected);
    }

    #[test]
    fn what_is_said_reads_back_as_printed() {
        check(EdgeDetail::Slope, "6", "6 in 12");
        check(EdgeDetail::OtherSlope, "26.57 deg", "26.57 deg");
        check(EdgeDetail::Corner, "135", "135 deg");
        check(EdgeDetail::Corner, "", "90 deg");
        check(EdgeDetail::Plane, " north ", "north");
        check(EdgeDetail::Lot, "", "");
        check(EdgeDetail::Lot, "Slate 7;9 from 12", "Slate 7; 9 from 12");
        check(
            EdgeDetail::Lot,
            "; B from 3; A from 9",
            "B from 3; A from 9",
        );
        check(EdgeDetail::Lot, "Slate from Dover", "Slate from Dover");
        check(EdgeDetail::ReadsTo, "Panel-Edge", "panel-edge");
        check(EdgeDetail::TapeEnd, "hard", "hard");
        check(EdgeDetail::TapeEnd, "hard against it", "hard");
        check(EdgeDetail::ReadsTo, "to the side-lap line", "lap-line");
        check(EdgeDetail::TapeEnd, "", "");
    }

    #[test]
    fn plain_words_that_only_one_choice_is_said_in_name_it() {
        let named = |input| EdgeDetail::ReadsTo.chosen(input);
        let [lap_line, panel_edge] = ReadTo::ALL.map(|to| Ok(to.said().to_owned()));
        assert_eq!(named("Lap line"), lap_line);
        for input in [
            "panel edge",
            "last panel",
            "panel-edge",
            "to the last panel's edge",
        ] {
            assert_eq!(named(input), panel_edge, "{input}");
        }
        assert_eq!(named(""), Ok(String::new()));
        let expected = "expected to the side-lap line or to the last panel's edge";
        for input in ["to the", "ridge", "-"] {
            assert_eq!(named(input), Err(format!("\"{input}\", {expected}")));
        }
        // Anything else is as it was typed.
        assert_eq!(EdgeDetail::Plane.chosen("East"), Ok("East".to_owned()));
    }

    #[test]
    fn a_lot_that_begins_nowhere_or_below_the_one_before_is_quoted() {
        let mut edge = edge();
        let mut refused = |input| EdgeDetail::Lot.set(&mut edge, input).unwrap_err();
        let no_course = "\"Slate 9\" says no course, expected one such as Slate 9 from 12";
        assert_eq!(refused("Slate 7; Slate 9"), no_course);
        let other_way =
            "\"A11 from 6 B20\", expected a lot and then its course, such as A11; B20 from 6";
        assert_eq!(refused("A11 from 6 B20"), other_way);
        let other_way = "\"from 6 B20\", expected a lot and then its course, such as B20 from 6";
        assert_eq!(refused("A11; from 6 B20"), other_way);
        let no_course =
            "\"A11 from 0\", expected a lot and then its course, such as Slate 7; Slate 9 from 12";
        assert_eq!(refused("A11 from 0"), no_course);
        let below = "\"B from 4\" is not above the lot before it";
        assert_eq!(refused("A from 9; B from 4"), below);
        assert_eq!((edge.lot, edge.later_lots), (None, Vec::new()));
    }

    #[test]
    fn what_is_no_slope_is_quoted_and_changes_nothing() {
        let mut edge = edge();
        let error = EdgeDetail::Slope.set(&mut edge, "steep").unwrap_err();
        assert!(error.contains("\"steep\""), "{error}");
        assert_eq!(edge.roof.slope, None);
    }
}
