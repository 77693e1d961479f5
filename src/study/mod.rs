//! One house against many units: figures, verdict, rank. The one place where everything above comes together.

mod brief;
mod caveat;
mod comparable;
pub mod comparison;
pub mod explain;
mod judged;
mod judged_quote;
mod load_sweep;
mod other_climate;
pub mod portrait;
mod price_ratio;
mod quote;
mod ranking;
mod running_year;
mod sensible_sweep;
mod shortlist;
mod summer;
#[cfg(test)]
mod test_house;
mod unit_cost;
mod unit_switch_over;

pub use brief::{Brief, cooling_caveats};
pub use caveat::Caveat;
pub use judged::{Judged, Verdict};
pub use judged_quote::{
    JudgedQuote, JudgedQuoteUnit, QuoteBrief, QuoteVerdict, UnitFinding, order_quotes,
};
pub use load_sweep::{Carries, Carrying, GainPerKilowatt, LoadSweep, LoadSweepRow, Smallest};
pub use other_climate::{OtherClimate, YearThere, coldest};
pub use price_ratio::{PriceRatioRow, PriceRatioSweep};
pub use quote::{Quote, QuoteTotal, QuotedUnit};
pub use ranking::{RankBy, price_currencies, rank};
pub use running_year::{RunningCosts, RunningYear};
pub use sensible_sweep::{SensibleSweepRow, sensible_sweep};
pub use shortlist::Shortlist;
pub use summer::{Summer, SummerRow, WithoutCallRow};
pub use unit_cost::{InsteadOf, Lifetime, Prospect, SystemCost, UnitCost, UnitCosts};
pub use unit_switch_over::{
    MeasureSwitchOver, RatioSwitchOver, UnitSwitchOver, Year as UnitSwitchOverYear,
};
