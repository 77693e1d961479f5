//! One house against many units: figures, verdict, rank. The one place where everything above comes together.

mod brief;
mod caveat;
mod judged;
mod load_sweep;
mod ranking;
mod sensible_sweep;
mod shortlist;
mod summer;

pub use brief::{Brief, cooling_caveats};
pub use caveat::Caveat;
pub use judged::{Judged, Verdict};
pub use load_sweep::{Carries, GainPerKilowatt, LoadSweep, LoadSweepRow};
pub use ranking::{RankBy, rank};
pub use sensible_sweep::{SensibleSweepRow, sensible_sweep};
pub use shortlist::Shortlist;
pub use summer::{Summer, SummerRow, WithoutCallRow};
