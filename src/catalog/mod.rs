//! The performance catalog: one SQLite file.
