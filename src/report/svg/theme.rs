//! Colours, dash patterns and hatching: told apart by a colour-blind reader, in grey and on paper.
//!
//! Every colour is a custom property with `currentColor` behind it, so a drawing without the style sheet is still
//! readable. Meaning never hangs on hue alone: the colours that meet differ in lightness, and areas and lines carry a
//! hatch or a dash besides. The palette is ours.

use super::element::Element;

/// Text, and the line of what the house needs.
pub const INK: &str = "var(--chart-ink,currentColor)";
/// Quieter text: units, notes, tick labels.
pub const MUTED: &str = "var(--chart-muted,currentColor)";
/// Grid lines.
pub const GRID: &str = "var(--chart-grid,currentColor)";
/// What lies behind the drawing; text is edged with it where it crosses lines.
pub const PAPER: &str = "var(--chart-paper,transparent)";
/// The heat pump at work.
pub const PUMP: &str = "var(--chart-pump,currentColor)";
/// Text about the heat pump.
pub const PUMP_TEXT: &str = "var(--chart-pump-text,currentColor)";
/// The ground under a hatch of cycling.
pub const CYCLING: &str = "var(--chart-cycling,currentColor)";
/// Backup heat, and anything that a limit forbids.
pub const BACKUP: &str = "var(--chart-backup,currentColor)";
/// A second fuel or system.
pub const OTHER: &str = "var(--chart-other,currentColor)";
/// Hours of the year, far back.
pub const HOURS: &str = "var(--chart-hours,currentColor)";

const LIGHT: &str = "--chart-ink:#17202b;--chart-muted:#566270;--chart-grid:#e3e7eb;--chart-paper:#fff;\
--chart-pump:#2583a8;--chart-pump-text:#17627f;--chart-cycling:#cfe6ef;--chart-backup:#98300f;\
--chart-other:#7d6a1c;--chart-hours:#d5dbe1";
const DARK: &str = "--chart-ink:#eef2f6;--chart-muted:#a7b2be;--chart-grid:#2b343e;--chart-paper:#12171d;\
--chart-pump:#4aa5cb;--chart-pump-text:#7cc4e2;--chart-cycling:#1d4254;--chart-backup:#ffb494;\
--chart-other:#d9c36a;--chart-hours:#3a4550";

/// The style sheet that the drawings need, once per page: light, dark by the reader's setting or by `data-theme` on the
/// root element, light again in print, and the switch between the wide and the narrow drawing of one chart.
#[must_use]
pub fn style_sheet() -> String {
    format!(
        ".chart{{{LIGHT};background:var(--chart-paper);color:var(--chart-ink);display:block;width:100%;height:auto;\
print-color-adjust:exact;-webkit-print-color-adjust:exact}}\
.chart-wide{{max-width:45rem}}.chart-narrow{{max-width:24rem}}\
@media screen and (prefers-color-scheme:dark){{:root:not([data-theme=light]) .chart,.chart:root{{{DARK}}}}}\
@media screen{{:root[data-theme=dark] .chart{{{DARK}}}}}\
.chart-pair>.chart-narrow{{display:none}}\
@media screen and (max-width:40rem){{.chart-pair>.chart-narrow{{display:block}}.chart-pair>.chart-wide{{display:none}}}}\
@media print{{.chart{{break-inside:avoid}}}}"
    )
}

/// What fills a hatched area.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Hatch {
    /// Rising strokes in the heat pump's colour: it works, but on and off.
    Cycling,
    /// Wide falling strokes in grey: nothing is known here.
    Unproven,
    /// Dense falling strokes in the backup's colour: not covered by the heat pump.
    Short,
}

impl Hatch {
    /// All of them.
    pub const ALL: [Self; 3] = [Self::Cycling, Self::Unproven, Self::Short];

    fn key(self) -> &'static str {
        match self {
            Self::Cycling => "cycling",
            Self::Unproven => "unproven",
            Self::Short => "short",
        }
    }

    /// The `fill` attribute that refers to the pattern in the drawing called `id`.
    #[must_use]
    pub fn fill(self, id: &str) -> String {
        format!("url(#{id}-{})", self.key())
    }

    /// The pattern itself, for the drawing's definitions.
    #[must_use]
    pub fn pattern(self, id: &str) -> Element {
        let (size, ground, stroke, width, turn) = match self {
            Self::Cycling => (6.0, Some(CYCLING), PUMP, 1.2, "rotate(45)"),
            Self::Unproven => (9.0, None, MUTED, 0.7, "rotate(-45)"),
            Self::Short => (5.0, None, BACKUP, 1.3, "rotate(-45)"),
        };
        let mut pattern = Element::new("pattern")
            .with("id", format!("{id}-{}", self.key()))
            .with("patternUnits", "userSpaceOnUse")
            .numbers([("width", size), ("height", size)])
            .with("patternTransform", turn);
        if let Some(ground) = ground {
            let square = Element::new("rect").numbers([("width", size), ("height", size)]);
            pattern.push(square.with("fill", ground));
        }
        // Half of the stroke at the tile's edge is cut off.
        let line = Element::new("path")
            .with("d", format!("M0 0V{size}"))
            .with("stroke", stroke);
        pattern.child(line.number("stroke-width", width * 2.0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Relative luminance of `#rrggbb` or `#rgb` (WCAG 2.2, definition of relative luminance).
    fn luminance(colour: &str) -> f64 {
        let digits = colour.trim_start_matches('#');
        let wide = if digits.len() == 3 {
            digits.chars().flat_map(|c| [c, c]).collect()
        } else {
            digits.to_owned()
        };
        let channel = |at: usize| {
            let value = f64::from(u8::from_str_radix(&wide[at..at + 2], 16).unwrap()) / 255.0;
            if value <= 0.040_45 {
                value / 12.92
            } else {
                ((value + 0.055) / 1.055).powf(2.4)
            }
        };
        0.2126 * channel(0) + 0.7152 * channel(2) + 0.0722 * channel(4)
    }

    fn contrast(theme: &str, one: &str, other: &str) -> f64 {
        let colour = |name: &str| {
            let start = theme.find(&format!("--chart-{name}:")).unwrap() + name.len() + 9;
            luminance(theme[start..].split(';').next().unwrap())
        };
        let (one, other) = (colour(one), colour(other));
        (one.max(other) + 0.05) / (one.min(other) + 0.05)
    }

    // WCAG 2.2, success criteria 1.4.3 (text 4.5 : 1) and 1.4.11 (graphics 3 : 1).
    #[test]
    fn text_and_lines_stand_out_from_the_paper_in_light_and_dark() {
        for theme in [LIGHT, DARK] {
            for text in ["ink", "muted", "pump-text", "backup", "other"] {
                assert!(
                    contrast(theme, text, "paper") >= 4.5,
                    "{text} {}",
                    contrast(theme, text, "paper")
                );
            }
            assert!(contrast(theme, "pump", "paper") >= 3.0);
        }
    }

    #[test]
    fn the_three_kinds_of_heat_differ_in_lightness() {
        for theme in [LIGHT, DARK] {
            for (one, other) in [
                ("pump", "cycling"),
                ("pump", "backup"),
                ("cycling", "backup"),
            ] {
                assert!(
                    contrast(theme, one, other) >= 1.6,
                    "{one} {other} {}",
                    contrast(theme, one, other)
                );
            }
        }
    }
}
