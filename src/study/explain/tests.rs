//! Every step is redone by a calculator from the numbers put in.

use super::calculator::calculate;
use super::example::{brief, house, point, single_speed, unit};
use super::*;
use crate::equipment::{Mode, Speed};
use crate::house::Fan;
use crate::quantity::{Celsius, Kilowatts};

/// Redoes every step with an equation and returns how many there were.
fn redone(explanation: &Explanation) -> usize {
    let mut count = 0;
    for step in explanation.chapters.iter().flat_map(Chapter::steps) {
        if step.equation.is_empty() {
            continue;
        }
        let of = |symbol: &str| {
            let input = step.inputs.iter().find(|input| input.symbol == symbol);
            input.map(|input| input.value.number)
        };
        let found = calculate(&step.equation, &of);
        let result = step.result.expect("an equation has a result").number;
        assert!(
            (found - result).abs() < 1e-7 * (1.0 + result.abs()),
            "{}: {} gives {found}, said to be {result}",
            step.title,
            step.equation
        );
        count += 1;
    }
    count
}

fn all(brief: &crate::study::Brief, unit: &Unit) -> Explanation {
    explain(brief, unit, &topics_of(brief))
}

fn titles(explanation: &Explanation) -> Vec<&str> {
    let steps = explanation.chapters.iter().flat_map(Chapter::steps);
    steps.map(|step| step.title.as_str()).collect()
}

#[test]
fn every_equation_gives_its_result_from_its_inputs() {
    assert!(redone(&all(&brief(house()), &unit("larch"))) > 40);
    assert!(redone(&all(&brief(house()), &single_speed("fir"))) > 40);
}

#[test]
fn the_equations_hold_over_many_houses() {
    for load in [3.0, 6.0, 9.2, 14.0, 40.0] {
        for sensible in [1.0, 2.5, 5.1, 9.0, 20.0] {
            for fan in [Fan::Auto, Fan::Continuous] {
                let mut house = house();
                house.heating.load.design_load = Kilowatts(load);
                let cooling = house.cooling.as_mut().expect("cooled");
                cooling.load.design_sensible = Kilowatts(sensible);
                cooling.fan = fan;
                assert!(redone(&all(&brief(house.clone()), &unit("larch"))) > 15);
                assert!(redone(&all(&brief(house), &single_speed("fir"))) > 15);
            }
        }
    }
}

// By hand: the load falls 9.2/33 kW a kelvin from 15 °C; capacity runs from 7.0 kW at -25 °C to 9.6 kW at -8 °C.
// 9.2/33 (15 - T) = 7 + 2.6/17 (T + 25): T = (4.18182 - 7 - 3.82353)/(0.278788 + 0.152941) = -15.384 °C.
#[test]
fn the_balance_point_is_solved_as_by_hand() {
    let explanation = explain(&brief(house()), &unit("larch"), &[Topic::Heating]);
    let step = explanation.chapters[0]
        .steps()
        .find(|step| step.symbol == "T_b")
        .expect("a balance point");
    assert!((step.result.expect("a result").number + 15.384).abs() < 2e-3);
}

#[test]
fn the_bands_of_the_winter_add_up_to_its_last_row() {
    let explanation = explain(&brief(house()), &unit("larch"), &[Topic::Heating]);
    let table = explanation.chapters[0]
        .parts
        .iter()
        .find_map(|part| match part {
            Part::Table(table) if table.head.contains(&"load kWh") => Some(table),
            _ => None,
        })
        .expect("the winter");
    let number = |cell: &Cell| match cell {
        Cell::Number(value) => value.number,
        other => panic!("{other:?}"),
    };
    let (last, bands) = table.rows.split_last().expect("rows");
    assert!(bands.len() > 4);
    for column in 1..table.head.len() {
        let sum: f64 = bands.iter().map(|row| number(&row[column])).sum();
        assert!((sum - number(&last[column])).abs() < 1e-9 * (1.0 + sum));
    }
}

#[test]
fn the_heating_hour_follows_the_case_that_applies() {
    let mut small = house();
    small.heating.load.design_load = Kilowatts(3.0);
    let cycling = explain(&brief(small), &unit("larch"), &[Topic::Heating]);
    assert!(titles(&cycling).contains(&"Part-load factor"));
    let modulating = explain(&brief(house()), &unit("larch"), &[Topic::Heating]);
    assert!(titles(&modulating).contains(&"COP at the load"));
    let mut large = house();
    large.heating.load.design_load = Kilowatts(60.0);
    let flat = explain(&brief(large), &unit("larch"), &[Topic::Heating]);
    assert!(titles(&flat).contains(&"Heat left to the backup"));
}

#[test]
fn only_topics_that_apply_are_explained_unasked() {
    let mut dry = house();
    dry.moisture = None;
    assert_eq!(
        topics_of(&brief(dry.clone())),
        [Topic::Heating, Topic::Turndown, Topic::Criteria]
    );
    dry.cooling = None;
    assert_eq!(topics_of(&brief(dry)), [Topic::Heating, Topic::Criteria]);
}

#[test]
fn what_is_not_published_is_said_and_nothing_is_made_up() {
    let mut empty = unit("larch");
    empty.points.clear();
    let explanation = all(&brief(house()), &empty);
    assert_eq!(redone(&explanation), 0);
    let words = |chapter: &Chapter| match &chapter.parts[0] {
        Part::Words(words) => words.clone(),
        _ => String::new(),
    };
    assert!(words(&explanation.chapters[0]).starts_with("Nothing is published for heating"));
    assert!(words(&explanation.chapters[1]).starts_with("Nothing is published for cooling"));
}

#[test]
fn a_sensible_heat_ratio_that_no_coil_has_is_named() {
    let mut strange = unit("larch");
    for point in &mut strange.points {
        point.sensible_heat_ratio = point.sensible_heat_ratio.map(|_| 0.2);
    }
    let explanation = explain(
        &brief(house()),
        &strange,
        &[Topic::Turndown, Topic::Humidity],
    );
    let said = explanation.chapters[0].parts.iter().any(
        |part| matches!(part, Part::Words(words) if words.starts_with("No coil can have this")),
    );
    assert!(said);
    redone(&explanation);
}

#[test]
fn a_unit_without_a_minimum_does_not_claim_to_know_its_turndown() {
    let mut unit = single_speed("fir");
    unit.points
        .push(point(Mode::Cooling, Speed::Rated, 35.0, 6.0, 4.0));
    let explanation = explain(&brief(house()), &unit, &[Topic::Turndown]);
    assert!(!titles(&explanation).contains(&"Run fraction"));
    assert!(!titles(&explanation).contains(&"From which outdoor temperature down it cycles"));
    // What is worked out is the maximum, and nothing calls it a minimum.
    assert!(
        titles(&explanation)
            .iter()
            .any(|title| title.starts_with("Total capacity of the maximum"))
    );
    let mut asked = false;
    for part in &explanation.chapters[0].parts {
        match part {
            Part::Words(words) => {
                asked |= words.contains("how far the unit turns down is unknown")
                    && words.contains("Ask the supplier");
                assert!(!words.contains("What the minimum"), "{words}");
            }
            Part::Step(step) => assert!(!format!("{step:?}").contains("minimum"), "{step:?}"),
            Part::Table(_) | Part::Picture(_) => {}
        }
    }
    assert!(asked);
    redone(&explanation);
    let humidity = explain(&brief(house()), &unit, &[Topic::Humidity]);
    assert!(titles(&humidity).is_empty());
}

#[test]
fn every_requirement_stands_in_the_table_with_its_outcome() {
    let explanation = explain(&brief(house()), &unit("larch"), &[Topic::Criteria]);
    let Part::Table(table) = &explanation.chapters[0].parts[0] else {
        panic!("a table comes first");
    };
    let outcomes: Vec<&Cell> = table.rows.iter().map(|row| &row[3]).collect();
    // 8.07 kW of 9.2 kW; a point at -25 °C is published; the rest by the season.
    assert_eq!(outcomes[0], &Cell::word("fails"));
    assert_eq!(outcomes[1], &Cell::word("holds"));
    assert_eq!(outcomes[2], &Cell::word("holds"));
    assert_eq!(outcomes.len(), 5);
    assert_eq!(table.rows[1][2], Cell::number(Celsius(-25.0)));
}

#[test]
fn the_humid_hour_follows_the_case_that_applies() {
    let shown = |sensible: f64| {
        let mut house = house();
        house.cooling.as_mut().expect("cooled").load.design_sensible = Kilowatts(sensible);
        let explanation = explain(&brief(house), &unit("larch"), &[Topic::Humidity]);
        assert!(redone(&explanation) > 10);
        let titles = titles(&explanation);
        let case = titles
            .iter()
            .find(|title| title.starts_with("Latent heat removed"));
        case.expect("a case").to_string()
    };
    assert_eq!(shown(5.1), "Latent heat removed, on average");
    assert_eq!(shown(20.0), "Latent heat removed, between these two speeds");
    assert_eq!(shown(90.0), "Latent heat removed at full speed");
}
