//! Horizontal bars in a terminal, with eighths of a cell where the terminal has them.

use super::Glyphs;
use super::cells::{cells, fitted, left_aligned, right_aligned};

/// One bar.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TextBar {
    /// What stands before it.
    pub label: String,
    /// Its length; `None` where it is not known. Below zero counts as zero.
    pub value: Option<f64>,
    /// The part of the value that is drawn shaded, at the root of the bar.
    pub shaded: f64,
    /// What stands after it, such as the value with its unit.
    pub text: String,
}

/// A picture of bars.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct TextBars {
    /// The line above; none where empty.
    pub title: String,
    /// The bars, top to bottom.
    pub bars: Vec<TextBar>,
    /// How wide the whole may be, in cells.
    pub columns: usize,
    /// What the terminal can show.
    pub glyphs: Glyphs,
}

const EIGHTHS: [&str; 8] = ["", "▏", "▎", "▍", "▌", "▋", "▊", "▉"];

/// Draws the bars, one line each, every line ended by a line feed. The longest bar takes all the room there is.
#[must_use]
pub fn bars_text(data: &TextBars) -> String {
    let columns = data.columns.clamp(20, 400);
    let widest = |text: fn(&TextBar) -> &str, most: usize| {
        data.bars
            .iter()
            .map(|bar| cells(&fitted(text(bar), most)))
            .max()
            .unwrap_or(0)
    };
    let label_room = widest(|bar| &bar.label, columns * 2 / 5);
    let text_room = widest(|bar| &bar.text, columns / 4);
    let room = columns.saturating_sub(label_room + text_room + 3).max(1);
    let length = |value: f64| {
        if value.is_finite() {
            value.max(0.0)
        } else {
            0.0
        }
    };
    let longest = data
        .bars
        .iter()
        .filter_map(|bar| bar.value)
        .map(length)
        .fold(0.0, f64::max);
    let mut out = String::new();
    if !data.title.is_empty() {
        out += &fitted(&data.title, columns);
        out.push('\n');
    }
    let stem = if data.glyphs == Glyphs::Unicode {
        "▕"
    } else {
        "|"
    };
    for bar in &data.bars {
        let share = |value: f64| {
            if longest > 0.0 {
                length(value) / longest
            } else {
                0.0
            }
        };
        let drawn = bar.value.map_or(String::new(), |value| {
            drawn(
                share(value),
                share(bar.shaded.min(value)),
                room,
                data.glyphs,
            )
        });
        let line = format!(
            "{} {stem}{drawn} {}",
            right_aligned(&bar.label, label_room),
            left_aligned(&bar.text, text_room)
        );
        out += line.trim_end();
        out.push('\n');
    }
    data.glyphs.written(&out)
}

/// A bar of `share` of the room, its first `shaded` share in a lighter shade.
fn drawn(share: f64, shaded: f64, room: usize, glyphs: Glyphs) -> String {
    let eighths = (share * room as f64 * 8.0).round() as usize;
    let shaded_cells = (shaded * room as f64).round() as usize;
    match glyphs {
        Glyphs::Unicode => {
            // A little is not nothing.
            let eighths = if share > 0.0 { eighths.max(1) } else { eighths };
            let whole = eighths / 8;
            let shaded_cells = shaded_cells.min(whole);
            let rest = if shaded >= share && shaded_cells > 0 {
                ""
            } else {
                EIGHTHS[eighths % 8]
            };
            format!(
                "{}{}{rest}",
                "░".repeat(shaded_cells),
                "█".repeat(whole - shaded_cells)
            )
        }
        Glyphs::Ascii => {
            let whole = ((eighths + 4) / 8).max(usize::from(share > 0.0));
            let shaded_cells = shaded_cells.min(whole);
            format!(
                "{}{}",
                ":".repeat(shaded_cells),
                "#".repeat(whole - shaded_cells)
            )
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn bar(label: &str, value: Option<f64>, shaded: f64, text: &str) -> TextBar {
        TextBar {
            label: label.into(),
            value,
            shaded,
            text: text.into(),
        }
    }

    fn picture(glyphs: Glyphs) -> String {
        let bars = vec![
            bar("−5 °C", Some(100.0), 0.0, "100 h"),
            bar("0 °C", Some(55.0), 20.0, "55 h"),
            bar("5 °C", Some(0.5), 0.0, "1 h"),
            bar("10 °C", None, 0.0, "not known"),
        ];
        bars_text(&TextBars {
            title: "Hours".into(),
            bars,
            columns: 40,
            glyphs,
        })
    }

    #[test]
    fn bars_are_as_long_as_their_values_and_share_one_root() {
        insta::assert_snapshot!(picture(Glyphs::Unicode), @r"
        Hours
        −5 °C ▕███████████████████████ 100 h
         0 °C ▕░░░░░███████▋ 55 h
         5 °C ▕▏ 1 h
        10 °C ▕ not known
        ");
    }

    #[test]
    fn without_unicode_the_picture_is_drawn_in_ascii() {
        insta::assert_snapshot!(picture(Glyphs::Ascii), @r"
        Hours
        -5 °C |####################### 100 h
         0 °C |:::::######## 55 h
         5 °C |# 1 h
        10 °C | not known
        ");
    }

    #[test]
    fn no_line_is_wider_than_the_room_whatever_the_names() {
        let hostile = "\u{202e}<b>\u{1b}[31m暖".repeat(2_000);
        let bars = vec![
            bar(&hostile, Some(f64::INFINITY), 1.0, &hostile),
            bar("", Some(-3.0), f64::NAN, ""),
        ];
        for columns in [0, 20, 80] {
            let text = bars_text(&TextBars {
                title: hostile.clone(),
                bars: bars.clone(),
                columns,
                ..TextBars::default()
            });
            assert!(
                text.lines().all(|line| cells(line) <= columns.max(20)),
                "{text}"
            );
            assert!(!text.chars().any(|c| c == '\u{1b}' || c == '\u{202e}'));
        }
        assert_eq!(bars_text(&TextBars::default()), "");
    }
}
