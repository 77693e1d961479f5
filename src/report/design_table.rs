//! Outdoor design temperatures as a table, each row with its source, those from memory marked.

use super::table::{Column, PlainTable, paragraph};
use crate::climate::{DesignPlace, DesignStatus};
use crate::quantity::{Celsius, UnitSystem};

/// What marks a row from memory.
const MARK: &str = "*";

/// Places and their design temperatures: a table of annual percentiles and one of January's and July's, as far as there
/// are rows for each; then the sources by number.
#[must_use]
pub fn design_table(places: &[&DesignPlace], units: UnitSystem, width: u16) -> String {
    let mut sources: Vec<&str> = Vec::new();
    for place in places {
        if !sources.contains(&place.source.as_str()) {
            sources.push(&place.source);
        }
    }
    let annual = |place: &DesignPlace| {
        let annual = &place.annual;
        vec![
            annual.heating_99_6,
            annual.heating_99,
            annual.cooling_0_4,
            annual.cooling_1,
            annual.cooling_2,
        ]
    };
    let monthly = |place: &DesignPlace| {
        vec![
            place.january_2_5,
            place.january_1,
            place.july_2_5,
            place.july_2_5_wet_bulb,
        ]
    };
    let mut text = String::new();
    for (title, columns, read) in [
        (
            "Exceeded in so much of the year's hours",
            &["99.6 %", "99 %", "0.4 %", "1 %", "2 %"][..],
            &annual as &dyn Fn(&DesignPlace) -> Vec<Option<Celsius>>,
        ),
        (
            "Exceeded in all but so much of January's hours, and in so much of July's",
            &["Jan 2.5 %", "Jan 1 %", "Jul 2.5 %", "wet bulb"][..],
            &monthly,
        ),
    ] {
        let rows: Vec<&&DesignPlace> = places
            .iter()
            .filter(|place| read(place).iter().any(Option::is_some))
            .collect();
        if rows.is_empty() {
            continue;
        }
        let mut head = vec![("place", Column::Words)];
        head.extend(columns.iter().map(|&column| (column, Column::Numbers)));
        head.push(("source", Column::Numbers));
        let mut table = PlainTable::new(width, &head);
        for place in rows {
            let mark = if place.status == DesignStatus::Memory {
                MARK
            } else {
                ""
            };
            let source = sources
                .iter()
                .position(|source| *source == place.source)
                .unwrap_or(0)
                + 1;
            let mut row = vec![format!("{}{mark}", place.place)];
            row.extend(
                read(place)
                    .into_iter()
                    .map(|t| t.map_or_else(|| "-".to_owned(), |t| units.bare_temperature(t))),
            );
            row.push(format!("[{source}]"));
            table.row(row);
        }
        text += &paragraph(
            &format!("{title} [{}]", units.temperature_unit()),
            width,
            "",
            "",
        );
        text += &table.text();
        text.push('\n');
    }
    for (index, source) in sources.iter().enumerate() {
        text += &paragraph(source, width, &format!("[{}] ", index + 1), "    ");
    }
    if places
        .iter()
        .any(|place| place.status == DesignStatus::Memory)
    {
        let words = "From memory, not read in the source named: verify it there before use.";
        text += &paragraph(words, width, &format!("{MARK} "), "  ");
    }
    text
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::import::design_temperatures;

    #[test]
    fn rows_from_memory_carry_a_mark_and_the_mark_is_explained() {
        let places = design_temperatures().unwrap();
        let toronto: Vec<&DesignPlace> = places
            .iter()
            .filter(|place| place.answers_to("toronto"))
            .collect();
        let text = design_table(&toronto, UnitSystem::Si, 80);
        assert!(
            text.contains("Toronto (City Hall)*") && !text.contains("Pearson*"),
            "{text}"
        );
        assert!(text.ends_with(
            "* From memory, not read in the source named: verify it there before use.\n"
        ));
        let read: Vec<&DesignPlace> = places
            .iter()
            .filter(|place| place.answers_to("pittsburgh"))
            .collect();
        let text = design_table(&read, UnitSystem::Ip, 80);
        // -15.4 °C is 4.3 °F.
        assert!(text.contains("4.3") && !text.contains("memory"), "{text}");
    }
}
