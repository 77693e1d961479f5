//! A reader with a calculator redoes every step.
