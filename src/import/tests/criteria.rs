//! What the reading of criteria accepts, and what it says of everything else.

use crate::criteria::{Bound, BoundValue, CriterionValue, Requirements};
use crate::equipment::Speed;
use crate::import::read_criteria;

#[test]
fn an_empty_file_asks_for_the_built_in_checks_alone() {
    let criteria = read_criteria("c.toml", "").unwrap();
    assert_eq!(criteria.requirements, Requirements::default());
    assert!(criteria.criteria.is_empty());
}

#[test]
fn requirements_and_criteria_are_read() {
    let criteria = read_criteria(
        "c.toml",
        r#"[requirements]
run_beyond_design = false
max_humid_share = "25 %"
[[criterion]]
name = "COP at -15 °C"
value = "heating.cop"
speed = "rated"
at = "5 °F"
at_least = 1.75
[[criterion]]
value = "hspf"
at_least = 10
[[criterion]]
value = "heating.capacity"
at = -15
at_least = "30 kBtu/h"
[[criterion]]
value = "refrigerant"
one_of = ["R32", "R290"]
[[criterion]]
value = "certified"
equals = true
[[criterion]]
value = "operates_to_c"
at_most = "-13 °F"
"#,
    )
    .unwrap();
    assert!(!criteria.requirements.run_beyond_design);
    assert!(criteria.requirements.cooling_design);
    assert_eq!(criteria.requirements.max_humid_share, 0.25);
    let [cop, hspf, capacity, refrigerant, certified, limit] = &criteria.criteria[..] else {
        panic!()
    };
    assert_eq!(
        (cop.name.as_str(), cop.speed),
        ("COP at -15 °C", Speed::Rated)
    );
    assert!((cop.at.unwrap().0 + 15.0).abs() < 1e-12);
    assert_eq!(cop.bound, Bound::AtLeast(1.75));
    assert_eq!((hspf.name.as_str(), hspf.at), ("hspf: at least 10", None));
    assert_eq!(capacity.value, CriterionValue::HeatingCapacity);
    assert!(matches!(capacity.bound, Bound::AtLeast(kw) if (kw - 8.792_132).abs() < 1e-6));
    assert_eq!(capacity.speed, Speed::Maximum);
    let words = ["R32", "R290"].map(|word| BoundValue::Text(word.into()));
    assert_eq!(refrigerant.bound, Bound::OneOf(words.to_vec()));
    assert_eq!(certified.bound, Bound::Equals(BoundValue::Flag(true)));
    assert!(matches!(limit.bound, Bound::AtMost(c) if (c + 25.0).abs() < 1e-9));
}

#[test]
fn every_mistake_is_named_where_it_stands() {
    let cases: &[(&str, &str)] = &[
        (
            "value = \"heating.copp\"\nat = -15\nat_least = 1",
            "c.toml:2:9: criterion.value: found \"heating.copp\", expected the name of a value, such as \"heating.cop\" or \"hspf\"\n  hint: did you mean \"heating.cop\"?",
        ),
        (
            "value = \"colour\"\nequals = 1",
            "c.toml:2:9: criterion.value: found \"colour\", expected the name of a value, such as \"heating.cop\" or \"hspf\"\n  hint: known values: heating.capacity, ",
        ),
        (
            "at_least = 1",
            "c.toml:1:1: criterion.value: found nothing, expected the name of a value",
        ),
        (
            "value = \"heating.cop\"\nat_least = 1",
            "c.toml:1:1: criterion.at: found nothing, expected the outdoor temperature at which heating.cop is read",
        ),
        (
            "value = \"hspf\"\nat = -15\nat_least = 10",
            "c.toml:3:6: criterion.at: found -15, expected no `at`: hspf is one figure for the whole unit",
        ),
        (
            "value = \"hspf\"\nspeed = \"rated\"\nat_least = 10",
            "c.toml:3:9: criterion.speed: found \"rated\", expected no `speed`: hspf is one figure for the whole unit",
        ),
        (
            "value = \"hspf\"",
            "c.toml:1:1: criterion: found no bound, expected exactly one of at_least, at_most, equals, one_of",
        ),
        (
            "value = \"hspf\"\nat_least = 8\nat_most = 12",
            "c.toml:1:1: criterion: found at_least and at_most, expected exactly one of at_least, at_most, equals, one_of",
        ),
        (
            "value = \"refrigerant\"\nat_least = 10",
            "c.toml:3:12: criterion.at_least: found 10, expected `equals` or `one_of`: refrigerant is not a number",
        ),
        (
            "value = \"refrigerant\"\none_of = \"R32\"",
            "c.toml:3:10: criterion.one_of: found \"R32\", expected a list in square brackets",
        ),
        (
            "value = \"refrigerant\"\none_of = []",
            "c.toml:3:10: criterion.one_of: found [], expected a list with at least one value",
        ),
        (
            "value = \"refrigerant\"\none_of = [\"R32\", 290]",
            "c.toml:3:18: criterion.one_of: found 290, expected a word in quotes",
        ),
        (
            "value = \"certified\"\nequals = 1",
            "c.toml:3:10: criterion.equals: found 1, expected true or false",
        ),
        (
            "value = \"hspf\"\nat_least = \"10 kW\"",
            "c.toml:3:12: criterion.at_least: found \"10 kW\", expected a number",
        ),
        (
            "value = \"hspf\"\nat_least = nan",
            "c.toml:3:12: criterion.at_least: found nan, expected a finite number",
        ),
        (
            "value = \"standby_w\"\nat_most = \"10 W\"",
            "c.toml:3:11: criterion.at_most: found \"10 W\", expected a number in W, without quotes",
        ),
        (
            "value = \"heating.capacity\"\nat = -15\nat_least = \"9 °C\"",
            "c.toml:4:12: criterion.at_least: found \"9 °C\", expected a power (kW, W, Btu/h, kBtu/h, ton)",
        ),
        (
            "value = \"heating.cop\"\nat = -15\nspeed = \"turbo\"\nat_least = 1",
            "c.toml:4:9: criterion.speed: found \"turbo\", expected \"minimum\", \"rated\" or \"maximum\"",
        ),
        (
            "value = \"heating.cop\"\nat = 150\nat_least = 1",
            "c.toml:3:6: criterion.at: found 150, expected an outdoor temperature from -90 to 60 °C",
        ),
        (
            "valeu = \"hspf\"\nvalue = \"hspf\"\nat_least = 1",
            "c.toml:2:1: criterion.valeu: found an unknown name, expected a key of [criterion]\n  hint: did you mean `value`?",
        ),
    ];
    for (text, message) in cases {
        let found = read_criteria("c.toml", &format!("[[criterion]]\n{text}\n"))
            .unwrap_err()
            .to_string();
        assert!(
            found.starts_with(message),
            "{text}\nfound:    {found}\nexpected: {message}"
        );
    }
    let single = read_criteria("c.toml", "[criterion]\nvalue = \"hspf\"\n")
        .unwrap_err()
        .to_string();
    assert_eq!(
        single,
        "c.toml:1:1: criterion: found [criterion], expected tables [[criterion]]\n  hint: write [[criterion]], in double brackets"
    );
    let share = read_criteria(
        "c.toml",
        "[requirements]\nmax_humid_share = 40\ncooling_design = \"yes\"\n",
    )
    .unwrap_err()
    .to_string();
    assert_eq!(
        share,
        "c.toml:2:19: requirements.max_humid_share: found 40, expected a share from 0 to 1\n  hint: 70 % is written 0.70 or \"70 %\"\n\
         c.toml:3:18: requirements.cooling_design: found \"yes\", expected true or false"
    );
}
