//! A field of terminal cells that lines are drawn into: eight braille dots a cell, or one letter.

use super::Glyphs;

/// The field; rows counted from the top.
pub(super) struct Dots {
    glyphs: Glyphs,
    columns: usize,
    rows: usize,
    cells: Vec<char>,
}

/// Braille dots by column and row of the cell (Unicode block Braille Patterns, U+2800 and a bit for each dot).
const DOTS: [[u32; 4]; 2] = [[0x01, 0x02, 0x04, 0x40], [0x08, 0x10, 0x20, 0x80]];
const LETTERS: [char; 4] = ['*', 'o', '+', 'x'];

impl Dots {
    pub fn new(columns: usize, rows: usize, glyphs: Glyphs) -> Self {
        Self {
            glyphs,
            columns,
            rows,
            cells: vec![' '; columns * rows],
        }
    }

    /// Dots across and down in one cell.
    fn grain(&self) -> (usize, usize) {
        if self.glyphs == Glyphs::Unicode {
            (2, 4)
        } else {
            (1, 1)
        }
    }

    /// Draws a line through places given as shares of the field, from the left and from the top. Lines of different
    /// `kind` are told apart by dashes, or by their letter.
    pub fn line(&mut self, places: &[(f64, f64)], kind: usize) {
        let (across, down) = self.grain();
        let (width, height) = (
            (self.columns * across) as f64 - 1.0,
            (self.rows * down) as f64 - 1.0,
        );
        let on: fn(usize) -> bool = match (self.glyphs, kind % 4) {
            (Glyphs::Ascii, _) | (_, 0) => |_| true,
            (_, 1) => |step| step % 7 < 4,
            (_, 2) => |step| step.is_multiple_of(3),
            _ => |step| matches!(step % 9, 0..=3 | 6),
        };
        let mut step = 0;
        let mut before = None;
        let places: Vec<(f64, f64)> = places
            .iter()
            .map(|&(x, y)| (x * width, y * height))
            .collect();
        for pair in places.windows(2) {
            let ((x1, y1), (x2, y2)) = (pair[0], pair[1]);
            let steps = (x2 - x1)
                .abs()
                .max((y2 - y1).abs())
                .ceil()
                .clamp(1.0, 4_000.0);
            for index in 0..=steps as usize {
                let share = index as f64 / steps;
                let dot = (
                    (x1 + (x2 - x1) * share).round(),
                    (y1 + (y2 - y1) * share).round(),
                );
                if before != Some(dot) {
                    before = Some(dot);
                    if on(step) {
                        self.dot(dot, kind);
                    }
                    step += 1;
                }
            }
        }
        if let [(x, y)] = places[..] {
            self.dot((x.round(), y.round()), kind);
        }
    }

    fn dot(&mut self, (x, y): (f64, f64), kind: usize) {
        let (across, down) = self.grain();
        if x < 0.0
            || y < 0.0
            || x >= (self.columns * across) as f64
            || y >= (self.rows * down) as f64
        {
            return;
        }
        let (x, y) = (x as usize, y as usize);
        let cell = &mut self.cells[y / down * self.columns + x / across];
        if self.glyphs == Glyphs::Ascii {
            *cell = LETTERS[kind % 4];
        } else {
            let dots = if *cell == ' ' {
                0x2800
            } else {
                u32::from(*cell)
            };
            *cell = char::from_u32(dots | DOTS[x % 2][y % 4]).unwrap_or(' ');
        }
    }

    /// The cell at a place given as shares of the field: column and row.
    pub fn cell_at(&self, (x, y): (f64, f64)) -> (usize, usize) {
        let index = |share: f64, count: usize| (share.clamp(0.0, 1.0) * count as f64) as usize;
        (
            index(x, self.columns).min(self.columns.saturating_sub(1)),
            index(y, self.rows).min(self.rows.saturating_sub(1)),
        )
    }

    /// Puts one character into a cell.
    pub fn put(&mut self, column: usize, row: usize, character: char) {
        if column < self.columns && row < self.rows {
            self.cells[row * self.columns + column] = character;
        }
    }

    /// Whether cells from `start` on, `count` of them, are inside the field and empty.
    pub fn is_free(&self, row: usize, start: usize, count: usize) -> bool {
        let is_inside = row < self.rows && start + count <= self.columns;
        is_inside
            && self.cells[row * self.columns + start..][..count]
                .iter()
                .all(|&cell| cell == ' ')
    }

    /// One row as text.
    pub fn row(&self, row: usize) -> String {
        self.cells[row * self.columns..][..self.columns]
            .iter()
            .collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_corners_of_a_cell_are_its_outer_dots() {
        let mut dots = Dots::new(1, 1, Glyphs::Unicode);
        for corner in [(0.0, 0.0), (1.0, 0.0), (0.0, 1.0), (1.0, 1.0)] {
            dots.line(&[corner], 0);
        }
        assert_eq!(dots.row(0), "\u{28C9}");
    }

    #[test]
    fn a_diagonal_visits_every_cell_on_its_way() {
        let mut dots = Dots::new(3, 3, Glyphs::Ascii);
        dots.line(&[(0.0, 0.0), (1.0, 1.0)], 1);
        assert_eq!(
            [dots.row(0), dots.row(1), dots.row(2)],
            ["o  ", " o ", "  o"]
        );
    }

    #[test]
    fn a_dashed_line_has_gaps() {
        let mut dots = Dots::new(10, 1, Glyphs::Unicode);
        dots.line(&[(0.0, 0.0), (1.0, 0.0)], 1);
        assert!(dots.row(0).contains(' ') || dots.row(0).contains('⠁'));
        assert!(dots.row(0).starts_with("⠉⠉"));
    }
}
