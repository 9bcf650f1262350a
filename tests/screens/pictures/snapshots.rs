//! What the pictures look like.

use super::at_shear;
use super::cells::{picture, text};
use bendmark::app::place::Glyphs;
use bendmark::domain::{
    measure::{Hand, Length, SkewLine},
    piece::{Panel, PieceSpec},
    roof::EdgeKind,
    stock::Offcut,
};
use bendmark::picture::marking::marking;

pub(crate) fn spec(hand: Hand, bottom: i64, top: i64) -> PieceSpec {
    PieceSpec {
        kind: EdgeKind::Hip,
        hand,
        bend: SkewLine {
            at_nose: Length::from_inches(bottom),
            at_rise: Length::from_inches(top),
            rise: Length::from_inches(14),
        },
        allowance: Length::from_inches(2),
        panel: Panel {
            width: Length::from_inches(48),
            height: Length::from_inches(14),
        },
        across: None,
        near: None,
    }
}

/// All forms of a piece at three sizes, both hands, in both sets of glyphs.
fn album(
    draw: impl Fn(&PieceSpec, Option<&Offcut>) -> bendmark::picture::shape::Picture,
) -> String {
    let mut album = String::new();
    let forms = [
        ("a hip piece", 30, 18, None),
        ("a small one", 17, 5, None),
        ("a corner off", 52, 40, None),
        ("a triangle", 5, -9, None),
        ("a valley", 10, 24, None),
        ("a rake", 20, 20, None),
        ("from an offcut", 16, 4, Some((31, 43))),
    ];
    for (name, bottom, top, offcut) in forms {
        for (hand, columns, rows, glyphs) in [
            (Hand::Left, 34, 8, Glyphs::Blocks),
            (Hand::Right, 40, 10, Glyphs::Ascii),
            (Hand::Left, 76, 20, Glyphs::Blocks),
        ] {
            let spec = spec(hand, bottom, top);
            let inches = Length::from_inches;
            let offcut = offcut
                .map(|(nose, back)| Offcut::found(hand, spec.panel, inches(nose), inches(back)));
            let cells = picture(&draw(&spec, offcut.as_ref()), columns, rows, glyphs);
            album.push_str(&format!(
                "{name}, {}, {columns} x {rows}\n{}\n\n",
                hand.word(),
                text(&cells)
            ));
        }
    }
    album
}

#[test]
fn the_panel_as_it_lies_for_marking() {
    insta::assert_snapshot!(album(marking));
}

#[test]
fn the_panel_at_the_shear() {
    insta::assert_snapshot!(album(
        |spec, offcut| at_shear(spec, offcut, Hand::Right).unwrap()
    ));
}

#[test]
fn no_size_leads_to_a_panic() {
    let across = PieceSpec {
        across: Some(Length::from_inches(9)),
        ..spec(Hand::Left, 30, 18)
    };
    for piece in [
        across,
        spec(Hand::Right, 52, 40),
        spec(Hand::Left, 5, -9),
        spec(Hand::Left, 99, 90),
    ] {
        for columns in 1..=130 {
            for rows in (1..=45).skip(columns % 5).step_by(5) {
                let columns = columns as u16;
                picture(&marking(&piece, None), columns, rows, Glyphs::Blocks);
                for blade in Hand::BOTH {
                    if let Some(drawing) = at_shear(&piece, None, blade) {
                        picture(&drawing, columns, rows, Glyphs::Ascii);
                    }
                }
            }
        }
    }
}

#[test]
fn a_picture_in_34_by_8_cells_fills_them_and_in_30_by_4_it_says_nothing() {
    let drawing = marking(&spec(Hand::Left, 30, 18), None);
    assert_eq!(picture(&drawing, 34, 8, Glyphs::Blocks).len(), 8);
    assert_eq!(picture(&drawing, 30, 2, Glyphs::Blocks).len(), 0);
    assert_eq!(picture(&drawing, 7, 20, Glyphs::Blocks).len(), 0);
}
