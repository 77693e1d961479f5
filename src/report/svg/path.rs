//! Builds the `d` attribute of an SVG path from points, and splits lines where a value is missing.

use super::element::compact;
use super::labels::Rect;

/// A point in the drawing \[px\], x to the right and y downwards.
pub type Point = (f64, f64);

/// The `d` attribute of an open line through `points`; empty for fewer than two.
#[must_use]
pub fn open_path(points: &[Point]) -> String {
    if points.len() < 2 {
        return String::new();
    }
    let mut path = String::with_capacity(points.len() * 10);
    for (index, (x, y)) in points.iter().enumerate() {
        path.push(if index == 0 { 'M' } else { 'L' });
        path.push_str(&compact(*x));
        path.push(' ');
        path.push_str(&compact(*y));
    }
    path
}

/// The `d` attribute of a closed area around `points`; empty for fewer than two.
#[must_use]
pub fn closed_path(points: &[Point]) -> String {
    let mut path = open_path(points);
    if !path.is_empty() {
        path.push('Z');
    }
    path
}

/// The piece of a `d` attribute that draws a rectangle; empty where it has no width or height.
#[must_use]
pub fn rectangle_path(area: Rect) -> String {
    let (left, top) = (compact(area.left), compact(area.top));
    let (width, height) = (
        compact(area.right - area.left),
        compact(area.bottom - area.top),
    );
    if area.right - area.left < 0.05 || area.bottom - area.top < 0.05 {
        return String::new();
    }
    format!("M{left} {top}h{width}v{height}h-{width}z")
}

/// The unbroken pieces of a line: cut wherever `place` finds no point for an item.
#[must_use]
pub fn runs<T>(items: &[T], place: impl Fn(&T) -> Option<Point>) -> Vec<Vec<Point>> {
    let mut pieces = vec![Vec::new()];
    for item in items {
        match place(item).filter(|(x, y)| x.is_finite() && y.is_finite()) {
            Some(point) => {
                if let Some(piece) = pieces.last_mut() {
                    piece.push(point);
                }
            }
            None => pieces.push(Vec::new()),
        }
    }
    pieces.retain(|piece| !piece.is_empty());
    pieces
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_line_starts_with_a_move_and_an_area_is_closed() {
        let points = [(0.0, 0.0), (10.25, 5.0), (20.0, 0.0)];
        assert_eq!(open_path(&points), "M0 0L10.3 5L20 0");
        assert_eq!(closed_path(&points), "M0 0L10.3 5L20 0Z");
    }

    #[test]
    fn a_rectangle_without_size_draws_nothing() {
        let area = Rect {
            left: 1.0,
            top: 2.0,
            right: 4.0,
            bottom: 7.5,
        };
        assert_eq!(rectangle_path(area), "M1 2h3v5.5h-3z");
        assert_eq!(rectangle_path(Rect { right: 1.0, ..area }), "");
        assert_eq!(
            rectangle_path(Rect {
                bottom: 0.0,
                ..area
            }),
            ""
        );
    }

    #[test]
    fn one_point_or_none_draws_nothing() {
        assert_eq!(open_path(&[]), "");
        assert_eq!(closed_path(&[(1.0, 1.0)]), "");
    }

    #[test]
    fn a_line_breaks_at_missing_and_at_unreal_values() {
        let values = [Some(1.0), Some(2.0), None, Some(f64::NAN), Some(3.0)];
        let pieces = runs(&values, |value| value.map(|v| (v, v)));
        assert_eq!(pieces, vec![vec![(1.0, 1.0), (2.0, 2.0)], vec![(3.0, 3.0)]]);
    }
}
