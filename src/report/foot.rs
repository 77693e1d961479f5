//! What stands beneath an answer about units: what a reader must know of each, where the numbers come from, the cautions.

use super::cautions::CAUTIONS;
use super::table::paragraph;
use crate::quantity::UnitSystem;
use crate::study::Judged;

/// Caveats, each once, with the units that it concerns.
#[must_use]
pub fn caveats<'a>(judged: impl IntoIterator<Item = &'a Judged>, units: UnitSystem) -> Vec<String> {
    let mut found: Vec<(String, Vec<&str>)> = Vec::new();
    for unit in judged {
        let key = unit.model.key.as_str();
        for caveat in &unit.caveats {
            let text = caveat.text(units);
            match found.iter_mut().find(|(words, _)| *words == text) {
                Some((_, keys)) if keys.contains(&key) => {}
                Some((_, keys)) => keys.push(key),
                None => found.push((text, vec![key])),
            }
        }
    }
    found
        .into_iter()
        .map(|(text, keys)| format!("Caveat for {}: {text}.", keys.join(", ")))
        .collect()
}

/// The sources of the units shown, and what no answer must be taken for.
#[must_use]
pub fn sources_and_cautions(sources: &[String], width: u16) -> String {
    let sources = sources.iter().map(|source| format!("Source: {source}"));
    sources
        .chain(CAUTIONS.map(str::to_owned))
        .map(|line| paragraph(&line, width, "", "  "))
        .collect()
}
