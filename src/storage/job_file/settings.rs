//! The settings, and the words that stand elsewhere in the file too.
//!
//! Each twin names the domain's type it stands for, so that a field or a choice
//! added there does not compile here before somebody has decided what becomes
//! of the file.
//!
//! Over 400 lines: a twin for each choice.

use crate::domain::{
    log::{PanelsLie, ReadTo, TapeEnd},
    measure::{Hand, Length},
    roof::{ByKind, EdgeKind},
    settings::{
        Allowance, BenchOrder, BenderFolds, KindSettings, LayingOrder, Minutes, OneKey,
        RawSettings, SecondTrip, SparePerCent, StackTurned,
    },
    tape::Division,
};
use serde::{Deserialize, Serialize};

/// Lengths: whole nanometres.
pub(super) mod length {
    use serde::{Deserialize, Deserializer, Serialize, Serializer};

    pub(in crate::storage) fn serialize<S: Serializer>(
        length: &super::Length,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        length.nm().serialize(serializer)
    }

    pub(in crate::storage) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<super::Length, D::Error> {
        i64::deserialize(deserializer).map(super::Length::from_nm)
    }
}

/// Lengths that may be left out; the field is then not in the file at all.
pub(super) mod optional {
    use serde::{Deserialize, Deserializer, Serializer};

    pub(in crate::storage) fn serialize<S: Serializer>(
        length: &Option<super::Length>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        match length {
            Some(length) => serializer.serialize_i64(length.nm()),
            None => serializer.serialize_unit(),
        }
    }

    pub(in crate::storage) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<Option<super::Length>, D::Error> {
        i64::deserialize(deserializer).map(|nm| Some(super::Length::from_nm(nm)))
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
pub(super) enum HandTwin {
    Left,
    Right,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "EdgeKind", rename = "Kind")]
pub(super) enum KindTwin {
    Hip,
    Valley,
    Rake,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Division", rename = "Division")]
enum DivisionTwin {
    EighthInch,
    SixteenthInch,
    ThirtySecondInch,
    Millimetre,
    HalfMillimetre,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "PanelsLie", rename = "PanelsLie")]
enum PanelsLieTwin {
    NotSaid,
    OverLeft,
    OverRight,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks so")]
fn is_not_said(lie: &PanelsLie) -> bool {
    *lie == PanelsLie::NotSaid
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "ReadTo", rename = "ReadTo")]
enum ReadToTwin {
    LapLine,
    PanelEdge,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "TapeEnd", rename = "TapeEnd")]
pub(super) enum TapeEndTwin {
    HeldOff,
    Hard,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "Allowance", rename = "Allowance")]
enum AllowanceTwin {
    Along(#[serde(with = "length")] Length),
    Standing(#[serde(with = "length")] Length),
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "LayingOrder", rename = "Laying")]
enum LayingTwin {
    RidgeDown,
    EaveUp,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "StackTurned", rename = "StackTurned")]
enum StackTurnedTwin {
    No,
    Yes,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "SecondTrip", rename = "SecondTrip")]
enum SecondTripTwin {
    No,
    Yes,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks so")]
fn is_one_trip(second: &SecondTrip) -> bool {
    *second == SecondTrip::No
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "BenderFolds", rename = "BenderFolds")]
enum BenderFoldsTwin {
    BothWays,
    UpOnly,
}

#[expect(clippy::trivially_copy_pass_by_ref, reason = "serde asks so")]
fn folds_both_ways(folds: &BenderFolds) -> bool {
    *folds == BenderFolds::BothWays
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "BenchOrder", rename = "BenchOrder")]
enum BenchOrderTwin {
    CutFirst,
    BendFirst,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "OneKey", rename = "OneKey")]
enum OneKeyTwin {
    Step,
    Piece,
}

#[derive(Serialize, Deserialize)]
#[serde(remote = "KindSettings", rename = "KindSettings", deny_unknown_fields)]
struct KindSettingsTwin {
    #[serde(with = "AllowanceTwin")]
    allowance: Allowance,
    #[serde(with = "length")]
    clearance: Length,
}

/// The settings of each kind of edge, by its word: `{Hip: (..), ..}`.
mod by_kind {
    use super::{ByKind, EdgeKind, KindSettings, KindSettingsTwin, KindTwin, RawSettings};
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};
    type Map = std::collections::BTreeMap<Kind, Settings>;

    #[derive(PartialEq, Eq, PartialOrd, Ord, Serialize, Deserialize)]
    #[serde(transparent)]
    struct Kind(#[serde(with = "KindTwin")] EdgeKind);

    #[derive(Serialize, Deserialize)]
    #[serde(transparent)]
    struct Settings(#[serde(with = "KindSettingsTwin")] KindSettings);

    pub(super) fn serialize<S: Serializer>(
        kinds: &ByKind<KindSettings>,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        let of_kind = EdgeKind::ALL.map(|kind| (Kind(kind), Settings(kinds[kind])));
        Map::from(of_kind).serialize(serializer)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<ByKind<KindSettings>, D::Error> {
        let said = Map::deserialize(deserializer)?;
        let of_kind = |kind| said.get(&Kind(kind)).map(|settings| settings.0);
        if let Some(kind) = EdgeKind::ALL
            .into_iter()
            .find(|kind| of_kind(*kind).is_none())
        {
            let kind = kind.title();
            return Err(D::Error::custom(format!("by_kind: no {kind}")));
        }
        let usual = RawSettings::default().kinds;
        Ok(ByKind::of(|kind| of_kind(kind).unwrap_or(usual[kind])))
    }
}

/// The twins of the settings: all versions have the same fields but for those
/// of each kind of edge.
macro_rules! settings {
    ($($twin:ident [$($derive:ident),+] { $($kind_fields:tt)+ } $from:ident => $kinds:expr;)+) => {$(
        #[derive($($derive),+)]
        #[serde(remote = "RawSettings", rename = "Settings", deny_unknown_fields)]
        pub(super) struct $twin {
            #[serde(with = "DivisionTwin")]
            division: Division,
            #[serde(with = "length")]
            panel_width: Length,
            #[serde(with = "length")]
            side_lap: Length,
            #[serde(with = "length")]
            exposure: Length,
            #[serde(with = "optional", default, skip_serializing_if = "Option::is_none")]
            panel_height: Option<Length>,
            #[serde(with = "PanelsLieTwin", default, skip_serializing_if = "is_not_said")]
            panels_lie: PanelsLie,
            #[serde(with = "ReadToTwin")]
            read_to: ReadTo,
            #[serde(with = "TapeEndTwin")]
            tape_end: TapeEnd,
            $($kind_fields)+
            #[serde(with = "optional", default, skip_serializing_if = "Option::is_none")]
            valley_depth: Option<Length>,
            #[serde(with = "length")]
            least_turn_up: Length,
            #[serde(with = "length")]
            ridge_turn_up: Length,
            #[serde(with = "optional", default, skip_serializing_if = "Option::is_none")]
            sliver: Option<Length>,
            #[serde(with = "optional", default, skip_serializing_if = "Option::is_none")]
            least_flat: Option<Length>,
            #[serde(with = "length")]
            tolerance: Length,
            #[serde(with = "length")]
            spare: Length,
            #[serde(with = "per_cent")]
            carry_more: SparePerCent,
            #[serde(with = "HandTwin")]
            blade: Hand,
            #[serde(with = "LayingTwin")]
            laying: LayingOrder,
            #[serde(with = "StackTurnedTwin")]
            stack_turned: StackTurned,
            #[serde(with = "SecondTripTwin", default, skip_serializing_if = "is_one_trip")]
            second_trip: SecondTrip,
            #[serde(with = "optional", default, skip_serializing_if = "Option::is_none")]
            shear_opens: Option<Length>,
            #[serde(with = "BenderFoldsTwin", default, skip_serializing_if = "folds_both_ways")]
            bender_folds: BenderFolds,
            #[serde(with = "BenchOrderTwin")]
            bench_order: BenchOrder,
            #[serde(with = "OneKeyTwin")]
            one_key: OneKey,
            #[serde(with = "minutes")]
            pause: Minutes,
        }

        impl From<$twin> for RawSettings {
            fn from($from: $twin) -> Self {
                Self {
                    kinds: $kinds,
                    division: $from.division,
                    panel_width: $from.panel_width,
                    side_lap: $from.side_lap,
                    exposure: $from.exposure,
                    panel_height: $from.panel_height,
                    panels_lie: $from.panels_lie,
                    read_to: $from.read_to,
                    tape_end: $from.tape_end,
                    valley_depth: $from.valley_depth,
                    least_turn_up: $from.least_turn_up,
                    ridge_turn_up: $from.ridge_turn_up,
                    sliver: $from.sliver,
                    least_flat: $from.least_flat,
                    tolerance: $from.tolerance,
                    spare: $from.spare,
                    carry_more: $from.carry_more,
                    blade: $from.blade,
                    laying: $from.laying,
                    stack_turned: $from.stack_turned,
                    second_trip: $from.second_trip,
                    shear_opens: $from.shear_opens,
                    bender_folds: $from.bender_folds,
                    bench_order: $from.bench_order,
                    one_key: $from.one_key,
                    pause: $from.pause,
                }
            }
        }
    )+};
}

settings! {
    SettingsV1 [Deserialize] {
        #[serde(with = "KindSettingsTwin", getter = "unwritten")]
        hip: KindSettings,
        #[serde(with = "KindSettingsTwin", getter = "unwritten")]
        valley: KindSettings,
        #[serde(with = "KindSettingsTwin", getter = "unwritten")]
        rake: KindSettings,
    } twin => ByKind::of(|kind| match kind {
        EdgeKind::Hip => twin.hip,
        EdgeKind::Valley => twin.valley,
        EdgeKind::Rake => twin.rake,
    });
    SettingsTwin [Serialize, Deserialize] {
        #[serde(rename = "by_kind", with = "by_kind")]
        kinds: ByKind<KindSettings>,
    } twin => twin.kinds;
}

/// The settings as they are written.
#[derive(Serialize, Deserialize)]
#[serde(transparent)]
pub(super) struct SettingsToday(#[serde(with = "SettingsTwin")] pub(super) RawSettings);

/// In version 1 each kind of edge has a field of its own.
#[derive(Deserialize)]
#[serde(transparent)]
pub(super) struct SettingsOfV1(#[serde(with = "SettingsV1")] RawSettings);

impl From<SettingsToday> for RawSettings {
    fn from(settings: SettingsToday) -> Self {
        settings.0
    }
}

impl From<SettingsOfV1> for RawSettings {
    fn from(settings: SettingsOfV1) -> Self {
        settings.0
    }
}

/// To what something is read, where it is said.
#[derive(Serialize, Deserialize)]
#[serde(transparent)]
pub(super) struct ReadToSaid(#[serde(with = "ReadToTwin")] pub(super) ReadTo);

/// Per cent as a number, 0 to 100.
mod per_cent {
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

    pub(super) fn serialize<S: Serializer>(
        per_cent: &super::SparePerCent,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        per_cent.get().serialize(serializer)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<super::SparePerCent, D::Error> {
        let number = u8::deserialize(deserializer)?;
        super::SparePerCent::new(number).ok_or_else(|| {
            let most = super::SparePerCent::MOST;
            D::Error::custom(format!(
                "carry_more of {number} is out of range, expected 0 to {most}"
            ))
        })
    }
}

/// Minutes as a number, 1 to 480.
mod minutes {
    use serde::{Deserialize, Deserializer, Serialize, Serializer, de::Error};

    const LONGEST: u32 = super::Minutes::LONGEST_PAUSE;

    pub(super) fn serialize<S: Serializer>(
        minutes: &super::Minutes,
        serializer: S,
    ) -> Result<S::Ok, S::Error> {
        minutes.0.serialize(serializer)
    }

    pub(super) fn deserialize<'de, D: Deserializer<'de>>(
        deserializer: D,
    ) -> Result<super::Minutes, D::Error> {
        let number = u32::deserialize(deserializer)?;
        if (1..=LONGEST).contains(&number) {
            Ok(super::Minutes(number))
        } else {
            Err(D::Error::custom(format!(
                "pause of {number} is out of range, expected 1 to {LONGEST}"
            )))
        }
    }
}
