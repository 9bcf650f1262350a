//! The few pieces of HTML that pages are put together from.
//!
//! What is written is HTML and well-formed XML at once, so that strict readers
//! of either kind take it. Every text goes through [`text`]; nothing typed by a
//! person reaches the page in another way.

use std::borrow::Cow;

/// `content` with the signs that mean something in HTML written out.
pub(super) fn text(content: &str) -> Cow<'_, str> {
    if !content.contains(['&', '<', '>', '"', '\'']) {
        return content.into();
    }
    let mut out = String::with_capacity(content.len() + 16);
    for letter in content.chars() {
        match letter {
            '&' => out.push_str("&amp;"),
            '<' => out.push_str("&lt;"),
            '>' => out.push_str("&gt;"),
            '"' => out.push_str("&quot;"),
            '\'' => out.push_str("&#39;"),
            other => out.push(other),
        }
    }
    out.into()
}

/// An element of that class around `inner`, which is markup already; no class
/// where it is empty.
pub(super) fn element(name: &str, class: &str, inner: &str) -> String {
    if class.is_empty() {
        format!("<{name}>{inner}</{name}>")
    } else {
        format!("<{name} class=\"{class}\">{inner}</{name}>")
    }
}

/// An element of that class around plain text.
pub(super) fn plain(name: &str, class: &str, content: &str) -> String {
    element(name, class, &text(content))
}

/// A list of plain texts, each on a line of its own in the source.
pub(super) fn list(class: &str, items: impl IntoIterator<Item = String>) -> String {
    let items: String = items
        .into_iter()
        .map(|item| plain("li", "", &item) + "\n")
        .collect();
    element("ul", class, &format!("\n{items}"))
}

/// Words and what they mean, one pair after the other.
pub(super) fn pairs(class: &str, pairs: impl IntoIterator<Item = (String, String)>) -> String {
    let rows: String = pairs
        .into_iter()
        .map(|(word, meaning)| {
            let (word, meaning) = (plain("th", "", &word), plain("td", "", &meaning));
            element("tr", "", &(word + &meaning)) + "\n"
        })
        .collect();
    element("table", class, &format!("<tbody>\n{rows}</tbody>"))
}

/// A whole document: one file that asks for nothing else, with no script. The
/// policy in its head forbids a reader to load anything.
pub(super) fn document(title: &str, style: &str, body: &str) -> String {
    let [before, after] = around_body(title, style);
    before + body + &after
}

/// What stands before and behind a document's body.
pub(super) fn around_body(title: &str, style: &str) -> [String; 2] {
    let before = head(title, "", &format!("{PAPER}{style}"));
    [before, "</body>\n</html>\n".to_owned()]
}

/// A document that runs `script`, which stands in it and loads nothing either.
/// Nothing typed by a person may be in the script.
pub(super) fn document_with(title: &str, style: &str, body: &str, script: &str) -> String {
    let head = head(title, " script-src 'unsafe-inline';", style);
    // So that a reader of XML takes the script as it is.
    let script = format!("<script>//<![CDATA[\n{script}//]]>\n</script>\n");
    head + body + &script + "</body>\n</html>\n"
}

fn head(title: &str, may: &str, style: &str) -> String {
    let title = text(title);
    format!(
        "<!DOCTYPE html>\n\
         <html xmlns=\"http://www.w3.org/1999/xhtml\" lang=\"en\">\n\
         <head>\n\
         <meta charset=\"utf-8\"/>\n\
         <meta http-equiv=\"Content-Security-Policy\" content=\"default-src 'none';{may} style-src 'unsafe-inline'\"/>\n\
         <meta name=\"viewport\" content=\"width=device-width, initial-scale=1\"/>\n\
         <title>{title}</title>\n\
         <style>\n{style}</style>\n\
         </head>\n\
         <body>\n"
    )
}

/// Black on white, no fill that a printer would leave out, margins that every
/// printer keeps. The paper's size is left to the printer, so A4 and Letter
/// both do.
const PAPER: &str = "\
@page { margin: 12mm; }
* { box-sizing: border-box; }
body { margin: 0; color: black; background: white; font: 10.5pt/1.3 sans-serif; }
h1 { font-size: 17pt; margin: 0 0 3mm; overflow-wrap: anywhere; }
h2 { font-size: 14pt; margin: 0 0 1.5mm; overflow-wrap: anywhere; }
h3 { font-size: 11.5pt; margin: 4mm 0 1mm; }
p { margin: 0 0 1mm; overflow-wrap: anywhere; }
ul { margin: 0; padding-left: 5mm; }
table { border-collapse: collapse; }
th, td { text-align: left; vertical-align: top; padding: 0.4mm 3mm 0.4mm 0; overflow-wrap: anywhere; }
th { font-weight: bold; }
h1, h2, h3, thead { break-after: avoid; }
tr, li { break-inside: avoid; }
.page { break-before: page; }
@media screen { body { max-width: 200mm; margin: 0 auto; padding: 4mm; } .page { margin-top: 10mm; border-top: 0.6mm solid black; padding-top: 4mm; } }
";

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_means_something_in_html_is_written_out() {
        assert_eq!(
            plain("p", "", "<b>\"a\" & 'b'"),
            "<p>&lt;b&gt;&quot;a&quot; &amp; &#39;b&#39;</p>"
        );
    }

    #[test]
    fn a_plain_text_is_left_as_it_is() {
        assert!(matches!(text("23 5/8 in"), Cow::Borrowed(_)));
    }
}
