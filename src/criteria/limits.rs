//! The built-in requirements and their limits.

/// Which built-in checks are made, and how far each may go.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Requirements {
    /// The unit carries the design load, with the house's reserve, without backup.
    pub full_load_without_backup: bool,
    /// The unit runs at the colder temperature that the house names, where it names one.
    pub run_beyond_design: bool,
    /// The unit carries the sensible design load, where the house is cooled.
    pub cooling_design: bool,
    /// Largest share of the hours with a cooling call in which the unit may cycle, 0 to 1.
    pub max_cooling_cycling_share: f64,
    /// Largest share of the hours with a cooling call that may be too humid, 0 to 1.
    pub max_humid_share: f64,
}

impl Default for Requirements {
    /// Every check is made; the two shares are our choice, no source.
    fn default() -> Self {
        Self {
            full_load_without_backup: true,
            run_beyond_design: true,
            cooling_design: true,
            max_cooling_cycling_share: 0.70,
            max_humid_share: 0.40,
        }
    }
}
