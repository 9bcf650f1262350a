//! Version 1 of the settings, and of the words that stand elsewhere in the file
//! too.
//!
//! Each twin names the domain's type it stands for, so that a field or a choice
//! added there does not compile here before somebody has decided what becomes
//! of the file.

use crate::domain::{
    measure::{Hand, Length},
    roof::{ByKind, EdgeKind},
    settings::{
        Allowance, BenchOrder, KindSettings, LayingOrder, Minutes, OneKey, RawSettings, ReadTo,
        SparePerCent, StackTurned, TapeEnd,
    },
    tape::Division,
};
use serde::{Deserialize, Serialize};

/// Lengths: whole nanometres.
pub(super) mod length {
    use crate::domain::measure::Length;
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    pub(in crate::storage) fn serialize<S: Serializer>(
        length: &Length,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        length.nm().serialize(serializer)
    }

    pub(in crate::storage) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Length, D::Error> {
        i64::deserialize(deserializer).map(Length::from_nm)
    }
}

/// Lengths that may be left out; the field is then not in the file at all.
pub(super) mod optional {
    use crate::domain::measure::Length;
    use serde::{Deserialize, Deserializer, Serializer};

    pub(in crate::storage) fn serialize<S: Serializer>(
        length: &Option<Length>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        match length {
            Some(length) => serializer.serialize_i64(length.nm()),
            None => serializer.serialize_unit(),
        }
    }

    pub(in crate::storage) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<Length>, D::Error> {
        i64::deserialize(deserializer).map(|nm| Some(Length::from_nm(nm)))
    }
}

/// Other values that may be left out in the same way.
pub(super) mod bare {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    pub(in crate::storage) fn serialize<T: Serialize, S: Serializer>(
        value: &Option<T>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        match value {
            Some(value) => value.serialize(serializer),
            None => serializer.serialize_unit(),
        }
    }

    pub(in crate::storage) fn deserialize<'de, T: Deserialize<'de>, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<T>, D::Error> {
        T::deserialize(deserializer).map(Some)
    }
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Hand", rename = "Hand")]
pub(super) enum HandV1 {
    Left,
    Right,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "EdgeKind", rename = "Kind")]
pub(super) enum KindV1 {
    Hip,
    Valley,
    Rake,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Division", rename = "Division")]
enum DivisionV1 {
    EighthInch,
    SixteenthInch,
    ThirtySecondInch,
    Millimetre,
    HalfMillimetre,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "ReadTo", rename = "ReadTo")]
enum ReadToV1 {
    LapLine,
    PanelEdge,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "TapeEnd", rename = "TapeEnd")]
enum TapeEndV1 {
    HeldOff,
    Hard,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Allowance", rename = "Allowance")]
enum AllowanceV1 {
    Along(#[serde(with = "length")] Length),
    Standing(#[serde(with = "length")] Length),
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "LayingOrder", rename = "Laying")]
enum LayingV1 {
    RidgeDown,
    EaveUp,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "StackTurned", rename = "StackTurned")]
enum StackTurnedV1 {
    No,
    Yes,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "BenchOrder", rename = "BenchOrder")]
enum BenchOrderV1 {
    CutFirst,
    BendFirst,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "OneKey", rename = "OneKey")]
enum OneKeyV1 {
    Step,
    Piece,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "KindSettings", rename = "KindSettings", deny_unknown_fields)]
struct KindSettingsV1 {
    #[serde(with = "AllowanceV1")]
    allowance: Allowance,
    #[serde(with = "length")]
    clearance: Length,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "RawSettings", rename = "Settings", deny_unknown_fields)]
pub(super) struct SettingsV1 {
    #[serde(with = "DivisionV1")]
    division: Division,
    #[serde(with = "length")]
    panel_width: Length,
    #[serde(with = "length")]
    side_lap: Length,
    #[serde(with = "length")]
    exposure: Length,
    #[serde(with = "optional", default, skip_serializing_if = "Option::is_none")]
    panel_height: Option<Length>,
    #[serde(with = "ReadToV1")]
    read_to: ReadTo,
    #[serde(with = "TapeEndV1")]
    tape_end: TapeEnd,
    #[serde(with = "KindSettingsV1", getter = "hip")]
    hip: KindSettings,
    #[serde(with = "KindSettingsV1", getter = "valley")]
    valley: KindSettings,
    #[serde(with = "optional", default, skip_serializing_if = "Option::is_none")]
    valley_depth: Option<Length>,
    #[serde(with = "KindSettingsV1", getter = "rake")]
    rake: KindSettings,
    #[serde(with = "length")]
    least_turn_up: Length,
    #[serde(with = "length")]
    ridge_turn_up: Length,
    #[serde(with = "optional", default, skip_serializing_if = "Option::is_none")]
    sliver: Option<Length>,
    #[serde(with = "length")]
    tolerance: Length,
    #[serde(with = "length")]
    spare: Length,
    #[serde(with = "per_cent")]
    carry_more: SparePerCent,
    #[serde(with = "HandV1")]
    blade: Hand,
    #[serde(with = "LayingV1")]
    laying: LayingOrder,
    #[serde(with = "StackTurnedV1")]
    stack_turned: StackTurned,
    #[serde(with = "BenchOrderV1")]
    bench_order: BenchOrder,
    #[serde(with = "OneKeyV1")]
    one_key: OneKey,
    #[serde(with = "minutes")]
    pause: Minutes,
}

fn hip(raw: &RawSettings) -> KindSettings {
    raw.kind(EdgeKind::Hip)
}

fn valley(raw: &RawSettings) -> KindSettings {
    raw.kind(EdgeKind::Valley)
}

fn rake(raw: &RawSettings) -> KindSettings {
    raw.kind(EdgeKind::Rake)
}

impl From<SettingsV1> for RawSettings {
    fn from(twin: SettingsV1) -> Self {
        Self {
            kinds: ByKind::of(|kind| match kind {
                EdgeKind::Hip => twin.hip,
                EdgeKind::Valley => twin.valley,
                EdgeKind::Rake => twin.rake,
            }),
            division: twin.division,
            panel_width: twin.panel_width,
            side_lap: twin.side_lap,
            exposure: twin.exposure,
            panel_height: twin.panel_height,
            read_to: twin.read_to,
            tape_end: twin.tape_end,
            valley_depth: twin.valley_depth,
            least_turn_up: twin.least_turn_up,
            ridge_turn_up: twin.ridge_turn_up,
            sliver: twin.sliver,
            tolerance: twin.tolerance,
            spare: twin.spare,
            carry_more: twin.carry_more,
            blade: twin.blade,
            laying: twin.laying,
            stack_turned: twin.stack_turned,
            bench_order: twin.bench_order,
            one_key: twin.one_key,
            pause: twin.pause,
        }
    }
}

/// Per cent as a number, 0 to 100.
mod per_cent {
    use crate::domain::settings::SparePerCent;
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

    pub(super) fn serialize<S: Serializer>(
        per_cent: &SparePerCent,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        per_cent.get().serialize(serializer)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<SparePerCent, D::Error> {
        let number = u8::deserialize(deserializer)?;
        SparePerCent::new(number).ok_or_else(|| {
            let most = SparePerCent::MOST;
            D::Error::custom(format!(
                "carry_more of {number} is out of range, expected 0 to {most}"
            ))
        })
    }
}

/// Minutes as a number, 1 to 480.
mod minutes {
    use crate::domain::settings::Minutes;
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

    const LONGEST: u32 = Minutes::LONGEST_PAUSE;

    pub(super) fn serialize<S: Serializer>(
        minutes: &Minutes,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        minutes.0.serialize(serializer)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Minutes, D::Error> {
        let number = u32::deserialize(deserializer)?;
        if (1..=LONGEST).contains(&number) {
            Ok(Minutes(number))
        } else {
            Err(D::Error::custom(format!(
                "pause of {number} is out of range, expected 1 to {LONGEST}"
            )))
        }
    }
}
