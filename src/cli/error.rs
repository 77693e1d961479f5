//! What went wrong, said to a person: what failed, where, and what to do next.

use std::fmt::Write as _;
use std::io::Write as _;
use std::process::ExitCode;

use super::exit::{CATALOG_UNUSABLE, INPUT_ERROR, NOTHING_ACCEPTED};
use crate::report::clean_lines;

/// Longest line of a message \[characters\]: whatever it names, it does not flood the terminal.
const LONGEST_LINE: usize = 600;

/// An error that ends a command.
#[derive(Debug)]
pub struct CliError {
    kind: Kind,
    message: String,
    hints: Vec<String>,
}

#[derive(Clone, Copy, Debug, PartialEq, Eq)]
enum Kind {
    Input,
    Catalog,
    NothingAccepted,
    /// The reader of our output went away (`| head`); not worth a word.
    ReaderGone,
}

impl CliError {
    /// A usage or input error: exit code 2.
    #[must_use]
    pub fn input(message: impl std::fmt::Display) -> Self {
        Self {
            kind: Kind::Input,
            message: message.to_string(),
            hints: Vec::new(),
        }
    }

    /// A catalog that cannot be used: exit code 3.
    #[must_use]
    pub fn catalog(message: impl std::fmt::Display) -> Self {
        Self {
            kind: Kind::Catalog,
            message: message.to_string(),
            hints: Vec::new(),
        }
    }

    /// No unit is accepted, so that there is none to look at: exit code 1.
    #[must_use]
    pub fn nothing_accepted() -> Self {
        Self {
            kind: Kind::NothingAccepted,
            message: "no unit of the catalog is accepted for this house".to_owned(),
            hints: vec!["`overwinter shortlist` shows why each is not".to_owned()],
        }
    }

    /// Adds what the reader might do next.
    #[must_use]
    pub fn hint(mut self, hint: impl std::fmt::Display) -> Self {
        self.hints.push(hint.to_string());
        self
    }

    /// The same error with the place that it concerns in front.
    #[must_use]
    pub fn in_place(mut self, place: &str) -> Self {
        self.message = format!("{place}: {}", self.message);
        self
    }

    pub(super) fn report(&self) -> ExitCode {
        let code = match self.kind {
            Kind::ReaderGone => return ExitCode::SUCCESS,
            Kind::Input => INPUT_ERROR,
            Kind::Catalog => CATALOG_UNUSABLE,
            Kind::NothingAccepted => NOTHING_ACCEPTED,
        };
        let mut text = format!("error: {}\n", self.message);
        for hint in &self.hints {
            let _ = writeln!(text, "hint: {hint}");
        }
        say(text.trim_end());
        ExitCode::from(code)
    }
}

/// Says something on standard error, a line at least.
pub(super) fn say(text: &str) {
    let text = clean_lines(&format!("{text}\n"), LONGEST_LINE);
    let _ = std::io::stderr().lock().write_all(text.as_bytes());
}

impl From<std::io::Error> for CliError {
    fn from(error: std::io::Error) -> Self {
        if error.kind() == std::io::ErrorKind::BrokenPipe {
            return Self {
                kind: Kind::ReaderGone,
                message: String::new(),
                hints: Vec::new(),
            };
        }
        Self::input(format!("cannot write the answer: {error}"))
    }
}

/// Prints what the argument parser has to say: help and version are answers, everything else is an input error.
pub(super) fn report_usage(error: &clap::Error) -> ExitCode {
    let _ = error.print();
    if error.use_stderr() {
        ExitCode::from(INPUT_ERROR)
    } else {
        ExitCode::SUCCESS
    }
}
