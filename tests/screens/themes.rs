//! Whether the screen can be read: how large, and in which contrast.

use bendmark::app::place::{Glyphs, Look};
use bendmark::ui::theme::{Colours, Role, Theme};
use bendmark::ui::widgets::{
    digit_size::{of_figures, that_fits},
    digits::DotSize,
};
use ratatui::style::{Color, Modifier};

const ROLES: [Role; 8] = [
    Role::Text,
    Role::Strong,
    Role::Line,
    Role::Bar,
    Role::Here,
    Role::Selected,
    Role::Trouble,
    Role::Mark,
];

/// The 16 named colours in their usual order: black, red, green, yellow, blue,
/// magenta, cyan, light grey, dark grey, and the light ones up to white. From
/// memory.
const VGA: [[u8; 3]; 16] = [
    [0, 0, 0],
    [170, 0, 0],
    [0, 170, 0],
    [170, 85, 0],
    [0, 0, 170],
    [170, 0, 170],
    [0, 170, 170],
    [170, 170, 170],
    [85, 85, 85],
    [255, 85, 85],
    [85, 255, 85],
    [255, 255, 85],
    [85, 85, 255],
    [255, 85, 255],
    [85, 255, 255],
    [255, 255, 255],
];

/// The same in the other palette that terminals commonly start with. From
/// memory.
const XTERM: [[u8; 3]; 16] = [
    [0, 0, 0],
    [205, 0, 0],
    [0, 205, 0],
    [205, 205, 0],
    [0, 0, 238],
    [205, 0, 205],
    [0, 205, 205],
    [229, 229, 229],
    [127, 127, 127],
    [255, 0, 0],
    [0, 255, 0],
    [255, 255, 0],
    [92, 92, 255],
    [255, 0, 255],
    [0, 255, 255],
    [255, 255, 255],
];

/// Where a named colour stands in a palette; no other colour may be used.
fn place(colour: Color) -> usize {
    let named = [
        Color::Black,
        Color::Red,
        Color::Green,
        Color::Yellow,
        Color::Blue,
        Color::Magenta,
        Color::Cyan,
        Color::Gray,
        Color::DarkGray,
        Color::LightRed,
        Color::LightGreen,
        Color::LightYellow,
        Color::LightBlue,
        Color::LightMagenta,
        Color::LightCyan,
        Color::White,
    ];
    named
        .iter()
        .position(|c| *c == colour)
        .expect("a named colour")
}

/// Relative luminance of an sRGB colour (WCAG 2.1, "relative luminance"; from
/// memory).
fn luminance(colour: [u8; 3]) -> f64 {
    let [r, g, b] = colour.map(|c| {
        let c = f64::from(c) / 255.0;
        if c <= 0.04045 {
            c / 12.92
        } else {
            ((c + 0.055) / 1.055).powf(2.4)
        }
    });
    0.2126 * r + 0.7152 * g + 0.0722 * b
}

/// WCAG 2.1, "contrast ratio"; from memory.
fn contrast(one: [u8; 3], other: [u8; 3]) -> f64 {
    let (a, b) = (luminance(one), luminance(other));
    (a.max(b) + 0.05) / (a.min(b) + 0.05)
}

#[test]
fn the_measure_of_contrast_runs_from_1_to_21() {
    assert!((contrast([0; 3], [255; 3]) - 21.0).abs() < 1e-9);
    assert!((contrast([9; 3], [9; 3]) - 1.0).abs() < 1e-9);
    // Grey 0x767676 on white is the well-known 4.54 (from memory).
    assert!((contrast([0x76; 3], [255; 3]) - 4.54).abs() < 0.01);
}

#[test]
fn every_role_has_a_contrast_of_7_to_1_in_both_looks_and_palettes() {
    for look in [Look::Sun, Look::Dark] {
        let theme = Theme::new(look, Colours::Set, Glyphs::Blocks);
        for role in ROLES {
            let style = theme.style(role);
            let ink = place(style.fg.expect("an ink"));
            let paper = place(style.bg.expect("a paper"));
            for palette in [VGA, XTERM] {
                let ratio = contrast(palette[ink], palette[paper]);
                assert!(ratio >= 7.0, "{role:?} in {look:?}: {ratio}");
            }
        }
    }
}

#[test]
fn nothing_is_dim_and_nothing_is_told_by_a_hue() {
    for look in [Look::Sun, Look::Dark] {
        for colours in [Colours::Set, Colours::None] {
            for role in ROLES {
                let style = Theme::new(look, colours, Glyphs::Blocks).style(role);
                assert!(!style.add_modifier.contains(Modifier::DIM));
                let grey = [Color::Black, Color::White, Color::Reset];
                assert!(grey.contains(&style.fg.unwrap()) && grey.contains(&style.bg.unwrap()));
            }
        }
    }
}

#[test]
fn without_colours_what_is_turned_round_with_them_is_reversed() {
    let set = Theme::new(Look::Sun, Colours::Set, Glyphs::Blocks);
    let none = Theme::new(Look::Sun, Colours::None, Glyphs::Blocks);
    for role in ROLES {
        let turned = set.style(role).bg != set.style(Role::Text).bg;
        let reversed = none.style(role).add_modifier.contains(Modifier::REVERSED);
        assert_eq!(turned, reversed, "{role:?}");
    }
}

/// How high a figure looks from `metres`, on a screen of `rows` rows over the
/// whole height of a 13.3 in 16:9 display.
fn arcminutes(size: DotSize, rows: u16, metres: f64) -> f64 {
    let height_mm = 13.3 * 25.4 * 9.0 / f64::hypot(16.0, 9.0);
    let in_rows = match size {
        DotSize::Small => 2.5,
        DotSize::Half => 3.5,
        DotSize::Narrow | DotSize::Whole => 7.0,
    };
    let mm = height_mm / f64::from(rows) * in_rows;
    (mm / (metres * 1000.0)).atan().to_degrees() * 60.0
}

#[test]
fn figures_have_22_arcminutes_at_two_metres_on_every_screen() {
    for rows in 1..=75 {
        let seen = arcminutes(of_figures(rows), rows, 2.0);
        assert!(seen >= 22.0, "{rows} rows: {seen:.1}");
    }
}

#[test]
fn whole_cells_are_taken_wherever_both_figures_fit() {
    // 13 5/8: five figures of 12 columns and a blank of 8, less the last gap.
    assert_eq!(that_fits(&["13 5/8", "7"], 66, 15), DotSize::Whole);
    assert_eq!(that_fits(&["13 5/8", "7"], 65, 15), DotSize::Half);
    assert_eq!(that_fits(&["13 5/8", "7"], 66, 14), DotSize::Half);
}
