//! Where labels go: beside the line or point they name, clear of lines, marks and one another.

use super::path::Point;

/// A rectangle in the drawing \[px\].
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Rect {
    /// The left edge.
    pub left: f64,
    /// The upper edge.
    pub top: f64,
    /// The right edge, at or right of the left one.
    pub right: f64,
    /// The lower edge, at or below the upper one.
    pub bottom: f64,
}

impl Rect {
    /// The rectangle of a size around a middle.
    #[must_use]
    pub fn around((x, y): Point, (width, height): (f64, f64)) -> Self {
        Self {
            left: x - width / 2.0,
            top: y - height / 2.0,
            right: x + width / 2.0,
            bottom: y + height / 2.0,
        }
    }

    /// Its middle.
    #[must_use]
    pub fn middle(self) -> Point {
        (
            f64::midpoint(self.left, self.right),
            f64::midpoint(self.top, self.bottom),
        )
    }

    /// A bar from `top` to `bottom` as wide as this, less a hair's breadth left and right where there is room for it,
    /// so that bars side by side stay apart.
    #[must_use]
    pub fn as_bar(self, top: f64, bottom: f64) -> Self {
        let gap = if self.right - self.left > 5.0 {
            0.6
        } else {
            0.0
        };
        Self {
            left: self.left + gap,
            right: self.right - gap,
            top,
            bottom,
        }
    }

    fn holds(self, (x, y): Point) -> bool {
        x >= self.left && x <= self.right && y >= self.top && y <= self.bottom
    }

    fn overlap(self, other: Self) -> f64 {
        let width = self.right.min(other.right) - self.left.max(other.left);
        let height = self.bottom.min(other.bottom) - self.top.max(other.top);
        width.max(0.0) * height.max(0.0)
    }
}

/// What a label should not cover.
#[derive(Clone, Debug, Default)]
pub struct Obstacles {
    points: Vec<Point>,
    boxes: Vec<Rect>,
}

impl Obstacles {
    /// Keeps labels off a line, as far as possible.
    pub fn add_line(&mut self, line: &[Point]) {
        for pair in line.windows(2) {
            let ((x1, y1), (x2, y2)) = (pair[0], pair[1]);
            let steps = ((x2 - x1).hypot(y2 - y1) / 5.0).ceil().clamp(1.0, 400.0) as usize;
            self.points.extend((0..=steps).map(|step| {
                let share = step as f64 / steps as f64;
                (x1 + (x2 - x1) * share, y1 + (y2 - y1) * share)
            }));
        }
    }

    /// Keeps labels off an area: another label, or a mark.
    pub fn add_box(&mut self, area: Rect) {
        self.boxes.push(area);
    }

    /// How bad a place is: zero is clear. Leaving the drawing is worst, then other labels, then lines.
    fn harm(&self, place: Rect, within: Rect) -> f64 {
        let wanted = (place.right - place.left) * (place.bottom - place.top);
        let outside = wanted - place.overlap(within);
        let covered: f64 = self.boxes.iter().map(|area| area.overlap(place)).sum();
        let crossed = self
            .points
            .iter()
            .filter(|&&point| place.holds(point))
            .count();
        outside.max(0.0) * 50.0 + covered * 10.0 + crossed as f64 * 20.0
    }

    /// The least harmful of `places`, the earlier one in a tie; it becomes an obstacle itself.
    fn take(&mut self, places: impl IntoIterator<Item = Rect>, within: Rect) -> Option<Rect> {
        let mut best: Option<(f64, Rect)> = None;
        for place in places {
            let harm = self.harm(place, within);
            if best.is_none_or(|(least, _)| harm < least) {
                best = Some((harm, place));
            }
            if harm == 0.0 {
                break;
            }
        }
        let (_, place) = best?;
        self.add_box(place);
        Some(place)
    }

    /// A place for a label of `size` (width, height) beside a line: just above or below it, somewhere along its length,
    /// searched from the share `preferred` of its length (0 start, 1 end) outwards. `None` for an empty line.
    pub fn beside_line(
        &mut self,
        line: &[Point],
        size: (f64, f64),
        preferred: f64,
        within: Rect,
    ) -> Option<Rect> {
        let last = line.len().checked_sub(1)?;
        let along = |share: f64| {
            let at = share * last as f64;
            let (before, part) = (at.floor() as usize, at.fract());
            let (from, to) = (line[before], line[(before + 1).min(last)]);
            (
                from.0 + (to.0 - from.0) * part,
                from.1 + (to.1 - from.1) * part,
            )
        };
        let mut shares: Vec<f64> = (0..=20).map(|index| f64::from(index) / 20.0).collect();
        shares.sort_by(|a, b| (a - preferred).abs().total_cmp(&(b - preferred).abs()));
        let (width, height) = size;
        let places: Vec<Rect> = shares
            .into_iter()
            .flat_map(|share| {
                let (x, y) = along(share);
                let sides = [
                    (0.0, -1.0),
                    (0.0, 1.0),
                    (0.5, -1.0),
                    (-0.5, -1.0),
                    (0.5, 1.0),
                    (-0.5, 1.0),
                ];
                sides.map(|(across, up)| {
                    Rect::around((x + across * width, y + up * (height / 2.0 + 4.0)), size)
                })
            })
            .collect();
        self.take(places, within)
    }

    /// A place for a label of `size` (width, height) close to a marked point.
    pub fn beside_point(&mut self, (x, y): Point, size: (f64, f64), within: Rect) -> Option<Rect> {
        let (width, height) = size;
        let places: Vec<Rect> = [9.0, 16.0, 26.0, 40.0, 60.0]
            .into_iter()
            .flat_map(|gap| {
                let (beside, over) = (width / 2.0 + gap, height / 2.0 + gap);
                let (near_side, near) = (width / 2.0 + gap * 0.7, height / 2.0 + gap * 0.5);
                [
                    (near_side, -near),
                    (beside, 0.0),
                    (near_side, near),
                    (-near_side, -near),
                    (-beside, 0.0),
                    (-near_side, near),
                    (0.0, -over),
                    (0.0, over),
                ]
                .map(|(dx, dy)| Rect::around((x + dx, y + dy), size))
            })
            .collect();
        self.take(places, within)
    }
}

/// A name over a vertical mark: where it begins, and in which row over the plot, row 0 lowest.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct FlagPlace {
    /// The left edge of the name.
    pub start: f64,
    /// The row.
    pub row: usize,
}

/// Places the names of vertical marks, each given by its place and the width of its name, between `left` and `right`:
/// over the mark, or right or left of it, in the lowest row where it covers neither another name nor the way of another mark.
/// `taken` is kept free in row 0.
#[must_use]
pub fn flag_places(
    flags: &[(f64, f64)],
    left: f64,
    right: f64,
    taken: Option<(f64, f64)>,
) -> Vec<FlagPlace> {
    const GAP: f64 = 10.0;
    const ROWS: usize = 6;
    let mut rows: Vec<Vec<(f64, f64)>> = vec![Vec::new(); ROWS];
    rows[0].extend(taken);
    let mut places: Vec<Option<FlagPlace>> = Vec::new();
    for (index, &(mark, width)) in flags.iter().enumerate() {
        let is_clear = |place: &FlagPlace| {
            let (start, end) = (place.start, place.start + width);
            let on_others = rows[place.row]
                .iter()
                .any(|&(from, to)| start < to + GAP && end + GAP > from);
            let is_crossed = |&(other, &(x, _)): &(usize, &(f64, f64))| {
                other != index && x > start - 4.0 && x < end + 4.0
            };
            start >= left
                && end <= right
                && !on_others
                && !flags.iter().enumerate().any(|flag| is_crossed(&flag))
        };
        let starts = [mark - width / 2.0, mark + 5.0, mark - width - 5.0];
        let place = (0..ROWS)
            .flat_map(|row| starts.map(|start| FlagPlace { start, row }))
            .find(is_clear);
        if let Some(place) = place {
            rows[place.row].push((place.start, place.start + width));
        }
        places.push(place);
    }
    // Marks closer together than their names are wide: a row for each over all the others, where no other line comes up to.
    let mut row = rows
        .iter()
        .rposition(|row| !row.is_empty())
        .map_or(0, |row| row + 1);
    let over_the_rest = |(place, &(mark, width)): (Option<FlagPlace>, &(f64, f64))| {
        place.unwrap_or_else(|| {
            row += 1;
            FlagPlace {
                start: (mark - width / 2.0).min(right - width).max(left),
                row: row - 1,
            }
        })
    };
    places.into_iter().zip(flags).map(over_the_rest).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    const PAPER: Rect = Rect {
        left: 0.0,
        top: 0.0,
        right: 200.0,
        bottom: 100.0,
    };

    fn placed(flags: &[(f64, f64)], taken: Option<(f64, f64)>) -> Vec<(f64, usize)> {
        flag_places(flags, 0.0, 200.0, taken)
            .iter()
            .map(|place| (place.start, place.row))
            .collect()
    }

    #[test]
    fn a_flag_stands_over_its_mark_unless_another_mark_passes_there() {
        assert_eq!(
            placed(&[(50.0, 40.0), (150.0, 40.0)], None),
            [(30.0, 0), (130.0, 0)]
        );
        assert_eq!(
            placed(&[(80.0, 40.0), (90.0, 40.0)], None),
            [(35.0, 0), (95.0, 0)]
        );
        assert_eq!(
            placed(&[(0.0, 40.0), (200.0, 40.0)], None),
            [(5.0, 0), (155.0, 0)]
        );
    }

    #[test]
    fn a_flag_that_finds_no_room_goes_up_a_row() {
        assert_eq!(placed(&[(50.0, 40.0)], Some((0.0, 100.0))), [(30.0, 1)]);
        let crowded = placed(&[(50.0, 190.0), (50.0, 190.0), (51.0, 500.0)], None);
        assert_eq!(
            crowded.iter().map(|place| place.1).collect::<Vec<_>>(),
            [0, 1, 2]
        );
        // The first has no room left of its line and may not cross the second's: it goes over both.
        assert_eq!(
            placed(&[(40.0, 60.0), (60.0, 60.0)], None),
            [(10.0, 1), (65.0, 0)]
        );
        assert!(placed(&[], None).is_empty());
    }

    #[test]
    fn a_label_keeps_off_the_line_it_names_and_off_another_label() {
        let line = [(0.0, 50.0), (200.0, 50.0)];
        let mut obstacles = Obstacles::default();
        obstacles.add_line(&line);
        let first = obstacles
            .beside_line(&line, (60.0, 14.0), 0.5, PAPER)
            .unwrap();
        let second = obstacles
            .beside_line(&line, (60.0, 14.0), 0.5, PAPER)
            .unwrap();
        assert_eq!(first.middle(), (100.0, 39.0));
        assert_eq!(first.overlap(second), 0.0);
        assert!(second.top > 50.0 || second.bottom < 50.0);
    }

    #[test]
    fn a_point_in_the_corner_gets_its_label_inside_the_drawing() {
        let label = Obstacles::default()
            .beside_point((198.0, 2.0), (60.0, 14.0), PAPER)
            .unwrap();
        assert_eq!(label.overlap(PAPER), 60.0 * 14.0);
    }

    #[test]
    fn an_empty_line_has_no_place_for_a_label() {
        assert_eq!(
            Obstacles::default().beside_line(&[], (10.0, 10.0), 0.5, PAPER),
            None
        );
        assert!(
            Obstacles::default()
                .beside_line(&[(5.0, 50.0)], (10.0, 10.0), 0.5, PAPER)
                .is_some()
        );
    }
}
