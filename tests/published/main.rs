//! Checks against published standards, handbook tables, open datasets and reference libraries.
//! Each names its source; the data lie beside it in `data/`.

mod economics;
mod facts_of_the_trade;
mod generic_maps;
mod latent_curve;
mod psychrometrics;
mod rating_en14825;
mod rating_frost;
mod rating_m1;
mod rating_recompute;
mod weather;
