//! What an import did.

use crate::catalog::Change;

/// How many entries were new, replaced, or there already.
#[derive(Clone, Copy, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct Tally {
    /// Not there before.
    pub new: u64,
    /// Took the place of another content under the same key, whole.
    pub replaced: u64,
    /// There already, exactly so.
    pub unchanged: u64,
}

impl Tally {
    pub(super) fn count(&mut self, change: Change) {
        match change {
            Change::New => self.new += 1,
            Change::Replaced => self.replaced += 1,
            Change::Unchanged => self.unchanged += 1,
        }
    }

    /// All of them.
    #[must_use]
    pub fn total(self) -> u64 {
        self.new + self.replaced + self.unchanged
    }
}

/// What an import did.
#[derive(Clone, Debug, Default, PartialEq, Eq, serde::Serialize)]
pub struct Summary {
    /// Sources read.
    pub sources: Tally,
    /// Units read, each with its points where points were read.
    pub units: Tally,
    /// Points read.
    pub points: u64,
    /// Units read that have no points after the import; the first few keys.
    pub units_without_points: Vec<String>,
    /// How many units have no points after the import.
    pub units_without_points_count: u64,
}

impl Summary {
    /// Whether the catalog is what it was before.
    #[must_use]
    pub fn is_nothing_new(&self) -> bool {
        [self.sources, self.units]
            .iter()
            .all(|tally| tally.new + tally.replaced == 0)
    }
}
