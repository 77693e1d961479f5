//! The heating season: balance point, one hour, the whole winter.
