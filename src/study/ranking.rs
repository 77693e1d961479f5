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
    /// Lowest annual energy cost first, at the house's prices.
    Cost,
    /// Lowest annual emissions first, by the house's factors.
    Emissions,
}

impl RankBy {
    /// Every way to rank.
    pub const ALL: &'static [Self] = &[
        Self::Electricity,
        Self::Margin,
        Self::SeasonalCop,
        Self::Price,
        Self::Smallest,
        Self::Cost,
        Self::Emissions,
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
            Self::Cost => "cost",
            Self::Emissions => "emissions",
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
            Self::Cost => "lowest annual energy cost first, at the house's prices",
            Self::Emissions => "lowest annual emissions first, by the house's factors",
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
            Self::Cost => judged.running?.cost.map(|cost| cost.0),
            Self::Emissions => judged.running?.emissions.map(|emissions| emissions.0),
        }
    }
}

/// The currencies in which units are priced, each once, in the order of their names; `None` for a price without one.
///
/// Prices rank only within one.
#[must_use]
pub fn price_currencies(units: &[Judged]) -> Vec<Option<String>> {
    let mut found: Vec<Option<String>> = units
        .iter()
        .filter(|judged| judged.model.price.is_some())
        .map(|judged| judged.model.currency.clone())
        .collect();
    found.sort();
    found.dedup();
    found
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
