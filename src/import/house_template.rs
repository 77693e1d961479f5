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

    #[test]
    fn every_line_left_as_a_comment_reads_once_its_mark_is_taken_away() {
        let mut opened = String::new();
        for line in HOUSE_TEMPLATE.lines() {
            let key = line.strip_prefix("# ").filter(|rest| {
                rest.split_once(" = ")
                    .is_some_and(|(key, _)| !key.contains(' '))
            });
            // Only one of the two climates can be named.
            let key = key.filter(|rest| !rest.starts_with("climate_file"));
            opened.push_str(key.unwrap_or(line));
            opened.push('\n');
        }
        let house = read_house("new.toml", &opened).unwrap();
        assert_eq!(house.heating.must_run_to.map(|t| t.0), Some(-25.0));
        assert_eq!(
            house
                .energy
                .and_then(|energy| energy.fuel_source_factor)
                .map(|figure| figure.value),
            Some(1.01)
        );
    }
}
