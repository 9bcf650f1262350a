//! Words of the trade that stand on the screen and the sheet, explained once,
//! the same in the help and in the guide.

/// Each word, and what it means.
pub const WORDS: [(&str, &str); 16] = [
    (
        "hand",
        "the side that stays whole: the tape is pulled from there",
    ),
    (
        "nose, back",
        "the panel's lower edge with its nose, its upper one with the flange",
    ),
    (
        "whole end",
        "the panel's end on that hand, its factory edge; a mark there stands so far up from the nose",
    ),
    ("other end", "the end away from it, where the cut is"),
    (
        "bend line",
        "marks 1 and 2: where the leg bends up, in a valley down",
    ),
    (
        "cut line",
        "marks 3 and 4: the allowance beyond the bend line",
    ),
    ("allowance", "what is left beyond the bend line for the leg"),
    (
        "lap line",
        "where the next panel's side lap begins; readings go there",
    ),
    (
        "held off, hard",
        "the tape's end kept off the board by the clearance, or against it",
    ),
    (
        "runs out",
        "the line leaves the course so far up, before its top",
    ),
    ("short course", "cut down at the ridge: it is only so high"),
    (
        "H1-3.2",
        "hip 1, course 3, its second panel counted from the field",
    ),
    (
        "second trip",
        "pieces of a wide gap cut last, to what is read over the laid ones",
    ),
    (
        "offcut",
        "what a cut leaves; the plan keeps it for the piece that is named",
    ),
    (
        "3/4 through",
        "where to stop, draw the panel back and take the second bite",
    ),
    (
        "+ and -",
        "behind a figure: the exact one is a hair more, or less",
    ),
];
