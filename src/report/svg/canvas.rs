//! The sheet a chart is drawn on: size and identity, caption, legend, text alternatives.

use super::element::{Element, compact};
use super::labels::{Obstacles, Rect};
use super::measure::{fitted, text_width, wrapped};
use super::path::{Point, closed_path, open_path, rectangle_path};
use super::theme::{Hatch, INK, MUTED, PAPER, style_sheet};
use crate::report::clean_text;

/// Font size of labels \[px\].
pub(super) const LABEL: f64 = 12.5;
/// Font size of ticks, notes and legends \[px\].
pub(super) const SMALL: f64 = 12.0;
const TITLE: f64 = 16.0;

/// Which drawing of a chart is wanted, and what its ids begin with.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Frame {
    id: String,
    is_narrow: bool,
    is_standalone: bool,
}

impl Frame {
    /// A drawing 720 px wide for a desk or paper. `id` must be unique on the page; all ids in the drawing begin with it.
    #[must_use]
    pub fn wide(id: &str) -> Self {
        let safe = id.chars().take(80).map(|c| {
            if c.is_ascii_alphanumeric() || c == '_' {
                c
            } else {
                '-'
            }
        });
        Self {
            id: format!("chart-{}", safe.collect::<String>()),
            is_narrow: false,
            is_standalone: false,
        }
    }

    /// A drawing 360 px wide for a phone, laid out anew with letters of the same size.
    #[must_use]
    pub fn narrow(id: &str) -> Self {
        Self {
            is_narrow: true,
            ..Self::wide(id)
        }
    }

    /// The same drawing as a file of its own, with the style sheet inside.
    #[must_use]
    pub fn standalone(self) -> Self {
        Self {
            is_standalone: true,
            ..self
        }
    }

    /// Whether it is the drawing for a phone.
    #[must_use]
    pub fn is_narrow(&self) -> bool {
        self.is_narrow
    }

    pub(super) fn width(&self) -> f64 {
        if self.is_narrow { 360.0 } else { 720.0 }
    }

    /// The wide and the narrow drawing of one chart in one `div`; the style sheet shows whichever fits the screen.
    #[must_use]
    pub fn pair(id: &str, draw: impl Fn(&Self) -> String) -> String {
        let narrow = draw(&Self::narrow(&format!("{id}-narrow")));
        format!(
            "<div class=\"chart-pair\">{}{narrow}</div>",
            draw(&Self::wide(id))
        )
    }
}

/// What stands over a chart. Either may be empty; both may hold any text.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct Caption {
    /// What the chart shows, in a few words.
    pub title: String,
    /// Whom or what it is about: the unit, the house, the climate.
    pub subtitle: String,
}

/// How a legend entry looks.
pub(super) enum Swatch {
    Fill(&'static str),
    Hatch(Hatch),
    Circle(&'static str),
}

/// How a line looks: colour, width and dashes.
#[derive(Clone, Copy)]
pub(super) struct LineStyle {
    pub colour: &'static str,
    pub width: f64,
    pub dashes: &'static str,
}

/// A drawing in the making.
pub(super) struct Canvas<'a> {
    pub frame: &'a Frame,
    /// How far down the drawing has come.
    pub y: f64,
    pub obstacles: Obstacles,
    caption: Caption,
    body: Element,
}

impl<'a> Canvas<'a> {
    pub fn begin(frame: &'a Frame, caption: &Caption) -> Self {
        let caption = Caption {
            title: clean_text(&caption.title, 200),
            subtitle: clean_text(&caption.subtitle, 200),
        };
        let mut canvas = Self {
            frame,
            y: 6.0,
            obstacles: Obstacles::default(),
            caption,
            body: Element::new("g"),
        };
        let width = frame.width() - 8.0;
        for line in wrapped(&canvas.caption.title, TITLE * 1.1, width, 2) {
            canvas.y += TITLE * 1.3;
            let text = label_at((4.0, canvas.y - 5.0), &line)
                .number("font-size", TITLE)
                .with("font-weight", "650")
                .with("fill", INK);
            canvas.put(text);
        }
        for line in wrapped(&canvas.caption.subtitle, LABEL, width, 2) {
            canvas.y += LABEL * 1.4;
            canvas.put(label_at((4.0, canvas.y - 3.0), &line).number("font-size", LABEL));
        }
        canvas.y += 8.0;
        canvas
    }

    pub fn put(&mut self, element: Element) {
        self.body.push(element);
    }

    /// Text beginning at a point on its baseline.
    pub fn text(&mut self, at: Point, text: &str, colour: &'static str) {
        let text = label_at(at, text);
        // The drawing as a whole is filled in the quiet colour.
        self.put(if colour == MUTED {
            text
        } else {
            text.with("fill", colour)
        });
    }

    /// Text in the middle of a box, edged with paper so that it can be read across lines.
    pub fn label(&mut self, place: Rect, text: &str, colour: &'static str) {
        let (x, y) = place.middle();
        let text = label_at((x, y + LABEL * 0.36), text)
            .with("text-anchor", "middle")
            .with("fill", colour);
        let edged = text
            .number("font-size", LABEL)
            .with("font-weight", "550")
            .with("stroke", PAPER);
        self.put(
            edged
                .number("stroke-width", 3.5)
                .with("paint-order", "stroke")
                .with("stroke-linejoin", "round"),
        );
    }

    /// A label beside the longest of the pieces of a line.
    pub fn name_line(
        &mut self,
        pieces: &[Vec<Point>],
        name: &str,
        colour: &'static str,
        preferred: f64,
        within: Rect,
    ) {
        let name = fitted(name, LABEL, (within.right - within.left) * 0.6);
        if let Some(piece) = pieces
            .iter()
            .max_by_key(|piece| piece.len())
            .filter(|_| !name.is_empty())
            && let Some(place) =
                self.obstacles
                    .beside_line(piece, label_size(&name), preferred, within)
        {
            self.label(place, &name, colour);
        }
    }

    /// A round mark with a label beside it.
    pub fn mark(&mut self, at: Point, name: &str, within: Rect) {
        let circle = Element::new("circle").numbers([("cx", at.0), ("cy", at.1), ("r", 5.0)]);
        self.put(
            circle
                .with("fill", PAPER)
                .with("stroke", INK)
                .number("stroke-width", 2.5),
        );
        self.obstacles.add_box(Rect::around(at, (16.0, 16.0)));
        let name = fitted(name, LABEL, (within.right - within.left) * 0.7);
        if let Some(place) = self
            .obstacles
            .beside_point(at, label_size(&name), within)
            .filter(|_| !name.is_empty())
        {
            self.leader(at, place);
            self.label(place, &name, INK);
        }
    }

    /// A fine line from a mark to its label, where they stand so far apart that one could miss the other.
    fn leader(&mut self, (x, y): Point, label: Rect) {
        let near = (
            x.clamp(label.left, label.right),
            y.clamp(label.top, label.bottom),
        );
        let (dx, dy) = (near.0 - x, near.1 - y);
        let distance = dx.hypot(dy);
        if distance > 18.0 {
            let from = (x + dx * 6.5 / distance, y + dy * 6.5 / distance);
            self.put(stroked(
                &open_path(&[from, near]),
                LineStyle {
                    colour: INK,
                    width: 1.0,
                    dashes: "",
                },
            ));
        }
    }

    /// The pieces of a line, drawn; a piece of a single point becomes a dot.
    pub fn lines(&mut self, pieces: &[Vec<Point>], style: LineStyle) {
        for piece in pieces {
            self.obstacles.add_line(piece);
            if let [(x, y)] = piece[..] {
                let dot = Element::new("circle").numbers([
                    ("cx", x),
                    ("cy", y),
                    ("r", style.width + 0.5),
                ]);
                self.put(dot.with("fill", style.colour));
            } else {
                self.put(stroked(&open_path(piece), style));
            }
        }
    }

    /// A filled area.
    pub fn area(&mut self, outline: &[Point], fill: &str, opacity: f64) {
        let path = closed_path(outline);
        if !path.is_empty() {
            let area = Element::new("path").with("d", path).with("fill", fill);
            self.put(if opacity < 1.0 {
                area.with("fill-opacity", format!("{opacity}"))
            } else {
                area
            });
        }
    }

    /// A filled rectangle; nothing where it has no size.
    pub fn rect(&mut self, area: Rect, fill: &str) {
        self.rects(&[area], fill);
    }

    /// Rectangles of one fill in one path; those without size are left out.
    pub fn rects(&mut self, areas: &[Rect], fill: &str) {
        let d: String = areas.iter().map(|&area| rectangle_path(area)).collect();
        if !d.is_empty() {
            self.put(Element::new("path").with("d", d).with("fill", fill));
        }
    }

    pub fn hatch(&self, hatch: Hatch) -> String {
        hatch.fill(&self.frame.id)
    }

    pub fn id(&self, part: &str) -> String {
        format!("{}-{part}", self.frame.id)
    }

    /// A row of swatches and names, wrapped where it is too long.
    pub fn legend(&mut self, entries: &[(Swatch, &str)]) {
        if entries.is_empty() {
            return;
        }
        let (mut x, right) = (4.0, self.frame.width() - 4.0);
        self.y += 14.0;
        for (swatch, name) in entries {
            let name = fitted(name, SMALL, right - 34.0);
            let width = 26.0 + text_width(&name, SMALL);
            if x > 4.0 && x + width > right {
                x = 4.0;
                self.y += 19.0;
            }
            self.swatch(
                swatch,
                Rect {
                    left: x,
                    top: self.y - 10.0,
                    right: x + 20.0,
                    bottom: self.y,
                },
            );
            self.text((x + 26.0, self.y - 1.0), &name, MUTED);
            x += width + 18.0;
        }
        self.y += 12.0;
    }

    fn swatch(&mut self, swatch: &Swatch, place: Rect) {
        let (x, y) = place.middle();
        match swatch {
            Swatch::Fill(colour) => self.rect(place, colour),
            Swatch::Hatch(hatch) => {
                let fill = self.hatch(*hatch);
                self.rect(place, &fill);
            }
            Swatch::Circle(colour) => {
                let circle = Element::new("circle").numbers([("cx", x), ("cy", y), ("r", 5.0)]);
                self.put(
                    circle
                        .with("fill", *colour)
                        .with("fill-opacity", "0.35")
                        .with("stroke", *colour),
                );
            }
        }
    }

    /// The finished drawing. `description` is read out in its place.
    pub fn finish(self, description: &str) -> String {
        let (width, height, id) = (self.frame.width(), self.y.ceil(), &self.frame.id);
        let title = [self.caption.title.as_str(), self.caption.subtitle.as_str()];
        let title = title
            .into_iter()
            .filter(|part| !part.is_empty())
            .collect::<Vec<_>>()
            .join(": ");
        let (title_id, description_id) = (self.id("title"), self.id("desc"));
        let mut svg = Element::new("svg")
            .with("xmlns", "http://www.w3.org/2000/svg")
            .with(
                "class",
                if self.frame.is_narrow {
                    "chart chart-narrow"
                } else {
                    "chart chart-wide"
                },
            )
            .with(
                "viewBox",
                format!("0 0 {} {}", compact(width), compact(height)),
            )
            .numbers([("width", width), ("height", height)])
            .with("role", "img")
            .with("aria-labelledby", format!("{title_id} {description_id}"))
            .with("font-family", "system-ui,sans-serif")
            .number("font-size", SMALL)
            .with("direction", "ltr")
            .with("fill", MUTED)
            .child(
                Element::new("title")
                    .with("id", title_id)
                    .text(if title.is_empty() { "Chart" } else { &title }),
            )
            .child(
                Element::new("desc")
                    .with("id", description_id)
                    .text(clean_text(description, 2_000)),
            );
        if self.frame.is_standalone {
            svg.push(Element::new("style").text(style_sheet()));
        }
        let body = self.body.to_string();
        let mut definitions = Element::new("defs");
        for hatch in Hatch::ALL {
            if body.contains(&hatch.fill(id)) {
                definitions.push(hatch.pattern(id));
            }
        }
        if !definitions.is_empty() {
            svg.push(definitions);
        }
        svg.push(self.body);
        svg.to_string()
    }
}

fn label_at((x, y): Point, text: &str) -> Element {
    Element::new("text")
        .numbers([("x", x), ("y", y)])
        .text(text)
}

fn stroked(d: &str, style: LineStyle) -> Element {
    let path = Element::new("path")
        .with("d", d)
        .with("fill", "none")
        .with("stroke", style.colour);
    let path = path
        .number("stroke-width", style.width)
        .with("stroke-linejoin", "round");
    if style.dashes.is_empty() {
        path.with("stroke-linecap", "round")
    } else {
        path.with("stroke-dasharray", style.dashes)
    }
}

pub(super) fn label_size(text: &str) -> (f64, f64) {
    (text_width(text, LABEL) * 1.06, LABEL * 1.3)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn ids_hold_only_harmless_characters() {
        assert_eq!(Frame::wide("a b\"<é>1").id, "chart-a-b----1");
    }

    #[test]
    fn a_drawing_names_and_describes_itself() {
        let frame = Frame::wide("x");
        let caption = Caption {
            title: "Load".into(),
            subtitle: "<b>".into(),
        };
        let svg = Canvas::begin(&frame, &caption).finish("A \"line\".");
        assert!(svg.contains("role=\"img\" aria-labelledby=\"chart-x-title chart-x-desc\""));
        assert!(svg.contains("<title id=\"chart-x-title\">Load: &lt;b&gt;</title>"));
        assert!(svg.contains("<desc id=\"chart-x-desc\">A &quot;line&quot;.</desc>"));
    }

    #[test]
    fn a_pair_holds_both_drawings_under_different_ids() {
        let html = Frame::pair("x", |frame| {
            Canvas::begin(frame, &Caption::default()).finish("")
        });
        assert!(
            html.contains("id=\"chart-x-title\"") && html.contains("id=\"chart-x-narrow-title\"")
        );
    }

    #[test]
    fn only_a_standalone_drawing_carries_the_style_sheet() {
        let draw = |frame: Frame| Canvas::begin(&frame, &Caption::default()).finish("");
        assert!(!draw(Frame::wide("x")).contains("<style>"));
        assert!(draw(Frame::wide("x").standalone()).contains("<style>.chart{"));
    }
}
