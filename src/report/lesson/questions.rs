//! The sheet of questions, each with room to write.

use maud::{Markup, html};

use super::{LessonView, summer_chart, winter_chart};
use crate::quantity::{UnitSystem, fixed};
use crate::report::clean_text;
use crate::report::house_words::house_words;
use crate::study::explain::{CyclingLesson, Lesson, WaterLesson};

/// What is asked.
#[derive(Clone, Copy, Debug)]
pub(super) enum Question<'a> {
    LoadAt,
    CapacityAtDesign,
    BalancePoint,
    FlatterLoad,
    CyclesBelow(&'a CyclingLesson),
    RunFraction(&'a CyclingLesson),
    LitresADay(&'a WaterLesson),
}

impl<'a> Question<'a> {
    /// The questions that this unit and house have an answer to, in order.
    pub fn all(lesson: &'a Lesson) -> Vec<Self> {
        let mut all = vec![
            Self::LoadAt,
            Self::CapacityAtDesign,
            Self::BalancePoint,
            Self::FlatterLoad,
        ];
        if let Some(cycling) = &lesson.cycling {
            all.extend([Self::CyclesBelow(cycling), Self::RunFraction(cycling)]);
        }
        all.extend(lesson.water.as_ref().map(Self::LitresADay));
        all
    }

    /// A few words for its head.
    pub fn title(&self) -> &'static str {
        match self {
            Self::LoadAt => "The load line",
            Self::CapacityAtDesign => "The design day",
            Self::BalancePoint => "The balance point",
            Self::FlatterLoad => "A flatter load line",
            Self::CyclesBelow(_) => "Where it begins to cycle",
            Self::RunFraction(_) => "How long it runs",
            Self::LitresADay(_) => "Litres a day",
        }
    }

    /// What is asked, in full.
    fn text(&self, view: &LessonView<'_>) -> String {
        let (lesson, units) = (view.lesson, view.units);
        let load = &view.brief.house().heating.load;
        match self {
            Self::LoadAt => format!(
                "The house needs {} at {} and nothing from {} up. What does it need at {}?",
                units.power(load.design_load),
                units.temperature(load.design_outdoor),
                units.temperature(load.zero_load_outdoor),
                units.temperature(lesson.load_at.0)
            ),
            Self::CapacityAtDesign => format!(
                "What can the unit deliver at most at {}, the design temperature? How far is that above or below the load, in per \
                 cent?",
                units.temperature(load.design_outdoor)
            ),
            Self::BalancePoint => {
                "Find the balance point on the chart of the winter: the outdoor temperature at which load and largest capacity \
                 meet. What happens on colder days?"
                    .to_owned()
            }
            Self::FlatterLoad => format!(
                "Insulation and airtightness make the load line {} % flatter. Draw it on the chart. Where does the balance point \
                 go, and would the unit carry the house now?",
                fixed((1.0 - lesson.flatter.share) * 100.0, 0)
            ),
            Self::CyclesBelow(_) => {
                "On the chart of the summer, from which outdoor temperature down does the unit run on and off?".to_owned()
            }
            Self::RunFraction(cycling) => format!(
                "At {} outdoors the minimum removes {} of sensible heat. For which part of the time does the unit run, and what \
                 does that do to the moisture on its coil?",
                units.temperature(cycling.at),
                units.power(cycling.minimum)
            ),
            Self::LitresADay(water) => format!(
                "Outdoors it is {}, with {} of water in each {} of dry air. How many {} a day would a dehumidifier have to take \
                 out of the rooms to hold them at {} % relative humidity?",
                units.temperature(water.state.outdoor),
                water_ratio(water, units),
                if units == UnitSystem::Si { "kilogram" } else { "pound" },
                if units == UnitSystem::Si { "litres" } else { "pints" },
                fixed(view.brief.house().indoor.humidity_limit * 100.0, 0)
            ),
        }
    }
}

fn water_ratio(water: &WaterLesson, units: UnitSystem) -> String {
    let ratio = water.state.humidity_ratio.map_or(0.0, |ratio| ratio.0);
    match units {
        UnitSystem::Si => format!("{} g", fixed(ratio * 1_000.0, 1)),
        UnitSystem::Ip => format!("{} grains", fixed(ratio * 7_000.0, 0)),
    }
}

/// The sheet.
pub(super) fn sheet(view: &LessonView<'_>, questions: &[Question<'_>]) -> Markup {
    html! {
        section aria-labelledby="questions" {
            h2 id="questions" { "Questions" }
            div class="words" {
                @for paragraph in house_words(view.brief.house(), view.units).iter().take(3) {
                    p { (clean_text(paragraph, 2_000)) }
                }
            }
            div class="charts draw" {
                div { (winter_chart(view, false)) }
                div { (summer_chart(view, false)) }
            }
            ol class="questions" {
                @for (place, question) in questions.iter().enumerate() {
                    li {
                        h3 { (place + 1) ". " (question.title()) }
                        p { (question.text(view)) }
                        div class="room" {}
                    }
                }
            }
        }
    }
}
