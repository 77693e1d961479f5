//! The short list for people: accepted by rank, rejected by reason, undecided with what to ask for.

use std::collections::BTreeMap;
use std::fmt::Write as _;

use super::answer::CatalogSize;
use super::foot::sources_and_cautions;
use super::other_climates::OtherClimates;
use super::rejected_groups::rejected_groups;
use super::table::{Column, PlainTable, paragraph};
use crate::criteria::Reason;
use crate::heating::BalancePoint;
use crate::house::House;
use crate::quantity::{UnitSystem, counted, fixed};
use crate::study::{Judged, RankBy, Shortlist, Verdict};

/// How a short list is to be shown.
#[derive(Clone, Copy, Debug)]
pub struct ShortlistView<'a> {
    /// The house.
    pub house: &'a House,
    /// What was searched.
    pub catalog: CatalogSize,
    /// The climate's key; `None` without one.
    pub climate: Option<&'a str>,
    /// What accepted units are ranked by, in words.
    pub ranked_by: &'a str,
    /// What they are ranked by.
    pub by: RankBy,
    /// Units shown.
    pub units: UnitSystem,
    /// Characters that fit a line.
    pub width: u16,
    /// How many accepted units are shown; `None`: all.
    pub top: Option<usize>,
    /// Whether every rejected and undecided unit is shown, with every reason.
    pub all: bool,
    /// Titles of the sources behind the units shown.
    pub sources: &'a [String],
    /// The accepted units in other climates; `None` where none were asked for.
    pub elsewhere: Option<&'a OtherClimates>,
}

/// Place of the margin among the columns of accepted units.
const MARGIN: usize = 3;
/// How many units of a group are shown unless all are asked for.
const SHOWN_PER_GROUP: usize = 3;

/// The short list as text.
#[must_use]
pub fn shortlist_table(view: &ShortlistView<'_>, list: &Shortlist) -> String {
    let mut text = head(view);
    let total = list.accepted.len() + list.rejected.len() + list.undecided.len();
    let title = format!(
        "ACCEPTED: {} of {total}, {}",
        list.accepted.len(),
        view.ranked_by
    );
    text.push('\n');
    text += &paragraph(&title, view.width, "", "  ");
    if list.accepted.is_empty() {
        text += "  none\n";
    } else {
        text += &accepted(view, &list.accepted);
        text += &key(view);
        if let Some(elsewhere) = view.elsewhere {
            let shown = view.top.unwrap_or(usize::MAX).min(list.accepted.len());
            text += &elsewhere.table(&list.accepted[..shown], view.units, view.width);
        }
    }
    if !list.rejected.is_empty() {
        text += &rejected(view, &list.rejected);
    }
    if !list.undecided.is_empty() {
        text += &undecided(view, &list.undecided);
    }
    text += &foot(view, list);
    text
}

fn head(view: &ShortlistView<'_>) -> String {
    let (house, units) = (view.house, view.units);
    let heating = &house.heating;
    let mut text = paragraph(&house.name, view.width, "", "");
    let mut needs = format!(
        "Needs {} at {}, nothing from {}",
        units.power(heating.load.design_load),
        units.temperature(heating.load.design_outdoor),
        units.temperature(heating.load.zero_load_outdoor),
    );
    if heating.reserve > 0.0 {
        needs += &format!(", {:.0} % in reserve", heating.reserve * 100.0);
    }
    if let Some(coldest) = heating.must_run_to {
        needs += &format!("; must run to {}", units.temperature(coldest));
    }
    if let Some(cooling) = &house.cooling {
        needs += &format!(
            ". Cooling: {} sensible at {}",
            units.power(cooling.load.design_sensible),
            units.temperature(cooling.load.design_outdoor)
        );
    }
    needs += &format!(
        ". Climate: {}. Catalog: {}, {}.",
        view.climate.unwrap_or("none, so no season is judged"),
        counted(view.catalog.units, "unit", "units"),
        counted(view.catalog.points, "point", "points")
    );
    text += &paragraph(&needs, view.width, "", "");
    text
}

fn accepted(view: &ShortlistView<'_>, accepted: &[Judged]) -> String {
    let units = view.units;
    let capacity = format!("{} at design", units.power_unit());
    let seasonal = view.climate.is_some();
    let cooled = seasonal && view.house.cooling.is_some();
    let moist = cooled && view.house.moisture.is_some();
    let balance = format!("balance {}", units.temperature_unit());
    let mut columns = vec![
        ("", Column::Numbers),
        ("unit", Column::Words),
        (capacity.as_str(), Column::Numbers),
        ("margin", Column::Numbers),
        (balance.as_str(), Column::Numbers),
    ];
    if seasonal {
        columns.push(("winter COP", Column::Numbers));
        columns.push(("kWh a year", Column::Numbers));
    }
    if cooled {
        columns.push(("summer cycling", Column::Numbers));
    }
    if moist {
        columns.push(("humid", Column::Numbers));
    }
    let running_head = match view.by {
        RankBy::Emissions => "kg CO₂ a year".to_owned(),
        RankBy::Price => price_head(accepted),
        _ => format!("{} a year", currency(view.house)),
    };
    let running = matches!(view.by, RankBy::Cost | RankBy::Emissions | RankBy::Price);
    if running {
        // Its column takes the place of the margin, which the capacity says too.
        columns.remove(MARGIN);
        columns.push((running_head.as_str(), Column::Numbers));
    }
    let mut table = PlainTable::new(view.width, &columns);
    let shown = view.top.unwrap_or(accepted.len());
    for (place, judged) in accepted.iter().take(shown).enumerate() {
        let heating = &judged.heating;
        let mut row = vec![
            (place + 1).to_string(),
            judged.model.key.clone(),
            heating
                .capacity_at_design
                .map_or_else(unknown, |capacity| units.bare_power(capacity)),
            heating
                .margin()
                .map_or_else(unknown, |margin| format!("{:+.0} %", margin * 100.0)),
            balance_words(heating.balance_point, units),
        ];
        if let Some(season) = heating.season {
            row.push(
                season
                    .seasonal_cop()
                    .map_or_else(unknown, |cop| fixed(cop, 2)),
            );
            row.push(
                judged
                    .annual_electricity()
                    .map_or_else(unknown, |energy| fixed(energy.0, 0)),
            );
        }
        if cooled {
            row.push(share_of_hours(judged, |known| {
                known.cycling_hours.map(|hours| hours.0)
            }));
        }
        if moist {
            row.push(share_of_hours(judged, |known| {
                known.humidity.map(|humidity| humidity.humid_hours.0)
            }));
        }
        if running {
            row.remove(MARGIN);
            let year = judged.running.unwrap_or_default();
            let figure = match view.by {
                RankBy::Emissions => year.emissions.map(|emissions| emissions.0),
                RankBy::Price => judged.model.price,
                _ => year.cost.map(|cost| cost.0),
            };
            row.push(figure.map_or_else(unknown, |figure| fixed(figure, 0)));
        }
        table.row(row);
    }
    let mut text = table.text();
    if shown < accepted.len() {
        let _ = writeln!(
            text,
            "  and {} more (leave out --top to see them)",
            accepted.len() - shown
        );
    }
    if matches!(view.by, RankBy::Cost | RankBy::Emissions) {
        let words = format!(
            "{running_head}: heating with the house's own backup, cooling and standby{}. kWh a year is without standby.",
            if view.by == RankBy::Cost {
                ", and monthly charges; a fuel account only where the backup burns fuel and is called on"
            } else {
                ""
            }
        );
        text += &paragraph(&words, view.width, "  ", "    ");
    }
    text
}

/// The head of the column of prices, which are all in one currency where they rank.
fn price_head(accepted: &[Judged]) -> String {
    let currency = accepted
        .iter()
        .filter(|judged| judged.model.price.is_some())
        .find_map(|judged| judged.model.currency.as_deref());
    currency.map_or_else(
        || "price".to_owned(),
        |currency| format!("price {currency}"),
    )
}

/// What the columns of summer mean, and what was not judged because the house file says nothing of it.
fn key(view: &ShortlistView<'_>) -> String {
    let cooled = view.house.cooling.is_some();
    let moist = cooled && view.house.moisture.is_some();
    let mut words = Vec::new();
    if cooled && view.climate.is_some() {
        words.push(
            "Summer cycling: share of the hours with a cooling call in which the unit cycles.",
        );
        if moist {
            words.push("Humid: share of them in which the room is above its humidity limit.");
        }
    }
    if !cooled {
        words.push("Cooling was not judged: the house file has no section [cooling].");
        words.push("Humidity was not judged either.");
    } else if !moist {
        words.push("Humidity was not judged: the house file has no section [moisture].");
    }
    if words.is_empty() {
        return String::new();
    }
    paragraph(&words.join(" "), view.width, "", "")
}

/// The currency of the house's prices, as far as it names one.
fn currency(house: &House) -> &str {
    house
        .energy
        .as_ref()
        .and_then(|energy| energy.currency.as_deref())
        .unwrap_or("cost")
}

/// What stands in a cell whose figure is not known.
pub(super) fn unknown() -> String {
    "?".to_owned()
}

/// A balance point in a cell.
pub(super) fn balance_words(balance: BalancePoint, units: UnitSystem) -> String {
    match balance {
        BalancePoint::At(temperature) => units.bare_temperature(temperature),
        BalancePoint::AtOperatingLimit(limit) => format!("{} stop", units.bare_temperature(limit)),
        BalancePoint::BelowColdestPoint(coldest) => {
            format!("below {}", units.bare_temperature(coldest))
        }
        BalancePoint::Unproven => unknown(),
    }
}

fn share_of_hours(judged: &Judged, hours: impl Fn(crate::cooling::Known) -> Option<f64>) -> String {
    let season = judged.cooling.and_then(|cooling| cooling.season);
    season
        .and_then(|season| Some((season, hours(season.known?)?)))
        .map_or_else(unknown, |(season, hours)| {
            if season.cooling_hours.0 > 0.0 {
                format!("{:.0} %", hours / season.cooling_hours.0 * 100.0)
            } else {
                "0 %".to_owned()
            }
        })
}

/// Rejected units under the first reason of each, the nearest to passing first.
fn rejected(view: &ShortlistView<'_>, rejected: &[Judged]) -> String {
    let mut text = format!(
        "\nREJECTED: {}, by first reason, nearest to passing first\n",
        rejected.len()
    );
    for group in rejected_groups(rejected) {
        let count = group.units.len();
        text += &paragraph(
            &format!("{} ({count}): {}", group.code, group.meaning),
            view.width,
            "  ",
            "    ",
        );
        let shown = if view.all { count } else { SHOWN_PER_GROUP };
        for judged in group.units.iter().take(shown) {
            text += &why(view, judged);
        }
        if shown < count {
            let _ = writeln!(text, "    and {} more (--all shows them)", count - shown);
        }
    }
    text
}

/// The codes of reasons, each once: with how often where that is more, and with the names of criteria.
fn codes(reasons: &[Box<dyn Reason>]) -> String {
    let groups = reasons.chunk_by(|a, b| a.code() == b.code());
    let codes: Vec<String> = groups
        .map(|group| {
            let code = group[0].code();
            let mut names: Vec<String> = group
                .iter()
                .filter_map(|reason| Some(format!("\"{}\"", reason.name()?)))
                .collect();
            names.dedup();
            let code = match group.len() {
                1 => code.to_owned(),
                times => format!("{code} ({times})"),
            };
            match names.is_empty() {
                true => code,
                false => format!("{code} {}", names.join(", ")),
            }
        })
        .collect();
    codes.join(", ")
}

fn why(view: &ShortlistView<'_>, judged: &Judged) -> String {
    let Verdict::Rejected(reasons) = &judged.verdict else {
        return String::new();
    };
    let mut text = String::new();
    for (place, reason) in reasons.iter().enumerate() {
        if place == 0 {
            let line = format!(
                "{}: {}. Remedy: {}.",
                judged.model.key,
                reason.sentence(view.units),
                reason.remedy(view.units)
            );
            text += &paragraph(&line, view.width, "    ", "      ");
        } else if view.all {
            let line = format!(
                "also {}. Remedy: {}.",
                reason.sentence(view.units),
                reason.remedy(view.units)
            );
            text += &paragraph(&line, view.width, "      ", "      ");
        }
    }
    if !view.all && reasons.len() > 1 {
        text += &paragraph(
            &format!("also {}", codes(&reasons[1..])),
            view.width,
            "      ",
            "      ",
        );
    }
    text
}

fn undecided(view: &ShortlistView<'_>, undecided: &[Judged]) -> String {
    let mut text = format!(
        "\nUNDECIDED: {}, and what to ask the supplier for\n",
        undecided.len()
    );
    let shown = if view.all {
        undecided.len()
    } else {
        2 * SHOWN_PER_GROUP
    };
    for judged in undecided.iter().take(shown) {
        let Verdict::Undecided(asks) = &judged.verdict else {
            continue;
        };
        let questions: Vec<&str> = asks.iter().map(|ask| ask.text.as_str()).collect();
        let line = format!("{}: {}", judged.model.key, questions.join("; "));
        text += &paragraph(&line, view.width, "    ", "      ");
    }
    if shown < undecided.len() {
        let _ = writeln!(
            text,
            "    and {} more (--all shows them)",
            undecided.len() - shown
        );
    }
    text
}

fn foot(view: &ShortlistView<'_>, list: &Shortlist) -> String {
    let mut text = String::new();
    if !list.accepted.is_empty() {
        text.push('\n');
        let mut seen: BTreeMap<&'static str, Vec<(&str, String)>> = BTreeMap::new();
        for judged in &list.accepted {
            for caveat in &judged.caveats {
                seen.entry(caveat.code())
                    .or_default()
                    .push((&judged.model.key, caveat.text(view.units)));
            }
        }
        for units in seen.values() {
            text += &paragraph(&caveat_words(units), view.width, "", "  ");
        }
    }
    text.push('\n');
    text + &sources_and_cautions(view.sources, view.width)
}

/// A caveat with the accepted units that it concerns; where its numbers differ, with those of the first.
fn caveat_words(units: &[(&str, String)]) -> String {
    let Some((first, sentence)) = units.first() else {
        return String::new();
    };
    let named = units.len().min(SHOWN_PER_GROUP);
    let keys: Vec<&str> = units[..named].iter().map(|(key, _)| *key).collect();
    let mut words = format!("Caveat for {}", keys.join(", "));
    if units.len() > named {
        words += &format!(" and {} more", units.len() - named);
    }
    if units.iter().all(|(_, other)| other == sentence) {
        format!("{words}: {sentence}.")
    } else {
        format!("{words}, {first} for example: {sentence}.")
    }
}
