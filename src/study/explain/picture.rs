//! What a chart shows, as data: lines over outdoor temperature, or bars. How it is drawn is for whoever shows it.

/// One line over outdoor temperature.
#[derive(Clone, Debug, PartialEq)]
pub struct Line {
    /// What it is.
    pub name: String,
    /// Outdoor temperature \[°C\] and value, coldest first; not a number where there is no value.
    pub points: Vec<(f64, f64)>,
}

/// A point worth marking.
#[derive(Clone, Debug, PartialEq)]
pub struct Mark {
    /// What it is.
    pub name: String,
    /// Outdoor temperature \[°C\].
    pub x: f64,
    /// Value.
    pub y: f64,
}

/// One bar.
#[derive(Clone, Debug, PartialEq)]
pub struct Bar {
    /// Outdoor temperature of the bin's centre \[°C\].
    pub outdoor: f64,
    /// Hours in a year.
    pub hours: f64,
    /// The part of them in which the unit cycles.
    pub cycling: f64,
}

/// What lines show.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Shows {
    /// Heating capacity against the load.
    Heating,
    /// Sensible cooling capacity against the load.
    Cooling,
    /// COP at the load.
    Cop,
}

/// A chart.
#[derive(Clone, Debug, PartialEq)]
pub enum Picture {
    /// Lines over outdoor temperature.
    Lines {
        /// What kind of lines they are.
        shows: Shows,
        /// What it shows, in words.
        title: String,
        /// The vertical axis with its unit.
        axis: &'static str,
        /// The lines, most important first.
        lines: Vec<Line>,
        /// A point worth marking.
        mark: Option<Mark>,
    },
    /// Hours over outdoor temperature.
    Hours {
        /// What it shows.
        title: String,
        /// The bars, coldest first.
        bars: Vec<Bar>,
    },
}
