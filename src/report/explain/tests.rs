//! An explanation as it is read: redone from the digits printed, kept as a golden text, unharmed by hostile names.

use super::*;
use crate::report::terminal::Glyphs;
use crate::report::terminal::cells::cells;
use crate::study::explain::calculator::calculate;
use crate::study::explain::example::{brief, house, single_speed, unit};
use crate::study::explain::{Chapter, Topic, explain, topics_of};

fn view<'a>(
    explanation: &'a Explanation,
    house: &'a House,
    sources: &'a [String],
) -> ExplainView<'a> {
    ExplainView {
        explanation,
        house,
        climate: Some("invented"),
        units: UnitSystem::Si,
        width: 80,
        glyphs: Glyphs::Unicode,
        sources,
    }
}

/// A reader who types the printed digits comes to the printed result, but for rounding: 1 % or the last digit but one.
#[test]
fn a_reader_with_a_calculator_comes_to_the_printed_result() {
    for unit in [unit("larch"), single_speed("fir")] {
        let brief = brief(house());
        let explanation = explain(&brief, &unit, &topics_of(&brief));
        let mut count = 0;
        for step in explanation.chapters.iter().flat_map(Chapter::steps) {
            if step.equation.is_empty() {
                continue;
            }
            let found = calculate(&worked(step), &|_| None);
            let result = step.result.expect("a result");
            let printed: f64 = number::bare(result).parse().expect("a number");
            assert!(
                (found - printed).abs() < 0.01 * printed.abs() + 0.002,
                "{}: {} is {found}, printed {printed}",
                step.title,
                worked(step)
            );
            count += 1;
        }
        assert!(count > 40);
    }
}

#[test]
fn heating_and_turndown_read_as_they_did() {
    let (brief, house) = (brief(house()), house());
    let sources = ["Invented points (invented)".to_owned()];
    let explanation = explain(&brief, &unit("larch"), &[Topic::Heating, Topic::Turndown]);
    insta::assert_snapshot!(explain_text(&view(&explanation, &house, &sources)));
}

fn hostile() -> String {
    let mark = "<script>alert(1)</script>\u{1b}[2J\u{202e}\u{7}|`*\"'&\n# ";
    format!("{mark}{}", "w".repeat(10_000))
}

#[test]
fn a_hostile_name_does_no_harm_in_any_form() {
    let mut house = house();
    house.name = hostile();
    let brief = brief(house.clone());
    let mut unit = unit(&hostile());
    unit.model.maker = Some(hostile());
    let explanation = explain(&brief, &unit, &topics_of(&brief));
    let sources = [hostile()];
    let view = view(&explanation, &house, &sources);
    let acting = |text: &str| text.contains(['\u{1b}', '\u{202e}', '\u{7}']);

    let text = explain_text(&view);
    assert!(!acting(&text));
    assert!(
        text.lines().all(|line| cells(line) <= 80),
        "a line is too wide"
    );

    let markdown = explain_markdown(&view);
    assert!(!acting(&markdown) && !markdown.contains("<script"));

    let page = explain_html(&view);
    assert!(!acting(&page) && !page.contains("<script"));
    // The name of the SVG vocabulary is no address that is asked for anything.
    let asked = page.replace("http://www.w3.org/2000/svg", "");
    assert!(!asked.contains("http://") && !asked.contains("https://"));

    // Data keeps the name as it is; JSON's own escapes keep it from acting.
    let data = serde_json::to_string(&explain_data(&view)).expect("JSON");
    assert!(!data.contains(['\u{1b}', '\u{7}']));
    assert_eq!(explain_data(&view)["unit"], hostile());

    let preview = crate::report::unit_preview::unit_preview(&brief, &unit, 40, 8);
    assert!(!acting(&preview));
    assert!(preview.lines().all(|line| cells(line) <= 40));
}

#[test]
fn lines_fit_the_width_and_other_units_stand_beside() {
    let (brief, house) = (brief(house()), house());
    let explanation = explain(&brief, &unit("larch"), &topics_of(&brief));
    let mut view = view(&explanation, &house, &[]);
    view.units = UnitSystem::Ip;
    for width in [60, 80, 100] {
        view.width = width;
        let text = explain_text(&view);
        assert!(text.lines().all(|line| cells(line) <= usize::from(width)));
        assert!(text.contains("9.2 kW (31.4 kBtu/h)"));
    }
}

#[test]
fn the_page_numbers_its_steps_and_names_their_sources() {
    let (brief, house) = (brief(house()), house());
    let explanation = explain(&brief, &unit("larch"), &topics_of(&brief));
    let page = explain_html(&view(&explanation, &house, &[]));
    for authority in explanation.authorities() {
        assert!(page.contains(&format!("id=\"source-{}\"", authority.key())));
    }
    assert!(page.contains("<h3>1. Load at the design temperature"));
    assert!(page.contains("<svg"));
}

#[test]
fn the_data_holds_every_step_in_full_precision() {
    let (brief, house) = (brief(house()), house());
    let explanation = explain(&brief, &unit("larch"), &topics_of(&brief));
    let data = explain_data(&view(&explanation, &house, &[]));
    let topics = data["topics"].as_array().expect("topics");
    let steps: Vec<_> = topics
        .iter()
        .flat_map(|topic| topic["parts"].as_array().expect("parts"))
        .filter_map(|part| part.get("step"))
        .collect();
    let expected: Vec<_> = explanation
        .chapters
        .iter()
        .flat_map(Chapter::steps)
        .collect();
    assert_eq!(steps.len(), expected.len());
    for (found, step) in steps.iter().zip(expected) {
        assert_eq!(found["title"], step.title);
        let result = step.result.map(|value| value.number);
        assert_eq!(found["result"]["value"].as_f64(), result);
    }
}
