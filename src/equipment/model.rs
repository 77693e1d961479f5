//! A model of heat pump and the figures declared for it as a whole.

use super::SourceId;
use super::point::named;
use crate::quantity::{Celsius, LitresPerSecond, Pascals};

named! {
    /// How the indoor side delivers to the rooms.
    Form {
        /// One air handler with ducts.
        Ducted = "ducted",
        /// Wall-hung indoor unit.
        Wall = "wall",
        /// Floor-standing indoor unit.
        Floor = "floor",
        /// Ceiling cassette.
        Cassette = "cassette",
        /// Several kinds on one outdoor unit.
        Mixed = "mixed",
    }
}

/// A model: key, names, and declared figures. `None` is *not published*, never zero.
#[derive(Clone, Debug, PartialEq)]
pub struct Model {
    /// The catalog's name for the unit, unique in it.
    pub key: String,
    /// Maker's name.
    pub maker: Option<String>,
    /// Model name of the outdoor unit.
    pub outdoor_model: Option<String>,
    /// Model name of the indoor unit.
    pub indoor_model: Option<String>,
    /// How it delivers to the rooms.
    pub form: Form,
    /// Refrigerant designation (ISO 817), such as `R32`.
    pub refrigerant: Option<String>,
    /// Whether a certification body lists it.
    pub certified: Option<bool>,
    /// Heating seasonal performance factor \[Btu/Wh\].
    pub hspf: Option<f64>,
    /// The same by US 10 CFR 430 Appendix M1 \[Btu/Wh\].
    pub hspf2: Option<f64>,
    /// Seasonal coefficient of performance by EN 14825, average climate unless the source says otherwise.
    pub scop: Option<f64>,
    /// Seasonal energy efficiency ratio: \[Wh/Wh\] by EN 14825 where `scop` is declared, else \[Btu/Wh\].
    pub seer: Option<f64>,
    /// Seasonal energy efficiency ratio by US 10 CFR 430 Appendix M1 \[Btu/Wh\].
    pub seer2: Option<f64>,
    /// Coldest outdoor temperature at which heating is declared to run \[°C\].
    pub operates_to: Option<Celsius>,
    /// Indoor airflow \[L/s\].
    pub airflow: Option<LitresPerSecond>,
    /// External static pressure the fan can hold \[Pa\].
    pub external_static: Option<Pascals>,
    /// Outdoor sound power or pressure as the source states it \[dB(A)\].
    pub sound_db_a: Option<f64>,
    /// Minimum circuit ampacity \[A\].
    pub circuit_ampacity_a: Option<f64>,
    /// Electric input while no call \[W\].
    pub standby_w: Option<f64>,
    /// Cyclic degradation coefficient in heating, 0 to below 1.
    pub degradation_heating: Option<f64>,
    /// Cyclic degradation coefficient in cooling, 0 to below 1.
    pub degradation_cooling: Option<f64>,
    /// Price, in `currency`.
    pub price: Option<f64>,
    /// Currency code (ISO 4217) of the price.
    pub currency: Option<String>,
    /// Where the declared figures come from.
    pub source: SourceId,
}

impl Model {
    /// A model of which nothing but its key, form and source is published.
    #[must_use]
    pub fn new(key: impl Into<String>, form: Form, source: SourceId) -> Self {
        Self {
            key: key.into(),
            maker: None,
            outdoor_model: None,
            indoor_model: None,
            form,
            refrigerant: None,
            certified: None,
            hspf: None,
            hspf2: None,
            scop: None,
            seer: None,
            seer2: None,
            operates_to: None,
            airflow: None,
            external_static: None,
            sound_db_a: None,
            circuit_ampacity_a: None,
            standby_w: None,
            degradation_heating: None,
            degradation_cooling: None,
            price: None,
            currency: None,
            source,
        }
    }
}
