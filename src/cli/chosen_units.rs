//! The units that a command looks at: those named, else the best accepted ones.

use super::CliError;
use crate::catalog::Catalog;
use crate::equipment::Unit;
use crate::study::{Brief, Judged, RankBy, Shortlist};

/// The units named, in that order; without names, the accepted ones with the lowest annual electricity, at most `top`. None
/// where none is accepted.
///
/// # Errors
/// Where a named unit is not in the catalog, or the catalog cannot be read.
pub(super) fn chosen_units(
    catalog: &Catalog,
    brief: &Brief,
    named: &[String],
    top: usize,
) -> Result<Vec<(Unit, Judged)>, CliError> {
    if !named.is_empty() {
        return named
            .iter()
            .map(|key| {
                let unit = catalog.unit(key)?;
                let judged = brief.judge(&unit);
                Ok((unit, judged))
            })
            .collect();
    }
    let judged = catalog.judge_all(|unit| brief.judge(unit))?;
    let list = Shortlist::of(judged, |judged| RankBy::Electricity.figure(judged));
    list.accepted
        .into_iter()
        .take(top)
        .map(|judged| Ok((catalog.unit(&judged.model.key)?, judged)))
        .collect()
}

/// What to say where no unit is accepted and none was named.
pub(super) fn none_accepted() -> CliError {
    CliError::nothing_accepted().hint("or name the units to look at after the house file")
}
