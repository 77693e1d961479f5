//! The sheet of answers: each in a sentence, then step by step with the equation and the numbers.

use std::collections::BTreeMap;

use maud::{Markup, html};

use super::questions::Question;
use super::{LessonView, summer_chart, winter_chart};
use crate::heating::BalancePoint;
use crate::quantity::fixed;
use crate::report::cautions::CAUTIONS;
use crate::report::clean_text;
use crate::report::explain::{in_reader_units, worked, written};
use crate::study::explain::{Authority, Part, Step};
use crate::study::{Judged, Verdict};

/// The sheet.
pub(super) fn sheet(view: &LessonView<'_>, questions: &[Question<'_>]) -> Markup {
    let mut authorities = BTreeMap::new();
    for question in questions {
        for part in parts(view, question) {
            if let Part::Step(step) = part {
                authorities.insert(step.authority.key(), step.authority);
            }
        }
    }
    html! {
        section class="page unit" aria-labelledby="answers" {
            h2 id="answers" { "Answers" }
            p class="note" { "Equations are worked in °C, kW, kg and seconds." }
            div class="charts" {
                div { (winter_chart(view, true)) }
                div { (summer_chart(view, true)) }
            }
            @for (place, question) in questions.iter().enumerate() {
                h3 { (place + 1) ". " (question.title()) }
                p class="answer" { (answer(view, question)) }
                @for part in parts(view, question) { (part_markup(&part, view)) }
            }
            (foot(view, authorities.into_values()))
        }
    }
}

/// The way to an answer.
fn parts(view: &LessonView<'_>, question: &Question<'_>) -> Vec<Part> {
    let lesson = view.lesson;
    let of = |steps: &[Step]| steps.iter().cloned().map(Part::Step).collect();
    match question {
        Question::LoadAt => of(&lesson.load_steps),
        Question::CapacityAtDesign => of(&lesson.capacity_steps),
        Question::BalancePoint => of(&lesson.balance_steps),
        Question::FlatterLoad => of(&lesson.flatter.steps),
        Question::CyclesBelow(cycling) => cycling.below_parts.clone(),
        Question::RunFraction(cycling) => of(&cycling.run_steps),
        Question::LitresADay(water) => water.parts.clone(),
    }
}

fn answer(view: &LessonView<'_>, question: &Question<'_>) -> String {
    let (lesson, units) = (view.lesson, view.units);
    match question {
        Question::LoadAt => format!(
            "{} at {}.",
            units.power(lesson.load_at.1),
            units.temperature(lesson.load_at.0)
        ),
        Question::CapacityAtDesign => capacity(view),
        Question::BalancePoint => balance(view, &lesson.judged),
        Question::FlatterLoad => format!(
            "The design load falls to {}. {} The verdict is: {} (before: {}).",
            units.power(lesson.flatter.load),
            balance(view, &lesson.flatter.judged),
            verdict(&lesson.flatter.judged),
            verdict(&lesson.judged)
        ),
        Question::CyclesBelow(cycling) => match cycling.below {
            Some(below) => format!(
                "From {} down, where the load falls below what the minimum removes.",
                units.temperature(below)
            ),
            None => "Nowhere: the minimum does not exceed the load at any temperature with a call."
                .to_owned(),
        },
        Question::RunFraction(cycling) if cycling.run_fraction() < 1.0 => format!(
            "The load is {}, so it runs {} % of the time; while it rests, the coil dries nothing.",
            units.power(cycling.load),
            fixed(cycling.run_fraction() * 100.0, 0)
        ),
        Question::RunFraction(cycling) => format!(
            "All of it: the load of {} is not below the minimum.",
            units.power(cycling.load)
        ),
        Question::LitresADay(water) if water.need.0 > 0.0 => {
            format!("{} in such weather.", units.water_per_day(water.need))
        }
        Question::LitresADay(_) => "None: the unit holds the limit in such weather.".to_owned(),
    }
}

fn capacity(view: &LessonView<'_>) -> String {
    let figures = &view.lesson.judged.heating;
    match (figures.capacity_at_design, figures.margin()) {
        (Some(capacity), Some(margin)) if margin >= 0.0 => format!(
            "{}, {} % above the load: the house is carried without backup heat on the design day.",
            view.units.power(capacity),
            fixed(margin * 100.0, 0)
        ),
        (Some(capacity), Some(margin)) => format!(
            "{}, {} % below the load: the rest is backup heat.",
            view.units.power(capacity),
            fixed(-margin * 100.0, 0)
        ),
        _ => "Nobody knows: nothing is published for that temperature.".to_owned(),
    }
}

fn balance(view: &LessonView<'_>, judged: &Judged) -> String {
    let temperature = |outdoor| view.units.temperature(outdoor);
    match judged.heating.balance_point {
        BalancePoint::At(balance) => format!(
            "The balance point is {}; on colder days backup heat makes up the rest.",
            temperature(balance)
        ),
        BalancePoint::AtOperatingLimit(limit) => format!(
            "The unit carries the load down to {}, where it stops; that counts as its balance point, and on colder days all heat \
             is backup.",
            temperature(limit)
        ),
        BalancePoint::BelowColdestPoint(coldest) => format!(
            "The balance point lies somewhere below {}, the coldest published point: down to there the load is carried.",
            temperature(coldest)
        ),
        BalancePoint::Unproven => {
            "Nobody knows where the balance point lies: nothing is published for the heating season.".to_owned()
        }
    }
}

fn verdict(judged: &Judged) -> &'static str {
    match judged.verdict {
        Verdict::Accepted => "accepted",
        Verdict::Rejected(_) => "rejected",
        Verdict::Undecided(_) => "undecided",
    }
}

fn part_markup(part: &Part, view: &LessonView<'_>) -> Markup {
    html! {
        @match part {
            Part::Words(words) => p { (clean_text(words, 2_000)) },
            Part::Step(step) => (step_markup(step, view)),
            Part::Table(_) | Part::Picture(_) => {},
        }
    }
}

fn step_markup(step: &Step, view: &LessonView<'_>) -> Markup {
    let result = step.result.map(|value| {
        let other = in_reader_units(value, view.units)
            .map_or_else(String::new, |text| format!(" ({text})"));
        format!("{}{other}", written(value))
    });
    html! {
        div class="step" {
            h4 { (clean_text(&step.title, 500)) " " a class="key" href=(format!("#source-{}", step.authority.key())) { (step.authority.key()) } }
            @if !step.symbol.is_empty() {
                p class="math" {
                    (step.symbol)
                    @if step.equation.is_empty() {
                        @if let Some(result) = &result { " = " b { (result) } }
                    } @else {
                        " = " (step.equation) "\nwith "
                        @for (place, input) in step.inputs.iter().enumerate() {
                            @if place > 0 { ", " }
                            span class="input" { (input.symbol) " = " (written(input.value)) }
                        }
                        "\n= " (worked(step))
                        @if let Some(result) = &result { "\n= " b { (result) } }
                    }
                }
            }
            @if !step.note.is_empty() { p class="note" { (clean_text(&step.note, 2_000)) } }
        }
    }
}

fn foot(view: &LessonView<'_>, authorities: impl Iterator<Item = Authority>) -> Markup {
    html! {
        h3 { "Sources" }
        dl {
            @for authority in authorities {
                dt id=(format!("source-{}", authority.key())) { (authority.key()) }
                dd { (authority.words()) }
            }
            @for source in view.sources { dt { "unit" } dd { (clean_text(source, 500)) } }
        }
        div class="cautions" { ul { @for caution in CAUTIONS { li { (caution) } } } }
        p class="note" {
            "Made by " (env!("CARGO_PKG_NAME")) " " (env!("CARGO_PKG_VERSION")) "."
            span class="screen" { " Print this page to make a PDF; the answers begin on a page of their own." }
        }
    }
}
