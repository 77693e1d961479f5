//! The cooling side: does a unit sized for winter turn down far enough in summer to keep the house dry?
//!
//! [`coil`] says what a coil does to air, [`state`] how unit and house settle in one climate state,
//! [`season`] what that adds up to.

mod coil;
mod coil_check;
mod curves;
mod figures;
mod house_ratio;
mod latent_degradation;
mod room;
mod root;
mod season;
mod state;

pub use coil::{
    AirEnteringCoil, Coil, CoilWorking, InconsistentSensibleHeatRatio, Split, bypass_factor,
    coil_working,
};
pub use coil_check::check_coils;
pub use curves::{
    CoilPerformance, CoolingCurves, DEFAULT_AIRFLOW_PER_KILOWATT, DEFAULT_SENSIBLE_HEAT_RATIO,
    RATING_DRY_BULB, RATING_WET_BULB, RatedCoil,
};
pub use figures::CoolingFigures;
pub use house_ratio::house_sensible_heat_ratio_at_design;
pub use latent_degradation::{
    LatentDegradation, LatentWorking, PartLoadParameters, latent_multiplier, latent_working,
};
pub use room::{DESIGN_RELATIVE_HUMIDITY, Room};
pub use season::{
    CoolingSeason, HumiditySeason, Known, WithoutCall, cooling_season, need_without_call,
    without_call,
};
pub use state::{
    CoolingOperation, CoolingState, Delivery, Running, cooling_state, delivery, neighbouring_splits,
};
