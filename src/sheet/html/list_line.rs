//! A piece's line of the bench list, and the table it stands in.

use crate::domain::{bench::Stage, settings::BenchOrder};
use crate::sheet::layout::{Boxes, Layout};
use crate::sheet::list_row::{Figure, ListLine, ListRow, drops, nose};
use crate::sheet::markup::{element, plain};
use crate::sheet::rows::Rows;

/// Letters in a row of the column "from; offcut".
pub(super) const FROM_LETTERS: usize = 18;

/// A table of these rows under a heading.
pub(super) fn table(head: &str, rows: &str, boxes: Boxes, sheet: &Rows<'_>) -> String {
    let boxes = match (boxes, sheet.job.settings.bench_order) {
        (Boxes::Done, _) => plain("th", "", "done"),
        (Boxes::EveryStep, BenchOrder::CutFirst) => plain("th", "steps", "mark cut bend stack"),
        (Boxes::EveryStep, BenchOrder::BendFirst) => plain("th", "steps", "mark bend cut stack"),
    };
    let columns = [
        ("c-label", 1),
        ("c-figure", 4),
        ("c-lie", 1),
        ("c-from", 1),
        (
            if boxes.contains("steps") {
                "c-steps"
            } else {
                "c-done"
            },
            1,
        ),
    ];
    let columns: String = columns
        .into_iter()
        .map(|(class, span)| format!("<col class=\"{class}\" span=\"{span}\"/>"))
        .collect();
    let names: String = ["nose", "back", "nose", "back"]
        .map(|name| plain("th", "f", name))
        .concat();
    let first = format!(
        "<th rowspan=\"2\">piece, tape</th><th colspan=\"2\" class=\"f\">BEND</th><th colspan=\"2\" class=\"f\">CUT</th><th rowspan=\"2\">lies, drops</th><th rowspan=\"2\">from; offcut</th>{}",
        boxes.replacen("<th", "<th rowspan=\"2\"", 1)
    );
    let head = element(
        "tr",
        "",
        &format!("<th colspan=\"8\" class=\"top\">{}</th>", head_cell(head)),
    ) + &element("tr", "", &first)
        + &element("tr", "", &names);
    format!(
        "<table class=\"bench\"><colgroup>{columns}</colgroup><thead>{head}</thead>\n{rows}</table>"
    )
}

/// A heading inside the table, where a browser that breaks the page all the same
/// prints it again.
fn head_cell(head: &str) -> String {
    element("div", "", head)
}

/// A piece: a line, or two of one cut at both ends, and its notes across the page.
pub(super) fn row_html(row: &ListRow, sheet: &Rows<'_>, layout: &Layout) -> String {
    let lines = row.lines.len().max(1);
    let notes = usize::from(!row.notes.is_empty());
    let mut rows = String::new();
    for (at, line) in row.lines.iter().enumerate() {
        let mut cells = String::new();
        if at == 0 {
            cells.push_str(&spanning("c-label", lines, &label(row)));
        }
        cells.push_str(&figures(line));
        cells.push_str(&element("td", "small", &lie(line)));
        if at == 0 {
            cells.push_str(&spanning("from", lines, &stock(row)));
            cells.push_str(&spanning("ticks", lines, &ticks(row, sheet, layout.boxes)));
        }
        rows.push_str(&element("tr", "", &cells));
    }
    if notes > 0 {
        let words = plain("td", "note", &row.notes.join("; "));
        let words = words.replacen("<td", "<td colspan=\"8\"", 1);
        rows.push_str(&element("tr", "", &words));
    }
    element("tbody", "", &rows) + "\n"
}

fn spanning(class: &str, rows: usize, inner: &str) -> String {
    let span = match rows {
        1 => String::new(),
        rows => format!(" rowspan=\"{rows}\""),
    };
    format!("<td class=\"{class}\"{span}>{inner}</td>")
}

fn label(row: &ListRow) -> String {
    let tape = format!("tape {}", row.tape.word().to_uppercase());
    plain("b", "", &row.label) + &plain("span", "", &tape)
}

fn figures(line: &ListLine) -> String {
    let pair = |ends: &Option<[Figure; 2]>, class: &str, none: &str| match ends {
        Some(ends) => ends
            .iter()
            .map(|end| {
                let figure = plain("b", "", &end.text);
                let figure = match end.side {
                    Some(side) => element("div", "up", &(plain("span", "", side) + &figure)),
                    None => figure,
                };
                element("td", class, &figure)
            })
            .collect::<String>(),
        None => format!("<td class=\"{class}\" colspan=\"2\"><span>{none}</span></td>"),
    };
    pair(&line.bend, "f bend", "no bend") + &pair(&line.cut, "f cut", "no cut")
}

fn lie(line: &ListLine) -> String {
    let name = line.name.as_deref().map(|name| plain("b", "", name));
    let lie = line
        .lie
        .map(|lie| plain("span", "", nose(lie)) + &plain("span", "", drops(lie)));
    name.into_iter().chain(lie).collect()
}

/// No line is broken inside a label or a lot: `lot A` in two lines is read as `A`.
fn stock(row: &ListRow) -> String {
    let from = match row.from.split_once("offcut of ") {
        Some((_, label)) => "offcut of ".to_owned() + &whole(label),
        None => whole(&row.from),
    };
    let lot = row.lot.as_ref();
    let lot = lot.map_or_else(String::new, |lot| format!(", {}", whole(lot)));
    let keep = row.keep.as_deref();
    let keep = keep.map(|keep| element("span", "", &whole(keep)));
    element("span", "", &(from + &lot)) + &keep.unwrap_or_default()
}

/// Words kept on one line where one line holds them.
fn whole(words: &str) -> String {
    let class = match words.chars().count() {
        0..=FROM_LETTERS => "whole",
        _ => "",
    };
    plain("i", class, words)
}

/// A box a step, crossed where it is done.
fn ticks(row: &ListRow, sheet: &Rows<'_>, boxes: Boxes) -> String {
    let stage = row.stage;
    let next = row.next().map(|next| plain("span", "", next));
    let next = next.filter(|_| boxes == Boxes::Done).unwrap_or_default();
    let steps = match boxes {
        Boxes::Done => vec![stage == Stage::Stacked],
        Boxes::EveryStep => {
            let (second, third) = match sheet.job.settings.bench_order {
                BenchOrder::CutFirst => (stage > Stage::ToCut, stage > Stage::ToBend),
                BenchOrder::BendFirst => (
                    !matches!(stage, Stage::ToMark | Stage::ToBend),
                    !matches!(stage, Stage::ToMark | Stage::ToBend | Stage::ToCut),
                ),
            };
            vec![
                stage > Stage::ToMark,
                second,
                third,
                stage == Stage::Stacked,
            ]
        }
    };
    let steps = steps.into_iter();
    let boxes = steps.map(|done| plain("i", "box", if done { "x" } else { "" }));
    boxes.collect::<String>() + &next
}
