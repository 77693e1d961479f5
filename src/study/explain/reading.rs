//! Reading a curve at a temperature: between which published points, and by which line.

use super::{Authority, Measure, Step, Value};
use crate::equipment::{Curve, CurvePlace, Interpolate, ScaledLike, SpeedCurves};
use crate::quantity::Celsius;

/// What is read off a curve.
pub(super) struct Reading<'a, P> {
    /// What the step is called.
    pub title: String,
    /// Symbol of the quantity, such as `C` or `P`; points are numbered behind it.
    pub symbol: &'a str,
    /// Its unit.
    pub measure: Measure,
    /// How it is got from a point; `None` where it is not known there.
    pub of: fn(&P) -> Option<f64>,
}

impl<P: Interpolate> Reading<'_, P> {
    fn value(&self, number: f64) -> Value {
        Value::new(number, self.measure)
    }

    /// The step that reads the quantity off a curve; `None` where the curve has no value.
    pub fn step(&self, curve: &Curve<P>, outdoor: Celsius) -> Option<Step> {
        let result = (self.of)(&curve.at(outdoor)?)?;
        let symbol = self.symbol;
        let number = |n: u8| format!("{symbol}_{n}");
        let line = |a: &(Celsius, P), b: &(Celsius, P), at: Celsius, at_symbol: &str, authority| {
            let equation = format!(
                "{symbol}_1 + ({symbol}_2 - {symbol}_1) · ({at_symbol} - T_1) / (T_2 - T_1)"
            );
            let (first, second) = ((self.of)(&a.1)?, (self.of)(&b.1)?);
            Some((
                Step::new(self.title.clone(), authority)
                    .equation(symbol, &equation)
                    .with(&number(1), self.value(first))
                    .with(&number(2), self.value(second))
                    .with(at_symbol, at)
                    .with("T_1", a.0)
                    .with("T_2", b.0),
                first + (second - first) * ((at - a.0) / (b.0 - a.0)),
            ))
        };
        let step = match curve.place(outdoor) {
            CurvePlace::Unproven => return None,
            CurvePlace::AtPoint(_) => Step::new(self.title.clone(), Authority::Published)
                .reads(symbol, self.value(result))
                .note("published at this very temperature"),
            CurvePlace::Held(_) => Step::new(self.title.clone(), Authority::OurRule)
                .reads(symbol, self.value(result))
                .note("one point alone is held on the mild side"),
            CurvePlace::Between(a, b) => {
                let (step, _) = line(&a, &b, outdoor, "T", Authority::AppendixM1)?;
                step.gives(self.value(result))
            }
            CurvePlace::Continued {
                inner,
                last,
                limited,
            } => {
                let (step, straight) = line(&inner, &last, limited, "T", Authority::OurRule)?;
                let far = if limited == outdoor {
                    "past the mildest point the last slope is continued"
                } else {
                    "past the mildest point the last slope is continued for 10 K, then held"
                };
                if (straight - result).abs() > 1e-9 * (1.0 + straight.abs()) {
                    let equation = "published for the mildest point, trimmed to what is credible";
                    Step::new(self.title.clone(), Authority::OurRule)
                        .reads(symbol, self.value(result))
                        .note(format!("{far}; {equation}"))
                } else {
                    step.gives(self.value(result)).note(far)
                }
            }
        };
        Some(step)
    }

    /// The step that reads the minimum speed, which is scaled like the maximum where its own curve has ended.
    pub fn minimum_step(&self, speeds: &SpeedCurves<P>, outdoor: Celsius) -> Option<Step>
    where
        P: ScaledLike,
    {
        let result = (self.of)(&speeds.at(outdoor)?.minimum)?;
        let Some(minimum) = speeds.minimum() else {
            return self.step(speeds.maximum(), outdoor);
        };
        if minimum.at(outdoor).is_some() {
            return self.step(minimum, outdoor);
        }
        let (symbol, end) = (self.symbol, minimum.severe_end());
        let at_end = (self.of)(&minimum.at(end)?)?;
        let maximum_at_end = (self.of)(&speeds.maximum().at(end)?)?;
        let maximum = (self.of)(&speeds.maximum().at(outdoor)?)?;
        let scaled = maximum * at_end / maximum_at_end;
        let step = Step::new(self.title.clone(), Authority::OurRule);
        if (scaled - result).abs() > 1e-9 * (1.0 + scaled.abs()) {
            return Some(step.reads(symbol, self.value(result)).note(
                "the minimum's curve has ended at a milder temperature; its last value is kept",
            ));
        }
        let named = |place: &str| format!("{symbol}_{place}");
        Some(
            step.equation(
                symbol,
                &format!("{symbol}_max · {symbol}_e / {symbol}_max,e"),
            )
            .with(&named("max"), self.value(maximum))
            .with(&named("e"), self.value(at_end))
            .with(&named("max,e"), self.value(maximum_at_end))
            .gives(self.value(result))
            .note(format!(
                "the minimum's curve ends at {} °C; colder (hotter in cooling) it is scaled like the maximum",
                end.0
            )),
        )
    }
}
