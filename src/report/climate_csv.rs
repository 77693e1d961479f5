//! A climate as the CSV table of its monthly states, in the form that the import reads.

use std::fmt::Write as _;

use crate::climate::{Climate, State};

/// The climate's states by month where it has months, else of the year, with the fewest digits that read back the same.
#[must_use]
pub fn climate_csv(climate: &Climate) -> String {
    let mut text = format!(
        "# name: {}\n# source: {}\n",
        one_line(&climate.name),
        one_line(&climate.source)
    );
    if let Some(elevation) = climate.elevation {
        let _ = writeln!(text, "# elevation_m: {}", elevation.0);
    }
    let has_months = !climate.monthly.is_empty();
    let month = if has_months { "month," } else { "" };
    let humidity = if climate
        .states
        .iter()
        .any(|state| state.humidity_ratio.is_some())
    {
        ",humidity_ratio"
    } else {
        ""
    };
    let _ = writeln!(text, "{month}hours,outdoor_db_c{humidity}");
    let mut row = |month: Option<u8>, state: &State| {
        if let Some(month) = month {
            let _ = write!(text, "{month},");
        }
        let _ = write!(text, "{},{}", state.hours.0, state.outdoor.0);
        match state.humidity_ratio {
            Some(humidity_ratio) => {
                let _ = writeln!(text, ",{}", humidity_ratio.0);
            }
            None if humidity.is_empty() => text.push('\n'),
            None => text.push_str(",\n"),
        }
    };
    if has_months {
        climate
            .monthly
            .iter()
            .for_each(|monthly| row(Some(monthly.month), &monthly.state));
    } else {
        climate.states.iter().for_each(|state| row(None, state));
    }
    text
}

fn one_line(text: &str) -> String {
    text.split_whitespace().collect::<Vec<_>>().join(" ")
}
