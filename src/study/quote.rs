//! A supplier's quote as it stands on paper: what is offered, for how much, until when; and what it does not say.

use jiff::civil::Date;

use crate::quantity::Money;

/// A quote. `None`: the quote does not say; nothing is assumed in its place.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct Quote {
    /// The purchaser's name for it.
    pub key: String,
    /// Who offers it.
    pub supplier: Option<String>,
    /// The units offered; at least one.
    pub units: Vec<QuotedUnit>,
    /// Price of the equipment.
    pub price: Option<Money>,
    /// Price of installing it.
    pub installation: Option<Money>,
    /// Price of everything else that the house needs for it, such as an electric panel.
    pub extras: Option<Money>,
    /// Currency of the prices.
    pub currency: Option<String>,
    /// How long the supplier warrants it \[years\].
    pub warranty_years: Option<f64>,
    /// The last day on which the quote holds.
    pub valid_until: Option<Date>,
    /// The purchaser's own words.
    pub note: Option<String>,
}

/// A unit in a quote.
#[derive(Clone, Debug, Default, PartialEq)]
pub struct QuotedUnit {
    /// Its key in the catalog.
    pub key: String,
    /// Share of the house's loads that it serves, above 0 to 1; `None`: the quote does not say.
    pub share: Option<f64>,
}

/// What a quote comes to.
#[derive(Clone, Copy, Debug, PartialEq)]
pub enum QuoteTotal {
    /// Price, installation and extras are all said.
    Whole(Money),
    /// The sum of what is said; something is not.
    AtLeast(Money),
    /// No amount is said.
    Unknown,
}

impl QuoteTotal {
    /// The sum of what is said.
    #[must_use]
    pub fn said(self) -> Option<Money> {
        match self {
            Self::Whole(sum) | Self::AtLeast(sum) => Some(sum),
            Self::Unknown => None,
        }
    }
}

impl Quote {
    /// Price + installation + extras, as far as they are said.
    #[must_use]
    pub fn total(&self) -> QuoteTotal {
        let amounts = [self.price, self.installation, self.extras];
        let said: Vec<Money> = amounts.into_iter().flatten().collect();
        let sum = said.iter().copied().sum();
        match said.len() {
            0 => QuoteTotal::Unknown,
            3 => QuoteTotal::Whole(sum),
            _ => QuoteTotal::AtLeast(sum),
        }
    }

    /// What the quote does not say, in a reader's words.
    #[must_use]
    pub fn not_said(&self) -> Vec<&'static str> {
        let mut missing: Vec<&'static str> = [
            (self.supplier.is_none(), "the supplier"),
            (self.price.is_none(), "the price of the equipment"),
            (self.installation.is_none(), "installation"),
            (self.extras.is_none(), "extras"),
            (self.currency.is_none(), "the currency"),
            (self.warranty_years.is_none(), "the warranty"),
            (self.valid_until.is_none(), "until when it is valid"),
        ]
        .into_iter()
        .filter_map(|(is_missing, words)| is_missing.then_some(words))
        .collect();
        if !self.says_shares() {
            missing.push("which share of the load each unit serves");
        }
        missing
    }

    /// Whether it is clear which part of the house each unit serves: a single unit serves all of it.
    #[must_use]
    pub fn says_shares(&self) -> bool {
        self.units.len() <= 1 || self.units.iter().all(|unit| unit.share.is_some())
    }

    /// Whether its last day is before `today`; `None`: the quote does not say how long it holds.
    #[must_use]
    pub fn has_expired(&self, today: Date) -> Option<bool> {
        self.valid_until.map(|last| last < today)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn a_total_is_whole_only_where_every_part_is_said() {
        let mut quote = Quote {
            price: Some(Money(9000.0)),
            ..Quote::default()
        };
        assert_eq!(quote.total(), QuoteTotal::AtLeast(Money(9000.0)));
        quote.installation = Some(Money(4000.0));
        quote.extras = Some(Money::ZERO);
        assert_eq!(quote.total(), QuoteTotal::Whole(Money(13_000.0)));
        assert_eq!(Quote::default().total(), QuoteTotal::Unknown);
    }

    #[test]
    fn a_quote_holds_on_its_last_day_and_not_after() {
        let quote = Quote {
            valid_until: Some(date(2026, 8, 31)),
            ..Quote::default()
        };
        assert_eq!(quote.has_expired(date(2026, 8, 31)), Some(false));
        assert_eq!(quote.has_expired(date(2026, 9, 1)), Some(true));
        assert_eq!(Quote::default().has_expired(date(2026, 9, 1)), None);
    }

    #[test]
    fn two_units_without_shares_leave_the_split_open() {
        let unit = |share| QuotedUnit {
            key: "larch".into(),
            share,
        };
        let mut quote = Quote {
            units: vec![unit(None), unit(None)],
            ..Quote::default()
        };
        assert!(
            quote
                .not_said()
                .contains(&"which share of the load each unit serves")
        );
        quote.units = vec![unit(Some(0.6)), unit(Some(0.4))];
        assert!(quote.says_shares());
    }
}
