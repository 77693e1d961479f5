//! `overwinter cost`: what a year and a life of each way of heating come to.

use std::path::PathBuf;

use super::chosen_units::{chosen_units, none_accepted};
use super::new_file::WorkbookArguments;
use super::output::Format;
use super::unit_sources::sources_of;
use super::{App, CliError, Outcome};
use crate::climate::Climate;
use crate::economics::{Growth, Outlook};
use crate::equipment::Unit;
use crate::house::{Energy, House};
use crate::quantity::Money;
use crate::report::cost::{CostAnswer, CostView, cost_sheet, cost_table};
use crate::study::{Brief, Judged, Prospect, UnitCost, UnitCosts};

/// How many accepted units are shown where none is named.
const SHOWN: usize = 5;

/// Energy, cost, emissions and source energy of a year by each way of heating; with --years, of a life
///
/// Each unit is set against electric resistance alone and a fuel furnace
/// alone, at the prices and factors under [energy] of the house file: flat
/// prices, blocks by month, or prices by the hour where the climate is
/// hourly, with the monthly charge of each account that a way needs. What is
/// not given there is said to be `not given`; no price or factor is built in.
/// Every factor stands beneath the table with its source and year.
///
/// A life, with --years and --discount, each rate a fraction or a percentage
/// (0.03 or "3 %"):
///
///   cost of year k       C_k = sum of C_1 (1 + g)^(k - 1) over
///                        electricity, fuel and upkeep
///   lifetime cost        L = I + sum over k = 1 .. n of C_k / (1 + r)^k
///   the same as a year   L r / (1 - (1 + r)^-n), or L / n at r = 0
///   net present value    I_other - I_chosen, and added to it the sum of
///                        (C_k,other - C_k,chosen) / (1 + r)^k
///   payback              when the sum of those flows, not discounted,
///                        reaches zero; within a year in proportion
///   discounted payback   the same with each flow divided by (1 + r)^k
///
/// I is paid in year 0, bills at the end of their year; r is the discount
/// rate, g the growth of a price, n the years. Rates are all real or all
/// nominal. A furnace's fan is not counted. What is there already has an
/// investment of 0, which must be said.
#[derive(clap::Args)]
#[command(verbatim_doc_comment)]
pub struct Arguments {
    /// The house
    #[arg(value_name = "HOUSE.toml")]
    house: PathBuf,
    /// Units by key; default: the five best accepted ones
    #[arg(value_name = "UNIT")]
    named: Vec<String>,
    /// What is asked of a unit; without it, the built-in requirements at their defaults
    #[arg(long, value_name = "FILE.toml")]
    criteria: Option<PathBuf>,
    /// A climate of the catalog, in place of the house's own
    #[arg(long, value_name = "KEY")]
    climate: Option<String>,
    #[command(flatten)]
    life: LifeArguments,
    /// Form of the answer
    #[arg(long, value_enum, default_value_t)]
    format: Format,
    #[command(flatten)]
    workbook: WorkbookArguments,
}

/// What the buyer expects of the years to come.
#[derive(clap::Args)]
#[command(next_help_heading = "Life")]
struct LifeArguments {
    /// Service life in years
    #[arg(long, value_name = "N", requires = "discount")]
    years: Option<u16>,
    /// Discount rate a year, such as 0.03 or "3 %"
    #[arg(
        long,
        value_name = "RATE",
        value_parser = rate,
        requires = "years",
        allow_negative_numbers = true
    )]
    discount: Option<f64>,
    /// Growth of electricity's price a year; none where not given
    #[arg(
        long,
        value_name = "RATE",
        value_parser = rate,
        default_value_t = 0.0,
        requires = "years",
        allow_negative_numbers = true,
        hide_default_value = true
    )]
    growth_electricity: f64,
    /// Growth of fuel's price a year; none where not given
    #[arg(
        long,
        value_name = "RATE",
        value_parser = rate,
        default_value_t = 0.0,
        requires = "years",
        allow_negative_numbers = true,
        hide_default_value = true
    )]
    growth_fuel: f64,
    /// Growth of upkeep a year; none where not given
    #[arg(
        long,
        value_name = "RATE",
        value_parser = rate,
        default_value_t = 0.0,
        requires = "years",
        allow_negative_numbers = true,
        hide_default_value = true
    )]
    growth_upkeep: f64,
    /// What a heat pump costs with everything, the same for every unit
    #[arg(long, value_name = "AMOUNT", value_parser = amount, requires = "years", conflicts_with = "installation")]
    investment: Option<Money>,
    /// What installing costs, beside each unit's price in the catalog
    #[arg(long, value_name = "AMOUNT", value_parser = amount, requires = "years")]
    installation: Option<Money>,
    /// What of a heat pump's price is paid back
    #[arg(long, value_name = "AMOUNT", value_parser = amount, requires = "years")]
    grant: Option<Money>,
    /// What resistance heaters cost; 0 where they are there
    #[arg(long, value_name = "AMOUNT", value_parser = amount, requires = "years")]
    resistance_investment: Option<Money>,
    /// What a furnace costs; 0 where it is there
    #[arg(long, value_name = "AMOUNT", value_parser = amount, requires = "years")]
    furnace_investment: Option<Money>,
    /// Upkeep of a heat pump a year
    #[arg(long, value_name = "AMOUNT", value_parser = amount, requires = "years")]
    upkeep: Option<Money>,
    /// Upkeep of a furnace a year, also where it is the backup
    #[arg(long, value_name = "AMOUNT", value_parser = amount, requires = "years")]
    furnace_upkeep: Option<Money>,
}

impl LifeArguments {
    fn prospect(&self) -> Result<Option<Prospect>, CliError> {
        let Some((years, discount)) = self.years.zip(self.discount) else {
            return Ok(None);
        };
        let growth = Growth {
            electricity: self.growth_electricity,
            fuel: self.growth_fuel,
            upkeep: self.growth_upkeep,
        };
        let outlook = Outlook::new(discount, growth, years).map_err(CliError::input)?;
        Ok(Some(Prospect {
            outlook,
            heat_pump: self.investment,
            installation: self.installation,
            grant: self.grant.unwrap_or(Money::ZERO),
            resistance: self.resistance_investment,
            furnace: self.furnace_investment,
            upkeep: self.upkeep.unwrap_or(Money::ZERO),
            furnace_upkeep: self.furnace_upkeep.unwrap_or(Money::ZERO),
        }))
    }
}

/// Largest rate a year, up or down: what is above it was meant as a percentage.
const LARGEST_RATE: f64 = 0.5;

/// A rate a year on the command line, as a fraction: from `0.03` or `3 %`.
fn rate(text: &str) -> Result<f64, String> {
    let (number, scale) = match text.trim().strip_suffix('%') {
        Some(number) => (number.trim(), 0.01),
        None => (text.trim(), 1.0),
    };
    let Some(number) = number.parse::<f64>().ok().filter(|rate| rate.is_finite()) else {
        return Err("expected a rate a year, such as 0.03 or \"3 %\"".to_owned());
    };
    let rate = number * scale;
    if rate.abs() <= LARGEST_RATE {
        return Ok(rate);
    }
    let hint = if scale == 1.0 && number.abs() <= 50.0 {
        format!(
            "; for {number} % a year write {} or \"{number} %\"",
            number / 100.0
        )
    } else {
        String::new()
    };
    Err(format!(
        "that is {} % a year, and at most 50 % is taken{hint}",
        rate * 100.0
    ))
}

/// An amount of money on the command line.
fn amount(text: &str) -> Result<Money, String> {
    let amount = text.parse::<f64>().ok();
    amount
        .filter(|amount| amount.is_finite() && *amount >= 0.0)
        .map(Money)
        .ok_or_else(|| {
            "expected an amount of money, zero or above, without its currency".to_owned()
        })
}

/// Computes the costs.
///
/// # Errors
/// Where a file or the catalog cannot be read, a unit is not there, or the house names no climate.
pub fn run(arguments: Arguments, app: &mut App) -> Result<Outcome, CliError> {
    arguments.workbook.check()?;
    let prospect = arguments.life.prospect()?;
    let mut house = app.read_house(&arguments.house)?;
    // Without [energy] the kWh are still known, and everything else is said not to be given.
    house.energy.get_or_insert_default();
    let criteria = app.read_criteria(arguments.criteria.as_deref())?;
    let catalog = app.catalog()?;
    let wanted = arguments.climate.as_deref();
    let climate = app
        .climate_of(&catalog, &house, &arguments.house, wanted)?
        .ok_or_else(|| {
            CliError::input(format!(
                "the house file `{}` names no climate, and without one no year can be computed",
                arguments.house.display()
            ))
            .hint("name one with --climate KEY")
        })?;
    let brief = Brief::new(house, Some(&climate), criteria, app.units);
    let chosen = chosen_units(&catalog, &brief, &arguments.named, SHOWN)?;
    let sources = sources_of(&catalog, chosen.iter().map(|(unit, _)| unit))?;
    let costs = all_costs(brief.house(), &climate, &chosen, prospect.as_ref())?;
    let view = CostView {
        house: brief.house(),
        climate: &climate.key,
        prospect: prospect.as_ref(),
        width: app.look.width,
        without_season: &costs.without_season,
        no_cost: costs.no_cost.as_deref(),
        sources: &sources,
    };
    arguments
        .workbook
        .write(app, || cost_sheet(&view, &costs.units))?;
    match arguments.format {
        Format::Table if chosen.is_empty() => {}
        Format::Table => app.print(&cost_table(&view, &costs.units))?,
        Format::Json => app.print_json(&CostAnswer::of(&view, &costs.units))?,
        Format::Csv => app.print(&cost_sheet(&view, &costs.units).csv())?,
    }
    if chosen.is_empty() {
        return Err(none_accepted());
    }
    Ok(Outcome::Done)
}

struct Costs {
    units: Vec<UnitCost>,
    without_season: Vec<String>,
    no_cost: Option<String>,
}

fn all_costs(
    house: &House,
    climate: &Climate,
    chosen: &[(Unit, Judged)],
    prospect: Option<&Prospect>,
) -> Result<Costs, CliError> {
    let all = |house: &House| {
        let mut found = Costs {
            units: Vec::new(),
            without_season: Vec::new(),
            no_cost: None,
        };
        let costs = UnitCosts::new(house, climate);
        for (unit, judged) in chosen {
            let cost = match &costs {
                Some(costs) => costs.of(unit, judged, prospect)?,
                None => None,
            };
            match cost {
                Some(cost) => found.units.push(cost),
                None => found.without_season.push(unit.model.key.clone()),
            }
        }
        Ok(found)
    };
    all(house).or_else(|error: crate::economics::BillError| {
        // A tariff that asks more than the climate has leaves money unknown, and nothing else.
        let mut costs = all(&without_prices(house)).map_err(CliError::input)?;
        costs.no_cost = Some(error.to_string());
        Ok(costs)
    })
}

fn without_prices(house: &House) -> House {
    let energy = house.energy.clone().map(|energy| Energy {
        electricity_price: None,
        electricity_tariff: None,
        fuel_price: None,
        fuel_tariff: None,
        ..energy
    });
    House {
        energy,
        ..house.clone()
    }
}
