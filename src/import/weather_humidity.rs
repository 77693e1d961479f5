//! Humidity ratio of a weather record, and an account of every record that took it from elsewhere than it should.

use crate::psychrometrics::{
    STANDARD_PRESSURE, humidity_ratio, humidity_ratio_at_relative, saturation_pressure,
    standard_pressure,
};
use crate::quantity::{Celsius, HumidityRatio, Metres, Pascals, counted};

/// What a record says of its humidity.
#[derive(Clone, Copy, Debug, Default)]
pub(super) struct Moist {
    /// Relative humidity, 0 to 1.
    pub relative_humidity: Option<f64>,
    /// Dew point.
    pub dew_point: Option<Celsius>,
    /// Station pressure.
    pub pressure: Option<Pascals>,
}

/// Computes humidity ratios and counts what had to be taken from elsewhere.
pub(super) struct HumidityAccount {
    elevation: Option<Metres>,
    standard_pressure: usize,
    from_dew_point: usize,
    above_saturation: usize,
    none: usize,
}

impl HumidityAccount {
    /// An account for a station at a height; `None`: unknown, sea level is then taken and said.
    pub fn new(elevation: Option<Metres>) -> Self {
        Self {
            elevation,
            standard_pressure: 0,
            from_dew_point: 0,
            above_saturation: 0,
            none: 0,
        }
    }

    /// Humidity ratio from dry bulb, relative humidity and station pressure; from the dew point where the relative
    /// humidity is missing; `None` where both are. A missing pressure is the standard atmosphere's at the elevation.
    ///
    /// # Source
    /// ASHRAE Handbook - Fundamentals 2017, chapter 1.
    pub fn humidity_ratio(&mut self, dry_bulb: Celsius, moist: Moist) -> Option<HumidityRatio> {
        if moist.relative_humidity.is_none() && moist.dew_point.is_none() {
            self.none += 1;
            return None;
        }
        let pressure = moist.pressure.unwrap_or_else(|| {
            self.standard_pressure += 1;
            self.elevation.map_or(STANDARD_PRESSURE, standard_pressure)
        });
        let mut relative = match (moist.relative_humidity, moist.dew_point) {
            (Some(relative), _) => relative,
            (None, Some(dew_point)) => {
                self.from_dew_point += 1;
                if dew_point <= dry_bulb {
                    return Some(humidity_ratio(saturation_pressure(dew_point), pressure));
                }
                f64::INFINITY
            }
            (None, None) => return None,
        };
        if relative > 1.0 {
            self.above_saturation += 1;
            relative = 1.0;
        }
        Some(humidity_ratio_at_relative(dry_bulb, relative, pressure))
    }

    /// What a reader must know, a sentence each.
    pub fn notes(&self) -> Vec<String> {
        let mut notes = Vec::new();
        let mut note = |count: usize, words: &str| {
            if count > 0 {
                let count = counted(count, "record", "records");
                notes.push(format!("{count} {words}"));
            }
        };
        note(
            self.none,
            "without humidity: humidity cannot be judged over the whole of this climate",
        );
        note(
            self.from_dew_point,
            "without relative humidity: taken from the dew point",
        );
        note(
            self.above_saturation,
            "above saturation: taken as saturated",
        );
        let pressure = match self.elevation {
            Some(elevation) => format!(
                "without pressure: the standard atmosphere's at {} m was taken",
                elevation.0
            ),
            None => {
                "without pressure or elevation: the standard atmosphere's at sea level was taken"
                    .to_owned()
            }
        };
        note(self.standard_pressure, &pressure);
        notes
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn dew_point_and_pressure_stand_in_and_are_accounted_for() {
        let mut account = HumidityAccount::new(Some(Metres(201.0)));
        let known = Moist {
            relative_humidity: Some(0.5),
            dew_point: None,
            pressure: Some(Pascals(99_000.0)),
        };
        assert!(account.humidity_ratio(Celsius(20.0), known).is_some());
        assert!(account.notes().is_empty());
        let dew_point = Moist {
            dew_point: Some(Celsius(9.3)),
            ..Moist::default()
        };
        let from_dew_point = account.humidity_ratio(Celsius(20.0), dew_point).unwrap();
        // 20 °C at 50 % has a dew point of 9.3 °C and 7.3 g/kg at sea level (ASHRAE psychrometric chart no. 1, from memory).
        assert!((from_dew_point.0 - 0.0073 * 101_325.0 / 98_930.0).abs() < 1e-4);
        let over = Moist {
            relative_humidity: Some(1.04),
            ..known
        };
        let saturated = Moist {
            relative_humidity: Some(1.0),
            ..known
        };
        assert_eq!(
            account.humidity_ratio(Celsius(20.0), over),
            account.humidity_ratio(Celsius(20.0), saturated)
        );
        assert_eq!(
            account.humidity_ratio(Celsius(20.0), Moist::default()),
            None
        );
        assert_eq!(
            account.notes(),
            [
                "1 record without humidity: humidity cannot be judged over the whole of this climate",
                "1 record without relative humidity: taken from the dew point",
                "1 record above saturation: taken as saturated",
                "1 record without pressure: the standard atmosphere's at 201 m was taken",
            ]
        );
    }
}
