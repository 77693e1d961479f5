//! Sets of months and of hours of the day, as a tariff names them.

const MONTH_NAMES: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// The English name of a month, 1 to 12; `None` outside.
#[must_use]
pub fn month_name(month: u8) -> Option<&'static str> {
    MONTH_NAMES.get(usize::from(month).checked_sub(1)?).copied()
}

/// A set of months.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Months(u16);

impl Months {
    /// The whole year.
    pub const ALL: Self = Self(0x0fff);

    /// From the first month to the last, both counted, over New Year where `first > last`: `(11, 3)` is November to March.
    /// `None` where one is not 1 to 12.
    #[must_use]
    pub fn from_to(first: u8, last: u8) -> Option<Self> {
        let within = (1..=12).contains(&first) && (1..=12).contains(&last);
        within.then(|| Self(ring(first - 1, last - 1, 12).fold(0, |set, month| set | (1 << month))))
    }

    /// These months, 1 to 12, in any order. `None` where one is not, or there is none.
    #[must_use]
    pub fn of(months: &[u8]) -> Option<Self> {
        let set = months.iter().try_fold(0, |set, &month| {
            (1..=12).contains(&month).then(|| set | (1 << (month - 1)))
        })?;
        (set != 0).then_some(Self(set))
    }

    /// Whether `month`, 1 to 12, is one of them.
    #[must_use]
    pub fn contains(self, month: u8) -> bool {
        (1..=12).contains(&month) && self.0 & (1 << (month - 1)) != 0
    }
}

/// A set of hours of the day, by local standard time.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct HoursOfDay(u32);

impl HoursOfDay {
    /// The whole day.
    pub const ALL: Self = Self(0x00ff_ffff);

    /// From one o'clock time to another, over midnight where `start >= end`: `(7, 11)` is 07:00 to 11:00, four hours;
    /// `(22, 6)` is the night; `(0, 24)` the whole day. `None` where `start` is past 23, or `end` is 0 or past 24.
    #[must_use]
    pub fn from_to(start: u8, end: u8) -> Option<Self> {
        let within = start < 24 && (1..=24).contains(&end) && start != end;
        within.then(|| Self(ring(start, end - 1, 24).fold(0, |set, hour| set | (1 << hour))))
    }

    /// The hours that are in either set: two peaks a day are one set.
    #[must_use]
    pub fn and(self, other: Self) -> Self {
        Self(self.0 | other.0)
    }

    /// Whether the hour that *ends* at `hour` o'clock, 1 to 24 as in a weather record, is one of them.
    #[must_use]
    pub fn contains_hour_ending(self, hour: u8) -> bool {
        (1..=24).contains(&hour) && self.0 & (1 << (hour - 1)) != 0
    }
}

/// The numbers from `first` to `last`, both counted, going round a ring of `size`.
fn ring(first: u8, last: u8, size: u8) -> impl Iterator<Item = u8> {
    let count = (last + size - first) % size + 1;
    (0..count).map(move |step| (first + step) % size)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_winter_goes_over_new_year() {
        let winter = Months::from_to(11, 3).unwrap();
        let inside: Vec<u8> = (0..=13).filter(|&month| winter.contains(month)).collect();
        assert_eq!(inside, [1, 2, 3, 11, 12]);
        assert_eq!(winter, Months::of(&[12, 11, 3, 2, 1]).unwrap());
        assert_eq!(Months::from_to(1, 12), Some(Months::ALL));
        assert_eq!(Months::from_to(0, 3), None);
        assert_eq!(Months::of(&[13]), None);
        assert_eq!(Months::of(&[]), None);
    }

    #[test]
    fn a_night_goes_over_midnight() {
        let night = HoursOfDay::from_to(22, 6).unwrap();
        let inside: Vec<u8> = (0..=25)
            .filter(|&hour| night.contains_hour_ending(hour))
            .collect();
        assert_eq!(inside, [1, 2, 3, 4, 5, 6, 23, 24]);
        assert_eq!(
            night.and(HoursOfDay::from_to(6, 22).unwrap()),
            HoursOfDay::ALL
        );
        assert_eq!(HoursOfDay::from_to(0, 24), Some(HoursOfDay::ALL));
        assert_eq!(HoursOfDay::from_to(7, 7), None);
        assert_eq!(HoursOfDay::from_to(24, 3), None);
        assert_eq!(HoursOfDay::from_to(3, 0), None);
    }

    #[test]
    fn months_have_names() {
        assert_eq!(month_name(1), Some("January"));
        assert_eq!(month_name(12), Some("December"));
        assert_eq!(month_name(0), None);
        assert_eq!(month_name(13), None);
    }
}
