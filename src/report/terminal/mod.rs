//! Charts for a terminal, as lines of plain text without colour or control sequences.

pub mod cells;

mod bars;
mod dots;
mod plot;

pub use bars::{TextBar, TextBars, bars_text};
pub use plot::{TextMark, TextPlot, TextSeries, plot_text};

/// What the terminal can show.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Glyphs {
    /// Blocks, box lines and braille dots.
    #[default]
    Unicode,
    /// Nothing but ASCII in what is drawn; names keep their letters, their minus signs and ellipses become `-` and `~`.
    Ascii,
}

impl Glyphs {
    /// Text with the signs of the terminal; the number of cells stays.
    fn written(self, text: &str) -> String {
        match self {
            Self::Unicode => text.to_owned(),
            Self::Ascii => text
                .replace('−', "-")
                .replace('…', "~")
                .replace('\u{202f}', " "),
        }
    }
}
