//! Where the answer between heat pump and furnace changes over outdoor temperature.

use crate::quantity::{Celsius, Cop, Kelvins};

/// From which outdoor temperature down a furnace takes over.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum SwitchOver {
    /// Never: the heat pump runs at every heating temperature that occurs.
    Always,
    /// At every heating temperature that occurs: the heat pump never runs.
    Never,
    /// Colder than this the furnace runs, from it upward the heat pump.
    At(Celsius),
}

/// Who is ahead at an outdoor temperature.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Ahead {
    /// The heat pump: its COP is above the break-even value.
    HeatPump,
    /// The furnace.
    Furnace,
    /// The furnace, because the heat pump is locked out here or nothing is published for it.
    NoHeatPump,
}

impl Ahead {
    /// Who is ahead at a COP; `None`: locked out or unproven.
    #[must_use]
    pub fn at(cop: Option<Cop>, break_even: Cop) -> Self {
        match cop {
            None => Self::NoHeatPump,
            Some(cop) if cop > break_even => Self::HeatPump,
            Some(_) => Self::Furnace,
        }
    }
}

/// An outdoor temperature at which the answer changes.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct Crossing {
    /// Where.
    pub at: Celsius,
    /// Who is ahead just above it.
    pub warmer: Ahead,
    /// Who is ahead just below it.
    pub colder: Ahead,
}

/// Widest step between two looks at the COP. Two crossings closer than this within one piece cannot be told apart.
/// **Our rule**.
pub(super) const STEP: Kelvins = Kelvins(0.25);

/// Where bisection stops. A crossing this close to a knot is the knot.
const PRECISION: Kelvins = Kelvins(1e-9);

/// Every outdoor temperature at which the answer changes, warmest first.
///
/// The COP is looked at on every knot and in steps of at most 0.25 K between them; each change is bisected to 1e-9 K, jumps
/// as well as smooth crossings.
///
/// - `cop`  COP at the house's load; `None`: locked out or unproven
/// - `knots`  temperatures at which `cop` bends or jumps, in any order
/// - `coldest`, `warmest`  the range that is searched
#[must_use]
pub fn crossings(
    cop: &dyn Fn(Celsius) -> Option<Cop>,
    knots: &[Celsius],
    break_even: Cop,
    (coldest, warmest): (Celsius, Celsius),
) -> Vec<Crossing> {
    let ahead = |outdoor| Ahead::at(cop(outdoor), break_even);
    let looks = looks(knots, coldest, warmest);
    let mut found = Vec::new();
    for pair in looks.windows(2) {
        let (mut warm, cold) = (pair[0], pair[1]);
        let mut warmer = ahead(warm);
        while warmer != ahead(cold) {
            let (above, below) = bisect(warm, cold, |outdoor| ahead(outdoor) == warmer);
            let colder = ahead(below);
            let at = snapped(above, below, knots);
            found.push(Crossing { at, warmer, colder });
            (warm, warmer) = (below, colder);
        }
    }
    found
}

/// Temperatures to look at, warmest first: the ends, the knots between them, and steps of at most [`STEP`].
fn looks(knots: &[Celsius], coldest: Celsius, warmest: Celsius) -> Vec<Celsius> {
    let mut edges: Vec<f64> = knots.iter().map(|knot| knot.0).collect();
    edges.retain(|&edge| edge > coldest.0 && edge < warmest.0);
    edges.extend([coldest.0, warmest.0]);
    edges.sort_by(|left, right| right.total_cmp(left));
    edges.dedup();
    let mut looks = vec![Celsius(edges[0])];
    for pair in edges.windows(2) {
        looks.extend(steps(pair[0], pair[1], STEP).map(Celsius));
    }
    looks
}

/// Equal steps no wider than `widest` from `from` to `to`, `from` left out, `to` counted.
pub(super) fn steps(from: f64, to: f64, widest: Kelvins) -> impl Iterator<Item = f64> {
    let mut count = 1.0;
    while (to - from).abs() / count > widest.0 {
        count += 1.0;
    }
    std::iter::successors(Some(1.0), move |&step| (step < count).then_some(step + 1.0)).map(
        move |step| {
            if step < count {
                from + (to - from) * (step / count)
            } else {
                to
            }
        },
    )
}

/// Narrows `[cold, warm]`, where `holds(warm)` and not `holds(cold)`, to the change between them.
fn bisect(warm: Celsius, cold: Celsius, holds: impl Fn(Celsius) -> bool) -> (Celsius, Celsius) {
    let (mut above, mut below) = (warm.0, cold.0);
    while above - below > PRECISION.0 {
        let middle = f64::midpoint(above, below);
        if middle >= above || middle <= below {
            break;
        }
        if holds(Celsius(middle)) {
            above = middle
        } else {
            below = middle
        }
    }
    (Celsius(above), Celsius(below))
}

fn snapped(above: Celsius, below: Celsius, knots: &[Celsius]) -> Celsius {
    let middle = f64::midpoint(above.0, below.0);
    let near = knots
        .iter()
        .find(|knot| (knot.0 - middle).abs() <= 2.0 * PRECISION.0);
    near.copied().unwrap_or(Celsius(middle))
}

#[cfg(test)]
mod tests {
    use super::*;

    const RANGE: (Celsius, Celsius) = (Celsius(-30.0), Celsius(15.0));

    // By hand: COP 3 + 0.1 T falls to 2.2 at -8 °C.
    #[test]
    fn a_straight_cop_crosses_where_arithmetic_says() {
        let found = crossings(&|t| Some(Cop(3.0 + 0.1 * t.0)), &[], Cop(2.2), RANGE);
        assert_eq!(found.len(), 1);
        assert!((found[0].at.0 + 8.0).abs() < 1e-9);
        assert_eq!(
            (found[0].warmer, found[0].colder),
            (Ahead::HeatPump, Ahead::Furnace)
        );
    }

    #[test]
    fn the_end_of_what_is_published_is_found_exactly() {
        let cop = |t: Celsius| (t >= Celsius(-17.0)).then_some(Cop(3.0));
        let found = crossings(&cop, &[Celsius(-17.0)], Cop(2.0), RANGE);
        let expected = Crossing {
            at: Celsius(-17.0),
            warmer: Ahead::HeatPump,
            colder: Ahead::NoHeatPump,
        };
        assert_eq!(found, [expected]);
    }

    #[test]
    fn a_dip_between_two_good_ranges_gives_two_crossings() {
        let cop = |t: Celsius| Some(Cop(2.0 + (t.0 / 10.0).powi(2)));
        let found = crossings(&cop, &[], Cop(2.25), RANGE);
        let at: Vec<f64> = found
            .iter()
            .map(|crossing| (crossing.at.0 * 1e6).round() / 1e6)
            .collect();
        assert_eq!(at, [5.0, -5.0]);
        assert_eq!(found[1].colder, Ahead::HeatPump);
    }

    #[test]
    fn a_jump_past_two_answers_within_one_step_is_seen_whole() {
        let cop = |t: Celsius| match t.0 {
            t if t >= -10.0 => Some(Cop(3.0)),
            t if t >= -10.1 => Some(Cop(1.0)),
            _ => None,
        };
        let answers: Vec<_> = crossings(&cop, &[], Cop(2.0), RANGE)
            .iter()
            .map(|found| found.colder)
            .collect();
        assert_eq!(answers, [Ahead::Furnace, Ahead::NoHeatPump]);
    }

    #[test]
    fn at_break_even_itself_the_furnace_is_ahead() {
        assert_eq!(Ahead::at(Some(Cop(2.0)), Cop(2.0)), Ahead::Furnace);
    }
}
