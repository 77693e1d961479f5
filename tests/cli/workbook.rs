//! `-o FILE.xlsx` and `--format csv`: tables for a spreadsheet.

use std::io::Read as _;

use super::demo_catalog::{Demo, HOUSE};

fn demo() -> Demo {
    let demo = Demo::new();
    let energy = "[energy]\ncurrency = \"CAD\"\nelectricity_price = 0.2\nfuel_price = 0.05\nfuel_efficiency = 0.9\n";
    demo.write("priced.toml", &format!("{HOUSE}{energy}"));
    demo.write(
        "quotes.csv",
        "quote,supplier,unit,price,note\n=1+1,@north,cedar-10,7000,-2+3\n",
    );
    demo
}

/// A part of a workbook.
fn part(bytes: &[u8], name: &str) -> String {
    let mut workbook = zip::ZipArchive::new(std::io::Cursor::new(bytes)).unwrap();
    let mut text = String::new();
    workbook
        .by_name(name)
        .unwrap()
        .read_to_string(&mut text)
        .unwrap();
    text
}

#[test]
fn every_table_is_written_as_a_workbook_with_its_notes() {
    let demo = demo();
    for (place, command) in [
        &["shortlist", "priced.toml"][..],
        &["quotes", "priced.toml", "quotes.csv"],
        &["cost", "priced.toml", "cedar-10"],
        &["switchover", "priced.toml", "cedar-10"],
    ]
    .into_iter()
    .enumerate()
    {
        let file = format!("table-{place}.xlsx");
        let arguments = [command, &["-o", &file]].concat();
        let ended = demo.command(&arguments).assert().get_output().clone();
        assert!(matches!(ended.status.code(), Some(0 | 1)), "{command:?}");
        let bytes = std::fs::read(demo.path(&file)).unwrap();
        let words = part(&bytes, "xl/sharedStrings.xml");
        assert!(words.contains("cedar-10"), "{command:?}");
        assert!(
            words.contains("This is not a load calculation"),
            "{command:?}"
        );
        let rows = part(&bytes, "xl/worksheets/sheet1.xml");
        assert!(rows.contains("<v>") && !rows.contains("<f>"), "{command:?}");
    }
}

#[test]
fn text_that_a_spreadsheet_would_run_is_written_as_text() {
    let demo = demo();
    let command = ["quotes", "priced.toml", "quotes.csv", "--format", "csv"];
    let ended = demo
        .command(&[&command[..], &["-o", "q.xlsx"]].concat())
        .assert();
    let csv = String::from_utf8(ended.get_output().stdout.clone()).unwrap();
    assert!(csv.contains("\n'=1+1,"), "{csv}");
    assert!(csv.contains(",'@north,"), "{csv}");
    let bytes = std::fs::read(demo.path("q.xlsx")).unwrap();
    assert!(part(&bytes, "xl/sharedStrings.xml").contains(">=1+1<"));
    assert!(!part(&bytes, "xl/worksheets/sheet1.xml").contains("<f>"));
}

#[test]
fn an_existing_file_is_kept_unless_it_may_be_replaced() {
    let demo = demo();
    let file = demo.write("kept.xlsx", "mine");
    let command = ["cost", "priced.toml", "cedar-10", "-o", "kept.xlsx"];
    let error = demo.refuses(&command);
    assert_eq!(
        error,
        "error: `kept.xlsx` is there already; nothing was written\nhint: --force replaces it\n"
    );
    assert_eq!(std::fs::read_to_string(&file).unwrap(), "mine");
    demo.prints(&[&command[..], &["--force"]].concat());
    assert_eq!(std::fs::read(&file).unwrap()[..2], *b"PK");
    let other = demo.refuses(&["cost", "priced.toml", "-o", "cost.csv"]);
    assert!(
        other.contains("expected a file name that ends in .xlsx"),
        "{other}"
    );
}
