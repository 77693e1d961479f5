//! Outdoor design temperatures of a place, with where each comes from.

use super::DesignTemperatures;
use crate::quantity::Celsius;

/// How a row of design temperatures is known.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum DesignStatus {
    /// Read in the source that it names.
    Read,
    /// Written down from memory; to be verified in the source that it names before use.
    Memory,
}

/// Design temperatures of a place; `None`: the row does not give it.
#[derive(Clone, Debug, PartialEq)]
pub struct DesignPlace {
    /// The place or station.
    pub place: String,
    /// Annual percentiles of hours, as ASHRAE gives them.
    pub annual: DesignTemperatures,
    /// Dry bulb below which 2.5 % of January's hours lie, as Canadian codes give it.
    pub january_2_5: Option<Celsius>,
    /// Dry bulb below which 1 % of January's hours lie.
    pub january_1: Option<Celsius>,
    /// Dry bulb above which 2.5 % of July's hours lie.
    pub july_2_5: Option<Celsius>,
    /// Wet bulb above which 2.5 % of July's hours lie.
    pub july_2_5_wet_bulb: Option<Celsius>,
    /// Heating degree days below 18 °C \[K·d\].
    pub heating_degree_days_18: Option<f64>,
    /// Publication.
    pub source: String,
    /// How the row is known.
    pub status: DesignStatus,
}

impl DesignPlace {
    /// Whether every word of `name` begins a word of the place's name, upper and lower case alike.
    #[must_use]
    pub fn answers_to(&self, name: &str) -> bool {
        let is_break = |letter: char| !letter.is_alphanumeric();
        let place = self.place.to_lowercase().replace('\'', "");
        let name = name.to_lowercase().replace('\'', "");
        let mut words = name
            .split(is_break)
            .filter(|word| !word.is_empty())
            .peekable();
        words.peek().is_some()
            && words.all(|word| place.split(is_break).any(|own| own.starts_with(word)))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_place_answers_to_part_of_its_name() {
        let place = |name: &str| DesignPlace {
            place: name.to_owned(),
            annual: DesignTemperatures::default(),
            january_2_5: None,
            january_1: None,
            july_2_5: None,
            july_2_5_wet_bulb: None,
            heating_degree_days_18: None,
            source: String::new(),
            status: DesignStatus::Read,
        };
        assert!(place("Toronto (City Hall)").answers_to("toronto"));
        assert!(place("Chicago-OHare").answers_to("chicago o'hare"));
        assert!(place("St. John's").answers_to("st johns"));
        assert!(!place("Toronto Pearson").answers_to("toronto hall"));
        assert!(!place("Toronto Pearson").answers_to(" - "));
    }
}
