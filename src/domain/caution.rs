//! The cautions the program shows and prints.
//!
//! Common practice of the trade; none of it replaces the panel maker's
//! instructions, local codes or licensed practice, and it says so.

/// One sentence or two each, for the bench, the sheet and the README.
pub const CAUTIONS: [&str; 6] = [
    "Cut steel is razor-sharp and the offcut drops: gloves, sleeves, eye protection, feet clear.",
    "Hands out of the shear and the bender; lock both when leaving them.",
    "Fall protection on the roof.",
    "No abrasive wheels on coated steel: heat and swarf ruin the coating.",
    "The panel maker's instructions, local codes and licensed practice come first; these figures are an aid.",
    "Try the first pieces of a hip on the roof before cutting the rest.",
];
