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

#[cfg(test)]
mod tests {
    use super::*;

    fn outcome(counted: f64, unproven: f64) -> ShareOutcome {
        judge_share(Hours(counted), Hours(unproven), Hours(100.0), 0.7)
    }

    #[test]
    fn a_share_at_the_limit_holds_and_one_above_fails() {
        assert!(matches!(outcome(70.0, 0.0), ShareOutcome::Holds));
        assert!(matches!(
            outcome(71.0, 0.0),
            ShareOutcome::Fails { share: 0.71 }
        ));
    }

    #[test]
    fn unproven_hours_count_neither_for_nor_against_a_unit() {
        assert!(matches!(outcome(60.0, 10.0), ShareOutcome::Holds));
        assert!(matches!(outcome(60.0, 11.0), ShareOutcome::Unproven));
        assert!(matches!(outcome(71.0, 29.0), ShareOutcome::Fails { .. }));
    }

    #[test]
    fn no_hours_are_no_failure() {
        let none = judge_share(Hours::ZERO, Hours::ZERO, Hours::ZERO, 0.0);
        assert!(matches!(none, ShareOutcome::Holds));
    }
}
