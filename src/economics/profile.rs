//! A year's use of energy, as finely divided as the climate allows.

use crate::quantity::KilowattHours;

/// Days of each month of a typical year, which has no leap day.
const DAYS: [f64; 12] = [
    31.0, 28.0, 31.0, 30.0, 31.0, 30.0, 31.0, 31.0, 30.0, 31.0, 30.0, 31.0,
];

/// Energy used by hour of the day, the hour that ends at 1 o'clock first.
pub type Day = [KilowattHours; 24];

/// A year's use of energy.
#[derive(Clone, Debug, PartialEq)]
pub enum EnergyProfile {
    /// The year's total: all that a bin table without months can say.
    Annual(KilowattHours),
    /// By month, January first.
    Monthly([KilowattHours; 12]),
    /// By month, January first, and within it by hour of the day, all days of the month together.
    Hourly(Box<[Day; 12]>),
}

impl EnergyProfile {
    /// No energy, as finely divided as can be.
    #[must_use]
    pub fn none() -> Self {
        Self::Hourly(Box::default())
    }

    /// A constant draw that takes `total` in a year, such as a standby.
    #[must_use]
    pub fn constant(total: KilowattHours) -> Self {
        let by_hour = DAYS.map(|days| [total * (days / (365.0 * 24.0)); 24]);
        Self::Hourly(Box::new(by_hour))
    }

    /// Adds up records of month, 1 to 12, hour of the day that the record ends in, 1 to 24, and energy.
    ///
    /// # Errors
    /// The first record whose month or hour is outside the calendar.
    pub fn from_hours(
        records: impl IntoIterator<Item = (u8, u8, KilowattHours)>,
    ) -> Result<Self, OutsideCalendar> {
        let mut by_hour: Box<[Day; 12]> = Box::default();
        for (month, hour, energy) in records {
            let outside = OutsideCalendar { month, hour };
            let day = place(month, by_hour.as_mut_slice()).ok_or(outside)?;
            *place(hour, day).ok_or(outside)? += energy;
        }
        Ok(Self::Hourly(by_hour))
    }

    /// Adds up records of month, 1 to 12, and energy.
    ///
    /// # Errors
    /// The first record whose month is outside the calendar.
    pub fn from_months(
        records: impl IntoIterator<Item = (u8, KilowattHours)>,
    ) -> Result<Self, OutsideCalendar> {
        let mut by_month = [KilowattHours::ZERO; 12];
        for (month, energy) in records {
            *place(month, &mut by_month).ok_or(OutsideCalendar { month, hour: 1 })? += energy;
        }
        Ok(Self::Monthly(by_month))
    }

    /// The year's total.
    #[must_use]
    pub fn total(&self) -> KilowattHours {
        match self {
            Self::Annual(total) => *total,
            Self::Monthly(months) => months.iter().copied().sum(),
            Self::Hourly(months) => months.iter().flatten().copied().sum(),
        }
    }

    /// Energy by month, January first; `None` where only the year's total is known.
    #[must_use]
    pub fn by_month(&self) -> Option<[KilowattHours; 12]> {
        match self {
            Self::Annual(_) => None,
            Self::Monthly(months) => Some(*months),
            Self::Hourly(months) => Some(months.each_ref().map(|day| day.iter().copied().sum())),
        }
    }

    /// Both uses together, as finely divided as the coarser of the two.
    #[must_use]
    pub fn plus(&self, other: &Self) -> Self {
        if let (Self::Hourly(left), Self::Hourly(right)) = (self, other) {
            let mut sum = left.clone();
            for (into, from) in sum.iter_mut().flatten().zip(right.iter().flatten()) {
                *into += *from;
            }
            return Self::Hourly(sum);
        }
        match (self.by_month(), other.by_month()) {
            (Some(left), Some(right)) => {
                Self::Monthly(std::array::from_fn(|month| left[month] + right[month]))
            }
            _ => Self::Annual(self.total() + other.total()),
        }
    }

    /// The same use, every part of it times `factor`: heat to fuel by 1 / efficiency.
    #[must_use]
    pub fn scaled(&self, factor: f64) -> Self {
        match self {
            Self::Annual(total) => Self::Annual(*total * factor),
            Self::Monthly(months) => Self::Monthly(months.map(|energy| energy * factor)),
            Self::Hourly(months) => Self::Hourly(Box::new(
                months.map(|day| day.map(|energy| energy * factor)),
            )),
        }
    }

    /// How finely it is divided, as a reader would say it.
    #[must_use]
    pub fn fineness(&self) -> &'static str {
        match self {
            Self::Annual(_) => "for the year as a whole",
            Self::Monthly(_) => "by month",
            Self::Hourly(_) => "by month and hour of the day",
        }
    }
}

fn place<T>(number: u8, slots: &mut [T]) -> Option<&mut T> {
    slots.get_mut(usize::from(number).checked_sub(1)?)
}

/// A record outside the calendar.
#[derive(Clone, Copy, Debug, PartialEq, Eq, thiserror::Error)]
#[error("found month {month}, hour {hour}; expected a month of 1 to 12 and an hour of 1 to 24")]
pub struct OutsideCalendar {
    /// The month found.
    pub month: u8,
    /// The hour found.
    pub hour: u8,
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn records_add_up_in_their_month_and_hour() {
        let records = [(1, 1, 2.0), (1, 24, 3.0), (12, 1, 4.0), (1, 1, 1.0)];
        let profile =
            EnergyProfile::from_hours(records.map(|(m, h, e)| (m, h, KilowattHours(e)))).unwrap();
        let EnergyProfile::Hourly(months) = &profile else {
            panic!("hours were given")
        };
        assert_eq!(months[0][0], KilowattHours(3.0));
        assert_eq!(profile.total(), KilowattHours(10.0));
        assert_eq!(profile.by_month().unwrap()[0], KilowattHours(6.0));
        assert_eq!(profile.by_month().unwrap()[11], KilowattHours(4.0));
    }

    #[test]
    fn records_outside_the_calendar_are_refused() {
        let error = EnergyProfile::from_hours([(2, 0, KilowattHours(1.0))]).unwrap_err();
        assert_eq!(
            error.to_string(),
            "found month 2, hour 0; expected a month of 1 to 12 and an hour of 1 to 24"
        );
        assert!(EnergyProfile::from_months([(13, KilowattHours(1.0))]).is_err());
    }

    #[test]
    fn a_sum_is_as_coarse_as_its_coarser_part() {
        let hourly = EnergyProfile::constant(KilowattHours(365.0));
        let monthly = EnergyProfile::Monthly([KilowattHours(1.0); 12]);
        let annual = EnergyProfile::Annual(KilowattHours(5.0));
        assert_eq!(hourly.plus(&EnergyProfile::none()), hourly);
        // By hand: a kWh a day is 31 kWh in January, and one more.
        assert!((hourly.plus(&monthly).by_month().unwrap()[0].0 - 32.0).abs() < 1e-9);
        let EnergyProfile::Annual(total) = monthly.plus(&annual) else {
            panic!("months were lost")
        };
        assert_eq!(total, KilowattHours(17.0));
        assert!((hourly.total().0 - 365.0).abs() < 1e-9);
        assert_eq!(monthly.scaled(2.0).total(), KilowattHours(24.0));
    }
}
