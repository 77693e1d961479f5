//! The report: one self-contained page for designer, purchaser and client. No script, no request, paper as well as screen.

mod assumptions;
mod figures;
mod front;
mod last;
mod rejected;
mod shortlist;
mod style;
mod unit;

pub use style::page;

use maud::{Markup, html};

use super::answer::{self, CatalogSize, CoolingAnswer, HeatingAnswer, MoistureContext};
use super::clean_text;
use super::fingerprint::Fingerprint;
use crate::equipment::Unit;
use crate::quantity::UnitSystem;
use crate::study::{Brief, Judged, Shortlist};

/// Longest name of a unit or a house \[characters\].
const LONGEST_NAME: usize = 120;
/// Longest sentence or paragraph \[characters\].
const LONGEST_TEXT: usize = 2_000;
/// Up to so many sections show each chart in two drawings, one for a desk and one for a phone; more show the narrow one.
const PAIRED: usize = 6;
/// So many sections have charts; the others have figures only, so that the page opens at once.
const CHARTED: usize = 24;
/// So many units have a section.
const SECTIONS: usize = 200;

/// The climate a report was made with.
#[derive(Clone, Debug, Default, PartialEq, Eq)]
pub struct ClimateFacts {
    /// The catalog's name for it.
    pub key: String,
    /// What a reader calls it.
    pub name: String,
    /// Where the record comes from.
    pub source: String,
    /// What a reader must know of it.
    pub notes: Vec<String>,
}

/// A unit that gets a section of its own.
#[derive(Clone, Debug)]
pub struct SectionUnit {
    /// The unit.
    pub unit: Unit,
    /// The sources of its numbers.
    pub sources: Vec<String>,
}

/// What a report is made of.
#[derive(Clone, Copy, Debug)]
pub struct ReportView<'a> {
    /// House, climate and requirements.
    pub brief: &'a Brief,
    /// The climate; `None` without one.
    pub climate: Option<&'a ClimateFacts>,
    /// The whole catalog, judged.
    pub list: &'a Shortlist,
    /// What was searched.
    pub catalog: CatalogSize,
    /// The units that get a section, in order.
    pub sections: &'a [SectionUnit],
    /// Whether these were named, in place of all accepted units.
    pub sections_were_named: bool,
    /// What accepted units are ranked by, in words.
    pub ranked_by: &'a str,
    /// Where the criteria stand: a file's name, or `None` for the built-in requirements.
    pub criteria: Option<&'a str>,
    /// Units shown.
    pub units: UnitSystem,
    /// The date on the cover.
    pub date: &'a str,
    /// The inputs.
    pub fingerprint: &'a Fingerprint,
}

impl ReportView<'_> {
    fn heating(&self, judged: &Judged) -> HeatingAnswer {
        answer::heating(judged)
    }

    fn cooling(&self, judged: &Judged) -> CoolingAnswer {
        let context = MoistureContext::of(self.brief.house());
        answer::cooling(judged.cooling.as_ref(), context)
    }

    fn writer(&self) -> figures::Writer {
        figures::Writer(self.units)
    }

    fn total(&self) -> usize {
        self.list.accepted.len() + self.list.rejected.len() + self.list.undecided.len()
    }

    /// A unit of the list by its key.
    fn judged(&self, key: &str) -> Option<&Judged> {
        [
            &self.list.accepted,
            &self.list.rejected,
            &self.list.undecided,
        ]
        .into_iter()
        .flatten()
        .find(|judged| judged.model.key == key)
    }

    /// The place of a unit's section, where it has one.
    fn section_of(&self, key: &str) -> Option<usize> {
        self.sections
            .iter()
            .take(SECTIONS)
            .position(|section| section.unit.model.key == key)
    }
}

/// Text from the core on one line, each number kept together with its unit.
fn words(text: &str) -> String {
    let mut kept = String::new();
    let text = clean_text(text, LONGEST_TEXT);
    let mut characters = text.chars().peekable();
    while let Some(character) = characters.next() {
        let after_digit = kept.ends_with(|last: char| last.is_ascii_digit());
        let is_unit = |next: &char| next.is_alphabetic() || matches!(next, '°' | '%');
        let stays = character == ' ' && after_digit && characters.peek().is_some_and(is_unit);
        kept.push(if stays { '\u{a0}' } else { character });
    }
    kept
}

/// A name kept apart from the direction of the text around it.
fn name(text: &str) -> Markup {
    html! { bdi { (clean_text(text, LONGEST_NAME)) } }
}

/// A unit's name, leading to its section where it has one.
fn unit_name(view: &ReportView<'_>, key: &str) -> Markup {
    html! {
        @if let Some(place) = view.section_of(key) {
            a href=(format!("#unit-{}", place + 1)) { (name(key)) }
        } @else {
            (name(key))
        }
    }
}

/// The report as a page.
#[must_use]
pub fn report_html(view: &ReportView<'_>) -> String {
    let house = clean_text(&view.brief.house().name, LONGEST_NAME);
    let body = html! {
        (front::cover(view))
        main {
            (shortlist::section(view))
            (front::house(view))
            (assumptions::section(view))
            @for (place, section) in view.sections.iter().take(SECTIONS).enumerate() {
                (unit::section(view, section, place))
            }
            @if view.sections.len() > SECTIONS {
                p class="note" {
                    "Sections are shown for the first " (SECTIONS) " of " (view.sections.len())
                    " units; name others with --only."
                }
            }
            (rejected::rejected(view))
            (rejected::undecided(view))
            (last::section(view))
        }
    };
    page(&format!("Heat pumps for {house}"), "report", &body)
}

#[cfg(test)]
mod tests;
