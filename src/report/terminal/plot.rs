//! A line plot in a terminal: several lines named at their ends, axes with round marks, one point marked.

use super::Glyphs;
use super::cells::{cells, fitted, right_aligned};
use super::dots::Dots;
use crate::report::svg::path::runs;
use crate::report::svg::scale::{Scale, Span};
use crate::report::svg::ticks::Ticks;

/// One line. A value that is not a number is a gap.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TextSeries {
    /// Written at its right end.
    pub name: String,
    /// Places on the two axes, left to right.
    pub points: Vec<(f64, f64)>,
}

/// A marked point.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TextMark {
    /// What it is, such as `balance point −14.5 °C`.
    pub name: String,
    /// Its place on the horizontal axis.
    pub x: f64,
    /// Its place on the vertical axis.
    pub y: f64,
}

/// A line plot.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TextPlot {
    /// The line above; none where empty.
    pub title: String,
    /// The horizontal axis with its unit.
    pub x_title: String,
    /// The vertical axis with its unit. It always shows zero.
    pub y_title: String,
    /// The lines, most important first; told apart by dashes up to four.
    pub series: Vec<TextSeries>,
    /// A point to mark.
    pub mark: Option<TextMark>,
    /// How wide the whole may be, in cells; at least 40.
    pub columns: usize,
    /// How many rows the plotting area has; at least 4.
    pub rows: usize,
    /// What the terminal can show.
    pub glyphs: Glyphs,
}

/// Draws the plot, every line ended by a line feed.
#[must_use]
pub fn plot_text(data: &TextPlot) -> String {
    let (columns, rows) = (data.columns.clamp(40, 400), data.rows.clamp(4, 100));
    let points = || data.series.iter().flat_map(|series| &series.points);
    let mark = data
        .mark
        .as_ref()
        .filter(|mark| mark.x.is_finite() && mark.y.is_finite());
    let drawn = points().filter(|(x, y)| x.is_finite() && y.is_finite());
    let x_span = Span::of(drawn.map(|p| p.0).chain(mark.map(|mark| mark.x)));
    let y_values = points()
        .map(|p| p.1)
        .chain(mark.map(|mark| mark.y))
        .chain([0.0]);
    let about = (rows / 3).clamp(2, 6);
    let y_span = Ticks::rounded_out(Span::of(y_values), about);
    let y_ticks = Ticks::within(y_span, about);
    let y_labels = y_ticks.labels();

    let y_room = y_labels.iter().map(|label| cells(label)).max().unwrap_or(0);
    let longest = data
        .series
        .iter()
        .map(|series| cells(&fitted(&series.name, 20)))
        .max()
        .unwrap_or(0);
    let name_room = if longest > 0 { longest + 1 } else { 0 };
    let width = columns.saturating_sub(y_room + 2 + name_room).max(10);
    let (x, y) = (Scale::new(x_span, 0.0, 1.0), Scale::new(y_span, 1.0, 0.0));

    let mut field = Dots::new(width, rows, data.glyphs);
    let pieces = |series: &TextSeries| runs(&series.points, |p| Some((x.at(p.0), y.at(p.1))));
    // The most important line is drawn last, over the others.
    for (kind, series) in data.series.iter().enumerate().rev() {
        for piece in pieces(series) {
            field.line(&piece, kind);
        }
    }
    let note =
        mark.and_then(|mark| put_mark(&mut field, mark, (x.at(mark.x), y.at(mark.y)), data.glyphs));
    let mut names = vec![String::new(); rows];
    for series in &data.series {
        let end = pieces(series)
            .last()
            .and_then(|piece| piece.last())
            .copied();
        if let Some(place) = end {
            let row = field.cell_at(place).1;
            if let Some(free) = nearest_free(&names, row) {
                names[free] = fitted(&series.name, name_room.saturating_sub(1));
            }
        }
    }

    let is_unicode = data.glyphs == Glyphs::Unicode;
    let mut out = Vec::new();
    out.extend(Some(fitted(&data.title, columns)).filter(|title| !title.is_empty()));
    out.extend(Some(fitted(&data.y_title, columns)).filter(|title| !title.is_empty()));
    for (row, name) in names.iter().enumerate() {
        let tick = y_ticks
            .values
            .iter()
            .position(|&value| field.cell_at((0.0, y.at(value))).1 == row);
        let (label, axis) = match (tick, is_unicode) {
            (Some(tick), true) => (y_labels[tick].as_str(), '┤'),
            (Some(tick), false) => (y_labels[tick].as_str(), '+'),
            (None, true) => ("", '│'),
            (None, false) => ("", '|'),
        };
        out.push(format!(
            "{} {axis}{} {name}",
            right_aligned(label, y_room),
            field.row(row)
        ));
    }
    out.extend(x_axis(&field, x, width, y_room, data));
    out.extend(note);
    let text: String = out
        .iter()
        .map(|line| format!("{}\n", line.trim_end()))
        .collect();
    data.glyphs.written(&text)
}

/// Puts the mark into the field with its name beside it; where there is no room, returns the name as a line of its own.
fn put_mark(
    field: &mut Dots,
    mark: &TextMark,
    place: (f64, f64),
    glyphs: Glyphs,
) -> Option<String> {
    let sign = if glyphs == Glyphs::Unicode {
        '●'
    } else {
        '@'
    };
    let (column, row) = field.cell_at(place);
    field.put(column, row, sign);
    let name = fitted(&mark.name, 40);
    let width = cells(&name);
    // A cell of the field holds one character, so names with wide or combining ones go below.
    let is_simple = width > 0 && width == name.chars().count();
    let after = |row: usize| (row, column + 2);
    let before = |row: usize| (row, column.wrapping_sub(width + 1));
    let places = [
        after(row),
        before(row),
        after(row.wrapping_sub(1)),
        after(row + 1),
        before(row + 1),
    ];
    let is_free = |&(row, start): &(usize, usize)| {
        start > 0 && start < 400 && field.is_free(row, start - 1, width + 2)
    };
    match places.into_iter().find(is_free).filter(|_| is_simple) {
        Some((row, start)) => {
            for (offset, character) in name.chars().enumerate() {
                field.put(start + offset, row, character);
            }
            None
        }
        None => Some(format!("{sign} {name}")).filter(|_| width > 0),
    }
}

/// The row nearest to `row` whose name is still empty.
fn nearest_free(names: &[String], row: usize) -> Option<usize> {
    let is_free = |&index: &usize| names[index].is_empty();
    (0..names.len())
        .filter(is_free)
        .min_by_key(|index| index.abs_diff(row))
}

/// The horizontal axis: a line with marks, their values, the title.
fn x_axis(field: &Dots, x: Scale, width: usize, y_room: usize, data: &TextPlot) -> Vec<String> {
    let ticks = Ticks::within(x.span(), (width / 9).clamp(2, 10));
    let (line, corner, cross) = if data.glyphs == Glyphs::Unicode {
        ('─', '└', '┬')
    } else {
        ('-', '+', '+')
    };
    let mut axis = vec![line; width];
    let mut labels = String::new();
    for (value, label) in ticks.values.iter().zip(ticks.labels()) {
        let column = field.cell_at((x.at(*value), 1.0)).0;
        axis[column] = cross;
        let start = (y_room + 2 + column).saturating_sub(cells(&label) / 2);
        let end = start + cells(&label);
        if (labels.is_empty() || start > cells(&labels)) && end <= y_room + 2 + width {
            labels += &" ".repeat(start - cells(&labels));
            labels += &label;
        }
    }
    let axis: String = axis.into_iter().collect();
    let title = fitted(&data.x_title, width);
    let indent = y_room + 2 + (width - cells(&title)) / 2;
    let mut lines = vec![format!("{} {corner}{axis}", " ".repeat(y_room)), labels];
    if !title.is_empty() {
        lines.push(" ".repeat(indent) + &title);
    }
    lines
}

#[cfg(test)]
mod tests {
    use super::*;

    fn series(name: &str, points: &[(f64, f64)]) -> TextSeries {
        TextSeries {
            name: name.into(),
            points: points.to_vec(),
        }
    }

    fn plot(glyphs: Glyphs) -> TextPlot {
        TextPlot {
            title: "Load and capacity".into(),
            x_title: "outdoor temperature, °C".into(),
            y_title: "heat, kW".into(),
            series: vec![
                series("load", &[(-20.0, 10.0), (15.0, 0.0)]),
                series("maximum", &[(-20.0, f64::NAN), (-15.0, 7.0), (15.0, 10.0)]),
            ],
            mark: Some(TextMark {
                name: "balance point −12.2 °C".into(),
                x: -12.25,
                y: 7.3,
            }),
            columns: 60,
            rows: 10,
            glyphs,
        }
    }

    #[test]
    fn lines_are_named_at_their_ends_and_the_point_is_marked() {
        insta::assert_snapshot!(plot_text(&plot(Glyphs::Ascii)), @r"
        Load and capacity
        heat, kW
        10 +***                                     oooooooo maximum
           |   *****                 ooooooooooooooo
           |        **@***ooooooooooo
           |       oooo   *****
           |                   *****
         5 +                        *****
           |                             *****
           |                                  ******
           |                                        *****
         0 +                                             *** load
           ++------------+-------------+-------------+------
           -20          -10            0            10
                        outdoor temperature, °C
        @ balance point -12.2 °C
        ");
        insta::assert_snapshot!(plot_text(&plot(Glyphs::Unicode)), @r"
        Load and capacity
        heat, kW
        10 ┤⠉⠒⠤⢄⡀                              ⢀⣀ ⢀⠤⠄ ⠔⠒ ⠐⠉⠁ maximum
           │    ⠈⠑⠒⠤⣀⡀           ⢀⣀ ⢀⠤⠄ ⠔⠒ ⠐⠉⠁ ⠁
           │        ⣀⠈●⡲⠤⣀⡔⠒ ⠐⠉⠁ ⠁
           │       ⠉      ⠈⠑⠢⠤⣀
           │                   ⠉⠑⠢⠤⣀
         5 ┤                        ⠉⠒⠢⢄⣀
           │                             ⠉⠒⠢⢄⡀
           │                                 ⠈⠉⠒⠤⢄⡀
           │                                      ⠈⠉⠒⠤⢄⡀
         0 ┤                                           ⠈⠑⠒⠤⣀ load
           └┬────────────┬─────────────┬─────────────┬──────
           −20          −10            0            10
                        outdoor temperature, °C
        ● balance point −12.2 °C
        ");
    }

    #[test]
    fn a_gap_in_the_values_is_a_gap_in_the_line() {
        let points: Vec<(f64, f64)> = (0..=40)
            .map(|x| {
                (
                    f64::from(x),
                    if (15..=25).contains(&x) {
                        f64::NAN
                    } else {
                        5.0
                    },
                )
            })
            .collect();
        let mut data = plot(Glyphs::Ascii);
        (data.mark, data.series) = (None, vec![series("cop", &points)]);
        let text = plot_text(&data);
        let line = text.lines().find(|line| line.contains("***")).unwrap();
        let inner = line
            .trim_start_matches(|c| c != '*')
            .trim_end_matches(|c| c != '*');
        assert!(inner.matches("  ").count() >= 4, "{text}");
        assert_eq!(inner.split_whitespace().count(), 2, "{text}");
    }

    #[test]
    fn a_free_place_beside_the_mark_takes_its_name() {
        let mut data = plot(Glyphs::Unicode);
        data.series.truncate(1);
        data.mark = Some(TextMark {
            name: "here".into(),
            x: 0.0,
            y: 9.0,
        });
        assert!(plot_text(&data).contains("● here"));
    }

    #[test]
    fn nothing_one_point_and_unreal_values_are_drawn_without_a_crash() {
        let unreal = [
            (f64::NAN, 1.0),
            (f64::INFINITY, 2.0),
            (1.0, f64::NEG_INFINITY),
        ];
        let mark = Some(TextMark {
            name: "m".into(),
            x: f64::NAN,
            y: 0.0,
        });
        for points in [
            &[][..],
            &[(3.0, 3.0)],
            &[(0.0, 0.0)],
            &[(1e300, -1e300), (-1e300, 1e300)],
            &unreal,
        ] {
            for glyphs in [Glyphs::Unicode, Glyphs::Ascii] {
                let series = vec![series("s", points)];
                let text = plot_text(&TextPlot {
                    series,
                    mark: mark.clone(),
                    glyphs,
                    ..TextPlot::default()
                });
                assert!(
                    text.lines().count() >= 6 && !text.contains("NaN") && !text.contains("inf"),
                    "{text}"
                );
            }
        }
    }

    #[test]
    fn no_line_is_wider_than_the_room_whatever_the_names() {
        let hostile = "\u{202e}<b>\u{1b}[31m暖".repeat(2_000);
        for columns in [0, 40, 80] {
            let mut data = TextPlot {
                columns,
                title: hostile.clone(),
                ..plot(Glyphs::Unicode)
            };
            (data.x_title, data.y_title) = (hostile.clone(), hostile.clone());
            data.series
                .iter_mut()
                .for_each(|series| series.name = hostile.clone());
            data.mark.as_mut().unwrap().name = hostile.clone();
            let text = plot_text(&data);
            assert!(
                text.lines().all(|line| cells(line) <= columns.max(42)),
                "{text}"
            );
            assert!(!text.chars().any(|c| c == '\u{1b}' || c == '\u{202e}'));
        }
    }
}
