//! The whole report of one small invented house as it was last looked at.

use super::*;
use crate::report::fingerprint::{InputPrint, text_digest};
use crate::study::Verdict;
use crate::study::explain::example::{self, single_speed, unit};

fn report(units: UnitSystem) -> String {
    let mut house = example::house();
    house.heating.load.design_load = crate::quantity::Kilowatts(7.9);
    house.heating.must_run_to = None;
    house.cooling.as_mut().unwrap().fan = crate::house::Fan::Auto;
    let brief = example::brief(house);
    let mut asking = unit("does-not-say");
    for point in &mut asking.points {
        let is_cooling = point.mode == crate::equipment::Mode::Cooling;
        if is_cooling && point.speed == crate::equipment::Speed::Minimum {
            point.speed = crate::equipment::Speed::Rated;
        }
    }
    let mut accepted = unit("larch-36");
    for point in &mut accepted.points {
        let is_minimum = point.speed == crate::equipment::Speed::Minimum;
        if is_minimum && point.mode == crate::equipment::Mode::Cooling {
            point.capacity = point.capacity * 0.5;
            point.power = point.power * 0.5;
        }
    }
    let all = [&accepted, &single_speed("stops"), &asking];
    let list = Shortlist::of(
        all.into_iter().map(|unit| brief.judge(unit)).collect(),
        |judged| judged.annual_electricity().map(|energy| energy.0),
    );
    let answer = |unit: &str| match list_of(&list, unit) {
        Verdict::Accepted => "accepted".to_owned(),
        Verdict::Rejected(found) => format!("{found:?}"),
        Verdict::Undecided(found) => format!("{found:?}"),
    };
    assert_eq!(answer("larch-36"), "accepted");
    assert!(answer("stops").contains("StopsAboveDesign"));
    assert!(answer("does-not-say").contains("MinimumCooling"));
    let fingerprint = Fingerprint::of(vec![InputPrint {
        covers: "nothing but a test".to_owned(),
        digest: text_digest(""),
    }]);
    report_html(&ReportView {
        brief: &brief,
        climate: Some(&ClimateFacts {
            key: "invented".to_owned(),
            name: "Invented".to_owned(),
            source: "invented for tests".to_owned(),
            notes: vec!["a year of few states".to_owned()],
        }),
        list: &list,
        catalog: CatalogSize {
            units: 3,
            points: 23,
        },
        sections: &[SectionUnit {
            unit: accepted,
            sources: vec!["Invented points (invented)".to_owned()],
        }],
        sections_were_named: false,
        ranked_by: "lowest annual electricity first",
        criteria: None,
        units,
        date: "2026-01-31",
        fingerprint: &fingerprint,
    })
}

fn list_of<'a>(list: &'a Shortlist, unit: &str) -> &'a Verdict {
    let all = [&list.accepted, &list.rejected, &list.undecided];
    let found = all
        .into_iter()
        .flatten()
        .find(|judged| judged.model.key == unit);
    &found.expect("every unit is judged").verdict
}

#[test]
fn the_report_reads_as_it_did() {
    let page = report(UnitSystem::Si).replace(env!("CARGO_PKG_VERSION"), "VERSION");
    assert!(page.len() < 150_000, "{} bytes", page.len());
    let (before, style) = page.split_once("<style>").unwrap();
    let (_, after) = style.split_once("</style>").unwrap();
    let page = format!("{before}<style></style>{after}");
    // A line for each element of the page's own, so that a change can be read in the review.
    let lines = page
        .replace("><section", ">\n<section")
        .replace("><tr", ">\n<tr")
        .replace("><p", ">\n<p")
        .replace("><svg", ">\n<svg")
        .replace("><h", ">\n<h");
    insta::assert_snapshot!(lines);
}

#[test]
fn inch_pound_readers_get_their_units_everywhere() {
    let page = report(UnitSystem::Ip);
    assert!(page.contains("kBtu/h") && page.contains("gr/lb") && page.contains("°F"));
    assert!(
        !page.contains("°C"),
        "{}",
        page.split_once("°C").unwrap().0.len()
    );
}

#[test]
fn a_number_stays_with_its_unit() {
    assert_eq!(
        words("8.40 kW at -20.0 °C, 70 % of 3 units (2008) or"),
        "8.40\u{a0}kW at -20.0\u{a0}°C, 70\u{a0}% of 3\u{a0}units (2008) or"
    );
    assert_eq!(words("a\u{202e} 5\n%"), "a 5\u{a0}%");
}
