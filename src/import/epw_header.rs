//! Reads the header of an EPW weather file: where the station stands, its design temperatures, and how often it recorded.

use super::problem::{Problem, Problems, quoted};
use crate::climate::DesignTemperatures;
use crate::quantity::{Celsius, Metres};

/// The header's keywords, in the order of the format.
const KEYWORDS: [&str; 8] = [
    "LOCATION",
    "DESIGN CONDITIONS",
    "TYPICAL/EXTREME PERIODS",
    "GROUND TEMPERATURES",
    "HOLIDAYS/DAYLIGHT SAVINGS",
    "COMMENTS 1",
    "COMMENTS 2",
    "DATA PERIODS",
];

/// What the header says.
#[derive(Debug, Default)]
pub(super) struct EpwHeader {
    /// Place, region and country, such as `Chicago Ohare Intl Ap, IL, USA`.
    pub name: String,
    /// The kind of record and the first comment.
    pub source: String,
    /// Height above sea level.
    pub elevation: Option<Metres>,
    /// Design temperatures, where the header has them in a layout that is known.
    pub design: DesignTemperatures,
    /// Records per hour.
    pub records_per_hour: u32,
    /// What a reader must know.
    pub notes: Vec<String>,
}

/// Reads the eight header lines; problems are added to `problems`.
pub(super) fn read_header(file: &str, lines: &[&str], problems: &mut Problems) -> EpwHeader {
    let mut header = EpwHeader {
        records_per_hour: 1,
        ..EpwHeader::default()
    };
    for (index, keyword) in KEYWORDS.into_iter().enumerate() {
        let line = lines.get(index).copied().unwrap_or_default();
        let fields: Vec<&str> = line.split(',').map(str::trim).collect();
        if !fields[0].eq_ignore_ascii_case(keyword) {
            let expected = format!("the header line {keyword}");
            let problem = Problem::new(file, quoted(fields[0]), expected).on_line(index + 1);
            problems.push(
                problem.with_hint("an EPW file begins with eight header lines, LOCATION first"),
            );
            continue;
        }
        match keyword {
            "LOCATION" => location(file, &fields, &mut header, problems),
            "DESIGN CONDITIONS" => design_conditions(&fields, &mut header),
            "COMMENTS 1" => {
                let comment = line
                    .split_once(',')
                    .map_or("", |(_, comment)| comment.trim());
                if !comment.is_empty() {
                    header.source = format!("{}; {comment}", header.source);
                }
            }
            "DATA PERIODS" => data_periods(file, &fields, &mut header, problems),
            _ => {}
        }
    }
    header
}

/// `LOCATION,city,region,country,source,WMO number,latitude,longitude,time zone,elevation`.
fn location(file: &str, fields: &[&str], header: &mut EpwHeader, problems: &mut Problems) {
    let named = |index: usize| {
        fields
            .get(index)
            .copied()
            .filter(|text| !text.is_empty() && *text != "-")
    };
    header.name = [1, 2, 3]
        .into_iter()
        .filter_map(named)
        .collect::<Vec<_>>()
        .join(", ");
    header.source = named(4).unwrap_or("weather file").to_owned();
    if let Some(number) = named(5) {
        header.source = format!("{}, station {number}", header.source);
    }
    match named(9).map(|text| (text, text.parse::<f64>())) {
        None => header
            .notes
            .push("the header gives no elevation".to_owned()),
        Some((_, Ok(metres))) if (-500.0..=9000.0).contains(&metres) => {
            header.elevation = Some(Metres(metres));
        }
        Some((text, _)) => {
            let problem = Problem::new(file, quoted(text), "a height from -500 to 9000 m");
            problems.push(problem.on_line(1).in_field("elevation (field 10)"));
        }
    }
}

/// Design temperatures behind the words `Heating` and `Cooling`, as the handbooks since 2009 are laid out. The layout
/// varied before; where the numbers cannot be what they should be, they are left out and the notes say so.
fn design_conditions(fields: &[&str], header: &mut EpwHeader) {
    if fields
        .get(1)
        .is_none_or(|count| count.is_empty() || *count == "0")
    {
        return;
    }
    let title = fields.get(2).copied().unwrap_or_default();
    let after = |word: &str, index: usize| -> Option<f64> {
        let start = fields
            .iter()
            .position(|field| field.eq_ignore_ascii_case(word))?;
        fields
            .get(start + index)?
            .parse()
            .ok()
            .filter(|number: &f64| number.is_finite())
    };
    let is_month = |number: Option<f64>| {
        number.is_some_and(|number| (1.0..=12.0).contains(&number) && number.fract() == 0.0)
    };
    let falls = |numbers: [Option<f64>; 3]| match numbers {
        [Some(first), Some(second), Some(third)] => first >= second && second >= third,
        _ => false,
    };
    let degrees = |number: Option<f64>| number.map(Celsius);
    // Heating: coldest month, 99.6 %, 99 %. Cooling: hottest month, its daily range, then pairs of dry bulb and
    // coincident wet bulb at 0.4, 1 and 2 %.
    let (heating_99_6, heating_99) = (after("Heating", 2), after("Heating", 3));
    let heating_is_known =
        is_month(after("Heating", 1)) && falls([Some(60.0), heating_99, heating_99_6]);
    let dry_bulbs = [
        after("Cooling", 3),
        after("Cooling", 5),
        after("Cooling", 7),
    ];
    let wet_bulb_below = after("Cooling", 4)
        .zip(dry_bulbs[0])
        .is_some_and(|(wet, dry)| wet <= dry);
    let cooling_is_known = is_month(after("Cooling", 1)) && falls(dry_bulbs) && wet_bulb_below;
    if heating_is_known {
        header.design.heating_99_6 = degrees(heating_99_6);
        header.design.heating_99 = degrees(heating_99);
    }
    if cooling_is_known {
        header.design.cooling_0_4 = degrees(dry_bulbs[0]);
        header.design.cooling_1 = degrees(dry_bulbs[1]);
        header.design.cooling_2 = degrees(dry_bulbs[2]);
    }
    header.notes.push(match (heating_is_known, cooling_is_known) {
        (true, true) => format!("design temperatures from the header: {title}"),
        (true, false) => format!("heating design temperatures from the header ({title}); those for cooling are in a layout that is not known and were left out"),
        (false, true) => format!("cooling design temperatures from the header ({title}); those for heating are in a layout that is not known and were left out"),
        (false, false) => format!("the header's design temperatures ({title}) are in a layout that is not known and were left out"),
    });
}

/// `DATA PERIODS,number of periods,records per hour,...`.
fn data_periods(file: &str, fields: &[&str], header: &mut EpwHeader, problems: &mut Problems) {
    let text = fields.get(2).copied().unwrap_or_default();
    match text.parse::<u32>() {
        Ok(number) if (1..=60).contains(&number) => header.records_per_hour = number,
        _ => {
            let problem = Problem::new(
                file,
                quoted(text),
                "a number of records per hour from 1 to 60",
            );
            problems.push(problem.on_line(8).in_field("records per hour (field 3)"));
        }
    }
}
