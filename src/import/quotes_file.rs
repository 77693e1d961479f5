//! Reads suppliers' quotes from their CSV file: a row a quote, a blank where the quote does not say.

use jiff::civil::Date;

use super::nearest;
use super::problem::{Problem, Problems, quoted};
use crate::quantity::Money;
use crate::study::{Quote, QuotedUnit};

/// Every column that a file of quotes may have.
pub const QUOTE_COLUMNS: [&str; 11] = [
    "quote",
    "supplier",
    "unit",
    "share",
    "price",
    "installation",
    "extras",
    "currency",
    "warranty_years",
    "valid_until",
    "note",
];

/// Columns without which a row is no quote.
const NEEDED: [&str; 2] = ["quote", "unit"];

/// How far the shares of a quote may be from 1 together: they are written with few decimals.
const SHARE_TOLERANCE: f64 = 0.005;

/// Reads quotes.
///
/// - `file`  what the user calls the file, for messages
/// - `text`  its content
///
/// Columns in any order: `quote` (the purchaser's name for it) and `unit` (a key of the catalog, or several joined by
/// ` + `) must be there; `supplier`, `share` (of the load, such as `0.6 + 0.4`, in the order of the units), `price`,
/// `installation`, `extras`, `currency`, `warranty_years`, `valid_until` (such as `2026-08-31`) and `note` may be. Lines that
/// begin with `#` are passed over.
///
/// # Errors
/// Every problem found, with its line and column.
pub fn read_quotes(file: &str, text: &str) -> Result<Vec<Quote>, Problems> {
    let text = text.strip_prefix('\u{feff}').unwrap_or(text);
    let mut problems = Problems::default();
    let mut reader = csv::ReaderBuilder::new()
        .comment(Some(b'#'))
        .flexible(true)
        .trim(csv::Trim::All)
        .from_reader(text.as_bytes());
    let header = match reader.headers() {
        Ok(header) => header.clone(),
        Err(error) => return Err(Problem::new(file, error.to_string(), "a CSV table").into()),
    };
    let line_of = |record: &csv::StringRecord| {
        let start = record.position().map_or(0, csv::Position::byte);
        line_of_row(text, usize::try_from(start).unwrap_or(0))
    };
    let columns = columns(file, line_of(&header), &header, &mut problems);
    if !problems.is_empty() {
        return Err(problems);
    }
    let mut quotes: Vec<(usize, Quote)> = Vec::new();
    for record in reader.records() {
        let record = match record {
            Ok(record) => record,
            Err(error) => {
                problems.push(Problem::new(file, error.to_string(), "a row of CSV"));
                continue;
            }
        };
        let line = line_of(&record);
        if record.len() != header.len() {
            let found = format!("{} cells", record.len());
            let expected = format!("{}, as many as the header has", header.len());
            let problem = Problem::new(file, found, expected)
                .on_line(line)
                .with_hint("a text with a comma in it needs quotation marks around it");
            problems.push(problem);
            continue;
        }
        let mut row = QuoteRow {
            file,
            line,
            columns: &columns,
            record: &record,
            problems: &mut problems,
        };
        let quote = row.quote();
        if let Some((first, _)) = quotes
            .iter()
            .find(|(_, there)| !there.key.is_empty() && there.key == quote.key)
        {
            let first = *first;
            row.report(
                "quote",
                &quoted(&quote.key),
                &format!("a name of its own: line {first} has it already"),
                None,
            );
        }
        quotes.push((line, quote));
    }
    if quotes.is_empty() && problems.is_empty() {
        problems.push(Problem::new(file, "no rows", "a quote below the header"));
    }
    problems.or(quotes.into_iter().map(|(_, quote)| quote).collect())
}

/// The line, counted from 1, of the row that begins at or after a byte: blank lines and comments before it are not its.
fn line_of_row(text: &str, start: usize) -> usize {
    let (before, rest) = text.split_at_checked(start).unwrap_or((text, ""));
    let mut line = before.matches('\n').count() + 1;
    for passed in rest.lines() {
        if !passed.trim().is_empty() && !passed.starts_with('#') {
            break;
        }
        line += 1;
    }
    line
}

/// Where each known column stands.
fn columns(
    file: &str,
    line: usize,
    header: &csv::StringRecord,
    problems: &mut Problems,
) -> Vec<Option<usize>> {
    for (place, name) in header.iter().enumerate() {
        let problem = |found: &str, expected: &str| {
            Problem::new(file, found, expected)
                .on_line(line)
                .in_field(if name.is_empty() { "header" } else { name })
        };
        if !QUOTE_COLUMNS.contains(&name) {
            let hint = match nearest(name, QUOTE_COLUMNS) {
                Some(near) => format!("did you mean `{near}`?"),
                None => format!("known columns: {}", QUOTE_COLUMNS.join(", ")),
            };
            problems
                .push(problem("an unknown name", "a column of a file of quotes").with_hint(hint));
        } else if header.iter().take(place).any(|before| before == name) {
            problems.push(problem("the column twice", "it once"));
        }
    }
    for needed in NEEDED {
        if !header.iter().any(|name| name == needed) {
            let problem = Problem::new(file, "no such column", format!("a column `{needed}`"));
            problems.push(problem.on_line(line));
        }
    }
    QUOTE_COLUMNS
        .iter()
        .map(|column| header.iter().position(|name| name == *column))
        .collect()
}

/// One row being read.
struct QuoteRow<'a> {
    file: &'a str,
    line: usize,
    columns: &'a [Option<usize>],
    record: &'a csv::StringRecord,
    problems: &'a mut Problems,
}

impl QuoteRow<'_> {
    fn report(&mut self, column: &str, found: &str, expected: &str, hint: Option<&str>) {
        let mut problem = Problem::new(self.file, found, expected)
            .on_line(self.line)
            .in_field(column);
        problem.hint = hint.map(str::to_owned);
        self.problems.push(problem);
    }

    /// A cell's text; `None`: blank, or no such column.
    fn text(&self, column: &str) -> Option<String> {
        let index = QUOTE_COLUMNS.iter().position(|name| *name == column)?;
        let text = self.record.get((*self.columns.get(index)?)?)?.trim();
        (!text.is_empty()).then(|| text.to_owned())
    }

    fn quote(&mut self) -> Quote {
        for column in NEEDED {
            if self.text(column).is_none() {
                self.report(column, "nothing", "a name", None);
            }
        }
        let price = self.amount("price");
        let installation = self.amount("installation");
        let extras = self.amount("extras");
        Quote {
            key: self.text("quote").unwrap_or_default(),
            supplier: self.text("supplier"),
            units: self.units(),
            price,
            installation,
            extras,
            currency: self.text("currency"),
            warranty_years: self.number("warranty_years", "years, zero or above"),
            valid_until: self.date("valid_until"),
            note: self.text("note"),
        }
    }

    fn amount(&mut self, column: &str) -> Option<Money> {
        self.number(
            column,
            "an amount of money, zero or above, without its currency",
        )
        .map(Money)
    }

    fn number(&mut self, column: &str, expected: &str) -> Option<f64> {
        let text = self.text(column)?;
        let number = text.parse::<f64>().ok();
        let number = number.filter(|number| number.is_finite() && *number >= 0.0);
        if number.is_none() {
            let hint = "a decimal sign is a point, and thousands are not set apart";
            let hint = text.contains([',', ' ', '\'']).then_some(hint);
            self.report(column, &quoted(&text), expected, hint);
        }
        number
    }

    fn date(&mut self, column: &str) -> Option<Date> {
        let text = self.text(column)?;
        let is_plain = text.len() == 10 && text.as_bytes().get(4) == Some(&b'-');
        let date = text.parse::<Date>().ok().filter(|_| is_plain);
        if date.is_none() {
            let expected = "a date of year, month and day, such as 2026-08-31";
            self.report(column, &quoted(&text), expected, None);
        }
        date
    }

    /// The units with their shares.
    fn units(&mut self) -> Vec<QuotedUnit> {
        let Some(text) = self.text("unit") else {
            return Vec::new();
        };
        let keys: Vec<&str> = text.split(" + ").map(str::trim).collect();
        if keys.iter().any(|key| key.is_empty()) {
            let expected = "one key of the catalog, or several with \" + \" between them";
            self.report("unit", &quoted(&text), expected, None);
        }
        let shares = self.shares(keys.len());
        keys.iter()
            .enumerate()
            .map(|(place, key)| QuotedUnit {
                key: (*key).to_owned(),
                share: shares
                    .as_ref()
                    .and_then(|shares| shares.get(place).copied()),
            })
            .collect()
    }

    fn shares(&mut self, count: usize) -> Option<Vec<f64>> {
        let text = self.text("share")?;
        let shares: Option<Vec<f64>> = text
            .split('+')
            .map(|part| part.trim().parse::<f64>().ok())
            .collect();
        let shares = shares.filter(|shares| {
            let sum: f64 = shares.iter().sum();
            shares.len() == count
                && shares.iter().all(|&share| share > 0.0 && share <= 1.0)
                && (sum - 1.0).abs() <= SHARE_TOLERANCE
        });
        if shares.is_none() {
            let expected = match count {
                1 => "1 or nothing: the one unit serves the whole load".to_owned(),
                _ => format!("{count} shares of the load that add up to 1, such as \"0.6 + 0.4\""),
            };
            self.report("share", &quoted(&text), &expected, None);
        }
        shares
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use jiff::civil::date;

    #[test]
    fn a_blank_is_what_the_quote_does_not_say() {
        let quotes = read_quotes(
            "quotes.csv",
            "\u{feff}# invented\nquote,unit,share,price,valid_until,note\n\
             A,larch-36,,9000,2026-08-31,\"a, b\"\n\nB,larch-24 + larch-12,0.6 + 0.4,,,\n",
        )
        .unwrap();
        assert_eq!(quotes[0].price, Some(Money(9000.0)));
        assert_eq!(quotes[0].valid_until, Some(date(2026, 8, 31)));
        assert_eq!(
            (quotes[0].installation, quotes[0].warranty_years),
            (None, None)
        );
        assert_eq!(quotes[0].units[0].share, None);
        assert_eq!(quotes[1].units[1].key, "larch-12");
        assert_eq!(quotes[1].units[1].share, Some(0.4));
    }

    #[test]
    fn every_problem_is_listed_with_its_line_and_column() {
        let problems = read_quotes(
            "quotes.csv",
            "# invented\nquote,unit,share,price,valid_until,warranty_years\n\
             A,larch,,\"9,000\",31.8.2026,-1\n\nA,a + b,0.6 + 0.6,1,2026-02-30,\n,,,1,,\nC,x\nD,x,0.5,,20260831,\n",
        )
        .unwrap_err()
        .to_string();
        for expected in [
            "quotes.csv:3: price: found \"9,000\", expected an amount of money",
            "quotes.csv:3: valid_until: found \"31.8.2026\", expected a date",
            "quotes.csv:3: warranty_years: found \"-1\", expected years",
            "quotes.csv:5: quote: found \"A\", expected a name of its own: line 3 has it already",
            "quotes.csv:5: share: found \"0.6 + 0.6\", expected 2 shares of the load that add up to 1",
            "quotes.csv:5: valid_until: found \"2026-02-30\"",
            "quotes.csv:6: quote: found nothing, expected a name",
            "quotes.csv:6: unit: found nothing, expected a name",
            "quotes.csv:7: found 2 cells, expected 6",
            "quotes.csv:8: share: found \"0.5\", expected 1 or nothing",
            "quotes.csv:8: valid_until: found \"20260831\"",
        ] {
            assert!(problems.contains(expected), "{expected}\nin\n{problems}");
        }
    }

    #[test]
    fn a_header_names_what_it_lacks_and_what_is_unknown() {
        let problems = read_quotes("quotes.csv", "quote,prise,prise\nA,1,2\n")
            .unwrap_err()
            .to_string();
        assert!(
            problems.contains("quotes.csv:1: prise: found an unknown name"),
            "{problems}"
        );
        assert!(problems.contains("did you mean `price`?"), "{problems}");
        assert!(problems.contains("expected a column `unit`"), "{problems}");
        let empty = read_quotes("quotes.csv", "quote,unit\n").unwrap_err();
        assert!(empty.to_string().contains("found no rows"), "{empty}");
    }
}
