//! Laws of the verdicts: what cannot turn a rejection into an acceptance, and what cannot change the answer.

use overwinter::criteria::Criteria;
use overwinter::equipment::Unit;
use overwinter::quantity::UnitSystem;
use overwinter::study::{Brief, RankBy, Shortlist, Verdict};
use proptest::prelude::*;

use crate::given;

fn keys(list: &Shortlist) -> [Vec<&str>; 3] {
    [&list.accepted, &list.rejected, &list.undecided].map(|group| {
        group
            .iter()
            .map(|judged| judged.model.key.as_str())
            .collect()
    })
}

fn shortlist(brief: &Brief, units: &[Unit], by: RankBy) -> Shortlist {
    let judged = units.iter().map(|unit| brief.judge(unit)).collect();
    Shortlist::of(judged, |judged| by.figure(judged))
}

fn units() -> impl Strategy<Value = Vec<Unit>> {
    prop::collection::vec(given::any_unit(), 2..7).prop_map(|mut units| {
        for (place, unit) in units.iter_mut().enumerate() {
            unit.model.key = format!("unit-{place}");
            // Some are alike in every figure, so that only their keys tell them apart.
            unit.model.price = unit.model.price.map(|price| (price / 3000.0).floor());
        }
        units
    })
}

proptest! {
    #![proptest_config(crate::repeatable(64))]

    #[test]
    fn raising_the_design_load_never_turns_a_rejection_into_an_acceptance(
        unit in given::any_unit(), house in given::house(), states in given::states(), more in 1.0..3.0
    ) {
        let climate = given::climate(states);
        let judge = |house| Brief::new(house, Some(&climate), Criteria::default(), UnitSystem::Si).judge(&unit).verdict;
        let larger = house.with_heating_design_load(house.heating.load.design_load * more);
        if matches!(judge(house), Verdict::Rejected(_)) {
            prop_assert!(matches!(judge(larger), Verdict::Rejected(_)));
        }
    }

    #[test]
    fn the_order_of_units_never_changes_the_answer(
        (units, shuffled) in units().prop_flat_map(|units| (Just(units.clone()), Just(units).prop_shuffle())),
        house in given::house(), states in given::states(), by in prop::sample::select(RankBy::ALL.to_vec())
    ) {
        let climate = given::climate(states);
        let brief = Brief::new(house, Some(&climate), Criteria::default(), UnitSystem::Si);
        let (one, other) = (shortlist(&brief, &units, by), shortlist(&brief, &shuffled, by));
        prop_assert_eq!(keys(&one), keys(&other));
        prop_assert_eq!(keys(&one).concat().len(), units.len());
        for (a, b) in one.accepted.iter().zip(&other.accepted) {
            prop_assert_eq!((a.heating, a.cooling), (b.heating, b.cooling));
        }
    }
}
