//! What the console can draw, as far as it tells.
//!
//! A window of today draws whatever there is. The old one of Windows draws only
//! what its code page has: box lines and blocks are in the pages that come from
//! DOS, and in no other.

/// The pages with box lines and all three blocks, one cell wide: 437 and 850 with
/// their kin (from memory).
#[cfg(any(windows, test))]
const WITH_BLOCKS: [u32; 16] = [
    437, 737, 775, 850, 852, 855, 857, 858, 860, 861, 862, 863, 864, 865, 866, 869,
];

/// Whether box lines and blocks are drawn where nobody has said what they like.
#[cfg(windows)]
pub fn draws_blocks() -> bool {
    // The window of today says by this that it is one.
    let is_new = std::env::var_os("WT_SESSION").is_some();
    has_blocks(is_new, super::windows_console::page())
}

/// Whether box lines and blocks are drawn where nobody has said what they like.
#[cfg(not(windows))]
pub const fn draws_blocks() -> bool {
    true
}

#[cfg(any(windows, test))]
fn has_blocks(is_new: bool, page: u32) -> bool {
    is_new || WITH_BLOCKS.contains(&page)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_old_console_draws_blocks_only_by_a_page_that_has_them() {
        assert!(has_blocks(false, 437) && has_blocks(false, 850));
        // Western, Japanese, UTF-8 in whatever letters the window has.
        for page in [1252, 932, 65001, 0] {
            assert!(!has_blocks(false, page), "{page}");
            assert!(has_blocks(true, page), "{page}");
        }
    }
}
