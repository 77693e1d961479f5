//! Why units are rejected, by reason, with what would close the gap; and what to ask of suppliers where nobody knows.

use maud::{Markup, html};

use super::{ReportView, unit_name, words};
use crate::criteria::{Ask, Reason};
use crate::quantity::{UnitSystem, counted};
use crate::report::rejected_groups::rejected_groups;
use crate::study::{Judged, Verdict};

/// So many units of a group are shown.
const SHOWN: usize = 500;

/// A sentence with a capital at its beginning and a full stop at its end.
fn sentence(text: &str) -> String {
    let text = words(text);
    let mut characters = text.chars();
    let first = characters
        .next()
        .map_or_else(String::new, |first| first.to_uppercase().collect());
    format!("{first}{}.", characters.as_str().trim_end_matches('.'))
}

/// Every reason with its remedy.
pub(super) fn reasons(found: &[Box<dyn Reason>], units: UnitSystem) -> Markup {
    html! {
        @for reason in found {
            p { (sentence(&reason.sentence(units))) }
            p class="note remedy" { (sentence(&reason.remedy(units))) }
        }
    }
}

/// Every question.
pub(super) fn asks(found: &[Ask]) -> Markup {
    html! {
        p { "Ask the supplier for:" }
        ul { @for ask in found { li { (words(&ask.text)) } } }
    }
}

/// The rejected units by first reason.
pub(super) fn rejected(view: &ReportView<'_>) -> Markup {
    let rejected = &view.list.rejected;
    html! {
        @if !rejected.is_empty() {
            section class="page" aria-labelledby="rejected" {
                h2 id="rejected" { "Rejected, and why" }
                p class="note" {
                    "Under the first reason of each, nearest to passing first. Every reason is given, and after the arrow what would "
                    "close the gap."
                }
                @for group in rejected_groups(rejected) {
                    details open {
                        summary {
                            (sentence(group.meaning)) " "
                            span class="note" { (counted(group.units.len(), "unit", "units")) }
                        }
                        div class="group" {
                            @for judged in group.units.iter().take(SHOWN) { (one(view, judged)) }
                        }
                        @if group.units.len() > SHOWN {
                            p class="note" {
                                "The nearest " (SHOWN) " of " (group.units.len())
                                " are shown; the short list as JSON or CSV holds every one."
                            }
                        }
                    }
                }
            }
        }
    }
}

fn one(view: &ReportView<'_>, judged: &Judged) -> Markup {
    html! {
        div {
            h3 { (unit_name(view, &judged.model.key)) }
            @if let Verdict::Rejected(found) = &judged.verdict { (reasons(found, view.units)) }
        }
    }
}

/// The undecided units, and what to ask.
pub(super) fn undecided(view: &ReportView<'_>) -> Markup {
    let undecided = &view.list.undecided;
    html! {
        @if !undecided.is_empty() {
            section aria-labelledby="undecided" {
                h2 id="undecided" { "What to ask suppliers" }
                p class="note" {
                    "These units fail nothing that is known, but what is published does not show that they hold. With the answers they "
                    "can be judged."
                }
                div class="group" {
                    @for judged in undecided.iter().take(SHOWN) {
                        div {
                            h3 { (unit_name(view, &judged.model.key)) }
                            @if let Verdict::Undecided(found) = &judged.verdict { (asks(found)) }
                        }
                    }
                }
                @if undecided.len() > SHOWN {
                    p class="note" { "The first " (SHOWN) " of " (undecided.len()) " are shown." }
                }
            }
        }
    }
}
