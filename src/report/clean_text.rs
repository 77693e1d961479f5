//! Text from outside made safe to show: no control or direction-changing characters, and no longer than there is room for.

/// `text` on one line without characters that act instead of being seen, cut to `longest` characters with a visible `…`.
///
/// Control characters, bidirectional marks and overrides, invisible spaces and tag characters are dropped; tabs and
/// line breaks become a space, runs of spaces become one; at most two combining marks stay on a letter.
/// Letters of every script stay. The result is not escaped: that is for whoever writes it into a format.
#[must_use]
pub fn clean_text(text: &str, longest: usize) -> String {
    let mut kept = String::new();
    let mut combining = 0;
    for character in text.chars() {
        if character.is_whitespace() {
            if !kept.is_empty() && !kept.ends_with(' ') {
                kept.push(' ');
            }
            continue;
        }
        if acts_unseen(character) {
            continue;
        }
        combining = if is_combining(character) {
            combining + 1
        } else {
            0
        };
        if combining <= 2 {
            kept.push(character);
        }
    }
    shortened(kept.trim_end(), longest)
}

/// The lines of `text` without characters that act instead of being seen, indents kept, each line cut to `longest`
/// characters with a visible `…`. For a message of several lines that names something from outside.
#[must_use]
pub fn clean_lines(text: &str, longest: usize) -> String {
    let lines: Vec<String> = text
        .split('\n')
        .map(|line| {
            let seen = line.replace('\t', "    ");
            let seen: String = seen.chars().filter(|&c| !acts_unseen(c)).collect();
            shortened(&seen, longest)
        })
        .collect();
    lines.join("\n")
}

/// `text` if it has at most `longest` characters, else its beginning with `…` as the last of them.
fn shortened(text: &str, longest: usize) -> String {
    if text.chars().count() <= longest {
        return text.to_owned();
    }
    let Some(room) = longest.checked_sub(1) else {
        return String::new();
    };
    let beginning: String = text.chars().take(room).collect();
    format!("{}…", beginning.trim_end())
}

/// Whether a character steers a terminal, a browser or the direction of writing, or stands there unseen.
///
/// The joiners U+200C and U+200D stay: some scripts cannot be written without them.
fn acts_unseen(character: char) -> bool {
    character.is_control()
        || matches!(character,
            '\u{00AD}' | '\u{061C}' | '\u{115F}' | '\u{1160}' | '\u{180E}' | '\u{3164}' | '\u{FEFF}' | '\u{FFA0}'
            | '\u{200B}' | '\u{200E}' | '\u{200F}' | '\u{202A}'..='\u{202E}' | '\u{2060}'..='\u{206F}'
            | '\u{FDD0}'..='\u{FDEF}' | '\u{FFF0}'..='\u{FFFB}' | '\u{FFFE}' | '\u{FFFF}' | '\u{E0000}'..='\u{E0FFF}')
}

/// Whether a character is drawn upon the one before it.
pub(crate) fn is_combining(character: char) -> bool {
    matches!(character,
        '\u{0300}'..='\u{036F}' | '\u{1AB0}'..='\u{1AFF}' | '\u{1DC0}'..='\u{1DFF}' | '\u{20D0}'..='\u{20FF}'
        | '\u{FE00}'..='\u{FE0F}' | '\u{FE20}'..='\u{FE2F}' | '\u{200C}' | '\u{200D}')
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn an_ordinary_name_in_any_script_is_left_alone() {
        for name in ["Larch 36", "Größe 9", "暖房 12", "дом №5", "חורף"] {
            assert_eq!(clean_text(name, 40), name);
        }
    }

    #[test]
    fn control_and_direction_characters_are_dropped() {
        assert_eq!(clean_text("a\u{1b}[31mb\u{0}\u{7f}\u{9b}c", 40), "a[31mbc");
        assert_eq!(
            clean_text("safe\u{202E}exe.\u{2066}x\u{2069}\u{200F}", 40),
            "safeexe.x"
        );
    }

    #[test]
    fn a_message_keeps_its_lines_and_indents() {
        assert_eq!(
            clean_lines("a\u{1b}[2Jb\n  c\u{202e}d\r\n\n", 40),
            "a[2Jb\n  cd\n\n"
        );
        assert_eq!(
            clean_lines(&"w".repeat(900), 10),
            format!("{}…", "w".repeat(9))
        );
    }

    #[test]
    fn white_space_of_every_kind_becomes_one_space() {
        assert_eq!(clean_text(" \ta\r\n\u{2028}b\u{a0} c  ", 40), "a b c");
    }

    #[test]
    fn a_tower_of_combining_marks_keeps_two() {
        let tower = format!("e{}", "\u{0301}".repeat(500));
        assert_eq!(clean_text(&tower, 40), "e\u{0301}\u{0301}");
    }

    #[test]
    fn ten_thousand_characters_end_in_an_ellipsis() {
        let long = clean_text(&"w".repeat(10_000), 24);
        assert_eq!(long.chars().count(), 24);
        assert!(long.ends_with("w…"));
        assert_eq!(clean_text("abc", 3), "abc");
        assert_eq!(clean_text("abcd", 3), "ab…");
        assert_eq!(clean_text("abcd", 0), "");
        assert_eq!(clean_text("ab cd", 4), "ab…");
    }
}
