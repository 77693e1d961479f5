//! Checks against published standards, handbook tables, open datasets and reference libraries.
//! Each names its source; the data lie beside it in `data/`.

mod psychrometrics;
mod weather;
