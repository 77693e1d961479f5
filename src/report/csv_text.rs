//! Comma-separated values for spreadsheets: text that would be taken for a formula is written as text.

use serde_json::Value;

/// A header and rows as CSV (RFC 4180, line feeds).
///
/// A cell that begins with `=`, `+`, `-`, `@`, a tab or a line break and is no number gets an apostrophe before it, so
/// that a spreadsheet shows it instead of running it.
#[must_use]
pub fn csv_text(header: &[String], rows: &[Vec<String>]) -> String {
    let mut writer = csv::Writer::from_writer(Vec::new());
    for row in std::iter::once(header).chain(rows.iter().map(Vec::as_slice)) {
        // Writing to memory fails only where rows differ in length, which the callers rule out.
        let _ = writer.write_record(row.iter().map(|cell| harmless(cell)));
    }
    let bytes = writer.into_inner().unwrap_or_default();
    String::from_utf8_lossy(&bytes).into_owned()
}

/// Header and cells of rows that serialise to flat objects of the same fields; what is not known is blank, lists are joined.
#[must_use]
pub fn cells_of(rows: &[impl serde::Serialize]) -> (Vec<String>, Vec<Vec<String>>) {
    let mut header = Vec::new();
    let mut cells = Vec::new();
    for row in rows {
        let Ok(Value::Object(entries)) = serde_json::to_value(row) else {
            continue;
        };
        header = entries.keys().cloned().collect();
        cells.push(entries.values().map(cell_of).collect());
    }
    (header, cells)
}

fn cell_of(value: &Value) -> String {
    match value {
        Value::Null => String::new(),
        Value::String(text) => text.clone(),
        Value::Array(items) => items.iter().map(cell_of).collect::<Vec<_>>().join("; "),
        other => other.to_string(),
    }
}

/// The cell as text that no spreadsheet runs.
#[must_use]
pub fn harmless(cell: &str) -> String {
    let risky = cell.starts_with(['=', '+', '-', '@', '\t', '\r', '\n']);
    if risky && cell.parse::<f64>().is_err() {
        format!("'{cell}")
    } else {
        cell.to_owned()
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn formulas_become_text_and_numbers_stay_numbers() {
        assert_eq!(harmless("=1+1"), "'=1+1");
        assert_eq!(harmless("@cmd"), "'@cmd");
        assert_eq!(harmless("-18.5"), "-18.5");
        assert_eq!(harmless("larch"), "larch");
        let text = csv_text(
            &["a".into(), "b".into()],
            &[vec!["x,y".into(), "+z".into()]],
        );
        assert_eq!(text, "a,b\n\"x,y\",'+z\n");
    }
}
