//! A share of the cooling season's hours against its limit, with unproven hours kept apart.

use super::carries_cooling_design::{inconsistent_ratio, nothing_published};
use super::{AskCode, Case, Findings};
use crate::cooling::{CoolingCurves, CoolingSeason};
use crate::equipment::Turndown;
use crate::quantity::{Hours, fixed};

/// The curves of a unit whose summer is to be judged, once everything is asked for that its summer cannot be told without;
/// `None` where no hour calls for cooling or nothing is published for it.
pub(super) fn curves_in_season<'a>(
    case: &Case<'a>,
    season: &CoolingSeason,
    findings: &mut Findings,
) -> Option<&'a CoolingCurves> {
    if season.cooling_hours <= Hours::ZERO {
        return None;
    }
    let Some(curves) = case.cooling else {
        findings.unknown(AskCode::CapacityAtDesign, nothing_published(case));
        return None;
    };
    if curves.turndown() == Turndown::Unknown {
        findings.unknown(
            AskCode::MinimumCooling,
            "capacity, input, sensible heat ratio and airflow at the minimum speed in cooling",
        );
    }
    if season.known.is_none() {
        findings.unknown(AskCode::SensibleHeatRatio, inconsistent_ratio(case));
    }
    Some(curves)
}

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

/// A share above its limit, and the limit, in per cent: to as many decimals as tell them apart, three at most.
pub(super) fn percentages(share: f64, largest: f64) -> [String; 2] {
    let to = |decimals| [share, largest].map(|value| fixed(value * 100.0, decimals));
    let told_apart = (0..3).map(to).find(|[share, largest]| share != largest);
    told_apart.unwrap_or_else(|| to(3))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_share_a_little_above_its_limit_does_not_read_like_it() {
        assert_eq!(percentages(0.97, 0.7), ["97", "70"]);
        assert_eq!(percentages(0.704, 0.7), ["70.4", "70.0"]);
        assert_eq!(percentages(0.70004, 0.7), ["70.004", "70.000"]);
    }

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
