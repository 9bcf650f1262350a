//! Lines of text that stay within a width.
//!
//! Widths are terminal columns, so a wide character counts as two. Where a line
//! is broken is the matter of [`rows`].

use crate::domain::words::rows;
use unicode_segmentation::UnicodeSegmentation;
use unicode_width::UnicodeWidthStr;

/// A page that fills downward.
#[derive(Clone, PartialEq, Eq, Debug)]
pub struct Page {
    width: usize,
    text: String,
}

impl Page {
    /// An empty page `width` columns wide.
    pub const fn new(width: usize) -> Self {
        Self {
            width,
            text: String::new(),
        }
    }

    /// How many columns it has.
    pub const fn width(&self) -> usize {
        self.width
    }

    /// Everything on it; every line ends with a newline.
    pub fn into_text(self) -> String {
        self.text
    }

    /// What has been put on it so far, taken off.
    pub fn take_text(&mut self) -> String {
        std::mem::take(&mut self.text)
    }

    /// An empty line.
    pub fn blank(&mut self) {
        self.text.push('\n');
    }

    /// A line as it is, such as one of a drawing; what does not fit is left off.
    pub fn keep(&mut self, line: &str) {
        let mut used = 0;
        let fits = |grapheme: &&str| {
            used += grapheme.width();
            used <= self.width
        };
        let kept: String = line.graphemes(true).take_while(fits).collect();
        self.finish(&kept);
    }

    /// `lead` and behind it `text`; what runs over goes on under `text`'s
    /// start. A lead wider than half the page has the rest under its indent.
    pub fn put(&mut self, lead: &str, text: &str) {
        let hang = match lead.width() {
            wide if wide * 2 > self.width => {
                let indent = lead.len() - lead.trim_start().len();
                (indent + 2).min(self.width / 2)
            }
            wide => wide,
        };
        for row in rows(lead, text, hang, self.width) {
            self.finish(&row);
        }
    }

    /// `left` at the left edge and `right` at the right one; `right` goes to a
    /// line of its own where both do not fit.
    pub fn apart(&mut self, left: &str, right: &str) {
        let used = left.width() + right.width();
        if used + 2 > self.width {
            self.put("", left);
            let indent = self.width.saturating_sub(right.width());
            self.put(&" ".repeat(indent), right);
        } else {
            let gap = " ".repeat(self.width - used);
            self.finish(&format!("{left}{gap}{right}"));
        }
    }

    /// `left` behind `lead`, and `right` from `column` columns further on; on
    /// a line of its own where `left` reaches that far or `right` too far.
    pub fn pair(&mut self, lead: &str, left: &str, column: usize, right: &str) {
        let start = lead.width() + column;
        if left.width() < column && start + right.width() <= self.width {
            let gap = " ".repeat(column - left.width());
            self.finish(&format!("{lead}{left}{gap}{right}"));
        } else {
            self.put(lead, left);
            self.put(&" ".repeat(lead.width()), right);
        }
    }

    fn finish(&mut self, line: &str) {
        self.text.push_str(line.trim_end());
        self.text.push('\n');
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[track_caller]
    fn check(lead: &str, text: &str, expected: &str) {
        let mut page = Page::new(20);
        page.put(lead, text);
        assert_eq!(page.into_text(), expected);
    }

    #[test]
    fn what_runs_over_goes_on_under_its_start() {
        check(
            "cut  ",
            "nose 25 5/8 in, back 13 in",
            "cut  nose 25 5/8 in,\n     back 13 in\n",
        );
    }

    #[test]
    fn a_word_that_is_too_long_is_broken() {
        check(
            "",
            "abcdefghijklmnopqrstuvwxyz",
            "abcdefghijklmnopqrst\nuvwxyz\n",
        );
    }

    #[test]
    fn wide_characters_count_as_two() {
        check("", "北北北北北北北北北北北", "北北北北北北北北北北\n北\n");
    }

    proptest! {
        #[test]
        fn prop_no_line_is_wider_than_the_page(lead in " {0,8}[a-z]{0,8} ?", text in "[a-z北é ]{0,80}") {
            let mut page = Page::new(20);
            page.put(&lead, &text);
            page.apart(&text, &lead);
            page.pair(&lead, &text, 10, &text);
            for line in page.into_text().lines() {
                prop_assert!(line.width() <= 20, "{line:?}");
            }
        }
    }
}
