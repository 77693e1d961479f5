//! How many of something, in words.

use std::fmt::Display;

/// A count with its noun: `1 finding`, `2 findings`.
///
/// - `count`  a whole number, or one that is written as such
#[must_use]
pub fn counted(count: impl Display, one: &str, many: &str) -> String {
    let count = count.to_string();
    let noun = if count == "1" { one } else { many };
    format!("{count} {noun}")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn one_is_singular_and_none_and_more_are_plural() {
        assert_eq!(counted(1, "finding", "findings"), "1 finding");
        assert_eq!(counted(0, "finding", "findings"), "0 findings");
        assert_eq!(counted(21, "finding", "findings"), "21 findings");
    }
}
