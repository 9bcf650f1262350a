//! Whether a file is one that this program wrote as a sheet or a form, told by
//! its first lines: only such a one may be written over.
//!
//! The words stand here as they were written once, by any version: a file that
//! is not known any more is kept for good.

/// How far into a file its first lines go, in bytes.
const FIRST: usize = 4096;

/// What a line of a page as text begins with.
const TITLES: [&str; 2] = ["CUT SHEET  ", "ROOF LOG  "];

/// What the line of a page as HTML begins with that names it.
const HTML_TITLES: [&str; 2] = ["<title>Cut sheet: ", "<title>Roof log: "];

/// What the line of the columns begins with.
const COLUMNS: &str = "edge,kind,hand,course,piece,bend_1_at,bend_1_mm,";

/// The keys of a sheet as JSON that stand first on a line.
const KEYS: [&str; 3] = ["\"job\": \"", "\"blade\": \"", "\"panels\": {\"pieces\": "];

/// Whether `bytes` begin as a sheet or a form does, in any of its forms; an
/// empty file holds nothing that could be lost.
pub fn is_page(bytes: &[u8]) -> bool {
    if bytes.is_empty() {
        return true;
    }
    let first = bytes.get(..FIRST).unwrap_or(bytes);
    let text = String::from_utf8_lossy(first);
    let text = text.trim_start_matches('\u{feff}');
    let has = |head: &&str| text.lines().any(|line| line.starts_with(*head));
    // The first key stands behind the bracket, the others behind a blank.
    let has_key = |key: &&str| {
        let mut lines = text.lines();
        lines.any(|line| line.trim_start_matches(['{', ' ']).starts_with(*key))
    };
    let is_html = text.starts_with("<!DOCTYPE html>") && HTML_TITLES.iter().any(has);
    let is_json = text.starts_with('{') && KEYS.iter().all(has_key);
    is_html || is_json || has(&COLUMNS) || TITLES.iter().any(has)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_somebody_else_wrote_is_no_page() {
        let others: [&[u8]; 8] = [
            b"buy gloves\n",
            b"edge,kind,hand,course,bottom,top\nNorth,hip,left,1,20,8\n",
            b"<!DOCTYPE html>\n<title>Roof</title>\n",
            b"{\"job\": \"x\"}\n",
            b"(\n    version: 2,\n    name: \"CUT SHEET  x\",\n",
            b" ",
            b"\0\0\0\0",
            b"\xff\xfe",
        ];
        for other in others {
            assert!(!is_page(other), "{}", String::from_utf8_lossy(other));
        }
        assert!(is_page(b""));
    }
}
