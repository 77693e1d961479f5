//! Money, emissions and source energy: what a year costs and causes, what a lifetime costs, and where a furnace takes over.
//!
//! No price or factor is built in: what the user does not give stays unknown.

mod annual;
mod bill;
mod break_even;
mod dual_fuel;
mod heat_pump_heat;
mod lifetime;
mod payback;
mod price_sweep;
mod profile;
mod switch_over;

pub use annual::{Annual, AnnualCost, System, Uses, annual};
pub use bill::{Bill, BillError, bill};
pub use break_even::{Factors, Measure, break_even, break_even_ratio};
pub use dual_fuel::{DualFuel, DualFuelYear};
pub use heat_pump_heat::{HeatPumpHeat, heat_pump_knots};
pub use lifetime::{
    Growth, Investment, Outlook, OutlookError, YearlyCost, annuity, cash_flows, lifetime_cost,
    net_present_value,
};
pub use payback::{Payback, discounted_payback, simple_payback};
pub use price_sweep::{PriceSweep, SweepRow};
pub use profile::{Day, EnergyProfile, OutsideCalendar};
pub use switch_over::{Ahead, Crossing, SwitchOver, crossings};
