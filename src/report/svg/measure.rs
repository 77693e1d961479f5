//! How wide a text will be, estimated without a font: enough to keep labels apart, with a little to spare.

use crate::report::clean_text::{clean_text, is_combining};

/// Estimated width \[px\] of `text` at a font `size` \[px\] in a common sans-serif face, rather too wide than too narrow.
#[must_use]
pub fn text_width(text: &str, size: f64) -> f64 {
    text.chars().map(advance).sum::<f64>() * size
}

/// The width of a character as a fraction of the font size: classes of letters, from common sans-serif faces.
fn advance(character: char) -> f64 {
    match character {
        'i' | 'j' | 'l' | '\'' | '|' | '.' | ',' | ':' | ';' | '!' => 0.33,
        'f' | 't' | 'r' | 'I' | '(' | ')' | '[' | ']' | '/' | '-' | ' ' | '°' | '\u{202f}'
        | '\u{a0}' => 0.41,
        'm' | 'w' | 'M' | 'W' | '@' | '%' | '…' => 1.0,
        '<' | '>' | '=' | '+' | '~' | '#' | '^' | '_' => 0.85,
        'A'..='Z' | '&' => 0.73,
        '\u{20}'..='\u{7e}' | '–' => 0.63,
        _ if is_combining(character) => 0.0,
        '−' | '·' => 0.80,
        '\u{1100}'.. => 1.05,
        _ => 0.70,
    }
}

/// Cleaned text that fits into `width` \[px\], shortened with `…` where it must be.
#[must_use]
pub fn fitted(text: &str, size: f64, width: f64) -> String {
    let whole = clean_text(text, 400);
    if text_width(&whole, size) <= width {
        return whole;
    }
    let mut kept = 0;
    let mut used = advance('…') * size;
    for character in whole.chars() {
        used += advance(character) * size;
        if used > width {
            break;
        }
        kept += 1;
    }
    clean_text(&whole, kept + 1)
}

/// Cleaned text broken at spaces into at most `lines` lines of `width` \[px\]; what does not fit ends in `…`.
#[must_use]
pub fn wrapped(text: &str, size: f64, width: f64, lines: usize) -> Vec<String> {
    let whole = clean_text(text, 400);
    let mut rest = whole.as_str();
    let mut broken = Vec::new();
    while !rest.is_empty() && broken.len() < lines {
        let is_last = broken.len() + 1 == lines;
        let breaks = rest
            .match_indices(' ')
            .map(|(at, _)| at)
            .chain([rest.len()]);
        let fits = breaks
            .take_while(|&at| text_width(&rest[..at], size) <= width)
            .last();
        match fits {
            Some(at) if !is_last || at == rest.len() => {
                broken.push(rest[..at].to_owned());
                rest = rest[at..].trim_start();
            }
            // The last line, or a word longer than a line: the remainder is shortened.
            _ => {
                broken.push(fitted(rest, size, width));
                rest = "";
            }
        }
    }
    broken
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn wide_letters_take_more_room_than_narrow_ones() {
        assert!(text_width("WWW", 12.0) > 2.0 * text_width("iii", 12.0));
        assert_eq!(text_width("", 12.0), 0.0);
    }

    #[test]
    fn text_that_does_not_fit_is_shortened_visibly() {
        assert_eq!(fitted("Larch", 12.0, 200.0), "Larch");
        let short = fitted(&"Larch ".repeat(50), 12.0, 100.0);
        assert!(
            short.ends_with('…') && text_width(&short, 12.0) <= 100.0,
            "{short}"
        );
        assert_eq!(fitted("Larch", 12.0, 0.0), "…");
    }

    #[test]
    fn long_text_breaks_at_spaces_and_the_last_line_is_shortened() {
        assert_eq!(wrapped("one two", 10.0, 200.0, 2), ["one two"]);
        assert_eq!(wrapped("aaaa bbbb", 10.0, 30.0, 2), ["aaaa", "bbbb"]);
        let lines = wrapped("aaaa bbbb cccc", 10.0, 30.0, 2);
        assert_eq!((lines.len(), lines[1].ends_with('…')), (2, true));
        assert_eq!(wrapped(&"W".repeat(10_000), 10.0, 100.0, 2).len(), 1);
        assert!(wrapped("", 10.0, 100.0, 2).is_empty());
    }
}
