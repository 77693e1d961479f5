//! Reads tariffs out of a house file's `[energy]`: blocks of use by month, and prices by hour of the day.

use super::energy_section::{PRICE, figure};
use super::toml_reader::{Placed, Section, TomlReader};
use crate::house::{
    HoursOfDay, Months, Period, Tariff, TariffError, Tier, TierSeason, TieredTariff,
    TimeOfDayTariff,
};
use crate::quantity::Dimension;

/// The tables that make a tariff; the reader of `[energy]` lets them pass.
pub(super) const TABLES: &[&str] = &[
    "electricity_tier",
    "electricity_period",
    "fuel_tier",
    "fuel_period",
];

const MONTHS: &str = "months by number, such as \"11-3\", \"7\" or \"6, 7, 8\"";
const HOURS: &str = "o'clock hours, such as \"7-19\" or \"7-11, 17-19\", midnight 0 or 24";

/// The tariff of one energy, `electricity` or `fuel`; `None` where no table names one, or it cannot be read and is noted.
pub(super) fn tariff(
    reader: &mut TomlReader<'_>,
    energy: &Section<'_>,
    (tier_table, period_table): (&str, &str),
) -> Option<Tariff> {
    let tiers = reader.sections(energy, tier_table);
    let periods = reader.sections(energy, period_table);
    match (tiers.first(), periods.first()) {
        (None, None) => None,
        (Some(_), Some(period)) => {
            let expected = format!("either [[energy.{tier_table}]] or [[energy.{period_table}]]");
            reader.note(&period.place(), "both kinds of tariff", expected, None);
            None
        }
        (Some(_), None) => tiered(reader, &tiers),
        (None, Some(_)) => time_of_day(reader, &periods),
    }
}

fn tiered(reader: &mut TomlReader<'_>, tables: &[Section<'_>]) -> Option<Tariff> {
    let mut seasons: Vec<TierSeason> = Vec::new();
    let mut whole = true;
    for table in tables {
        let known = ["months", "up_to_kwh", "price", "price_source", "price_year"];
        reader.only_known(table, &known, |_| false);
        let months = months(reader, table);
        let up_to = reader.optional_quantity(table, "up_to_kwh", Dimension::Number);
        let up_to_stands = up_to.is_some() || !table.has("up_to_kwh");
        let up_to_holds = up_to
            .as_ref()
            .is_none_or(|end| reader.demand(end, end.value > 0.0, "kWh of a month's use, above 0"));
        let price = price(reader, table);
        let (Some(months), Some(price), true, true) = (months, price, up_to_holds, up_to_stands)
        else {
            whole = false;
            continue;
        };
        let tier = Tier {
            up_to_kwh: up_to.map(|end| end.value),
            price,
        };
        match seasons.iter_mut().find(|season| season.months == months) {
            Some(season) => season.tiers.push(tier),
            None => seasons.push(TierSeason {
                months,
                tiers: vec![tier],
            }),
        }
    }
    if !whole {
        return None;
    }
    checked(reader, tables, TieredTariff::new(seasons)).map(Tariff::Tiered)
}

fn time_of_day(reader: &mut TomlReader<'_>, tables: &[Section<'_>]) -> Option<Tariff> {
    let mut periods = Vec::new();
    let mut whole = true;
    for table in tables {
        let known = [
            "name",
            "months",
            "hours",
            "price",
            "price_source",
            "price_year",
        ];
        reader.only_known(table, &known, |_| false);
        let name = reader.text(
            table,
            "name",
            "what the supplier calls the period, in quotes",
        );
        let months = months(reader, table);
        let hours = hours(reader, table);
        let price = price(reader, table);
        match (name, months, hours, price) {
            (Some(name), Some(months), Some(hours), Some(price)) => periods.push(Period {
                name: name.value,
                months,
                hours,
                price,
            }),
            _ => whole = false,
        }
    }
    if !whole {
        return None;
    }
    checked(reader, tables, TimeOfDayTariff::new(periods)).map(Tariff::TimeOfDay)
}

/// A tariff, or a note at its first table of why the tables make none.
fn checked<T>(
    reader: &mut TomlReader<'_>,
    tables: &[Section<'_>],
    tariff: Result<T, TariffError>,
) -> Option<T> {
    match tariff {
        Ok(tariff) => Some(tariff),
        Err(error) => {
            let text = error.to_string();
            let (found, expected) = text
                .strip_prefix("found ")
                .and_then(|rest| rest.rsplit_once(", expected "))
                .unwrap_or((&text, "a tariff that covers the year"));
            reader.note(&tables.first()?.place(), found, expected, None);
            None
        }
    }
}

fn price(reader: &mut TomlReader<'_>, table: &Section<'_>) -> Option<crate::house::Figure> {
    if !table.has("price") {
        reader.missing(table, "price", PRICE.1);
    }
    figure(reader, table, "price", Dimension::Number, PRICE, None)
}

/// The months of a table, the whole year where it names none; `None` where they cannot be read.
fn months(reader: &mut TomlReader<'_>, table: &Section<'_>) -> Option<Months> {
    if !table.has("months") {
        return Some(Months::ALL);
    }
    let words = reader.optional_text(table, "months", MONTHS)?;
    let read = ranges(&words.value).and_then(|ranges| {
        let mut all: Vec<u8> = Vec::new();
        for (first, last) in ranges {
            let months = Months::from_to(first, last)?;
            all.extend((1..=12).filter(|&month| months.contains(month)));
        }
        Months::of(&all)
    });
    noted(reader, &words, read, MONTHS)
}

/// The hours of a table, the whole day where it names none; `None` where they cannot be read.
fn hours(reader: &mut TomlReader<'_>, table: &Section<'_>) -> Option<HoursOfDay> {
    if !table.has("hours") {
        return Some(HoursOfDay::ALL);
    }
    let words = reader.optional_text(table, "hours", HOURS)?;
    let read = ranges(&words.value).and_then(|ranges| {
        let sets: Option<Vec<HoursOfDay>> = ranges
            .into_iter()
            .map(|(start, end)| HoursOfDay::from_to(start, end))
            .collect();
        sets?.into_iter().reduce(HoursOfDay::and)
    });
    noted(reader, &words, read, HOURS)
}

fn noted<T>(
    reader: &mut TomlReader<'_>,
    words: &Placed<String>,
    read: Option<T>,
    expected: &str,
) -> Option<T> {
    reader.demand(words, read.is_some(), expected);
    read
}

/// `11-3`, `7`, or several with commas between them; a single number stands for both ends.
fn ranges(text: &str) -> Option<Vec<(u8, u8)>> {
    let number = |text: &str| text.trim().parse::<u8>().ok();
    text.split(',')
        .map(|part| match part.split_once(['-', '–']) {
            Some((first, last)) => Some((number(first)?, number(last)?)),
            None => number(part).map(|single| (single, single)),
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use crate::house::{Energy, Tariff};
    use crate::import::{HOUSE_TEMPLATE, read_house};

    fn energy(tables: &str) -> Result<Energy, String> {
        let text = format!("{HOUSE_TEMPLATE}\n{tables}");
        read_house("house.toml", &text)
            .map(|house| house.energy.expect("the template has [energy]"))
            // Lines counted from the first of the tables.
            .map_err(|problems| problems.to_string())
    }

    fn lines_before() -> usize {
        HOUSE_TEMPLATE.lines().count() + 1
    }

    #[test]
    fn tiers_by_month_are_read_with_their_source() {
        let energy = energy(
            "[[energy.electricity_tier]]\nmonths = \"11-3\"\nup_to_kwh = 600\nprice = 0.10\n\
             price_source = \"invented\"\nprice_year = 2026\n\
             [[energy.electricity_tier]]\nmonths = \"11-3\"\nprice = 0.12\n\
             [[energy.electricity_tier]]\nmonths = \"4-10\"\nprice = 0.11\n",
        )
        .unwrap();
        let Some(Tariff::Tiered(tiers)) = &energy.electricity_tariff else {
            panic!("tiers were given")
        };
        assert_eq!(tiers.tiers(1).len(), 2);
        assert_eq!(tiers.tiers(1)[0].up_to_kwh, Some(600.0));
        assert_eq!(tiers.tiers(1)[0].price.source.as_deref(), Some("invented"));
        assert_eq!(tiers.tiers(6)[0].price.value, 0.11);
        assert_eq!(energy.fuel_tariff, None);
    }

    #[test]
    fn periods_of_the_day_are_read() {
        let energy = energy(
            "[[energy.electricity_period]]\nname = \"peak\"\nhours = \"7-11, 17-19\"\nprice = 0.2\n\
             [[energy.electricity_period]]\nname = \"low\"\nhours = \"19-7, 11-17\"\nprice = 0.1\n\
             [[energy.fuel_tier]]\nprice = 0.04\n",
        )
        .unwrap();
        let Some(Tariff::TimeOfDay(times)) = &energy.electricity_tariff else {
            panic!("periods were given")
        };
        let names: Vec<&str> = [7, 8, 11, 12, 18, 20]
            .map(|hour| times.period(1, hour).unwrap().name.as_str())
            .to_vec();
        assert_eq!(names, ["low", "peak", "peak", "low", "peak", "low"]);
        assert!(matches!(energy.fuel_tariff, Some(Tariff::Tiered(_))));
    }

    #[test]
    fn every_problem_stands_at_its_line() {
        let line = lines_before();
        let problems = energy(
            "[[energy.electricity_tier]]\nmonths = \"13\"\nprice = -1\nupto = 3\n[[energy.fuel_tier]]\nup_to_kwh = 0\n",
        )
        .unwrap_err();
        for expected in [
            format!(
                "house.toml:{}:10: energy.electricity_tier.months: found \"13\", expected months by number",
                line + 2
            ),
            format!(
                "house.toml:{}:9: energy.electricity_tier.price: found -1, expected a price",
                line + 3
            ),
            format!(
                "house.toml:{}:1: energy.electricity_tier.upto: found an unknown name",
                line + 4
            ),
            format!(
                "house.toml:{}:1: energy.fuel_tier.price: found nothing, expected a price",
                line + 5
            ),
            format!(
                "house.toml:{}:13: energy.fuel_tier.up_to_kwh: found 0, expected kWh",
                line + 6
            ),
        ] {
            assert!(problems.contains(&expected), "{expected}\nin\n{problems}");
        }
    }

    #[test]
    fn tables_that_leave_an_hour_or_a_month_open_are_refused() {
        let line = lines_before();
        let problems = energy(
            "[[energy.electricity_period]]\nname = \"day\"\nhours = \"7-19\"\nprice = 0.2\n\
             [[energy.fuel_tier]]\nmonths = \"1-11\"\nprice = 0.04\n",
        )
        .unwrap_err();
        assert!(
            problems.contains(&format!("house.toml:{}:1: energy.electricity_period: found no price for 00:00 to 01:00 in January, expected one", line + 1)),
            "{problems}"
        );
        assert!(
            problems.contains("found 0 lists of tiers for December, expected one"),
            "{problems}"
        );
        let both = energy(
            "[[energy.fuel_tier]]\nprice = 1\n[[energy.fuel_period]]\nname = \"a\"\nprice = 1\n",
        )
        .unwrap_err();
        assert!(
            both.contains("found both kinds of tariff, expected either"),
            "{both}"
        );
    }
}
