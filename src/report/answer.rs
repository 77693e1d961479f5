//! The short list as data: the JSON document that scripts depend on. Full precision; rounding is for tables.

use serde::Serialize;

use super::other_climates::{OtherClimateAnswer, OtherClimates};
use crate::cooling::CoolingFigures;
use crate::criteria::{Ask, Reason};
use crate::heating::HeatingFigures;
use crate::quantity::UnitSystem;
use crate::study::{Caveat, Judged, Shortlist, Verdict};

/// The whole document.
#[derive(Debug, Serialize)]
pub struct Answer {
    /// The house's name.
    pub house: String,
    /// What was searched.
    pub catalog: CatalogSize,
    /// The climate's key; `None` without one.
    pub climate: Option<String>,
    /// Accepted, by rank.
    pub accepted: Vec<AcceptedUnit>,
    /// Rejected, by key.
    pub rejected: Vec<RejectedUnit>,
    /// Undecided, by key.
    pub undecided: Vec<UndecidedUnit>,
}

/// How much the catalog holds.
#[derive(Clone, Copy, Debug, Serialize)]
pub struct CatalogSize {
    /// Units.
    pub units: u64,
    /// Performance points.
    pub points: u64,
}

/// An accepted unit.
#[derive(Debug, Serialize)]
pub struct AcceptedUnit {
    /// 1 is best.
    pub rank: usize,
    /// The unit's key.
    pub unit: String,
    /// Heating figures.
    pub heating: HeatingAnswer,
    /// Cooling figures; empty where the house is not cooled.
    pub cooling: CoolingAnswer,
    /// What a reader must know beside it.
    pub caveats: Vec<Note>,
    /// What the year costs and causes, where it was asked for.
    #[serde(skip_serializing_if = "Option::is_none")]
    pub running: Option<RunningAnswer>,
    /// Its year in the other climates asked for.
    #[serde(skip_serializing_if = "Vec::is_empty")]
    pub other_climates: Vec<OtherClimateAnswer>,
}

/// What a year costs and causes, by the settled names.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs)]
pub struct RunningAnswer {
    pub annual_cost: Option<f64>,
    pub currency: Option<String>,
    pub annual_emissions_kg: Option<f64>,
}

/// A rejected unit.
#[derive(Debug, Serialize)]
pub struct RejectedUnit {
    /// The unit's key.
    pub unit: String,
    /// Heating figures.
    pub heating: HeatingAnswer,
    /// Cooling figures; empty where the house is not cooled.
    pub cooling: CoolingAnswer,
    /// Every reason.
    pub reasons: Vec<ReasonAnswer>,
    /// What a reader must know beside it.
    pub caveats: Vec<Note>,
}

/// An undecided unit.
#[derive(Debug, Serialize)]
pub struct UndecidedUnit {
    /// The unit's key.
    pub unit: String,
    /// Heating figures.
    pub heating: HeatingAnswer,
    /// Cooling figures; empty where the house is not cooled.
    pub cooling: CoolingAnswer,
    /// What to ask the supplier for.
    pub ask: Vec<Note>,
    /// What a reader must know beside it.
    pub caveats: Vec<Note>,
}

/// A code with its sentence.
#[derive(Clone, Debug, PartialEq, Eq, Serialize)]
pub struct Note {
    /// Stable code.
    pub code: &'static str,
    /// The sentence.
    pub text: String,
}

/// A reason with its numbers.
#[derive(Clone, Debug, PartialEq, Serialize)]
pub struct ReasonAnswer {
    /// Stable code.
    pub code: &'static str,
    /// What was found, as a sentence.
    pub text: String,
    /// The value found; `None` where it is a word.
    pub value: Option<f64>,
    /// The limit it misses; `None` where it is a word.
    pub limit: Option<f64>,
    /// The unit of both.
    pub unit: &'static str,
    /// What would close the gap.
    pub remedy: String,
}

/// Heating figures by their settled names. The season's are left out without a climate.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs)]
pub struct HeatingAnswer {
    pub load_at_design_kw: f64,
    pub capacity_at_design_kw: Option<f64>,
    pub margin: Option<f64>,
    pub balance_point_c: Option<f64>,
    pub coldest_point_c: Option<f64>,
    #[serde(flatten)]
    pub season: Option<HeatingSeasonAnswer>,
}

/// The winter's figures.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs)]
pub struct HeatingSeasonAnswer {
    pub heating_hours: f64,
    pub load_kwh: f64,
    pub heat_pump_kwh: f64,
    pub electricity_kwh: f64,
    pub backup_kwh: f64,
    pub share_carried: Option<f64>,
    pub seasonal_cop: Option<f64>,
    pub hours_below_balance: f64,
    pub unproven_hours: f64,
    pub cycling_hours: Option<f64>,
    pub heat_while_cycling_kwh: Option<f64>,
    /// Standby of the hours without a call for heating or cooling, not counted in `electricity_kwh`.
    pub standby_kwh: Option<f64>,
}

/// Cooling figures by their settled names.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[allow(missing_docs)]
pub struct CoolingAnswer {
    #[serde(flatten)]
    pub design: Option<CoolingDesignAnswer>,
    #[serde(flatten)]
    pub season: Option<CoolingSeasonAnswer>,
    #[serde(flatten)]
    pub humidity: Option<HumidityAnswer>,
}

/// At the cooling design temperature.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs)]
pub struct CoolingDesignAnswer {
    pub sensible_at_design_kw: f64,
    pub sensible_capacity_at_design_kw: Option<f64>,
    pub minimum_sensible_kw: Option<f64>,
}

/// The summer's figures.
#[derive(Clone, Debug, PartialEq, Serialize)]
#[allow(missing_docs)]
pub struct CoolingSeasonAnswer {
    pub cooling_hours: f64,
    pub sensible_kwh: Option<f64>,
    pub electricity_kwh: Option<f64>,
    pub cycling_hours: Option<f64>,
    pub unproven_hours: f64,
    pub shortfall_kwh: Option<f64>,
}

/// The summer's moisture.
#[derive(Clone, Debug, Default, PartialEq, Serialize)]
#[allow(missing_docs)]
pub struct HumidityAnswer {
    pub humid_hours: Option<f64>,
    pub humid_hours_without_call: Option<f64>,
    pub peak_rh: Option<f64>,
    pub moisture_removed_kg: Option<f64>,
    pub dehumidification_l_per_year: Option<f64>,
    pub dehumidification_peak_l_per_day: Option<f64>,
    /// Electricity of that dehumidification, at the dehumidifier's L/kWh where the house gives it.
    pub dehumidification_kwh: Option<f64>,
}

/// What the house says about its moisture, as far as the document needs it.
#[derive(Clone, Copy, Debug)]
pub struct MoistureContext {
    /// The house gives moisture gains.
    pub judged: bool,
    /// The dehumidifier's L/kWh.
    pub litres_per_kwh: Option<f64>,
}

impl MoistureContext {
    /// What a house says.
    #[must_use]
    pub fn of(house: &crate::house::House) -> Self {
        Self {
            judged: house.moisture.is_some(),
            litres_per_kwh: house
                .moisture
                .and_then(|moisture| moisture.dehumidifier_litres_per_kwh),
        }
    }
}

impl Answer {
    /// The document of a short list.
    #[must_use]
    pub fn of(
        house: &crate::house::House,
        catalog: CatalogSize,
        climate: Option<&str>,
        list: &Shortlist,
        elsewhere: Option<&OtherClimates>,
        units: UnitSystem,
    ) -> Self {
        let context = MoistureContext::of(house);
        let caveats = |judged: &Judged| notes(&judged.caveats, units);
        Self {
            house: house.name.clone(),
            catalog,
            climate: climate.map(str::to_owned),
            accepted: list
                .accepted
                .iter()
                .enumerate()
                .map(|(place, judged)| AcceptedUnit {
                    rank: place + 1,
                    unit: judged.model.key.clone(),
                    heating: heating(judged),
                    cooling: cooling(judged.cooling.as_ref(), context),
                    caveats: caveats(judged),
                    running: judged.running.map(|running| RunningAnswer {
                        annual_cost: running.cost.map(|cost| cost.0),
                        currency: house
                            .energy
                            .as_ref()
                            .and_then(|energy| energy.currency.clone()),
                        annual_emissions_kg: running.emissions.map(|emissions| emissions.0),
                    }),
                    other_climates: elsewhere
                        .map_or_else(Vec::new, |others| others.answers(&judged.model.key)),
                })
                .collect(),
            rejected: list
                .rejected
                .iter()
                .map(|judged| RejectedUnit {
                    unit: judged.model.key.clone(),
                    heating: heating(judged),
                    cooling: cooling(judged.cooling.as_ref(), context),
                    reasons: match &judged.verdict {
                        Verdict::Rejected(found) => reasons(found, units),
                        Verdict::Accepted | Verdict::Undecided(_) => Vec::new(),
                    },
                    caveats: caveats(judged),
                })
                .collect(),
            undecided: list
                .undecided
                .iter()
                .map(|judged| UndecidedUnit {
                    unit: judged.model.key.clone(),
                    heating: heating(judged),
                    cooling: cooling(judged.cooling.as_ref(), context),
                    ask: match &judged.verdict {
                        Verdict::Undecided(asks) => asked(asks),
                        Verdict::Accepted | Verdict::Rejected(_) => Vec::new(),
                    },
                    caveats: caveats(judged),
                })
                .collect(),
        }
    }
}

/// Reasons as data.
#[must_use]
pub fn reasons(reasons: &[Box<dyn Reason>], units: UnitSystem) -> Vec<ReasonAnswer> {
    reasons
        .iter()
        .map(|reason| ReasonAnswer {
            code: reason.code(),
            text: reason.sentence(units),
            value: reason.value(),
            limit: reason.limit(),
            unit: reason.unit(),
            remedy: reason.remedy(units),
        })
        .collect()
}

/// Questions as data.
#[must_use]
pub fn asked(asks: &[Ask]) -> Vec<Note> {
    asks.iter()
        .map(|ask| Note {
            code: ask.code.name(),
            text: ask.text.clone(),
        })
        .collect()
}

/// Caveats as data.
#[must_use]
pub fn notes(caveats: &[Caveat], units: UnitSystem) -> Vec<Note> {
    caveats
        .iter()
        .map(|caveat| Note {
            code: caveat.code(),
            text: caveat.text(units),
        })
        .collect()
}

/// Heating figures as data.
#[must_use]
pub fn heating(judged: &Judged) -> HeatingAnswer {
    let figures: &HeatingFigures = &judged.heating;
    HeatingAnswer {
        load_at_design_kw: figures.load_at_design.0,
        capacity_at_design_kw: figures.capacity_at_design.map(|capacity| capacity.0),
        margin: figures.margin(),
        balance_point_c: figures.balance_point.temperature().map(|balance| balance.0),
        coldest_point_c: figures.coldest_point.map(|coldest| coldest.0),
        season: figures.season.map(|season| HeatingSeasonAnswer {
            heating_hours: season.heating_hours.0,
            load_kwh: season.load.0,
            heat_pump_kwh: season.heat_pump.0,
            electricity_kwh: season.electricity.0,
            backup_kwh: season.backup.0,
            share_carried: season.share_carried(),
            seasonal_cop: season.seasonal_cop(),
            hours_below_balance: season.hours_below_balance.0,
            unproven_hours: season.unproven_hours.0,
            cycling_hours: figures.cycling_hours().map(|hours| hours.0),
            heat_while_cycling_kwh: figures.heat_while_cycling().map(|heat| heat.0),
            standby_kwh: judged.standby.map(|energy| energy.0),
        }),
    }
}

/// Cooling figures as data.
#[must_use]
pub fn cooling(figures: Option<&CoolingFigures>, context: MoistureContext) -> CoolingAnswer {
    let Some(figures) = figures else {
        return CoolingAnswer::default();
    };
    let season = figures.season;
    let known = season.and_then(|season| season.known);
    CoolingAnswer {
        design: Some(CoolingDesignAnswer {
            sensible_at_design_kw: figures.sensible_at_design.0,
            sensible_capacity_at_design_kw: figures
                .sensible_capacity_at_design
                .map(|capacity| capacity.0),
            minimum_sensible_kw: figures.minimum_sensible.map(|capacity| capacity.0),
        }),
        season: season.map(|season| CoolingSeasonAnswer {
            cooling_hours: season.cooling_hours.0,
            sensible_kwh: known.map(|known| known.sensible.0),
            electricity_kwh: known.map(|known| known.electricity.0),
            cycling_hours: known
                .and_then(|known| known.cycling_hours)
                .map(|hours| hours.0),
            unproven_hours: season.unproven_hours.0,
            shortfall_kwh: known.map(|known| known.shortfall.0),
        }),
        humidity: season.filter(|_| context.judged).map(|_| {
            known.and_then(|known| known.humidity).map_or_else(
                HumidityAnswer::default,
                |humidity| HumidityAnswer {
                    humid_hours: Some(humidity.humid_hours.0),
                    humid_hours_without_call: Some(humidity.humid_hours_without_call.0),
                    peak_rh: humidity.peak_relative_humidity,
                    moisture_removed_kg: Some(humidity.removed.0),
                    dehumidification_l_per_year: Some(humidity.supplemental.0),
                    dehumidification_peak_l_per_day: Some(
                        humidity.supplemental_peak.litres_per_day(),
                    ),
                    dehumidification_kwh: context
                        .litres_per_kwh
                        .map(|per| humidity.supplemental.0 / per),
                },
            )
        }),
    }
}
