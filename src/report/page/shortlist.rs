//! The short list as a table, the best of each column marked, and the accepted units side by side as a chart.

use maud::{Markup, PreEscaped, html};

use super::figures::{Figure, Writer};
use super::{ReportView, unit_name, words};
use crate::report::svg::{Frame, comparison};
use crate::report::view::comparison_chart;
use crate::study::Judged;

/// So many accepted units are listed.
const LISTED: usize = 1_000;
/// So many accepted units are compared in the chart.
const COMPARED: usize = 12;

/// A column: its head, its figure, and whether more is better; `None` where neither is.
struct Column {
    head: String,
    get: Get,
}

type Get = fn(&ReportView<'_>, &Judged) -> Option<Figure>;

fn columns(view: &ReportView<'_>) -> Vec<Column> {
    let house = view.brief.house();
    let design = view.units.temperature(house.heating.load.design_outdoor);
    let seasonal = view.climate.is_some();
    let cooled = seasonal && house.cooling.is_some();
    let moist = cooled && view.brief.without_call().is_some();
    let column = |head: String, get: Get| Column { head, get };
    let mut columns = vec![
        column(
            format!("{} at {design}", view.units.power_unit()),
            |view, judged| Some(view.writer().capacity(&view.heating(judged))),
        ),
        column("margin, %".to_owned(), |view, judged| {
            Some(Writer::margin(&view.heating(judged)))
        }),
        column(
            format!("balance point, {}", view.units.temperature_unit()),
            |view, judged| {
                let heating = view.heating(judged);
                Some(
                    view.writer()
                        .balance(&heating, judged.heating.balance_point),
                )
            },
        ),
    ];
    if seasonal {
        columns.push(column("winter COP".to_owned(), |view, judged| {
            Writer::seasonal_cop(&view.heating(judged))
        }));
        columns.push(column(
            "electricity a year, kWh".to_owned(),
            |view, judged| Writer::annual(judged, &view.heating(judged)),
        ));
    }
    if cooled {
        columns.push(column("cycling in summer, %".to_owned(), |view, judged| {
            Writer::cycling_share(&view.cooling(judged))
        }));
    }
    if moist {
        columns.push(column("humid hours, %".to_owned(), |view, judged| {
            Writer::humid_share(&view.cooling(judged))
        }));
        columns.push(column(
            format!("to dry besides, {}", view.units.water_per_year_unit()),
            |view, judged| view.writer().dehumidification(&view.cooling(judged)),
        ));
    }
    columns
}

/// The section.
pub(super) fn section(view: &ReportView<'_>) -> Markup {
    let accepted = &view.list.accepted;
    html! {
        section aria-labelledby="list" {
            h2 id="list" { "Short list" }
            @if accepted.is_empty() {
                p { "No unit of the catalog is accepted. Why each one is rejected, and what would close the gap, stands below." }
            } @else {
                p class="note" {
                    "Accepted units, " (view.ranked_by) ". A margin is capacity above the design load. Shares in summer are of the hours "
                    "with a call for cooling. Hours are unproven where it is colder in winter, or hotter in summer, than anything "
                    "published of the unit. A question mark stands for what is not published, or not known for want of it."
                    @if view.sections_were_named { " The sections with charts are those that were asked for." }
                }
                (table(view))
                @if accepted.len() > LISTED {
                    p class="note" { "The first " (LISTED) " of " (accepted.len()) " are listed." }
                }
                @if accepted.len() > 1 { (chart(view)) }
            }
        }
    }
}

fn table(view: &ReportView<'_>) -> Markup {
    let columns = columns(view);
    html! {
        div class="scroll list" tabindex="0" role="region" aria-label="Table of accepted units" {
            table {
                thead {
                    tr {
                        th scope="col" class="rank" { "rank" }
                        th scope="col" class="left" { "unit" }
                        @for column in &columns { th scope="col" { (words(&column.head)) } }
                    }
                }
                tbody {
                    @for (place, judged) in view.list.accepted.iter().take(LISTED).enumerate() {
                        tr data-rank=(place + 1) {
                            td class="rank" { (place + 1) }
                            th scope="row" { (unit_name(view, &judged.model.key)) }
                            @for column in &columns {
                                @if let Some(figure) = (column.get)(view, judged) {
                                    td data-from=(figure.from) data-unit=(figure.unit) { (figure.text) }
                                } @else {
                                    td { "?" }
                                }
                            }
                        }
                    }
                }
            }
        }
    }
}

fn chart(view: &ReportView<'_>) -> Markup {
    let accepted = &view.list.accepted;
    let compared = &accepted[..accepted.len().min(COMPARED)];
    let data = comparison_chart(
        compared,
        &view.brief.house().name,
        view.brief.without_call().is_some(),
        view.units,
    );
    html! {
        div class="compare" { (PreEscaped(Frame::pair("comparison", |frame| comparison(&data, frame)))) }
        @if accepted.len() > compared.len() {
            p class="note" { "The first " (compared.len()) " of " (accepted.len()) " are drawn." }
        }
    }
}
