//! A cooling coil by apparatus dew point and bypass factor: what it does to air, sensible and latent.

use crate::house::Moisture;
use crate::psychrometrics::{
    MOLAR_MASS_RATIO, PsychrometricError, SaturatedAir, TRIPLE_POINT, enthalpy,
    humidity_ratio_at_enthalpy, humidity_ratio_at_wet_bulb, saturation_humidity_ratio,
    saturation_pressure, saturation_pressure_slope, specific_heat,
};
use crate::quantity::{
    Celsius, HumidityRatio, KilojoulesPerKilogram, Kilowatts, LitresPerSecond, Pascals,
};

/// Air that enters the coil at a rating test.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct AirEnteringCoil {
    /// Dry bulb.
    pub dry_bulb: Celsius,
    /// Wet bulb.
    pub wet_bulb: Celsius,
    /// Air pressure of the test.
    pub pressure: Pascals,
}

/// Why a published sensible heat ratio cannot be true at its capacity and airflow.
#[derive(Clone, Copy, Debug, PartialEq, thiserror::Error)]
pub enum InconsistentSensibleHeatRatio {
    /// The entering air itself does not exist.
    #[error("the entering air is impossible: {0}")]
    EnteringAir(#[from] PsychrometricError),
    /// The air would leave the coil holding more water than saturated air does.
    #[error(
        "air would leave the coil at {dry_bulb:.1} °C above saturation: the ratio is too high for this airflow"
    )]
    LeavingAboveSaturation {
        /// Dry bulb of the leaving air \[°C\].
        dry_bulb: f64,
    },
    /// No saturated coil surface lies on the line from the entering to the leaving air.
    #[error(
        "no coil surface can bring air to {dry_bulb:.1} °C and that dry: the ratio is too low for this airflow"
    )]
    NoApparatusDewPoint {
        /// Dry bulb of the leaving air \[°C\].
        dry_bulb: f64,
    },
}

/// Mass flow of dry air in a volume flow of standard air \[kg/s\].
fn mass_flow(airflow: LitresPerSecond) -> f64 {
    Moisture::STANDARD_AIR_DENSITY * airflow.0 / 1000.0
}

/// How the bypass factor of a coil follows from one published cooling point, step by step.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct CoilWorking {
    /// Humidity ratio of the entering air.
    pub entering_humidity_ratio: HumidityRatio,
    /// Enthalpy of the entering air.
    pub entering_enthalpy: KilojoulesPerKilogram,
    /// Mass flow of dry air \[kg/s\].
    pub mass_flow: f64,
    /// Enthalpy of the leaving air.
    pub leaving_enthalpy: KilojoulesPerKilogram,
    /// Dry bulb of the leaving air.
    pub leaving_dry_bulb: Celsius,
    /// Humidity ratio of the leaving air.
    pub leaving_humidity_ratio: HumidityRatio,
    /// Slope of the line from entering to leaving air \[1/K\].
    pub slope: f64,
    /// Where that line meets the saturation curve.
    pub apparatus_dew_point: Celsius,
    /// Enthalpy of saturated air there.
    pub apparatus_enthalpy: KilojoulesPerKilogram,
    /// Share of the air that passes the coil as if untouched, 0 to below 1.
    pub bypass_factor: f64,
}

/// Bypass factor of a coil from one published cooling point, as [`coil_working`] finds it.
///
/// # Errors
/// As [`coil_working`].
pub fn bypass_factor(
    entering: AirEnteringCoil,
    capacity: Kilowatts,
    airflow: LitresPerSecond,
    sensible_heat_ratio: f64,
) -> Result<f64, InconsistentSensibleHeatRatio> {
    coil_working(entering, capacity, airflow, sensible_heat_ratio)
        .map(|working| working.bypass_factor)
}

/// The coil behind one published cooling point.
///
/// Leaving air: `h_out = h_in - C/m`, `T_out = T_in - SHR C/(m (1.006 + 1.86 W_in))`. The straight line from entering
/// to leaving air meets the saturation curve at the apparatus dew point; `BF = (h_out - h_adp)/(h_in - h_adp)`.
///
/// - `capacity`  total capacity, above zero   - `sensible_heat_ratio`  above 0 to 1
/// - returns a bypass factor of 0 to below 1, and every number on the way to it
///
/// # Errors
/// [`InconsistentSensibleHeatRatio`] where no coil could have done that.
///
/// # Source
/// Bypass-factor method, ASHRAE; the form used by public building-simulation references.
pub fn coil_working(
    entering: AirEnteringCoil,
    capacity: Kilowatts,
    airflow: LitresPerSecond,
    sensible_heat_ratio: f64,
) -> Result<CoilWorking, InconsistentSensibleHeatRatio> {
    let pressure = entering.pressure;
    let w_in = humidity_ratio_at_wet_bulb(entering.dry_bulb, entering.wet_bulb, pressure)?;
    let h_in = enthalpy(entering.dry_bulb, w_in).0;
    let mass_flow = mass_flow(airflow);
    let drop = capacity.0 / mass_flow;
    let h_out = h_in - drop;
    let t_out = entering.dry_bulb.0 - sensible_heat_ratio * drop / specific_heat(w_in);
    let w_out = humidity_ratio_at_enthalpy(KilojoulesPerKilogram(h_out), Celsius(t_out)).0;
    if w_out > saturation_humidity_ratio(Celsius(t_out), pressure).0 {
        return Err(InconsistentSensibleHeatRatio::LeavingAboveSaturation { dry_bulb: t_out });
    }
    let slope = (w_in.0 - w_out) / (entering.dry_bulb.0 - t_out);
    let line = Line {
        temperature: t_out,
        humidity_ratio: w_out,
        slope,
        pressure,
    };
    let t_adp = line
        .meets_saturation()
        .ok_or(InconsistentSensibleHeatRatio::NoApparatusDewPoint { dry_bulb: t_out })?;
    let h_adp = enthalpy(
        Celsius(t_adp),
        saturation_humidity_ratio(Celsius(t_adp), pressure),
    )
    .0;
    Ok(CoilWorking {
        entering_humidity_ratio: w_in,
        entering_enthalpy: KilojoulesPerKilogram(h_in),
        mass_flow,
        leaving_enthalpy: KilojoulesPerKilogram(h_out),
        leaving_dry_bulb: Celsius(t_out),
        leaving_humidity_ratio: HumidityRatio(w_out),
        slope,
        apparatus_dew_point: Celsius(t_adp),
        apparatus_enthalpy: KilojoulesPerKilogram(h_adp),
        bypass_factor: (h_out - h_adp) / (h_in - h_adp),
    })
}

/// A straight line in the plane of temperature and humidity ratio, through the leaving air.
struct Line {
    temperature: f64,
    humidity_ratio: f64,
    slope: f64,
    pressure: Pascals,
}

/// Colder coil surfaces than this are not looked for.
const COLDEST_SURFACE: f64 = -60.0;

impl Line {
    /// How far the line lies above the saturation curve, and the slope of that.
    fn above(&self, t: f64) -> (f64, f64) {
        let vapour = saturation_pressure(Celsius(t)).0;
        let dry = self.pressure.0 - vapour;
        let saturated = MOLAR_MASS_RATIO * vapour / dry;
        let saturated_slope =
            MOLAR_MASS_RATIO * self.pressure.0 * saturation_pressure_slope(Celsius(t))
                / (dry * dry);
        let line = self.humidity_ratio + self.slope * (t - self.temperature);
        (line - saturated, self.slope - saturated_slope)
    }

    /// The warmest temperature, at or below the leaving air's, at which the line meets the saturation curve.
    ///
    /// The difference is concave over liquid water and over ice, so that Newton's method comes down from the leaving
    /// air without ever passing the first meeting; each stretch is tried in turn.
    fn meets_saturation(&self) -> Option<f64> {
        let frozen = TRIPLE_POINT.0.next_down();
        if self.temperature > frozen
            && let Some(found) = self.newton_down(self.temperature, TRIPLE_POINT.0)
        {
            return Some(found);
        }
        self.newton_down(self.temperature.min(frozen), COLDEST_SURFACE)
    }

    fn newton_down(&self, start: f64, floor: f64) -> Option<f64> {
        let mut t = start;
        for _ in 0..100 {
            let (above, slope) = self.above(t);
            if above >= 0.0 {
                return Some(t);
            }
            if slope >= 0.0 {
                return None;
            }
            let step = -above / slope;
            let next = t + step;
            if next < floor {
                return (self.above(floor).0 >= 0.0).then(|| self.bisect(floor, t));
            }
            if step > -1e-12 {
                return Some(next);
            }
            t = next;
        }
        Some(t)
    }

    fn bisect(&self, mut met: f64, mut unmet: f64) -> f64 {
        for _ in 0..80 {
            let middle = f64::midpoint(met, unmet);
            if self.above(middle).0 >= 0.0 {
                met = middle
            } else {
                unmet = middle
            }
        }
        met
    }
}

/// A coil at one outdoor temperature and speed.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Coil {
    /// Total capacity.
    pub capacity: Kilowatts,
    /// Electric input.
    pub power: Kilowatts,
    /// How far the enthalpy of the apparatus dew point lies below the entering air's: `C / (m (1 - BF))`.
    pub reach: KilojoulesPerKilogram,
}

/// A capacity, split.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Split {
    /// Sensible part.
    pub sensible: Kilowatts,
    /// Latent part.
    pub latent: Kilowatts,
}

impl Split {
    /// Sensible share of the total.
    #[must_use]
    pub fn sensible_heat_ratio(self) -> f64 {
        self.sensible / (self.sensible + self.latent)
    }
}

impl Coil {
    /// A coil from its capacity, input, airflow and bypass factor.
    #[must_use]
    pub fn new(
        capacity: Kilowatts,
        power: Kilowatts,
        airflow: LitresPerSecond,
        bypass_factor: f64,
    ) -> Self {
        let reach =
            KilojoulesPerKilogram(capacity.0 / (mass_flow(airflow) * (1.0 - bypass_factor)));
        Self {
            capacity,
            power,
            reach,
        }
    }

    /// Sensible and latent capacity on room air: total capacity stays as published, the split follows the room.
    ///
    /// `h_adp = h_in - C/(m (1 - BF))`; dry where `W_adp >= W_i`, else `SHR = (h(T_i, W_adp) - h_adp)/(h_in - h_adp)`.
    ///
    /// # Source
    /// Bypass-factor method, ASHRAE.
    #[must_use]
    pub fn split(&self, room: Celsius, humidity_ratio: HumidityRatio, air: &SaturatedAir) -> Split {
        let h_in = enthalpy(room, humidity_ratio);
        let w_adp = air.humidity_ratio_at(h_in - self.reach);
        if w_adp >= humidity_ratio {
            return Split {
                sensible: self.capacity,
                latent: Kilowatts::ZERO,
            };
        }
        // h_in - h(T_i, W_adp) is the vapour's part of the enthalpy between entering air and coil surface.
        let vapour_part = h_in - enthalpy(room, w_adp);
        let latent = self.capacity * (vapour_part / self.reach);
        Split {
            sensible: self.capacity - latent,
            latent,
        }
    }

    /// Temperature of the coil's surface, as the method has it, on room air.
    #[must_use]
    pub fn apparatus_dew_point(
        &self,
        room: Celsius,
        humidity_ratio: HumidityRatio,
        air: &SaturatedAir,
    ) -> Celsius {
        air.temperature_at(enthalpy(room, humidity_ratio) - self.reach)
    }
}
