//! Tests of what files are accepted and how the others are refused.

mod climate_csv;
mod criteria;
mod epw;
mod house;
