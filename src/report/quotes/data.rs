//! Quotes as a JSON document and as a sheet, in full precision.

use serde::Serialize;

use super::{QuotesView, Remark, foot, remarks, summary};
use crate::quantity::UnitSystem;
use crate::report::answer::{self, HeatingAnswer, Note, ReasonAnswer};
use crate::report::sheet::Sheet;
use crate::study::{JudgedQuote, JudgedQuoteUnit, QuoteTotal, QuoteVerdict, UnitFinding, Verdict};

/// The document.
#[derive(Debug, Serialize)]
pub struct QuotesAnswer {
    house: String,
    climate: Option<String>,
    /// The day by which quotes count as expired.
    today: String,
    /// Currency of `annual_energy_cost`.
    energy_currency: Option<String>,
    accepted: Vec<QuoteAnswer>,
    undecided: Vec<QuoteAnswer>,
    rejected: Vec<QuoteAnswer>,
}

#[derive(Debug, Serialize)]
struct QuoteAnswer {
    quote: String,
    supplier: Option<String>,
    units: Vec<UnitAnswer>,
    price: Option<f64>,
    installation: Option<f64>,
    extras: Option<f64>,
    /// Sum of what is said of the three.
    total: Option<f64>,
    /// Whether all three are said.
    total_is_whole: bool,
    currency: Option<String>,
    annual_energy_cost: Option<f64>,
    warranty_years: Option<f64>,
    valid_until: Option<String>,
    expired: Option<bool>,
    not_said: Vec<&'static str>,
    note: Option<String>,
}

#[derive(Debug, Serialize)]
struct UnitAnswer {
    unit: String,
    share: Option<f64>,
    in_catalog: bool,
    /// A key of the catalog near to one that it does not have.
    nearest: Option<String>,
    verdict: &'static str,
    reasons: Vec<ReasonAnswer>,
    ask: Vec<Note>,
    heating: Option<HeatingAnswer>,
    caveats: Vec<Note>,
}

impl QuotesAnswer {
    /// The document.
    #[must_use]
    pub fn of(view: &QuotesView<'_>, quotes: &[JudgedQuote]) -> Self {
        let of = |verdict| {
            quotes
                .iter()
                .filter(|judged| judged.verdict == verdict)
                .map(|judged| QuoteAnswer::of(view, judged))
                .collect()
        };
        let energy = view.house.energy.as_ref();
        Self {
            house: view.house.name.clone(),
            climate: view.climate.map(str::to_owned),
            today: view.today.to_string(),
            energy_currency: energy.and_then(|energy| energy.currency.clone()),
            accepted: of(QuoteVerdict::Accepted),
            undecided: of(QuoteVerdict::Undecided),
            rejected: of(QuoteVerdict::Rejected),
        }
    }
}

impl QuoteAnswer {
    fn of(view: &QuotesView<'_>, judged: &JudgedQuote) -> Self {
        let quote = &judged.quote;
        Self {
            quote: quote.key.clone(),
            supplier: quote.supplier.clone(),
            units: judged
                .units
                .iter()
                .map(|unit| UnitAnswer::of(unit, view.units))
                .collect(),
            price: quote.price.map(|amount| amount.0),
            installation: quote.installation.map(|amount| amount.0),
            extras: quote.extras.map(|amount| amount.0),
            total: quote.total().said().map(|amount| amount.0),
            total_is_whole: matches!(quote.total(), QuoteTotal::Whole(_)),
            currency: quote.currency.clone(),
            annual_energy_cost: judged.annual_cost.map(|cost| cost.0),
            warranty_years: quote.warranty_years,
            valid_until: quote.valid_until.map(|date| date.to_string()),
            expired: quote.has_expired(view.today),
            not_said: quote.not_said(),
            note: quote.note.clone(),
        }
    }
}

impl UnitAnswer {
    fn of(unit: &JudgedQuoteUnit, units: UnitSystem) -> Self {
        let mut answer = Self {
            unit: unit.quoted.key.clone(),
            share: unit.quoted.share,
            in_catalog: false,
            nearest: None,
            verdict: QuoteVerdict::Undecided.name(),
            reasons: Vec::new(),
            ask: answer::asked(unit.asks()),
            heating: None,
            caveats: Vec::new(),
        };
        match &unit.finding {
            UnitFinding::Unknown { near, .. } => answer.nearest.clone_from(near),
            UnitFinding::Judged(judged) => {
                answer.in_catalog = true;
                answer.verdict = judged.verdict.name();
                answer.heating = Some(answer::heating(judged));
                answer.caveats = answer::notes(&judged.caveats, units);
                if let Verdict::Rejected(reasons) = &judged.verdict {
                    answer.reasons = answer::reasons(reasons, units);
                }
            }
        }
        answer
    }
}

/// A quote in one row.
#[derive(Serialize)]
struct SheetRow {
    quote: String,
    verdict: &'static str,
    supplier: Option<String>,
    unit: String,
    share: String,
    price: Option<f64>,
    installation: Option<f64>,
    extras: Option<f64>,
    total: Option<f64>,
    total_is_whole: bool,
    currency: Option<String>,
    annual_energy_cost: Option<f64>,
    warranty_years: Option<f64>,
    valid_until: Option<String>,
    expired: Option<bool>,
    not_said: Vec<&'static str>,
    remarks: Vec<String>,
}

/// The quotes as a sheet, a row each.
#[must_use]
pub fn quotes_sheet(view: &QuotesView<'_>, quotes: &[JudgedQuote]) -> Sheet {
    let rows: Vec<SheetRow> = quotes
        .iter()
        .map(|judged| {
            let answer = QuoteAnswer::of(view, judged);
            let shares = judged.quote.units.iter().filter_map(|unit| unit.share);
            let shares: Vec<String> = shares.map(|share| share.to_string()).collect();
            SheetRow {
                verdict: judged.verdict.name(),
                unit: super::unit_names(judged),
                share: shares.join(" + "),
                remarks: remarks(view, judged).iter().map(Remark::line).collect(),
                quote: answer.quote,
                supplier: answer.supplier,
                price: answer.price,
                installation: answer.installation,
                extras: answer.extras,
                total: answer.total,
                total_is_whole: answer.total_is_whole,
                currency: answer.currency,
                annual_energy_cost: answer.annual_energy_cost,
                warranty_years: answer.warranty_years,
                valid_until: answer.valid_until,
                expired: answer.expired,
                not_said: answer.not_said,
            }
        })
        .collect();
    let mut notes = vec![
        format!("House: {}", view.house.name),
        summary(view, quotes),
        format!("Quotes count as expired by {}.", view.today),
    ];
    notes.extend(foot(view, quotes));
    Sheet {
        notes,
        ..Sheet::of_rows("quotes", &rows)
    }
}
