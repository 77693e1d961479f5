//! One house against many units: figures, verdict, rank. The one place where everything above comes together.

mod brief;
mod caveat;
pub mod comparison;
pub mod explain;
mod judged;
mod ranking;
mod shortlist;

pub use brief::Brief;
pub use caveat::Caveat;
pub use judged::{Judged, Verdict};
pub use ranking::{RankBy, rank};
pub use shortlist::Shortlist;
