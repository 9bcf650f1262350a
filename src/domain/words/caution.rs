//! The cautions that go with every cut, the same words on screen and paper.
//!
//! They are reminders. The panel maker's instructions, local codes and licensed
//! practice come first.

/// Every caution, the ones that matter at once first.
pub const CAUTIONS: [&str; 6] = [
    "Cut steel is razor-sharp and the offcut drops: gloves, sleeves, eye protection, feet clear.",
    "Hands out of the shear and the bender; lock them when you leave.",
    "Fall protection on the roof.",
    "No abrasive wheels on coated steel: heat and swarf ruin the coating.",
    "The panel maker's instructions, local codes and licensed practice come first; these figures are an aid.",
    "A reminder: the model code (IRC 2021, R905.4.2) asks a slope of at least 3 in 12 for metal shingles; look up what holds where you build.",
];
