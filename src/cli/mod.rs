//! The command line.

use std::process::ExitCode;

/// Runs the command line and returns its exit code.
#[must_use]
pub fn main() -> ExitCode {
    ExitCode::SUCCESS
}
