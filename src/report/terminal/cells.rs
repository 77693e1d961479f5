//! How many cells of a terminal a text takes, and text cut or padded to a number of cells.

use textwrap::core::display_width;

use crate::report::clean_text;

/// Cells that a cleaned text takes: two for the wide characters of East Asian scripts, none for marks upon another character.
#[must_use]
pub fn cells(text: &str) -> usize {
    display_width(text)
}

/// Cleaned text in at most `room` cells, shortened with `…` where it must be.
#[must_use]
pub fn fitted(text: &str, room: usize) -> String {
    let whole = clean_text(text, room.max(1) * 4);
    if cells(&whole) <= room {
        return whole;
    }
    let mut kept = String::new();
    for character in whole.chars() {
        kept.push(character);
        if cells(&kept) + 1 > room {
            kept.pop();
            break;
        }
    }
    if room > 0 {
        kept.truncate(kept.trim_end().len());
        kept.push('…');
    }
    kept
}

/// Fitted text with spaces after it up to exactly `room` cells.
#[must_use]
pub fn left_aligned(text: &str, room: usize) -> String {
    let text = fitted(text, room);
    let padding = room - cells(&text);
    text + &" ".repeat(padding)
}

/// Fitted text with spaces before it up to exactly `room` cells.
#[must_use]
pub fn right_aligned(text: &str, room: usize) -> String {
    let text = fitted(text, room);
    " ".repeat(room - cells(&text)) + &text
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_and_combining_characters_are_counted_as_a_terminal_shows_them() {
        assert_eq!(
            [
                cells("abc"),
                cells("暖房"),
                cells("e\u{301}"),
                cells("−5 °C")
            ],
            [3, 4, 1, 5]
        );
    }

    #[test]
    fn text_is_cut_and_padded_to_the_cell() {
        assert_eq!(left_aligned("Larch", 8), "Larch   ");
        assert_eq!(right_aligned("Larch", 8), "   Larch");
        assert_eq!(left_aligned("Larch", 4), "Lar…");
        assert_eq!(left_aligned("暖房暖房", 4), "暖… ");
        assert_eq!(left_aligned("Larch", 0), "");
    }

    #[test]
    fn escape_sequences_in_a_name_do_not_reach_the_terminal() {
        assert_eq!(fitted("a\u{1b}[2Jb\u{202e}\n", 20), "a[2Jb");
    }
}
