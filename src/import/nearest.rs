//! Finds the known name that a mistyped one was probably meant to be.

/// Below this likeness a suggestion would be a guess; the choice is ours.
const LIKENESS: f64 = 0.55;
/// A shorter name is in too many others for that to say anything \[characters\]; the choice is ours.
const LEAST_CONTAINED: usize = 4;

/// The known name nearest to a mistyped one, if any is near (Damerau-Levenshtein, one minus the share of characters changed);
/// else the shortest one that contains it.
#[must_use]
pub fn nearest<'a>(name: &str, known: impl IntoIterator<Item = &'a str>) -> Option<&'a str> {
    if name.chars().count() > 100 {
        return None;
    }
    let name = name.to_lowercase();
    let mut best: Option<(f64, &str)> = None;
    let known: Vec<&str> = known.into_iter().collect();
    for &candidate in &known {
        let likeness = strsim::normalized_damerau_levenshtein(&name, &candidate.to_lowercase());
        if likeness >= LIKENESS && best.is_none_or(|(most, _)| likeness > most) {
            best = Some((likeness, candidate));
        }
    }
    best.map(|(_, candidate)| candidate)
        .or_else(|| shortest_containing(&name, &known))
}

/// The shortest known name that has the whole of `name` in it.
fn shortest_containing<'a>(name: &str, known: &[&'a str]) -> Option<&'a str> {
    if name.chars().count() < LEAST_CONTAINED {
        return None;
    }
    known
        .iter()
        .copied()
        .filter(|candidate| candidate.to_lowercase().contains(name))
        .min_by_key(|candidate| candidate.chars().count())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_slip_of_the_finger_finds_its_name_and_a_stranger_none() {
        let known = ["design_load", "design_outdoor", "zero_load_outdoor"];
        assert_eq!(nearest("desing_load", known), Some("design_load"));
        assert_eq!(nearest("Design_Outdor", known), Some("design_outdoor"));
        assert_eq!(
            nearest("zero_load_outside", known),
            Some("zero_load_outdoor")
        );
        assert_eq!(nearest("colour", known), None);
        let climates = ["pittsburgh", "chicago-ohare", "chicago-ohare-severe"];
        assert_eq!(nearest("chicago", climates), Some("chicago-ohare"));
        assert_eq!(nearest("go-", climates), None);
    }
}
