//! A share of the cooling season's hours against its limit, with unproven hours kept apart.

use crate::quantity::Hours;

/// How a share of hours stands against its limit.
pub(super) enum ShareOutcome {
    /// It holds even with every unproven hour counted against it.
    Holds,
    /// It fails even without them.
    Fails {
        /// The share found.
        share: f64,
    },
    /// The unproven hours decide.
    Unproven,
}

/// Judges `counted` of `all` hours against a largest share, while `unproven` hours could go either way.
pub(super) fn judge_share(
    counted: Hours,
    unproven: Hours,
    all: Hours,
    largest: f64,
) -> ShareOutcome {
    if all <= Hours::ZERO {
        return ShareOutcome::Holds;
    }
    let share = counted / all;
    if share > largest {
        ShareOutcome::Fails { share }
    } else if (counted + unproven) / all > largest {
        ShareOutcome::Unproven
    } else {
        ShareOutcome::Holds
    }
}
