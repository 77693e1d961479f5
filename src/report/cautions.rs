//! The cautions that every answer carries.

/// What a reader must not take the answer for.
pub const CAUTIONS: [&str; 3] = [
    "This is not a load calculation: the design loads are the designer's, and the answer is no better than they are.",
    "Local codes and licensed practice decide what may be installed and how.",
    "Electrical and refrigerant work is for the licensed.",
];
