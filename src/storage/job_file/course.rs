//! The rows of the log, and what a sheet last said of them.

use super::{
    error::DecodeError,
    range::course_number,
    settings::{ReadToSaid, bare, optional},
};
use crate::domain::{
    log::{Course, CourseFigure, EdgeId, Reading, SecondTrip, SheetSaid, Trip},
    measure::{Length, Name},
};
use serde::{Deserialize, Serialize};

#[derive(Serialize, Deserialize)]
#[serde(rename = "Course", deny_unknown_fields)]
pub(super) struct CourseTwin {
    pub(super) edge: u32,
    pub(super) course: u32,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    bottom: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    top: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    runs_out: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    height: Option<Length>,
    /// The edge at its other end.
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    pub(super) to: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    reads_to: Option<ReadToSaid>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "bare")]
    trip: Option<TripTwin>,
    /// A sheet last said these very figures.
    #[serde(default, skip_serializing_if = "std::ops::Not::not")]
    pub(super) as_said: bool,
}

/// When the pieces beyond the first are cut.
#[derive(Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
enum TripTwin {
    First,
    Second {
        from: u32,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
        bottom: Option<Length>,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
        top: Option<Length>,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
        runs_out: Option<Length>,
    },
}

impl TripTwin {
    fn of(trip: &Trip) -> Self {
        match trip {
            Trip::First => Self::First,
            Trip::Second(SecondTrip {
                from,
                bottom,
                top,
                runs_out,
            }) => Self::Second {
                from: *from,
                bottom: bottom.map(Reading::length),
                top: top.map(Reading::length),
                runs_out: runs_out.map(Reading::length),
            },
        }
    }

    fn checked(
        &self,
        reading: impl Fn(&str, Option<Length>) -> Result<Option<Reading>, DecodeError>,
        place: impl Fn() -> String,
    ) -> Result<Trip, DecodeError> {
        match self {
            Self::First => Ok(Trip::First),
            Self::Second { from, .. } if *from < 2 => {
                let what = format!("trip from piece {from}, expected 2 or more");
                Err(DecodeError::value(place(), what))
            }
            Self::Second {
                from,
                bottom,
                top,
                runs_out,
            } => Ok(Trip::Second(SecondTrip {
                from: *from,
                bottom: reading("bottom over the laid pieces", *bottom)?,
                top: reading("top over the laid pieces", *top)?,
                runs_out: reading("runs_out over the laid pieces", *runs_out)?,
            })),
        }
    }
}

/// What a sheet last said of a course, where the log has other figures.
#[derive(Serialize, Deserialize)]
#[serde(rename = "Said", deny_unknown_fields)]
pub(super) struct SaidTwin {
    pub(super) edge: u32,
    pub(super) course: u32,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    bottom: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    top: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    runs_out: Option<Length>,
    #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
    height: Option<Length>,
    /// The figures of which the log has another, nobody having chosen.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    two: Vec<FigureTwin>,
}

#[derive(Clone, Copy, Debug, Serialize, Deserialize)]
enum FigureTwin {
    Bottom,
    Top,
    RunsOut,
    Height,
}

impl CourseTwin {
    pub(super) fn of(edge: EdgeId, course: &Course) -> Self {
        let Course {
            number,
            bottom,
            top,
            runs_out,
            height,
            to,
            reads_to,
            trip,
        } = course;
        Self {
            edge: edge.0,
            course: number.get(),
            bottom: bottom.map(Reading::length),
            top: top.map(Reading::length),
            runs_out: runs_out.map(Reading::length),
            height: height.map(Reading::length),
            to: to.map(|edge| edge.0),
            reads_to: reads_to.map(ReadToSaid),
            trip: trip.as_ref().map(TripTwin::of),
            as_said: false,
        }
    }

    pub(super) fn checked(&self, edge: &Name) -> Result<Course, DecodeError> {
        let place = || format!("course {} of \"{edge}\"", self.course);
        let number = course_number(self.course)
            .map_err(|what| DecodeError::value(format!("edge \"{edge}\""), what))?;
        let reading = |what: &str, length: Option<Length>| {
            let Some(length) = length else {
                return Ok(None);
            };
            Reading::new(length).map(Some).map_err(|_| {
                let nm = length.nm();
                let most = Length::LONGEST.nm();
                DecodeError::value(
                    place(),
                    format!("{what} of {nm} nm is out of range, expected 0 to {most}"),
                )
            })
        };
        Ok(Course {
            number,
            bottom: reading("bottom", self.bottom)?,
            top: reading("top", self.top)?,
            runs_out: reading("runs_out", self.runs_out)?,
            height: reading("height", self.height)?,
            to: self.to.map(EdgeId),
            reads_to: self.reads_to.as_ref().map(|said| said.0),
            trip: match &self.trip {
                Some(trip) => Some(trip.checked(reading, place)?),
                None => None,
            },
        })
    }
}

impl SaidTwin {
    pub(super) fn of(edge: EdgeId, said: &SheetSaid) -> Self {
        let SheetSaid { course, two } = said;
        let CourseTwin {
            edge,
            course,
            bottom,
            top,
            runs_out,
            height,
            to: _,
            reads_to: _,
            trip: _,
            as_said: _,
        } = CourseTwin::of(edge, course);
        Self {
            edge,
            course,
            bottom,
            top,
            runs_out,
            height,
            two: two.iter().copied().map(FigureTwin::of).collect(),
        }
    }

    pub(super) fn checked(&self, edge: &Name) -> Result<SheetSaid, DecodeError> {
        let course = CourseTwin {
            edge: self.edge,
            course: self.course,
            bottom: self.bottom,
            top: self.top,
            runs_out: self.runs_out,
            height: self.height,
            to: None,
            reads_to: None,
            trip: None,
            as_said: false,
        };
        let course = course.checked(edge)?;
        let two: Vec<_> = self.two.iter().copied().map(FigureTwin::figure).collect();
        let said = |figure: &CourseFigure| figure.of(&course).is_some();
        if two.is_sorted_by(|one, other| one < other) && two.iter().all(said) {
            return Ok(SheetSaid { course, two });
        }
        let place = format!("said of course {} of \"{edge}\"", self.course);
        let what = format!(
            "two of {:?} is out of order or names a figure that is not said, expected figures that are, each once, from Bottom to Height",
            self.two
        );
        Err(DecodeError::value(place, what))
    }
}

impl FigureTwin {
    const fn of(figure: CourseFigure) -> Self {
        match figure {
            CourseFigure::Bottom => Self::Bottom,
            CourseFigure::Top => Self::Top,
            CourseFigure::RunsOut => Self::RunsOut,
            CourseFigure::Height => Self::Height,
        }
    }

    const fn figure(self) -> CourseFigure {
        match self {
            Self::Bottom => CourseFigure::Bottom,
            Self::Top => CourseFigure::Top,
            Self::RunsOut => CourseFigure::RunsOut,
            Self::Height => CourseFigure::Height,
        }
    }
}
