//! Reads a weather file of whichever kind it is.

use super::climate_csv::read_climate_csv;
use super::epw::read_epw;
use super::problem::Problems;
use crate::climate::Climate;

/// Reads a climate from an EPW file, known by its first word, or else from a CSV table.
///
/// - `file`  what the user calls the file, for messages and to tell an empty EPW file from an empty table
/// - `bytes`  its content
/// - `key`  what the catalog will call the climate; [`climate_key`] makes one of a file's name
///
/// # Errors
/// Every problem found, with its line.
pub fn read_climate(file: &str, bytes: &[u8], key: &str) -> Result<Climate, Problems> {
    let start = bytes.strip_prefix("\u{feff}".as_bytes()).unwrap_or(bytes);
    let begins_as_epw = start
        .get(..8)
        .is_some_and(|word| word.eq_ignore_ascii_case(b"LOCATION"));
    if begins_as_epw || file.to_lowercase().ends_with(".epw") {
        read_epw(file, bytes, key)
    } else {
        read_climate_csv(file, bytes, key)
    }
}

/// A catalog key out of a file's name: `CAN_ON_Nowhere.2016.epw` gives `can-on-nowhere-2016`.
#[must_use]
pub fn climate_key(file: &str) -> String {
    let name = file.rsplit(['/', '\\']).next().unwrap_or(file);
    let stem = name.rsplit_once('.').map_or(name, |(stem, _)| stem);
    let words = stem
        .split(|letter: char| !letter.is_alphanumeric())
        .filter(|word| !word.is_empty());
    words.map(str::to_lowercase).collect::<Vec<_>>().join("-")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn keys_come_from_file_names() {
        assert_eq!(
            climate_key("weather/CAN_ON_Nowhere.2016.epw"),
            "can-on-nowhere-2016"
        );
        assert_eq!(climate_key("bins"), "bins");
    }

    #[test]
    fn the_kind_is_told_by_the_first_word_then_by_the_name() {
        let told = |file: &str, text: &str| {
            read_climate(file, text.as_bytes(), "k").unwrap_err().0[0]
                .expected
                .clone()
        };
        assert_eq!(
            told("a.txt", "LOCATION,x\n"),
            "the header line DESIGN CONDITIONS"
        );
        assert_eq!(told("a.epw", ""), "the header line LOCATION");
        assert_eq!(told("a.csv", ""), "a column outdoor_db_c or outdoor_db_f");
    }
}
