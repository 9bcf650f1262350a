//! Lengths as a tape shows them: reading what was typed, printing what to mark.
//!
//! Reading is exact or refused; printing goes to the job's division. It holds
//! no settings of its own and knows nothing of readings or panels.

mod division;
mod signs;
mod date;
mod trouble;
mod read;
mod print;

pub use date::numbers_of_date;
pub use division::{Division, Unit};
pub use print::{exact, exact_with_unit, print, print_with_unit};
pub use read::{parse, parse_positive};
pub use signs::plain;
pub use trouble::{TapeError, TapeTrouble};
