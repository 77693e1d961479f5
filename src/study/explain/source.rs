//! On whose authority a step stands.

/// What stands behind a step.
#[derive(Clone, Copy, Debug, PartialEq, Eq, PartialOrd, Ord)]
pub enum Authority {
    /// What the house file says.
    House,
    /// What is published of the unit.
    Published,
    /// The climate's record.
    Climate,
    /// It follows from what the words mean.
    Definition,
    /// The handbook's chapter on moist air.
    Fundamentals,
    /// The US test procedure.
    AppendixM1,
    /// The bypass-factor method.
    BypassFactor,
    /// The model of drying lost at part load.
    Henderson,
    /// Known to the trade, written down nowhere in particular.
    CommonPractice,
    /// Our own choice.
    OurRule,
}

impl Authority {
    /// Short name, put beside a step.
    #[must_use]
    pub fn key(self) -> &'static str {
        match self {
            Self::House => "house",
            Self::Published => "published",
            Self::Climate => "climate",
            Self::Definition => "definition",
            Self::Fundamentals => "ashrae-fundamentals-1",
            Self::AppendixM1 => "appendix-m1",
            Self::BypassFactor => "bypass-factor",
            Self::Henderson => "henderson-1996",
            Self::CommonPractice => "common-practice",
            Self::OurRule => "our-rule",
        }
    }

    /// What the short name stands for.
    #[must_use]
    pub fn words(self) -> &'static str {
        match self {
            Self::House => "what the house file gives",
            Self::Published => "what is published of the unit; its source is named in the catalog",
            Self::Climate => "the climate's record, grouped by 1 K and 1 g/kg",
            Self::Definition => "follows from the definition of the figure",
            Self::Fundamentals => "ASHRAE Handbook - Fundamentals 2017, chapter 1, Psychrometrics",
            Self::AppendixM1 => {
                "10 CFR 430 Subpart B Appendix M1: capacity and input linear between points, COP linear in capacity between speeds, loss by cycling, straight load line"
            }
            Self::BypassFactor => {
                "bypass-factor method, ASHRAE, in the form of public building-simulation references"
            }
            Self::Henderson => {
                "Henderson and Rengarajan 1996, ASHRAE Transactions 102(1), latent capacity at part load with the fan running on"
            }
            Self::CommonPractice => "common practice, no source",
            Self::OurRule => "our rule, no source",
        }
    }
}
