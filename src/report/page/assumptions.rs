//! What the answer takes for granted, and on whose authority.

use maud::{Markup, html};

use super::{ReportView, words};
use crate::cooling::{
    DEFAULT_AIRFLOW_PER_KILOWATT, DEFAULT_SENSIBLE_HEAT_RATIO, DESIGN_RELATIVE_HUMIDITY,
};
use crate::heating::DEFAULT_DEGRADATION;
use crate::house::Fan;
use crate::quantity::fixed;
use crate::report::clean_text;
use crate::study::explain::Authority;

/// What is assumed, how, and on whose authority.
struct Assumption {
    subject: &'static str,
    words: String,
    authority: String,
}

fn assumption(subject: &'static str, words: impl Into<String>, authority: Authority) -> Assumption {
    Assumption {
        subject,
        words: words.into(),
        // What stands behind a colon says which of its rules are meant, which the assumption says itself.
        authority: authority
            .words()
            .split(':')
            .next()
            .unwrap_or_default()
            .to_owned(),
    }
}

/// The section.
pub(super) fn section(view: &ReportView<'_>) -> Markup {
    let mut all = required(view);
    all.extend(winter(view));
    if view.brief.house().cooling.is_some() {
        all.extend(summer(view));
    }
    all.extend(season(view));
    html! {
        section aria-labelledby="assumptions" {
            h2 id="assumptions" { "Assumptions" }
            div class="scroll plain" tabindex="0" role="region" aria-label="Table of assumptions" {
                table {
                    thead {
                        tr {
                            th scope="col" class="left" { "on" }
                            th scope="col" class="left" { "it is assumed that" }
                            th scope="col" class="left" { "on the authority of" }
                        }
                    }
                    tbody {
                        @for found in &all {
                            tr {
                                th scope="row" { (found.subject) }
                                td { (words(&found.words)) }
                                td { (clean_text(&found.authority, 500)) }
                            }
                        }
                    }
                }
            }
        }
    }
}

/// What is asked of a unit.
fn required(view: &ReportView<'_>) -> Vec<Assumption> {
    let house = view.brief.house();
    let asked = &view.brief.criteria().requirements;
    let mut asks = Vec::new();
    if asked.full_load_without_backup {
        asks.push("it carries the design load without backup heat".to_owned());
    }
    if let Some(coldest) = house
        .heating
        .must_run_to
        .filter(|_| asked.run_beyond_design)
    {
        asks.push(format!("it runs at {}", view.units.temperature(coldest)));
    }
    if house.cooling.is_some() {
        if asked.cooling_design {
            asks.push("it carries the sensible design load in summer".to_owned());
        }
        let share = |share: f64| format!("{} %", fixed(share * 100.0, 0));
        if asked.max_cooling_cycling_share < 1.0 {
            asks.push(format!(
                "it cycles in at most {} of the hours with a call for cooling",
                share(asked.max_cooling_cycling_share)
            ));
        }
        if asked.max_humid_share < 1.0 {
            asks.push(format!(
                "at most {} of these hours are humid",
                share(asked.max_humid_share)
            ));
        }
    }
    asks.extend(view.brief.criteria().criteria.iter().map(|criterion| {
        let name = clean_text(&criterion.name, 120);
        let bound = criterion.bound.words(criterion.value, view.brief.units());
        let bound = clean_text(&bound, 120);
        if name.contains(&bound) {
            name
        } else {
            format!("{name} is {bound}")
        }
    }));
    let authority = view.criteria.map_or_else(
        || "house file; the limits of shares are our defaults, no source".to_owned(),
        |file| format!("house file and criteria `{}`", clean_text(file, 120)),
    );
    vec![Assumption {
        subject: "what is asked",
        words: if asks.is_empty() {
            "nothing is asked of a unit".to_owned()
        } else {
            format!("a unit is accepted where {}", asks.join("; "))
        },
        authority,
    }]
}

fn winter(view: &ReportView<'_>) -> Vec<Assumption> {
    let load = &view.brief.house().heating.load;
    vec![
        assumption(
            "heating load",
            format!(
                "a straight line from {} at {} to nothing at {}; the design load is the designer's",
                view.units.power(load.design_load),
                view.units.temperature(load.design_outdoor),
                view.units.temperature(load.zero_load_outdoor)
            ),
            Authority::AppendixM1,
        ),
        assumption(
            "between points",
            "capacity and input go straight from published point to published point",
            Authority::AppendixM1,
        ),
        assumption(
            "beyond points",
            "no capacity is credited colder than the coldest published point in winter, nor hotter than the hottest in summer; \
             on the mild side the last slope goes on for 10 K at most",
            Authority::OurRule,
        ),
        assumption(
            "cycling",
            format!(
                "a unit that cycles loses efficiency with the share of time in which it rests; where no degradation coefficient is \
                 published, it is {}",
                fixed(DEFAULT_DEGRADATION, 2)
            ),
            Authority::AppendixM1,
        ),
        assumption(
            "turndown",
            "a unit with several speeds and no published minimum turns down nobody knows how far; that is never taken for zero",
            Authority::OurRule,
        ),
    ]
}

fn summer(view: &ReportView<'_>) -> Vec<Assumption> {
    let house = view.brief.house();
    let mut all = vec![
        assumption(
            "coil",
            format!(
                "sensible and latent capacity follow the room's air; a point without a sensible heat ratio has {}, one without \
                 airflow {} L/s per kW",
                fixed(DEFAULT_SENSIBLE_HEAT_RATIO, 2),
                fixed(DEFAULT_AIRFLOW_PER_KILOWATT, 0)
            ),
            Authority::BypassFactor,
        ),
        assumption(
            "design day",
            format!(
                "sensible capacity is taken with the rooms at {} and {} % relative humidity",
                view.units.temperature(house.indoor.cooling),
                fixed(DESIGN_RELATIVE_HUMIDITY * 100.0, 0)
            ),
            Authority::CommonPractice,
        ),
    ];
    if house.moisture.is_some() {
        all.push(match house.cooling.map(|cooling| cooling.fan) {
            Some(Fan::Auto) => assumption(
                "drying at part load",
                "the fan stops with the compressor, and nothing that the coil caught goes back into the room",
                Authority::CommonPractice,
            ),
            _ => assumption(
                "drying at part load",
                "the fan runs on, and a wet coil gives part of its water back to the room",
                Authority::Henderson,
            ),
        });
        all.push(assumption(
            "room",
            "moisture gained equals moisture removed in every state; the heat of a dehumidifier is not fed back into the load",
            Authority::OurRule,
        ));
    }
    all
}

fn season(view: &ReportView<'_>) -> Vec<Assumption> {
    let Some(climate) = view.climate else {
        return vec![assumption(
            "climate",
            "none is given, so design conditions are judged, and no season",
            Authority::House,
        )];
    };
    vec![
        Assumption {
            subject: "climate",
            words: format!(
                "{}, grouped by 1 K and 1 g/kg",
                clean_text(&climate.name, 200)
            ),
            authority: climate.source.clone(),
        },
        assumption(
            "rank",
            format!(
                "accepted units stand in the order of {}; standby in hours without a call is shown, not counted",
                view.ranked_by
            ),
            Authority::OurRule,
        ),
    ]
}
