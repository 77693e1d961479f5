//! How a command ends.

use std::process::ExitCode;

/// Exit code where nothing was accepted.
pub const NOTHING_ACCEPTED: u8 = 1;
/// Exit code of a usage or input error: nothing was changed.
pub const INPUT_ERROR: u8 = 2;
/// Exit code where the catalog is damaged or newer than the program.
pub const CATALOG_UNUSABLE: u8 = 3;

/// How a command that ran through has ended.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Outcome {
    /// It did what was asked: exit code 0.
    Done,
    /// It answered, and nothing was accepted: exit code 1.
    NothingAccepted,
}

impl From<Outcome> for ExitCode {
    fn from(outcome: Outcome) -> Self {
        match outcome {
            Outcome::Done => Self::SUCCESS,
            Outcome::NothingAccepted => Self::from(NOTHING_ACCEPTED),
        }
    }
}
