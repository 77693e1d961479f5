//! Every chart with ordinary, empty, degenerate and hostile data; one small drawing kept as it is.

use std::collections::BTreeSet;

use super::*;

const UNITS: Units = Units::METRIC;

fn caption(title: &str, subtitle: &str) -> Caption {
    Caption {
        title: title.into(),
        subtitle: subtitle.into(),
    }
}

/// All six charts drawn from one name and one series of (place, value) pairs.
fn all_charts(name: &str, pairs: &[(f64, f64)], frame: &Frame) -> Vec<String> {
    let caption = caption(name, name);
    let band: Vec<BandPoint> = pairs
        .iter()
        .map(|&(outdoor, v)| BandPoint {
            outdoor,
            minimum: Some(v * 0.3),
            maximum: Some(v * 0.8),
        })
        .collect();
    let hours: Vec<BinHours> = pairs
        .iter()
        .map(|&(t, v)| BinHours {
            from: t,
            to: t + 1.0,
            hours: v,
            cycling_hours: v * 0.5,
        })
        .collect();
    let mark = pairs.first().copied();
    let line = NamedLine {
        name: name.into(),
        points: pairs.to_vec(),
    };
    let costs = CostLine {
        name: name.into(),
        points: pairs.iter().map(|&(t, v)| (t, Some(v))).collect(),
    };
    vec![
        load_and_capacity(
            &LoadAndCapacity {
                caption: caption.clone(),
                units: UNITS,
                load: pairs.to_vec(),
                capacity: band.clone(),
                hours: hours.clone(),
                balance_point: mark,
                design_outdoor: mark.map(|p| p.0),
                unproven: pairs.to_vec(),
            },
            frame,
        ),
        heat_delivered(
            &HeatDelivered {
                caption: caption.clone(),
                units: UNITS,
                bins: pairs
                    .iter()
                    .map(|&(t, v)| HeatBin {
                        from: t,
                        to: t + 1.0,
                        steady: v,
                        cycling: v,
                        backup: v,
                    })
                    .collect(),
                balance_point: mark.map(|p| p.0),
                design_outdoor: mark.map(|p| p.0),
            },
            frame,
        ),
        cooling_turndown(
            &CoolingTurndown {
                caption: caption.clone(),
                units: UNITS,
                load: pairs.to_vec(),
                sensible: band,
                hours,
                design_outdoor: mark.map(|p| p.0),
                cycles_below: mark,
                unproven: pairs.to_vec(),
            },
            frame,
        ),
        psychrometric(
            &Psychrometric {
                caption: caption.clone(),
                temperature_unit: "°C",
                humidity_ratio_unit: "g/kg",
                dry_bulb: mark.map_or((0.0, 0.0), |p| (p.0, p.0 + 20.0)),
                highest_humidity_ratio: mark.map_or(0.0, |p| p.1),
                saturation: pairs.to_vec(),
                relative_humidity: vec![line.clone()],
                limit: Some(line),
                states: pairs
                    .iter()
                    .map(|&(t, v)| IndoorState {
                        dry_bulb: t,
                        humidity_ratio: v,
                        hours: v,
                        is_humid: v > 5.0,
                    })
                    .collect(),
                coil: mark.map(|p| Coil {
                    entering: p,
                    apparatus_dew_point: p,
                }),
            },
            frame,
        ),
        comparison(
            &Comparison {
                caption: caption.clone(),
                units: pairs.iter().map(|_| name.to_owned()).collect(),
                measures: vec![Measure {
                    name: name.into(),
                    unit: name.into(),
                    values: pairs.iter().map(|p| Some(p.1)).collect(),
                    decimals: 1,
                    better: Better::Higher,
                    limit: mark.map(|p| p.1),
                }],
            },
            frame,
        ),
        cost_per_heat(
            &CostPerHeat {
                caption,
                units: UNITS,
                cost_title: name.into(),
                heat_pump: costs.clone(),
                others: vec![costs.clone(), costs],
                switch_over: mark,
                design_outdoor: mark.map(|p| p.0),
            },
            frame,
        ),
    ]
}

/// Panics unless every tag is closed in order, every attribute is quoted, every id is used once and every reference has its id.
fn check_well_formed(svg: &str) {
    let mut open = Vec::new();
    for piece in svg.split('<').skip(1) {
        let (tag, text) = piece
            .split_once('>')
            .unwrap_or_else(|| panic!("`<{piece}` is not closed"));
        assert_eq!(tag.matches('"').count() % 2, 0, "{tag}");
        assert!(!text.contains('>'), "{text}");
        if let Some(name) = tag.strip_prefix('/') {
            assert_eq!(open.pop(), Some(name));
        } else if !tag.ends_with('/') {
            open.push(tag.split(' ').next().unwrap());
        }
    }
    assert!(open.is_empty(), "{open:?}");
    let ids: Vec<&str> = svg
        .split(" id=\"")
        .skip(1)
        .map(|rest| rest.split('"').next().unwrap())
        .collect();
    let unique: BTreeSet<&str> = ids.iter().copied().collect();
    assert_eq!(ids.len(), unique.len(), "{ids:?}");
    for reference in svg.split("url(#").skip(1) {
        assert!(
            unique.contains(reference.split(')').next().unwrap()),
            "{reference}"
        );
    }
    assert!(!svg.contains("NaN") && !svg.contains("inf"), "{svg}");
}

fn frames() -> [Frame; 3] {
    [
        Frame::wide("t"),
        Frame::narrow("t"),
        Frame::wide("t").standalone(),
    ]
}

#[test]
fn ordinary_data_gives_well_formed_drawings() {
    let pairs = [(-20.0, 9.0), (-10.0, 7.0), (0.0, 5.0), (10.0, 2.0)];
    for frame in frames() {
        for svg in all_charts("Larch 36", &pairs, &frame) {
            check_well_formed(&svg);
            assert!(svg.contains("role=\"img\"") && svg.contains("Larch 36"));
        }
    }
}

#[test]
fn no_data_one_point_no_width_and_unreal_numbers_do_not_crash() {
    let (nan, infinity) = (f64::NAN, f64::INFINITY);
    let degenerate: [&[(f64, f64)]; 8] = [
        &[],
        &[(5.0, 5.0)],
        &[(0.0, 0.0)],
        &[(5.0, 5.0), (5.0, 5.0)],
        &[(1.0, 0.0), (2.0, 0.0)],
        &[(nan, nan), (nan, 1.0), (1.0, nan)],
        &[(-infinity, infinity), (infinity, -infinity)],
        &[(-1e300, -1e300), (1e300, 1e300)],
    ];
    for frame in frames() {
        for svg in degenerate
            .iter()
            .flat_map(|pairs| all_charts("x", pairs, &frame))
        {
            check_well_formed(&svg);
        }
    }
}

#[test]
fn hostile_names_do_no_harm_in_any_chart() {
    let pairs = [(-10.0, 7.0), (0.0, 5.0), (10.0, 2.0)];
    let long = "W".repeat(10_000);
    let names = [
        "</text><script>alert('1')</script>",
        "a\u{202e}b\u{0}\u{1b}[31mc\u{2066}",
        "]]>&\"' onload=\"x",
        &long,
    ];
    for frame in frames() {
        for name in names {
            for svg in all_charts(name, &pairs, &frame) {
                check_well_formed(&svg);
                assert!(
                    !svg.contains("<script") && svg.len() < 40_000,
                    "{}",
                    svg.len()
                );
                assert!(
                    !svg.chars().any(|c| c.is_control()
                        || ('\u{202a}'..='\u{2069}').contains(&c) && c != '\u{202f}')
                );
                assert!(name != long || svg.contains("WW…"));
            }
        }
    }
}

#[test]
fn the_same_data_gives_the_same_bytes() {
    let pairs = [(-10.0, 7.0), (10.0, 2.0)];
    let frame = Frame::wide("t");
    assert_eq!(
        all_charts("x", &pairs, &frame),
        all_charts("x", &pairs, &frame)
    );
}

#[test]
fn a_unit_that_carries_the_load_everywhere_shows_no_backup() {
    let mut data = LoadAndCapacity {
        caption: caption("Load", ""),
        units: UNITS,
        load: vec![(-10.0, 5.0), (10.0, 0.0)],
        capacity: [-10.0, 10.0]
            .map(|outdoor| BandPoint {
                outdoor,
                minimum: Some(2.0),
                maximum: Some(6.0),
            })
            .to_vec(),
        hours: Vec::new(),
        balance_point: None,
        design_outdoor: Some(-10.0),
        unproven: Vec::new(),
    };
    assert!(!load_and_capacity(&data, &Frame::wide("t")).contains("backup"));
    data.capacity[0].maximum = Some(4.0);
    assert!(load_and_capacity(&data, &Frame::wide("t")).contains("backup"));
}

#[test]
fn the_best_of_a_comparison_is_marked_and_a_missing_value_is_said() {
    let measure = |better| Measure {
        name: "Seasonal COP".into(),
        unit: String::new(),
        values: vec![Some(2.5), None, Some(3.0)],
        decimals: 2,
        better,
        limit: None,
    };
    let draw = |better| {
        let units = ["A", "B", "C"].map(String::from).to_vec();
        comparison(
            &Comparison {
                caption: caption("", ""),
                units,
                measures: vec![measure(better)],
            },
            &Frame::wide("t"),
        )
    };
    let bold = |svg: &str, value: &str| svg.contains(&format!("font-weight=\"700\">{value}<"));
    assert!(bold(&draw(Better::Higher), "3.00") && !bold(&draw(Better::Higher), "2.50"));
    assert!(bold(&draw(Better::Lower), "2.50") && !bold(&draw(Better::Neither), "3.00"));
    assert!(draw(Better::Lower).contains(">not known<"));
}

#[test]
fn a_small_chart_stays_as_it_is() {
    let data = HeatDelivered {
        caption: caption("Where the heat comes from", "Invented unit"),
        units: UNITS,
        bins: vec![
            HeatBin {
                from: -15.0,
                to: -5.0,
                steady: 800.0,
                cycling: 0.0,
                backup: 150.0,
            },
            HeatBin {
                from: -5.0,
                to: 5.0,
                steady: 1_500.0,
                cycling: 0.0,
                backup: 0.0,
            },
            HeatBin {
                from: 5.0,
                to: 15.0,
                steady: 0.0,
                cycling: 700.0,
                backup: 0.0,
            },
        ],
        balance_point: Some(-8.0),
        design_outdoor: None,
    };
    let svg = heat_delivered(&data, &Frame::narrow("small"));
    insta::assert_snapshot!(svg.replace("><", ">\n<"));
}
