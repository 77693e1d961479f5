//! Collects the problems of an import: all of them, up to a bound that keeps memory bounded, and the number of the rest.

use crate::import::{Problem, Problems};

/// How many problems are told one by one; the choice is ours.
const TOLD: usize = 10_000;

/// Problems found so far, and the file being read.
#[derive(Default)]
pub(super) struct ProblemList {
    file: String,
    told: Vec<Problem>,
    more: usize,
}

impl ProblemList {
    /// Names the file that is read from now on.
    pub(super) fn begin(&mut self, file: &str) {
        file.clone_into(&mut self.file);
    }

    /// The file being read.
    pub(super) fn file(&self) -> &str {
        &self.file
    }

    /// Notes one.
    pub(super) fn push(&mut self, problem: Problem) {
        if self.told.len() < TOLD {
            self.told.push(problem);
        } else {
            self.more += 1;
        }
    }

    /// Whether nothing is wrong.
    pub(super) fn is_empty(&self) -> bool {
        self.told.is_empty()
    }

    /// The problems, and how many more there were.
    pub(super) fn into_parts(self) -> (Problems, usize) {
        (Problems(self.told), self.more)
    }
}
