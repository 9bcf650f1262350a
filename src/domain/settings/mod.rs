//! A job's settings, checked as a whole, and the table of single ones.
//!
//! It holds no user's preferences: those are not the job's.

mod minutes;
mod spare_per_cent;
mod checked;
mod error;
mod setting;
mod value;

pub use checked::{
    Allowance, BenchOrder, KindSettings, LayingOrder, OneKey, OutOfRange, RawSettings, ReadTo,
    Settings, StackTurned, TapeEnd,
};
pub use error::SettingError;
pub use minutes::Minutes;
pub use setting::Setting;
pub use spare_per_cent::SparePerCent;
