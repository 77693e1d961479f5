//! Moisture that the house gains from people and from outdoor air.

use crate::quantity::{HumidityRatio, KilogramsPerHour, LitresPerSecond};

/// Moisture gains.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Moisture {
    /// From people, cooking, washing, plants.
    pub people_and_activities: KilogramsPerHour,
    /// Outdoor air that leaks in.
    pub infiltration: LitresPerSecond,
    /// Outdoor air that the ventilator brings in.
    pub ventilation: LitresPerSecond,
    /// Share of the moisture difference that the ventilator holds back, 0 to 1.
    pub latent_recovery: f64,
    /// Supplemental dehumidification already planned.
    pub dehumidifier: KilogramsPerHour,
    /// Water removed per electricity used by that dehumidifier \[L/kWh\].
    pub dehumidifier_litres_per_kwh: Option<f64>,
}

impl Moisture {
    /// Density at which a stated volume flow of air is turned into mass \[kg/m³\]: standard air (ASHRAE).
    pub const STANDARD_AIR_DENSITY: f64 = 1.204;

    /// Dry air exchanged per hour, as far as moisture is concerned \[kg/h\]: `3.6 · 1.204 · (V_inf + V_vent (1 - e_L))`.
    #[must_use]
    pub fn air_exchange(&self) -> f64 {
        3.6 * Self::STANDARD_AIR_DENSITY
            * (self.infiltration.0 + self.ventilation.0 * (1.0 - self.latent_recovery))
    }

    /// Moisture gain at an indoor and an outdoor humidity ratio; negative where dry outdoor air carries moisture out.
    #[must_use]
    pub fn gain(&self, indoor: HumidityRatio, outdoor: HumidityRatio) -> KilogramsPerHour {
        KilogramsPerHour(
            self.people_and_activities.0 + self.air_exchange() * (outdoor.0 - indoor.0),
        )
    }
}
