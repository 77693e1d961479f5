//! Several units side by side as a chart: the rows of a comparison that are numbers and better one way.

use crate::quantity::{Celsius, Kilowatts, UnitSystem};
use crate::report::clean_text;
use crate::report::svg::{self, Caption, Comparison};
use crate::study::Judged;
use crate::study::comparison::{Better, ComparisonRow, Figure, comparison};
use crate::study::explain::{Measure, Value};

/// The rows drawn, most important first, with the decimals written.
const ROWS: [(&str, usize); 6] = [
    ("annual_electricity_kwh", 0),
    ("seasonal_cop", 2),
    ("margin", 0),
    ("cooling_cycling_share", 0),
    ("humid_share", 0),
    ("dehumidification_l_per_year", 0),
];

/// The comparison of units in their order.
///
/// - `humidity`  whether humidity is judged
#[must_use]
pub fn comparison_chart(
    judged: &[Judged],
    house: &str,
    humidity: bool,
    units: UnitSystem,
) -> Comparison {
    let rows = comparison(judged, humidity);
    let measures = ROWS
        .iter()
        .filter_map(|&(name, decimals)| {
            let row = rows.iter().find(|row| row.name == name)?;
            Some(measure(row, decimals, units))
        })
        .filter(|measure| measure.values.iter().any(Option::is_some))
        .collect();
    Comparison {
        caption: Caption {
            title: "The accepted units side by side".to_owned(),
            subtitle: clean_text(house, 120),
        },
        units: judged
            .iter()
            .map(|judged| clean_text(&judged.model.key, 60))
            .collect(),
        measures,
    }
}

fn measure(row: &ComparisonRow, decimals: usize, units: UnitSystem) -> svg::Measure {
    let is_share = row.name == "margin" || row.name.ends_with("_share");
    let value = |figure: &Figure| match figure {
        Figure::Number(value) => Some(in_units(*value, is_share, units)),
        Figure::Below(_) | Figure::Word(_) | Figure::Missing => None,
    };
    let unit = row.figures.iter().find_map(|figure| match figure {
        Figure::Number(value) => Some(value.measure),
        _ => None,
    });
    svg::Measure {
        name: row.label.to_owned(),
        unit: match unit {
            _ if is_share => "%",
            Some(Measure::Celsius) => units.temperature_unit(),
            Some(Measure::Kilowatts) => units.power_unit(),
            Some(Measure::Litres) => units.water_per_year_unit(),
            Some(measure) => measure.unit(),
            None => "",
        }
        .to_owned(),
        values: row.figures.iter().map(value).collect(),
        decimals,
        better: match row.better {
            Better::More => svg::Better::Higher,
            Better::Less => svg::Better::Lower,
            Better::Neither => svg::Better::Neither,
        },
        limit: None,
    }
}

fn in_units(value: Value, is_share: bool, units: UnitSystem) -> f64 {
    match value.measure {
        _ if is_share => value.number * 100.0,
        Measure::Celsius => units.temperature_value(Celsius(value.number)),
        Measure::Kilowatts => units.power_value(Kilowatts(value.number)),
        Measure::Litres => units.water_value(value.number),
        _ => value.number,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::explain::example::{brief, house, single_speed, unit};

    #[test]
    fn a_row_of_the_chart_is_the_row_of_the_comparison() {
        let brief = brief(house());
        let judged = [brief.judge(&unit("a")), brief.judge(&single_speed("b"))];
        let chart = comparison_chart(&judged, "house", true, UnitSystem::Si);
        assert_eq!(chart.units, ["a", "b"]);
        let electricity = &chart.measures[0];
        assert_eq!(electricity.unit, "kWh");
        assert_eq!(
            electricity.values[0],
            judged[0].annual_electricity().map(|energy| energy.0)
        );
        let margin = chart
            .measures
            .iter()
            .find(|row| row.name == "margin")
            .unwrap();
        assert_eq!(
            margin.values[0],
            judged[0].heating.margin().map(|margin| margin * 100.0)
        );
    }
}
