//! An explanation as one self-contained page: light and dark, and on paper.

use maud::{DOCTYPE, Markup, PreEscaped, html};

use super::charts::{TextSize, drawing, text_picture};
use super::{ExplainView, cell_text, result_line, unpublished_words, worked, written};
use crate::report::cautions::CAUTIONS;
use crate::report::clean_text;
use crate::report::svg::style_sheet;
use crate::report::terminal::Glyphs;
use crate::study::explain::{Cell, Chapter, Part, Picture, Step, Table};

const STYLE: &str = "\
:root{color-scheme:light dark;--ink:#17202b;--soft:#566270;--rule:#d9dfe5;--paper:#fff;--tint:#f4f6f8}\
@media (prefers-color-scheme:dark){:root{--ink:#eef2f6;--soft:#a7b2be;--rule:#2b343e;--paper:#12171d;--tint:#1a2129}}\
*{box-sizing:border-box}\
body{margin:0 auto;max-width:48rem;padding:1.5rem 1rem 4rem;background:var(--paper);color:var(--ink);\
font:1rem/1.55 system-ui,sans-serif;overflow-wrap:anywhere}\
h1{font-size:1.6rem;line-height:1.25;margin:0 0 .25rem}h2{font-size:1.25rem;margin:2.5rem 0 .5rem;\
border-top:1px solid var(--rule);padding-top:1rem}h3{font-size:1rem;margin:0}\
.setting,.note,footer{color:var(--soft)}.note{margin:.25rem 0 0}\
ol.steps{list-style:none;margin:0;padding:0}ol.steps>li{margin:1.1rem 0;break-inside:avoid}\
.math{font-family:ui-monospace,monospace;font-size:.9rem;background:var(--tint);border-left:3px solid var(--rule);\
padding:.5rem .75rem;margin:.4rem 0 0;white-space:pre-wrap}\
.result{font-weight:700}.input,.key{white-space:nowrap}.key{font-size:.8rem;color:var(--soft);font-weight:400}\
.scroll{overflow-x:auto}table{border-collapse:collapse;font-variant-numeric:tabular-nums;font-size:.9rem}\
caption{text-align:left;color:var(--soft);padding:.5rem 0}th,td{padding:.25rem .75rem .25rem 0;text-align:right;\
border-bottom:1px solid var(--rule);white-space:nowrap}th{vertical-align:bottom}\
.word{text-align:left;white-space:normal}\
figure{margin:1.25rem 0;break-inside:avoid}figure pre{font:.75rem/1.25 ui-monospace,monospace;margin:0}\
a{color:inherit}dt{font-weight:700}dd{margin:0 0 .5rem}\
@media print{:root{--ink:#000;--soft:#333;--rule:#bbb;--paper:#fff;--tint:#fff}body{max-width:none;padding:0;font-size:10pt}\
h2{break-after:avoid}}";

/// The explanation as a page. Makes no request and runs no script.
#[must_use]
pub fn explain_html(view: &ExplainView<'_>) -> String {
    let title = clean_text(&view.title(), 200);
    let page = html! {
        (DOCTYPE)
        html lang="en" {
            head {
                meta charset="utf-8";
                meta name="viewport" content="width=device-width, initial-scale=1";
                title { (title) }
                style { (PreEscaped(STYLE)) (PreEscaped(style_sheet())) }
            }
            body {
                main {
                    h1 { (title) }
                    p class="setting" { (clean_text(&view.setting(), 500)) }
                    @for (index, chapter) in view.explanation.chapters.iter().enumerate() {
                        (chapter_markup(chapter, index, view))
                    }
                }
                footer { (foot(view)) }
            }
        }
    };
    page.into_string()
}

fn chapter_markup(chapter: &Chapter, index: usize, view: &ExplainView<'_>) -> Markup {
    let id = chapter.topic.name();
    let mut number = 0;
    html! {
        section aria-labelledby=(id) {
            h2 id=(id) { (chapter.topic.words()) }
            @for (place, part) in chapter.parts.iter().enumerate() {
                @match part {
                    Part::Words(words) => p { (clean_text(words, 2_000)) },
                    Part::Table(table) => (table_markup(table)),
                    Part::Picture(picture) => (picture_markup(picture, view, &format!("chart-{index}-{place}"))),
                    Part::Step(step) => ol class="steps" start=({ number += 1; number }) {
                        li { (step_markup(step, number, view)) }
                    },
                }
            }
        }
    }
}

fn step_markup(step: &Step, number: usize, view: &ExplainView<'_>) -> Markup {
    let result = result_line(step, view.units);
    html! {
        h3 {
            (number) ". " (clean_text(&step.title, 500)) " "
            a class="key" href=(format!("#source-{}", step.authority.key())) { (step.authority.key()) }
        }
        @if step.equation.is_empty() {
            @if let Some(result) = result {
                p class="math" { (step.symbol) " = " span class="result" { (result) } }
            }
        } @else {
            p class="math" {
                (step.symbol) " = " (step.equation) "\n"
                "with " (inputs_markup(step)) "\n"
                "= " (worked(step))
                @if let Some(result) = result { "\n= " span class="result" { (result) } }
            }
        }
        @if !step.note.is_empty() {
            p class="note" { (clean_text(&step.note, 2_000)) }
        }
    }
}

/// The numbers put in, each kept together with its symbol and its unit.
fn inputs_markup(step: &Step) -> Markup {
    html! {
        @for (place, input) in step.inputs.iter().enumerate() {
            @if place > 0 { ", " }
            span class="input" { (input.symbol) " = " (written(input.value)) }
        }
    }
}

fn table_markup(table: &Table) -> Markup {
    let class = |cell: Option<&Cell>| match cell {
        Some(Cell::Number(_) | Cell::Missing) => None,
        Some(Cell::Word(_)) | None => Some("word"),
    };
    let (table, unpublished) = (&table.published(), unpublished_words(table));
    html! {
        div class="scroll" tabindex="0" role="region" aria-label=(clean_text(&table.title, 200)) {
            table {
                caption { (clean_text(&table.title, 500)) }
                thead {
                    tr {
                        @for (column, name) in table.head.iter().enumerate() {
                            th scope="col" class=[class(table.rows.first().and_then(|row| row.get(column)))] { (name) }
                        }
                    }
                }
                tbody {
                    @for row in &table.rows {
                        tr {
                            @for cell in row {
                                td class=[class(Some(cell))] { (clean_text(&cell_text(cell), 300)) }
                            }
                        }
                    }
                }
            }
        }
        @if let Some(words) = unpublished { p class="note" { (words) } }
    }
}

fn picture_markup(picture: &Picture, view: &ExplainView<'_>, id: &str) -> Markup {
    let (Picture::Lines { title, .. } | Picture::Hours { title, .. }) = picture;
    html! {
        figure {
            @if let Some(drawing) = drawing(picture, view, id) {
                (PreEscaped(drawing))
            } @else {
                figcaption { (clean_text(title, 200)) }
                div class="scroll" tabindex="0" role="region" aria-label=(clean_text(title, 200)) {
                    pre { (text_picture(&untitled(picture), TextSize::wide(76), Glyphs::Unicode)) }
                }
            }
        }
    }
}

/// The same picture without its title, which stands in the caption.
fn untitled(picture: &Picture) -> Picture {
    let mut untitled = picture.clone();
    let (Picture::Lines { title, .. } | Picture::Hours { title, .. }) = &mut untitled;
    title.clear();
    untitled
}

fn foot(view: &ExplainView<'_>) -> Markup {
    html! {
        h2 { "Sources and cautions" }
        dl {
            @for authority in view.explanation.authorities() {
                dt id=(format!("source-{}", authority.key())) { (authority.key()) }
                dd { (authority.words()) }
            }
        }
        ul {
            @for source in view.sources { li { "Unit: " (clean_text(source, 500)) } }
            @for caveat in &view.explanation.judged.caveats {
                li { "Caveat: " (clean_text(&caveat.text(view.units), 1_000)) "." }
            }
            @for caution in CAUTIONS { li { (caution) } }
        }
    }
}
