//! An explanation as data: full precision, every step with its symbols, numbers and units.

use serde_json::{Value as Json, json};

use super::{ExplainView, verdict_word};
use crate::report::answer;
use crate::study::explain::{Cell, Part, Picture, Step, Table, Value};

/// The explanation as a JSON document.
#[must_use]
pub fn explain_data(view: &ExplainView<'_>) -> Json {
    let explanation = view.explanation;
    let chapters: Vec<Json> = explanation
        .chapters
        .iter()
        .map(|chapter| {
            json!({
                "topic": chapter.topic.name(),
                "question": chapter.topic.words(),
                "parts": chapter.parts.iter().map(part).collect::<Vec<_>>(),
            })
        })
        .collect();
    let authorities: Vec<Json> = explanation
        .authorities()
        .into_iter()
        .map(|authority| json!({ "key": authority.key(), "text": authority.words() }))
        .collect();
    json!({
        "house": view.house.name,
        "unit": explanation.judged.model.key,
        "climate": view.climate,
        "verdict": verdict_word(&explanation.judged.verdict),
        "topics": chapters,
        "sources": authorities,
        "unit_sources": view.sources,
        "caveats": answer::notes(&explanation.judged.caveats, view.units),
    })
}

fn part(part: &Part) -> Json {
    match part {
        Part::Words(text) => json!({ "text": text }),
        Part::Table(found) => json!({ "table": table(found) }),
        Part::Picture(found) => json!({ "chart": picture(found) }),
        Part::Step(found) => json!({ "step": step(found) }),
    }
}

fn value(value: Value) -> Json {
    json!({ "value": value.number, "unit": value.measure.unit() })
}

fn step(step: &Step) -> Json {
    let inputs: Vec<Json> = step
        .inputs
        .iter()
        .map(|input| {
            json!({
                "symbol": input.symbol,
                "value": input.value.number,
                "unit": input.value.measure.unit(),
            })
        })
        .collect();
    let text = |text: &str| (!text.is_empty()).then(|| text.to_owned());
    json!({
        "title": step.title,
        "symbol": text(&step.symbol),
        "equation": text(&step.equation),
        "inputs": inputs,
        "result": step.result.map(value),
        "note": text(&step.note),
        "source": step.authority.key(),
    })
}

fn table(table: &Table) -> Json {
    let cell = |cell: &Cell| match cell {
        Cell::Word(word) => json!(word),
        Cell::Number(number) => json!(number.number),
        Cell::Missing => Json::Null,
    };
    let rows: Vec<Vec<Json>> = table
        .rows
        .iter()
        .map(|row| row.iter().map(cell).collect())
        .collect();
    json!({ "title": table.title, "head": table.head, "rows": rows })
}

fn picture(picture: &Picture) -> Json {
    match picture {
        Picture::Lines {
            title,
            axis,
            lines,
            mark,
            ..
        } => json!({
            "title": title,
            "axis": axis,
            "lines": lines.iter().map(|line| json!({
                "name": line.name,
                // A value that is not a number becomes null.
                "outdoor_c": line.points.iter().map(|point| point.0).collect::<Vec<_>>(),
                "values": line.points.iter().map(|point| point.1).collect::<Vec<_>>(),
            })).collect::<Vec<_>>(),
            "mark": mark.as_ref().map(|mark| json!({
                "name": mark.name, "outdoor_c": mark.x, "value": mark.y,
            })),
        }),
        Picture::Hours { title, bars } => json!({
            "title": title,
            "bars": bars.iter().map(|bar| json!({
                "outdoor_c": bar.outdoor, "hours": bar.hours, "cycling_hours": bar.cycling,
            })).collect::<Vec<_>>(),
        }),
    }
}
