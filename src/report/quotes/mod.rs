//! Judged quotes as table, data, sheet and page.

mod data;
mod page;
mod table;

pub use data::{QuotesAnswer, quotes_sheet};
pub use page::quotes_page;
pub use table::quotes_table;

use jiff::civil::Date;

use crate::criteria::Ask;
use crate::house::House;
use crate::quantity::{Money, UnitSystem, counted, fixed};
use crate::study::{JudgedQuote, JudgedQuoteUnit, QuoteTotal, QuoteVerdict, UnitFinding, Verdict};

/// How quotes are to be shown.
#[derive(Clone, Copy, Debug)]
pub struct QuotesView<'a> {
    /// The house.
    pub house: &'a House,
    /// The climate's key; `None` without one.
    pub climate: Option<&'a str>,
    /// The day on which quotes count as valid or expired.
    pub today: Date,
    /// Units shown to people.
    pub units: UnitSystem,
    /// Characters that fit a line.
    pub width: u16,
    /// Why a year's cost is not known for any quote; `None` where it is, or nothing was given to compute it from.
    pub no_cost: Option<&'a str>,
    /// Titles of the sources behind the units quoted.
    pub sources: &'a [String],
}

/// The groups in which quotes are shown, each with what it is called.
const GROUPS: [(QuoteVerdict, &str); 3] = [
    (QuoteVerdict::Accepted, "lowest total first"),
    (QuoteVerdict::Undecided, "and what to ask the supplier for"),
    (QuoteVerdict::Rejected, "and every reason"),
];

/// Quotes of one verdict by currency, in their order.
fn by_currency(
    quotes: &[JudgedQuote],
    verdict: QuoteVerdict,
) -> Vec<(Option<&str>, Vec<&JudgedQuote>)> {
    let mut groups: Vec<(Option<&str>, Vec<&JudgedQuote>)> = Vec::new();
    for judged in quotes.iter().filter(|judged| judged.verdict == verdict) {
        let currency = judged.quote.currency.as_deref();
        match groups.iter_mut().find(|(of, _)| *of == currency) {
            Some((_, group)) => group.push(judged),
            None => groups.push((currency, vec![judged])),
        }
    }
    groups
}

/// `1 of 6 quotes is accepted, 1 of them expired.`
fn summary(view: &QuotesView<'_>, quotes: &[JudgedQuote]) -> String {
    let accepted: Vec<&JudgedQuote> = quotes
        .iter()
        .filter(|judged| judged.verdict == QuoteVerdict::Accepted)
        .collect();
    let expired = accepted
        .iter()
        .filter(|judged| judged.quote.has_expired(view.today) == Some(true))
        .count();
    let verb = if accepted.len() == 1 || quotes.len() == 1 {
        "is"
    } else {
        "are"
    };
    let mut words = format!(
        "{} of {} {verb} accepted",
        accepted.len(),
        counted(quotes.len(), "quote", "quotes")
    );
    if expired > 0 {
        words += &format!(", {expired} of them expired by {}", view.today);
    }
    words += &format!(
        ". Climate: {}.",
        view.climate.unwrap_or("none, so no season is judged")
    );
    words
}

fn unit_names(judged: &JudgedQuote) -> String {
    let names: Vec<&str> = judged
        .quote
        .units
        .iter()
        .map(|unit| unit.key.as_str())
        .collect();
    names.join(" + ")
}

fn total_words(total: QuoteTotal) -> String {
    match total {
        QuoteTotal::Whole(sum) => fixed(sum.0, 0),
        QuoteTotal::AtLeast(sum) => format!("over {}", fixed(sum.0, 0)),
        QuoteTotal::Unknown => "not said".to_owned(),
    }
}

fn warranty_words(years: Option<f64>) -> String {
    match years {
        None => "not said".to_owned(),
        Some(1.0) => "1 year".to_owned(),
        Some(years) => format!("{years} years"),
    }
}

fn valid_words(judged: &JudgedQuote, today: Date) -> String {
    match (judged.quote.valid_until, judged.quote.has_expired(today)) {
        (Some(date), Some(true)) => format!("{date} expired"),
        (Some(date), _) => date.to_string(),
        (None, _) => "not said".to_owned(),
    }
}

fn cost_words(cost: Option<Money>) -> String {
    cost.map_or_else(|| "?".to_owned(), |cost| fixed(cost.0, 0))
}

/// `CAD`, or that the quotes do not say.
fn currency_words(currency: Option<&str>) -> String {
    currency.map_or_else(|| "currency not said".to_owned(), str::to_owned)
}

/// Something to be said of a quote: a sentence or two, and what is listed beneath it.
struct Remark {
    words: String,
    list: Vec<String>,
}

impl Remark {
    fn new(words: impl Into<String>) -> Self {
        Self {
            words: words.into(),
            list: Vec::new(),
        }
    }

    fn asking(words: String, asks: &[Ask]) -> Self {
        let list = asks.iter().map(|ask| ask.text.clone()).collect();
        Self { words, list }
    }

    /// On one line.
    fn line(&self) -> String {
        if self.list.is_empty() {
            return self.words.clone();
        }
        format!("{} {}", self.words, self.list.join("; "))
    }
}

/// All that has to be said of a quote beneath its line.
fn remarks(view: &QuotesView<'_>, judged: &JudgedQuote) -> Vec<Remark> {
    let mut remarks = Vec::new();
    let quote = &judged.quote;
    if quote.has_expired(view.today) == Some(true) {
        remarks.push(Remark::new("Expired: ask for a new quote."));
    }
    let missing = quote.not_said();
    if !missing.is_empty() {
        remarks.push(Remark::new(format!(
            "Does not say: {}.",
            missing.join(", ")
        )));
    }
    if !quote.says_shares() {
        remarks.push(Remark::new(
            "Each unit is judged against the whole house, as the quote does not say which share of the load it serves.",
        ));
    }
    for unit in &judged.units {
        remarks.extend(unit_remarks(view, unit, judged.units.len() > 1));
    }
    if let Some(note) = &quote.note {
        remarks.push(Remark::new(format!("Note: {note}")));
    }
    remarks
}

fn unit_remarks(
    view: &QuotesView<'_>,
    unit: &JudgedQuoteUnit,
    is_one_of_several: bool,
) -> Vec<Remark> {
    let mut name = unit.quoted.key.clone();
    if let Some(share) = unit.quoted.share.filter(|_| is_one_of_several) {
        name += &format!(" ({} % of the load)", fixed(share * 100.0, 0));
    }
    match &unit.finding {
        UnitFinding::Unknown { near, asks } => {
            let near = near
                .as_ref()
                .map_or_else(String::new, |near| format!(" (did you mean `{near}`?)"));
            let words = format!("{name} is not in the catalog{near}. Ask for:");
            vec![Remark::asking(words, asks)]
        }
        UnitFinding::Judged(found) => match &found.verdict {
            Verdict::Accepted if is_one_of_several => {
                vec![Remark::new(format!(
                    "{name}: does all that is asked of it."
                ))]
            }
            Verdict::Accepted => Vec::new(),
            Verdict::Rejected(reasons) => reasons
                .iter()
                .map(|reason| {
                    Remark::new(format!(
                        "{name}: {}. Remedy: {}.",
                        reason.sentence(view.units),
                        reason.remedy(view.units)
                    ))
                })
                .collect(),
            Verdict::Undecided(asks) => {
                vec![Remark::asking(format!("{name}: ask for:"), asks)]
            }
        },
    }
}

/// What stands beneath all quotes.
fn foot(view: &QuotesView<'_>, quotes: &[JudgedQuote]) -> Vec<String> {
    let mut foot = Vec::new();
    let partial = |judged: &JudgedQuote| matches!(judged.quote.total(), QuoteTotal::AtLeast(_));
    if quotes.iter().any(partial) {
        foot.push(
            "A total with `over` is the sum of what the quote says; more will come.".to_owned(),
        );
    }
    let mut currencies: Vec<String> = quotes
        .iter()
        .map(|judged| currency_words(judged.quote.currency.as_deref()))
        .collect();
    currencies.sort();
    currencies.dedup();
    if currencies.len() > 1 {
        foot.push(format!(
            "Quotes in different currencies are kept apart ({}): no exchange rate is assumed.",
            currencies.join(", ")
        ));
    }
    if quotes.iter().any(|judged| judged.annual_cost.is_some()) {
        foot.push(
            "Energy a year: heating, cooling, standby and monthly charges at the house's prices, with the house's own backup; \
             a fuel account only where the backup burns fuel and is called on."
                .to_owned(),
        );
    } else {
        let why = match (view.no_cost, view.climate) {
            (Some(why), _) => why,
            (None, None) => "the house names no climate",
            (None, Some(_)) => {
                "it needs the prices under [energy] of the house file, and a unit that the catalog has"
            }
        };
        foot.push(format!("A year's energy is not priced: {why}."));
    }
    let judged = quotes
        .iter()
        .flat_map(|judged| &judged.units)
        .filter_map(|unit| match &unit.finding {
            UnitFinding::Judged(judged) => Some(judged.as_ref()),
            UnitFinding::Unknown { .. } => None,
        });
    foot.extend(crate::report::foot::caveats(judged, view.units));
    foot.extend(
        view.sources
            .iter()
            .map(|source| format!("Source: {source}")),
    );
    foot.extend(crate::report::cautions::CAUTIONS.map(str::to_owned));
    foot
}
