//! What a report ends with: cautions, sources, and how to make the same report again.

use std::collections::BTreeSet;

use maud::{Markup, html};

use super::ReportView;
use crate::report::cautions::CAUTIONS;
use crate::report::clean_text;

/// The section.
pub(super) fn section(view: &ReportView<'_>) -> Markup {
    let sources: BTreeSet<&String> = view
        .sections
        .iter()
        .flat_map(|section| &section.sources)
        .collect();
    html! {
        section aria-labelledby="repeat" {
            h2 id="repeat" { "Cautions, sources, and how to repeat this" }
            div class="cautions" { ul { @for caution in CAUTIONS { li { (caution) } } } }
            h3 { "Sources" }
            ul {
                @if let Some(climate) = view.climate {
                    li { "Climate: " (clean_text(&climate.name, 200)) ". " (clean_text(&climate.source, 500)) }
                    @for note in &climate.notes { li { "On the climate: " (clean_text(note, 500)) } }
                }
                @for source in sources { li { "Units: " (clean_text(source, 500)) } }
            }
            h3 { "The same report again" }
            p {
                "Made by " (env!("CARGO_PKG_NAME")) " " (env!("CARGO_PKG_VERSION")) " on " (clean_text(view.date, 40))
                ". The same program with the same inputs makes the same page, byte by byte, under the same date. The inputs are the "
                "same where these fingerprints (SHA-256) are."
            }
            div class="scroll plain prints" tabindex="0" role="region" aria-label="Fingerprints" {
                table {
                    tbody {
                        @for input in &view.fingerprint.inputs {
                            tr {
                                th scope="row" { (clean_text(&input.covers, 300)) }
                                td class="code" { (input.digest) }
                            }
                        }
                        tr {
                            th scope="row" { b { "all of these together" } }
                            td class="code" { (view.fingerprint.whole) }
                        }
                    }
                }
            }
            p class="note screen" { "Print this page to make a PDF." }
        }
    }
}
