//! How a supplier charges for energy: one price, blocks of use in a month, or prices by hour of the day.

use super::calendar::{HoursOfDay, Months, month_name};
use super::energy::Figure;

/// Prices of energy over a year. Fixed monthly charges are beside it, in [`Energy`](super::Energy).
#[derive(Clone, Debug, PartialEq)]
pub enum Tariff {
    /// One price for every kWh.
    Flat(Figure),
    /// A price that depends on how much was used in the month.
    Tiered(TieredTariff),
    /// A price that depends on the month and the hour of the day.
    TimeOfDay(TimeOfDayTariff),
}

impl Tariff {
    /// The tariff's kind as a reader would call it.
    #[must_use]
    pub fn kind(&self) -> &'static str {
        match self {
            Self::Flat(_) => "flat price",
            Self::Tiered(_) => "tariff with tiers by month",
            Self::TimeOfDay(_) => "time-of-day tariff",
        }
    }

    /// Every price in it, in the order given.
    #[must_use]
    pub fn prices(&self) -> Vec<&Figure> {
        match self {
            Self::Flat(price) => vec![price],
            Self::Tiered(tariff) => tariff
                .seasons
                .iter()
                .flat_map(|season| &season.tiers)
                .map(|t| &t.price)
                .collect(),
            Self::TimeOfDay(tariff) => tariff.periods.iter().map(|period| &period.price).collect(),
        }
    }
}

/// A block of a month's use and its price.
#[derive(Clone, Debug, PartialEq)]
pub struct Tier {
    /// The month's use at which the block ends \[kWh\]; `None`: the last block, without end.
    pub up_to_kwh: Option<f64>,
    /// Price of a kWh in the block.
    pub price: Figure,
}

/// The blocks that hold in some months.
#[derive(Clone, Debug, PartialEq)]
pub struct TierSeason {
    /// When they hold.
    pub months: Months,
    /// The blocks, lowest use first, the last without end.
    pub tiers: Vec<Tier>,
}

/// Tiers by month, checked: every month has exactly one list of blocks.
#[derive(Clone, Debug, PartialEq)]
pub struct TieredTariff {
    seasons: Vec<TierSeason>,
}

impl TieredTariff {
    /// Tiers that cover the year.
    ///
    /// # Errors
    /// [`TariffError`] where a month has no blocks or two lists of them, where blocks do not rise or do not end in one
    /// without end, or where a price is below zero or not finite.
    pub fn new(seasons: Vec<TierSeason>) -> Result<Self, TariffError> {
        for month in 1..=12 {
            let count = seasons
                .iter()
                .filter(|season| season.months.contains(month))
                .count();
            if count != 1 {
                return Err(TariffError::Months { month, count });
            }
        }
        for season in &seasons {
            check_blocks(&season.tiers)?;
        }
        Ok(Self { seasons })
    }

    /// The blocks that hold in a month, 1 to 12; empty outside.
    #[must_use]
    pub fn tiers(&self, month: u8) -> &[Tier] {
        self.seasons
            .iter()
            .find(|season| season.months.contains(month))
            .map_or(&[], |season| &season.tiers)
    }
}

fn check_blocks(tiers: &[Tier]) -> Result<(), TariffError> {
    let mut start = 0.0;
    for (index, tier) in tiers.iter().enumerate() {
        check_price(&tier.price)?;
        match tier.up_to_kwh {
            Some(end) if end.is_finite() && end > start => start = end,
            Some(end) => return Err(TariffError::BlockEnd { end, start }),
            None if index + 1 < tiers.len() => return Err(TariffError::BlocksAfterLast),
            None => return Ok(()),
        }
    }
    Err(TariffError::NoLastBlock)
}

fn check_price(price: &Figure) -> Result<(), TariffError> {
    let valid = price.value.is_finite() && price.value >= 0.0;
    if valid {
        Ok(())
    } else {
        Err(TariffError::Price(price.value))
    }
}

/// Hours of the day in some months, and their price.
#[derive(Clone, Debug, PartialEq)]
pub struct Period {
    /// What the supplier calls it, such as `on-peak`.
    pub name: String,
    /// The months it holds in.
    pub months: Months,
    /// The hours of the day it holds in.
    pub hours: HoursOfDay,
    /// Price of a kWh in it.
    pub price: Figure,
}

/// Prices by hour of the day, checked: every hour of every month has exactly one price.
#[derive(Clone, Debug, PartialEq)]
pub struct TimeOfDayTariff {
    periods: Vec<Period>,
}

impl TimeOfDayTariff {
    /// Periods that cover the year. Days of the week are not told apart: a typical year has none.
    ///
    /// # Errors
    /// [`TariffError`] where an hour has no price or two, or where a price is below zero or not finite.
    pub fn new(periods: Vec<Period>) -> Result<Self, TariffError> {
        for period in &periods {
            check_price(&period.price)?;
        }
        for month in 1..=12 {
            for hour in 1..=24 {
                let names: Vec<&str> = matching(&periods, month, hour)
                    .map(|period| period.name.as_str())
                    .collect();
                if names.len() != 1 {
                    return Err(TariffError::Hours {
                        month,
                        hour,
                        periods: names.join(", "),
                    });
                }
            }
        }
        Ok(Self { periods })
    }

    /// The period that holds in a month, 1 to 12, in the hour of the day that ends at `hour`, 1 to 24; `None` outside.
    #[must_use]
    pub fn period(&self, month: u8, hour: u8) -> Option<&Period> {
        matching(&self.periods, month, hour).next()
    }
}

fn matching(periods: &[Period], month: u8, hour: u8) -> impl Iterator<Item = &Period> {
    periods.iter().filter(move |period| {
        period.months.contains(month) && period.hours.contains_hour_ending(hour)
    })
}

/// Why prices do not make a tariff.
#[derive(Clone, Debug, PartialEq, thiserror::Error)]
pub enum TariffError {
    /// A price below zero or not finite.
    #[error("found a price of {0}, expected a finite number not below zero")]
    Price(f64),
    /// A month without blocks, or with several lists of them.
    #[error("found {count} lists of tiers for {}, expected one", month_name(*.month).unwrap_or("a month"))]
    Months {
        /// The first such month, 1 to 12.
        month: u8,
        /// How many lists it has.
        count: usize,
    },
    /// A block that ends at or below its start.
    #[error(
        "found a tier up to {end} kWh that begins at {start} kWh, expected tiers in rising order"
    )]
    BlockEnd {
        /// Where it would end \[kWh\].
        end: f64,
        /// Where it begins \[kWh\].
        start: f64,
    },
    /// A block without end that is not the last.
    #[error("found tiers after one without an upper end, expected that one to be the last")]
    BlocksAfterLast,
    /// No block without end.
    #[error("found no tier without an upper end, expected the last one to have none")]
    NoLastBlock,
    /// An hour without a price, or with several.
    #[error("found {} for {:02}:00 to {hour:02}:00 in {}, expected one",
        if .periods.is_empty() { "no price".to_owned() } else { format!("several prices ({periods})") },
        .hour - 1, month_name(*.month).unwrap_or("a month"))]
    Hours {
        /// The first such month, 1 to 12.
        month: u8,
        /// The hour of the day that ends then, 1 to 24.
        hour: u8,
        /// Names of the periods that claim it; empty: none.
        periods: String,
    },
}

#[cfg(test)]
mod tests {
    use super::*;

    fn tier(up_to_kwh: Option<f64>, price: f64) -> Tier {
        Tier {
            up_to_kwh,
            price: price.into(),
        }
    }

    fn all_year(tiers: Vec<Tier>) -> Result<TieredTariff, TariffError> {
        TieredTariff::new(vec![TierSeason {
            months: Months::ALL,
            tiers,
        }])
    }

    fn period(name: &str, (start, end): (u8, u8), price: f64) -> Period {
        let hours = HoursOfDay::from_to(start, end).unwrap();
        Period {
            name: name.into(),
            months: Months::ALL,
            hours,
            price: price.into(),
        }
    }

    fn message<T: std::fmt::Debug>(result: Result<T, TariffError>) -> String {
        result.unwrap_err().to_string()
    }

    #[test]
    fn tiers_rise_and_the_last_has_no_end() {
        assert!(all_year(vec![tier(Some(600.0), 0.1), tier(None, 0.12)]).is_ok());
        assert_eq!(
            message(all_year(vec![
                tier(Some(600.0), 0.1),
                tier(Some(600.0), 0.1),
                tier(None, 0.12)
            ])),
            "found a tier up to 600 kWh that begins at 600 kWh, expected tiers in rising order"
        );
        assert_eq!(
            message(all_year(vec![])),
            TariffError::NoLastBlock.to_string()
        );
        assert_eq!(
            all_year(vec![tier(Some(600.0), 0.1)]),
            Err(TariffError::NoLastBlock)
        );
        assert_eq!(
            all_year(vec![tier(None, 0.1), tier(None, 0.1)]),
            Err(TariffError::BlocksAfterLast)
        );
        assert_eq!(
            all_year(vec![tier(None, -0.1)]),
            Err(TariffError::Price(-0.1))
        );
    }

    #[test]
    fn every_month_has_its_tiers_once() {
        let season = |first, last| TierSeason {
            months: Months::from_to(first, last).unwrap(),
            tiers: vec![tier(None, 0.1)],
        };
        assert!(TieredTariff::new(vec![season(11, 4), season(5, 10)]).is_ok());
        assert_eq!(
            message(TieredTariff::new(vec![season(11, 4), season(6, 10)])),
            "found 0 lists of tiers for May, expected one"
        );
        assert_eq!(
            message(TieredTariff::new(vec![season(11, 4), season(4, 10)])),
            "found 2 lists of tiers for April, expected one"
        );
    }

    #[test]
    fn every_hour_has_its_price_once() {
        let tariff = TimeOfDayTariff::new(vec![
            period("peak", (7, 19), 0.2),
            period("night", (19, 7), 0.1),
        ])
        .unwrap();
        assert_eq!(tariff.period(1, 7).unwrap().name, "night");
        assert_eq!(tariff.period(1, 8).unwrap().name, "peak");
        assert_eq!(
            message(TimeOfDayTariff::new(vec![
                period("peak", (7, 19), 0.2),
                period("night", (20, 7), 0.1)
            ])),
            "found no price for 19:00 to 20:00 in January, expected one"
        );
        assert_eq!(
            message(TimeOfDayTariff::new(vec![
                period("peak", (7, 19), 0.2),
                period("night", (18, 7), 0.1)
            ])),
            "found several prices (peak, night) for 18:00 to 19:00 in January, expected one"
        );
    }
}
