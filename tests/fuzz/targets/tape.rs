//! Any text as a reading: refused in words, or printed and read again as the
//! same length.
#![no_main]

use bendmark::domain::{roof::{Corner, Slope}, tape::{Division, Unit, exact, parse, parse_positive, print}};
use libfuzzer_sys::fuzz_target;

fuzz_target!(|text: &str| {
    for unit in [Unit::Inch, Unit::Millimetre] {
        if let Ok(length) = parse(text, unit) {
            assert_eq!(parse(&exact(length, unit), unit), Ok(length));
            for division in Division::ALL {
                let _ = print(length, division);
            }
        }
        if let Err(error) = parse_positive(text, unit) {
            assert!(error.to_string().len() < 1_000);
        }
    }
    let _ = (Slope::parse(text), Corner::parse(text));
});
