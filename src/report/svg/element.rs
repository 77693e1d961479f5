//! An SVG document as a small tree that can only be written out escaped.

use std::fmt::{self, Write};

/// One element with its attributes, in the order they were given, and its children.
#[derive(Clone, Debug, PartialEq)]
pub struct Element {
    name: &'static str,
    attributes: Vec<(&'static str, String)>,
    children: Vec<Child>,
}

#[derive(Clone, Debug, PartialEq)]
enum Child {
    Element(Element),
    Text(String),
}

impl Element {
    /// An element without attributes or children. Names come from this program, never from data.
    #[must_use]
    pub fn new(name: &'static str) -> Self {
        Self {
            name,
            attributes: Vec::new(),
            children: Vec::new(),
        }
    }

    /// The element with an attribute more; the value may hold anything.
    #[must_use]
    pub fn with(mut self, name: &'static str, value: impl Into<String>) -> Self {
        self.attributes.push((name, value.into()));
        self
    }

    /// The element with a number as an attribute, in user units, written compactly.
    #[must_use]
    pub fn number(self, name: &'static str, value: f64) -> Self {
        self.with(name, compact(value))
    }

    /// The element with several numbers as attributes.
    #[must_use]
    pub fn numbers<const N: usize>(self, pairs: [(&'static str, f64); N]) -> Self {
        pairs
            .into_iter()
            .fold(self, |element, (name, value)| element.number(name, value))
    }

    /// The element with a child more.
    #[must_use]
    pub fn child(mut self, child: Self) -> Self {
        self.push(child);
        self
    }

    /// The element with text in it; the text may hold anything.
    #[must_use]
    pub fn text(mut self, text: impl Into<String>) -> Self {
        self.children.push(Child::Text(text.into()));
        self
    }

    /// Adds a child.
    pub fn push(&mut self, child: Self) {
        self.children.push(Child::Element(child));
    }

    /// Whether nothing has been put into the element.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.children.is_empty()
    }
}

impl fmt::Display for Element {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "<{}", self.name)?;
        for (name, value) in &self.attributes {
            write!(f, " {name}=\"")?;
            escape(f, value)?;
            f.write_char('"')?;
        }
        if self.children.is_empty() {
            return f.write_str("/>");
        }
        f.write_char('>')?;
        for child in &self.children {
            match child {
                Child::Element(element) => element.fmt(f)?,
                Child::Text(text) => escape(f, text)?,
            }
        }
        write!(f, "</{}>", self.name)
    }
}

/// Writes text so that it means itself in element content and in attributes alike, in SVG files and inside HTML.
/// Characters that XML 1.0 does not allow at all (section 2.2) are left out.
fn escape(out: &mut impl Write, text: &str) -> fmt::Result {
    for character in text.chars() {
        match character {
            '&' => out.write_str("&amp;")?,
            '<' => out.write_str("&lt;")?,
            '>' => out.write_str("&gt;")?,
            '"' => out.write_str("&quot;")?,
            '\'' => out.write_str("&#39;")?,
            '\t' | '\n' => out.write_char(character)?,
            '\u{0}'..='\u{1f}' | '\u{7f}'..='\u{9f}' | '\u{fffe}' | '\u{ffff}' => {}
            _ => out.write_char(character)?,
        }
    }
    Ok(())
}

/// A number for a drawing: at most one decimal, no `-0`, and zero for what is not a number.
#[must_use]
pub fn compact(value: f64) -> String {
    if !value.is_finite() {
        return "0".to_owned();
    }
    let tenths = (value.clamp(-1e6, 1e6) * 10.0).round();
    let rounded = if tenths == 0.0 { 0.0 } else { tenths / 10.0 };
    format!("{rounded}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn markup_in_text_and_attributes_stays_text() {
        let element = Element::new("text")
            .with("aria-label", "\"><script>")
            .text("</text><b>&'");
        assert_eq!(
            element.to_string(),
            "<text aria-label=\"&quot;&gt;&lt;script&gt;\">&lt;/text&gt;&lt;b&gt;&amp;&#39;</text>"
        );
    }

    #[test]
    fn characters_that_xml_forbids_are_left_out() {
        assert_eq!(
            Element::new("t")
                .text("a\u{0}\u{b}\u{fffe}\u{9b}b")
                .to_string(),
            "<t>ab</t>"
        );
    }

    #[test]
    fn an_element_without_children_closes_itself() {
        assert_eq!(
            Element::new("g")
                .numbers([("x", 1.0), ("y", -2.25)])
                .to_string(),
            "<g x=\"1\" y=\"-2.3\"/>"
        );
    }

    #[test]
    fn numbers_are_written_as_short_as_they_can_be() {
        let written: Vec<String> = [
            0.0,
            -0.01,
            12.0,
            2.345,
            -7.05,
            f64::NAN,
            f64::INFINITY,
            1e300,
        ]
        .map(compact)
        .into();
        assert_eq!(
            written,
            ["0", "0", "12", "2.3", "-7.1", "0", "0", "1000000"]
        );
    }
}
