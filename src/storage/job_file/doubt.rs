//! What the shear answered to doubts: set aside, struck through.

use super::{
    range::{course_number, within},
    settings::{length, optional},
};
use crate::domain::log::{End, Reading, SetAside, Struck};
use crate::domain::measure::Length;
use serde::{Deserialize, Serialize};

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "SetAside", deny_unknown_fields)]
pub(super) enum SetAsideTwin {
    Course {
        course: u32,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
        bottom: Option<Length>,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
        top: Option<Length>,
    },
    Placement {
        course: u32,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
        top: Option<Length>,
        #[serde(default, skip_serializing_if = "Option::is_none", with = "optional")]
        bottom: Option<Length>,
    },
    Edge {
        #[serde(with = "length")]
        off: Length,
    },
}

#[derive(Clone, Copy, Serialize, Deserialize)]
#[serde(rename = "Struck", deny_unknown_fields)]
pub(super) struct StruckTwin {
    course: u32,
    #[serde(with = "EndTwin")]
    end: End,
    #[serde(with = "length")]
    was: Length,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "End", rename = "End")]
pub(super) enum EndTwin {
    Bottom,
    Top,
}

impl SetAsideTwin {
    pub(super) fn of(set_aside: SetAside) -> Self {
        match set_aside {
            SetAside::Course {
                course,
                bottom,
                top,
            } => Self::Course {
                course: course.get(),
                bottom,
                top,
            },
            SetAside::Placement {
                course,
                top,
                bottom,
            } => Self::Placement {
                course: course.get(),
                top,
                bottom,
            },
            SetAside::Edge { off } => Self::Edge { off },
        }
    }

    pub(super) fn checked(self) -> Result<SetAside, String> {
        let figure = |what, length: Option<Length>| match length {
            Some(length) => within(what, length, Length::ZERO, Length::LONGEST),
            None => Ok(()),
        };
        Ok(match self {
            Self::Course {
                course,
                bottom,
                top,
            } => {
                figure("bottom", bottom)?;
                figure("top", top)?;
                SetAside::Course {
                    course: course_number(course)?,
                    bottom,
                    top,
                }
            }
            Self::Placement {
                course,
                top,
                bottom,
            } => {
                figure("top", top)?;
                figure("bottom", bottom)?;
                SetAside::Placement {
                    course: course_number(course)?,
                    top,
                    bottom,
                }
            }
            Self::Edge { off } => {
                within("off", off, -Length::LONGEST, Length::LONGEST)?;
                SetAside::Edge { off }
            }
        })
    }
}

impl StruckTwin {
    pub(super) fn of(struck: Struck) -> Self {
        let Struck { course, end, was } = struck;
        Self {
            course: course.get(),
            end,
            was: was.length(),
        }
    }

    pub(super) fn checked(self) -> Result<Struck, String> {
        within("was", self.was, Length::ZERO, Length::LONGEST)?;
        let was = Reading::new(self.was).map_err(|_| "was is no reading".to_owned())?;
        Ok(Struck {
            course: course_number(self.course)?,
            end: self.end,
            was,
        })
    }
}
