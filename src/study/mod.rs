//! One house against many units: figures, verdict, rank. The one place where everything above comes together.

mod brief;
mod caveat;
mod judged;
mod ranking;
mod shortlist;
mod summer;

pub use brief::{Brief, cooling_caveats};
pub use caveat::Caveat;
pub use judged::{Judged, Verdict};
pub use ranking::{RankBy, rank};
pub use shortlist::Shortlist;
pub use summer::{Summer, SummerRow, WithoutCallRow};
