//! Turns a byte position in a text into the line and character that a reader counts.

/// A text and where its lines begin.
pub(super) struct TextPlace<'t> {
    text: &'t str,
    line_starts: Vec<usize>,
}

impl<'t> TextPlace<'t> {
    /// Finds the lines of a text.
    pub fn new(text: &'t str) -> Self {
        let after_breaks = text.match_indices('\n').map(|(at, _)| at + 1);
        Self {
            text,
            line_starts: std::iter::once(0).chain(after_breaks).collect(),
        }
    }

    /// Line and character of a byte position, both counted from 1.
    pub fn line_and_column(&self, position: usize) -> (usize, usize) {
        let line = self.line_index(position);
        let before = self
            .text
            .get(self.line_starts[line]..position)
            .unwrap_or_default();
        (line + 1, before.chars().count() + 1)
    }

    /// The line in which a byte position lies, without its end.
    pub fn line_text(&self, position: usize) -> &'t str {
        let start = self.line_starts[self.line_index(position)];
        self.text[start..].lines().next().unwrap_or_default()
    }

    fn line_index(&self, position: usize) -> usize {
        self.line_starts
            .partition_point(|&start| start <= position)
            .saturating_sub(1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_count_characters_not_bytes() {
        let places = TextPlace::new("a = 1\n\"−18 °C\" x\r\n");
        assert_eq!(places.line_and_column(0), (1, 1));
        assert_eq!(places.line_and_column(4), (1, 5));
        let x = places.text.find('x').unwrap();
        assert_eq!(places.line_and_column(x), (2, 10));
        assert_eq!(places.line_text(x), "\"−18 °C\" x");
        assert_eq!(places.line_and_column(places.text.len()), (3, 1));
    }
}
