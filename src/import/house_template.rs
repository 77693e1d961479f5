//! The commented file from which a new house starts.

/// A house file with every key explained, which reads as it stands.
pub const HOUSE_TEMPLATE: &str = include_str!("house_template.toml");

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::read_house;

    #[test]
    fn the_starting_file_reads_as_it_stands() {
        let house = read_house("new.toml", HOUSE_TEMPLATE).unwrap();
        assert_eq!(house.heating.load.design_load.0, 9.2);
        assert!(house.cooling.is_some() && house.moisture.is_some());
        assert_eq!(house.climate, None);
    }

    /// The line without its comment mark, where that makes it a line of the house file.
    fn opened(line: &str) -> &str {
        let key = line.strip_prefix("# ").filter(|rest| {
            let is_key = rest
                .split_once(" = ")
                .is_some_and(|(key, _)| !key.contains(' '));
            is_key || rest.starts_with("[[")
        });
        // Only one of the two climates can be named.
        key.filter(|rest| !rest.starts_with("climate_file"))
            .unwrap_or(line)
    }

    /// The lines from one that contains `from` to the one before one that contains `to`, opened.
    fn opened_between(from: &str, to: &str) -> String {
        let lines = HOUSE_TEMPLATE
            .lines()
            .skip_while(|line| !line.contains(from));
        let lines = lines.take_while(|line| to.is_empty() || !line.contains(to));
        lines.flat_map(|line| [opened(line), "\n"]).collect()
    }

    const TIERS: &str = "A tariff in place of a flat price";
    const PERIODS: &str = "or prices by the hour";

    #[test]
    fn every_line_left_as_a_comment_reads_once_its_mark_is_taken_away() {
        let house = read_house("new.toml", &opened_between("", TIERS)).unwrap();
        assert_eq!(house.heating.must_run_to.map(|t| t.0), Some(-25.0));
        let energy = house.energy.unwrap();
        assert_eq!(
            energy.fuel_source_factor.map(|figure| figure.value),
            Some(1.01)
        );
    }

    #[test]
    fn both_kinds_of_tariff_read_once_their_marks_are_taken_away() {
        let before = HOUSE_TEMPLATE.split_once("# electricity_price").unwrap().0;
        for tariff in [opened_between(TIERS, PERIODS), opened_between(PERIODS, "")] {
            let house = read_house("new.toml", &format!("{before}\n{tariff}")).unwrap();
            assert!(house.energy.unwrap().electricity_tariff.is_some());
        }
    }
}
