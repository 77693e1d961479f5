//! A fingerprint of what an answer was computed from, so that a reader can tell whether the same inputs lie before them.
//!
//! SHA-256 (FIPS 180-4) of each input, and of all of them together.

use std::fmt::Write as _;
use std::io;

use sha2::{Digest, Sha256};

use crate::climate::State;

/// Content being hashed: whatever is written into it, in order.
#[derive(Clone, Debug, Default)]
pub struct Content(Sha256);

impl Content {
    /// The digest of what was written, in hexadecimal.
    #[must_use]
    pub fn digest(self) -> String {
        self.0
            .finalize()
            .iter()
            .fold(String::new(), |mut text, byte| {
                let _ = write!(text, "{byte:02x}");
                text
            })
    }
}

impl io::Write for Content {
    fn write(&mut self, bytes: &[u8]) -> io::Result<usize> {
        self.0.update(bytes);
        Ok(bytes.len())
    }

    fn flush(&mut self) -> io::Result<()> {
        Ok(())
    }
}

/// The digest of a text, byte by byte.
#[must_use]
pub fn text_digest(text: &str) -> String {
    let mut content = Content::default();
    content.0.update(text.as_bytes());
    content.digest()
}

/// The digest of a climate's states: hours, °C and kg/kg of each in its order, every digit.
#[must_use]
pub fn climate_digest(states: &[State]) -> String {
    let mut content = Content::default();
    for state in states {
        let water = state
            .humidity_ratio
            .map_or_else(String::new, |ratio| format!("{:?}", ratio.0));
        let line = format!("{:?},{:?},{water}\n", state.hours.0, state.outdoor.0);
        content.0.update(line.as_bytes());
    }
    content.digest()
}

/// One input with its digest.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct InputPrint {
    /// What it is, in words, and what of it is covered.
    pub covers: String,
    /// SHA-256 in hexadecimal.
    pub digest: String,
}

/// The inputs with their digests, and one digest over all.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Fingerprint {
    /// The inputs, in a fixed order.
    pub inputs: Vec<InputPrint>,
    /// SHA-256 over the inputs' digests, one a line, in their order.
    pub whole: String,
}

impl Fingerprint {
    /// The fingerprint of these inputs.
    #[must_use]
    pub fn of(inputs: Vec<InputPrint>) -> Self {
        let lines: String = inputs
            .iter()
            .map(|input| format!("{}\n", input.digest))
            .collect();
        Self {
            inputs,
            whole: text_digest(&lines),
        }
    }

    /// The first 16 digits of the whole in groups of four: enough to compare two sheets of paper by eye.
    #[must_use]
    pub fn short(&self) -> String {
        let digits: Vec<char> = self.whole.chars().take(16).collect();
        let groups: Vec<String> = digits
            .chunks(4)
            .map(|group| group.iter().collect())
            .collect();
        groups.join(" ")
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::{Celsius, Hours};

    // FIPS 180-4's example: SHA-256 of "abc".
    #[test]
    fn a_text_has_its_published_digest() {
        assert_eq!(
            text_digest("abc"),
            "ba7816bf8f01cfea414140de5dae2223b00361a396177a9cb410ff61f20015ad"
        );
        let mut content = Content::default();
        io::Write::write_all(&mut content, b"a").unwrap();
        io::Write::write_all(&mut content, b"bc").unwrap();
        assert_eq!(content.digest(), text_digest("abc"));
    }

    #[test]
    fn the_smallest_change_of_any_input_changes_the_whole() {
        let print = |house: &str, outdoor: f64| {
            let state = State {
                hours: Hours(1.0),
                outdoor: Celsius(outdoor),
                humidity_ratio: None,
            };
            let input = |covers: &str, digest| InputPrint {
                covers: covers.to_owned(),
                digest,
            };
            Fingerprint::of(vec![
                input("house", text_digest(house)),
                input("climate", climate_digest(&[state])),
            ])
        };
        let first = print("a", 1.0);
        assert_eq!(first, print("a", 1.0));
        assert_ne!(first.whole, print("a ", 1.0).whole);
        assert_ne!(first.whole, print("a", 1.0_f64.next_up()).whole);
        assert_eq!(first.short().len(), 19);
        assert!(first.whole.starts_with(&first.short()[..4]));
    }
}
