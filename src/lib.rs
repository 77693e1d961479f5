//! Picks air-source heat pumps that carry a house through the winter without backup heat and still keep it dry in summer.
//!
//! The pure core ([`quantity`] to [`study`]) computes and never touches files, SQL, a clock or a terminal;
//! [`import`] and [`catalog`] bring data in at one edge, [`report`] and [`cli`] carry answers out at the other.

pub mod catalog;
pub mod cli;
pub mod climate;
pub mod cooling;
pub mod criteria;
pub mod economics;
pub mod equipment;
pub mod heating;
pub mod house;
pub mod import;
pub mod psychrometrics;
pub mod quantity;
pub mod rating;
pub mod report;
pub mod study;
