//! The cooling side: does a unit sized for winter turn down far enough in summer to keep the house dry?
//!
//! [`coil`] says what a coil does to air, [`state`] how unit and house settle in one climate state,
//! [`season`] what that adds up to.

mod coil;
mod curves;
mod figures;
mod house_ratio;
mod latent_degradation;
mod room;
mod root;
mod season;
mod state;

pub use coil::{AirEnteringCoil, Coil, InconsistentSensibleHeatRatio, Split, bypass_factor};
pub use curves::{
    CoilPerformance, CoolingCurves, DEFAULT_AIRFLOW_PER_KILOWATT, DEFAULT_SENSIBLE_HEAT_RATIO,
    RATING_DRY_BULB, RATING_WET_BULB,
};
pub use figures::CoolingFigures;
pub use house_ratio::house_sensible_heat_ratio_at_design;
pub use latent_degradation::{LatentDegradation, PartLoadParameters, latent_multiplier};
pub use room::{DESIGN_RELATIVE_HUMIDITY, Room};
pub use season::{
    CoolingSeason, HumiditySeason, Known, WithoutCall, cooling_season, need_without_call,
    without_call,
};
pub use state::{CoolingOperation, CoolingState, Delivery, Running, cooling_state, delivery};
