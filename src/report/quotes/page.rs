//! Quotes as one self-contained page: light and dark, and on paper.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::{
    GROUPS, QuotesView, by_currency, cost_words, currency_words, foot, remarks, summary,
    total_words, unit_names, valid_words, warranty_words,
};
use crate::report::clean_text;
use crate::study::{JudgedQuote, QuoteVerdict};

/// Longest text of a remark \[characters\].
const LONGEST: usize = 2_000;

const STYLE: &str = "\
:root{color-scheme:light dark;--ink:#17202b;--soft:#566270;--rule:#d9dfe5;--paper:#fff;--yes:#1c6b3f;--no:#a03123;--open:#7a5a00}\
@media (prefers-color-scheme:dark){:root{--ink:#eef2f6;--soft:#a7b2be;--rule:#2b343e;--paper:#12171d;--yes:#6fcf97;--no:#f08a7b;--open:#e0b94a}}\
*{box-sizing:border-box}body{margin:0 auto;max-width:64rem;padding:1.5rem 1rem 4rem;background:var(--paper);\
color:var(--ink);font:1rem/1.5 system-ui,sans-serif;overflow-wrap:anywhere}\
h1{font-size:1.6rem;line-height:1.25;margin:0 0 .25rem}\
h2{font-size:1.15rem;margin:2.25rem 0 .25rem;border-top:1px solid var(--rule);padding-top:1rem}\
.accepted{color:var(--yes)}.rejected{color:var(--no)}.undecided{color:var(--open)}\
.setting,.order,footer{color:var(--soft)}.order{font-size:1rem;font-weight:400}\
.scroll{overflow-x:auto}table{border-collapse:collapse;width:100%;font-variant-numeric:tabular-nums}\
th,td{padding:.4rem .75rem .4rem 0;text-align:left;vertical-align:top}th{color:var(--soft);font-weight:600;\
border-bottom:1px solid var(--ink)}tbody tr.quote th{color:var(--ink);border-bottom:0;border-top:1px solid var(--rule)}\
tr.quote td{border-top:1px solid var(--rule)}.number{text-align:right}\
ul{margin:0 0 .5rem;padding-left:1.1rem;color:var(--soft)}tr{break-inside:avoid}\
@media print{:root{--ink:#000;--soft:#333;--rule:#bbb;--paper:#fff;--yes:#000;--no:#000;--open:#000}\
body{max-width:none;padding:0;font-size:9pt}}";

/// The quotes as a page. Makes no request and runs no script.
#[must_use]
pub fn quotes_page(view: &QuotesView<'_>, quotes: &[JudgedQuote]) -> String {
    let title = clean_text(&format!("Quotes for {}", view.house.name), 200);
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(STYLE)) }
            }
            body {
                main {
                    h1 { (title) }
                    p class="setting" { (summary(view, quotes)) }
                    @for (verdict, order) in GROUPS { (group(view, quotes, verdict, order)) }
                }
                footer { @for line in foot(view, quotes) { p { (clean_text(&line, LONGEST)) } } }
            }
        }
    };
    page.into_string()
}

fn group(
    view: &QuotesView<'_>,
    quotes: &[JudgedQuote],
    verdict: QuoteVerdict,
    order: &str,
) -> Markup {
    let tables = by_currency(quotes, verdict);
    let count: usize = tables.iter().map(|(_, group)| group.len()).sum();
    let name = verdict.name();
    html! {
        @if count > 0 {
            section aria-labelledby=(name) {
                h2 id=(name) {
                    span class=(name) { (name[..1].to_uppercase()) (name[1..]) ": " (count) }
                    span class="order" { ", " (order) }
                }
                @for (currency, group) in &tables { (table(view, *currency, group)) }
            }
        }
    }
}

fn table(view: &QuotesView<'_>, currency: Option<&str>, group: &[&JudgedQuote]) -> Markup {
    let own = view.house.energy.as_ref();
    let own = own.and_then(|energy| energy.currency.as_deref());
    let text = |words: &str| clean_text(words, 200);
    html! {
        div class="scroll" { table {
            thead { tr {
                th scope="col" { "quote" }
                th scope="col" { "supplier" }
                th scope="col" { "unit" }
                th scope="col" class="number" { "total, " (text(&currency_words(currency))) }
                th scope="col" class="number" { "energy " (text(own.unwrap_or(""))) " a year" }
                th scope="col" { "warranty" }
                th scope="col" { "valid until" }
            } }
            tbody { @for judged in group {
                tr class="quote" {
                    th scope="row" { (text(&judged.quote.key)) }
                    td { (text(judged.quote.supplier.as_deref().unwrap_or("not said"))) }
                    td { (text(&unit_names(judged))) }
                    td class="number" { (total_words(judged.quote.total())) }
                    td class="number" { (cost_words(judged.annual_cost)) }
                    td { (warranty_words(judged.quote.warranty_years)) }
                    td { (valid_words(judged, view.today)) }
                }
                @let remarks = remarks(view, judged);
                @if !remarks.is_empty() {
                    tr { td colspan="7" { ul {
                        @for remark in remarks { li {
                            (clean_text(&remark.words, LONGEST))
                            @if !remark.list.is_empty() {
                                ul { @for item in &remark.list { li { (clean_text(item, LONGEST)) } } }
                            }
                        } }
                    } } }
                }
            } }
        } }
    }
}
