//! One unit: verdict, figures by season, charts, caveats.

use maud::{Markup, PreEscaped, html};

use super::rejected::{asks, reasons};
use super::{CHARTED, PAIRED, ReportView, SectionUnit, name, words};
use crate::equipment::Model;
use crate::report::clean_text;
use crate::report::svg::{
    Frame, cooling_turndown, heat_delivered, load_and_capacity, psychrometric,
};
use crate::report::view::{heat_chart, load_chart, room_chart, turndown_chart};
use crate::study::portrait::{CoolingPortrait, HeatingPortrait, RoomPortrait};
use crate::study::{Judged, Verdict};

/// The section of a unit; nothing where the list does not hold it.
pub(super) fn section(view: &ReportView<'_>, section: &SectionUnit, place: usize) -> Markup {
    let Some(judged) = view.judged(&section.unit.model.key) else {
        return html! {};
    };
    let id = format!("unit-{}", place + 1);
    html! {
        section class="unit" aria-labelledby=(id) {
            h2 id=(id) { (name(&judged.model.key)) }
            p class="facts" { (verdict(view, judged)) (facts(view, &judged.model)) }
            (why(view, judged))
            div class="sheet" {
                @if place < CHARTED {
                    (charts(view, section, judged, &id))
                } @else {
                    p class="note" {
                        "Charts are shown for the first " (CHARTED) " units; name this one with --only to see its own."
                    }
                }
                (figures(view, judged))
            }
            (caveats(view, section, judged))
        }
    }
}

fn verdict(view: &ReportView<'_>, judged: &Judged) -> Markup {
    let rank = view
        .list
        .accepted
        .iter()
        .position(|other| other.model.key == judged.model.key);
    html! {
        @match &judged.verdict {
            Verdict::Accepted => span class="verdict yes" {
                "Accepted" @if let Some(rank) = rank { ", rank " (rank + 1) " of " (view.list.accepted.len()) }
            },
            Verdict::Rejected(_) => span class="verdict no" { "Rejected" },
            Verdict::Undecided(_) => span class="verdict" { "Undecided" },
        }
    }
}

/// What the unit is, as far as it is published, in a line.
fn facts(view: &ReportView<'_>, model: &Model) -> Markup {
    let mut facts = vec![model.form.name().to_owned()];
    for text in [
        &model.maker,
        &model.outdoor_model,
        &model.indoor_model,
        &model.refrigerant,
    ] {
        facts.extend(text.as_ref().map(|text| clean_text(text, 80)));
    }
    if let Some(limit) = model.operates_to {
        facts.push(format!(
            "declared to run down to {}",
            view.units.temperature(limit)
        ));
    }
    if model.certified == Some(true) {
        facts.push("certified".to_owned());
    }
    html! { @for fact in &facts { " · " bdi { (words(fact)) } } }
}

/// Reasons or questions, where there are any.
fn why(view: &ReportView<'_>, judged: &Judged) -> Markup {
    html! {
        @match &judged.verdict {
            Verdict::Accepted => {},
            Verdict::Rejected(found) => div class="why no" { (reasons(found, view.units)) },
            Verdict::Undecided(found) => div class="why" { (asks(found)) },
        }
    }
}

fn charts(view: &ReportView<'_>, section: &SectionUnit, judged: &Judged, id: &str) -> Markup {
    let (brief, unit, units) = (view.brief, &section.unit, view.units);
    let (house, key) = (brief.house(), &unit.model.key);
    let paired = view.sections.len() <= PAIRED;
    let drawn = |name: &str, draw: &dyn Fn(&Frame) -> String| {
        let id = format!("{id}-{name}");
        if paired {
            Frame::pair(&id, draw)
        } else {
            draw(&Frame::narrow(&id))
        }
    };
    let heating = HeatingPortrait::of(brief, unit, judged);
    let mut load = load_chart(&heating, house, key, units);
    // The section's head says already whom a chart is about.
    load.caption.subtitle.clear();
    let mut charts = vec![drawn("load", &|frame| load_and_capacity(&load, frame))];
    if let Some(mut heat) = heat_chart(&heating, house, key, units) {
        heat.caption.subtitle.clear();
        charts.push(drawn("heat", &|frame| heat_delivered(&heat, frame)));
    }
    if let Some(portrait) = CoolingPortrait::of(brief, unit) {
        let mut chart = turndown_chart(&portrait, house, key, units);
        chart.caption.subtitle.clear();
        charts.push(drawn("turndown", &|frame| cooling_turndown(&chart, frame)));
    }
    if let Some(portrait) = RoomPortrait::of(brief, unit) {
        let mut chart = room_chart(&portrait, house, key, units);
        chart.caption.subtitle.clear();
        charts.push(drawn("room", &|frame| psychrometric(&chart, frame)));
    }
    html! {
        div class=(if paired { "charts" } else { "charts narrow" }) {
            @for chart in &charts { div { (PreEscaped(chart)) } }
        }
    }
}

fn figures(view: &ReportView<'_>, judged: &Judged) -> Markup {
    let groups = view
        .writer()
        .groups(judged, &view.heating(judged), &view.cooling(judged));
    html! {
        div class="figures" data-figures=(clean_text(&judged.model.key, 120)) {
            @for group in &groups {
                table {
                    caption { (group.title) }
                    tbody {
                        @for figure in &group.figures {
                            tr {
                                th scope="row" { (figure.label) }
                                td data-from=(figure.from) data-unit=(figure.unit) {
                                    (figure.text)
                                    @if !figure.unit.is_empty() { " " span { (figure.unit) } }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn caveats(view: &ReportView<'_>, section: &SectionUnit, judged: &Judged) -> Markup {
    html! {
        @if !judged.caveats.is_empty() {
            h3 { "Caveats" }
            ul {
                @for caveat in &judged.caveats {
                    li { (words(&caveat.text(view.units))) }
                }
            }
        }
        p class="note" {
            "Source of its numbers: "
            @for (place, source) in section.sources.iter().enumerate() {
                @if place > 0 { "; " }
                (clean_text(source, 500))
            }
            "."
        }
    }
}
