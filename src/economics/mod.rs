//! Money, emissions and source energy.
