//! What a cycling coil loses of its drying when the fan runs on: the wet coil gives its water back to the room.

use std::sync::LazyLock;

/// Parameters of the part-load latent degradation model.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct PartLoadParameters {
    /// Time for the coil's hold-up to drip, at rated latent capacity \[s\].
    pub wetting_time: f64,
    /// Ratio of the initial evaporation rate to the rated latent capacity.
    pub evaporation_ratio: f64,
    /// Cycles per hour at half load, where they are most frequent.
    pub cycles_per_hour: f64,
    /// Time constant of the capacity's rise at start \[s\].
    pub time_constant: f64,
}

impl PartLoadParameters {
    /// The set used here: 1000 s, 1.5, 3 per hour, 45 s.
    pub const DEFAULT: Self = Self {
        wetting_time: 1000.0,
        evaporation_ratio: 1.5,
        cycles_per_hour: 3.0,
        time_constant: 45.0,
    };
}

/// Share of the steady latent capacity that is left at a run-time fraction, with the indoor fan running on.
///
/// `t_on = 3600/(4 N (1-X))`, `t_off = 3600/(4 N X)`, `t_off' = min(t_off, 2 t_wet/γ)`,
/// `a = γ t_off' - γ² t_off'²/(4 t_wet)`, `t_o` the root of `t_o = a - τ (exp(-t_o/τ) - 1)`,
/// `L = max(0, (t_on - t_o)/(t_on + τ (exp(-t_on/τ) - 1)))`.
///
/// - `run_fraction`  X, 0 to 1   - returns 0 to 1; 1 at X = 1
///
/// # Source
/// Henderson and Rengarajan 1996, ASHRAE Transactions 102(1), in the form of public building-simulation engines.
#[must_use]
pub fn latent_multiplier(run_fraction: f64, parameters: PartLoadParameters) -> f64 {
    if run_fraction >= 1.0 {
        return 1.0;
    }
    if run_fraction <= 0.0 {
        return 0.0;
    }
    unlimited(run_fraction, parameters).clamp(0.0, 1.0)
}

/// The times of one cycle, from which the latent multiplier follows.
#[derive(Clone, Copy, Debug, PartialEq)]
pub struct LatentWorking {
    /// How long the compressor runs \[s\].
    pub on_time: f64,
    /// How long it stands \[s\].
    pub off_time: f64,
    /// How much of that the coil spends giving its water back \[s\].
    pub evaporating_time: f64,
    /// `a`: the time at steady drying that makes up for what evaporated \[s\].
    pub lost_time: f64,
    /// `t_o`: how long after its start the unit begins to dry the room again \[s\].
    pub regain_time: f64,
    /// The multiplier before it is limited to 0 to 1.
    pub unlimited: f64,
}

/// The model without its limits, so that the curve has no kink where it reaches zero; `run_fraction` above 0, below 1.
fn unlimited(run_fraction: f64, parameters: PartLoadParameters) -> f64 {
    latent_working(run_fraction, parameters).unlimited
}

/// How [`latent_multiplier`] is arrived at, step by step; `run_fraction` above 0, below 1.
#[must_use]
pub fn latent_working(run_fraction: f64, parameters: PartLoadParameters) -> LatentWorking {
    let PartLoadParameters {
        wetting_time,
        evaporation_ratio,
        cycles_per_hour,
        time_constant: tau,
    } = parameters;
    let t_on = 3600.0 / (4.0 * cycles_per_hour * (1.0 - run_fraction));
    let t_off = 3600.0 / (4.0 * cycles_per_hour * run_fraction);
    let evaporating = t_off.min(2.0 * wetting_time / evaporation_ratio);
    let a = evaporation_ratio * evaporating
        - (evaporation_ratio * evaporating).powi(2) / (4.0 * wetting_time);
    let t_o = regain_time(a, tau);
    LatentWorking {
        on_time: t_on,
        off_time: t_off,
        evaporating_time: evaporating,
        lost_time: a,
        regain_time: t_o,
        unlimited: (t_on - t_o) / (t_on + tau * ((-t_on / tau).exp() - 1.0)),
    }
}

/// The root of `t = a - τ (exp(-t/τ) - 1)`: Newton's method from `a + τ`, beyond the root, on a convex function.
fn regain_time(a: f64, tau: f64) -> f64 {
    let mut t = a + tau;
    for _ in 0..100 {
        let decay = (-t / tau).exp();
        let step = (t - a + tau * (decay - 1.0)) / (1.0 - decay).max(1e-12);
        t -= step;
        if step.abs() < 1e-11 * (1.0 + t.abs()) {
            break;
        }
    }
    t
}

/// The same curve with the default parameters, laid out as cubic pieces, for tens of millions of look-ups.
///
/// # Accuracy
/// Within 1e-9 of [`latent_multiplier`].
#[derive(Debug)]
pub struct LatentDegradation {
    /// Coefficients of each piece in its local coordinate.
    pieces: Vec<[f64; 4]>,
}

/// Below this run-time fraction nothing is left with the default parameters (it vanishes below 0.562).
const FIRST: f64 = 0.5;
const PIECES: usize = 512;

static DEFAULT_CURVE: LazyLock<LatentDegradation> = LazyLock::new(LatentDegradation::lay_out);

impl LatentDegradation {
    /// The curve for [`PartLoadParameters::DEFAULT`].
    #[must_use]
    pub fn default_curve() -> &'static Self {
        &DEFAULT_CURVE
    }

    fn lay_out() -> Self {
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let step = (1.0 - FIRST) / PIECES as f64;
        let at = |node: f64| {
            let run_fraction = FIRST + step * node;
            if run_fraction < 1.0 {
                unlimited(run_fraction, PartLoadParameters::DEFAULT)
            } else {
                1.0
            }
        };
        let pieces = (0..PIECES)
            .map(|piece| {
                #[expect(clippy::cast_precision_loss, reason = "a small count")]
                let x = piece as f64;
                // The cubic through four values of the piece itself, so that no piece looks across a kink.
                let (y0, y1, y2, y3) = (at(x), at(x + 1.0 / 3.0), at(x + 2.0 / 3.0), at(x + 1.0));
                [
                    y0,
                    -5.5 * y0 + 9.0 * y1 - 4.5 * y2 + y3,
                    9.0 * y0 - 22.5 * y1 + 18.0 * y2 - 4.5 * y3,
                    -4.5 * y0 + 13.5 * y1 - 13.5 * y2 + 4.5 * y3,
                ]
            })
            .collect();
        Self { pieces }
    }

    /// Share of the steady latent capacity left at a run-time fraction.
    #[must_use]
    pub fn at(&self, run_fraction: f64) -> f64 {
        if run_fraction >= 1.0 {
            return 1.0;
        }
        if run_fraction <= FIRST {
            return 0.0;
        }
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let position = (run_fraction - FIRST) / (1.0 - FIRST) * PIECES as f64;
        #[expect(
            clippy::cast_possible_truncation,
            clippy::cast_sign_loss,
            reason = "between zero and PIECES, checked"
        )]
        let piece = (position as usize).min(PIECES - 1);
        #[expect(clippy::cast_precision_loss, reason = "a small count")]
        let x = position - piece as f64;
        let [a, b, c, d] = self.pieces[piece];
        (a + x * (b + x * (c + x * d))).clamp(0.0, 1.0)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_laid_out_curve_agrees_with_the_model() {
        for step in 0..=100_000 {
            let x = f64::from(step) / 100_000.0;
            let (found, expected) = (
                LatentDegradation::default_curve().at(x),
                latent_multiplier(x, PartLoadParameters::DEFAULT),
            );
            assert!((found - expected).abs() < 1e-9, "{x}: {found} ≠ {expected}");
        }
    }
}
