//! What a report opens with: house and date, the answer in a sentence, where to find what; then the house in words.

use maud::{Markup, html};

use super::{ReportView, name, words};
use crate::quantity::fixed;
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
    let wanted = judged(view);
    html! {
        "The house needs " (words(&needs)) ". "
        @match view.list.accepted.as_slice() {
            [] => {
                "None of the " (view.total()) " units judged is shown to " (words(&wanted)) "."
            },
            [only] => {
                "Of the " (view.total()) " units judged, one is shown to " (words(&wanted)) ": "
                b { (name(&only.model.key)) } "."
            },
            [first, ..] => {
                "Of the " (view.total()) " units judged, " (accepted)
                " are shown to " (words(&wanted)) "; first in rank is "
                b { (name(&first.model.key)) } "."
            },
        }
        @if view.climate.is_none() {
            " Without a climate no season was judged: neither backup heat over a winter, nor cycling, nor humidity."
        }
    }
}

/// What accepted units are shown to do: what was judged and nothing else, with the limits that stand for it.
fn judged(view: &ReportView<'_>) -> String {
    let house = view.brief.house();
    let asked = &view.brief.criteria().requirements;
    let mut does = Vec::new();
    if asked.full_load_without_backup {
        does.push("carry it without backup heat".to_owned());
    }
    if let Some(coldest) = house
        .heating
        .must_run_to
        .filter(|_| asked.run_beyond_design)
    {
        does.push(format!("run down to {}", view.units.temperature(coldest)));
    }
    if asked.cooling_design && house.cooling.is_some() {
        does.push("carry the cooling design load".to_owned());
    }
    if view.climate.is_some() && house.cooling.is_some() {
        let limit =
            |share: f64| format!("at most {} % of the cooling hours", fixed(share * 100.0, 0));
        if asked.max_cooling_cycling_share < 1.0 {
            does.push(format!(
                "cycle in {}",
                limit(asked.max_cooling_cycling_share)
            ));
        }
        if asked.max_humid_share < 1.0 && house.moisture.is_some() {
            does.push(format!(
                "leave the room too humid in {}",
                limit(asked.max_humid_share)
            ));
        }
    }
    if !view.brief.criteria().criteria.is_empty() || does.is_empty() {
        does.push("meet the criteria".to_owned());
    }
    let last = does.pop().unwrap_or_default();
    if does.is_empty() {
        last
    } else {
        format!("{} and {last}", does.join(", "))
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
                    p { (subject(&words(&paragraph))) }
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
