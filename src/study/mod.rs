//! One house against many units: figures, verdict, rank. The one place where everything above comes together.

mod brief;
mod caveat;
pub mod comparison;
pub mod explain;
mod judged;
mod load_sweep;
mod other_climate;
pub mod portrait;
mod ranking;
mod running_year;
mod sensible_sweep;
mod shortlist;
mod summer;
#[cfg(test)]
mod test_house;

pub use brief::{Brief, cooling_caveats};
pub use caveat::Caveat;
pub use judged::{Judged, Verdict};
pub use load_sweep::{Carries, GainPerKilowatt, LoadSweep, LoadSweepRow};
pub use other_climate::{OtherClimate, YearThere, coldest};
pub use ranking::{RankBy, price_currencies, rank};
pub use running_year::{RunningCosts, RunningYear};
pub use sensible_sweep::{SensibleSweepRow, sensible_sweep};
pub use shortlist::Shortlist;
pub use summer::{Summer, SummerRow, WithoutCallRow};
