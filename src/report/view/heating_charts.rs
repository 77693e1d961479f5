//! The two charts of a winter: load against capacity, and who delivers the heat.

use super::{band, bins, caption, chart_units, edges, line, place, ranges};
use crate::house::House;
use crate::quantity::UnitSystem;
use crate::report::svg::{HeatBin, HeatDelivered, LoadAndCapacity};
use crate::study::portrait::HeatingPortrait;

/// Load line and capacity band with the hours behind.
#[must_use]
pub fn load_chart(
    portrait: &HeatingPortrait,
    house: &House,
    unit: &str,
    units: UnitSystem,
) -> LoadAndCapacity {
    LoadAndCapacity {
        caption: caption("Winter: load and capacity", unit, &house.name),
        units: chart_units(units),
        load: line(&portrait.load, units),
        capacity: band(&portrait.band, units),
        hours: bins(&portrait.hours, units),
        balance_point: portrait.balance_point.map(|point| place(point, units)),
        design_outdoor: Some(units.temperature_value(house.heating.load.design_outdoor)),
        unproven: ranges(portrait.unproven, units),
    }
}

/// Heat of each kelvin of outdoor temperature by who delivers it; `None` without a climate.
#[must_use]
pub fn heat_chart(
    portrait: &HeatingPortrait,
    house: &House,
    unit: &str,
    units: UnitSystem,
) -> Option<HeatDelivered> {
    (!portrait.heat.is_empty()).then(|| HeatDelivered {
        caption: caption("Winter: who delivers the heat", unit, &house.name),
        units: chart_units(units),
        bins: portrait
            .heat
            .iter()
            .map(|bin| {
                let (from, to) = edges(bin.outdoor, units);
                HeatBin {
                    from,
                    to,
                    steady: bin.steady.0,
                    cycling: bin.cycling.0,
                    backup: bin.backup.0,
                }
            })
            .collect(),
        balance_point: portrait
            .balance_point
            .map(|(outdoor, _)| units.temperature_value(outdoor)),
        design_outdoor: Some(units.temperature_value(house.heating.load.design_outdoor)),
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::explain::example::{brief, house, unit};

    #[test]
    fn the_charts_carry_the_portraits_numbers() {
        let brief = brief(house());
        let unit = unit("larch");
        let portrait = HeatingPortrait::of(&brief, &unit, &brief.judge(&unit));
        let chart = load_chart(&portrait, brief.house(), "larch", UnitSystem::Si);
        let (balance, load) = portrait.balance_point.unwrap();
        assert_eq!(chart.balance_point, Some((balance.0, load.0)));
        assert_eq!(chart.capacity.len(), portrait.band.len());
        assert_eq!(chart.design_outdoor, Some(-18.0));
        assert!(chart.caption.subtitle.starts_with("larch in Larch Row"));
        let heat = heat_chart(&portrait, brief.house(), "larch", UnitSystem::Ip).unwrap();
        let delivered: f64 = heat.bins.iter().map(|bin| bin.steady + bin.cycling).sum();
        let season = brief.judge(&unit).heating.season.unwrap();
        assert!((delivered - season.heat_pump.0).abs() < 1e-6);
        assert!((heat.design_outdoor.unwrap() + 0.4).abs() < 1e-9);
    }
}
