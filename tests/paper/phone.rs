//! A page in a browser, Chromium where it is installed (else the tests say
//! "skipped"): a script added for the test presses the page's own keys and hands
//! over what it sees.

use crate::print::{HEADLESS, chromium};
use scraper::{Html, Selector};
use std::path::Path;
use std::process::Command;

/// What the test's script is made with: pressing, typing, and handing over.
const HANDS: &str = r##"
const found = (what) => {
  const one = document.querySelector(what);
  if (!one || one.closest("[hidden]")) { throw Error("nothing to press: " + what); }
  return one;
};
const press = (what) => found(what).click();
const keys = (text) => Array.from(text).forEach((key) => press(`#keys [data-key="${key}"]`));
const next = () => press("#keys [data-do=next]");
const readings = (...all) => all.forEach((text) => { keys(text); next(); });
const write = (what, text) => {
  found(what).value = text;
  found(what).dispatchEvent(new Event("input", { bubbles: true }));
};
const out = (text) => {
  const box = document.createElement("pre");
  box.id = "out";
  box.textContent = text;
  document.body.append(box);
};
const csv = () => { press("nav [data-view=csv]"); out(found("#csv").value); };
"##;

/// What `script` hands over when it runs in `page`, by a browser that was never
/// used before; `before` runs before the page's own.
pub(crate) fn driven(browser: &str, page: &str, before: &str, script: &str) -> String {
    let folder = tempfile::tempdir().unwrap();
    driven_in(folder.path(), browser, page, before, script)
}

/// The same in a window of that size, in pixels.
pub(crate) fn driven_at(size: &str, browser: &str, page: &str, script: &str) -> String {
    let folder = tempfile::tempdir().unwrap();
    let size = format!("--window-size={size}");
    run(folder.path(), browser, page, ["", script], &[&size])
}

/// The same by a browser that keeps what it keeps in `folder`.
pub(crate) fn driven_in(
    folder: &Path,
    browser: &str,
    page: &str,
    before: &str,
    script: &str,
) -> String {
    run(folder, browser, page, [before, script], &[])
}

fn run(
    folder: &Path,
    browser: &str,
    page: &str,
    [before, script]: [&str; 2],
    more: &[&str],
) -> String {
    let script = format!("<script>//<![CDATA[\n{HANDS}{script}//]]></script></body>");
    let before = format!("<body><script>{before}</script>");
    let page = page.replacen("<body>", &before, 1);
    let page = page.replacen("</body>", &script, 1);
    let path = folder.join("log.html");
    std::fs::write(&path, page).unwrap();
    let output = Command::new(browser)
        .args(HEADLESS)
        .args(more)
        .arg(format!("--user-data-dir={}", folder.display()))
        .args(["--virtual-time-budget=20000", "--dump-dom"])
        .arg(&path)
        .output()
        .unwrap();
    let dom = String::from_utf8(output.stdout).unwrap();
    let document = Html::parse_document(&dom);
    let mut out = document.select(&OUT);
    let out = out.next().unwrap_or_else(|| {
        panic!("{dom}\n{}", String::from_utf8_lossy(&output.stderr));
    });
    out.text().collect()
}

static OUT: std::sync::LazyLock<Selector> =
    std::sync::LazyLock::new(|| Selector::parse("#out").unwrap());

pub(crate) fn browser() -> Option<&'static str> {
    let browser = chromium();
    if browser.is_none() {
        eprintln!("skipped: no Chromium to fill the log in with");
    }
    browser
}
