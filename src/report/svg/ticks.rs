//! Round values to mark on an axis, and how they are written.

use super::scale::Span;

/// Marks on an axis: evenly spaced round values within a range, lowest first.
#[derive(Clone, Debug, PartialEq)]
pub struct Ticks {
    /// The values to mark.
    pub values: Vec<f64>,
    /// The distance between two marks: 1, 2 or 5 times a power of ten.
    pub step: f64,
}

impl Ticks {
    /// The round values within `span`, `about` of them: the step is the smallest that gives no more than
    /// `about` intervals over the range.
    #[must_use]
    pub fn within(span: Span, about: usize) -> Self {
        let step = nice_step(span, about);
        // Ticks are whole multiples of the step, so that rounding does not add up. A hair's breadth is forgiven at the ends.
        let first = (span.low() / step - 1e-9).ceil();
        let last = (span.high() / step + 1e-9).floor();
        let count = (last - first).clamp(0.0, 100.0) as usize;
        let values = (0..=count).map(|index| (first + index as f64) * step + 0.0);
        Self {
            values: values.filter(|_| last >= first).collect(),
            step,
        }
    }

    /// The range widened to whole steps at both ends, so that the axis begins and ends at a mark.
    #[must_use]
    pub fn rounded_out(span: Span, about: usize) -> Span {
        let step = nice_step(span, about);
        Span::new(
            (span.low() / step + 1e-9).floor() * step,
            (span.high() / step - 1e-9).ceil() * step,
        )
    }

    /// How the marks are written: all with as many decimals as the step needs.
    #[must_use]
    pub fn labels(&self) -> Vec<String> {
        let decimals = (-self.step.log10()).ceil().clamp(0.0, 9.0) as usize;
        self.values
            .iter()
            .map(|&value| written(value, decimals))
            .collect()
    }
}

/// The smallest step of 1, 2 or 5 times a power of ten that divides `span` into at most `about` intervals.
fn nice_step(span: Span, about: usize) -> f64 {
    let rough = (span.high() - span.low()) / about.max(1) as f64;
    let power = 10_f64.powf(rough.log10().floor());
    let digit = [1.0, 2.0, 5.0]
        .into_iter()
        .find(|digit| digit * power >= rough * (1.0 - 1e-9));
    digit.unwrap_or(10.0) * power
}

/// A number for a reader: a true minus sign, thin spaces between thousands from 10 000 up, `decimals` places;
/// `–` where it is not a number.
#[must_use]
pub fn written(value: f64, decimals: usize) -> String {
    if !value.is_finite() {
        return "–".to_owned();
    }
    let plain = format!("{:.decimals$}", value.abs());
    let is_zero = plain.chars().all(|c| matches!(c, '0' | '.'));
    let sign = if value < 0.0 && !is_zero { "−" } else { "" };
    let (whole, fraction) = plain.split_at(plain.find('.').unwrap_or(plain.len()));
    let mut grouped = String::new();
    for (index, digit) in whole.chars().enumerate() {
        if whole.len() > 4 && index > 0 && (whole.len() - index).is_multiple_of(3) {
            grouped.push('\u{202f}');
        }
        grouped.push(digit);
    }
    format!("{sign}{grouped}{fraction}")
}

/// A number given by someone, with one decimal only where it has one: a design temperature, the end of a range.
#[must_use]
pub fn brief(value: f64) -> String {
    let is_whole = (value - value.round()).abs() < 0.05;
    written(value, usize::from(!is_whole))
}

#[cfg(test)]
mod tests {
    use super::*;

    fn values(low: f64, high: f64, about: usize) -> Vec<f64> {
        Ticks::within(Span::new(low, high), about).values
    }

    #[test]
    fn ticks_are_round_and_within_the_range() {
        assert_eq!(
            values(-25.0, 15.0, 8),
            [-25.0, -20.0, -15.0, -10.0, -5.0, 0.0, 5.0, 10.0, 15.0]
        );
        assert_eq!(values(-23.0, 17.0, 4), [-20.0, -10.0, 0.0, 10.0]);
        assert_eq!(values(0.0, 9.2, 5), [0.0, 2.0, 4.0, 6.0, 8.0]);
        assert_eq!(values(0.0, 0.31, 4), [0.0, 0.1, 0.2, 0.30000000000000004]);
    }

    #[test]
    fn degenerate_ranges_still_give_ticks() {
        assert_eq!(values(3.0, 3.0, 2), [2.5, 3.0, 3.5]);
        assert!(!values(f64::NAN, f64::NAN, 5).is_empty());
        assert!(values(f64::MIN, f64::MAX, 5).len() <= 6);
        assert!(values(0.0, 1.0, 0).len() <= 2);
    }

    #[test]
    fn a_range_rounds_out_to_whole_steps() {
        assert_eq!(
            Ticks::rounded_out(Span::new(0.0, 9.2), 5),
            Span::new(0.0, 10.0)
        );
        assert_eq!(
            Ticks::rounded_out(Span::new(0.0, 10.0), 5),
            Span::new(0.0, 10.0)
        );
    }

    #[test]
    fn labels_share_the_decimals_of_the_step() {
        let labels = |low, high| Ticks::within(Span::new(low, high), 4).labels();
        assert_eq!(
            labels(-0.1, 0.1),
            ["−0.10", "−0.05", "0.00", "0.05", "0.10"]
        );
        assert_eq!(labels(-10.0, 10.0), ["−10", "−5", "0", "5", "10"]);
        assert_eq!(
            labels(0.0, 40_000.0),
            [
                "0",
                "10\u{202f}000",
                "20\u{202f}000",
                "30\u{202f}000",
                "40\u{202f}000"
            ]
        );
    }

    #[test]
    fn numbers_are_written_for_a_reader() {
        assert_eq!(written(-11.24, 1), "−11.2");
        assert_eq!(written(-0.04, 1), "0.0");
        assert_eq!(written(1234.0, 0), "1234");
        assert_eq!(written(-1234567.891, 2), "−1\u{202f}234\u{202f}567.89");
        assert_eq!(written(f64::NAN, 1), "–");
        assert_eq!([-18.0, -18.33, -0.01].map(brief), ["−18", "−18.3", "0"]);
    }
}
