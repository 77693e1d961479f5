//! Declared seasonal figures beside what the published points lead to: a line for each unit, what is outside first.

use std::collections::BTreeMap;

use super::table::{Column, PlainTable, paragraph};
use crate::quantity::{counted, fixed};
use crate::rating::{CATALOG_TOLERANCE, Comparison, Figure, Outcome, Recomputed};

/// How many units of a group are named in the text; the other forms name all.
const NAMED: usize = 12;

/// The figures of each procedure: heating, cooling.
const PROCEDURES: [(&str, [Figure; 2]); 2] = [
    ("EN 14825", [Figure::Scop, Figure::Seer]),
    ("Appendix M1", [Figure::Hspf2, Figure::Seer2]),
];

/// A unit's recomputed figures.
#[derive(Clone, Debug)]
pub struct UnitRatings {
    /// The unit's key.
    pub unit: String,
    /// What came of every figure that it declares.
    pub figures: Vec<Recomputed>,
}

impl UnitRatings {
    fn compared(&self, figure: Figure) -> Option<(f64, &Comparison)> {
        self.figures.iter().find_map(|found| match &found.outcome {
            Outcome::Compared(comparison) if found.figure == figure => {
                Some((found.declared, comparison))
            }
            _ => None,
        })
    }

    fn is_outside(&self, figures: [Figure; 2]) -> bool {
        figures
            .iter()
            .filter_map(|&figure| self.compared(figure))
            .any(|(_, comparison)| !comparison.inside)
    }
}

/// What came of a figure, by its name in files.
#[must_use]
pub fn rating_code(outcome: &Outcome) -> &'static str {
    match outcome {
        Outcome::Compared(comparison) if comparison.inside => "rating_agrees",
        Outcome::Compared(_) => "rating_outside",
        Outcome::Missing(_) => "rating_points_missing",
        Outcome::Unphysical(_) => "rating_unphysical",
        Outcome::OtherProcedure => "rating_other_procedure",
    }
}

/// What came of a figure, in a sentence.
#[must_use]
pub fn rating_sentence(found: &Recomputed) -> String {
    let (name, declared) = (found.figure.name(), found.declared);
    match &found.outcome {
        Outcome::Compared(comparison) => format!(
            "declared {name} {declared}; its points lead to {}, {}",
            range(comparison),
            if comparison.inside {
                "which agrees"
            } else {
                "beyond the tolerance: a point or the figure may be mistyped"
            }
        ),
        Outcome::Missing(_) | Outcome::Unphysical(_) | Outcome::OtherProcedure => {
            format!("declared {name} {declared}; {}", obstacle(&found.outcome))
        }
    }
}

/// Why a figure was not recomputed; empty where it was.
fn obstacle(outcome: &Outcome) -> String {
    match outcome {
        Outcome::Compared(_) => String::new(),
        Outcome::Missing(points) => {
            let points: Vec<String> = points.iter().map(ToString::to_string).collect();
            format!("not published: {}", points.join("; "))
        }
        Outcome::Unphysical(words) => words.clone(),
        Outcome::OtherProcedure => {
            "rated by the older Appendix M, which is not recomputed here".to_owned()
        }
    }
}

/// The recomputed figure, as a range where unknown inputs leave one.
fn range(comparison: &Comparison) -> String {
    let (lowest, highest) = (fixed(comparison.lowest, 2), fixed(comparison.highest, 2));
    if lowest == highest {
        lowest
    } else {
        format!("{lowest} to {highest}")
    }
}

/// A table for each procedure, and the figures that were not recomputed in groups; empty where none is declared.
#[must_use]
pub fn rating_text(ratings: &[UnitRatings], width: u16) -> String {
    let mut text = String::new();
    for (procedure, figures) in PROCEDURES {
        text += &table(ratings, procedure, figures, width);
    }
    text + &groups(ratings, width)
}

fn table(ratings: &[UnitRatings], procedure: &str, figures: [Figure; 2], width: u16) -> String {
    let mut rows: Vec<&UnitRatings> = ratings
        .iter()
        .filter(|unit| {
            figures
                .iter()
                .any(|&figure| unit.compared(figure).is_some())
        })
        .collect();
    if rows.is_empty() {
        return String::new();
    }
    rows.sort_by_key(|unit| !unit.is_outside(figures));
    let [heating, cooling] = figures.map(Figure::name);
    let head = [
        ("unit", Column::Words),
        (heating, Column::Numbers),
        ("by points", Column::Numbers),
        (cooling, Column::Numbers),
        ("by points", Column::Numbers),
        ("outside", Column::Words),
    ];
    let mut table = PlainTable::new(width, &head);
    for unit in rows {
        let mut cells = vec![unit.unit.clone()];
        let mut outside = Vec::new();
        for figure in figures {
            let Some((declared, comparison)) = unit.compared(figure) else {
                cells.extend([String::new(), String::new()]);
                continue;
            };
            cells.extend([declared.to_string(), range(comparison)]);
            if !comparison.inside {
                let deviation = comparison.deviation * 100.0;
                let sign = if deviation > 0.0 { "+" } else { "" };
                outside.push(format!("{} {sign}{} %", figure.name(), fixed(deviation, 1)));
            }
        }
        cells.push(outside.join(", "));
        table.row(cells);
    }
    let title = format!("Seasonal figures by {procedure}, declared and recomputed from the points");
    format!("{}\n{}\n", paragraph(&title, width, "", ""), table.text())
}

fn groups(ratings: &[UnitRatings], width: u16) -> String {
    let mut groups: BTreeMap<(&str, String), Vec<&str>> = BTreeMap::new();
    for unit in ratings {
        for found in &unit.figures {
            let obstacle = obstacle(&found.outcome);
            if !obstacle.is_empty() {
                let group = groups.entry((found.figure.name(), obstacle)).or_default();
                group.push(&unit.unit);
            }
        }
    }
    let mut text = String::new();
    for ((figure, obstacle), units) in &groups {
        text += &paragraph(&format!("{figure} {obstacle}"), width, "", "  ");
        let mut names = units[..units.len().min(NAMED)].join(", ");
        if units.len() > NAMED {
            names += &format!(" and {} more", units.len() - NAMED);
        }
        text += &paragraph(&names, width, "  ", "  ");
    }
    if text.is_empty() {
        return text;
    }
    let title = paragraph(
        "Declared seasonal figures that were not recomputed",
        width,
        "",
        "",
    );
    format!("{title}\n{text}\n")
}

/// How many figures agree, lie outside, and were not recomputed.
#[must_use]
pub fn rating_counts(ratings: &[UnitRatings], width: u16) -> String {
    let (mut agree, mut outside, mut open) = (0_usize, 0_usize, 0_usize);
    for found in ratings.iter().flat_map(|unit| &unit.figures) {
        match &found.outcome {
            Outcome::Compared(comparison) if comparison.inside => agree += 1,
            Outcome::Compared(_) => outside += 1,
            Outcome::Missing(_) | Outcome::Unphysical(_) | Outcome::OtherProcedure => open += 1,
        }
    }
    let words = format!(
        "{}: {} within {} %, {outside} outside, {open} not recomputed.",
        counted(
            agree + outside + open,
            "declared seasonal figure",
            "declared seasonal figures"
        ),
        counted(agree, "agrees with its points", "agree with their points"),
        fixed(CATALOG_TOLERANCE * 100.0, 0),
    );
    paragraph(&words, width, "", "")
}
