//! Quotes for people at a terminal.

use super::{
    GROUPS, QuotesView, by_currency, cost_words, currency_words, foot, remarks, summary,
    total_words, unit_names, valid_words, warranty_words,
};
use crate::report::table::{Column, PlainTable, paragraph};
use crate::study::JudgedQuote;

/// The quotes as text: accepted, undecided, rejected, each with its prices and what must be said of it.
#[must_use]
pub fn quotes_table(view: &QuotesView<'_>, quotes: &[JudgedQuote]) -> String {
    let mut text = paragraph(&view.house.name, view.width, "", "");
    text += &paragraph(&summary(view, quotes), view.width, "", "");
    for (verdict, order) in GROUPS {
        let count = quotes
            .iter()
            .filter(|judged| judged.verdict == verdict)
            .count();
        if count == 0 {
            continue;
        }
        text += &format!("\n{}: {count}, {order}\n", verdict.name().to_uppercase());
        for (place, (currency, group)) in by_currency(quotes, verdict).into_iter().enumerate() {
            if place > 0 {
                text.push('\n');
            }
            text += &rows(view, currency, &group);
            for judged in group {
                let remarks = remarks(view, judged);
                if remarks.is_empty() {
                    continue;
                }
                text += &paragraph(&judged.quote.key, view.width, "  ", "  ");
                for remark in remarks {
                    text += &paragraph(&remark.words, view.width, "    ", "      ");
                    for item in &remark.list {
                        text += &paragraph(item, view.width, "      - ", "        ");
                    }
                }
            }
        }
    }
    text.push('\n');
    for line in foot(view, quotes) {
        text += &paragraph(&line, view.width, "", "  ");
    }
    text
}

fn rows(view: &QuotesView<'_>, currency: Option<&str>, group: &[&JudgedQuote]) -> String {
    let total = format!("total, {}", currency_words(currency));
    let own = view.house.energy.as_ref();
    let own = own.and_then(|energy| energy.currency.as_deref());
    let year = match own {
        Some(own) => format!("energy {own}/year"),
        None => "energy a year".to_owned(),
    };
    let priced = group.iter().any(|judged| judged.annual_cost.is_some());
    let mut columns = vec![
        ("quote", Column::Words),
        ("supplier", Column::Words),
        ("unit", Column::Words),
        (total.as_str(), Column::Numbers),
    ];
    if priced {
        columns.push((year.as_str(), Column::Numbers));
    }
    columns.extend([("warranty", Column::Words), ("valid until", Column::Words)]);
    let mut table = PlainTable::new(view.width, &columns);
    for judged in group {
        let quote = &judged.quote;
        let mut row = vec![
            quote.key.clone(),
            quote
                .supplier
                .clone()
                .unwrap_or_else(|| "not said".to_owned()),
            unit_names(judged),
            total_words(quote.total()),
        ];
        if priced {
            row.push(cost_words(judged.annual_cost));
        }
        row.extend([
            warranty_words(quote.warranty_years),
            valid_words(judged, view.today),
        ]);
        table.row(row);
    }
    table.text()
}
