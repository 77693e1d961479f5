//! Which units a row of a comparison may call best: those of whom the figure tells of the same task.

use super::Judged;

/// Rows that compare like with like only among units that carry the whole winter.
const OF_A_CARRIED_WINTER: [&str; 2] = ["seasonal_cop", "annual_electricity_kwh"];
/// Rows that compare like with like only among units that carry the whole summer.
const OF_A_CARRIED_SUMMER: [&str; 6] = [
    "annual_electricity_kwh",
    "cooling_cycling_share",
    "humid_share",
    "peak_rh",
    "dehumidification_l_per_year",
    "dehumidification_peak_l_per_day",
];
/// How much of a season's load or hours a unit may leave behind and still be compared: hours beyond the design
/// temperatures are few, and change a season's figures less than this (our rule).
const LEFT_BEHIND: f64 = 0.01;

/// Whether a unit carries the heating design load, and nearly all of the season's heat; what is not proven is not carried.
fn carries_winter(judged: &Judged) -> bool {
    let heating = &judged.heating;
    let share = heating.season.and_then(|season| season.share_carried());
    heating.margin().is_some_and(|margin| margin >= 0.0)
        && share.is_some_and(|share| share >= 1.0 - LEFT_BEHIND)
}

/// Whether a unit's sensible capacity at the cooling design temperature is enough there.
fn carries_cooling_design(judged: &Judged) -> bool {
    judged.cooling.is_some_and(|cooling| {
        cooling
            .sensible_capacity_at_design
            .is_some_and(|capacity| capacity >= cooling.sensible_at_design)
    })
}

/// Whether a unit carries the sensible design load, and nearly all of the summer's; so it is in a house without cooling.
fn carries_summer(judged: &Judged) -> bool {
    let Some(cooling) = judged.cooling else {
        return true;
    };
    let Some((season, known)) = cooling.season.and_then(|all| Some((all, all.known?))) else {
        return false;
    };
    carries_cooling_design(judged)
        && season.unproven_hours <= season.cooling_hours * LEFT_BEHIND
        && known.shortfall <= (known.sensible + known.shortfall) * LEFT_BEHIND
}

/// Whether a unit's figure in the row of this name tells of the same task as the others'.
pub(super) fn is_comparable(name: &str, unit: &Judged) -> bool {
    (!OF_A_CARRIED_WINTER.contains(&name) || carries_winter(unit))
        && (name != "minimum_sensible_kw" || carries_cooling_design(unit))
        && (!OF_A_CARRIED_SUMMER.contains(&name) || carries_summer(unit))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::criteria::Criteria;
    use crate::quantity::UnitSystem;
    use crate::study::Brief;
    use crate::study::comparison::{ComparisonRow, Figure, comparison};
    use crate::study::test_house::{climate, house, unit};

    fn best(row: &ComparisonRow) -> Vec<usize> {
        (0..row.figures.len())
            .filter(|&index| row.is_best(index))
            .collect()
    }

    // The unit of 3 kW has the better COP, for it leaves the cold hour, with 6 kW, to a backup.
    #[test]
    fn a_unit_that_leaves_load_behind_is_not_best_in_what_the_load_makes() {
        let climate = climate(&[(1, 1, -10.0, 1.0), (1, 2, 10.0, 3.0)]);
        let brief = Brief::new(
            house(10.0, 0.1),
            Some(&climate),
            Criteria::default(),
            UnitSystem::Si,
        );
        let mut efficient = unit("short", 3.0, 5.0);
        let mut large = unit("large", 9.0, 5.0);
        for point in &mut efficient.points {
            point.power = point.power * 0.5;
        }
        large.model.degradation_heating = Some(0.25);
        let units = [efficient, large, unit("plain", 9.0, 5.0)];
        let judged: Vec<Judged> = units.iter().map(|unit| brief.judge(unit)).collect();
        let rows = comparison(&judged, true);
        let row = |name: &str| rows.iter().find(|row| row.name == name).unwrap();
        let Figure::Number(short) = &row("seasonal_cop").figures[0] else {
            panic!("{:?}", row("seasonal_cop"));
        };
        assert!((short.number - 4.0).abs() < 1e-9);
        assert_eq!(best(row("seasonal_cop")), [2]);
        assert_eq!(best(row("share_carried")), [1, 2]);
        // 3 of 6 kWh and 2 of 2 kWh.
        assert_eq!(
            row("share_carried").figures[0],
            Figure::Number((5.0 / 8.0).into())
        );
    }
}
