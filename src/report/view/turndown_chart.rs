//! The chart of a summer: sensible load against what the unit removes, least to most, and the hours that cycle.

use super::{band, bins, caption, chart_units, line, place, ranges};
use crate::house::House;
use crate::quantity::UnitSystem;
use crate::report::svg::CoolingTurndown;
use crate::study::portrait::CoolingPortrait;

/// Sensible load and band with the hours behind.
#[must_use]
pub fn turndown_chart(
    portrait: &CoolingPortrait,
    house: &House,
    unit: &str,
    units: UnitSystem,
) -> CoolingTurndown {
    CoolingTurndown {
        caption: caption("Summer: how far it turns down", unit, &house.name),
        units: chart_units(units),
        load: line(&portrait.load, units),
        sensible: band(&portrait.band, units),
        hours: bins(&portrait.hours, units),
        design_outdoor: house
            .cooling
            .map(|cooling| units.temperature_value(cooling.load.design_outdoor)),
        cycles_below: portrait.cycles_below.map(|point| place(point, units)),
        unproven: ranges(portrait.unproven, units),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::explain::example::{brief, house, unit};

    #[test]
    fn the_chart_carries_the_portraits_numbers() {
        let brief = brief(house());
        let portrait = CoolingPortrait::of(&brief, &unit("a")).unwrap();
        let chart = turndown_chart(&portrait, brief.house(), "a", UnitSystem::Si);
        assert_eq!(chart.design_outdoor, Some(32.0));
        assert_eq!(
            chart.cycles_below.unwrap().0,
            portrait.cycles_below.unwrap().0.0
        );
        let cycling: f64 = chart.hours.iter().map(|bin| bin.cycling_hours).sum();
        let known = brief
            .judge(&unit("a"))
            .cooling
            .unwrap()
            .season
            .unwrap()
            .known
            .unwrap();
        assert!((cycling - known.cycling_hours.unwrap().0).abs() < 1e-9);
    }
}
