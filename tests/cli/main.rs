//! The command line as a user meets it: what it prints, where, and with which exit code.

#![allow(
    clippy::unwrap_used,
    reason = "what builds a test's files may stop the test where it stands"
)]

mod catalog;
mod catalog_ratings;
mod climate;
mod cost;
mod demo_catalog;
mod examples;
mod explain;
mod house;
mod humidity;
mod pages;
mod plain_words;
mod quotes;
mod rank_by;
mod readme;
mod severe_years;
mod shortlist;
mod switchover;
mod whatif;
mod workbook;
