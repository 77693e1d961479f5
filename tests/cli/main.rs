//! The command line as a user meets it: what it prints, where, and with which exit code.

mod climate;
mod house;
