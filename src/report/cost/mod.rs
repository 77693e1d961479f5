//! Units' years and lives by every way of heating, as table, data and sheet.

mod data;
mod table;

pub(super) use data::FactorAnswer;
pub use data::{CostAnswer, cost_sheet};
pub use table::cost_table;

use crate::economics::{Payback, System};
use crate::house::House;
use crate::quantity::fixed;
use crate::study::{Prospect, UnitCost};

/// How costs are to be shown.
#[derive(Clone, Copy, Debug)]
pub struct CostView<'a> {
    /// The house.
    pub house: &'a House,
    /// The climate's key.
    pub climate: &'a str,
    /// What the buyer expects; `None`: only the year is shown.
    pub prospect: Option<&'a Prospect>,
    /// Characters that fit a line.
    pub width: u16,
    /// Units whose season is not known, by key.
    pub without_season: &'a [String],
    /// Why nothing is priced, where a tariff asks more than the climate has.
    pub no_cost: Option<&'a str>,
    /// Titles of the sources behind the units.
    pub sources: &'a [String],
}

impl CostView<'_> {
    fn currency(&self) -> &str {
        let energy = self.house.energy.as_ref();
        energy
            .and_then(|energy| energy.currency.as_deref())
            .unwrap_or("money")
    }
}

/// A way of heating in a table's few words.
fn short_name(system: System) -> &'static str {
    match system {
        System::HeatPumpWithResistance => "heat pump",
        System::HeatPumpWithFuel => "dual fuel",
        System::ElectricResistance => "resistance",
        System::FuelFurnace => "furnace",
    }
}

fn payback_words(payback: Payback) -> String {
    match payback {
        Payback::AtOnce => "at once".to_owned(),
        Payback::Years(years) => format!("{} years", fixed(years, 1)),
        Payback::Never => "never".to_owned(),
    }
}

/// What stands beneath the table: what was counted, each factor with its source, what is not given.
fn foot(view: &CostView<'_>, units: &[UnitCost]) -> Vec<String> {
    let mut foot = vec![
        "Counted: heating, cooling and standby, and the monthly charges that are given. `heat pump` has electric resistance as \
         its backup, `dual fuel` the furnace; `resistance` and `furnace` heat alone. Cooling is the unit's own in every row. \
         Standby is counted where there is a heat pump, a fuel account where fuel is burned. The furnace's fan is not counted."
            .to_owned(),
    ];
    let silent: Vec<&str> = units
        .iter()
        .filter(|unit| !unit.standby_is_published)
        .map(|unit| unit.key.as_str())
        .collect();
    if !silent.is_empty() {
        foot.push(format!(
            "Standby is not published, so none is counted: {}.",
            silent.join(", ")
        ));
    }
    if !view.without_season.is_empty() {
        foot.push(format!(
            "Left out, as their season is not known: {}.",
            view.without_season.join(", ")
        ));
    }
    if let Some(why) = view.no_cost {
        foot.push(format!("No cost is computed: {why}."));
    }
    let mut missing: Vec<&str> = units
        .iter()
        .flat_map(|unit| &unit.systems)
        .flat_map(|system| system.annual.not_given.iter().copied())
        .filter(|name| view.no_cost.is_none() || !name.ends_with("_price"))
        .collect();
    missing.sort_unstable();
    missing.dedup();
    if !missing.is_empty() {
        foot.push(format!(
            "Not given under [energy], and nothing is assumed in its place: {}.",
            missing.join(", ")
        ));
    }
    if let Some(prospect) = view.prospect {
        foot.extend(prospect_words(view, prospect));
    }
    if let Some(energy) = &view.house.energy {
        foot.extend(super::factor_words::factor_words(energy));
    }
    foot.extend(
        view.sources
            .iter()
            .map(|source| format!("Source: {source}")),
    );
    foot.extend(super::cautions::CAUTIONS.map(str::to_owned));
    foot
}

fn prospect_words(view: &CostView<'_>, prospect: &Prospect) -> Vec<String> {
    let outlook = &prospect.outlook;
    let growth = outlook.growth();
    let percent = |rate: f64| format!("{} %", fixed(rate * 100.0, 1));
    let mut words = vec![format!(
        "Over {} years at {} a year discount; growth a year of electricity {}, of fuel {}, of upkeep {}; upkeep a year of the \
         heat pump {}, of the furnace {} {}; grant {}. All of it as given on the command line, else none.",
        outlook.years(),
        percent(outlook.discount_rate()),
        percent(growth.electricity),
        percent(growth.fuel),
        percent(growth.upkeep),
        fixed(prospect.upkeep.0, 0),
        fixed(prospect.furnace_upkeep.0, 0),
        view.currency(),
        fixed(prospect.grant.0, 0),
    )];
    if view.house.cooling.is_some() {
        words.push(
            "The other ways do not cool: where they would need an air conditioner, its price belongs into their investment."
                .to_owned(),
        );
    }
    let mut options = Vec::new();
    if prospect.heat_pump.is_none() && prospect.installation.is_none() {
        options.push("--investment, or --installation beside a catalog price in the same currency");
    }
    if prospect.resistance.is_none() {
        options.push("--resistance-investment");
    }
    if prospect.furnace.is_none() {
        options.push("--furnace-investment");
    }
    if !options.is_empty() {
        words.push(format!(
            "An investment that is not given leaves its life unknown; give {} (0 for what is there already).",
            options.join(" and ")
        ));
    }
    words
}
