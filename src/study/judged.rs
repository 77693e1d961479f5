//! A unit with its figures and its verdict.

use super::{Caveat, RunningYear};
use crate::cooling::CoolingFigures;
use crate::criteria::{Ask, Findings, Reason};
use crate::equipment::Model;
use crate::heating::HeatingFigures;
use crate::quantity::KilowattHours;

/// What a unit comes to in a house.
#[derive(Debug)]
pub struct Judged {
    /// The unit.
    pub model: Model,
    /// Heating figures.
    pub heating: HeatingFigures,
    /// Cooling figures; `None` where the house is not cooled.
    pub cooling: Option<CoolingFigures>,
    /// Standby electricity of the hours without a call; `None` where it is not published or there is no climate.
    pub standby: Option<KilowattHours>,
    /// What the year costs and causes; `None` where it was not asked for.
    pub running: Option<RunningYear>,
    /// Accepted, rejected or undecided.
    pub verdict: Verdict,
    /// What a reader must know beside it.
    pub caveats: Vec<Caveat>,
}

/// The three outcomes.
#[derive(Debug)]
pub enum Verdict {
    /// Every requirement is shown to hold.
    Accepted,
    /// At least one is shown not to; every reason is listed.
    Rejected(Vec<Box<dyn Reason>>),
    /// None fails, but some value needed is not published.
    Undecided(Vec<Ask>),
}

impl Verdict {
    /// Its name in answers.
    #[must_use]
    pub fn name(&self) -> &'static str {
        match self {
            Self::Accepted => "accepted",
            Self::Rejected(_) => "rejected",
            Self::Undecided(_) => "undecided",
        }
    }

    /// The verdict that follows from what the requirements found: reasons win over questions.
    #[must_use]
    pub fn of(findings: Findings) -> Self {
        if !findings.reasons.is_empty() {
            Self::Rejected(findings.reasons)
        } else if findings.asks.is_empty() {
            Self::Accepted
        } else {
            Self::Undecided(findings.asks)
        }
    }
}

impl Judged {
    /// Electricity of a year, heating and cooling, with the backup's heat: what ranks accepted units by default.
    ///
    /// `None` without a climate, and where the cooling season's electricity is not known.
    #[must_use]
    pub fn annual_electricity(&self) -> Option<KilowattHours> {
        let heating = self.heating.season?;
        let cooling = match &self.cooling {
            None => KilowattHours::ZERO,
            Some(cooling) => cooling.season?.known?.electricity,
        };
        Some(heating.electricity + heating.backup + cooling)
    }
}
