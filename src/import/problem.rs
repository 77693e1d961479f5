//! What is wrong in a file that a user wrote: where, what was found, what was expected, and what may mend it.

use std::fmt;

/// One thing wrong in one file.
///
/// Reads as `larch-row.toml:9:15: heating.design_load: found "9 °C", expected a power (kW, W, …)`, and a hint follows on
/// a line of its own.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Problem {
    /// The file as the user named it.
    pub file: String,
    /// Line, counted from 1; `None`: the file as a whole.
    pub line: Option<usize>,
    /// Character in the line, counted from 1; `None`: the line as a whole, or the field's name says enough.
    pub column: Option<usize>,
    /// The key or the table column concerned, such as `heating.design_load` or `capacity_kw`.
    pub field: Option<String>,
    /// What stands there, as a reader is told: ``"9 °C"``, `nothing`, `3 cells`.
    pub found: String,
    /// What should stand there.
    pub expected: String,
    /// What may mend it.
    pub hint: Option<String>,
}

impl Problem {
    /// A problem with the file as a whole. `found` is words; for text out of the file use [`quoted`].
    #[must_use]
    pub fn new(
        file: impl Into<String>,
        found: impl Into<String>,
        expected: impl Into<String>,
    ) -> Self {
        Self {
            file: file.into(),
            line: None,
            column: None,
            field: None,
            found: found.into(),
            expected: expected.into(),
            hint: None,
        }
    }

    /// The same problem on a line, counted from 1.
    #[must_use]
    pub fn on_line(mut self, line: usize) -> Self {
        self.line = Some(line);
        self
    }

    /// The same problem at a character of its line, counted from 1.
    #[must_use]
    pub fn at_column(mut self, column: usize) -> Self {
        self.column = Some(column);
        self
    }

    /// The same problem with a key or table column named.
    #[must_use]
    pub fn in_field(mut self, field: impl Into<String>) -> Self {
        self.field = Some(field.into());
        self
    }

    /// The same problem with a hint.
    #[must_use]
    pub fn with_hint(mut self, hint: impl Into<String>) -> Self {
        self.hint = Some(hint.into());
        self
    }
}

impl fmt::Display for Problem {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(out, "{}", self.file)?;
        if let Some(line) = self.line {
            write!(out, ":{line}")?;
            if let Some(column) = self.column {
                write!(out, ":{column}")?;
            }
        }
        if let Some(field) = &self.field {
            write!(out, ": {field}")?;
        }
        write!(out, ": found {}, expected {}", self.found, self.expected)?;
        match &self.hint {
            Some(hint) => write!(out, "\n  hint: {hint}"),
            None => Ok(()),
        }
    }
}

/// Everything wrong that a reading found; never empty where it is returned as an error.
#[derive(Clone, Debug, Default, PartialEq, Eq, thiserror::Error)]
pub struct Problems(pub Vec<Problem>);

impl Problems {
    /// Notes one more.
    pub fn push(&mut self, problem: Problem) {
        self.0.push(problem);
    }

    /// Whether nothing is wrong.
    #[must_use]
    pub fn is_empty(&self) -> bool {
        self.0.is_empty()
    }

    /// How many things are wrong.
    #[must_use]
    pub fn len(&self) -> usize {
        self.0.len()
    }

    /// The value where nothing is wrong, else everything that is, in the order of the lines.
    ///
    /// # Errors
    /// The problems themselves, where there are any.
    pub fn or<T>(mut self, value: T) -> Result<T, Self> {
        if self.is_empty() {
            return Ok(value);
        }
        self.0
            .sort_by(|a, b| (&a.file, a.line, a.column).cmp(&(&b.file, b.line, b.column)));
        Err(self)
    }
}

impl From<Problem> for Problems {
    fn from(problem: Problem) -> Self {
        Self(vec![problem])
    }
}

impl fmt::Display for Problems {
    fn fmt(&self, out: &mut fmt::Formatter<'_>) -> fmt::Result {
        for (index, problem) in self.0.iter().enumerate() {
            if index > 0 {
                writeln!(out)?;
            }
            write!(out, "{problem}")?;
        }
        Ok(())
    }
}

/// The most characters of a file's text that a message repeats; the choice is ours.
const QUOTED_CHARACTERS: usize = 60;

/// Text out of a file as a message repeats it: in quotes, control characters escaped, cut where it is long; `nothing` for a blank.
#[must_use]
pub fn quoted(text: &str) -> String {
    let text = text.trim();
    if text.is_empty() {
        return "nothing".to_owned();
    }
    let mut quoted = String::from("\"");
    for (index, character) in text.chars().enumerate() {
        if index == QUOTED_CHARACTERS {
            quoted.push('…');
            break;
        }
        if character.is_control() {
            quoted.extend(character.escape_default());
        } else {
            quoted.push(character);
        }
    }
    quoted.push('"');
    quoted
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_problem_names_place_find_and_expectation() {
        let problem = Problem::new("larch-row.toml", quoted("9 °C"), "a power (kW, W)")
            .on_line(9)
            .at_column(15)
            .in_field("heating.design_load");
        assert_eq!(
            problem.to_string(),
            "larch-row.toml:9:15: heating.design_load: found \"9 °C\", expected a power (kW, W)"
        );
        let whole_file = Problem::new("points.csv", "nothing", "a header line")
            .with_hint("the first line names the columns");
        assert_eq!(
            whole_file.to_string(),
            "points.csv: found nothing, expected a header line\n  hint: the first line names the columns"
        );
    }

    #[test]
    fn problems_come_in_the_order_of_the_lines() {
        let on = |line| Problem::new("a.csv", "nothing", "a number").on_line(line);
        let problems = Problems(vec![on(10), on(9), Problem::new("a.csv", "x", "y")]);
        let text = problems.or(()).unwrap_err().to_string();
        assert_eq!(
            text,
            "a.csv: found x, expected y\na.csv:9: found nothing, expected a number\n\
             a.csv:10: found nothing, expected a number"
        );
        assert_eq!(Problems::default().or(7), Ok(7));
    }

    #[test]
    fn quoted_text_is_kept_short_and_visible() {
        assert_eq!(quoted(" 9 kW "), "\"9 kW\"");
        assert_eq!(quoted("  "), "nothing");
        assert_eq!(quoted("a\u{0}b"), "\"a\\u{0}b\"");
        assert_eq!(
            quoted(&"x".repeat(100_000)).chars().count(),
            QUOTED_CHARACTERS + 3
        );
    }
}
