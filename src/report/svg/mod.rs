//! Charts as SVG, drawn by a small toolkit of our own.
//!
//! Each chart is one file with a struct of plain numbers and names and one function that turns it into a string.
//! The charts compute nothing but places on the sheet: every number on them was handed in.
//!
//! A page puts [`style_sheet`] into its `<style>` once and shows [`Frame::pair`] of each chart; a file of its own is
//! `draw(&data, &Frame::wide("id").standalone())`.

pub mod element;
pub mod labels;
pub mod measure;
pub mod path;
pub mod scale;
pub mod theme;
pub mod ticks;

mod axes;
mod band;
mod canvas;
mod hours;

mod comparison;
mod cooling_turndown;
mod cost_per_heat;
mod heat_delivered;
mod load_and_capacity;
mod psychrometric;

pub use band::BandPoint;
pub use canvas::{Caption, Frame};
pub use comparison::{Better, Comparison, Measure, comparison};
pub use cooling_turndown::{CoolingTurndown, cooling_turndown};
pub use cost_per_heat::{CostLine, CostPerHeat, cost_per_heat};
pub use heat_delivered::{HeatBin, HeatDelivered, heat_delivered};
pub use hours::BinHours;
pub use load_and_capacity::{LoadAndCapacity, load_and_capacity};
pub use psychrometric::{Coil, IndoorState, NamedLine, Psychrometric, psychrometric};
pub use theme::style_sheet;

/// The units that the numbers handed to a chart are in, as written on its axes.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub struct Units {
    /// Of temperatures, such as `°C`.
    pub temperature: &'static str,
    /// Of heat flows, such as `kW`.
    pub power: &'static str,
    /// Of energies, such as `kWh`.
    pub energy: &'static str,
}

impl Units {
    /// Degrees Celsius, kilowatts, kilowatt-hours.
    pub const METRIC: Self = Self {
        temperature: "°C",
        power: "kW",
        energy: "kWh",
    };
}

#[cfg(test)]
mod tests;
