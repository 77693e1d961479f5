//! Rejected units under the first reason of each, the nearest to passing first.

use std::collections::BTreeMap;

use crate::criteria::REASON_CODES;
use crate::study::{Judged, Verdict};

/// Units rejected for one first reason.
#[derive(Debug)]
pub struct RejectedGroup<'a> {
    /// The reason's code.
    pub code: &'static str,
    /// What the reason means.
    pub meaning: &'static str,
    /// The units, nearest to passing first.
    pub units: Vec<&'a Judged>,
}

/// The groups, in the order in which requirements are judged.
#[must_use]
pub fn rejected_groups(rejected: &[Judged]) -> Vec<RejectedGroup<'_>> {
    let mut groups: BTreeMap<usize, Vec<&Judged>> = BTreeMap::new();
    for judged in rejected {
        let Verdict::Rejected(reasons) = &judged.verdict else {
            continue;
        };
        let first = reasons.first().map_or("", |reason| reason.code());
        let place = REASON_CODES
            .iter()
            .position(|(code, _)| *code == first)
            .unwrap_or(REASON_CODES.len());
        groups.entry(place).or_default().push(judged);
    }
    groups
        .into_iter()
        .map(|(place, mut units)| {
            let (code, meaning) = REASON_CODES.get(place).copied().unwrap_or(("", ""));
            units.sort_by(|a, b| {
                miss(a)
                    .total_cmp(&miss(b))
                    .then_with(|| a.model.key.cmp(&b.model.key))
            });
            RejectedGroup {
                code,
                meaning,
                units,
            }
        })
        .collect()
}

/// How far a unit misses its first requirement, as a fraction of the limit.
fn miss(judged: &Judged) -> f64 {
    let Verdict::Rejected(reasons) = &judged.verdict else {
        return 0.0;
    };
    reasons
        .first()
        .and_then(|reason| {
            Some(((reason.value()? - reason.limit()?) / reason.limit()?.abs().max(1e-9)).abs())
        })
        .unwrap_or(f64::INFINITY)
}
