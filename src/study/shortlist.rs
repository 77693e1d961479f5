//! The short list: accepted units in rank, the rest by key.

use super::{Judged, Verdict, rank};

/// All units of a catalog, judged and sorted.
#[derive(Debug, Default)]
pub struct Shortlist {
    /// Accepted, best first.
    pub accepted: Vec<Judged>,
    /// Rejected, by key.
    pub rejected: Vec<Judged>,
    /// Undecided, by key.
    pub undecided: Vec<Judged>,
}

impl Shortlist {
    /// Sorts judged units, which may come in any order: the answer does not depend on it.
    #[must_use]
    pub fn of(judged: Vec<Judged>, by: impl Fn(&Judged) -> Option<f64>) -> Self {
        let mut list = Self::default();
        for unit in judged {
            match unit.verdict {
                Verdict::Accepted => list.accepted.push(unit),
                Verdict::Rejected(_) => list.rejected.push(unit),
                Verdict::Undecided(_) => list.undecided.push(unit),
            }
        }
        rank(&mut list.accepted, by);
        list.rejected.sort_by(|a, b| a.model.key.cmp(&b.model.key));
        list.undecided.sort_by(|a, b| a.model.key.cmp(&b.model.key));
        list
    }
}
