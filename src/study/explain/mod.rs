//! Why a unit passes or fails, number by number: a worked calculation that a reader with a calculator can redo.
//!
//! Every number comes from the functions that judge units; the steps only show the way to it.

mod coil;
mod criteria;
mod cycling;
mod heating;
mod heating_balance;
mod heating_hour;
mod heating_season;
mod humidity;
mod indoor_air;
mod lesson;
mod picture;
mod reading;
mod source;
mod step;
mod table;
mod turndown;
mod typical;

pub use lesson::{CyclingLesson, FlatterLesson, Lesson, WaterLesson, lesson};
pub use picture::{Bar, Line, Mark, Picture, Shows};
pub use source::Authority;
pub use step::{Input, Measure, Step, Value};
pub use table::{Cell, Table};

use super::{Brief, Judged};
use crate::criteria::{Findings, Requirement};
use crate::equipment::Unit;

/// What is explained.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Topic {
    /// The design load, the balance point, one hour, the winter.
    Heating,
    /// How far the unit turns down in summer, and when it cycles.
    Turndown,
    /// The room's humidity in summer.
    Humidity,
    /// Every requirement with its value and limit.
    Criteria,
}

impl Topic {
    /// Every topic, in the order in which they are shown.
    pub const ALL: [Self; 4] = [
        Self::Heating,
        Self::Turndown,
        Self::Humidity,
        Self::Criteria,
    ];

    /// Its name on the command line.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::Heating => "heating",
            Self::Turndown => "turndown",
            Self::Humidity => "humidity",
            Self::Criteria => "criteria",
        }
    }

    /// What it answers.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::Heating => "Does the unit carry the house through the winter?",
            Self::Turndown => "How far does it turn down in summer?",
            Self::Humidity => "How humid is the room?",
            Self::Criteria => "Which requirements does it meet?",
        }
    }
}

/// A piece of an explanation, in reading order.
#[derive(Clone, Debug, PartialEq)]
pub enum Part {
    /// A step of the calculation.
    Step(Step),
    /// Numbers side by side.
    Table(Table),
    /// A picture.
    Picture(Picture),
    /// A sentence.
    Words(String),
}

impl From<Step> for Part {
    fn from(step: Step) -> Self {
        Self::Step(step)
    }
}

impl From<Table> for Part {
    fn from(table: Table) -> Self {
        Self::Table(table)
    }
}

/// One topic, explained.
#[derive(Clone, Debug, PartialEq)]
pub struct Chapter {
    /// What is explained.
    pub topic: Topic,
    /// The explanation, in reading order.
    pub parts: Vec<Part>,
}

impl Chapter {
    /// The steps alone.
    pub fn steps(&self) -> impl Iterator<Item = &Step> {
        self.parts.iter().filter_map(|part| match part {
            Part::Step(step) => Some(step),
            Part::Table(_) | Part::Picture(_) | Part::Words(_) => None,
        })
    }
}

/// A unit in a house, explained.
#[derive(Debug)]
pub struct Explanation {
    /// The unit with its figures and verdict.
    pub judged: Judged,
    /// The topics asked for, in order.
    pub chapters: Vec<Chapter>,
}

impl Explanation {
    /// On whose authority the steps stand, each once.
    #[must_use]
    pub fn authorities(&self) -> Vec<Authority> {
        let mut found: Vec<Authority> = self
            .chapters
            .iter()
            .flat_map(Chapter::steps)
            .map(|step| step.authority)
            .collect();
        found.sort();
        found.dedup();
        found
    }
}

/// A temperature as it stands in a step's title.
fn reading_words(outdoor: crate::quantity::Celsius) -> String {
    crate::quantity::fixed((outdoor.0 * 100.0).round() / 100.0, 2)
        .trim_end_matches('0')
        .trim_end_matches('.')
        .to_owned()
}

/// Everything a chapter is written from.
struct Subject<'a> {
    brief: &'a Brief,
    unit: &'a Unit,
    judged: &'a Judged,
    each: &'a [(Requirement, Findings)],
}

/// The topics that apply to a house: heating and criteria always, turndown where it is cooled, humidity where its
/// moisture gains are known too.
#[must_use]
pub fn topics_of(brief: &Brief) -> Vec<Topic> {
    let applies = |topic: &Topic| match topic {
        Topic::Heating | Topic::Criteria => true,
        Topic::Turndown => brief.house().cooling.is_some(),
        Topic::Humidity => brief.house().cooling.is_some() && brief.house().moisture.is_some(),
    };
    Topic::ALL.into_iter().filter(applies).collect()
}

/// Capacity against the load line with the balance point marked; `None` where nothing is published for heating.
#[must_use]
pub fn heating_picture(brief: &Brief, unit: &Unit, judged: &Judged) -> Option<Picture> {
    let subject = Subject {
        brief,
        unit,
        judged,
        each: &[],
    };
    let curves = brief.heating_curves(unit)?;
    Some(heating::capacity_picture(&subject, &curves))
}

/// Explains a unit in a house.
#[must_use]
pub fn explain(brief: &Brief, unit: &Unit, topics: &[Topic]) -> Explanation {
    let (judged, each) = brief.judge_each(unit);
    let subject = Subject {
        brief,
        unit,
        judged: &judged,
        each: &each,
    };
    let chapters = topics
        .iter()
        .map(|&topic| Chapter {
            topic,
            parts: match topic {
                Topic::Heating => heating::parts(&subject),
                Topic::Turndown => turndown::parts(&subject),
                Topic::Humidity => humidity::parts(&subject),
                Topic::Criteria => criteria::parts(&subject),
            },
        })
        .collect();
    Explanation { judged, chapters }
}

#[cfg(test)]
pub(crate) mod calculator;
#[cfg(test)]
pub(crate) mod example;
#[cfg(test)]
mod tests;
