//! `overwinter shortlist` as a table.

use super::demo_catalog::{Demo, HOUSE};

#[test]
fn without_a_climate_every_line_still_fits() {
    let demo = Demo::new();
    let bare = HOUSE.replace("climate = \"lakeside\"\n", "");
    demo.write("bare.toml", &bare);
    let text = demo.prints(&["shortlist", "bare.toml"]);
    assert!(text.contains("no climate"), "{text}");
    for line in text.lines() {
        assert!(line.chars().count() <= 80, "{line}");
    }
}

#[test]
fn criteria_are_said_in_the_readers_units_and_counted_where_they_repeat() {
    let demo = Demo::new();
    demo.write(
        "criteria.toml",
        "[requirements]\nfull_load_without_backup = false\nmax_cooling_cycling_share = 1.0\nmax_humid_share = 1.0\n\
         cooling_design = false\n\
         [[criterion]]\nvalue = \"heating.capacity\"\nat = \"5 °F\"\nat_least = \"170 kBtu/h\"\n\
         [[criterion]]\nvalue = \"heating.capacity\"\nat = \"14 °F\"\nat_least = \"170 kBtu/h\"\n\
         [[criterion]]\nvalue = \"heating.cop\"\nat = \"14 °F\"\nat_least = 9\n",
    );
    let arguments = [
        "shortlist",
        "house.toml",
        "--criteria",
        "criteria.toml",
        "--units",
        "ip",
    ];
    let output = demo.command(&arguments).assert().code(1);
    let text = String::from_utf8(output.get_output().stdout.clone()).unwrap();
    let unwrapped = text.split_whitespace().collect::<Vec<_>>().join(" ");
    assert!(
        unwrapped.contains("asked for at least 170.0 kBtu/h at 5.0 °F and maximum speed"),
        "{text}"
    );
    assert!(unwrapped.contains("also criterion (2)"), "{text}");
}
