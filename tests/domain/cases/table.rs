//! Reads the table of cases: its form is told at the head of `pieces.txt`.

use bendmark::domain::measure::{Hand, Length};
use bendmark::domain::settings::{RawSettings, Setting, Settings};
use bendmark::domain::tape::Unit;
use std::collections::BTreeMap;

/// One case as it stands in the table.
#[derive(Default)]
pub(crate) struct Case {
    pub(crate) name: String,
    pub(crate) settings: Settings,
    /// Rows without edge and hand.
    pub(crate) log: Vec<String>,
    /// A correction, as it was written.
    pub(crate) by: Option<String>,
    pub(crate) pieces: Vec<Piece>,
    /// Courses without a piece, and why.
    pub(crate) none: Vec<(u32, String)>,
}

/// What is expected of one piece: the parts of its line by their first word.
pub(crate) struct Piece {
    pub(crate) course: u32,
    pub(crate) number: u32,
    pub(crate) parts: BTreeMap<String, String>,
}

impl Case {
    /// The log as a file to import, all courses on one edge of that hand.
    pub(crate) fn csv(&self, hand: Hand) -> String {
        let mut csv = "edge,kind,hand,course,bottom,top,height,runs_out\n".to_owned();
        for row in &self.log {
            let mut cells: Vec<_> = row.split(',').map(str::trim).collect();
            cells.resize(6, "");
            let (kind, rest) = (cells[0], cells[1..].join(","));
            csv.push_str(&format!("East,{kind},{},{rest}\n", hand.word()));
        }
        csv
    }

    /// A figure of the table as a length; see [`number`].
    pub(crate) fn length(&self, text: &str) -> Length {
        let text = text.trim();
        let (text, nm) = match (text.strip_suffix("mm"), self.settings.unit()) {
            (Some(text), _) => (text, 1_000_000.0),
            (None, Unit::Inch) => (text, 25_400_000.0),
            (None, Unit::Millimetre) => (text, 1_000_000.0),
        };
        Length::rounded_from_mm(number(text) * nm / 1e6)
    }

    /// A figure of the table as an area in square millimetres.
    pub(crate) fn mm2(&self, text: &str) -> f64 {
        let side = self.length("1").mm();
        number(text) * side * side
    }
}

/// `11 1/7`, `-1/8`, `659 1/2`, `50.8`: whole, fraction over anything, decimal.
pub(crate) fn number(text: &str) -> f64 {
    let text = text.trim();
    let (sign, text) = text
        .strip_prefix('-')
        .map_or((1.0, text), |rest| (-1.0, rest));
    let one = |part: &str| match part.split_once('/') {
        Some((over, under)) => over.parse::<f64>().unwrap() / under.parse::<f64>().unwrap(),
        None => part
            .parse()
            .unwrap_or_else(|_| panic!("not a number: {text:?}")),
    };
    sign * text.split_whitespace().map(one).sum::<f64>()
}

/// Every case of the table.
pub(crate) fn cases() -> Vec<Case> {
    let mut cases: Vec<Case> = Vec::new();
    for line in include_str!("pieces.txt").lines().map(str::trim) {
        if line.is_empty() || line.starts_with('#') {
            continue;
        }
        if let Some(name) = line.strip_prefix('[') {
            cases.push(Case {
                name: name.trim_end_matches(']').to_owned(),
                ..Case::default()
            });
            continue;
        }
        let case = cases.last_mut().expect("a name comes first");
        let (word, rest) = line.split_once(' ').unwrap();
        take(case, word, rest.trim());
    }
    cases
}

fn take(case: &mut Case, word: &str, rest: &str) {
    match word {
        "set" => case.settings = settings(rest),
        "log" => case.log.push(rest.to_owned()),
        "by" => case.by = Some(rest.to_owned()),
        "piece" => case.pieces.push(piece(rest)),
        "no" => {
            let (course, why) = rest.split_once(' ').unwrap();
            case.none.push((course.parse().unwrap(), why.to_owned()));
        }
        _ => panic!("no such line: {word} {rest}"),
    }
}

fn settings(text: &str) -> Settings {
    let mut raw = RawSettings::default();
    for option in text.split(';') {
        let (name, value) = option.trim().split_once(' ').unwrap();
        let setting = Setting::ALL
            .into_iter()
            .find(|known| known.option() == name);
        setting.expect(name).write(&mut raw, value).unwrap();
    }
    Settings::checked(raw).unwrap()
}

fn piece(text: &str) -> Piece {
    let mut parts = text.split(';').map(str::trim);
    let (course, number) = parts.next().unwrap().split_once('.').unwrap();
    let named = |part: &str| {
        let (word, rest) = part.split_once(' ').unwrap();
        (word.to_owned(), rest.to_owned())
    };
    Piece {
        course: course.parse().unwrap(),
        number: number.parse().unwrap(),
        parts: parts.map(named).collect(),
    }
}
