//! A job's settings, checked as a whole, and the table of single ones.
//!
//! It holds no user's preferences: those are not the job's.

mod minutes;
mod spare_per_cent;
mod raw;
mod out_of_range;
mod setting;
mod group;
mod said;
mod checked;
mod error;
mod value;

pub use checked::Settings;
pub use error::SettingError;
pub use group::{Group, Line};
pub use minutes::Minutes;
pub use out_of_range::OutOfRange;
pub use raw::{
    Allowance, BenchOrder, BenderFolds, KindSettings, LayingOrder, OneKey, RawSettings, SecondTrip,
    StackTurned,
};
pub use setting::Setting;
pub use spare_per_cent::SparePerCent;
