//! Units side by side: the same figures for each, and which is best in each row.

use super::comparable::is_comparable;
use super::explain::{Measure, Value};
use super::{Judged, Verdict};
use crate::cooling::{CoolingSeason, Known};
use crate::heating::BalancePoint;
use crate::quantity::Hours;

/// What a unit has in a row.
#[derive(Clone, Debug, PartialEq)]
pub enum Figure {
    /// A number.
    Number(Value),
    /// A temperature colder than this one, with no place known.
    Below(Value),
    /// A word.
    Word(String),
    /// Not published, or not known for want of something published.
    Missing,
}

impl<T: Into<Value>> From<Option<T>> for Figure {
    fn from(value: Option<T>) -> Self {
        value.map_or(Self::Missing, |value| Self::Number(value.into()))
    }
}

/// Which way a row is better.
#[derive(Clone, Copy, Debug, PartialEq, Eq)]
pub enum Better {
    /// The larger the better.
    More,
    /// The smaller (or colder) the better.
    Less,
    /// Neither: it is only told.
    Neither,
}

/// One row.
#[derive(Clone, Debug, PartialEq)]
pub struct ComparisonRow {
    /// Its stable name in data, with its unit.
    pub name: &'static str,
    /// Its name for people; the unit stands beside it.
    pub label: &'static str,
    /// Which way it is better.
    pub better: Better,
    /// A figure for each unit, in their order.
    pub figures: Vec<Figure>,
    /// For each unit, whether it may be best: where it leaves load behind, or hours without anything published, its
    /// figure is of a smaller task than the others'.
    pub comparable: Vec<bool>,
}

impl ComparisonRow {
    /// Whether the figure is as good as any comparable one of the row and better than some other. Nobody is best where
    /// only one is comparable, where all are the same, or where a figure without a known place could be better still.
    #[must_use]
    pub fn is_best(&self, index: usize) -> bool {
        let sign = match self.better {
            Better::More => -1.0,
            Better::Less => 1.0,
            Better::Neither => return false,
        };
        let place = |figure: &Figure| match figure {
            Figure::Number(value) | Figure::Below(value) => Some(value.number * sign),
            Figure::Word(_) | Figure::Missing => None,
        };
        if self.comparable.get(index) != Some(&true) {
            return false;
        }
        let Some(own) = self.figures.get(index).and_then(place) else {
            return false;
        };
        let compared = || {
            self.figures
                .iter()
                .zip(&self.comparable)
                .filter(|&(_, &comparable)| comparable)
                .map(|(figure, _)| figure)
        };
        let known: Vec<f64> = compared().filter_map(place).collect();
        let best = known.iter().copied().fold(f64::INFINITY, f64::min);
        let open = compared().filter(|figure| matches!(figure, Figure::Below(_)));
        let others_could_be_better = open.filter_map(place).any(|bound| bound > best);
        own <= best && known.iter().any(|&other| other > own) && !others_could_be_better
    }
}

/// How a row gets its figure.
type Get = fn(&Judged) -> Figure;

/// Every row that a comparison can have: name, label, which way it is better, how it is got, and when it applies.
const ROWS: &[(&str, &str, Better, Needs, Get)] = &[
    (
        "verdict",
        "verdict",
        Better::Neither,
        Needs::Nothing,
        verdict,
    ),
    ("form", "form", Better::Neither, Needs::Nothing, |judged| {
        Figure::Word(judged.model.form.name().to_owned())
    }),
    (
        "capacity_at_design_kw",
        "capacity at design",
        Better::More,
        Needs::Nothing,
        |judged| judged.heating.capacity_at_design.into(),
    ),
    ("margin", "margin", Better::More, Needs::Nothing, |judged| {
        judged.heating.margin().into()
    }),
    (
        "balance_point_c",
        "balance point",
        Better::Less,
        Needs::Nothing,
        balance,
    ),
    (
        "operates_to_c",
        "runs down to",
        Better::Less,
        Needs::Nothing,
        |judged| judged.model.operates_to.into(),
    ),
    (
        "seasonal_cop",
        "seasonal COP",
        Better::More,
        Needs::Climate,
        |judged| {
            judged
                .heating
                .season
                .and_then(|season| season.seasonal_cop())
                .into()
        },
    ),
    (
        "share_carried",
        "share of the winter's heat carried",
        Better::More,
        Needs::Climate,
        |judged| {
            judged
                .heating
                .season
                .and_then(|season| season.share_carried())
                .into()
        },
    ),
    (
        "annual_electricity_kwh",
        "electricity a year, backup included",
        Better::Less,
        Needs::Climate,
        |judged| judged.annual_electricity().into(),
    ),
    (
        "backup_kwh",
        "backup heat a year",
        Better::Less,
        Needs::Climate,
        |judged| judged.heating.season.map(|season| season.backup).into(),
    ),
    (
        "unproven_hours",
        "heating hours colder than published",
        Better::Less,
        Needs::Climate,
        |judged| {
            judged
                .heating
                .season
                .map(|season| season.unproven_hours)
                .into()
        },
    ),
    (
        "sensible_capacity_at_design_kw",
        "sensible capacity at cooling design",
        Better::Neither,
        Needs::Cooling,
        |judged| {
            judged
                .cooling
                .and_then(|cooling| cooling.sensible_capacity_at_design)
                .into()
        },
    ),
    (
        "minimum_sensible_kw",
        "sensible minimum at cooling design",
        Better::Less,
        Needs::Cooling,
        |judged| {
            judged
                .cooling
                .and_then(|cooling| cooling.minimum_sensible)
                .into()
        },
    ),
    (
        "cooling_cycling_share",
        "cooling hours that cycle",
        Better::Less,
        Needs::CoolingSeason,
        |judged| share(judged, |known| known.cycling_hours),
    ),
    (
        "humid_share",
        "cooling hours that are humid",
        Better::Less,
        Needs::Humidity,
        |judged| {
            share(judged, |known| {
                known.humidity.map(|humidity| humidity.humid_hours)
            })
        },
    ),
    (
        "peak_rh",
        "highest relative humidity",
        Better::Less,
        Needs::Humidity,
        |judged| {
            known(judged)
                .and_then(|(_, known)| known.humidity?.peak_relative_humidity)
                .into()
        },
    ),
    (
        "dehumidification_l_per_year",
        "supplemental dehumidification a year",
        Better::Less,
        Needs::Humidity,
        |judged| {
            known(judged)
                .and_then(|(_, known)| known.humidity)
                .map(|humidity| Value::new(humidity.supplemental.0, Measure::Litres))
                .into()
        },
    ),
    (
        "dehumidification_peak_l_per_day",
        "the same at its peak",
        Better::Less,
        Needs::Humidity,
        |judged| {
            known(judged)
                .and_then(|(_, known)| known.humidity)
                .map(|humidity| {
                    Value::new(
                        humidity.supplemental_peak.litres_per_day(),
                        Measure::LitresPerDay,
                    )
                })
                .into()
        },
    ),
    (
        "hspf2",
        "HSPF2, declared",
        Better::More,
        Needs::Nothing,
        |judged| judged.model.hspf2.into(),
    ),
    (
        "seer2",
        "SEER2, declared",
        Better::More,
        Needs::Nothing,
        |judged| judged.model.seer2.into(),
    ),
    (
        "scop",
        "SCOP, declared",
        Better::More,
        Needs::Nothing,
        |judged| judged.model.scop.into(),
    ),
    (
        "sound_db_a",
        "sound, dB(A)",
        Better::Less,
        Needs::Nothing,
        |judged| judged.model.sound_db_a.into(),
    ),
    (
        "standby_w",
        "standby, W",
        Better::Less,
        Needs::Nothing,
        |judged| judged.model.standby_w.into(),
    ),
    (
        "circuit_ampacity_a",
        "circuit ampacity, A",
        Better::Less,
        Needs::Nothing,
        |judged| judged.model.circuit_ampacity_a.into(),
    ),
    (
        "refrigerant",
        "refrigerant",
        Better::Neither,
        Needs::Nothing,
        |judged| {
            judged
                .model
                .refrigerant
                .clone()
                .map_or(Figure::Missing, Figure::Word)
        },
    ),
    ("price", "price", Better::Less, Needs::Nothing, |judged| {
        judged.model.price.into()
    }),
    (
        "currency",
        "currency",
        Better::Neither,
        Needs::Nothing,
        |judged| {
            judged
                .model
                .currency
                .clone()
                .map_or(Figure::Missing, Figure::Word)
        },
    ),
];

/// What a row needs to mean anything.
#[derive(Clone, Copy, PartialEq, Eq)]
enum Needs {
    Nothing,
    Climate,
    Cooling,
    CoolingSeason,
    Humidity,
}

fn verdict(judged: &Judged) -> Figure {
    let word = match &judged.verdict {
        Verdict::Accepted => "accepted".to_owned(),
        Verdict::Rejected(reasons) => {
            let codes: Vec<&str> = reasons.iter().map(|reason| reason.code()).collect();
            format!("rejected: {}", codes.join(", "))
        }
        Verdict::Undecided(asks) => {
            let mut codes: Vec<&str> = asks.iter().map(|ask| ask.code.name()).collect();
            codes.dedup();
            format!("undecided: {}", codes.join(", "))
        }
    };
    Figure::Word(word)
}

fn balance(judged: &Judged) -> Figure {
    match judged.heating.balance_point {
        BalancePoint::At(balance) | BalancePoint::AtOperatingLimit(balance) => {
            Figure::Number(balance.into())
        }
        BalancePoint::BelowColdestPoint(coldest) => Figure::Below(coldest.into()),
        BalancePoint::Unproven => Figure::Missing,
    }
}

fn known(judged: &Judged) -> Option<(CoolingSeason, Known)> {
    let season = judged.cooling?.season?;
    Some((season, season.known?))
}

fn share(judged: &Judged, hours: impl Fn(Known) -> Option<Hours>) -> Figure {
    known(judged)
        .and_then(|(season, known)| {
            let hours = hours(known)?;
            let all = season.cooling_hours;
            Some(if all > Hours::ZERO { hours / all } else { 0.0 })
        })
        .into()
}

/// The rows of a comparison. A row that means nothing here (no climate, no cooling, no moisture gains) is left out; so
/// is one of declared figures that no unit has.
///
/// - `humidity`  whether the house's humidity is judged
#[must_use]
pub fn comparison(judged: &[Judged], humidity: bool) -> Vec<ComparisonRow> {
    let climate = judged.iter().any(|unit| unit.heating.season.is_some());
    let cooling = judged.iter().any(|unit| unit.cooling.is_some());
    let applies = |needs: Needs| match needs {
        Needs::Nothing => true,
        Needs::Climate => climate,
        Needs::Cooling => cooling,
        Needs::CoolingSeason => climate && cooling,
        Needs::Humidity => climate && cooling && humidity,
    };
    let currencies_differ = judged
        .windows(2)
        .any(|pair| pair[0].model.currency != pair[1].model.currency);
    ROWS.iter()
        .filter(|row| applies(row.3))
        .map(|&(name, label, better, _, get)| ComparisonRow {
            name,
            label,
            better: if name == "price" && currencies_differ {
                Better::Neither
            } else {
                better
            },
            figures: judged.iter().map(get).collect(),
            comparable: judged
                .iter()
                .map(|unit| is_comparable(name, unit))
                .collect(),
        })
        .filter(|row| {
            row.name != "currency"
                || row
                    .figures
                    .iter()
                    .any(|figure| !matches!(figure, Figure::Missing))
        })
        .collect()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::quantity::Celsius;

    fn row(better: Better, figures: Vec<Figure>) -> ComparisonRow {
        ComparisonRow {
            name: "x",
            label: "x",
            better,
            comparable: vec![true; figures.len()],
            figures,
        }
    }

    fn best(row: &ComparisonRow) -> Vec<usize> {
        (0..row.figures.len())
            .filter(|&index| row.is_best(index))
            .collect()
    }

    fn number(value: f64) -> Figure {
        Figure::Number(value.into())
    }

    #[test]
    fn the_best_of_a_row_is_marked_and_ties_share_the_mark() {
        let figures = vec![number(2.0), number(3.0), Figure::Missing, number(3.0)];
        assert_eq!(best(&row(Better::More, figures.clone())), [1, 3]);
        assert_eq!(best(&row(Better::Less, figures.clone())), [0]);
        assert!(best(&row(Better::Neither, figures)).is_empty());
    }

    #[test]
    fn nobody_is_best_alone_or_among_equals() {
        assert!(best(&row(Better::More, vec![number(1.0), Figure::Missing])).is_empty());
        assert!(best(&row(Better::More, vec![number(1.0), number(1.0)])).is_empty());
    }

    #[test]
    fn a_balance_point_without_a_place_wins_only_where_it_must() {
        let below = |at: f64| Figure::Below(Celsius(at).into());
        let at = |at: f64| Figure::Number(Celsius(at).into());
        assert_eq!(best(&row(Better::Less, vec![below(-25.0), at(-20.0)])), [0]);
        // It may lie on either side of -26.
        assert!(best(&row(Better::Less, vec![below(-25.0), at(-26.0)])).is_empty());
    }
}
