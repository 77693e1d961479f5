//! scratch
use std::path::PathBuf;
fn main() {
    let mut args = std::env::args().skip(1);
    let (db, dir) = (
        PathBuf::from(args.next().unwrap()),
        PathBuf::from(args.next().unwrap()),
    );
    let mut catalog = overwinter::catalog::Catalog::create(&db).unwrap();
    let files = overwinter::import::catalog_csv::CatalogFiles::find(&[dir])
        .map_err(|p| format!("{p:?}"))
        .unwrap();
    let done = overwinter::import::catalog_csv::import_catalog(&mut catalog, &files);
    if let Err(e) = done {
        eprintln!("{e:?}");
        std::process::exit(2)
    }
}
