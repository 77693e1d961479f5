//! What a report opens with: house and date, the answer in a sentence, where to find what; then the house in words.

use maud::{Markup, html};

use super::{ReportView, name};
use crate::report::clean_text;
use crate::report::house_words::house_words;

/// The cover.
pub(super) fn cover(view: &ReportView<'_>) -> Markup {
    let list = view.list;
    let counts = [
        ("accepted", list.accepted.len()),
        ("undecided", list.undecided.len()),
        ("rejected", list.rejected.len()),
    ];
    html! {
        header {
            p class="line" {
                span { (clean_text(view.date, 40)) }
                @if let Some(climate) = view.climate { span { "Climate: " (name(&climate.name)) } }
                span { "Inputs " span class="code" { (view.fingerprint.short()) } }
            }
            h1 { "Heat pumps for " (name(&view.brief.house().name)) }
            p class="lead" { (answer(view)) }
            div class="share" aria-hidden="true" {
                @for (word, count) in counts {
                    @if count > 0 { span class=(word) style=(format!("flex-grow:{count}")) {} }
                }
            }
            ul class="counts" {
                @for (word, count) in counts {
                    li { i class=(word) {} b { (count) } (word) }
                }
            }
            (contents(view))
        }
    }
}

/// The answer in a sentence or two.
fn answer(view: &ReportView<'_>) -> Markup {
    let house = view.brief.house();
    let load = &house.heating.load;
    let needs = format!(
        "{} at {}",
        view.units.power(load.design_load),
        view.units.temperature(load.design_outdoor)
    );
    let accepted = view.list.accepted.len();
    let wanted = match (&house.cooling, &house.moisture) {
        (Some(_), Some(_)) => "and turn down far enough in summer to keep it dry",
        (Some(_), None) => "and meet what is asked of them in summer",
        (None, _) => "and meet whatever else is asked of them",
    };
    html! {
        "The house needs " (needs) ". "
        @match view.list.accepted.as_slice() {
            [] => {
                "None of the " (view.total()) " units judged is shown to carry it without backup heat " (wanted) "."
            },
            [only] => {
                "Of the " (view.total()) " units judged, one is shown to carry it without backup heat " (wanted) ": "
                b { (name(&only.model.key)) } "."
            },
            [first, ..] => {
                "Of the " (view.total()) " units judged, " (accepted)
                " are shown to carry it without backup heat " (wanted) "; first in rank is "
                b { (name(&first.model.key)) } "."
            },
        }
    }
}

fn contents(view: &ReportView<'_>) -> Markup {
    html! {
        nav aria-label="Contents" {
            ul {
                li { a href="#list" { "Short list" } }
                li { a href="#house" { "The house" } }
                li { a href="#assumptions" { "Assumptions" } }
                @if view.sections.len() <= 12 {
                    @for (place, section) in view.sections.iter().enumerate() {
                        li { a href=(format!("#unit-{}", place + 1)) { (name(&section.unit.model.key)) } }
                    }
                } @else {
                    li { a href="#unit-1" { "Units, one by one" } }
                }
                @if !view.list.rejected.is_empty() { li { a href="#rejected" { "Rejected, and why" } } }
                @if !view.list.undecided.is_empty() { li { a href="#undecided" { "What to ask suppliers" } } }
                li { a href="#repeat" { "Cautions, sources, and how to repeat this" } }
            }
        }
    }
}

/// The house in words.
pub(super) fn house(view: &ReportView<'_>) -> Markup {
    html! {
        section class="page" aria-labelledby="house" {
            h2 id="house" { "The house" }
            div class="words" {
                @for paragraph in house_words(view.brief.house(), view.units) {
                    p { (subject(&clean_text(&paragraph, 2_000))) }
                }
            }
        }
    }
}

/// A paragraph with its subject, the words before the first colon, set off.
fn subject(paragraph: &str) -> Markup {
    html! {
        @if let Some((subject, rest)) = paragraph.split_once(':') {
            b { (subject) ":" } (rest)
        } @else {
            (paragraph)
        }
    }
}
