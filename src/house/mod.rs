//! A house as its designer describes it: load lines, indoor conditions, moisture, site and energy.

mod calendar;
mod energy;
mod load_line;
mod moisture;
mod share;
mod tariff;

pub use calendar::{HoursOfDay, Months, month_name};
pub use energy::{Energy, Figure};
pub use load_line::{CoolingLoadLine, HeatingLoadLine};
pub use moisture::Moisture;
pub use tariff::{Period, Tariff, TariffError, Tier, TierSeason, TieredTariff, TimeOfDayTariff};

use crate::quantity::{Celsius, Kelvins, Metres};

/// What the indoor fan does while there is no call for cooling.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq)]
pub enum Fan {
    /// Runs only with the compressor.
    Auto,
    /// Runs always, and re-evaporates what the wet coil holds.
    #[default]
    Continuous,
}

/// Indoor set points.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Indoor {
    /// Dry bulb kept in the heating season.
    pub heating: Celsius,
    /// Dry bulb kept in the cooling season.
    pub cooling: Celsius,
    /// Relative humidity that is not to be passed, 0 to 1.
    pub humidity_limit: f64,
}

impl Indoor {
    /// The limit where the house names none: our choice, no source.
    pub const DEFAULT_HUMIDITY_LIMIT: f64 = 0.60;
}

/// The heating side of the house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Heating {
    /// Heat loss over outdoor temperature.
    pub load: HeatingLoadLine,
    /// An outdoor temperature, colder than design, at which the unit must still run.
    pub must_run_to: Option<Celsius>,
    /// Capacity wanted above the design load, as a fraction of it.
    pub reserve: f64,
}

/// The cooling side of the house.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Cooling {
    /// Sensible heat gain over outdoor temperature.
    pub load: CoolingLoadLine,
    /// What the indoor fan does between calls.
    pub fan: Fan,
}

/// Which climate the house stands in.
#[derive(Clone, Debug, PartialEq, Eq)]
pub enum ClimateReference {
    /// A climate in the catalog, by key.
    Catalog(String),
    /// A weather file beside the house file, as written there.
    File(String),
}

/// A house.
#[derive(Clone, Debug, PartialEq)]
pub struct House {
    /// What its designer calls it.
    pub name: String,
    /// Indoor set points.
    pub indoor: Indoor,
    /// Heating loads and wishes.
    pub heating: Heating,
    /// Cooling loads; `None`: cooling is not judged.
    pub cooling: Option<Cooling>,
    /// Moisture gains; `None`: humidity is not judged.
    pub moisture: Option<Moisture>,
    /// Height above sea level; `None`: not given, and taken as [`House::ASSUMED_ALTITUDE`].
    pub altitude: Option<Metres>,
    /// The climate it stands in; `None`: no season is computed.
    pub climate: Option<ClimateReference>,
    /// Prices and factors; `None`: no money or emissions are computed.
    pub energy: Option<Energy>,
}

impl House {
    /// The altitude of a house that gives none: sea level. **Our rule**.
    pub const ASSUMED_ALTITUDE: Metres = Metres(0.0);

    /// Height above sea level that is reckoned with.
    #[must_use]
    pub fn altitude(&self) -> Metres {
        self.altitude.unwrap_or(Self::ASSUMED_ALTITUDE)
    }

    /// The house with its heating design load replaced, the rest as it is.
    #[must_use]
    pub fn with_heating_design_load(&self, load: crate::quantity::Kilowatts) -> Self {
        let mut house = self.clone();
        house.heating.load.design_load = load;
        house
    }

    /// Whether outdoor `temperature` calls for neither heating nor cooling.
    #[must_use]
    pub fn is_without_call(&self, temperature: Celsius) -> bool {
        let warm_enough = temperature >= self.heating.load.zero_load_outdoor;
        let cool_enough = self
            .cooling
            .is_none_or(|cooling| temperature <= cooling.load.zero_load_outdoor);
        warm_enough && cool_enough
    }

    /// How far the two zero-load temperatures lie apart; negative where heating and cooling overlap.
    #[must_use]
    pub fn free_band(&self) -> Option<Kelvins> {
        self.cooling
            .map(|cooling| cooling.load.zero_load_outdoor - self.heating.load.zero_load_outdoor)
    }
}
