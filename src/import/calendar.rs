//! Which hours of the year a record has, which it lacks, and how many years it averages.

use std::collections::BTreeMap;

/// Days of each month; February with its leap day.
const DAYS: [u8; 12] = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/// The most gaps that a note lists one by one.
const GAPS_LISTED: usize = 5;

/// An hour of the year: month, day, hour (1 to 24).
pub(super) type Slot = (u8, u8, u8);

/// Days of a month, the leap day counted; `None`: no such month.
pub(super) fn days_of_month(month: u8) -> Option<u8> {
    DAYS.get(usize::from(month).checked_sub(1)?).copied()
}

/// How often each hour of the year was recorded.
#[derive(Default)]
pub(super) struct Calendar {
    counts: BTreeMap<Slot, u32>,
}

/// What a calendar says of the record as a whole.
#[derive(Debug, PartialEq)]
pub(super) struct Coverage {
    /// How many years are averaged; 1 for a single year.
    pub years: u32,
    /// Hours that the record has, in one mean year.
    pub hours: f64,
    /// Hours that it lacks, in one mean year.
    pub missing_hours: f64,
    /// Where they are, in words.
    pub gaps: Vec<String>,
}

impl Calendar {
    /// Counts one record.
    pub fn count(&mut self, slot: Slot) {
        *self.counts.entry(slot).or_default() += 1;
    }

    /// What the record covers.
    pub fn coverage(&self, records_per_hour: u32) -> Coverage {
        let most = self.counts.values().copied().max().unwrap_or(0);
        let years = most.div_ceil(records_per_hour).max(1);
        let whole = f64::from(years * records_per_hour);
        let hours = self
            .counts
            .values()
            .map(|&count| f64::from(count) / whole)
            .sum();
        let mut missing_hours = 0.0;
        let mut gaps: Vec<(Slot, Slot)> = Vec::new();
        let mut gap_is_open = false;
        for slot in year() {
            let share = f64::from(self.counts.get(&slot).copied().unwrap_or(0)) / whole;
            // A leap day comes in one year of four, or never: its absence is no gap.
            let is_missing = share < 1.0 && (slot.0, slot.1) != (2, 29);
            if is_missing {
                missing_hours += 1.0 - share;
                match gaps.last_mut() {
                    Some(gap) if gap_is_open => gap.1 = slot,
                    _ => gaps.push((slot, slot)),
                }
            }
            // The leap day does not end a gap that runs across it.
            gap_is_open = is_missing || (gap_is_open && (slot.0, slot.1) == (2, 29) && share < 1.0);
        }
        let mut words: Vec<String> = gaps
            .iter()
            .take(GAPS_LISTED)
            .map(|&gap| gap_in_words(gap))
            .collect();
        if gaps.len() > GAPS_LISTED {
            words.push(format!("and {} more gaps", gaps.len() - GAPS_LISTED));
        }
        Coverage {
            years,
            hours,
            missing_hours,
            gaps: words,
        }
    }
}

impl Coverage {
    /// What a reader must know of it, a sentence each.
    pub fn notes(&self) -> Vec<String> {
        let mut notes = Vec::new();
        if self.years > 1 {
            notes.push(format!(
                "{} years averaged: each hour counts 1/{} and the mean year has {:.0} hours",
                self.years, self.years, self.hours
            ));
        }
        if self.missing_hours > 0.0 {
            let of = if self.years > 1 {
                "of the mean year "
            } else {
                ""
            };
            let (noun, is, was) = if self.missing_hours == 1.0 {
                ("hour", "is", "was")
            } else {
                ("hours", "are", "were")
            };
            notes.push(format!(
                "{:.0} {noun} {of}{is} missing and {was} not filled: {}",
                self.missing_hours,
                self.gaps.join("; ")
            ));
        }
        notes
    }
}

/// Every hour of a leap year, in order.
fn year() -> impl Iterator<Item = Slot> {
    (1..=12).flat_map(|month| {
        let days = days_of_month(month).unwrap_or(0);
        (1..=days).flat_map(move |day| (1..=24).map(move |hour| (month, day, hour)))
    })
}

fn gap_in_words((from, to): (Slot, Slot)) -> String {
    if from == to {
        return format!("{}/{} hour {}", from.0, from.1, from.2);
    }
    format!(
        "{}/{} hour {} to {}/{} hour {}",
        from.0, from.1, from.2, to.0, to.1, to.2
    )
}

#[cfg(test)]
mod tests {
    use super::*;

    fn whole_year(calendar: &mut Calendar, leap: bool) {
        for slot in year().filter(|slot| leap || (slot.0, slot.1) != (2, 29)) {
            calendar.count(slot);
        }
    }

    #[test]
    fn a_common_and_a_leap_year_are_both_whole() {
        for (leap, hours) in [(false, 8760.0), (true, 8784.0)] {
            let mut calendar = Calendar::default();
            whole_year(&mut calendar, leap);
            let coverage = calendar.coverage(1);
            assert_eq!(
                (coverage.years, coverage.hours, coverage.missing_hours),
                (1, hours, 0.0)
            );
        }
    }

    #[test]
    fn four_years_make_a_mean_year_of_8766_hours() {
        let mut calendar = Calendar::default();
        for leap in [false, false, true, false] {
            whole_year(&mut calendar, leap);
        }
        let coverage = calendar.coverage(1);
        assert_eq!(
            (coverage.years, coverage.hours, coverage.missing_hours),
            (4, 8766.0, 0.0)
        );
    }

    #[test]
    fn a_gap_is_placed_and_runs_across_the_leap_day() {
        let mut calendar = Calendar::default();
        for slot in
            year().filter(|slot| !((2, 28, 23)..=(3, 1, 1)).contains(slot) && *slot != (5, 4, 3))
        {
            calendar.count(slot);
        }
        let coverage = calendar.coverage(1);
        assert_eq!(coverage.gaps, ["2/28 hour 23 to 3/1 hour 1", "5/4 hour 3"]);
        assert_eq!(coverage.missing_hours, 4.0);
    }
}
