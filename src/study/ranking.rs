//! In which order accepted units stand.

use super::Judged;

/// What accepted units are ranked by.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum RankBy {
    /// Lowest annual electricity first, backup heat included.
    #[default]
    Electricity,
    /// Largest margin above the design load first.
    Margin,
    /// Highest seasonal COP first.
    SeasonalCop,
    /// Lowest price first.
    Price,
    /// Smallest capacity at the design temperature first.
    Smallest,
}

impl RankBy {
    /// Every way to rank.
    pub const ALL: &'static [Self] = &[
        Self::Electricity,
        Self::Margin,
        Self::SeasonalCop,
        Self::Price,
        Self::Smallest,
    ];

    /// Its name on the command line.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Electricity => "electricity",
            Self::Margin => "margin",
            Self::SeasonalCop => "seasonal-cop",
            Self::Price => "price",
            Self::Smallest => "smallest",
        }
    }

    /// What comes first, in words.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Electricity => "lowest annual electricity first, backup heat included",
            Self::Margin => "largest margin above the design load first",
            Self::SeasonalCop => "highest seasonal COP first",
            Self::Price => "lowest price first",
            Self::Smallest => "smallest capacity at the design temperature first",
        }
    }

    /// The figure a unit is ranked by, smallest first; `None` where it is not known.
    #[must_use]
    pub fn figure(self, judged: &Judged) -> Option<f64> {
        match self {
            Self::Electricity => judged.annual_electricity().map(|energy| energy.0),
            Self::Margin => judged.heating.margin().map(|margin| -margin),
            Self::SeasonalCop => judged.heating.season?.seasonal_cop().map(|cop| -cop),
            Self::Price => judged.model.price,
            Self::Smallest => judged.heating.capacity_at_design.map(|capacity| capacity.0),
        }
    }
}

/// Puts accepted units in order: by the figure, unknown ones last, ties by the unit's key.
pub fn rank(accepted: &mut [Judged], by: impl Fn(&Judged) -> Option<f64>) {
    accepted.sort_by(|a, b| {
        let figure = |judged: &Judged| by(judged).unwrap_or(f64::INFINITY);
        figure(a)
            .total_cmp(&figure(b))
            .then_with(|| a.model.key.cmp(&b.model.key))
    });
}
