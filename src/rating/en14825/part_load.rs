//! A declared part-load point, what cycling takes from its efficiency, and straight lines between such points.

use crate::quantity::{Celsius, Kilowatts};

/// Within this share of the load a unit is taken to run steadily, and its declared efficiency counts undiminished.
///
/// # Source
/// EN 14825: a capacity step within 10 % of the load is used as it is declared.
const STEADY_BAND: f64 = 0.10;

/// How cycling at a load below the capacity lowers the efficiency.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum CyclingLoss {
    /// Air-to-air: `COPbin = COPd (1 - Cd (1 - CR))`, with the degradation coefficient Cd (0.25 where not measured).
    AirToAir(f64),
    /// Air-to-water: `COPbin = COPd CR / (Cc CR + (1 - Cc))`, with the degradation coefficient Cc (0.9 where not measured).
    AirToWater(f64),
}

impl CyclingLoss {
    /// Air-to-air with the standard's default coefficient.
    pub const DEFAULT_AIR_TO_AIR: Self = Self::AirToAir(0.25);

    /// Share of the declared efficiency that is left at a capacity ratio CR = load / capacity; 1 where CR is 0.9 or more.
    #[must_use]
    pub fn remaining(self, capacity_ratio: f64) -> f64 {
        if capacity_ratio >= 1.0 - STEADY_BAND {
            return 1.0;
        }
        match self {
            Self::AirToAir(cd) => 1.0 - cd * (1.0 - capacity_ratio),
            Self::AirToWater(cc) => capacity_ratio / (cc * capacity_ratio + (1.0 - cc)),
        }
    }
}

/// A declared point: capacity and efficiency at an outdoor temperature.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartLoad {
    /// Outdoor dry bulb.
    pub outdoor: Celsius,
    /// Declared capacity, above zero.
    pub capacity: Kilowatts,
    /// Declared COP or EER \[kWh/kWh\], above zero.
    pub efficiency: f64,
    /// What cycling takes from the efficiency.
    pub loss: CyclingLoss,
}

/// Why a seasonal figure cannot be computed from a declaration.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum DeclarationError {
    /// A straight line needs two temperatures.
    #[error("found {found} part-load temperature(s), expected at least 2")]
    TooFewPoints {
        /// Number of different temperatures.
        found: usize,
    },
    /// The straight lines lead to an efficiency of zero or less.
    #[error("the declared points lead to an efficiency of {efficiency:.2} at {} °C", outdoor.0)]
    EfficiencyNotPositive {
        /// Outdoor temperature of the bin.
        outdoor: Celsius,
        /// The efficiency found there.
        efficiency: f64,
    },
}

/// Capacity and efficiency that hold in a bin.
#[derive(Clone, Copy, Debug, PartialEq)]
pub(super) struct InBin {
    pub(super) capacity: Kilowatts,
    pub(super) efficiency: f64,
}

/// Straight lines through points whose efficiency is already lowered by cycling.
pub(super) struct Lines(Vec<(Celsius, InBin)>);

impl Lines {
    /// Lines through declared points in any order; of two at one temperature the first counts.
    pub(super) fn through(
        points: &[PartLoad],
        load: impl Fn(Celsius) -> Kilowatts,
    ) -> Result<Self, DeclarationError> {
        let mut knots: Vec<(Celsius, InBin)> = points
            .iter()
            .map(|point| {
                let left = point.loss.remaining(load(point.outdoor) / point.capacity);
                (
                    point.outdoor,
                    InBin {
                        capacity: point.capacity,
                        efficiency: point.efficiency * left,
                    },
                )
            })
            .collect();
        knots.sort_by(|(left, _), (right, _)| left.0.total_cmp(&right.0));
        knots.dedup_by(|(later, _), (earlier, _)| later == earlier);
        match knots.len() {
            0 | 1 => Err(DeclarationError::TooFewPoints { found: knots.len() }),
            _ => Ok(Self(knots)),
        }
    }

    /// The value at a temperature; beyond the ends the outermost line is continued.
    pub(super) fn at(&self, outdoor: Celsius) -> Result<InBin, DeclarationError> {
        let Self(knots) = self;
        let after = knots
            .partition_point(|&(at, _)| at < outdoor)
            .clamp(1, knots.len() - 1);
        let ((t_cold, cold), (t_warm, warm)) = (knots[after - 1], knots[after]);
        let share = (outdoor - t_cold) / (t_warm - t_cold);
        let efficiency = cold.efficiency + (warm.efficiency - cold.efficiency) * share;
        if efficiency <= 0.0 {
            return Err(DeclarationError::EfficiencyNotPositive {
                outdoor,
                efficiency,
            });
        }
        Ok(InBin {
            capacity: cold.capacity + (warm.capacity - cold.capacity) * share,
            efficiency,
        })
    }

    /// The value at a temperature, held at the ends.
    pub(super) fn held_at(&self, outdoor: Celsius) -> Result<InBin, DeclarationError> {
        let Self(knots) = self;
        self.at(outdoor.max(knots[0].0).min(knots[knots.len() - 1].0))
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn cycling_takes_nothing_within_ten_percent_and_cd_times_the_idle_share_below() {
        let air = CyclingLoss::DEFAULT_AIR_TO_AIR;
        assert_eq!(air.remaining(0.95), 1.0);
        assert_eq!(air.remaining(1.3), 1.0);
        // 1 - 0.25 (1 - 0.6)
        assert!((air.remaining(0.6) - 0.9).abs() < 1e-12);
        // 0.5 / (0.9 * 0.5 + 0.1)
        assert!((CyclingLoss::AirToWater(0.9).remaining(0.5) - 0.5 / 0.55).abs() < 1e-12);
    }

    fn point(outdoor: f64, efficiency: f64) -> PartLoad {
        PartLoad {
            outdoor: Celsius(outdoor),
            capacity: Kilowatts(3.0),
            efficiency,
            loss: CyclingLoss::DEFAULT_AIR_TO_AIR,
        }
    }

    #[test]
    fn one_temperature_is_too_few() {
        let lines = Lines::through(&[point(2.0, 3.0), point(2.0, 4.0)], |_| Kilowatts(3.0));
        assert_eq!(
            lines.err(),
            Some(DeclarationError::TooFewPoints { found: 1 })
        );
    }

    #[test]
    fn a_line_that_falls_below_zero_is_an_error_and_not_a_number() {
        let lines = Lines::through(&[point(2.0, 3.0), point(7.0, 0.5)], |_| Kilowatts(3.0))
            .expect("two points");
        assert!(matches!(
            lines.at(Celsius(12.0)),
            Err(DeclarationError::EfficiencyNotPositive { .. })
        ));
        assert!(lines.held_at(Celsius(12.0)).is_ok());
    }
}
