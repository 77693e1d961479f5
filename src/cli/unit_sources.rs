//! The sources behind the units that an answer shows.

use std::collections::BTreeSet;

use super::CliError;
use super::shortlist::source_words;
use crate::catalog::Catalog;
use crate::equipment::Unit;

/// The sources of these units' figures and points, each once, by title, publisher, year and kind.
///
/// # Errors
/// Where the catalog cannot be read.
pub(super) fn sources_of<'a>(
    catalog: &Catalog,
    units: impl IntoIterator<Item = &'a Unit>,
) -> Result<Vec<String>, CliError> {
    let used: BTreeSet<_> = units
        .into_iter()
        .flat_map(|unit| {
            let points = unit.points.iter().map(|point| point.source);
            points.chain([unit.model.source])
        })
        .collect();
    used.into_iter()
        .map(|id| Ok(source_words(&catalog.source(id)?)))
        .collect()
}
