//! The blank roof log as one HTML file to be filled in on a phone, without a
//! network: number keys, what was typed kept by the page, and the CSV that an
//! import takes.
//!
//! What the page does stands in `form_fill.js`. All that is a job's own reaches
//! it as text of elements and attributes, written out as on every page; nothing
//! of it is put into the script.

use super::{
    form::{Form, FormEdge, how_this_is_read, how_to_read},
    form_html::{Drawn, drawing},
    markup::{document_with, list, plain, text},
};
use crate::domain::{
    log::{Edge, EdgeDetail, EdgeId, ReadTo, TapeEnd},
    measure::{Hand, Name},
    roof::EdgeKind,
    tape::Unit,
    words::CAUTIONS,
};
use std::fmt::Write;

/// The form as a page to fill in.
pub fn form_fill(form: &Form<'_>) -> String {
    let title = format!("Roof log: {}", form.job.name);
    let body = format!(
        "<p id=\"off\">This page needs scripts. Where they are switched off or not shown, \
         open it in a browser, or take the form on paper.</p>\n\
         <main id=\"page\" data-job=\"{}\" data-unit=\"{}\" data-from=\"{}\" hidden=\"hidden\">\n\
         <p id=\"lost\" class=\"bad\" hidden=\"hidden\"></p>\n\
         {}{VIEWS}{READINGS}{}{CSV}{}</main>\n",
        text(form.job.name.as_str()),
        form.job.settings.unit().word(),
        form.from.word(),
        known(form),
        edge_view(form),
        how_view(form),
    );
    document_with(&title, STYLE, &body, SCRIPT)
}

const STYLE: &str = include_str!("form_fill.css");
const SCRIPT: &str = include_str!("form_fill.js");

const VIEWS: &str = "\
<nav><button type=\"button\" data-view=\"readings\">readings</button>\
<button type=\"button\" data-view=\"edge\">edges</button>\
<button type=\"button\" data-view=\"csv\">CSV</button>\
<button type=\"button\" data-view=\"how\">how</button></nav>
";

/// The log, the reading that is asked for, and the keys.
const READINGS: &str = "\
<section data-of=\"readings\" class=\"fill\" hidden=\"hidden\">
<div id=\"log\"><table><thead><tr><th>course</th><th>bottom</th><th>top</th><th>runs out</th>\
<th>short</th></tr></thead><tbody id=\"courses\"></tbody></table></div>
<p id=\"where\"></p>
<p id=\"where-how\"></p>
<p id=\"asked\"></p>
<p id=\"figure\"></p>
<p id=\"said\" role=\"status\"></p>
<div id=\"others\"><button type=\"button\" data-do=\"back\">back</button>\
<button type=\"button\" data-do=\"runs_out\">runs out</button>\
<button type=\"button\" data-do=\"height\">short course</button>\
<button type=\"button\" data-do=\"to\">to other edge</button></div>
<div id=\"keys\"></div>
</section>
<section data-of=\"to\" hidden=\"hidden\">
<h2 id=\"to-asked\"></h2>
<p>No full panel in this course: read both ends from board to board, tape hard, no lap. Where \
the boards meet below the next course line, use runs out in place of the top.</p>
<div id=\"to-edges\" class=\"many\"></div>
</section>
";

const CSV: &str = "\
<section data-of=\"csv\" hidden=\"hidden\">
<ul id=\"odd\" class=\"bad\"></ul>
<p id=\"count\"></p>
<textarea id=\"csv\" readonly=\"readonly\" rows=\"12\" aria-label=\"CSV\"></textarea>
<div class=\"many\"><button type=\"button\" data-do=\"copy\">copy</button>\
<button type=\"button\" data-do=\"share\" hidden=\"hidden\">share</button></div>
<p id=\"handed\" role=\"status\"></p>
<p>At the bench, save it as log.csv: <code>bendmark import JOB log.csv</code>. It may come \
again, grown or corrected.</p>
<div class=\"many\"><button type=\"button\" data-do=\"clear\">clear all</button></div>
<p id=\"cleared\" role=\"status\"></p>
</section>
";

/// The job's edges, for the script to read.
fn known(form: &Form<'_>) -> String {
    let items: String = form.edges.iter().filter_map(known_edge).collect();
    let courses = form.edges.iter().map(|edge| edge.courses).max();
    format!(
        "<ul id=\"known\" data-courses=\"{}\" hidden=\"hidden\">{items}</ul>\n",
        courses.unwrap_or_default()
    )
}

fn known_edge(form: &FormEdge<'_>) -> Option<String> {
    let edge = form.edge?;
    let blank = Edge::new(EdgeId(0), Name::or("", ""), edge.kind, edge.hand);
    let mut item = format!(
        "<li data-kind=\"{}\" data-hand=\"{}\" data-short=\"{}\" data-logged=\"{}\" data-how=\"{}\"",
        edge.kind.word(),
        edge.hand.word(),
        text(&form.short),
        edge.courses().len(),
        text(form.how_read.as_deref().unwrap_or_default()),
    );
    for detail in EdgeDetail::ALL {
        let said = detail.text(edge);
        if said != detail.text(&blank) {
            // Writing to a String cannot fail.
            let _ = write!(item, " data-{}=\"{}\"", detail.column(), text(&said));
        }
    }
    Some(format!("{item}>{}</li>", text(edge.name.as_str())))
}

/// Which edges there are, what sort the chosen one is, and what else is known.
fn edge_view(form: &Form<'_>) -> String {
    let kinds = Hand::BOTH.into_iter().flat_map(|hand| {
        EdgeKind::ALL.map(|kind| {
            let side = hand.word().to_uppercase();
            let words = plain("b", "", kind.word()) + &format!(", panels to its {side}: {side} hand");
            let new = Edge::new(EdgeId(0), Name::or("", ""), kind, hand);
            let how = how_this_is_read(&new, &form.job.settings).unwrap_or_default();
            format!(
                "<button type=\"button\" data-kind=\"{}\" data-hand=\"{}\" data-how=\"{}\">{}<span>{words}</span></button>",
                kind.word(),
                hand.word(),
                text(&how),
                drawing(kind, hand, Drawn::Small),
            )
        })
    });
    let kinds: String = kinds.collect();
    let details: String = EdgeDetail::ALL.map(|detail| asked(detail, form)).concat();
    format!(
        "<section data-of=\"edge\" hidden=\"hidden\">\n\
         <div id=\"edges\" class=\"many\"></div>\n\
         <div class=\"many\"><button type=\"button\" data-do=\"new\">+ new edge</button></div>\n\
         <h2 id=\"edge-name\"></h2>\n<p id=\"edge-how\"></p>\n\
         <div id=\"sort\"><p>To which side of the edge do its panels lie? Stand at the eave, look up.</p>\n\
         <div id=\"kinds\">{kinds}</div>\n\
         <label>name <input id=\"name\" maxlength=\"60\" autocomplete=\"off\"/></label>\n\
         <p id=\"name-said\" class=\"bad\" role=\"status\"></p></div>\n\
         <p id=\"sort-asked\" class=\"bad\" role=\"status\"></p>\n\
         <div class=\"many\"><button type=\"button\" data-view=\"readings\">take its readings</button></div>\n\
         <h3>Where it is known</h3>\n{details}</section>\n"
    )
}

/// A field for one detail of an edge.
fn asked(detail: EdgeDetail, form: &Form<'_>) -> String {
    let label = text(detail.label()).into_owned();
    let (column, unit) = (detail.column(), form.job.settings.unit());
    let choice = |words: [[&str; 2]; 2]| {
        let options =
            words.map(|[word, said]| format!("<option value=\"{word}\">{}</option>", text(said)));
        let options = options.concat();
        format!(
            "<label>{label} <select data-column=\"{column}\"><option value=\"\">as the job says</option>{options}</select></label>\n"
        )
    };
    match detail {
        EdgeDetail::ReadsTo => choice(ReadTo::ALL.map(|to| [to.word(), to.said()])),
        EdgeDetail::TapeEnd => choice(TapeEnd::ALL.map(|end| [end.word(), end.said()])),
        _ => {
            let example = match (detail, unit) {
                (EdgeDetail::Slope | EdgeDetail::OtherSlope, Unit::Inch) => "6 in 12",
                (EdgeDetail::Slope | EdgeDetail::OtherSlope, Unit::Millimetre) => "26.57 deg",
                (EdgeDetail::Corner, _) => "90",
                _ => "",
            };
            format!(
                "<label>{label} <input data-column=\"{column}\" placeholder=\"{example}\" autocomplete=\"off\"/></label>\n"
            )
        }
    }
}

fn how_view(form: &Form<'_>) -> String {
    let words = plain("h2", "", &format!("Roof log: {}", form.job.name))
        + &plain("h3", "", "How readings are taken in this job")
        + &list("", how_to_read(form.job))
        + &plain("h3", "", "Take care")
        + &list("", CAUTIONS.map(str::to_owned));
    format!("<section data-of=\"how\" hidden=\"hidden\">{words}</section>\n")
}
