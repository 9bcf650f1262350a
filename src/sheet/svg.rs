//! A picture as SVG, for paper and the phone: the same shapes as on the screen.
//!
//! Black on white, told by pattern: what lies on the table is hatched, the whole
//! end is a double line, the bend line the thickest single one, the cut line
//! dashed. The panel stands at its scale; a lane beside it is one line of text
//! high. User units are millimetres on the page, the origin is the upper left
//! corner, `y` down. It needs no style sheet, script or font of its own.
//!
//! Over 400 lines: each shape's way onto the paper.

use crate::domain::measure::{Hand, Length, Point, Polygon};
use crate::domain::piece::{At, Mark};
use crate::picture::shape::{
    BarRole, Fill, Grows, Lane, LineRole, PageEnd, Picture, Shape, Toward,
};
use std::fmt::Write;

/// Height of a line of text, and of a lane, in millimetres on the page.
const LANE_MM: f64 = 4.5;

/// `picture` as one `svg` element, the panel `width_mm` wide on the page.
///
/// `id` has to differ among the pictures of one page: the hatching is named
/// after it.
pub fn svg(picture: &Picture, width_mm: f64, id: &str) -> String {
    let page = Page::of(picture, width_mm);
    let mut out = String::new();
    let (width, height) = (page.width(), page.height());
    // Writing to a String cannot fail.
    let _ = write!(
        out,
        "<svg xmlns=\"http://www.w3.org/2000/svg\" width=\"{width:.2}mm\" \
         height=\"{height:.2}mm\" viewBox=\"0 0 {width:.2} {height:.2}\" \
         font-family=\"sans-serif\" font-size=\"3.4\">\
         <defs><pattern id=\"{id}\" width=\"1.2\" height=\"1.2\" \
         patternUnits=\"userSpaceOnUse\" patternTransform=\"rotate(45)\">\
         <line x1=\"0\" y1=\"0\" x2=\"0\" y2=\"1.2\" stroke=\"black\" stroke-width=\"0.5\"/>\
         </pattern></defs>"
    );
    let mut taken = Vec::new();
    // What names a spot has its place before what names a whole side, which can give way.
    let mut shapes: Vec<&Shape> = picture.shapes.iter().collect();
    shapes.sort_by_key(|shape| match shape {
        Shape::Word { at, .. } => 1 + u8::from(page.is_at_a_corner(*at)),
        _ => 0,
    });
    for shape in shapes {
        page.draw(&mut out, shape, id, &mut taken);
    }
    out.push_str("</svg>");
    out
}

/// How high that is on the page, in millimetres.
pub fn height_mm(picture: &Picture, width_mm: f64) -> f64 {
    Page::of(picture, width_mm).height()
}

/// A place on the page.
#[derive(Clone, Copy)]
struct Spot {
    x: f64,
    y: f64,
}

/// Where the panel lies on the page.
struct Page<'a> {
    picture: &'a Picture,
    scale: f64,
    sides: [f64; 2],
    lanes: [f64; 2],
}

impl<'a> Page<'a> {
    fn of(picture: &'a Picture, width_mm: f64) -> Self {
        let lanes = |side| f64::from(picture.lanes(side)) * LANE_MM;
        let [back, nose] = [lanes(At::Back), lanes(At::Nose)];
        // Words at the ends may stand out over the panel, pointers too.
        let beside = 6.0 * LANE_MM;
        Self {
            picture,
            scale: width_mm / picture.frame.panel.width.mm(),
            sides: [beside, beside],
            // A number beside the panel's upper corner stands out over it.
            lanes: match picture.frame.nose_at {
                PageEnd::Bottom => [back + 1.5, nose],
                PageEnd::Top => [nose + 1.5, back],
            },
        }
    }

    fn width(&self) -> f64 {
        let [left, right] = self.sides;
        left + self.picture.frame.panel.width.mm() * self.scale + right
    }

    fn height(&self) -> f64 {
        let [top, bottom] = self.lanes;
        top + self.picture.frame.panel.height.mm() * self.scale + bottom + 1.0
    }

    fn spot(&self, point: Point) -> Spot {
        let panel = self.picture.frame.panel;
        let x = match self.picture.frame.x_runs_to {
            Hand::Right => point.x,
            Hand::Left => panel.width - point.x,
        };
        let y = match self.picture.frame.nose_at {
            PageEnd::Bottom => panel.height - point.y,
            PageEnd::Top => point.y,
        };
        let ([left, _], [top, _]) = (self.sides, self.lanes);
        Spot {
            x: left + x.mm() * self.scale,
            y: top + y.mm() * self.scale,
        }
    }

    /// The middle of a lane at that place along its side.
    fn beside(&self, lane: Lane, at: Length) -> Spot {
        let spot = self.mark(Mark {
            at: lane.side,
            position: at,
        });
        let off = (f64::from(lane.number) + 0.5) * LANE_MM;
        let up = self.picture.frame.nose_at == PageEnd::Bottom;
        let far_is_right = self.picture.frame.x_runs_to == Hand::Right;
        let off_if = |onward: bool| if onward { off } else { -off };
        match lane.side {
            At::Back => spot.moved(0.0, off_if(!up)),
            At::Nose => spot.moved(0.0, off_if(up)),
            At::FarSide => spot.moved(off_if(far_is_right), 0.0),
            At::HandSide => spot.moved(off_if(!far_is_right), 0.0),
        }
    }

    fn draw(&self, out: &mut String, shape: &Shape, id: &str, taken: &mut Vec<Taken>) {
        match shape {
            Shape::Area { outline, fill, .. } => self.area(out, outline, *fill, id),
            Shape::Line { from, to, role } => {
                let (from, to) = (self.spot(*from), self.spot(*to));
                line(out, from, to, stroke(*role));
                if *role == LineRole::WholeEnd {
                    // Told from the bend line by pattern, not by weight.
                    line_in(out, (from, to), "white", "stroke-width=\"0.5\"");
                }
            }
            Shape::Bar {
                lane,
                from,
                to,
                role,
            } => {
                let (from, to) = (self.beside(*lane, *from), self.beside(*lane, *to));
                let look = match role {
                    BarRole::Tape => "stroke-width=\"0.3\"",
                    BarRole::Table => "stroke-width=\"1.2\"",
                };
                line(out, from, to, look);
                if *role == BarRole::Table {
                    let end = |lanes: f64| to.moved(0.0, lanes * LANE_MM);
                    line(out, end(-0.5), end(0.5), "stroke-width=\"0.9\"");
                }
            }
            Shape::Arrow { mark } => {
                let lane = |number| self.beside(Lane::new(mark.at, number), mark.position);
                arrow(out, lane(0), lane(0).toward(self.mark(*mark)));
            }
            Shape::Pointer { at, text, .. } => self.pointer(out, *at, text),
            Shape::Numbers { side, marks } => {
                for (at, number) in marks {
                    let grows = Grows::Only(Toward::Far);
                    let text = number.to_string();
                    self.word(out, Lane::new(*side, 0), *at, grows, &text, taken);
                }
            }
            Shape::Word {
                lane,
                at,
                grows,
                text,
                ..
            } => self.word(out, *lane, *at, *grows, text, taken),
        }
    }

    fn word(
        &self,
        out: &mut String,
        lane: Lane,
        at: Length,
        grows: Grows,
        text: &str,
        taken: &mut Vec<Taken>,
    ) {
        let spot = self.beside(lane, at);
        // Beside the whole end, away from the panel is the other way.
        let anchor = match lane.side {
            At::HandSide => self.anchor(Grows::Only(Toward::Hand)),
            _ => self.anchor(grows),
        };
        let farthest = match self.is_at_a_corner(at) {
            true => FARTHEST_OF_SIDE_MM,
            false => FARTHEST_MM,
        };
        let x = free_place(spot, anchor, (text, farthest), taken);
        words(out, Spot { x, ..spot }, anchor, text, self.border(lane));
    }

    /// Whether words begin at an end of a side: they name the side, no spot on it.
    fn is_at_a_corner(&self, at: Length) -> bool {
        at == Length::ZERO || at == self.picture.frame.panel.width
    }

    fn mark(&self, mark: Mark) -> Spot {
        let panel = self.picture.frame.panel;
        self.spot(mark.point(panel.width, panel.height))
    }

    fn area(&self, out: &mut String, outline: &Polygon, fill: Fill, id: &str) {
        out.push_str("<polygon points=\"");
        for corner in outline.corners() {
            let Spot { x, y } = self.spot(*corner);
            let _ = write!(out, "{x:.2},{y:.2} ");
        }
        let fill = match fill {
            Fill::Full | Fill::Shaded => format!("url(#{id})"),
            Fill::Hollow => "white".to_owned(),
        };
        let _ = write!(out, "\" fill=\"{fill}\"/>");
    }

    fn pointer(&self, out: &mut String, at: Point, text: &str) {
        let tip = self.spot(at);
        let anchor = self.anchor(Grows::Only(Toward::Far));
        let tail = tip.moved(5.0 * gap(anchor), 0.0);
        arrow(out, tail, tip);
        let at = tail.moved(gap(anchor), 0.0);
        words(out, at, anchor, text, BORDER_MM);
    }

    /// The white border of words in that lane: wider where they stand on the
    /// table's thick bar, and on the tape, which would stand between two numbers as
    /// if it were a dash.
    fn border(&self, lane: Lane) -> f64 {
        let bar = self.picture.shapes.iter().find_map(|shape| match shape {
            Shape::Bar {
                lane: bar, role, ..
            } if *bar == lane => Some(*role),
            _ => None,
        });
        match bar {
            Some(BarRole::Table | BarRole::Tape) => 2.4,
            None => BORDER_MM,
        }
    }

    /// On which side of a spot words stand that grow that way.
    fn anchor(&self, grows: Grows) -> &'static str {
        let far_is_right = self.picture.frame.x_runs_to == Hand::Right;
        match grows {
            Grows::Both => "middle",
            Grows::Only(toward) if (toward == Toward::Far) == far_is_right => "start",
            Grows::Only(_) => "end",
        }
    }
}

impl Spot {
    /// The spot nine tenths of the way to `other`.
    fn toward(self, other: Self) -> Self {
        self.moved((other.x - self.x) * 0.9, (other.y - self.y) * 0.9)
    }

    /// The spot so far to the right of this one and so far down.
    fn moved(self, right: f64, down: f64) -> Self {
        Self {
            x: self.x + right,
            y: self.y + down,
        }
    }
}

/// The white border that keeps words readable over lines.
const BORDER_MM: f64 = 0.8;

/// Where words stand already.
struct Taken {
    y: f64,
    from: f64,
    to: f64,
}

/// About how wide a letter is, in millimetres on the page, at the size of the
/// pictures' words.
const LETTER_MM: f64 = 1.7;

/// How far apart words of one line are kept.
const APART_MM: f64 = 1.8;

/// How far words move on from the spot that they name.
const FARTHEST_MM: f64 = 12.0;

/// The same of words that name a side of the panel and begin at its corner.
const FARTHEST_OF_SIDE_MM: f64 = 45.0;

/// Where words may begin (or end) beside others of the same line: the later
/// ones move on the way they grow, so that 3 beside 1 is never read as 31.
fn free_place(
    spot: Spot,
    anchor: &str,
    (text, farthest): (&str, f64),
    taken: &mut Vec<Taken>,
) -> f64 {
    let letters = f64::from(u16::try_from(text.chars().count()).unwrap_or(u16::MAX));
    let wide = letters * LETTER_MM;
    let mut x = spot.x + gap(anchor);
    let place = |x: f64| match anchor {
        "start" => (x, x + wide),
        "end" => (x - wide, x),
        _ => (x - wide / 2.0, x + wide / 2.0),
    };
    for other in taken
        .iter()
        .filter(|other| (other.y - spot.y).abs() < LANE_MM / 2.0)
    {
        let (from, to) = place(x);
        if from >= other.to + APART_MM || to <= other.from - APART_MM {
            continue;
        }
        let moved = match anchor {
            "start" => other.to + APART_MM,
            "end" => other.from - APART_MM,
            _ => x,
        };
        if (moved - spot.x).abs() <= farthest {
            x = moved;
        }
    }
    let (from, to) = place(x);
    taken.push(Taken {
        y: spot.y,
        from,
        to,
    });
    x
}

/// What keeps words off what they are anchored at.
fn gap(anchor: &str) -> f64 {
    match anchor {
        "start" => 1.0,
        "end" => -1.0,
        _ => 0.0,
    }
}

const fn stroke(role: LineRole) -> &'static str {
    match role {
        LineRole::Outline => "stroke-width=\"0.3\"",
        LineRole::WholeEnd => "stroke-width=\"1.2\"",
        LineRole::Bend => "stroke-width=\"1.0\"",
        LineRole::CutEnd => "stroke-width=\"0.5\"",
        LineRole::Cut => "stroke-width=\"0.5\" stroke-dasharray=\"2 1\"",
        LineRole::Across => "stroke-width=\"0.3\" stroke-dasharray=\"1 1\"",
    }
}

fn line(out: &mut String, from: Spot, to: Spot, look: &str) {
    line_in(out, (from, to), "black", look);
}

fn line_in(out: &mut String, (from, to): (Spot, Spot), colour: &str, look: &str) {
    let _ = write!(
        out,
        "<line x1=\"{:.2}\" y1=\"{:.2}\" x2=\"{:.2}\" y2=\"{:.2}\" stroke=\"{colour}\" {look}/>",
        from.x, from.y, to.x, to.y
    );
}

/// A line with a head at `tip`.
fn arrow(out: &mut String, tail: Spot, tip: Spot) {
    line(out, tail, tip, "stroke-width=\"0.4\"");
    let long = (tip.x - tail.x).hypot(tip.y - tail.y).max(1e-6);
    let (x, y) = ((tip.x - tail.x) / long, (tip.y - tail.y) / long);
    let back = |side: f64| (tip.x - 1.6 * x - side * y, tip.y - 1.6 * y + side * x);
    let ((ax, ay), (bx, by)) = (back(0.7), back(-0.7));
    let _ = write!(
        out,
        "<polygon points=\"{:.2},{:.2} {ax:.2},{ay:.2} {bx:.2},{by:.2}\"/>",
        tip.x, tip.y
    );
}

/// Words of our own: letters, digits, blanks, `,`, `:` and `/` only, so nothing
/// in them has a meaning of its own in SVG. A white border keeps them readable
/// over lines.
fn words(out: &mut String, at: Spot, anchor: &str, text: &str, border: f64) {
    let (x, y) = (at.x, at.y + 1.2);
    let _ = write!(
        out,
        "<text x=\"{x:.2}\" y=\"{y:.2}\" text-anchor=\"{anchor}\" stroke=\"white\" \
         stroke-width=\"{border}\" paint-order=\"stroke\">{text}</text>"
    );
}
