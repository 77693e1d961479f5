//! A unit's declared seasonal figures held against its own published points.

mod assumption;
mod by_en14825;
mod by_m1;
mod published;

use crate::equipment::Unit;

pub use assumption::Assumption;
pub use published::MissingPoint;

/// How far a declared figure and the recomputed one may lie apart before the declaration is worth a question: 2 %.
///
/// Our choice. Of 24 certified air-to-air units recomputed from their certified points, 22 SCOP lie within 0.8 % of the
/// certified figure and 21 SEER within 0.6 %; the worst lie 3 % off. Rounding of the declared figure alone accounts for
/// about 1 %.
pub const CATALOG_TOLERANCE: f64 = 0.02;

/// A declared seasonal figure, by its column in `units.csv`.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Figure {
    /// Seasonal coefficient of performance, EN 14825.
    Scop,
    /// Seasonal energy efficiency ratio, EN 14825 where a SCOP is declared beside it.
    Seer,
    /// Heating seasonal performance factor, Appendix M1 \[Btu/Wh\].
    Hspf2,
    /// Seasonal energy efficiency ratio, Appendix M1 \[Btu/Wh\].
    Seer2,
}

impl Figure {
    /// The figure's column.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Scop => "scop",
            Self::Seer => "seer",
            Self::Hspf2 => "hspf2",
            Self::Seer2 => "seer2",
        }
    }
}

/// One declared figure, and what came of recomputing it.
#[derive(Clone, Debug, PartialEq)]
pub struct Recomputed {
    /// Which figure.
    pub figure: Figure,
    /// Its declared value.
    pub declared: f64,
    /// What came of it.
    pub outcome: Outcome,
}

/// What came of recomputing a figure.
#[derive(Clone, Debug, PartialEq)]
pub enum Outcome {
    /// Recomputed.
    Compared(Comparison),
    /// Points that the procedure needs are not published; never empty.
    Missing(Vec<MissingPoint>),
    /// The points are there and lead to nothing physical, in words.
    Unphysical(String),
    /// The figure belongs to a procedure that is not recomputed here: SEER in Btu/Wh by the older Appendix M, whose
    /// tests were made at other static pressures than the catalog's points.
    OtherProcedure,
}

/// A recomputed figure beside the declared one.
///
/// A procedure needs inputs that a catalog does not hold: a design load, the electricity of auxiliary modes. Each is
/// varied over the values it may have, which gives a lowest and a highest figure; a declared figure between the two, or
/// within the tolerance beside them, is inside.
#[derive(Clone, Debug, PartialEq)]
pub struct Comparison {
    /// The figure with the likeliest design load and unknown powers at zero.
    pub recomputed: f64,
    /// The lowest figure over the values that unknown inputs may have; `recomputed` where nothing is unknown.
    pub lowest: f64,
    /// The highest figure over the same.
    pub highest: f64,
    /// `recomputed / declared - 1`.
    pub deviation: f64,
    /// Tolerance beside the two figures, as a fraction of the declared one: [`CATALOG_TOLERANCE`].
    pub tolerance: f64,
    /// Whether the declared figure lies inside.
    pub inside: bool,
    /// What was taken as given without being published.
    pub assumptions: Vec<Assumption>,
}

impl Comparison {
    fn new(declared: f64, recomputed: f64, others: &[f64], assumptions: Vec<Assumption>) -> Self {
        let tolerance = CATALOG_TOLERANCE;
        let lowest = others.iter().copied().fold(recomputed, f64::min);
        let highest = others.iter().copied().fold(recomputed, f64::max);
        let inside =
            highest >= declared * (1.0 - tolerance) && lowest <= declared * (1.0 + tolerance);
        let deviation = recomputed / declared - 1.0;
        Self {
            recomputed,
            lowest,
            highest,
            deviation,
            tolerance,
            inside,
            assumptions,
        }
    }
}

/// Recomputes every seasonal figure that a unit declares, in the order SCOP, SEER, HSPF2, SEER2.
///
/// # Source
/// [`super::en14825`] and [`super::m1`]; which catalog speed serves as which test is our rule, stated there where the
/// points are picked.
#[must_use]
pub fn recompute(unit: &Unit) -> Vec<Recomputed> {
    let model = &unit.model;
    let by_en14825 = model.scop.is_some();
    [
        (Figure::Scop, model.scop),
        (Figure::Seer, model.seer),
        (Figure::Hspf2, model.hspf2),
        (Figure::Seer2, model.seer2),
    ]
    .into_iter()
    .filter_map(|(figure, declared)| Some((figure, declared?)))
    .map(|(figure, declared)| {
        let outcome = match figure {
            Figure::Scop => by_en14825::scop(unit, declared),
            Figure::Seer if by_en14825 => by_en14825::seer(unit, declared),
            Figure::Seer => Outcome::OtherProcedure,
            Figure::Hspf2 => by_m1::hspf2(unit, declared),
            Figure::Seer2 => by_m1::seer2(unit, declared),
        };
        Recomputed {
            figure,
            declared,
            outcome,
        }
    })
    .collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_declared_figure_between_the_two_recomputed_ones_is_inside_and_one_beyond_the_tolerance_is_not()
     {
        let inside = |declared| Comparison::new(declared, 5.0, &[4.0], Vec::new()).inside;
        assert!(inside(4.5));
        assert!(inside(5.1));
        assert!(inside(3.93));
        assert!(!inside(5.11));
        assert!(!inside(3.92));
    }
}
