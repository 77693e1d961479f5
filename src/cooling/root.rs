//! The root of a falling function within a bracket.

/// How narrow the bracket gets: in humidity ratio, a tenth of a billionth of a gram per kilogram.
const BRACKET: f64 = 1e-13;
/// A value this small, on slopes that put the root this near, is the root: 1e-10 kg/h in a moisture balance.
const SMALL: f64 = 1e-10;
/// See [`SMALL`].
const NEAR: f64 = 1e-12;

/// The root of `f` between a point where it is not negative and one where it is not positive.
///
/// Chandrupatla's method: inverse quadratic interpolation where the last three points are well behaved, else bisection;
/// it never leaves the bracket and needs six to eight evaluations on a moisture balance.
///
/// - `above`, `below`  (place, value of `f` there), value ≥ 0 and ≤ 0
/// - returns the place, within 1e-12
///
/// # Source
/// T. R. Chandrupatla 1997, Advances in Engineering Software 28(3).
pub fn falling_root(f: &impl Fn(f64) -> f64, above: (f64, f64), below: (f64, f64)) -> f64 {
    let (mut newest, mut opposite) = (below, above);
    if above.1 <= 0.0 {
        return above.0;
    }
    if below.1 >= 0.0 {
        return below.0;
    }
    // The first step is the secant's.
    let mut step = newest.1 / (newest.1 - opposite.1);
    for _ in 0..200 {
        let place = newest.0 + step * (opposite.0 - newest.0);
        let found = (place, f(place));
        let previous;
        if (found.1 < 0.0) == (newest.1 < 0.0) {
            previous = newest;
        } else {
            previous = opposite;
            opposite = newest;
        }
        newest = found;
        let best = if opposite.1.abs() < newest.1.abs() {
            opposite
        } else {
            newest
        };
        let smallest = BRACKET / (opposite.0 - newest.0).abs();
        if smallest > 0.5 || best.1 == 0.0 {
            return best.0;
        }
        // By the gentler of the two slopes, so that a steep stretch beyond a kink does not pass for nearness.
        let slope = |other: (f64, f64)| ((newest.1 - other.1) / (newest.0 - other.0)).abs();
        if newest.1.abs() < SMALL.min(NEAR * slope(previous).min(slope(opposite))) {
            return newest.0;
        }
        let xi = (newest.0 - opposite.0) / (previous.0 - opposite.0);
        let phi = (newest.1 - opposite.1) / (previous.1 - opposite.1);
        step = if phi * phi < xi && (1.0 - phi) * (1.0 - phi) < 1.0 - xi {
            newest.1 / (opposite.1 - newest.1) * previous.1 / (opposite.1 - previous.1)
                + (previous.0 - newest.0) / (opposite.0 - newest.0) * newest.1
                    / (previous.1 - newest.1)
                    * opposite.1
                    / (previous.1 - opposite.1)
        } else {
            0.5
        };
        step = step.clamp(smallest, 1.0 - smallest);
    }
    newest.0
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn roots_with_and_without_kinks_are_found_as_bisection_finds_them() {
        let curves: [fn(f64) -> f64; 3] = [
            |x| 0.3 - x,
            |x| (0.25 - x).min(2.0 * (0.25 - x)),
            |x| (-8.0 * x).exp() - 0.1 - x,
        ];
        for f in curves {
            let (mut low, mut high) = (0.0, 1.0);
            for _ in 0..200 {
                let middle = f64::midpoint(low, high);
                if f(middle) > 0.0 {
                    low = middle
                } else {
                    high = middle
                }
            }
            let found = falling_root(&f, (0.0, f(0.0)), (1.0, f(1.0)));
            assert!((found - low).abs() < 2e-12, "{found} ≠ {low}");
        }
    }
}
