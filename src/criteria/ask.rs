//! What is not published and has to be asked for before a unit can be judged.

/// What kind of figure is missing.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum AskCode {
    /// Capacity at a design temperature.
    CapacityAtDesign,
    /// The outdoor temperature down to which the unit runs.
    OperatingLimit,
    /// Capacity and input at the minimum speed in cooling.
    MinimumCooling,
    /// A sensible heat ratio that fits capacity and airflow.
    SensibleHeatRatio,
    /// A value that a criterion asks for.
    CriterionValue,
}

impl AskCode {
    /// The stable code.
    #[must_use]
    pub fn name(self) -> &'static str {
        match self {
            Self::CapacityAtDesign => "capacity_at_design",
            Self::OperatingLimit => "operating_limit",
            Self::MinimumCooling => "minimum_cooling",
            Self::SensibleHeatRatio => "sensible_heat_ratio",
            Self::CriterionValue => "criterion_value",
        }
    }
}

/// One thing to ask the supplier for.
#[derive(Clone, Debug, PartialEq, Eq)]
pub struct Ask {
    /// What kind of figure is missing.
    pub code: AskCode,
    /// The question, as it could be sent.
    pub text: String,
}
