//! The summer of a unit in a house: sensible load line, the band of what it removes, hours with those that cycle.

use std::collections::BTreeMap;

use super::{BandAt, Bin, HoursAt, sampled};
use crate::cooling::{CoilPerformance, CoolingCurves, Room};
use crate::criteria::cycles_below;
use crate::equipment::{Turndown, Unit};
use crate::quantity::{Celsius, Hours, Kilowatts};
use crate::study::{Brief, Summer};

/// The summer of a unit in a house.
#[derive(Clone, Debug, PartialEq)]
pub struct CoolingPortrait {
    /// The sensible load line, coolest first.
    pub load: Vec<(Celsius, Kilowatts)>,
    /// The band of sensible capacity at the set point and 50 % relative humidity, coolest first; a unit of one speed has
    /// the same minimum as maximum, one with no published minimum has none.
    pub band: Vec<BandAt>,
    /// The hours that call for cooling, coolest first; empty without a climate.
    pub hours: Vec<HoursAt>,
    /// Outdoor temperature and load below which it cycles, where there is such a place.
    pub cycles_below: Option<(Celsius, Kilowatts)>,
    /// Where nobody published a capacity.
    pub unproven: Option<(Celsius, Celsius)>,
}

impl CoolingPortrait {
    /// The summer of a unit; `None` where the house is not cooled.
    #[must_use]
    pub fn of(brief: &Brief, unit: &Unit) -> Option<Self> {
        let cooling = brief.house().cooling.as_ref()?;
        let load = &cooling.load;
        let curves = CoolingCurves::of(unit);
        let room = brief.room();
        let summer = brief.states().and_then(|states| {
            Summer::of(brief.house(), curves.as_ref(), states, room.temperature)
        });
        let hours = summer.as_ref().map_or_else(Vec::new, hours);
        let published = curves.as_ref().map(hottest_published);
        let hottest = hours
            .iter()
            .map(|bin| bin.bin.edges().1)
            .chain(published)
            .fold(load.design_outdoor, Celsius::max);
        let ends = (load.zero_load_outdoor, Celsius(hottest.0.floor() + 1.0));
        let turns_down = |curves: &&CoolingCurves| curves.turndown() != Turndown::Unknown;
        Some(Self {
            load: [ends.0, load.design_outdoor, ends.1]
                .map(|outdoor| (outdoor, load.at(outdoor)))
                .to_vec(),
            band: curves
                .as_ref()
                .map_or_else(Vec::new, |curves| band(curves, room, ends)),
            hours,
            cycles_below: curves
                .as_ref()
                .filter(turns_down)
                .and_then(|curves| cycles_below(load, curves, room))
                .map(|outdoor| (outdoor, load.at(outdoor))),
            unproven: match published {
                None => Some(ends),
                Some(published) => (published < ends.1).then_some((published.max(ends.0), ends.1)),
            },
        })
    }
}

fn hours(summer: &Summer) -> Vec<HoursAt> {
    let known = summer.turndown_is_known();
    let mut bins: BTreeMap<Bin, (Hours, Hours)> = BTreeMap::new();
    for row in &summer.rows {
        let sums = bins.entry(Bin::holding(row.outdoor)).or_default();
        sums.0 += row.hours;
        if known {
            sums.1 += row.cycling_hours;
        }
    }
    bins.into_iter()
        .map(|(bin, (hours, cycling))| HoursAt {
            bin,
            hours,
            cycling,
        })
        .collect()
}

fn hottest_published(curves: &CoolingCurves) -> Celsius {
    curves.rating_speeds().maximum().severe_end()
}

fn band(curves: &CoolingCurves, room: &Room, ends: (Celsius, Celsius)) -> Vec<BandAt> {
    let turns_down = curves.turndown() != Turndown::Unknown;
    let speeds = curves.rating_speeds();
    let mut knots = speeds.maximum().knots();
    knots.extend(
        speeds
            .minimum()
            .map_or_else(Vec::new, |minimum| minimum.knots()),
    );
    let sensible = |performance: CoilPerformance| {
        let coil = performance.coil()?;
        Some(
            coil.split(room.temperature, room.design, &room.air)
                .sensible,
        )
    };
    sampled(ends.0, ends.1, knots)
        .into_iter()
        .map(|outdoor| {
            let at = curves.at(outdoor).map(|speeds| {
                if speeds.varies() {
                    speeds.at(room.design_wet_bulb)
                } else {
                    speeds.base()
                }
            });
            BandAt {
                outdoor,
                minimum: at
                    .filter(|_| turns_down)
                    .and_then(|at| sensible(at.minimum)),
                maximum: at.and_then(|at| sensible(at.maximum)),
            }
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::study::explain::example::{brief, house, single_speed, unit};

    #[test]
    fn band_and_hours_are_those_of_the_figures() {
        let brief = brief(house());
        let unit = unit("a");
        let figures = brief.judge(&unit).cooling.unwrap();
        let portrait = CoolingPortrait::of(&brief, &unit).unwrap();
        let design = portrait
            .band
            .iter()
            .find(|point| point.outdoor == Celsius(32.0))
            .unwrap();
        assert_eq!(design.maximum, figures.sensible_capacity_at_design);
        assert_eq!(design.minimum, figures.minimum_sensible);
        let season = figures.season.unwrap();
        let hours: f64 = portrait.hours.iter().map(|bin| bin.hours.0).sum();
        let cycling: f64 = portrait.hours.iter().map(|bin| bin.cycling.0).sum();
        assert!((hours - season.cooling_hours.0).abs() < 1e-9);
        assert!((cycling - season.known.unwrap().cycling_hours.unwrap().0).abs() < 1e-9);
        assert!(cycling > 0.0);
        let (below, load) = portrait.cycles_below.unwrap();
        assert_eq!(load, house().cooling.unwrap().load.at(below));
        assert_eq!(portrait.unproven, Some((Celsius(35.0), Celsius(36.0))));
        assert_eq!(portrait.band.last().unwrap().maximum, None);
    }

    #[test]
    fn with_one_speed_the_band_has_no_height() {
        let portrait = CoolingPortrait::of(&brief(house()), &single_speed("b")).unwrap();
        assert!(
            portrait
                .band
                .iter()
                .all(|point| point.minimum == point.maximum)
        );
    }

    #[test]
    fn an_uncooled_house_has_no_summer_and_a_unit_without_points_no_band() {
        let mut uncooled = house();
        uncooled.cooling = None;
        assert_eq!(CoolingPortrait::of(&brief(uncooled), &unit("a")), None);
        let mut heats_only = unit("a");
        heats_only
            .points
            .retain(|point| point.mode == crate::equipment::Mode::Heating);
        let portrait = CoolingPortrait::of(&brief(house()), &heats_only).unwrap();
        assert!(portrait.band.is_empty() && portrait.unproven.is_some());
    }
}
