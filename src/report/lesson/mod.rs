//! A teaching sheet: questions with room to write, and on a page of its own the answers with the way to each.

mod answers;
mod questions;

use maud::{Markup, PreEscaped, html};

use super::clean_text;
use super::page::page;
use super::svg::{Frame, cooling_turndown, load_and_capacity};
use super::view::{load_chart, turndown_chart};
use crate::equipment::Unit;
use crate::quantity::UnitSystem;
use crate::study::Brief;
use crate::study::explain::Lesson;
use crate::study::portrait::{CoolingPortrait, HeatingPortrait};
use questions::Question;

/// Longest name of a unit or a house \[characters\].
const LONGEST_NAME: usize = 120;

/// What a teaching sheet is made of.
#[derive(Clone, Copy, Debug)]
pub struct LessonView<'a> {
    /// House, climate and requirements.
    pub brief: &'a Brief,
    /// The unit.
    pub unit: &'a Unit,
    /// The questions' numbers.
    pub lesson: &'a Lesson,
    /// The climate's name; `None` without one.
    pub climate: Option<&'a str>,
    /// The sources of the unit's numbers.
    pub sources: &'a [String],
    /// Units shown beside those in which steps are worked.
    pub units: UnitSystem,
    /// The date on the sheet.
    pub date: &'a str,
}

/// The sheet as a page.
#[must_use]
pub fn lesson_html(view: &LessonView<'_>) -> String {
    let unit = clean_text(&view.unit.model.key, LONGEST_NAME);
    let house = clean_text(&view.brief.house().name, LONGEST_NAME);
    let questions = Question::all(view.lesson);
    let body = html! {
        header {
            p class="line" {
                span { (clean_text(view.date, 40)) }
                @if let Some(climate) = view.climate { span { "Climate: " bdi { (clean_text(climate, LONGEST_NAME)) } } }
            }
            h1 { bdi { (unit) } " in " bdi { (house) } }
            p class="fill" { span { "Name" } span { "Date" } }
        }
        main {
            (questions::sheet(view, &questions))
            (answers::sheet(view, &questions))
        }
    };
    page(&format!("Lesson: {unit} in {house}"), "lesson", &body)
}

/// The winter's chart; with nothing marked on it where the learner is to find the place.
fn winter_chart(view: &LessonView<'_>, is_solved: bool) -> Markup {
    let portrait = HeatingPortrait::of(view.brief, view.unit, &view.lesson.judged);
    let key = &view.unit.model.key;
    let mut chart = load_chart(&portrait, view.brief.house(), key, view.units);
    if !is_solved {
        chart.balance_point = None;
    }
    chart.caption.subtitle.clear();
    let id = if is_solved { "winter-solved" } else { "winter" };
    html! { (PreEscaped(Frame::pair(id, |frame| load_and_capacity(&chart, frame)))) }
}

/// The summer's chart; with nothing marked on it where the learner is to find the place.
fn summer_chart(view: &LessonView<'_>, is_solved: bool) -> Markup {
    let Some(portrait) = CoolingPortrait::of(view.brief, view.unit) else {
        return html! {};
    };
    let key = &view.unit.model.key;
    let mut chart = turndown_chart(&portrait, view.brief.house(), key, view.units);
    if !is_solved {
        chart.cycles_below = None;
        for bin in &mut chart.hours {
            bin.cycling_hours = 0.0;
        }
    }
    chart.caption.subtitle.clear();
    let id = if is_solved { "summer-solved" } else { "summer" };
    html! { (PreEscaped(Frame::pair(id, |frame| cooling_turndown(&chart, frame)))) }
}
